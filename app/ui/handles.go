package ui

import (
	"fmt"
	"math"

	"fretband/app"
	"fretband/unroll/plane"
)

// handle is a point of a drawn edge, to be dragged on the blank.
type handle struct {
	at    plane.Point
	edge  app.Edge
	index int
}

// handleReach is how near the pointer must come to a handle to take it, px.
const handleReach = 9

// handleAt returns the index of the handle at a pixel, or -1.
func (b *blankView) handleAt(x, y float64) int {
	best, at := handleReach*b.v.frame.scale, -1
	for i, h := range b.marks.handles {
		if d := math.Hypot(b.v.x(h.at.X)-x, b.v.y(h.at.Y)-y); d <= best {
			best, at = d, i
		}
	}
	return at
}

// showHandles puts the points of the drawn edges on the blank while the page
// that edits them is open.
func (w *Window) showHandles() {
	m := &w.blank.marks
	m.handles = nil
	if w.scene != nil && w.controls.open == formPage && !w.lower.folded {
		f := w.scene.sheet.Flat
		for _, e := range app.Edges() {
			for i, p := range e.Points(w.scene.sheet.Design) {
				x := p.At * f.Length / 2
				bottom, top := f.EdgesAt(x)
				v := top
				if e == app.BottomEdge {
					v = bottom
				}
				m.handles = append(m.handles, handle{f.Place(x, v), e, i})
			}
		}
	}
	if m.held >= len(m.handles) {
		m.held = -1
	}
	w.blank.redraw()
}

// moveHandle puts the point of a handle under the pointer. It is measured from
// the plain edge of the scene that is drawn, so that a scene that comes late
// does not add to the move.
func (w *Window) moveHandle(h handle, to plane.Point) {
	if w.scene == nil {
		return
	}
	was := h.edge.Points(w.scene.sheet.Design)
	if h.index >= len(was) {
		return
	}
	f := w.scene.sheet.Flat
	p := was[h.index]
	bottom, top := f.EdgesAt(p.At * f.Length / 2)
	x, v := f.Where(to)
	out := v - (top - p.OutMM)
	if h.edge == app.BottomEdge {
		out = (bottom + p.OutMM) - v
	}
	d := w.doc.Now()
	text := func() string {
		if ps := h.edge.Points(d); h.index < len(ps) {
			return fmt.Sprintf("%g,%g", ps[h.index].At, ps[h.index].OutMM)
		}
		return ""
	}
	old := text()
	app.MoveEdgePoint(&d, h.edge, h.index, 2*x/f.Length, out)
	path := fmt.Sprintf("%s[%d]", h.edge.Path(), h.index)
	w.change(path, path, old, text(), d)
}

// drawHandles draws the handles as small squares that no opening looks like.
func (p *sheetPainter) drawHandles(v view, d *dress, m marks) {
	s := v.frame.scale
	for i, h := range m.handles {
		x, y := math.Round(v.x(h.at.X)), math.Round(v.y(h.at.Y))
		r := 4.5 * s
		if i == m.held || i == m.overHandle {
			r = 6 * s
		}
		p.fill.Rect(x-r-1.5*s, y-r-1.5*s, x+r+1.5*s, y+r+1.5*s)
		p.drawInside(v, d.paper)
		p.fill.Rect(x-r, y-r, x+r, y+r)
		p.drawInside(v, d.selected)
		p.fill.Rect(x-r+2*s, y-r+2*s, x+r-2*s, y+r-2*s)
		p.drawInside(v, d.paper)
	}
}
