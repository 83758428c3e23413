package template

import (
	"fretband/export/pdf"
	"fretband/unroll/plane"
)

// drawJoins draws the lines along which sheets are joined, at the middle of the
// overlap, with two ringed crosses each that both sheets show at the same position
// of the part.
func (t *template) drawJoins(at tile) {
	a := t.area
	cross := func(p plane.Point) {
		const arm, ring = 3.0, 1.8
		t.doc.Line(p.Add(plane.Pt(-arm, 0)), p.Add(plane.Pt(arm, 0)), edgePen)
		t.doc.Line(p.Add(plane.Pt(0, -arm)), p.Add(plane.Pt(0, arm)), edgePen)
		t.doc.Loop(plane.Circle(p, ring), plane.Point{}, engravingPen)
	}
	// Crosses are this far from the ends of the line: outside the overlap of
	// the other direction, so that each belongs to one pair of sheets.
	inX, inY := 5.0, 5.0
	if t.across > 1 {
		inX += overlap
	}
	if t.down > 1 {
		inY += overlap
	}
	upright := func(x float64, words string, side pdf.Align) {
		t.doc.Line(plane.Pt(x, a.Min.Y), plane.Pt(x, a.Max.Y), joinPen)
		cross(plane.Pt(x, a.Min.Y+inY))
		cross(plane.Pt(x, a.Max.Y-inY))
		beside := 4.0
		if side == pdf.Right {
			beside = -beside
		}
		t.doc.Text(plane.Pt(x+beside, a.Max.Y-inY+1), words, smallFont, side)
	}
	level := func(y float64, words string) {
		t.doc.Line(plane.Pt(a.Min.X, y), plane.Pt(a.Max.X, y), joinPen)
		cross(plane.Pt(a.Min.X+inX, y))
		cross(plane.Pt(a.Max.X-inX, y))
		t.doc.Text(plane.Pt(a.Min.X+inX+4, y+0.7), words, smallFont, pdf.Left)
	}
	pair := func(a, b tile) string { return t.tileName(a) + " joins " + t.tileName(b) }
	row, col := at.row, at.col
	if col > 0 {
		upright(a.Min.X+overlap/2, pair(tile{row, col - 1}, at), pdf.Left)
	}
	if col < t.across-1 {
		upright(a.Max.X-overlap/2, pair(at, tile{row, col + 1}), pdf.Right)
	}
	if row > 0 {
		level(a.Max.Y-overlap/2, pair(tile{row - 1, col}, at))
	}
	if row < t.down-1 {
		level(a.Min.Y+overlap/2, pair(at, tile{row + 1, col}))
	}
}

// drawMap draws how the sheets lie to one another, the one at hand with a thick frame,
// with its lower left corner at p and in that height at the most.
func (l paging) drawMap(d *pdf.Doc, p plane.Point, high float64, at *tile) {
	w, h := l.mapCell(high)
	for row := range l.down {
		for col := range l.across {
			q := p.Add(plane.Pt(float64(col)*w, float64(l.down-1-row)*h))
			b := plane.Box{Min: q, Max: q.Add(plane.Pt(w, h))}
			d.Loop(plane.Rect(b), plane.Point{}, framePen)
			if here := (tile{row, col}); at != nil && *at == here {
				d.Loop(plane.Rect(b.Grow(-0.25)), plane.Point{}, pdf.Pen{Width: 0.5})
			}
			if f := (pdf.Font{Size: min(tinyFont.Size, 0.75*h)}); h >= 1.5 {
				d.Text(b.Centre().Sub(plane.Pt(0, f.CapHeight()/2)), l.tileName(tile{row, col}), f, pdf.Centre)
			}
		}
	}
}

// mapCell returns the size of a sheet on the map.
func (l paging) mapCell(high float64) (w, h float64) {
	h = high / float64(l.down)
	return max(4, min(7, h*l.w/l.h)), h
}
