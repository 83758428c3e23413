package template

import (
	"slices"
	"strconv"

	"fretband/export"
	"fretband/export/pdf"
	"fretband/pattern"
	"fretband/unroll/plane"
)

// Places on every sheet, from its lower left corner: where a reader, or a test,
// finds the square and the rulers.
const (
	squareX, squareY, squareSide = 24.0, margin, 20.0
	rulerX, rulerY, rulerLength  = 49.0, 18.0, 50.0
	uprightX, uprightY           = 18.0, margin
	keyX                         = 105.0
)

func (t *template) drawSquare() {
	b := plane.Box{Min: plane.Pt(squareX, squareY), Max: plane.Pt(squareX+squareSide, squareY+squareSide)}
	t.doc.Loop(plane.Rect(b), plane.Point{}, edgePen)
	c := b.Centre()
	t.doc.Text(plane.Pt(c.X, c.Y-0.8), "20 x 20 mm", smallFont, pdf.Centre)
}

// drawRulers draws the level ruler and the upright one: a printer may stretch one way
// alone.
func (t *template) drawRulers() {
	t.drawRuler(plane.Pt(rulerX, rulerY), plane.Pt(1, 0))
	t.drawRuler(plane.Pt(uprightX, uprightY), plane.Pt(0, 1))
	t.doc.Text(plane.Pt(rulerX+rulerLength/2, rulerY-4), "50 mm both ways on the print, by a steel rule", smallFont, pdf.Centre)
}

// drawRuler draws a ruler from a position along a way, its marks on the left of it.
func (t *template) drawRuler(from, way plane.Point) {
	d := t.doc
	beside := way.Left()
	d.Line(from, from.Add(way.Mul(rulerLength)), edgePen)
	for i := 0; i <= rulerLength; i++ {
		at := from.Add(way.Mul(float64(i)))
		tick := 2.0
		switch {
		case i%10 == 0:
			tick = 5
			text := strconv.Itoa(i)
			if way.X != 0 {
				d.Text(at.Add(beside.Mul(tick+0.8)), text, smallFont, pdf.Centre)
			} else if i > 0 { // the lowest would be on the margin
				d.Text(at.Add(beside.Mul(tick+0.6)).Sub(plane.Pt(0, smallFont.CapHeight()/2)), text, smallFont, pdf.Right)
			}
		case i%5 == 0:
			tick = 3.2
		}
		d.Line(at, at.Add(beside.Mul(tick)), engravingPen)
	}
}

// keyLine is one line of the key: a sign, drawn about the middle of its position, and what
// it means.
type keyLine struct {
	sign func(at plane.Point)
	text string
}

// drawKey says what the lines mean.
func (t *template) drawKey() {
	d := t.doc
	line := func(p pdf.Pen) func(plane.Point) {
		return func(at plane.Point) { d.Line(at.Add(plane.Pt(-4, 0)), at.Add(plane.Pt(4, 0)), p) }
	}
	lines := []keyLine{
		{func(at plane.Point) {
			line(outlinePen)(at)
			for x := -3.5; x < 4; x += 1.5 {
				d.Line(at.Add(plane.Pt(x, 0)), at.Add(plane.Pt(x+0.6, 0.6)), wastePen)
			}
		}, "finished edge: saw on the waste side, where the short strokes are"},
		{nil, "(small openings have none: saw inside them)"},
		{func(at plane.Point) { t.drawPilot(at, pilotArm, 0); t.drawPilot(at.Add(plane.Pt(3, 0)), pilotArm, 0.4) },
			"pilot hole; with a circle: as large as its drill in the table"},
		{line(centrePen), "centre line and quarter lines of the blank: not sawn"},
	}
	if t.grain() {
		lines = append(lines, keyLine{func(at plane.Point) { t.drawArrow(at, 8, true) },
			"grain: the way the sheet was rolled, here along the band,"},
			keyLine{nil, "so that it bends across the grain (common practice)"})
	}
	if len(t.sheet.Reserves) > 0 {
		lines = append(lines, keyLine{line(reservePen), "area kept solid: not sawn"})
	}
	if len(t.sheet.Added) > 0 {
		lines = append(lines, keyLine{line(reservePen), "seat of a stone, a wire or a part: soldered on, not sawn"})
	}
	if len(t.sheet.Engravings) > 0 {
		lines = append(lines, keyLine{line(gravePen), "finest line, no pilot hole: engraved, not sawn"})
	}
	if slices.ContainsFunc(t.sheet.Engravings, func(m pattern.EngravedLines) bool { return m.Inside }) {
		lines = append(lines, keyLine{line(innerPen), "broken finest line: engraved on the inner face, seen through the metal"})
	}
	if export.OverEnds(t.sheet) {
		lines = append(lines, keyLine{line(againPen), "the same opening again, from the other end"})
	}
	if t.tiled() {
		lines = append(lines, keyLine{line(joinPen), "join here: cut one sheet along it, lay the ringed crosses"},
			keyLine{nil, "on each other, tape"})
	}
	top := margin + footHeight - 4
	step := min(3.4, (footHeight-4)/float64(len(lines)-1))
	for i, l := range lines {
		at := plane.Pt(keyX, top-float64(i)*step)
		if l.sign != nil {
			l.sign(at.Add(plane.Pt(4, smallFont.CapHeight()/2)))
		}
		d.Text(at.Add(plane.Pt(10, 0)), l.text, smallFont, pdf.Left)
	}
}

// drawPilot draws a pilot hole: a cross, and the hole itself if a radius is given.
func (t *template) drawPilot(at plane.Point, arm, radius float64) {
	t.doc.Line(at.Add(plane.Pt(-arm, 0)), at.Add(plane.Pt(arm, 0)), engravingPen)
	t.doc.Line(at.Add(plane.Pt(0, -arm)), at.Add(plane.Pt(0, arm)), engravingPen)
	if radius > 0 {
		t.doc.Loop(plane.Circle(at, radius), plane.Point{}, wastePen)
	}
}

// drawArrow draws an arrow about a position, with a point to the right or at both ends.
func (t *template) drawArrow(at plane.Point, long float64, both bool) {
	a, b := at.Sub(plane.Pt(long/2, 0)), at.Add(plane.Pt(long/2, 0))
	t.doc.Line(a, b, engravingPen)
	t.drawPoint(b, plane.Pt(1, 0))
	if both {
		t.drawPoint(a, plane.Pt(-1, 0))
	}
}

// drawPoint draws the point of an arrow that comes along a way.
func (t *template) drawPoint(tip, way plane.Point) {
	back, side := way.Mul(-1.5), way.Left().Mul(0.45)
	t.doc.Fill(plane.Polygon(tip, tip.Add(back).Add(side), tip.Add(back).Sub(side)), plane.Point{}, 0)
}
