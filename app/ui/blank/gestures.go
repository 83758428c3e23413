package blank

import (
	"fmt"
	"math"

	"fretband/app"
	"fretband/pattern"
	"fretband/unroll"
	"fretband/unroll/plane"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/widget"
)

// mods returns the modifier keys that are held, as far as the driver knows.
func mods() fyne.KeyModifier {
	if d, ok := fyne.CurrentApp().Driver().(desktop.Driver); ok {
		return d.CurrentKeyModifiers()
	}
	return 0
}

// Nudge moves what is selected by a step: an opening that is picked, a reserve, an engraving.
func (b *View) Nudge(way plane.Point, large bool) bool {
	step := 0.1
	if large {
		step = 1
	}
	return b.ed.Nudge(way.Mul(step))
}

// arrow follows an arrow key: it moves a reserve or an engraving, steps from the opening that
// is picked to the next, or moves the drawing.
func (b *View) arrow(way plane.Point) {
	shift := mods()&fyne.KeyModifierShift != 0
	if b.ed.Item.In(b.ed.Now()) && b.Nudge(way, shift) {
		return
	}
	if len(b.ed.Picked) > 0 {
		if at, ok := b.ed.StepPick(way, shift); ok {
			b.keepInSight(at)
		}
		return
	}
	step := 40 * b.v.frame.scale
	b.see(b.v.pan(-way.X*step, way.Y*step))
}

// widen picks the opening in the middle of what is in sight, then its row, then its field.
func (b *View) widen() {
	x, y := b.v.frame.middle()
	if at, ok := b.ed.Widen(b.v.mm(x, y)); ok {
		b.keepInSight(at)
	}
}

// keepInSight moves the drawing so far that a position is well in sight.
func (b *View) keepInSight(at plane.Point) {
	f := b.v.frame
	room := 24 * f.scale
	x, y := b.v.x(at.X), b.v.y(at.Y)
	dx := math.Max(f.left+room-x, 0) + math.Min(f.right-room-x, 0)
	dy := math.Max(f.top+room-y, 0) + math.Min(f.bottom-room-y, 0)
	if dx != 0 || dy != 0 {
		b.see(b.v.pan(dx, dy))
	}
	b.Redraw()
}

// OfferAtSelection opens the menu of what can be done to what is selected, or in the middle.
func (b *View) OfferAtSelection() {
	x, y := b.v.frame.middle()
	at := b.v.mm(x, y)
	if d := b.ed.Now(); b.ed.Item.In(d) {
		at = b.ed.Item.At(d)
	} else if n := len(b.ed.Picked); n > 0 && len(b.ed.Picked[n-1].At) > 0 {
		at = b.ed.Picked[n-1].At[0]
	}
	s := float32(b.v.frame.scale)
	b.offer(at, fyne.NewPos(float32(b.v.x(at.X))/s, float32(b.v.y(at.Y))/s))
}

// offer opens the menu of what can be done at a position.
func (b *View) offer(at plane.Point, pos fyne.Position) {
	c := fyne.CurrentApp().Driver().CanvasForObject(b)
	if c == nil {
		return
	}
	var items []*fyne.MenuItem
	for _, o := range b.ed.Offers(at, b.within()) {
		if o.Do == nil {
			items = append(items, fyne.NewMenuItemSeparator())
			continue
		}
		items = append(items, fyne.NewMenuItem(o.Title, o.Do))
	}
	if len(items) > 0 {
		items = append(items, fyne.NewMenuItemSeparator())
	}
	items = append(items,
		fyne.NewMenuItem("Nearer here", func() { x, y := b.v.x(at.X), b.v.y(at.Y); b.zoomBy(2, x, y) }),
		fyne.NewMenuItem("Fit (F)", b.Fit), fyne.NewMenuItem("True size (1)", b.TrueSize))
	b.kit.Tips.Hide()
	b.ed.Log.Event("offered", "x_mm", at.X, "y_mm", at.Y, "count", len(items))
	widget.ShowPopUpMenuAtPosition(fyne.NewMenu("", items...), c, fyne.CurrentApp().Driver().AbsolutePositionForObject(b).Add(pos))
}

