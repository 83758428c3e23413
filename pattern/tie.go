package pattern

import (
	"cmp"
	"slices"

	"fretband/unroll/cores"
	"fretband/unroll/plane"
)

// MaxTied is how many openings may lie within the boxes round all ties of a design, each
// counted once for every tie: looking at so many takes about a second.
const MaxTied = 50000

// tie lays the ties across the openings.
//
// A tie is the strip about its line, as wide as asked for but never under the rule. It
// crosses an opening where the line runs in it. What the strip covers there is not cut; it
// is taken on beyond the opening's edge, so that a slanting edge leaves no notch at its
// side. Then the corners are rounded and what is too small is left solid, as everywhere.
// Each step only takes away from openings, so the bridge rule goes on holding: between two
// parts of one opening lies the whole width of the tie. A ring round an island that nothing
// held so far takes part: see [IslandFalls].
//
// No end hangs free. One that lies in an opening rests on another tie there if it can, as
// three ties may meet in the middle. If not, and the tie crosses another opening too, it
// ends at the nearer edge along its way; else it is prolonged until it meets metal.
func (h *hand) tie() {
	var ties []*tie
	for i, p := range h.positions {
		if e := h.Design.Edits[p.Edit]; e.Do == Tie {
			ties = append(ties, &tie{tieWay: newTieWay(TieLine(h.Flat, e, p), e.TieWidth(h.Design.Rules)/2), place: i})
		}
	}
	if len(ties) == 0 {
		return
	}
	h.Openings = append(h.Openings, h.takeRings()...)
	h.cross(ties)
	anchor(ties)
	for _, t := range ties {
		switch t.settle(); {
		case t.tooMany:
			h.idle(t.place, "too many openings lie about all ties: take some away")
		case len(t.over) == 0 && !h.Flat.Outline.Contains(t.line.A) && !h.Flat.Outline.Contains(t.line.B):
			h.idle(t.place, "it lies outside the blank")
		case len(t.over) == 0:
			h.idle(t.place, "no opening lies under it")
		default:
			t.strip = t.stripe(t.from, t.to)
			h.Solid = append(h.Solid, SolidCell{Touch: h.touch(t.place), Loop: t.strip, Field: -1})
		}
	}
	h.cutTies(slices.DeleteFunc(ties, func(t *tie) bool { return len(t.over) == 0 }))
	h.cutRings()
}

// Tied returns a straight tie, drawn over the sheet, with its ends brought to the metal: one
// that lies in an opening or off the blank comes to half a bridge beyond the opening's edge,
// where the tie would end anyway. It is false for one that crosses no opening.
func (s *Sheet) Tied(e Edit) (Edit, bool) {
	t := &tie{tieWay: newTieWay(TieLine(s.Flat, e, EditPosition{At: plane.Pt(e.At[0].XMM, e.At[0].YMM)}), e.TieWidth(s.Design.Rules)/2)}
	with := *s
	with.Openings = slices.Clip(s.Openings)
	for _, r := range s.rings {
		with.Openings = append(with.Openings, Opening{Box: r.Bounds(), ring: &Dropped{ring: r}})
	}
	with.cross([]*tie{t})
	t.settle()
	if len(t.over) == 0 || t.tooMany {
		return e, false
	}
	a, b := t.line.A, t.line.B
	if t.in[0] || !s.Flat.Outline.Contains(a) {
		a = t.at(t.from - s.Rule/2)
	}
	if t.in[1] || !s.Flat.Outline.Contains(b) {
		b = t.at(t.to + s.Rule/2)
	}
	x0, v0 := s.Flat.Where(a)
	x, v := s.Flat.Where(b)
	e.At, e.SpanXMM, e.SpanYMM = []Spot{{a.X, a.Y}}, x-x0, v-v0
	return e, true
}

// tie is the work on one.
type tie struct {
	tieWay
	place   int
	over    []crossed
	tooMany bool
	on      [2][]*tie // the ties on which its ends in openings lie
	in      [2]bool   // its end lies in an opening
	held    bool      // it comes to metal, by others if need be

	// What follows is known once it is settled.
	from, to float64 // where it begins and ends
	rests    [2]bool // its end rests on another tie
	strip    plane.Loop
}

