package app

import (
	"cmp"
	"math"
	"slices"

	"fretband/pattern"
	"fretband/pattern/own"
	"fretband/unroll"
	"fretband/unroll/plane"
)

// Shift is a change of openings about their own middles: moved along and across the
// band, mm, turned, degrees, and scaled.
type Shift struct {
	Along, Across, RotationDeg float64
	Scale                      float64 // 0 is 1
}

// Shifted changes the openings picked, and their mirror images likewise, and
// returns them as picked: one that was drawn by hand takes its place with it. What
// was changed before is changed further, so that each opening has one change only.
func Shifted(d *pattern.Design, f unroll.Flat, picks []Picked, by Shift, mirror string) []Picked {
	picks = moveTies(d, f, picks, by.Along, by.Across)
	return change(d, f, picks, mirror, func(e *pattern.Edit, flipX, flipY bool) {
		along, across := flipped(by.Along, by.Across, flipX, flipY)
		turned, _ := flipped(by.RotationDeg, 0, flipX != flipY, false)
		e.MoveXMM += along
		e.MoveYMM += across
		e.RotationDeg += turned
		e.Scale *= cmp.Or(by.Scale, 1)
	})
}

// flipped mirrors a movement along and across the band.
func flipped(along, across float64, flipX, flipY bool) (x, v float64) {
	if flipX {
		along = -along
	}
	if flipY {
		across = -across
	}
	return along, across
}

// split separates the given positions of an edit from its others.
func split(e pattern.Edit, spots map[int]bool) (mine, rest pattern.Edit) {
	mine, rest = e, e
	mine.At, rest.At = nil, nil
	for k, p := range e.At {
		if spots[k] {
			mine.At = append(mine.At, p)
		} else {
			rest.At = append(rest.At, p)
		}
	}
	return mine, rest
}

// change calls do to change the openings picked, by the numbers of an edit: move, turn
// and scale, of which the scale is never 0.
func change(d *pattern.Design, f unroll.Flat, picks []Picked, mirror string, do func(e *pattern.Edit, flipX, flipY bool)) []Picked {
	*d = Clone(*d)
	out := slices.Clone(picks)
	type share struct {
		spots        map[int]bool
		flipX, flipY bool
	}
	shares := map[int]*share{}
	var fresh []pattern.Spot
	for i, ts := range touches(*d, f, picks) {
		if picks[i].Solid >= 0 || picks[i].Tie > 0 {
			continue
		}
		// The last change or drawn opening there is changed further.
		at := -1
		for k, t := range ts {
			if do := d.Edits[t.edit].Do; do == pattern.Change || do == pattern.Add {
				at = k
			}
		}
		if at < 0 {
			if picks[i].Opening < 0 {
				continue // it is not there
			}
			fresh = append(fresh, spotAt(picks[i].At[0]))
			continue
		}
		t := ts[at]
		s := shares[t.edit]
		if s == nil {
			s = &share{map[int]bool{}, t.flipX, t.flipY}
			shares[t.edit] = s
		}
		s.spots[t.spot] = true
	}
	var edits []pattern.Edit
	for i, e := range d.Edits {
		s := shares[i]
		if s == nil {
			edits = append(edits, e)
			continue
		}
		mine, rest := split(e, s.spots)
		if len(rest.At) > 0 {
			edits = append(edits, rest)
		}
		if e.Do == pattern.Add {
			drawn(&mine, f, func(c *pattern.Edit) { do(c, s.flipX, s.flipY) })
			follow(out, e, mine, *d, f)
			edits = append(edits, mine)
			continue
		}
		mine.Scale = cmp.Or(mine.Scale, 1)
		do(&mine, s.flipX, s.flipY)
		if settle(&mine) {
			edits = append(edits, mine)
		}
	}
	if len(fresh) > 0 && len(edits) < pattern.MaxEdits {
		e := pattern.Edit{Do: pattern.Change, At: fresh, Mirror: mirror, Scale: 1}
		do(&e, false, false)
		if settle(&e) {
			edits = append(edits, e)
		}
	}
	d.Edits = edits
	return out
}

// settle brings the numbers of a change to what is written, and reports whether it
// changes anything.
func settle(e *pattern.Edit) bool {
	e.MoveXMM = pattern.PositionRange.Clamp(hundredths(e.MoveXMM))
	e.MoveYMM = pattern.PositionRange.Clamp(hundredths(e.MoveYMM))
	e.RotationDeg = hundredths(math.Remainder(e.RotationDeg, 360))
	e.Scale = pattern.ScaleRange.Clamp(math.Round(e.Scale*1e4) / 1e4)
	if e.Scale == 1 {
		e.Scale = 0
	}
	return e.MoveXMM != 0 || e.MoveYMM != 0 || e.RotationDeg != 0 || e.Scale != 0
}

