package plane

import (
	"cmp"
	"math"
	"slices"

	"fretband/unroll/cores"
)

// Apart trims regions so that no two are nearer to each other than gap, mm: the
// bridge rule for openings laid anyhow, mixed, moved by hand or read from a file,
// near each other or one over the other.
//
// Guarantee. Each result lies in its region, and the distance of any two results
// is at least gap. Regions that keep the gap already come back untouched. Two
// that do not are separated by their bisector, the positions as near to the one as to
// the other (where they overlap, as deep in the one as in the other), and each
// gives up what is nearer to it than half a gap. So both give up alike, and no more
// than an even share asks for, within 0.001 mm, and the way from one result to
// the other crosses the bisector, half a gap or more from either end.
//
// The bisector is made of lines and conics (Held, On the Computational Geometry
// of Pocket Machining, 1991, of line and arc boundaries). It is traced on a grid
// of a sixteenth of the gap and fitted by arcs, and the half gap is taken wider by
// as much as the fit may be off.
//
// A region of which more than half lies over a larger one yields to it wholly, and so
// does the smaller of two whose share can't be worked out: a large shape is not to be
// taken to pieces by small ones on it. Of two that are one and the same, one stays.
// What comes of a region does not depend on its position in the list, and of mirror
// images come mirror images. Regions may come back empty or in several parts. Cost: a
// grid of some thousand places for each pair too near, else that of [Pairs].
//
// On a band that closes every region appears again one period, mm, to its left and right,
// and so on all round: regions keep the gap from the copies of others and from their own.
// A period of 0 means none.
func Apart(rs []Region, gap, period float64) []Region {
	out := slices.Clone(rs)
	if !(gap > 0) {
		return out
	}
	if period > 0 && period <= gap {
		return make([]Region, len(rs))
	}
	order := LargestFirst(rs)
	sorted := make([]Region, len(rs))
	for k, i := range order {
		sorted[k] = rs[i]
	}
	for k, r := range apartSorted(sorted, gap, period) {
		out[order[k]] = r
	}
	return out
}

// LargestFirst returns the positions of the regions in the list from the largest on, so that
// what is done in this order does not depend on that of the list.
func LargestFirst(rs []Region) []int {
	order := make([]int, len(rs))
	area := make([]float64, len(rs))
	for i, r := range rs {
		order[i], area[i] = i, r.Area()
	}
	slices.SortStableFunc(order, func(i, j int) int { return cmp.Or(cmp.Compare(area[j], area[i]), compareRegions(rs[i], rs[j])) })
	return order
}

// compareRegions orders regions by their numbers.
func compareRegions(a, b Region) int {
	return slices.CompareFunc(a, b, func(l, m Loop) int {
		return slices.CompareFunc(l, m, func(v, w Vertex) int {
			return cmp.Or(cmp.Compare(v.X, w.X), cmp.Compare(v.Y, w.Y), cmp.Compare(v.Bulge, w.Bulge))
		})
	})
}

// alike is the share by which areas may differ that count as equal: those of mirror
// images and of copies, up to rounding.
const alike = 1e-6

// apartSorted is [Apart] of regions that are sorted from the largest on.
func apartSorted(rs []Region, gap, period float64) []Region {
	out := slices.Clone(rs)
	area := make([]float64, len(rs))
	for i, r := range rs {
		area[i] = r.Area()
	}
	larger := func(i, j int) bool { return area[i] > area[j]*(1+alike) }
	near := nearRegions(rs, gap, period)
	// Who lies mostly over a larger one yields to what that one keeps itself.
	slices.SortFunc(near, func(p, q nearPair) int {
		return cmp.Or(cmp.Compare(p.j, q.j), cmp.Compare(p.i, q.i), cmp.Compare(p.shift, q.shift))
	})
	yields := false
	for _, p := range near {
		back := Pt(-p.shift, 0)
		over := overlap(out[p.i].Bounds(), rs[p.j].Bounds().Move(Pt(p.shift, 0)))
		if p.i == p.j || over.Empty() || 2*over.W()*over.H() <= area[p.j] {
			continue
		}
		first := out[p.i]
		if !larger(p.i, p.j) {
			first = rs[p.i]
		}
		both, err := And(first.Move(back), rs[p.j])
		switch {
		case err != nil:
			out[p.j] = nil
		case !larger(p.i, p.j):
			if both.Area() < area[p.j]*(1-alike) {
				continue
			}
			out[p.j] = nil // a copy
		case 2*both.Area() > area[p.j]:
			if out[p.j], err = Not(out[p.j], out[p.i].Offset(gap).Move(back)); err != nil {
				out[p.j] = nil
			}
		default:
			continue
		}
		yields = true
	}
	if yields {
		near = slices.DeleteFunc(near, func(p nearPair) bool { return !TooNear(out[p.i], out[p.j].Move(Pt(p.shift, 0)), gap) })
	}
	// What each pair has to give does not depend on the others: worked out side by
	// side, then taken away.
	gives := make([]gift, len(near))
	cores.Each(len(near), func(k int) {
		p, g := near[k], &gives[k]
		g.a, g.b, g.err = trims(out[p.i], out[p.j].Move(Pt(p.shift, 0)), gap)
		g.b = g.b.Move(Pt(-p.shift, 0))
	})
	for k, p := range near {
		give(out, p, gives[k])
	}
	// The grid can step over something finer than itself. Then the smaller of the two
	// gives what is missing, or both if they are alike, by an exact offset.
	var late []nearPair
	gives = gives[:0]
	for _, p := range near {
		move, back := Pt(p.shift, 0), Pt(-p.shift, 0)
		if !TooNear(out[p.i], out[p.j].Move(move), gap-2*Snap) {
			continue
		}
		g := gift{b: out[p.i].Offset(gap).Move(back)}
		if !larger(p.i, p.j) {
			g.a = out[p.j].Offset(gap).Move(move)
		}
		late, gives = append(late, p), append(gives, g)
	}
	for k, p := range late {
		give(out, p, gives[k])
	}
	return out
}

