package blank

import (
	"fmt"
	"image/color"
	"math"

	"fretband/app"
	"fretband/app/ui/kit"
	"fretband/pattern"
	"fretband/pattern/pen"
	"fretband/unroll/plane"

	"fyne.io/fyne/v2"
)

// penReach is how near the pointer must come to what draws it to itself, px; gridPixels how
// far apart the lines of the grid are at least.
const (
	penReach   = 8
	gridPixels = 5
)

// penOverlay is the opening that is being drawn by its points.
type penOverlay struct {
	drawing pen.Drawing
	to      plane.Point // where the next point would be
	catch   pen.Catch
	images  []plane.Loop // of the whole, if it were closed now, with its mirror images
	left    []plane.Loop // what the rules leave of them
	// bending says that the hand bends the last edge: none leads on to the pointer.
	bending bool
}

// snap returns the position that the pointer is drawn to.
func (b *View) snap(at plane.Point, first *plane.Point, points []plane.Point) (plane.Point, pen.Catch) {
	px := b.v.k / math.Max(1, b.v.frame.scale) // of the toolkit's pixels to the millimetre
	s := b.ed.PenSnaps(at, penReach/px, pen.GridFor(gridPixels/px), points)
	s.First = first
	return s.At(at)
}

func pointsOf(d pen.Drawing) []plane.Point {
	var ps []plane.Point
	for _, v := range d.Line {
		ps = append(ps, v.Point)
	}
	return ps
}

// penHover has the drawing lead on to the pointer.
func (b *View) penHover(at plane.Point) {
	m := &b.Overlay.Hand.pen
	var first *plane.Point
	if n := len(m.drawing.Line); n > 2 || n == 2 && m.drawing.Line[0].Bulge != 0 {
		first = &m.drawing.Line[0].Point
	}
	m.to, m.catch = b.snap(at, first, pointsOf(m.drawing))
	b.penTell()
}

// penTell works out what would come of closing the drawing now, and says it beside the hand.
func (b *View) penTell() {
	m := &b.Overlay.Hand.pen
	m.images, m.left = nil, nil
	text := ""
	d := m.drawing
	if n := len(d.Line); n > 0 && !m.bending {
		last := d.Line[n-1].Point
		if m.catch != pen.First {
			d = d.Add(m.to)
		}
		text = pattern.Say("%.2f mm", last.Dist(m.to))
	} else if m.bending {
		e := d.Line.Edge(n - 2)
		text = pattern.Say("%.2f mm, straight", e.Len())
		if !e.IsLine() {
			text = pattern.Say("arc of radius %.2f mm", math.Abs(e.Radius()))
		}
	}
	taken := 0.0
	if l, err := d.Loop(); err == nil {
		m.images, m.left, taken = b.ed.DraftImages(l)
	}
	if c := app.CatchText(m.catch); c != "" && !m.bending {
		text += "   " + c
	}
	if taken > 0.005 {
		text += pattern.Say("   the rules take %.2f mm\u00b2", taken)
	}
	b.Overlay.Beside = text
}

// penClick puts a point, or closes the drawing at its first.
func (b *View) penClick(at plane.Point) {
	b.penHover(at)
	m := &b.Overlay.Hand.pen
	if m.catch == pen.First {
		b.penClose()
		return
	}
	if n := len(m.drawing.Line); n > 0 && m.drawing.Line[n-1].Dist(m.to) < plane.Snap {
		return // a second click at one place
	}
	m.drawing = m.drawing.Add(m.to)
	b.penTell()
}

// grabPen puts a point where the hand was pressed and bends the edge that leads to it, by
// pulling.
func (b *View) grabPen(at plane.Point) *drag {
	b.penHover(at)
	m := &b.Overlay.Hand.pen
	closing := m.catch == pen.First
	if !closing {
		m.drawing = m.drawing.Add(m.to)
	}
	return &drag{
		move: func(to plane.Point) {
			n := len(m.drawing.Line)
			if n < 2 {
				m.drawing = m.drawing.Move(0, to)
				return
			}
			if closing {
				m.drawing = m.drawing.Close().Bend(n-1, to)
				m.bending = false
				m.images, m.left = nil, nil
				taken := 0.0
				if l, err := m.drawing.Loop(); err == nil {
					m.images, m.left, taken = b.ed.DraftImages(l)
				}
				b.Overlay.Beside = "closes by an arc"
				if taken > 0.005 {
					b.Overlay.Beside += pattern.Say("   the rules take %.2f mm\u00b2", taken)
				}
				return
			}
			m.bending = true
			m.drawing = m.drawing.Bend(n-2, to)
			b.penTell()
		},
		drop: func() {
			m.bending = false
			if closing {
				b.penClose()
			}
		},
	}
}

// penClose cuts what was drawn.
func (b *View) penClose() {
	m := &b.Overlay.Hand.pen
	l, err := m.drawing.Close().Loop()
	if err != nil {
		m.drawing.Closed = false
		b.ed.On.Say("This can't be cut: " + err.Error() + ".")
		return
	}
	b.ed.On.Say("")
	b.ed.Log.Event("drawn", "points", len(l), "area_mm2", l.Area())
	*m = penOverlay{}
	b.Overlay.Beside = ""
	b.ed.DrawOutline(l)
	b.doors.Moved()
}

// penKey takes the keys of the pen, and reports whether it did.
func (b *View) penKey(name fyne.KeyName) bool {
	m := &b.Overlay.Hand.pen
	if b.ed.Tool != app.PenTool || len(m.drawing.Line) == 0 {
		return false
	}
	switch name {
	case fyne.KeyReturn, fyne.KeyEnter:
		b.penClose()
	case fyne.KeyBackspace, fyne.KeyDelete:
		m.drawing = m.drawing.Back()
		b.penTell()
	default:
		return false
	}
	b.Redraw()
	return true
}

