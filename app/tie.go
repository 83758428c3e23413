package app

import (
	"fmt"
	"math"

	"fretband/pattern"
	"fretband/unroll"
	"fretband/unroll/plane"
)

// Tied reports whether a tie was picked last.
func (s *Selection) Tied(d pattern.Design) bool {
	_, _, ok := s.first(d, pattern.Tie)
	return ok
}

// PickedTie returns the edit of the tie that was picked last, and which of its positions
// and mirror images that is.
func (s *Selection) PickedTie(d pattern.Design) (e pattern.Edit, p pattern.EditPosition, ok bool) {
	if len(s.Picked) == 0 || s.Scene == nil {
		return e, p, false
	}
	if p, ok = tiePosition(d, s.Flat(), s.Picked[len(s.Picked)-1]); ok {
		e = d.Edits[p.Edit]
	}
	return e, p, ok
}

// tiePosition returns the position of its edit at which a tie was picked.
func tiePosition(d pattern.Design, f unroll.Flat, pick Picked) (pattern.EditPosition, bool) {
	for _, p := range tiePositions(d, f, pick.Tie) {
		if pick.has(p.At) {
			return p, true
		}
	}
	return pattern.EditPosition{}, false
}

// tiePositions lists the positions of a tie by the number of its edit, 0 for no tie.
func tiePositions(d pattern.Design, f unroll.Flat, tie int) []pattern.EditPosition {
	if tie < 1 || tie > len(d.Edits) || d.Edits[tie-1].Do != pattern.Tie {
		return nil
	}
	d.Edits = d.Edits[tie-1 : tie]
	ps := pattern.EditPositions(d, f)
	for i := range ps {
		ps[i].Edit = tie - 1
	}
	return ps
}

// changeTies calls do once for each tie among the picks, and returns the picks at the new
// positions of their ties. A tie with several positions is changed as one.
func changeTies(d *pattern.Design, f unroll.Flat, picks []Picked, do func(e *pattern.Edit, p pattern.EditPosition)) []Picked {
	*d = Clone(*d)
	out := append([]Picked{}, picks...)
	done := map[int]bool{}
	for i, pick := range picks {
		p, ok := tiePosition(*d, f, pick)
		if !ok || done[pick.Tie] {
			continue
		}
		done[pick.Tie] = true
		was := tiePositions(*d, f, pick.Tie)
		do(&d.Edits[p.Edit], p)
		is := tiePositions(*d, f, pick.Tie)
		for k := i; k < len(picks); k++ {
			if picks[k].Tie != pick.Tie {
				continue
			}
			for j := range min(len(was), len(is)) {
				if picks[k].has(was[j].At) {
					out[k].At = []plane.Point{is[j].At}
				}
			}
		}
	}
	return out
}

// moveTies moves the ties among the picks along and across the band.
func moveTies(d *pattern.Design, f unroll.Flat, picks []Picked, along, across float64) []Picked {
	return changeTies(d, f, picks, func(e *pattern.Edit, p pattern.EditPosition) {
		dx, dy := flipped(along, across, p.FlipX, p.FlipY)
		for i, at := range e.At {
			e.At[i] = roundSpot(f.Carried(plane.Pt(at.XMM, at.YMM), dx, dy))
		}
	})
}

func roundSpot(p plane.Point) pattern.Spot {
	return pattern.Spot{XMM: pattern.PositionRange.Clamp(hundredths(p.X)), YMM: pattern.PositionRange.Clamp(hundredths(p.Y))}
}

// TieEnd puts an end of the tie that was picked last, the first or the other, at a point of
// the blank, and leaves the other where it is.
func (s *Selection) TieEnd(d *pattern.Design, first bool, to plane.Point) {
	f := s.Flat()
	s.changeLast(d, func(e *pattern.Edit, p pattern.EditPosition) {
		x, v := f.Where(to)
		x, v = flipped(x, v, p.FlipX, p.FlipY)
		at := &e.At[p.Spot%len(e.At)]
		x0, v0 := f.Where(plane.Pt(at.XMM, at.YMM))
		if first {
			*at = roundSpot(f.Place(x, v))
			x, v = f.Where(plane.Pt(at.XMM, at.YMM))
			e.SpanXMM, e.SpanYMM = e.SpanXMM+x0-x, e.SpanYMM+v0-v
		} else {
			e.SpanXMM, e.SpanYMM = x-x0, v-v0
		}
	})
}

