package app

import (
	"math"
	"slices"

	"fretband/pattern"
	"fretband/unroll"
	"fretband/unroll/plane"
)

// Selection is what is picked of a laid design.
type Selection interface {
	Flat() unroll.Flat
	Picks() []Picked
	// Take takes the picks as they are after a change: an opening drawn by hand
	// has another place once it is moved.
	Take([]Picked)
	// Mirror is the mirror of edits to come.
	Mirror() string
	SetMirror(string)
}

// first returns the edit of one of those kinds that holds the numbers of what was
// picked last, and how that is mirrored in it; false if there is none.
func first(d pattern.Design, s Selection, do ...string) (pattern.Edit, touched, bool) {
	picks := s.Picks()
	for i := len(picks) - 1; i >= 0; i-- {
		if picks[i].Opening < 0 && picks[i].Solid < 0 && i > 0 {
			continue // it is not there
		}
		ts := touches(d, s.Flat(), picks[i:i+1])[0]
		for k := len(ts) - 1; k >= 0; k-- {
			if e := d.Edits[ts[k].edit]; slices.Contains(do, e.Do) {
				return e, ts[k], true
			}
		}
		break
	}
	return pattern.Edit{}, touched{}, false
}

// Drawn reports whether the opening that was picked last was drawn by hand.
func Drawn(d pattern.Design, s Selection) bool {
	e, _, ok := first(d, s, pattern.Add, pattern.Change)
	return ok && e.Do == pattern.Add
}

// Movable reports whether there is something among what is picked that can be
// moved, turned and scaled: an opening, or an edit of one that can't be cut just now.
func Movable(d pattern.Design, s Selection) bool {
	for _, p := range s.Picks() {
		if p.Opening >= 0 {
			return true
		}
	}
	_, _, ok := first(d, s, pattern.Change, pattern.Add)
	return ok
}

// HandNumbers are the numbers of what is picked: how it was changed, or where an
// opening drawn by hand stands, and the size of a shape of its own.
func HandNumbers(s Selection) []Number {
	num := func(field, title, unit, tip string, r pattern.Range, step float64, places int, get func(pattern.Edit, touched) float64, set func(e *pattern.Edit, v float64, flipX, flipY bool)) Number {
		return Number{
			Path: "edits.picked." + field, Title: title, Unit: unit, Min: r.Min, Max: r.Max, Step: step, Places: places, Tip: tip,
			Get: func(d pattern.Design) float64 {
				e, t, ok := first(d, s, pattern.Add, pattern.Change)
				if !ok || e.Do == pattern.Change && e.Scale == 0 {
					e.Scale = 1
				}
				if e.Do == pattern.Add {
					e.Scale = 1
					e.MoveXMM, e.MoveYMM = s.Flat().Where(plane.Pt(e.At[t.spot].XMM, e.At[t.spot].YMM))
				}
				return get(e, t)
			},
			Set: func(d *pattern.Design, v float64) {
				s.Take(change(d, s.Flat(), s.Picks(), s.Mirror(), func(e *pattern.Edit, flipX, flipY bool) { set(e, v, flipX, flipY) }))
			},
			Shown: func(d pattern.Design) bool { return Movable(d, s) },
		}
	}
	sign := func(flip bool) float64 {
		if flip {
			return -1
		}
		return 1
	}
	along := num("along", "Along", "mm", "How far it is moved along the band, to the right; of an opening drawn by hand its place, from the middle.", pattern.PlaceRange, 0.1, 2,
		func(e pattern.Edit, t touched) float64 { return sign(t.flipX) * e.MoveXMM },
		func(e *pattern.Edit, v float64, flipX, _ bool) { e.MoveXMM = sign(flipX) * v })
	across := num("across", "Across", "mm", "How far it is moved across the band, upwards; of an opening drawn by hand its place, from the middle.", pattern.PlaceRange, 0.1, 2,
		func(e pattern.Edit, t touched) float64 { return sign(t.flipY) * e.MoveYMM },
		func(e *pattern.Edit, v float64, _, flipY bool) { e.MoveYMM = sign(flipY) * v })
	turn := num("turn_deg", "Turn", "\u00b0", "Turned about its own middle, counter-clockwise.", pattern.Range{Min: -180, Max: 180}, 1, 2,
		func(e pattern.Edit, t touched) float64 { return sign(t.flipX != t.flipY) * e.TurnDeg },
		func(e *pattern.Edit, v float64, flipX, flipY bool) { e.TurnDeg = sign(flipX != flipY) * v })
	scale := num("scale", "Scale", "%", "Made larger or smaller about its own middle. The metal beside it gives way only as far as the bridge allows.", pattern.Range{Min: 100 * pattern.ScaleRange.Min, Max: 100 * pattern.ScaleRange.Max}, 5, 2,
		func(e pattern.Edit, _ touched) float64 { return 100 * e.Scale },
		func(e *pattern.Edit, v float64, _, _ bool) { e.Scale = v / 100 })
	scale.Shown = func(d pattern.Design) bool { return Movable(d, s) && !Drawn(d, s) }
	size := func(field, title, tip string, of func(*pattern.Edit) *float64, shown func(pattern.Edit) bool) Number {
		return Number{
			Path: "edits.picked." + field, Title: title, Unit: "mm", Min: pattern.SizeRange.Min, Max: pattern.SizeRange.Max, Step: 0.1, Places: 2, Tip: tip,
			Get: func(d pattern.Design) float64 {
				e, _, _ := first(d, s, pattern.Add, pattern.Replace)
				return *of(&e)
			},
			Set: func(d *pattern.Design, v float64) {
				setShape(d, s, func(e *pattern.Edit) {
					if shown(*e) {
						*of(e) = v
					}
				})
			},
			Shown: func(d pattern.Design) bool {
				e, _, ok := first(d, s, pattern.Add, pattern.Replace)
				return ok && shown(e)
			},
		}
	}
	circle := func(e pattern.Edit) bool { return e.Shape == pattern.CircleShape }
	other := func(e pattern.Edit) bool {
		return e.Shape == pattern.OvalShape || e.Shape == pattern.RectangleShape || e.Shape == pattern.PathShape && e.WidthMM > 0
	}
	width := func(e *pattern.Edit) *float64 { return &e.WidthMM }
	return []Number{
		along, across, turn, scale,
		size("width_mm", "Diameter", "Of the circle.", width, circle),
		size("width_mm", "Length", "Of the shape, along the band before it is turned.", width, other),
		size("height_mm", "Height", "Of the shape, across the band before it is turned.", func(e *pattern.Edit) *float64 { return &e.HeightMM }, other),
	}
}

