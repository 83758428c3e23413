package pattern

import (
	"slices"
	"sync"

	"fretband/unroll/cores"
	"fretband/unroll/plane"
)

// fit holds what was laid by hand to the rules and adds it to the sheet. Among
// themselves, openings laid by hand give way alike; openings of the pattern give way to
// it, so that a shape that was drawn stays what it was drawn as.
func (h *hand) fit() {
	if len(h.laid) == 0 {
		return
	}
	r := h.Design.Rules
	loops := make([]plane.Loop, len(h.laid))
	for i, l := range h.laid {
		loops[i] = l.loop
	}
	// Openings of the pattern that are moved together are still exactly at the rule,
	// up to rounding: they are not to be trimmed for that.
	made, dropped := Trim(loops, h.Ground, Rules{h.Rule - touch/2, r.CornerMM, r.SmallestMM, h.period()})
	loops = loops[:0]
	kept, told := make([]bool, len(h.laid)), map[int]bool{}
	var byHand []Opening
	for _, m := range made {
		kept[m.From] = true
		loops = append(loops, m.Loop)
		l := h.laid[m.From]
		o := Opening{Loop: m.Loop, Field: l.field, Row: l.row, Col: l.col, Shape: -1, At: m.Loop.Centroid(), Box: m.Loop.Bounds()}
		for _, i := range l.positions {
			o.By = append(o.By, h.touch(i))
		}
		o.Edit = o.By[len(o.By)-1].Edit
		byHand = append(byHand, o)
	}
	c := &cutter{rule: h.Rule, corner: r.CornerMM, smallest: r.SmallestMM, largestFirst: true}
	h.giveWay(c, loops)
	h.Openings = append(h.Openings, byHand...)
	for _, d := range dropped {
		l := h.laid[d.From]
		for _, i := range l.positions {
			d.by = append(d.by, h.touch(i))
			if !kept[d.From] && !told[i] { // nothing at all: the edit is reported as idle
				told[i] = true
				h.idle(i, "nothing can be cut there: "+d.Why)
			}
		}
		if !kept[d.From] {
			if d.ring == nil {
				continue
			}
			d.Why = ""
		}
		d.Field, d.Row, d.Col, d.From = l.field, l.row, l.col, 0
		h.Dropped = append(h.Dropped, d)
	}
}

// giveWay cuts those openings of the pattern that lie over one of the loops or
// nearer to it than the rule, over the seam of a band that closes too, and no others.
func (h *hand) giveWay(c *cutter, loops []plane.Loop) {
	by := beside{h.NearBoxes(plane.Boxes(loops)), loops, make([]func() plane.Region, len(loops))}
	for i, l := range loops {
		by.round[i] = sync.OnceValue(func() plane.Region { return l.Outset(c.rule) })
	}
	// Each worker has a run of the openings; joined in order, the result does not
	// depend on how many there are.
	runs := make([]Sheet, cores.Count(len(h.Openings), 64))
	cores.Runs(len(h.Openings), 64, func(k, from, to int) {
		for i := from; i < to; i++ {
			runs[k].cutBeside(&h.Openings[i], by, c)
		}
	})
	for i := range h.Dropped {
		if d := &h.Dropped[i]; d.ring != nil {
			d.ring, _ = by.rest(d.ring, c)
		}
	}
	out := make([]Opening, 0, len(h.Openings)+len(loops))
	for _, r := range runs {
		out = append(out, r.Openings...)
		h.Dropped = append(h.Dropped, r.Dropped...)
	}
	h.Openings = out
}

// beside are loops that openings give way to.
type beside struct {
	*Near
	loops []plane.Loop
	round []func() plane.Region // each with the metal that it keeps
}

// rest returns what is left of a region beside those of the loops that it lies over or
// comes too near to, and lists these: all of it if there are none.
func (by beside) rest(of plane.Region, c *cutter) (rest plane.Region, near []plane.Loop) {
	limit := c.rule - touch
	rest = of
	for b := range by.To(of.Bounds(), limit) {
		l := b.Loop(by.loops[b.Of])
		if !slices.ContainsFunc(of, func(o plane.Loop) bool {
			return l.Contains(o[0].Point) || o.Contains(l[0].Point) || plane.Nearest(l, o).D < limit
		}) {
			continue
		}
		near = append(near, l)
		if len(rest) > 0 {
			less, err := plane.Not(rest, b.region(by.round[b.Of]()))
			if rest = less; err != nil {
				rest = nil // what can't be worked out is not cut
			}
		}
	}
	return rest, near
}

// cutBeside adds what is left of an opening beside the loops.
func (s *Sheet) cutBeside(o *Opening, by beside, c *cutter) {
	rest, near := by.rest(plane.Region{o.Loop}, c)
	if len(near) == 0 {
		s.Openings = append(s.Openings, *o)
		return
	}
	made, not := c.openings(rest)
	for _, l := range made {
		p := *o
		p.Loop, p.Shape, p.At, p.Box = l, -1, l.Centroid(), l.Bounds()
		s.Openings = append(s.Openings, p)
	}
	for _, d := range not {
		if d.ring != nil { // a tie may yet keep what stands in it
			s.Dropped = append(s.Dropped, Dropped{At: d.At, Field: o.Field, Row: o.Row, Col: o.Col, ring: d.ring})
		}
	}
	if len(made) > 0 || slices.ContainsFunc(near, func(l plane.Loop) bool { return l.Contains(o.Loop.Centroid()) }) {
		return // something is left of it, or it lay where the other is now
	}
	d := Dropped{At: o.Loop.Centroid(), Field: o.Field, Row: o.Row, Col: o.Col, Why: "too little is left of it beside an opening laid by hand", Area: o.Loop.Area()}
	if len(not) > 0 {
		d.Why += ": " + not[0].Why
	}
	s.Dropped = append(s.Dropped, d)
}
