package blank

import (
	"fmt"
	"image/color"
	"math"

	"fretband/app"
	"fretband/app/ui/kit"
	"fretband/export/picture"
	"fretband/pattern"
	"fretband/pattern/check"
	"fretband/unroll/plane"
)

// overlay is what lies over the drawing: the pointer, what it is over, what is
// selected, and the positions of the finding that was clicked.
type overlay struct {
	Hover    int // index of an opening, or -1
	picked   []app.Picked
	Hand     handOverlay
	item     app.Item // the reserve or engraving that is selected
	over     app.Item // and the one that is pointed at
	near     *check.Bridge
	Rings    []plane.Point // of the finding that was clicked
	severity check.Severity
	pointer  bool
	focus    bool    // the keyboard is the blank's
	px, py   float64 // the pointer, device pixels

	stress           *picture.StressMap // shown over the metal; nil for none
	pale             bool               // it is of an older design
	under            underlay           // the picture to trace
	penned           bool               // an opening is drawn by its points
	noStretch        bool               // the stretch of a domed band is not shown
	Handles          []handle           // points to be dragged
	Beside           string             // text beside the pointer during a drag
	held, OverHandle int                // indices of handles, or -1
	Area             [][]plane.Point    // outline of the selected field's area
}

func noOverlay() overlay {
	return overlay{Hover: -1, item: app.NoItem, over: app.NoItem, held: -1, OverHandle: -1}
}

func (p *sheetPainter) drawOverlay(v viewport, s *app.Scene, d *kit.Dress, m overlay) {
	p.target = p.out
	p.fill.Reset(v.frame.w, v.frame.h)
	f := v.frame
	if s != nil {
		if m.Hover >= 0 && m.Hover < len(s.Sheet.Openings) {
			p.tint(v, s, m.Hover, kit.Alpha(d.Hover, 70), d.Hover, 1.5*f.scale)
			p.numeral(v, s, m.Hover, d)
		}
		p.drawPicked(v, s, d, m)
		thin := s.Report.Thinnest
		// What is picked has handles, which the width would cover; the status line
		// tells it still.
		if m.near != nil && len(m.picked) == 0 && !m.near.None() && !sameBridge(*m.near, thin) {
			p.bridge(v, s, *m.near, d, d.Hover, pattern.Say("%.2f mm", m.near.Width))
		}
		if !thin.None() && m.Hand.drawn == nil && !m.penned { // it would cover points
			p.bridge(v, s, thin, d, d.Ink, pattern.Say("thinnest %.2f mm", thin.Width))
		}
		for _, q := range m.Rings {
			p.ring(v, q, d, d.Severity(m.severity))
		}
	}
	p.drawArea(v, d, m)
	if m.over != m.item {
		p.drawFrame(v, s, m.over, d.Hover)
	}
	p.drawFrame(v, s, m.item, d.Selected)
	p.drawHandles(v, d, m)
	p.drawHint(v, d, m)
	p.drawHand(v, s, d, m)
	if m.pointer {
		p.drawPointer(v, s, d, m)
	}
	if m.focus {
		px := math.Max(1, math.Round(f.scale))
		for _, r := range [4][4]float64{{f.left, f.top, f.right, f.top + px}, {f.left, f.bottom - px, f.right, f.bottom}, {f.left, f.top, f.left + px, f.bottom}, {f.right - px, f.top, f.right, f.bottom}} {
			p.box(r[0], r[1], r[2], r[3], d.Selected)
		}
	}
}

func sameBridge(a, b check.Bridge) bool {
	return a.A.Dist(b.A) < 1e-6 && a.B.Dist(b.B) < 1e-6 || a.A.Dist(b.B) < 1e-6 && a.B.Dist(b.A) < 1e-6
}

func (p *sheetPainter) tint(v viewport, s *app.Scene, i int, face, edge color.NRGBA, w float64) {
	for _, by := range copies(s.Sheet, s.Sheet.Openings[i].Loop) {
		pts, at := p.flatten(v, s, i)
		at = at.Add(by)
		p.loopPath(v, pts, at, false)
		p.drawInside(v, face)
		p.strokePath(v, pts, at, w)
		p.drawInside(v, edge)
	}
}

