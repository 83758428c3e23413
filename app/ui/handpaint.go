package ui

import (
	"math"

	"fretband/app"
	"fretband/app/ui/kit"
	"fretband/unroll/plane"
)

// handMarks is what editing by hand lays over the drawing.
type handMarks struct {
	tool   string       // shape that the next drag draws
	sweep  *plane.Box   // the box that picks
	ghosts []plane.Loop // what is dragged, as it will be
	draft  plane.Loop   // the opening that is being drawn
}

// solidAt returns the index of the solid cell that holds p, or -1.
func (s *scene) solidAt(p plane.Point) int {
	if s == nil {
		return -1
	}
	for i, c := range s.sheet.Solid {
		for _, l := range s.sheet.Again(c.Loop) {
			if l.Contains(p) {
				return i
			}
		}
	}
	return -1
}

// drawSolid shows the cells that are left solid by hand, faintly: an outline of
// dashes, hatched.
func (p *sheetPainter) drawSolid(v view, s *scene) {
	if len(s.sheet.Solid) == 0 {
		return
	}
	f := v.frame
	all := func(do func(pts []plane.Point, at plane.Point)) {
		for _, c := range s.sheet.Solid {
			for _, l := range s.sheet.Again(c.Loop) {
				do(l.Flatten(0.2/v.k), plane.Point{})
			}
		}
	}
	all(func(pts []plane.Point, at plane.Point) { p.loopPath(v, pts, at, 0, 0, false) })
	p.hatch(v, kit.Alpha(s.tone.Edge, 90), -1)
	all(func(pts []plane.Point, at plane.Point) {
		n := len(pts)
		for i, a := range pts {
			b := pts[(i+1)%n]
			p.fill.Dashes(v.x(a.X+at.X), v.y(a.Y), v.x(b.X+at.X), v.y(b.Y), math.Max(1, f.scale), 3*f.scale, 3*f.scale)
		}
	})
	p.drawInside(v, kit.Alpha(s.tone.Edge, 170))
}

// rimsUpTo is the most picked openings that get a light rim and a ghost of their
// own: more of them would be slow, and no eye would follow each.
const rimsUpTo = 500

// drawPicked shows what is picked: hatched, tinted and with a strong edge, all in
// one go however many there are.
func (p *sheetPainter) drawPicked(v view, s *scene, d *kit.Dress, m marks) {
	if len(m.picked) == 0 {
		return
	}
	f := v.frame
	sight := plane.Box{Min: v.mm(f.left, f.bottom), Max: v.mm(f.right, f.top)}
	each := func(do func(pts []plane.Point, at plane.Point)) {
		for _, q := range m.picked {
			l, pts, at := p.pickedOutline(v, s, q)
			if pts == nil {
				continue
			}
			for _, by := range copies(s.sheet, l) {
				if l.Bounds().Move(by).Meets(sight) {
					do(pts, at.Add(by))
				}
			}
		}
	}
	fill := func(pts []plane.Point, at plane.Point) { p.loopPath(v, pts, at, 0, 0, false) }
	each(fill)
	p.drawInside(v, kit.Alpha(d.Selected, 50))
	each(fill)
	p.hatch(v, kit.Alpha(d.Selected, 190), 1)
	if len(m.picked) <= rimsUpTo {
		each(func(pts []plane.Point, at plane.Point) { p.strokePath(v, pts, at, 4.5*f.scale) })
		p.drawInside(v, kit.Alpha(d.Paper, 190))
	}
	each(func(pts []plane.Point, at plane.Point) { p.strokePath(v, pts, at, 2.5*f.scale) })
	p.drawInside(v, d.Selected)
}

func (p *sheetPainter) pickedOutline(v view, s *scene, q app.Picked) (plane.Loop, []plane.Point, plane.Point) {
	switch {
	case q.Opening >= 0 && q.Opening < len(s.sheet.Openings):
		pts, at := p.flatten(v, s, q.Opening)
		return s.sheet.Openings[q.Opening].Loop, pts, at
	case q.Solid >= 0 && q.Solid < len(s.sheet.Solid):
		l := s.sheet.Solid[q.Solid].Loop
		return l, l.Flatten(0.2 / v.k), plane.Point{}
	}
	return nil, nil, plane.Point{}
}

// drawHand draws what the hand is doing: the box that sweeps, the shape that is
// drawn, ghosts of what is dragged, and the numbers beside the pointer.
func (p *sheetPainter) drawHand(v view, s *scene, d *kit.Dress, m marks) {
	f := v.frame
	for _, l := range m.hand.ghosts[:min(rimsUpTo, len(m.hand.ghosts))] {
		pts := l.Flatten(0.2 / v.k)
		p.strokePath(v, pts, plane.Point{}, 1.5*f.scale)
	}
	p.drawInside(v, d.Selected)
	if l := m.hand.draft; l != nil {
		pts := l.Flatten(0.2 / v.k)
		p.loopPath(v, pts, plane.Point{}, 0, 0, false)
		p.drawInside(v, kit.Alpha(d.Selected, 60))
		p.strokePath(v, pts, plane.Point{}, 2*f.scale)
		p.drawInside(v, d.Selected)
	}
	if b := m.hand.sweep; b != nil {
		x0, y0, x1, y1 := v.x(b.Min.X), v.y(b.Max.Y), v.x(b.Max.X), v.y(b.Min.Y)
		p.fill.Rect(x0, y0, x1, y1)
		p.drawInside(v, kit.Alpha(d.Selected, 28))
		for _, e := range [4][4]float64{{x0, y0, x1, y0}, {x1, y0, x1, y1}, {x1, y1, x0, y1}, {x0, y1, x0, y0}} {
			p.fill.Dashes(e[0], e[1], e[2], e[3], 1.5*f.scale, 5*f.scale, 4*f.scale)
		}
		p.drawInside(v, d.Selected)
	}
	if m.beside != "" {
		p.chip(v, m.beside, m.px, m.py-26*f.scale, d, d.Selected)
	}
}