// gift is what the two regions of a pair give, each where it lies.
type gift struct {
	a, b Region
	err  error
}

// give takes away what a pair gives. Of what can't be worked out the smaller is left
// empty.
func give(out []Region, p nearPair, g gift) {
	a, errA := Not(out[p.i], g.a)
	if g.err != nil || errA != nil {
		out[p.j] = nil
		return
	}
	// A region may be its own neighbour, one turn on.
	out[p.i] = a
	b, errB := Not(out[p.j], g.b)
	if errB != nil {
		b = nil
	}
	out[p.j] = b
}

// nearPair is two regions that are too near to each other when the second is
// moved by shift along x. They may be one region and its copy.
type nearPair struct {
	i, j  int
	shift float64
}

// nearRegions returns all pairs of regions and their copies a whole number of
// periods away that overlap or are nearer to each other than gap, in the order of
// i, j, shift.
func nearRegions(rs []Region, gap, period float64) []nearPair {
	type place struct {
		i, periods int
		box        Box
	}
	var at []place
	all := EmptyBox()
	for i, r := range rs {
		if b := r.Bounds(); !b.Empty() {
			at = append(at, place{i, 0, b})
			all = all.Union(b)
		}
	}
	if period > 0 {
		// Copies to the right of which some may be near one: those to the left are
		// the same pairs seen from the other.
		for _, p := range at {
			for periods := 1; p.box.Min.X+float64(periods)*period < all.Max.X+gap; periods++ {
				at = append(at, place{p.i, periods, p.box.Move(Pt(float64(periods)*period, 0))})
			}
		}
	}
	slices.SortStableFunc(at, func(a, b place) int {
		return cmp.Or(cmp.Compare(a.box.Min.X, b.box.Min.X), cmp.Compare(a.i, b.i))
	})
	var near []nearPair
	for k, a := range at {
		for _, b := range at[k+1:] {
			if b.box.Min.X > a.box.Max.X+gap {
				break
			}
			if a.periods != 0 && b.periods != 0 || !a.box.Nearer(b.box, gap) {
				continue
			}
			p := nearPair{a.i, b.i, float64(b.periods-a.periods) * period}
			if p.i > p.j || p.i == p.j && p.shift < 0 {
				p = nearPair{p.j, p.i, -p.shift}
			}
			if TooNear(rs[p.i], rs[p.j].Move(Pt(p.shift, 0)), gap) {
				near = append(near, p)
			}
		}
	}
	slices.SortFunc(near, func(p, q nearPair) int {
		return cmp.Or(cmp.Compare(p.i, q.i), cmp.Compare(p.j, q.j), cmp.Compare(p.shift, q.shift))
	})
	return near
}

// TooNear reports whether two regions overlap or their edges are nearer than d.
func TooNear(a, b Region, d float64) bool {
	if len(a) == 0 || len(b) == 0 {
		return false
	}
	for _, l := range a {
		if b.Contains(l[0].Point) || NearestRegion(l, b).D < d {
			return true
		}
	}
	return slices.ContainsFunc(b, func(l Loop) bool { return a.Contains(l[0].Point) })
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
func trims(a, b Region, gap float64) (fromA, fromB Region, err error) {
	boxA, boxB := a.Bounds(), b.Bounds()
	half := gap/2 + 2*fitSlack
	// Farther than half a gap from either region the bisector takes nothing.
	zone := overlap(boxA.Grow(half), boxB.Grow(half))
	midA, midB := boxA.Centre(), boxB.Centre()
	fromEdgeA, fromEdgeB := a.signed(), b.signed()
	nearer := func(p Point) float64 { // to A: negative
		return fromEdgeA(p) - fromEdgeB(p) + tieBreak*(p.Dist(midA)-p.Dist(midB))
	}
	sideA := below(nearer, 2, zone, gap)
	sideB, err := Not(Region{Rect(zone)}, sideA)
	if err != nil {
		return nil, nil, err
	}
	return sideB.Offset(half), sideA.Offset(half), nil
}

// overlap returns what two boxes share.
func overlap(a, b Box) Box {
	return Box{
		Point{math.Max(a.Min.X, b.Min.X), math.Max(a.Min.Y, b.Min.Y)},
		Point{math.Min(a.Max.X, b.Max.X), math.Min(a.Max.Y, b.Max.Y)},
	}
}

// signed returns the function that gives a position's distance from the region's
// edge, negative inside.
func (r Region) signed() func(Point) float64 {
	var segs []seg
	for _, l := range r {
		segs = appendSegs(segs, l)
	}
	near := 0 // of one place often of the next, too
	return func(p Point) float64 {
		at := Box{p, p}
		last := near
		d := segs[last].dist(p)
		for i := range segs {
			if i == last || boxDist2(&segs[i].box, &at) >= d*d {
				continue
			}
			if e := segs[i].dist(p); e < d {
				d, near = e, i
			}
		}
		// Where the nearest point is no corner, its edge tells the side.
		inside := false
		if s := &segs[near]; d > Snap && s.holdsFoot(p) && !s.nearEnds(p, d) {
			inside = s.signed(p) > 0
		} else {
			inside = r.Contains(p)
		}
		if inside {
			return -d
		}
		return d
	}
}

// nearEnds reports whether an end of the edge is about as near to p as d.
func (s *seg) nearEnds(p Point, d float64) bool {
	d += Snap
	return dist2(p, s.A) <= d*d || dist2(p, s.B) <= d*d
}
