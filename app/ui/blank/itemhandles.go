package blank

import (
	"math"

	"fretband/app"
	"fretband/pattern"
	"fretband/unroll/plane"
)

// itemHandles are those of the reserve or engraving that is selected: a corner gives its
// size, a disc beyond its right end its turn.
func (b *View) itemHandles(s *app.Scene) []handle {
	it, d := b.ed.Item, s.Sheet.Design
	if !it.In(d) || b.ed.Folded {
		return nil
	}
	k := b.v.k / math.Max(1, b.v.frame.scale) // of the toolkit's pixels
	if it.Kind == app.EngravingItem {
		for _, m := range s.Sheet.Engravings {
			if m.Engraving == it.Index && len(m.Frame) == 4 {
				return b.engravingHandles(d.Engravings[it.Index], m.Frame, it, 24/k)
			}
		}
		return nil
	}
	if it.Kind == app.AddedItem {
		return b.addedHandles(s, it, 24/k)
	}
	r := d.Reserves[it.Index]
	// Of a row, those of the one in its middle.
	var row []pattern.Reserved
	for _, x := range s.Sheet.Reserves {
		if x.Reserve == it.Index {
			row = append(row, x)
		}
	}
	if len(row) == 0 || r.WidthMM == 0 {
		return nil
	}
	x := row[len(row)/2]
	at := func(dx, dy float64) plane.Point { return x.At.Add(plane.Pt(dx, dy).Turn(x.Rotation)) }
	size := func(d *pattern.Design, to plane.Point) {
		if r.Shape == pattern.CircleShape {
			it.Resize(d, 2*to.Dist(x.At), 0)
			return
		}
		q := to.Sub(x.At).Turn(-x.Rotation)
		it.Resize(d, 2*math.Abs(q.X), 2*math.Abs(q.Y))
	}
	if r.Shape == pattern.CircleShape {
		return []handle{b.itemHandle(it, "size", at(r.WidthMM/2, 0), size)}
	}
	end := at(r.WidthMM/2, 0)
	turn := b.itemHandle(it, "turn", at(r.WidthMM/2+24/k, 0), func(d *pattern.Design, to plane.Point) {
		v := to.Sub(x.At)
		it.RotateTo(d, r.RotationDeg+(math.Atan2(v.Y, v.X)-x.Rotation)*180/math.Pi)
	})
	turn.round, turn.stem = true, &end
	return []handle{b.itemHandle(it, "size", at(r.WidthMM/2, r.HeightMM/2), size), turn}
}

// addedHandles are those of a stone or part, of a row those of the one in its middle.
func (b *View) addedHandles(s *app.Scene, it app.Item, beyond float64) []handle {
	a := s.Sheet.Design.Added[it.Index]
	seats := s.Sheet.Added[it.Index].Seats
	if a.Kind == pattern.WirePart || a.WidthMM == 0 || len(seats) == 0 {
		return nil
	}
	x := seats[len(seats)/2]
	at := func(dx, dy float64) plane.Point { return x.At.Add(plane.Pt(dx, dy).Turn(x.Rotation)) }
	if a.HeightMM == 0 {
		return []handle{b.itemHandle(it, "size", at(a.WidthMM/2, 0), func(d *pattern.Design, to plane.Point) { it.Resize(d, 2*to.Dist(x.At), 0) })}
	}
	end := at(a.WidthMM/2, 0)
	size := b.itemHandle(it, "size", at(a.WidthMM/2, a.HeightMM/2), func(d *pattern.Design, to plane.Point) {
		q := to.Sub(x.At).Turn(-x.Rotation)
		it.Resize(d, 2*math.Abs(q.X), 2*math.Abs(q.Y))
	})
	turn := b.itemHandle(it, "turn", at(a.WidthMM/2+a.WallMM+beyond, 0), func(d *pattern.Design, to plane.Point) {
		v := to.Sub(x.At)
		it.RotateTo(d, a.RotationDeg+(math.Atan2(v.Y, v.X)-x.Rotation)*180/math.Pi)
	})
	turn.round, turn.stem = true, &end
	return []handle{size, turn}
}

func (b *View) engravingHandles(m pattern.Engraving, frame plane.Loop, it app.Item, beyond float64) []handle {
	c, turned := plane.Pt(m.XMM, m.YMM), m.RotationDeg*math.Pi/180
	right, corner := frame[1].Mid(frame[2].Point), frame[2].Point
	turnTo := func(d *pattern.Design, to plane.Point) {
		v := to.Sub(c)
		it.RotateTo(d, math.Atan2(v.Y, v.X)*180/math.Pi)
	}
	if m.Kind == pattern.LineEngraving { // its end gives its length and its turn
		return []handle{b.itemHandle(it, "end", right, func(d *pattern.Design, to plane.Point) {
			it.Resize(d, 2*to.Dist(c), 0)
			turnTo(d, to)
		})}
	}
	at := right.Add(plane.Pt(beyond, 0).Turn(turned))
	off := at.Sub(c) // of drawn lines it is not straight to the right of their origin
	turn := b.itemHandle(it, "turn", at, func(d *pattern.Design, to plane.Point) {
		v := to.Sub(c)
		it.RotateTo(d, m.RotationDeg+math.Atan2(off.Cross(v), off.Dot(v))*180/math.Pi)
	})
	turn.round, turn.stem = true, &right
	if m.Kind != pattern.TextEngraving {
		return []handle{turn}
	}
	// The corner moves away from the middle in proportion to the letters.
	size := b.itemHandle(it, "size", corner, func(d *pattern.Design, to plane.Point) {
		it.Resize(d, 0, m.HeightMM*to.Dist(c)/math.Max(1e-3, corner.Dist(c)))
	})
	return []handle{size, turn}
}

// itemHandle is a handle that changes an item by the position of the hand. It measures from
// the design as it was when the handle was made.
func (b *View) itemHandle(it app.Item, what string, at plane.Point, do func(d *pattern.Design, to plane.Point)) handle {
	return handle{At: at, Name: it.Path() + "." + what, free: true, take: func() drag {
		return drag{move: func(to plane.Point) {
			b.Overlay.Beside = b.ed.ChangeItem(it, what, app.Item.SizeText, func(d *pattern.Design) { do(d, to) })
		}}
	}}
}
