package blank

import (
	"fmt"

	"fretband/pattern"
	"fretband/pattern/check"
	"fretband/unroll/plane"

	"fyne.io/fyne/v2"
)

// tellPointer says where the pointer is.
func (b *View) tellPointer(at plane.Point, where region) {
	b.tellItem(at, where)
	switch where {
	case onBlank:
		b.doors.Position(pattern.Say("x %.2f   y %.2f mm", at.X, at.Y))
	case onGraph:
		text := pattern.Say("x %.2f mm", at.X)
		if b.scene != nil {
			if net, _, ok := b.scene.SectionAt(at.X); ok {
				text += pattern.Say("   metal %.1f mm", net)
			}
		}
		b.doors.Position(text)
	default:
		b.doors.Position("")
	}
}

// tellItem says which reserve or engraving is under the pointer, where no opening is, and the
// stress of the metal there where it is shown.
func (b *View) tellItem(at plane.Point, where region) {
	if b.scene == nil || b.Overlay.Hover >= 0 {
		return
	}
	text, it, d := "", b.Overlay.over, b.scene.Sheet.Design
	if it.In(d) {
		text = it.Kind.Word() + " " + it.Text(d)
	}
	if where == onBlank {
		if stress := b.ed.Stress.At(b.sheet(), at, edgeRange); text == "" {
			text = stress
		} else if stress != "" {
			text += "   " + stress
		}
	}
	b.doors.Over(text)
}

// tellHover says what is known of the opening under the pointer.
func (b *View) tellHover() {
	i := b.Overlay.Hover
	if i < 0 || b.scene == nil {
		b.doors.Over("")
		b.doors.Point(0)
		return
	}
	o := &b.scene.Sheet.Openings[i]
	text := pattern.Say("opening %d   %.2f mm\u00b2", o.Number, o.Loop.Area())
	pairs := []any{"opening", o.Number, "area_mm2", o.Loop.Area()}
	if n := b.Overlay.near; n != nil && !n.None() {
		text += pattern.Say("   nearest metal %.2f mm", n.Width)
		pairs = append(pairs, "bridge_mm", n.Width)
	}
	b.doors.Over(text)
	b.doors.Point(o.Number)
	b.ed.Log.Event("hover", pairs...)
}

// Ring marks the positions of a finding; none takes the marks away.
func (b *View) Ring(at []plane.Point, s check.Severity) {
	b.Overlay.Rings, b.Overlay.severity = at, s
	b.Redraw()
}

// GoToEdit picks what an edit works on and brings it into sight.
func (b *View) GoToEdit(i int) {
	if b.scene == nil {
		return
	}
	at, idle := b.ed.PickEdit(i)
	b.Ring(idle, check.Caution)
	b.LookAt(append(at, idle...))
}

// engravingRange is how near the pointer must come to an engraved line to take it, px.
const engravingRange = 5

// edgeRange is how far from the mesh metal may lie, mm: it follows edges by chords.
const edgeRange = 0.1

// within is how near the pointer must come to an engraved line, mm.
func (b *View) within() float64 { return engravingRange * b.v.frame.scale / b.v.k }

// PositionOf returns where a position on the blank, mm, is in the widget.
func (b *View) PositionOf(p plane.Point) fyne.Position {
	s := b.v.frame.scale
	return fyne.NewPos(float32(b.v.x(p.X)/s), float32(b.v.y(p.Y)/s))
}

// PointAt returns which position on the blank, mm, is at one in the widget.
func (b *View) PointAt(p fyne.Position) plane.Point { return b.v.mm(b.at(p)) }

// Zoom returns how many pixels a millimetre takes.
func (b *View) Zoom() float64 { return b.v.k }

// Ringed reports whether positions are marked.
func (b *View) Ringed() bool { return b.Overlay.Rings != nil }

// Positions says where that is which can be taken on the blank and, with openings, the first of
// these, for the script that drives the window.
func (b *View) Positions(tell func(name string, x, y int), openings bool) {
	at, k := fyne.CurrentApp().Driver().AbsolutePositionForObject(b), b.v.frame.scale
	put := func(name string, p plane.Point) {
		tell(name, int(float64(at.X)*k+b.v.x(p.X)), int(float64(at.Y)*k+b.v.y(p.Y)))
	}
	for _, h := range b.Overlay.Handles {
		put("handle:"+h.Name, h.At)
	}
	if !openings || b.scene == nil {
		return
	}
	for i := range b.scene.Sheet.Openings {
		if o := &b.scene.Sheet.Openings[i]; i < 40 {
			put(fmt.Sprintf("opening:%d", o.Number), o.Position())
		}
	}
	for i, c := range b.scene.Sheet.Solid {
		put(fmt.Sprintf("solid:%d", i+1), c.At)
	}
}