// numeral writes an opening's number into it, if there is room.
func (p *sheetPainter) numeral(v viewport, s *app.Scene, i int, d *kit.Dress) {
	o := &s.Sheet.Openings[i]
	face := p.faces.Size(11 * v.frame.scale)
	text := fmt.Sprint(o.Number)
	if o.Box.W()*v.k < face.Width(text)*1.7 || o.Box.H()*v.k < face.Height()*2.4 {
		return
	}
	c := o.Loop.Centroid()
	if x, y := v.x(c.X), v.y(c.Y); v.frame.inBlank(x, y) {
		face.Draw(p.target, text, x, math.Round(y+face.Height()/2), kit.AlignMiddle, d.Ink)
	}
}

// bridge marks a narrow place: its two points, arrows that point at them from
// both sides, and its width. One that runs over the joint of a closed band is
// marked at both ends of the blank.
func (p *sheetPainter) bridge(v viewport, s *app.Scene, b check.Bridge, d *kit.Dress, c color.NRGBA, label string) {
	f := v.frame
	a, e := b.A, b.B
	if over := s.Sheet.Toward(a, e); over.N != 0 {
		p.bridgeArrows(v, over.Home(a), e, d, c, f.scale)
		e = over.Point(e)
	}
	p.bridgeArrows(v, a, e, d, c, f.scale)
	m := a.Mid(e)
	x, y := v.x(m.X), v.y(m.Y)
	if !f.inBlank(x, y) {
		return
	}
	p.chip(v, label, x, y-26*f.scale, d, c)
}

func (p *sheetPainter) bridgeArrows(v viewport, a, b plane.Point, d *kit.Dress, c color.NRGBA, scale float64) {
	ax, ay, bx, by := v.x(a.X), v.y(a.Y), v.x(b.X), v.y(b.Y)
	dx, dy := bx-ax, by-ay
	l := math.Hypot(dx, dy)
	if l < 1e-9 {
		dx, dy, l = 1, 0, 1
	}
	dx, dy = dx/l, dy/l
	head, tail := 7*scale, 15*scale
	draw := func(more float64, c color.NRGBA) {
		for _, e := range [2][4]float64{{ax, ay, dx, dy}, {bx, by, -dx, -dy}} {
			x, y, ux, uy := e[0], e[1], e[2], e[3]
			p.fill.Arrow(x+ux*more, y+uy*more, ux, uy, head+2.6*more)
			p.fill.Line(x-ux*(tail+more), y-uy*(tail+more), x-ux*head, y-uy*head, 1.5*scale+2*more)
			p.fill.Disc(x, y, 2.2*scale+more)
		}
		p.fill.Line(ax, ay, bx, by, 1.5*scale+2*more)
		p.drawInside(v, c)
	}
	draw(1.5*scale, d.Paper) // a rim, so that it shows on metal and on ground
	draw(0, c)
}

// chip writes a label in a small box, its middle at (x, y), kept in sight.
func (p *sheetPainter) chip(v viewport, label string, x, y float64, d *kit.Dress, c color.NRGBA) {
	f := v.frame
	face := p.faces.Size(11 * f.scale)
	w := face.Width(label) + 12*f.scale
	h := 18 * f.scale
	x = math.Max(f.left+w/2+3*f.scale, math.Min(f.right-w/2-3*f.scale, x))
	y = math.Max(f.top+h/2+3*f.scale, math.Min(f.bottom-h/2-3*f.scale, y))
	x0, y0 := math.Round(x-w/2), math.Round(y-h/2)
	x1, y1 := math.Round(x+w/2), math.Round(y+h/2)
	p.fill.Round(x0-f.scale, y0-f.scale, x1+f.scale, y1+f.scale, 4*f.scale)
	p.draw(c)
	p.fill.Round(x0, y0, x1, y1, 3*f.scale)
	p.draw(d.Panel)
	face.Draw(p.target, label, x, math.Round((y0+y1)/2+face.Height()/2), kit.AlignMiddle, d.Ink)
}

