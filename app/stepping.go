package app

import (
	"math"

	"fretband/pattern"
	"fretband/unroll/plane"
)

// Beside returns the opening that comes next to opening i in a direction, which is a vector
// of length 1 along one of the axes: the nearest, where sideways counts three times; -1 for
// none. On a closed band the one after the last is the first.
func (s *Scene) Beside(i int, way plane.Point) int {
	f := s.Sheet.Flat
	u0, v0 := f.Where(s.Sheet.Openings[i].Box.Centre())
	best, least := -1, math.Inf(1)
	for k := range s.Sheet.Openings {
		if k == i {
			continue
		}
		u, v := f.Where(s.Sheet.Openings[k].Box.Centre())
		by := plane.Pt(u-u0, v-v0)
		if !s.Sheet.Design.Band.Open() { // round the band, the way that is asked for
			by.X -= f.Length * math.Round(by.X/f.Length)
			if along := by.Dot(way); way.X != 0 && along <= 0 && math.Abs(by.Y) < math.Abs(along)/8 {
				by.X += way.X * f.Length
			}
		}
		along, side := by.Dot(way), math.Abs(by.X*way.Y)+math.Abs(by.Y*way.X)
		if along <= plane.Snap || side > 2*along {
			continue
		}
		if cost := along + 3*side; cost < least {
			best, least = k, cost
		}
	}
	return best
}

// Width says how much an arrow key steps over: an opening, its row, or its field.
type Width int

// The widths of a step.
const (
	OneOpening Width = iota
	WholeRow
	WholeField
)

// StepPick picks the opening that comes next in a direction to the one that was picked
// last, or its row or field, and returns where it is; with more it is picked besides. It is
// false if no opening is picked, or none comes next.
func (e *Editor) StepPick(way plane.Point, more bool) (at plane.Point, ok bool) {
	last := e.lastPicked()
	if last < 0 {
		return at, false
	}
	next := e.Scene.Beside(last, way)
	// A row or a field steps over the openings that it holds.
	for from := last; e.Width != OneOpening && next >= 0 && e.together(next, last); {
		from = next
		if next = e.Scene.Beside(from, way); next == last {
			next = -1
		}
	}
	if next < 0 {
		return at, false
	}
	e.pickWide(next, more)
	return e.Scene.Sheet.Openings[next].Box.Centre(), true
}

// Widen picks the row of what is picked, then its field, then the opening alone again. With
// nothing picked it picks the opening that is nearest to a position.
func (e *Editor) Widen(near plane.Point) (at plane.Point, ok bool) {
	if e.Scene == nil {
		return at, false
	}
	i := e.lastPicked()
	if i >= 0 {
		e.Width = (e.Width + 1) % (WholeField + 1)
	} else {
		e.Width = OneOpening
		for k := range e.Scene.Sheet.Openings {
			if c := e.Scene.Sheet.Openings[k].Box.Centre(); i < 0 || c.Dist(near) < at.Dist(near) {
				i, at = k, c
			}
		}
	}
	if i < 0 {
		return at, false
	}
	e.pickWide(i, false)
	return e.Scene.Sheet.Openings[i].Box.Centre(), true
}

// lastPicked returns the opening that was picked last, -1 for none.
func (e *Editor) lastPicked() int {
	if e.Scene == nil {
		return -1
	}
	for i := len(e.Picked) - 1; i >= 0; i-- {
		if k := e.Picked[i].Opening; k >= 0 && k < len(e.Scene.Sheet.Openings) {
			return k
		}
	}
	return -1
}

// together reports whether two openings are stepped over together.
func (e *Editor) together(i, k int) bool {
	a, b := &e.Scene.Sheet.Openings[i], &e.Scene.Sheet.Openings[k]
	return a.Field >= 0 && a.Field == b.Field && (e.Width == WholeField || a.Row == b.Row)
}

// pickWide picks an opening, its row or its field, so that the opening is the one picked last.
func (e *Editor) pickWide(i int, more bool) {
	s := e.Scene.Sheet
	one := []Picked{Pick(s, i)}
	picks := one
	switch e.Width {
	case WholeRow:
		picks = SameRow(s, one)
	case WholeField:
		picks = SameField(s, one)
	}
	if more {
		picks = Union(picks, e.Picked)
	}
	// It is the last: from there the next step goes on.
	for k, p := range picks {
		if p.Opening == i {
			picks = append(append(picks[:k:k], picks[k+1:]...), p)
			break
		}
	}
	e.Item = NoItem
	e.On.Leave()
	e.Pick(picks)
	e.Log.Event("picked", "count", len(picks), "by", "keys")
}

// Offer is something that can be done at a position of the blank. One without words is a
// line between others.
type Offer struct {
	Title string
	Do    func()
}

// Offers returns what can be done at a position of the blank, where an engraved line may be
// as far as within away, mm. What lies there and is not picked yet is picked first.
func (e *Editor) Offers(at plane.Point, within float64) []Offer {
	if e.Scene == nil {
		return nil
	}
	var os []Offer
	add := func(title string, do func()) { os = append(os, Offer{title, do}) }
	line := func() { os = append(os, Offer{}) }
	p, ok := e.Scene.PickAt(at)
	it := e.Scene.ItemAt(at, within)
	switch {
	case it != NoItem && (it.Kind != ReserveItem || !ok || p.Opening < 0):
		if it != e.Item {
			e.PickOne(-1, it)
		}
		add("Change it: "+it.Text(e.Now()), func() { e.OpenPage(ReservesPage) })
		if it.Kind == ReserveItem {
			add("Set a stone in it", func() { e.SetStone(it.Index) })
		}
		add("One more like it", func() { e.CopyItem(it) })
		add("Remove it (Delete)", func() { e.RemoveItem(it) })
		return os
	case ok:
		if !e.IsPicked(p) {
			e.Select(NoItem)
			e.Pick([]Picked{p})
		}
		if p.Solid >= 0 {
			add("Open again (U)", e.OpenAgain)
		} else {
			add("Leave solid (L)", e.LeaveSolid)
		}
		if len(e.Picked) > 0 && e.TouchedByHand() {
			add("Back to the pattern", e.UndoHand)
		}
		if p.Opening >= 0 {
			line()
			add("Pick its row", e.PickRow)
			add("Pick its field", e.PickField)
		}
		line()
		add("Move, turn, scale, reshape (H)", func() { e.OpenPage(HandPage) })
		return os
	case e.Scene.Sheet.Flat.Outline.Contains(at):
		add("Push at the metal here", func() { e.pushAt(at) })
		line()
		for _, r := range []struct{ title, shape string }{{"Reserve here: circle", pattern.CircleShape}, {"Reserve here: oval", pattern.OvalShape}, {"Reserve here: rectangle", pattern.RectangleShape}} {
			add(r.title, func() { e.addItemAt(ReserveItem, r.shape, at) })
		}
		add("Stone here", func() { e.addItemAt(AddedItem, pattern.StonePart, at) })
		add("Text to engrave here", func() { e.addItemAt(EngravingItem, pattern.TextEngraving, at) })
		line()
		for _, o := range []struct{ title, shape string }{{"Opening here: circle", pattern.CircleShape}, {"Opening here: oval", pattern.OvalShape}, {"Opening here: rectangle", pattern.RectangleShape}} {
			add(o.title, func() { e.Tool = o.shape; e.drawAt(at) })
		}
		return os
	}
	return nil
}

// addItemAt adds an item with its middle at a position, in one step.
func (e *Editor) addItemAt(kind ItemKind, of string, at plane.Point) {
	e.addItem(kind, of, func(d *pattern.Design, it Item) { it.Put(d, at) })
}