// TieBow bends the tie that was picked last so that its middle comes to lie off the straight
// line between its ends as far as a point does.
func (s *Selection) TieBow(d *pattern.Design, to plane.Point) {
	s.changeLast(d, func(e *pattern.Edit, p pattern.EditPosition) {
		l := pattern.TieLine(s.Flat(), *e, p)
		bow := l.B.Sub(l.A).Unit().Cross(to.Sub(l.A))
		if p.FlipX != p.FlipY {
			bow = -bow
		}
		if e.BowMM = bow; math.Abs(bow) < 0.1 { // straight is hard to hit otherwise
			e.BowMM = 0
		}
	})
}

// changeLast calls do to change the tie that was picked last.
func (s *Selection) changeLast(d *pattern.Design, do func(e *pattern.Edit, p pattern.EditPosition)) {
	s.Picked = changeTies(d, s.Flat(), s.Picked, func(e *pattern.Edit, p pattern.EditPosition) {
		if _, last, ok := s.PickedTie(*d); ok && last.Edit == p.Edit {
			was := *e
			do(e, p)
			settleTie(e, was)
		}
	})
}

// settleTie brings the numbers of a tie to what is written and may be. One that would have
// no length keeps what it had.
func settleTie(e *pattern.Edit, was pattern.Edit) {
	e.SpanXMM = pattern.PositionRange.Clamp(hundredths(e.SpanXMM))
	e.SpanYMM = pattern.PositionRange.Clamp(hundredths(e.SpanYMM))
	if math.Hypot(e.SpanXMM, e.SpanYMM) < pattern.SizeRange.Min {
		e.SpanXMM, e.SpanYMM = was.SpanXMM, was.SpanYMM
	}
	most := math.Floor(50*math.Hypot(e.SpanXMM, e.SpanYMM)) / 100
	e.BowMM = pattern.Range{Min: -most, Max: most}.Clamp(hundredths(e.BowMM))
}

// tie binds the number to the tie that was picked last. Some numbers change their sign in a
// mirror image.
func (n *Number) tie(s *Selection, sign func(flipX, flipY bool) bool) {
	at := n.Entry.Number
	of := func(v float64, p pattern.EditPosition) float64 {
		if sign != nil && sign(p.FlipX, p.FlipY) && v != 0 {
			return -v
		}
		return v
	}
	n.Get = func(d pattern.Design) float64 {
		e, p, _ := s.PickedTie(d)
		return of(*at(&pattern.Design{Edits: []pattern.Edit{e}}, pattern.At{}), p)
	}
	n.Set = func(d *pattern.Design, v float64) {
		s.Picked = changeTies(d, s.Flat(), s.Picked, func(e *pattern.Edit, p pattern.EditPosition) {
			was := *e
			one := pattern.Design{Edits: []pattern.Edit{*e}}
			*at(&one, pattern.At{}) = of(v, p)
			*e = one.Edits[0]
			if e.WidthMM < pattern.SizeRange.Min {
				e.WidthMM = 0 // the rule
			}
			settleTie(e, was)
		})
	}
	n.Shown = func(d pattern.Design) bool {
		_, _, ok := s.PickedTie(d)
		return ok
	}
}

// HoldTie returns a function with which a hand changes the tie that was picked last. It
// starts from the design as it is now, and says what the tie is then.
func (e *Editor) HoldTie(what string) func(do func(*pattern.Design)) string {
	was, picks := e.Now(), e.Picked
	return func(do func(*pattern.Design)) string {
		d := Clone(was)
		e.Picked = picks
		do(&d)
		tie, _, _ := e.PickedTie(d)
		says := EditText(tie)
		e.Change("edits.tie."+what, "edits", fmt.Sprint(len(was.Edits)), says, d)
		return says + " mm"
	}
}