// ring rings a finding's point.
func (p *sheetPainter) ring(v viewport, q plane.Point, d *kit.Dress, c color.NRGBA) {
	f := v.frame
	x, y := v.x(q.X), v.y(q.Y)
	p.fill.Ring(x, y, 11*f.scale, 5*f.scale)
	p.drawInside(v, kit.Alpha(d.Panel, 200))
	p.fill.Ring(x, y, 11*f.scale, 2.5*f.scale)
	p.drawInside(v, c)
}

// pushMark is a disc where a hand pushes at the metal.
func (p *sheetPainter) pushMark(v viewport, at plane.Point, d *kit.Dress) {
	x, y, s := v.x(at.X), v.y(at.Y), v.frame.scale
	p.fill.Ring(x, y, 6*s, 6*s)
	p.drawInside(v, d.Panel)
	p.fill.Ring(x, y, 4*s, 4*s)
	p.drawInside(v, d.Ink)
}

// drawPointer shows the pointer on both rulers and, as a thin line, in the graph.
func (p *sheetPainter) drawPointer(v viewport, s *app.Scene, d *kit.Dress, m overlay) {
	f := v.frame
	if m.px < f.left || m.py < f.top {
		return
	}
	px := math.Max(1, math.Floor(f.scale))
	x := math.Floor(m.px)
	p.fill.Rect(x, f.top-12*f.scale, x+px, f.top)
	if m.py >= f.top && m.py <= f.bottom {
		y := math.Floor(m.py)
		p.fill.Rect(f.left-12*f.scale, y, f.left, y+px)
	}
	p.draw(d.Selected)
	if s == nil || !f.hasGraph() {
		return
	}
	at := v.mm(m.px, m.py).X
	if m.py < f.bottom { // on the blank: the section that runs through there
		at, _ = s.Sheet.Flat.Where(v.mm(m.px, m.py))
		x = math.Floor(v.x(at))
	}
	if x < f.left {
		return
	}
	p.fill.Rect(x, f.graphTop, x+px, f.graphBottom)
	p.draw(kit.Alpha(d.Selected, 150))
	net, full, ok := s.SectionAt(at)
	if !ok {
		return
	}
	face := p.faces.Size(11 * f.scale)
	label := fmt.Sprintf("%s of %s mm", app.FormatNumber(net, 1), app.FormatNumber(full, 1))
	if m.py > f.bottom { // only where the eye is
		w := face.Width(label) + 12*f.scale
		lx := x + 8*f.scale
		if lx+w > f.right-4*f.scale {
			lx = x - 8*f.scale - w
		}
		ym := (f.graphTop + f.graphBottom) / 2
		p.fill.Round(lx, ym-9*f.scale, lx+w, ym+9*f.scale, 3*f.scale)
		p.draw(d.Panel)
		face.Draw(p.target, label, lx+w/2, ym+face.Height()/2, kit.AlignMiddle, d.Ink)
	}
}

// handOverlay is what editing by hand lays over the drawing.
type handOverlay struct {
	Sweep  *plane.Box   // the box that picks
	Ghosts []plane.Loop // what is dragged, as it will be
	draft  plane.Loop   // the opening that is being drawn
	pen    penOverlay   // the same, by its points
	drawn  plane.Loop   // the drawing that is picked, before the rules
}

// drawSolid shows the cells that are left solid by hand, faintly: an outline of
// dashes, hatched.
func (p *sheetPainter) drawSolid(v viewport, s *app.Scene) {
	if len(s.Sheet.Solid) == 0 {
		return
	}
	f := v.frame
	all := func(do func(pts []plane.Point, at plane.Point)) {
		for _, c := range s.Sheet.Solid {
			for _, l := range s.Sheet.Again(c.Loop) {
				do(l.Flatten(0.2/v.k), plane.Point{})
			}
		}
	}
	all(func(pts []plane.Point, at plane.Point) { p.loopPath(v, pts, at, false) })
	p.hatch(v, kit.Alpha(p.tone.Edge, 90), -1)
	all(func(pts []plane.Point, at plane.Point) {
		n := len(pts)
		for i, a := range pts {
			b := pts[(i+1)%n]
			p.fill.Dashes(v.x(a.X+at.X), v.y(a.Y), v.x(b.X+at.X), v.y(b.Y), math.Max(1, f.scale), 3*f.scale, 3*f.scale)
		}
	})
	p.drawInside(v, kit.Alpha(p.tone.Edge, 170))
}