// grab begins a drag at a position without a handle. It moves the shape of the tool, what
// is picked, a reserve or engraving, or else draws a box that picks what lies in it.
func (b *View) grab(at plane.Point, mod fyne.KeyModifier) *drag {
	switch b.ed.Tool {
	case "":
	case app.TieTool:
		return b.grabTie(at)
	case app.PenTool:
		return b.grabPen(at)
	case app.PushTool:
		return nil // a click pushes; a drag moves the drawing
	default:
		return b.grabTool(at)
	}
	if p, ok := b.scene.PickAt(at); ok && (p.Opening >= 0 || p.Tie > 0) && b.ed.IsPicked(p) {
		return b.grabPicked(at)
	}
	if it := b.scene.ItemAt(at, b.within()); it.In(b.ed.Now()) {
		return b.grabItem(it, at)
	}
	return b.sweep(at, mod)
}

// sweep picks what lies in a box that the hand draws.
func (b *View) sweep(at plane.Point, mod fyne.KeyModifier) *drag {
	var had []app.Picked
	if mod&fyne.KeyModifierShift != 0 {
		had = b.ed.Picked
	}
	return &drag{
		move: func(to plane.Point) {
			box := plane.EmptyBox().Add(at).Add(to)
			b.Overlay.Hand.Sweep = &box
			b.ed.Picked = app.Union(had, b.scene.Within(box))
			b.Overlay.Beside = fmt.Sprintf("%d picked", len(b.ed.Picked))
		},
		drop: func() {
			b.Overlay.Hand.Sweep = nil
			b.ed.PickMany(b.ed.Picked)
		},
	}
}

// grabPicked makes what is picked follow the hand.
func (b *View) grabPicked(at plane.Point) *drag {
	x0, v0 := b.scene.Sheet.Flat.Where(at)
	h := b.shifting("edits.move", func(f unroll.Flat, to plane.Point) (app.Shift, string) {
		x, v := f.Where(to)
		s := app.Shift{Along: hundredths(x - x0), Across: hundredths(v - v0)}
		if mods()&fyne.KeyModifierShift != 0 { // straight along or across
			if math.Abs(s.Along) > math.Abs(s.Across) {
				s.Across = 0
			} else {
				s.Along = 0
			}
		}
		return s, pattern.Say("along %.2f   across %.2f mm", s.Along, s.Across)
	})
	return &h
}

func hundredths(v float64) float64 { return math.Round(v*100) / 100 }

// shifting is a drag that changes what is picked; by says how far, from the position of the
// hand. A ghost shows the new openings at once, before they are laid.
func (b *View) shifting(key string, by func(f unroll.Flat, to plane.Point) (app.Shift, string)) drag {
	s := b.scene.Sheet
	var loops, ties []plane.Loop // ties are only moved
	for _, p := range b.ed.Picked {
		switch {
		case p.Opening >= 0:
			loops = append(loops, s.Openings[p.Opening].Loop)
		case p.Tie > 0 && p.Solid >= 0:
			ties = append(ties, s.Solid[p.Solid].Loop)
		}
	}
	change := b.ed.Shifting(key)
	m := &b.Overlay
	return drag{
		move: func(to plane.Point) {
			shift, text := by(s.Flat, to)
			scale := shift.Scale
			if scale == 0 {
				scale = 1
			}
			m.Hand.Ghosts = m.Hand.Ghosts[:0]
			for _, l := range loops {
				m.Hand.Ghosts = append(m.Hand.Ghosts, pattern.Shifted(s.Flat, l, shift.Along, shift.Across, shift.RotationDeg*math.Pi/180, scale))
			}
			for _, l := range ties {
				m.Hand.Ghosts = append(m.Hand.Ghosts, pattern.Shifted(s.Flat, l, shift.Along, shift.Across, 0, 1))
			}
			m.Beside = text
			change(shift, text)
		},
		drop: func() {
			m.Hand.Ghosts = nil
			b.ed.On.Picked()
			b.doors.Moved()
		},
	}
}

// grabItem makes a reserve or engraving follow the hand.
func (b *View) grabItem(it app.Item, at plane.Point) *drag {
	was := it.At(b.ed.Now())
	return &drag{move: func(to plane.Point) {
		if b.ed.Item != it {
			b.ed.Pick(nil)
			b.ed.Select(it)
		}
		b.Overlay.Beside = b.ed.MoveItem(it, was.Add(to.Sub(at)))
	}}
}

// leastDrawn is the smallest box of the hand that counts as a shape, mm: less is
// a slip.
const leastDrawn = 0.3

