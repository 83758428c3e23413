package check

import (
	"math"

	"fretband/pattern"
	"fretband/unroll/plane"
)

// nearby finds the openings near a place, and in which turn of a band with a period
// they stand there. Over the joint of a closed flared band nothing is looked for.
type nearby struct {
	s     *pattern.Sheet
	near  *pattern.Near
	discs []discs
}

// discs are two about one place of an opening: one within it, or of radius 0, and one
// that holds it.
type discs struct {
	middle        plane.Point
	inside, about float64
}

func newNearby(s *pattern.Sheet) *nearby {
	b := &nearby{s: s, near: s.Near(), discs: make([]discs, len(s.Openings))}
	byShape := map[int]discs{}
	for i := range s.Openings {
		o := &s.Openings[i]
		d, known := byShape[o.Shape]
		if !known || o.Shape < 0 {
			d = discs{middle: o.Loop.Centroid()}
			if o.Loop.Contains(d.middle) {
				d.inside = o.Loop.Nearest(d.middle).D
			}
			for _, p := range plane.Rect(o.Box) {
				d.about = math.Max(d.about, p.Dist(d.middle))
			}
			d.middle = d.middle.Sub(o.At)
			byShape[o.Shape] = d
		}
		d.middle = d.middle.Add(o.At)
		b.discs[i] = d
	}
	return b
}

// within calls do with each opening whose box is less than d from the box, the turn in
// which it is, and its box there.
func (b *nearby) within(box plane.Box, d float64, do func(i, turn int, box plane.Box)) {
	for c := range b.near.To(box, d) {
		if c.N == 0 || b.s.Flat.Period > 0 && c.N >= -1 && c.N <= 1 {
			do(c.Of, c.N, c.Box)
		}
	}
}

// turned returns the move that carries an opening to its turn.
func (b *nearby) turned(turn int) plane.Point {
	return plane.Pt(float64(turn)*b.s.Flat.Period, 0)
}

// edgeAt returns the opening on whose edge p lies, and its turn; -1 for none.
func (b *nearby) edgeAt(p plane.Point) (i, turn int) {
	best, i, turn := 1e-6, -1, 0
	b.within(plane.Box{Min: p, Max: p}, best, func(k, t int, _ plane.Box) {
		if d := b.s.Openings[k].Loop.Nearest(p.Sub(b.turned(t))).D; d < best {
			best, i, turn = d, k, t
		}
	})
	return i, turn
}

// crosses reports whether the straight way from a to b runs through an opening but the
// two that it joins.
func (b *nearby) crosses(a heldArc) bool {
	way := plane.Edge{A: a.a, B: a.b}
	crossed := false
	b.within(way.Bounds(), tie, func(i, turn int, _ plane.Box) {
		if crossed || i == a.from && turn == 0 || i == a.to && turn == a.turn {
			return
		}
		move := b.turned(turn)
		disc := b.discs[i]
		switch d := fromLine(a.a, a.b, disc.middle.Add(move)); {
		case d < disc.inside-tie:
			crossed = true
			return
		case d > disc.about+tie:
			return
		}
		l, here := b.s.Openings[i].Loop, plane.Edge{A: way.A.Sub(move), B: way.B.Sub(move)}
		crossed = l.Contains(here.At(0.5))
		for k := 0; k < len(l) && !crossed; k++ {
			crossed = plane.NearestEdges(here, l.Edge(k)).D <= plane.Snap
		}
	})
	return crossed
}

// fromLine returns the distance of p from the straight line between a and b.
func fromLine(a, b, p plane.Point) float64 {
	v, q := b.Sub(a), p.Sub(a)
	if l := v.Dot(v); l > 0 {
		q = q.Sub(v.Mul(min(max(q.Dot(v)/l, 0), 1)))
	}
	return q.Len()
}
