package export

import (
	"math"
	"slices"

	"fretband/unroll/plane"
)

// shortEdge is the length, mm, under which an edge is taken out of what is cut: twice
// the shortest that the preflight lets pass, so that no rounding or turning of a copy
// brings one under that.
const shortEdge = 2 * preflightShort

// flatArc is the height, mm, under which an arc is written as a line, so little that no
// figure shows it. Its radius, of many metres, is what readers stumble over: with
// the 32-bit floats of some, an arc of 0.2 mm comes out by hundredths too long.
const flatArc = 2e-7

// cuttable returns a closed line as it can be cut and read: [withoutShort] edges, and
// with lines for arcs lower than [flatArc].
func cuttable(l plane.Loop) plane.Loop {
	l = withoutShort(l)
	copied := false
	for i, v := range l {
		if v.Bulge != 0 && math.Abs(v.Bulge)*v.Dist(l[(i+1)%len(l)].Point) < 2*flatArc {
			if !copied {
				l, copied = slices.Clone(l), true
			}
			l[i].Bulge = 0
		}
	}
	return l
}

// withoutShort returns a closed line without edges shorter than [shortEdge]. Each goes
// into a neighbour: an arc if there is one, and of two that which runs on straighter.
// Its bulge changes by so much that the area within the line stays; nothing moves by
// more than the length of the edge. Two straight neighbours run on until they meet, if
// that is near; if not, the edge cuts the tip between them a little lower, where it is
// [tipEdge] long: an opening may not grow into the metal round it. A line of two edges is
// left as it is.
func withoutShort(l plane.Loop) plane.Loop {
	for i := 0; i < len(l) && len(l) > 2; i++ {
		if l[i].Dist(l[(i+1)%len(l)].Point) < shortEdge && l.Edge(i).Len() < shortEdge {
			if w, done := without(l, i); done {
				l, i = w, -1 // again: it is rare, and a neighbour may be short as well
			}
		}
	}
	return l
}

// without returns a line of three edges or more without edge i, or with that edge made
// longer; done is false if it stays as it is, being the end of a tip.
func without(l plane.Loop, i int) (w plane.Loop, done bool) {
	n := len(l)
	// Turned so that the edge before the short one comes first.
	t := make(plane.Loop, 0, n)
	for k := range n {
		t = append(t, l[(i+n-1+k)%n])
	}
	before, short, after := t.Edge(0), t.Edge(1), t.Edge(2)
	if before.Bulge == 0 && after.Bulge == 0 {
		if x, ok := meet(before, after); ok && x.Dist(short.A) < cornerMove && x.Dist(short.B) < cornerMove {
			t[1] = plane.Vertex{Point: x}
			return append(t[:2:2], t[3:]...), true
		}
		if bend(before, short)+bend(short, after) > 0.01 {
			if short.Len() >= tipEdge {
				return l, false
			}
			if w, ok := widened(t, before, after); ok {
				return w, true
			}
		}
	}
	into := func(e plane.Edge, turn float64) float64 { // the less, the better
		if e.Bulge == 0 {
			turn += 4
		}
		return turn
	}
	if into(before, bend(before, short)) <= into(after, bend(short, after)) {
		t[0].Bulge = alike(short.B, before, short)
		return append(t[:1:1], t[2:]...), true
	}
	t[1].Bulge = alike(after.B, short, after)
	return append(t[:2:2], t[3:]...), true
}

// cornerMove is how far, mm, straight neighbours may run on: a quarter of what the
// bridge rule is promised to.
const cornerMove = 0.0005

// tipEdge is the length, mm, that the end of a tip between two lines has at least: just
// what may be cut, for the sharper the tip the lower it is cut for that.
const tipEdge = 1.05 * preflightShort

// widened returns the line with its second edge, between two straight ones that run
// together, moved back along both until it is long enough; ok is false if they are too
// short for that, or do not run together.
func widened(t plane.Loop, before, after plane.Edge) (l plane.Loop, ok bool) {
	u, v := before.Tangent(0), after.Tangent(0)
	grows := v.Add(u).Len() // of the edge's length, to each mm that both go back, at most
	if grows < 1e-3 {
		return nil, false
	}
	l = slices.Clone(t)
	length := func(back float64) float64 {
		l[1].Point, l[2].Point = before.B.Sub(u.Mul(back)), after.A.Add(v.Mul(back))
		return l[1].Dist(l[2].Point)
	}
	low, high := 0.0, min(before.Len(), after.Len())/2
	if length(high) < tipEdge {
		return nil, false
	}
	for range 40 {
		if m := (low + high) / 2; length(m) < tipEdge {
			low = m
		} else {
			high = m
		}
	}
	return l, length(high) >= tipEdge
}

// bend returns by how much the way turns from one edge into the next, rad.
func bend(a, b plane.Edge) float64 {
	u, v := a.Tangent(1), b.Tangent(0)
	return math.Abs(math.Atan2(u.Cross(v), u.Dot(v)))
}

// meet returns where two straight edges run on to.
func meet(a, b plane.Edge) (plane.Point, bool) {
	u, v := a.Tangent(0), b.Tangent(0)
	c := u.Cross(v)
	if math.Abs(c) < 1e-6 {
		return plane.Point{}, false
	}
	return a.A.Add(u.Mul(b.A.Sub(a.A).Cross(v) / c)), true
}

// alike returns the bulge of one edge in the place of two that run into each other and
// end at the point end, with the same area beside it; 0 if the longer is straight.
func alike(end plane.Point, a, b plane.Edge) float64 {
	long := a
	if b.Len() > a.Len() {
		long = b
	}
	if long.Bulge == 0 {
		return 0
	}
	want := a.Segment() + b.Segment() + b.A.Sub(a.A).Cross(end.Sub(a.A))/2
	one := plane.Edge{A: a.A, B: end, Bulge: long.Bulge}
	for range 20 { // Newton's way; the area grows with the bulge
		off := one.Segment() - want
		step := one
		step.Bulge += 1e-6
		slope := (step.Segment() - one.Segment()) / 1e-6
		if !(slope > 0) || math.Abs(off) < 1e-15 {
			break
		}
		one.Bulge -= off / slope
	}
	return one.Bulge
}