// rimsUpTo is the most picked openings that get a light rim and a ghost of their
// own: more of them would be slow, and no eye would follow each.
const rimsUpTo = 500

// drawPicked shows what is picked: hatched, tinted and with a strong edge, all in
// one go however many there are.
func (p *sheetPainter) drawPicked(v viewport, s *app.Scene, d *kit.Dress, m overlay) {
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
			for _, by := range copies(s.Sheet, l) {
				if l.Bounds().Move(by).Meets(sight) {
					do(pts, at.Add(by))
				}
			}
		}
	}
	fill := func(pts []plane.Point, at plane.Point) { p.loopPath(v, pts, at, false) }
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

func (p *sheetPainter) pickedOutline(v viewport, s *app.Scene, q app.Picked) (plane.Loop, []plane.Point, plane.Point) {
	switch {
	case q.Opening >= 0 && q.Opening < len(s.Sheet.Openings):
		pts, at := p.flatten(v, s, q.Opening)
		return s.Sheet.Openings[q.Opening].Loop, pts, at
	case q.Solid >= 0 && q.Solid < len(s.Sheet.Solid):
		l := s.Sheet.Solid[q.Solid].Loop
		return l, l.Flatten(0.2 / v.k), plane.Point{}
	}
	return nil, nil, plane.Point{}
}

// drawHand draws what the hand is doing: the box that sweeps, the shape that is
// drawn, ghosts of what is dragged, and the numbers beside the pointer.
func (p *sheetPainter) drawHand(v viewport, s *app.Scene, d *kit.Dress, m overlay) {
	f := v.frame
	for _, l := range m.Hand.Ghosts[:min(rimsUpTo, len(m.Hand.Ghosts))] {
		pts := l.Flatten(0.2 / v.k)
		p.strokePath(v, pts, plane.Point{}, 1.5*f.scale)
	}
	p.drawInside(v, d.Selected)
	if l := m.Hand.draft; l != nil {
		pts := l.Flatten(0.2 / v.k)
		p.loopPath(v, pts, plane.Point{}, false)
		p.drawInside(v, kit.Alpha(d.Selected, 60))
		p.strokePath(v, pts, plane.Point{}, 2*f.scale)
		p.drawInside(v, d.Selected)
	}
	if l := m.Hand.drawn; l != nil {
		pts := l.Flatten(0.2 / v.k)
		for i, a := range pts {
			b := pts[(i+1)%len(pts)]
			p.fill.Dashes(v.x(a.X), v.y(a.Y), v.x(b.X), v.y(b.Y), 1.5*f.scale, 5*f.scale, 3*f.scale)
		}
		p.drawInside(v, d.Selected)
	}
	if m.pointer && m.penned {
		p.drawPen(v, d, m.Hand.pen)
	}
	if b := m.Hand.Sweep; b != nil {
		x0, y0, x1, y1 := v.x(b.Min.X), v.y(b.Max.Y), v.x(b.Max.X), v.y(b.Min.Y)
		p.fill.Rect(x0, y0, x1, y1)
		p.drawInside(v, kit.Alpha(d.Selected, 28))
		for _, e := range [4][4]float64{{x0, y0, x1, y0}, {x1, y0, x1, y1}, {x1, y1, x0, y1}, {x0, y1, x0, y0}} {
			p.fill.Dashes(e[0], e[1], e[2], e[3], 1.5*f.scale, 5*f.scale, 4*f.scale)
		}
		p.drawInside(v, d.Selected)
	}
	if m.Beside != "" {
		y := m.py - 26*f.scale
		for _, q := range m.Hand.pen.drawing.Line { // the words stand over the drawing, not on it
			y = math.Min(y, v.y(q.Y)-20*f.scale)
		}
		p.chip(v, m.Beside, m.px, y, d, d.Selected)
	}
}