// parted parts the edits of those kinds that work on what is picked from what else
// they work on, and calls do with each part of them that works on the picks.
func parted(d *pattern.Design, s Selection, kinds []string, do func(*pattern.Edit)) {
	*d = Clone(*d)
	mine := spotsOf{}
	for _, ts := range touches(*d, s.Flat(), s.Picks()) {
		for _, t := range ts {
			mine.add(t.edit, t.spot)
		}
	}
	var edits []pattern.Edit
	for i, e := range d.Edits {
		wanted := false
		for _, k := range kinds {
			wanted = wanted || e.Do == k
		}
		if len(mine[i]) == 0 || !wanted {
			edits = append(edits, e)
			continue
		}
		rest, part := e, e
		rest.At, part.At = nil, nil
		for k, p := range e.At {
			if mine[i][k] {
				part.At = append(part.At, p)
			} else {
				rest.At = append(rest.At, p)
			}
		}
		if len(rest.At) > 0 {
			edits = append(edits, rest)
		}
		do(&part)
		edits = append(edits, part)
	}
	if len(edits) <= pattern.MaxEdits {
		d.Edits = edits
	}
}

// setShape changes the shapes of their own that the picked openings have.
func setShape(d *pattern.Design, s Selection, do func(*pattern.Edit)) {
	parted(d, s, []string{pattern.Add, pattern.Replace}, do)
}

// HandShape chooses what the openings picked are replaced by.
func HandShape(s Selection, sheet func() *pattern.Sheet) Choice {
	return Choice{
		Path: "edits.picked.shape", Title: "Shape", Tip: "Replace it by a shape of your own, or give it back the pattern's.",
		Options: func(d pattern.Design) []Option {
			all := []Option{{"", "The pattern's"}, {pattern.CircleShape, "Circle"}, {pattern.OvalShape, "Oval"}, {pattern.RectangleShape, "Rectangle"}, {pattern.PathShape, "A path of your own"}}
			if Drawn(d, s) {
				all = all[1:]
			}
			return all
		},
		Get: func(d pattern.Design) string {
			e, _, _ := first(d, s, pattern.Add, pattern.Replace)
			return e.Shape
		},
		Set: func(d *pattern.Design, key string) {
			if key == "" {
				undo(d, s.Flat(), s.Picks(), func(e pattern.Edit) bool { return e.Do == pattern.Replace })
				return
			}
			e, _, ok := first(*d, s, pattern.Add, pattern.Replace)
			if !ok {
				e = pattern.Edit{}
				if sh := sheet(); sh != nil {
					for _, p := range s.Picks() {
						if p.Opening >= 0 && p.Opening < len(sh.Openings) {
							b := sh.Openings[p.Opening].Box
							e.WidthMM, e.HeightMM = hundredths(0.7*b.W()), hundredths(0.7*b.H())
							break
						}
					}
				}
			}
			ReplaceBy(d, s.Flat(), s.Picks(), shaped(e, key), s.Mirror())
		},
		Shown: func(d pattern.Design) bool { return Movable(d, s) },
	}
}

