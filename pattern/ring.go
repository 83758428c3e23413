package pattern

import (
	"fmt"
	"math"
	"slices"

	"fretband/unroll/plane"
)

// IslandFalls is why a ring is left solid: a part of a cell with metal inside it that
// nothing would hold. Ties come before that is settled: a ring that a tie crosses is cut
// into parts, and those without an island in them are openings after all.
const IslandFalls = "a reserve stands inside it and would fall out"

// hasIsland reports whether metal stands inside a part of a cell.
func hasIsland(part plane.Region) bool {
	return slices.ContainsFunc(part, func(l plane.Loop) bool { return l.Area() < 0 })
}

// region is what is cut out: of a ring, without its islands.
func (o *Opening) region() plane.Region {
	if o.ring != nil {
		return o.ring.ring
	}
	return plane.Region{o.Loop}
}

// takeRings takes the rings out of what was dropped, and returns them as openings: what
// no tie crosses goes back.
func (h *hand) takeRings() (rings []Opening) {
	rest := h.Dropped[:0:0]
	for _, d := range h.Dropped {
		var ring plane.Region
		for _, part := range parts(d.ring) {
			if hasIsland(part) { // else beside what was laid by hand it is no ring now
				ring = append(ring, part...)
			}
		}
		if d.ring = ring; ring == nil {
			rest = append(rest, d)
			continue
		}
		o := Opening{Box: ring.Bounds(), Field: d.Field, Row: d.Row, Col: d.Col, Edit: -1, By: d.by, ring: &d}
		if n := len(d.by); n > 0 {
			o.Edit = d.by[n-1].Edit
		}
		rings = append(rings, o)
	}
	h.Dropped = rest
	return rings
}

// cutRings settles what ties have left of rings: what no tie crosses is dropped, as is
// what stands too near to another opening, which did not have to keep off it. The
// pattern gives way to those laid by hand, as to all that are.
func (h *hand) cutRings() {
	first := slices.IndexFunc(h.Openings, func(o Opening) bool { return o.ring != nil })
	if first < 0 {
		return
	}
	cut := h.Openings[first:] // they were the last, and what is made of them is
	h.Openings = h.Openings[:first:first]
	c := &cutter{rule: h.Rule, corner: h.Design.Rules.CornerMM, smallest: h.Design.Rules.SmallestMM, largestFirst: true}
	near := h.Near()
	var kept []Opening
	var byHand []plane.Loop
	for _, o := range cut {
		if o.Loop == nil {
			h.Dropped = append(h.Dropped, *o.ring)
			continue
		}
		d := math.Inf(1)
		for b := range near.To(o.Box, c.rule) {
			if p := &h.Openings[b.Of]; len(o.By) == 0 || p.Edit >= 0 {
				d = math.Min(d, plane.Nearest(b.Loop(p.Loop), o.Loop).D)
			}
		}
		for _, p := range kept {
			for _, l := range h.Again(p.Loop) {
				d = math.Min(d, plane.Nearest(l, o.Loop).D)
			}
		}
		if d < c.rule-touch {
			h.Dropped = append(h.Dropped, Dropped{At: o.At, Field: o.Field, Row: o.Row, Col: o.Col, Why: fmt.Sprintf("only %.3f mm from another opening", d), Area: o.Loop.Area()})
			continue
		}
		if len(o.By) > 0 {
			byHand = append(byHand, o.Loop)
			h.Idle = slices.DeleteFunc(h.Idle, func(i Idle) bool {
				return slices.ContainsFunc(o.By, func(t Touch) bool { return t.Edit == i.Edit && t.Spot == i.Spot })
			})
		}
		o.ring = nil
		kept = append(kept, o)
	}
	h.giveWay(c, byHand) // the pattern alone: nothing drawn is as near
	h.Openings = append(h.Openings, kept...)
}

// leaveRings keeps the rings that are left solid, which a tie may yet cross, and takes out
// of what was dropped all that is not reported.
func (s *Sheet) leaveRings() {
	for i := range s.Dropped {
		if r := s.Dropped[i].ring; hasIsland(r) {
			s.rings = append(s.rings, r)
		}
	}
	s.Dropped = slices.DeleteFunc(s.Dropped, func(d Dropped) bool { return d.Why == "" })
	for i := range s.Dropped {
		s.Dropped[i].ring, s.Dropped[i].by = nil, nil
	}
}
