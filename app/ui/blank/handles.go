package blank

import (
	"fmt"
	"math"
	"slices"

	"fretband/app"
	"fretband/app/ui/kit"
	"fretband/pattern"
	"fretband/unroll/plane"
)

// handle is a point on the blank that a hand can take: a point of a drawn edge, the
// turn of an opening.
type handle struct {
	At    plane.Point
	Name  string       // for the script that drives the window
	hint  string       // what it is, told while the pointer is over it
	quiet bool         // seen only while the pointer is on the blank
	round bool         // drawn as a disc, not as a square
	free  bool         // it follows the hand while it is held
	stem  *plane.Point // a line is drawn from here to it
	// take takes hold of it: what it moves from then on is measured from what the
	// design was at that moment.
	take func() drag
}

// handleRange is how near the pointer must come to a handle to take it, px.
const handleRange = 9

// handleAt returns the index of the handle at a pixel, or -1.
func (b *View) handleAt(x, y float64) int {
	best, at := handleRange*b.v.frame.scale, -1
	for i, h := range b.Overlay.Handles {
		if d := math.Hypot(b.v.x(h.At.X)-x, b.v.y(h.At.Y)-y); d <= best {
			best, at = d, i
		}
	}
	return at
}

// ShowHandles puts on the blank all handles there are now. They come and go with the
// page that is open and with what is selected, but not while one is held.
func (b *View) ShowHandles() {
	m := &b.Overlay
	m.Handles, m.Hand.drawn = nil, nil
	b.showUnderlay()
	if d, ok := b.ed.PickedOutline(); ok {
		m.Hand.drawn = d.Line
	}
	if b.ed.Tool != app.PenTool {
		m.Hand.pen = penOverlay{}
	}
	if b.ed.Tool != app.TieTool {
		b.tieGiveUp()
	}
	if s := b.scene; s != nil {
		m.Handles = slices.Concat(b.edgeHandles(s), b.handHandles(s), b.outlineHandles(), b.underlayHandles(), b.tieHandles(s), b.itemHandles(s), b.fieldHandles(s))
	}
	if m.held >= len(m.Handles) {
		m.held = -1
	}
	if m.OverHandle >= len(m.Handles) {
		m.OverHandle = -1
	}
	b.Redraw()
}

// edgeHandles are the points of the drawn edges, while the page that edits them is
// open.
func (b *View) edgeHandles(s *app.Scene) []handle {
	if b.ed.Page != app.FormPage || b.ed.Folded {
		return nil
	}
	var hs []handle
	f := s.Sheet.Flat
	for _, e := range app.Edges() {
		for i, p := range e.Points(s.Sheet.Design) {
			x := p.At * f.Length / 2
			bottom, top := f.EdgesAt(x)
			v := top
			if e == app.BottomEdge {
				v = bottom
			}
			hs = append(hs, handle{At: f.Place(x, v), Name: fmt.Sprintf("%s[%d]", e.Path(), i), take: func() drag {
				return drag{move: func(to plane.Point) { b.moveEdgePoint(e, i, to) }}
			}})
		}
	}
	return hs
}

// moveEdgePoint puts a point of an edge under the pointer. It measures from the plain edge
// of the scene that is drawn, so a late result does not move it twice.
func (b *View) moveEdgePoint(e app.Edge, i int, to plane.Point) {
	if b.scene == nil {
		return
	}
	was := e.Points(b.scene.Sheet.Design)
	d := b.ed.Now()
	if i >= min(len(was), len(e.Points(d))) {
		return // the design has lost the point since its scene was drawn
	}
	f := b.scene.Sheet.Flat
	p := was[i]
	bottom, top := f.EdgesAt(p.At * f.Length / 2)
	x, v := f.Where(to)
	out := v - (top - p.OutMM)
	if e == app.BottomEdge {
		out = (bottom + p.OutMM) - v
	}
	text := func() string {
		if ps := e.Points(d); i < len(ps) {
			return pattern.Say("%g,%g", ps[i].At, ps[i].OutMM)
		}
		return ""
	}
	old := text()
	app.MoveEdgePoint(&d, e, i, 2*x/f.Length, out)
	path := fmt.Sprintf("%s[%d]", e.Path(), i)
	b.Overlay.Beside = pattern.Say("%.2f mm out", e.Points(d)[i].OutMM)
	b.ed.Change(path, path, old, text(), d)
}

// drawHandles draws the handles as small squares and discs that no opening looks
// like.
func (p *sheetPainter) drawHandles(v viewport, d *kit.Dress, m overlay) {
	s := v.frame.scale
	for i, h := range m.Handles {
		if h.quiet && !m.pointer && m.held < 0 {
			continue
		}
		x, y := math.Round(v.x(h.At.X)), math.Round(v.y(h.At.Y))
		if i == m.held && h.free && m.Beside != "" {
			x, y = m.px, m.py
		}
		if h.stem != nil {
			x0, y0 := v.x(h.stem.X), v.y(h.stem.Y)
			p.fill.Line(x0, y0, x, y, 3.5*s)
			p.drawInside(v, kit.Alpha(d.Paper, 200))
			p.fill.Line(x0, y0, x, y, 1.5*s)
			p.drawInside(v, d.Selected)
		}
		r := 4.5 * s
		if i == m.held || i == m.OverHandle {
			r = 6 * s
		}
		dot := func(r float64) {
			if h.round {
				p.fill.Disc(x, y, r+0.5*s)
			} else {
				p.fill.Rect(x-r, y-r, x+r, y+r)
			}
		}
		dot(r + 1.5*s)
		p.drawInside(v, d.Paper)
		dot(r)
		p.drawInside(v, d.Selected)
		dot(r - 2*s)
		p.drawInside(v, d.Paper)
	}
}