// leafPath is the path that a shape of one's own starts from: a leaf.
const leafPath = "M -2 0 Q 0 -2.4 2 0 Q 0 2.4 -2 0 Z"

// shaped returns the edit with another shape of about the same size.
func shaped(e pattern.Edit, key string) pattern.Edit {
	w, h := e.WidthMM, e.HeightMM
	if w == 0 {
		w = 3
	}
	if h == 0 {
		h = w
		if e.Shape == pattern.CircleShape && key != pattern.CircleShape {
			h = hundredths(w * 0.6)
		}
	}
	e.Shape, e.Path = key, ""
	e.WidthMM, e.HeightMM = math.Max(pattern.SizeRange.Min, w), math.Max(pattern.SizeRange.Min, h)
	switch key {
	case pattern.CircleShape:
		e.WidthMM, e.HeightMM, e.TurnDeg = math.Min(w, h), 0, 0
	case pattern.PathShape:
		e.Path = leafPath
	}
	return e
}

// HandPath returns the path data of the shape of what is picked, and whether it has
// one; SetHandPath changes it.
func HandPath(d pattern.Design, s Selection) (string, bool) {
	e, _, ok := first(d, s, pattern.Add, pattern.Replace)
	return e.Path, ok && e.Shape == pattern.PathShape
}

// SetHandPath gives the shapes of their own of what is picked another path, of that
// size.
func SetHandPath(d *pattern.Design, s Selection, path string, width, height float64) {
	within := func(v float64) float64 {
		return math.Max(pattern.SizeRange.Min, math.Min(pattern.SizeRange.Max, hundredths(v)))
	}
	setShape(d, s, func(e *pattern.Edit) {
		if e.Shape == pattern.PathShape {
			e.Path, e.WidthMM, e.HeightMM = path, within(width), within(height)
		}
	})
}

// HandMirror chooses where edits are repeated as mirror images: those of what is
// picked, and those to come.
func HandMirror(s Selection) Choice {
	kinds := []string{pattern.LeaveSolid, pattern.Change, pattern.Replace, pattern.Add}
	return Choice{
		Path: "edits.picked.mirror", Title: "Mirror", Tip: "Whatever is done here is done to the mirror image as well: at the other end of the band, at its other edge, or both.",
		Options: func(pattern.Design) []Option {
			return []Option{{"", "No copies"}, {pattern.MirrorAlong, "Left and right"}, {pattern.MirrorAcross, "Above and below"}, {pattern.MirrorBoth, "All four"}}
		},
		Get: func(d pattern.Design) string {
			if e, _, ok := first(d, s, kinds...); ok {
				return e.Mirror
			}
			return s.Mirror()
		},
		Set: func(d *pattern.Design, key string) {
			s.SetMirror(key)
			parted(d, s, kinds, func(e *pattern.Edit) { e.Mirror = key })
		},
	}
}

// EditText says in a few words what an edit does, and where.
func EditText(e pattern.Edit) string {
	n := func(v float64) string { return FormatNumber(v, 2) }
	text := ""
	add := func(s string) {
		if text != "" {
			text += ", "
		}
		text += s
	}
	switch e.Do {
	case pattern.LeaveSolid:
		add("left solid")
	case pattern.Change:
		if e.MoveXMM != 0 || e.MoveYMM != 0 {
			add("moved " + n(e.MoveXMM) + ", " + n(e.MoveYMM))
		}
		if e.TurnDeg != 0 {
			add("turned " + n(e.TurnDeg) + "\u00b0")
		}
		if e.Scale != 0 {
			add("scaled to " + FormatNumber(100*e.Scale, 1) + " %")
		}
		if text == "" {
			add("changed by nothing")
		}
	case pattern.Replace, pattern.Add:
		s := map[string]string{pattern.CircleShape: "circle", pattern.OvalShape: "oval", pattern.RectangleShape: "rectangle", pattern.PathShape: "own shape"}[e.Shape]
		if e.WidthMM > 0 {
			s += " " + n(e.WidthMM)
		}
		if e.HeightMM > 0 {
			s += " x " + n(e.HeightMM)
		}
		if e.Do == pattern.Replace {
			s = "replaced by " + s
		}
		add(s)
	}
	if len(e.At) > 1 {
		text += ", " + FormatNumber(float64(len(e.At)), 0) + " places"
	}
	if e.Mirror != "" {
		text += ", mirrored"
	}
	return text
}