// penGiveUp forgets what is being drawn, and reports whether there was anything.
func (b *View) penGiveUp() bool {
	had := len(b.Overlay.Hand.pen.drawing.Line) > 0
	b.Overlay.Hand.pen = penOverlay{}
	if had {
		b.Overlay.Beside = ""
		b.Redraw()
	}
	return had
}

// mostPoints is up to how many points of an outline have handles: a hand would not find one
// of more.
const mostPoints = 60

// outlineHandles are the points of the drawing that is picked, and the middles of its edges,
// which bend them. With Shift the middle of an edge becomes a point; a point that is dragged
// onto the next is taken away.
func (b *View) outlineHandles() []handle {
	d, ok := b.ed.PickedOutline()
	if !ok || len(d.Line) > mostPoints {
		return nil
	}
	one := func(name, hint string, at plane.Point, do func(to plane.Point) pen.Drawing) handle {
		return handle{At: at, Name: name, hint: hint, free: true, take: func() drag {
			change := b.ed.HoldOutline()
			return drag{
				move: func(to plane.Point) {
					if err := change(do(to)); err != nil {
						b.Overlay.Beside = err.Error()
						return
					}
					if t := b.ed.TakenText(); b.Overlay.Beside == "" {
						b.Overlay.Beside = t
					}
				},
				drop: func() {
					b.ed.On.Picked()
					b.doors.Moved()
				},
			}
		}}
	}
	var hs []handle
	for i, v := range d.Line {
		others := append(pointsOf(d)[:i:i], pointsOf(d)[i+1:]...)
		hs = append(hs, one(fmt.Sprintf("point:%d", i), "A point of the drawing. Drag it onto another to take it away.", v.Point, func(to plane.Point) pen.Drawing {
			q, catch := b.snap(to, nil, others)
			b.Overlay.Beside = pattern.Say("x %.2f   y %.2f mm   %s", q.X, q.Y, app.CatchText(catch))
			for _, o := range others {
				if o == q && len(d.Line) > 2 {
					b.Overlay.Beside = "takes the point away"
					return d.Remove(i)
				}
			}
			return d.Move(i, q)
		}))
		e := d.Line.Edge(i)
		middle := one(fmt.Sprintf("bend:%d", i), "Bend this edge; with Shift, put a point here.", e.Mid(), func(to plane.Point) pen.Drawing {
			if b.downMod&fyne.KeyModifierShift != 0 {
				more, k := d.Insert(i, e.Mid())
				q, catch := b.snap(to, nil, pointsOf(d))
				b.Overlay.Beside = pattern.Say("x %.2f   y %.2f mm   %s", q.X, q.Y, app.CatchText(catch))
				return more.Move(k, q)
			}
			bent := d.Bend(i, to)
			b.Overlay.Beside = "straight"
			if e := bent.Line.Edge(i); !e.IsLine() {
				b.Overlay.Beside = pattern.Say("arc of radius %.2f mm", math.Abs(e.Radius()))
			}
			return bent
		})
		middle.round = true
		hs = append(hs, middle)
	}
	return hs
}

// drawPen draws the outline that is being drawn: its edges and points, the edge on to the
// pointer, its mirror images, and hatched what the rules would take.
func (p *sheetPainter) drawPen(v viewport, d *kit.Dress, m penOverlay) {
	s := v.frame.scale
	for _, l := range m.images {
		p.loopPath(v, l.Flatten(0.2/v.k), plane.Point{}, false)
	}
	if len(m.images) > 0 {
		p.hatch(v, kit.Alpha(d.Caution, 200), 1)
		for _, l := range m.left {
			p.loopPath(v, l.Flatten(0.2/v.k), plane.Point{}, false)
		}
		p.drawInside(v, d.Paper)
		for _, l := range m.left {
			p.loopPath(v, l.Flatten(0.2/v.k), plane.Point{}, false)
		}
		p.drawInside(v, kit.Alpha(d.Selected, 40))
		for _, l := range m.images[min(1, len(m.images)):] {
			p.strokePath(v, l.Flatten(0.2/v.k), plane.Point{}, 1.2*s)
		}
		p.drawInside(v, d.Selected)
	}
	es := m.drawing.Edges()
	if n := len(m.drawing.Line); n > 0 && !m.drawing.Closed && !m.bending {
		es = append(es, plane.Edge{A: m.drawing.Line[n-1].Point, B: m.to})
	}
	line := func(w float64, c color.NRGBA) {
		for _, e := range es {
			pts := e.Flatten(0.2 / v.k)
			for i := 0; i+1 < len(pts); i++ {
				p.fill.Line(v.x(pts[i].X), v.y(pts[i].Y), v.x(pts[i+1].X), v.y(pts[i+1].Y), w)
			}
		}
		p.drawInside(v, c)
	}
	line(4*s, kit.Alpha(d.Paper, 210))
	line(2*s, d.Selected)
	dot := func(q plane.Point, r float64, c color.NRGBA) {
		x, y := math.Round(v.x(q.X)), math.Round(v.y(q.Y))
		p.fill.Rect(x-r, y-r, x+r, y+r)
		p.drawInside(v, c)
	}
	for i, q := range m.drawing.Line {
		r := 4 * s
		if i == 0 && m.catch == pen.First {
			r = 7 * s
		}
		dot(q.Point, r+1.5*s, d.Paper)
		dot(q.Point, r, d.Selected)
		dot(q.Point, r-1.5*s, d.Paper)
	}
	if m.catch != pen.First {
		dot(m.to, 2.5*s, d.Selected)
	}
}

// Draft returns the outlines of what is being drawn, if it were closed now.
func (h handOverlay) Draft() []plane.Loop { return h.pen.images }
