package plane

import (
	"fmt"
	"math"
	"slices"
)

// Apart trims regions so that no two are nearer to each other than gap, mm: the
// bridge rule for openings laid anyhow, mixed, moved by hand or read from a file,
// near each other or one over the other.
//
// Guarantee. Each result lies in its region, and the distance of any two results
// is at least gap. Regions that keep the gap already come back untouched. Two
// that do not are parted by their bisector, the places as near to the one as to
// the other (where they overlap, as deep in the one as in the other), and each
// gives what is nearer to it than half a gap. So both give alike, and no more
// than an even share asks for, within 0.001 mm; whoever goes from one result to
// the other crosses the bisector, half a gap or more from either end.
//
// The bisector is made of lines and conics (Held, On the Computational Geometry
// of Pocket Machining, 1991, of line and arc boundaries). It is traced on a grid
// of a sixteenth of the gap and fitted by arcs, and the half gap is taken wider by
// as much as the fit may be off.
//
// A region of which more than half lies over an earlier one yields to it wholly:
// evenly shared, two copies of one shape would take each other away. Regions may
// come back empty or in several parts. The error is an overlay's. Cost: a grid of
// some thousand places for each pair too near.
func Apart(rs []Region, gap float64) ([]Region, error) {
	out := slices.Clone(rs)
	if !(gap > 0) {
		return out, nil
	}
	boxes := make([]Box, len(rs))
	for i, r := range rs {
		boxes[i] = r.Bounds()
	}
	order := make([]int, 0, len(rs))
	for i := range rs {
		if !boxes[i].Empty() {
			order = append(order, i)
		}
	}
	slices.SortStableFunc(order, func(a, b int) int {
		switch {
		case boxes[a].Min.X < boxes[b].Min.X:
			return -1
		case boxes[a].Min.X > boxes[b].Min.X:
			return 1
		}
		return a - b
	})
	type pair struct{ i, j int }
	var near []pair
	for k, a := range order {
		for _, b := range order[k+1:] {
			if boxes[b].Min.X > boxes[a].Max.X+gap {
				break
			}
			if boxes[a].Nearer(boxes[b], gap) && tooNear(rs[a], rs[b], gap) {
				near = append(near, pair{min(a, b), max(a, b)})
			}
		}
	}
	slices.SortFunc(near, func(p, q pair) int {
		if p.i != q.i {
			return p.i - q.i
		}
		return p.j - q.j
	})
	for _, p := range near {
		a, b := rs[p.i], rs[p.j]
		fromA, fromB, err := trims(a, b, boxes[p.i], boxes[p.j], gap)
		if err != nil {
			return nil, fmt.Errorf("regions %d and %d: %w", p.i, p.j, err)
		}
		if out[p.i], err = Not(out[p.i], fromA); err == nil {
			out[p.j], err = Not(out[p.j], fromB)
		}
		if err != nil {
			return nil, fmt.Errorf("regions %d and %d: %w", p.i, p.j, err)
		}
	}
	// The grid can step over something finer than itself. Then the later of the
	// two gives what is missing, by an exact offset.
	for _, p := range near {
		if !tooNear(out[p.i], out[p.j], gap-2*Snap) {
			continue
		}
		rest, err := Not(out[p.j], out[p.i].Offset(gap))
		if err != nil {
			return nil, fmt.Errorf("regions %d and %d: %w", p.i, p.j, err)
		}
		out[p.j] = rest
	}
	return out, nil
}

// tooNear reports whether two regions overlap or their edges are nearer than d.
func tooNear(a, b Region, d float64) bool {
	if len(a) == 0 || len(b) == 0 {
		return false
	}
	if a.Contains(b[0][0].Point) || b.Contains(a[0][0].Point) {
		return true
	}
	for _, l := range a {
		if NearestRegion(l, b).D < d {
			return true
		}
	}
	return false
}

// fitSlack is how far a fitted bisector may lie from the true one, mm, well
// within FitTolerance. Half a gap is taken wider by twice as much: for the fit,
// and for what breaks ties.
const fitSlack = FitTolerance / 10

// tieBreak weighs the distances from two centroids where two regions are equally
// near over a whole area, as where edges of both lie on one line: a thousandth
// of a fitSlack over 100 mm.
const tieBreak = 1e-9

// trims returns what two regions too near to each other have to give.
func trims(a, b Region, boxA, boxB Box, gap float64) (fromA, fromB Region, err error) {
	over, err := And(a, b)
	if err != nil {
		return nil, nil, err
	}
	if 2*over.Area() > b.Area() {
		return nil, b.and(a.Offset(gap)), nil
	}
	if 2*over.Area() > a.Area() {
		return a.and(b.Offset(gap)), nil, nil
	}
	half := gap/2 + 2*fitSlack
	// Farther than half a gap from either region the bisector takes nothing.
	zone := overlap(boxA.Grow(half), boxB.Grow(half))
	midA, midB := boxA.Centre(), boxB.Centre()
	fromEdgeA, fromEdgeB := a.signed(), b.signed()
	nearer := func(p Point) float64 { // to A: negative
		return fromEdgeA(p) - fromEdgeB(p) + tieBreak*(p.Dist(midA)-p.Dist(midB))
	}
	sideA := below(nearer, 2, zone, gap)
	sideB := below(func(p Point) float64 { return -nearer(p) }, 2, zone, gap)
	return sideB.Offset(half), sideA.Offset(half), nil
}

// and is And for what is only subtracted afterwards: where it fails, the whole
// of r goes.
func (r Region) and(b Region) Region {
	if c, err := And(r, b); err == nil {
		return c
	}
	return r
}

// overlap returns what two boxes share.
func overlap(a, b Box) Box {
	return Box{
		Point{math.Max(a.Min.X, b.Min.X), math.Max(a.Min.Y, b.Min.Y)},
		Point{math.Min(a.Max.X, b.Max.X), math.Min(a.Max.Y, b.Max.Y)},
	}
}

// signed returns the function that gives a place's distance from the region's
// edge, negative inside.
func (r Region) signed() func(Point) float64 {
	var segs []seg
	for _, l := range r {
		for i := range l {
			segs = append(segs, newSeg(l.Edge(i)))
		}
	}
	return func(p Point) float64 {
		d := math.Inf(1)
		for i := range segs {
			d = math.Min(d, segs[i].dist(p))
		}
		if r.Contains(p) {
			return -d
		}
		return d
	}
}