// grabTool draws the opening of the tool in the hand.
func (b *View) grabTool(at plane.Point) *drag {
	var e pattern.Edit
	return &drag{
		move: func(to plane.Point) {
			e = drawnIn(b.ed.Tool, at, to)
			b.Overlay.Hand.draft = draftOf(e)
			b.Overlay.Beside = app.EditText(e) + " mm"
		},
		drop: func() {
			b.Overlay.Hand.draft = nil
			if e.WidthMM >= leastDrawn && (e.HeightMM >= leastDrawn || e.Shape == pattern.CircleShape) {
				b.ed.Draw(e)
				b.doors.Moved()
			}
		},
	}
}

// drawnIn returns the shape in the box of two corners.
func drawnIn(shape string, a, b plane.Point) pattern.Edit {
	w, h := math.Abs(b.X-a.X), math.Abs(b.Y-a.Y)
	c := a.Mid(b)
	e := pattern.Edit{Do: pattern.Add, Shape: shape, WidthMM: hundredths(w), HeightMM: hundredths(h)}
	if shape == pattern.CircleShape {
		r := math.Max(w, h) / 2
		c = a.Add(plane.Pt(math.Copysign(r, b.X-a.X), math.Copysign(r, b.Y-a.Y)))
		e.WidthMM, e.HeightMM = hundredths(2*r), 0
	}
	e.At = []pattern.Spot{{XMM: c.X, YMM: c.Y}}
	return e
}

// draftOf returns the outline of an opening that is being drawn, as it would lie on
// a band that is not flared.
func draftOf(e pattern.Edit) plane.Loop {
	c := plane.Pt(e.At[0].XMM, e.At[0].YMM)
	switch e.Shape {
	case pattern.CircleShape:
		return plane.Circle(c, e.WidthMM/2)
	case pattern.OvalShape:
		var ps []plane.Point
		for i := range 48 {
			s, co := math.Sincos(float64(i) * math.Pi / 24)
			ps = append(ps, c.Add(plane.Pt(e.WidthMM/2*co, e.HeightMM/2*s)))
		}
		return plane.Polygon(ps...)
	}
	h := plane.Pt(e.WidthMM/2, e.HeightMM/2)
	return plane.Rect(plane.Box{Min: c.Sub(h), Max: c.Add(h)})
}

// handHandles are those of what was picked last: one turns it, one scales it, and
// all else that is picked with it.
func (b *View) handHandles(s *app.Scene) []handle {
	picks := b.ed.Picked
	i := -1
	for _, p := range picks {
		if p.Opening >= 0 && p.Opening < len(s.Sheet.Openings) {
			i = p.Opening
		}
	}
	if i < 0 || len(picks) > handlesUpTo {
		return nil
	}
	o := &s.Sheet.Openings[i]
	k := b.v.k / math.Max(1, b.v.frame.scale) // of the toolkit's pixels
	c := o.Loop.Centroid()
	top := plane.Pt(c.X, o.Box.Max.Y+2/k)
	corner := plane.Pt(o.Box.Max.X+5/k, o.Box.Min.Y-5/k)
	turn := handle{At: plane.Pt(c.X, o.Box.Max.Y+24/k), Name: "turn", round: true, free: true, stem: &top}
	turn.take = func() drag {
		from := turn.At.Sub(c)
		return b.shifting("edits.turn", func(_ unroll.Flat, to plane.Point) (app.Shift, string) {
			d := to.Sub(c)
			step := 1.0
			if mods()&fyne.KeyModifierShift != 0 {
				step = 15
			}
			deg := step * math.Round(math.Atan2(from.Cross(d), from.Dot(d))*180/math.Pi/step)
			return app.Shift{RotationDeg: deg}, pattern.Say("turned %g\u00b0", deg)
		})
	}
	scale := handle{At: corner, Name: "scale", free: true}
	scale.take = func() drag {
		from := math.Max(1e-3, corner.Dist(c))
		return b.shifting("edits.scale", func(_ unroll.Flat, to plane.Point) (app.Shift, string) {
			by := math.Max(0.1, math.Min(10, math.Round(100*to.Dist(c)/from)/100))
			return app.Shift{Scale: by}, pattern.Say("scaled by %.0f %%", 100*by)
		})
	}
	return []handle{turn, scale}
}

// handlesUpTo is the most picked openings that turn and scale by handles: to do so
// with more would be slow to follow the hand. Numbers do it for any.
const handlesUpTo = 400
