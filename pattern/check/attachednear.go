package check

import (
	"iter"
	"math"

	"fretband/pattern"
	"fretband/unroll/plane"
)

// nearby finds the openings near a position, and how often round a band that wraps they
// stand there. Over the joint of a closed flared band nothing is looked for.
type nearby struct {
	s     *pattern.Sheet
	near  *pattern.Near
	discs []discs
	// brink are the blank's edges, of a band that wraps a period more on either side; nil
	// if no straight way between two openings can leave the blank.
	brink []plane.Edge
}

// discs are two about one position of an opening: one within it, or of radius 0, and one
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

// within yields each opening whose box is less than d from the box, where it is.
func (b *nearby) within(box plane.Box, d float64) iter.Seq[pattern.Copy] {
	return func(yield func(pattern.Copy) bool) {
		for c := range b.near.To(box, d) {
			if (c.N == 0 || b.s.Flat.Wraps() && c.N >= -1 && c.N <= 1) && !yield(c) {
				return
			}
		}
	}
}

// round returns what carries an opening so many times round.
func (b *nearby) round(rounds int) pattern.Round {
	if rounds == 0 {
		return pattern.Round{}
	}
	return b.s.Round(rounds)
}

// crosses reports whether the straight way from a to b leaves the blank or runs through
// an opening but the two that it joins.
func (b *nearby) crosses(a attachedArc) bool {
	way := plane.Edge{A: a.a, B: a.b}
	for c := range b.within(way.Bounds(), tie) {
		if b.between(a, c) {
			return true
		}
	}
	for _, e := range b.brink {
		if !beside(way, e) && plane.NearestEdges(way, e).D <= plane.Snap {
			return true
		}
	}
	return false
}

// between reports whether the straight way from a to b runs through an opening that is
// neither of the two that it joins.
func (b *nearby) between(a attachedArc, c pattern.Copy) bool {
	return (c.Of != a.from || c.N != 0) && (c.Of != a.to || c.N != a.rounds) && b.runsThrough(plane.Edge{A: a.a, B: a.b}, c)
}

// runsThrough reports whether a straight way runs through an opening.
func (b *nearby) runsThrough(way plane.Edge, c pattern.Copy) bool {
	disc, l := b.discs[c.Of], b.s.Openings[c.Of].Loop
	way = plane.Edge{A: c.Home(way.A), B: c.Home(way.B)}
	switch d := fromLine(way.A, way.B, disc.middle); {
	case d < disc.inside-tie:
		return true
	case d > disc.about+tie:
		return false
	}
	for k := range l {
		if e := l.Edge(k); !beside(way, e) && plane.NearestEdges(way, e).D <= plane.Snap {
			return true
		}
	}
	return l.Contains(way.At(0.5))
}

// beside reports whether an edge quickly shows to lie on one side of a straight way, or
// before or behind it, farther off than what counts as touching. No position of an arc is
// farther from its chord than its middle.
func beside(way, e plane.Edge) bool {
	v := way.B.Sub(way.A)
	length := v.Len()
	room := length * (math.Abs(e.Bulge)*e.A.Dist(e.B)/2 + 2*plane.Snap)
	p, q := e.A.Sub(way.A), e.B.Sub(way.A)
	left, on := [2]float64{v.Cross(p), v.Cross(q)}, [2]float64{v.Dot(p), v.Dot(q)}
	return min(left[0], left[1]) > room || max(left[0], left[1]) < -room ||
		max(on[0], on[1]) < -room || min(on[0], on[1]) > length*length+room
}

// fromLine returns the distance of p from the straight line between a and b.
func fromLine(a, b, p plane.Point) float64 {
	v, q := b.Sub(a), p.Sub(a)
	if l := v.Dot(v); l > 0 {
		q = q.Sub(v.Mul(min(max(q.Dot(v)/l, 0), 1)))
	}
	return q.Len()
}
