package app

import (
	"cmp"
	"math"
	"slices"
	"strings"

	"fretband/pattern"
	"fretband/unroll"
	"fretband/unroll/plane"
)

// Selection is what is picked of a laid design.
type Selection struct {
	Scene  *Scene   // nil as long as nothing could be laid
	Picked []Picked // openings and solid cells
	mirror string   // of edits by hand to come
}

// Flat returns the blank of the scene.
func (s *Selection) Flat() unroll.Flat {
	if s.Scene == nil {
		return unroll.Flat{}
	}
	return s.Scene.Sheet.Flat
}

// first returns the edit of one of those kinds that holds the numbers of what was
// picked last, and how that is mirrored in it; false if there is none.
func (s *Selection) first(d pattern.Design, do ...string) (pattern.Edit, touched, bool) {
	picks := s.Picked
	for i := len(picks) - 1; i >= 0; i-- {
		if picks[i].Opening < 0 && picks[i].Solid < 0 && picks[i].Tie == 0 && i > 0 {
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

// TouchedByHand reports whether anything was done by hand to what is picked.
func (s *Selection) TouchedByHand() bool {
	if s.Scene == nil {
		return false
	}
	for _, ts := range touches(s.Scene.Sheet.Design, s.Flat(), s.Picked) {
		if len(ts) > 0 {
			return true
		}
	}
	return false
}

// Drawn reports whether the opening that was picked last was drawn by hand.
func (s *Selection) Drawn(d pattern.Design) bool {
	e, _, ok := s.first(d, pattern.Add, pattern.Change)
	return ok && e.Do == pattern.Add
}

// Movable reports whether there is something among what is picked that can be
// moved, turned and scaled: an opening, or an edit of one that can't be cut just now.
func (s *Selection) Movable(d pattern.Design) bool {
	for _, p := range s.Picked {
		if p.Opening >= 0 {
			return true
		}
	}
	_, _, ok := s.first(d, pattern.Change, pattern.Add, pattern.Tie)
	return ok
}

// HandNumbers are the numbers of what is picked: how it was changed, or where an
// opening drawn by hand is placed, and the size of a shape of its own.
func (s *Selection) HandNumbers() []Number {
	ns := Numbers(pattern.HandGroup)
	for i := range ns {
		n := &ns[i]
		name := strings.TrimPrefix(n.Entry.Path, "edits[].")
		if sign, ok := ties[n.Entry.Key()]; ok {
			n.tie(s, sign)
			n.Path = "edits.picked.tie_" + name
			continue
		}
		if m, ok := moves[name]; ok {
			n.move(s, m)
		} else {
			n.size(s)
		}
		n.Path = "edits.picked." + cmp.Or(moves[name].name, name)
	}
	return ns
}

// move says how to read and write a number of a change. Some change their sign in a
// mirror image.
type move struct {
	name   string // in the window, where the file has another
	of     func(*pattern.Edit) *float64
	sign   func(flipX, flipY bool) bool
	factor float64 // of the number shown
}

var moves = map[string]move{
	"move_x_mm": {"along", func(e *pattern.Edit) *float64 { return &e.MoveXMM }, func(flipX, _ bool) bool { return flipX }, 1},
	"move_y_mm": {"across", func(e *pattern.Edit) *float64 { return &e.MoveYMM }, func(_, flipY bool) bool { return flipY }, 1},
	"turn_deg":  {"", func(e *pattern.Edit) *float64 { return &e.RotationDeg }, func(flipX, flipY bool) bool { return flipX != flipY }, 1},
	"scale":     {"", func(e *pattern.Edit) *float64 { return &e.Scale }, func(_, _ bool) bool { return false }, 100},
}

// ties are the numbers of ties, and which mirror images have them the other way round.
var ties = map[string]func(flipX, flipY bool) bool{
	"edits[].width_mm:tie": nil,
	"edits[].span_x_mm":    func(flipX, _ bool) bool { return flipX },
	"edits[].span_y_mm":    func(_, flipY bool) bool { return flipY },
	"edits[].bow_mm":       func(flipX, flipY bool) bool { return flipX != flipY },
}

func (n *Number) move(s *Selection, m move) {
	factor := func(flipX, flipY bool) float64 {
		if m.sign(flipX, flipY) {
			return -m.factor
		}
		return m.factor
	}
	n.Get = func(d pattern.Design) float64 {
		e, t, ok := s.first(d, pattern.Add, pattern.Change, pattern.Tie)
		if !ok || e.Do == pattern.Change && e.Scale == 0 {
			e.Scale = 1
		}
		if e.Do == pattern.Add || e.Do == pattern.Tie {
			e.Scale = 1
			e.MoveXMM, e.MoveYMM = s.Flat().Where(plane.Pt(e.At[t.spot].XMM, e.At[t.spot].YMM))
		}
		return factor(t.flipX, t.flipY) * *m.of(&e)
	}
	n.Set = func(d *pattern.Design, v float64) {
		if s.Tied(*d) { // its position
			by := v - n.Get(*d)
			if m.name == "along" {
				s.Picked = moveTies(d, s.Flat(), s.Picked, by, 0)
			} else {
				s.Picked = moveTies(d, s.Flat(), s.Picked, 0, by)
			}
			return
		}
		s.Picked = change(d, s.Flat(), s.Picked, s.mirror, func(e *pattern.Edit, flipX, flipY bool) { *m.of(e) = v / factor(flipX, flipY) })
	}
	n.Shown = func(d pattern.Design) bool {
		return s.Movable(d) && (m.factor == 1 || !s.Drawn(d)) && (m.name != "" || !s.Tied(d))
	}
}

// size binds the number to the picked openings that have shapes of their own.
func (n *Number) size(s *Selection) {
	at, shown := n.Entry.Number, n.Entry.Shown
	n.Get = func(d pattern.Design) float64 {
		e, _, _ := s.first(d, pattern.Add, pattern.Replace)
		return *at(&pattern.Design{Edits: []pattern.Edit{e}}, pattern.At{})
	}
	n.Set = func(d *pattern.Design, v float64) {
		s.setShape(d, func(e *pattern.Edit) {
			if one := (&pattern.Design{Edits: []pattern.Edit{*e}}); shown(one, pattern.At{}) {
				*at(one, pattern.At{}) = v
				*e = one.Edits[0]
			}
		})
	}
	n.Shown = func(d pattern.Design) bool {
		e, _, ok := s.first(d, pattern.Add, pattern.Replace)
		return ok && shown(&pattern.Design{Edits: []pattern.Edit{e}}, pattern.At{})
	}
}

// splitEdits separates edits of those kinds that work on the selection from what else
// they work on, and calls do with each part that works on the selection.
func (s *Selection) splitEdits(d *pattern.Design, kinds []string, do func(*pattern.Edit)) {
	*d = Clone(*d)
	mine := spotsOf{}
	for _, ts := range touches(*d, s.Flat(), s.Picked) {
		for _, t := range ts {
			mine.add(t.edit, t.spot)
		}
	}
	var edits []pattern.Edit
	for i, e := range d.Edits {
		if len(mine[i]) == 0 || !slices.Contains(kinds, e.Do) {
			edits = append(edits, e)
			continue
		}
		part, rest := split(e, mine[i])
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
func (s *Selection) setShape(d *pattern.Design, do func(*pattern.Edit)) {
	s.splitEdits(d, []string{pattern.Add, pattern.Replace}, do)
}

// HandShape chooses what the openings picked are replaced by.
func (s *Selection) HandShape() Choice {
	shape := pattern.ByPath("edits[].shape")[0]
	return Choice{
		Path: "edits.picked.shape", Title: shape.Title, Tip: shape.Tip,
		Options: func(d pattern.Design) []Option {
			if s.Drawn(d) {
				return shape.Options
			}
			return append([]Option{{Key: "", Title: "The pattern's"}}, shape.Options...)
		},
		Get: func(d pattern.Design) string {
			e, _, _ := s.first(d, pattern.Add, pattern.Replace)
			return e.Shape
		},
		Set: func(d *pattern.Design, key string) {
			if key == "" {
				undo(d, s.Flat(), s.Picked, func(e pattern.Edit) bool { return e.Do == pattern.Replace })
				return
			}
			e, _, ok := s.first(*d, pattern.Add, pattern.Replace)
			if !ok {
				e = pattern.Edit{}
				for _, p := range s.Picked {
					if p.Opening >= 0 && s.Scene != nil && p.Opening < len(s.Scene.Sheet.Openings) {
						b := s.Scene.Sheet.Openings[p.Opening].Box
						e.WidthMM, e.HeightMM = hundredths(0.7*b.W()), hundredths(0.7*b.H())
						break
					}
				}
			}
			ReplaceBy(d, s.Flat(), s.Picked, shaped(e, key), s.mirror)
		},
		Shown: func(d pattern.Design) bool { return s.Movable(d) && !s.Tied(d) },
	}
}

// leafPath is the path that a shape of one's own starts from: a leaf.
const leafPath = "M -2 0 Q 0 -2.4 2 0 Q 0 2.4 -2 0 Z"

// shaped returns the edit with another shape of about the same size.
func shaped(e pattern.Edit, key string) pattern.Edit {
	w, h := cmp.Or(e.WidthMM, 3), e.HeightMM
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
		e.WidthMM, e.HeightMM, e.RotationDeg = math.Min(w, h), 0, 0
	case pattern.PathShape:
		e.Path = leafPath
	}
	return e
}

// HandPath returns the path data of the shape of what is picked, and whether it has
// one; SetHandPath changes it.
func (s *Selection) HandPath(d pattern.Design) (string, bool) {
	e, _, ok := s.first(d, pattern.Add, pattern.Replace)
	return e.Path, ok && e.Shape == pattern.PathShape
}

// SetHandPath gives the shapes of their own of what is picked another path, of that
// size.
func (s *Selection) SetHandPath(d *pattern.Design, path string, width, height float64) {
	within := func(v float64) float64 { return pattern.SizeRange.Clamp(hundredths(v)) }
	s.setShape(d, func(e *pattern.Edit) {
		if e.Shape == pattern.PathShape {
			e.Path, e.WidthMM, e.HeightMM = path, within(width), within(height)
		}
	})
}

// HandMirror chooses where edits are repeated as mirror images: those of what is
// picked, and those to come.
func (s *Selection) HandMirror() Choice {
	kinds := []string{pattern.LeaveSolid, pattern.Change, pattern.Replace, pattern.Add, pattern.Tie}
	mirror := pattern.ByPath("edits[].mirror")[0]
	return Choice{
		Path: "edits.picked.mirror", Title: mirror.Title, Tip: mirror.Tip,
		Options: func(pattern.Design) []Option { return mirror.Options },
		Get: func(d pattern.Design) string {
			if e, _, ok := s.first(d, kinds...); ok {
				return e.Mirror
			}
			return s.mirror
		},
		Set: func(d *pattern.Design, key string) {
			s.mirror = key
			s.splitEdits(d, kinds, func(e *pattern.Edit) { e.Mirror = key })
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
		if e.RotationDeg != 0 {
			add("turned " + n(e.RotationDeg) + "\u00b0")
		}
		if e.Scale != 0 {
			add("scaled to " + FormatNumber(100*e.Scale, 1) + " %")
		}
		if text == "" {
			add("changed by nothing")
		}
	case pattern.Tie:
		add("tie " + n(math.Hypot(e.SpanXMM, e.SpanYMM)) + " long")
		if e.WidthMM > 0 {
			add(n(e.WidthMM) + " wide")
		}
		if e.BowMM != 0 {
			add("bow " + n(math.Abs(e.BowMM)))
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