// crossed is a stretch of a tie's way in an opening.
type crossed struct {
	from, to float64
	opening  int
	round    int // how many times round is the copy of the tie that crosses it
}

// cross finds where the ties run through openings, and on which of each other they end.
func (s *Sheet) cross(ties []*tie) {
	boxes := make([]plane.Box, len(ties))
	for i, t := range ties {
		boxes[i] = t.stripe(0, t.length).Bounds()
	}
	near := s.NearBoxes(boxes)
	about := make([]int, len(ties))
	for i := range s.Openings {
		for c := range near.To(s.Openings[i].Box, touch) {
			about[c.Of]++
		}
	}
	total := 0
	for i, t := range ties {
		if t.tooMany = total+about[i] > MaxTied; !t.tooMany {
			total += about[i]
		}
	}
	for i := range s.Openings {
		o := &s.Openings[i]
		var here []Copy
		for c := range near.To(o.Box, touch) {
			if !ties[c.Of].tooMany {
				here = append(here, c)
			}
		}
		for _, c := range here {
			t := ties[c.Of]
			r := o.region() // as the tie sees it
			if c.N != 0 {
				r = Round{c.N, c.back()}.region(r)
			}
			box := r.Bounds()
			far := box.W() + box.H() + 1 // so far straight on it is out of the opening
			for _, in := range t.within(r, -far, t.length+far) {
				if in.to <= touch || in.from >= t.length-touch {
					continue // only beyond its ends
				}
				in.opening, in.round = i, c.N
				t.over = append(t.over, in)
				for k, end := range [2]plane.Point{t.line.A, t.line.B} {
					if k == 0 && in.from >= 0 || k == 1 && in.to <= t.length {
						continue
					}
					t.in[k] = true
					other := t.at(max(0, in.from)) // where it comes from
					if k == 0 {
						other = t.at(min(t.length, in.to))
					}
					for _, d := range here {
						u := ties[d.Of]
						on := func(p plane.Point) bool { return u.line.Dist(d.Home(c.Point(p))) < u.half }
						if u != t && on(end) && !on(other) {
							t.on[k] = append(t.on[k], u)
						}
					}
				}
			}
		}
	}
	for _, t := range ties {
		slices.SortStableFunc(t.over, func(a, b crossed) int { return cmp.Compare(a.from, b.from) })
	}
}

// anchor finds the ties that come to metal: those with an end that lies on no other, and
// those with an end on one of these.
func anchor(ties []*tie) {
	for more := true; more; {
		more = false
		for _, t := range ties {
			if t.held {
				continue
			}
			for k := range t.on {
				if len(t.on[k]) == 0 || slices.ContainsFunc(t.on[k], func(u *tie) bool { return u.held }) {
					t.held, more = true, true
				}
			}
		}
	}
}

// settle finds where the tie begins and ends: at an end that lies in an opening, on another
// tie, at the nearer edge, or where its way leaves the opening.
func (t *tie) settle() {
	if n := len(t.over); n > 0 && t.in[0] {
		first := &t.over[0]
		if by, ok := t.rest(0); ok {
			first.from = -by
		} else if n > 1 && first.to < -first.from {
			t.over = t.over[1:]
		}
	}
	if n := len(t.over); n > 0 && t.in[1] {
		last := &t.over[n-1]
		if by, ok := t.rest(1); ok {
			last.to = t.length + by
		} else if n > 1 && t.length-last.from < last.to-t.length {
			t.over = t.over[:n-1]
		}
	}
	if n := len(t.over); n > 0 {
		t.from, t.to = t.over[0].from, t.over[n-1].to
	}
}

// rest reports whether an end rests on another tie, and how far it is taken on there: past
// that one's middle line, which it may meet at any angle.
func (t *tie) rest(end int) (by float64, ok bool) {
	for _, u := range t.on[end] {
		if u.held {
			by, ok = max(by, min(t.half, u.half)), true
		}
	}
	t.rests[end] = ok
	return by, ok
}