// drawn changes an opening that was drawn by hand: its position, its rotation, its size.
func drawn(e *pattern.Edit, f unroll.Flat, do func(*pattern.Edit)) {
	x0, v0 := f.Where(plane.Pt(e.At[0].XMM, e.At[0].YMM))
	c := pattern.Edit{MoveXMM: x0, MoveYMM: v0, RotationDeg: e.RotationDeg, Scale: 1}
	do(&c)
	settle(&c)
	c.Scale = cmp.Or(c.Scale, 1)
	for i, p := range e.At {
		q := f.Carried(plane.Pt(p.XMM, p.YMM), c.MoveXMM-x0, c.MoveYMM-v0)
		e.At[i] = spotAt(plane.Pt(hundredths(q.X), hundredths(q.Y)))
	}
	e.RotationDeg = c.RotationDeg
	if e.Shape == pattern.CircleShape {
		e.RotationDeg = 0
	}
	size := func(v float64) float64 {
		if v == 0 {
			return 0
		}
		return pattern.SizeRange.Clamp(hundredths(v * c.Scale))
	}
	if e.Shape == pattern.PathShape && e.WidthMM == 0 && c.Scale != 1 {
		if l, err := own.Outline(e.Path); err == nil { // as large as it was drawn until now
			e.WidthMM, e.HeightMM = l.Bounds().W(), l.Bounds().H()
		}
	}
	e.WidthMM, e.HeightMM = size(e.WidthMM), size(e.HeightMM)
}

// follow moves the picks of an opening drawn by hand along with its positions, from one
// edit to the next.
func follow(picks []Picked, was, is pattern.Edit, d pattern.Design, f unroll.Flat) {
	one := func(e pattern.Edit, at pattern.Spot) []plane.Point {
		e.At = []pattern.Spot{at}
		alone := d
		alone.Edits = []pattern.Edit{e}
		var ps []plane.Point
		for _, p := range pattern.EditPositions(alone, f) {
			ps = append(ps, p.At)
		}
		return ps
	}
	k := 0
	for _, p := range was.At {
		if k >= len(is.At) {
			return
		}
		before := one(was, p)
		moved := false
		for i := range picks {
			for j, q := range before {
				if picks[i].has(q) {
					after := one(is, is.At[k])
					picks[i].At = []plane.Point{after[min(j, len(after)-1)]}
					moved = true
					break
				}
			}
		}
		if moved {
			k++
		}
	}
}

// ReplaceBy has the openings picked become another shape, and their mirror images.
// A shape that they were given before makes way for it; a change of them stays.
func ReplaceBy(d *pattern.Design, f unroll.Flat, picks []Picked, shape pattern.Edit, mirror string) {
	*d = Clone(*d)
	gone := spotsOf{}
	var at []pattern.Spot
	for i, ts := range touches(*d, f, picks) {
		if picks[i].Solid >= 0 {
			continue
		}
		drawn := false
		for _, t := range ts {
			switch e := &d.Edits[t.edit]; e.Do {
			case pattern.Replace:
				gone.add(t.edit, t.spot)
			case pattern.Add:
				drawn = true
				e.Shape, e.WidthMM, e.HeightMM, e.Path, e.RotationDeg = shape.Shape, shape.WidthMM, shape.HeightMM, shape.Path, shape.RotationDeg
			}
		}
		if !drawn && picks[i].Opening >= 0 {
			at = append(at, spotAt(picks[i].At[0]))
		}
	}
	gone.remove(d)
	if len(at) == 0 || len(d.Edits) >= pattern.MaxEdits {
		return
	}
	e := pattern.Edit{Do: pattern.Replace, At: at, Mirror: mirror, Shape: shape.Shape, WidthMM: shape.WidthMM, HeightMM: shape.HeightMM, Path: shape.Path, RotationDeg: shape.RotationDeg}
	// Before all changes: they work on the shape.
	k := slices.IndexFunc(d.Edits, func(e pattern.Edit) bool { return e.Do == pattern.Change })
	if k < 0 {
		k = len(d.Edits)
	}
	d.Edits = slices.Insert(d.Edits, k, e)
}