// cutTies cuts the openings to what the ties leave of them.
func (h *hand) cutTies(ties []*tie) {
	if len(ties) == 0 {
		return
	}
	boxes := make([]plane.Box, len(ties))
	for i, t := range ties {
		boxes[i] = t.strip.Bounds()
	}
	near := h.NearBoxes(boxes)
	c := &cutter{rule: h.Rule, corner: h.Design.Rules.CornerMM, smallest: h.Design.Rules.SmallestMM, largestFirst: true}
	runs := make([]Sheet, cores.Count(len(h.Openings), 64))
	cores.Runs(len(h.Openings), 64, func(k, from, to int) {
		for i := from; i < to; i++ {
			runs[k].cutByTies(i, &h.Openings[i], near, ties, c)
		}
	})
	h.Openings = h.Openings[:0:0]
	for _, r := range runs {
		h.Openings = append(h.Openings, r.Openings...)
		h.Dropped = append(h.Dropped, r.Dropped...)
	}
}

// cutByTies adds what ties leave of opening i.
func (s *Sheet) cutByTies(i int, o *Opening, near *Near, ties []*tie, c *cutter) {
	whole := o.region()
	rest, met := whole, false
	for b := range near.To(o.Box, touch) {
		covered, err := ties[b.Of].covers(i, whole, b.Round)
		met = met || err != nil || len(covered) > 0
		for _, r := range covered {
			if err == nil && len(rest) > 0 {
				rest, err = plane.Not(rest, r)
			}
		}
		if err != nil || len(rest) == 0 {
			rest = nil // what can't be worked out is not cut
			break
		}
	}
	if !met || len(rest) > 0 && untouched(whole, rest) {
		s.Openings = append(s.Openings, *o)
		return
	}
	made, not := c.openings(rest)
	if o.ring != nil && len(made) == 0 {
		s.Openings = append(s.Openings, *o) // still left solid
		return
	}
	for _, l := range made {
		p := *o
		p.Loop, p.Shape, p.At, p.Box = l, -1, l.Centroid(), l.Bounds()
		s.Openings = append(s.Openings, p)
	}
	for _, d := range not {
		if o.ring != nil && d.ring != nil {
			d.Field, d.Row, d.Col = o.Field, o.Row, o.Col
			s.Dropped = append(s.Dropped, d)
		}
	}
	if len(made) == 0 && len(not) > 0 {
		s.Dropped = append(s.Dropped, Dropped{At: not[0].At, Field: o.Field, Row: o.Row, Col: o.Col, Why: "too little is left of it beside a tie: " + not[0].Why, Area: o.Loop.Area()})
	}
}

// beyond is how far past an opening's edge a tie is taken on, in half widths: so far
// that no notch stays at edges that it meets at 15 degrees or more.
const beyond = 4

// covers lists what a tie, or its copy, covers of an opening.
func (t *tie) covers(opening int, of plane.Region, r Round) ([]plane.Region, error) {
	strip := r.Loop(t.strip)
	var mids []plane.Point // of its stretches in the opening
	from, to := t.from, t.to
	for k, c := range t.over {
		if c.opening != opening || c.round != r.N {
			continue
		}
		mids = append(mids, r.Point(t.at((max(c.from, t.from)+min(c.to, t.to))/2)))
		if k == 0 && !t.rests[0] {
			from -= beyond * t.half
		}
		if k == len(t.over)-1 && !t.rests[1] {
			to += beyond * t.half
		}
	}
	along := func(p plane.Region) bool { return slices.ContainsFunc(mids, p.Contains) }
	in, err := plane.And(of, plane.Region{strip})
	covered := parts(in)
	if err != nil || from == t.from && to == t.to {
		return covered, err
	}
	// What it covers on the way, taken on; and what its sides cover elsewhere.
	in, err = plane.And(of, plane.Region{r.Loop(t.stripe(from, to))})
	return append(slices.DeleteFunc(parts(in), func(p plane.Region) bool { return !along(p) }), slices.DeleteFunc(covered, along)...), err
}
