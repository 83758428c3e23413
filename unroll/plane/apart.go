package plane

import (
	"cmp"
	"math"
	"runtime"
	"slices"
	"sync"
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
// evenly shared, two copies of one shape would take each other away. So does the
// later of two whose share can't be worked out. Regions may come back empty or in
// several parts. Cost: a grid of some thousand places for each pair too near, else
// that of [Pairs].
func Apart(rs []Region, gap float64) []Region { return ApartTurns(rs, gap, 0) }

// ApartTurns is [Apart] on a band that closes: every region stands again at one
// period, mm, to its left and right, and so on all round. Regions keep the gap from
// the copies of others and from their own. A period of 0 means none.
func ApartTurns(rs []Region, gap, period float64) []Region {
	out := slices.Clone(rs)
	if !(gap > 0) {
		return out
	}
	if period > 0 && period <= gap {
		return make([]Region, len(rs))
	}
	near := nearRegions(rs, gap, period)
	// What each pair has to give does not depend on the others: worked out side by
	// side, taken away in order.
	type give struct {
		a, b Region
		err  error
	}
	gives := make([]give, len(near))
	workers := min(runtime.GOMAXPROCS(0), len(near))
	var wait sync.WaitGroup
	for w := range workers {
		wait.Add(1)
		go func() {
			defer wait.Done()
			for k := w; k < len(near); k += workers {
				p, g := near[k], &gives[k]
				g.a, g.b, g.err = trims(rs[p.i], rs[p.j].Move(Pt(p.shift, 0)), gap, p.i == p.j)
				g.b = g.b.Move(Pt(-p.shift, 0))
			}
		}()
	}
	wait.Wait()
	for k, p := range near {
		g := gives[k]
		a, errA := Not(out[p.i], g.a)
		if g.err != nil || errA != nil {
			out[p.j] = nil
			continue
		}
		// A region may be its own neighbour, one turn on.
		out[p.i] = a
		b, errB := Not(out[p.j], g.b)
		if errB != nil {
			b = nil
		}
		out[p.j] = b
	}
	// The grid can step over something finer than itself. Then the later of the
	// two gives what is missing, by an exact offset.
	for _, p := range near {
		move := Pt(p.shift, 0)
		if !tooNear(out[p.i], out[p.j].Move(move), gap-2*Snap) {
			continue
		}
		rest, err := Not(out[p.j], out[p.i].Offset(gap).Move(move.Mul(-1)))
		if err != nil {
			rest = nil
		}
		out[p.j] = rest
	}
	return out
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
		i, turn int
		box     Box
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
			for turn := 1; p.box.Min.X+float64(turn)*period < all.Max.X+gap; turn++ {
				at = append(at, place{p.i, turn, p.box.Move(Pt(float64(turn)*period, 0))})
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
			if a.turn != 0 && b.turn != 0 || !a.box.Nearer(b.box, gap) {
				continue
			}
			p := nearPair{a.i, b.i, float64(b.turn-a.turn) * period}
			if p.i > p.j || p.i == p.j && p.shift < 0 {
				p = nearPair{p.j, p.i, -p.shift}
			}
			if tooNear(rs[p.i], rs[p.j].Move(Pt(p.shift, 0)), gap) {
				near = append(near, p)
			}
		}
	}
	slices.SortFunc(near, func(p, q nearPair) int {
		return cmp.Or(cmp.Compare(p.i, q.i), cmp.Compare(p.j, q.j), cmp.Compare(p.shift, q.shift))
	})
	return near
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

// trims returns what two regions too near to each other have to give. Copies of
// one region share evenly, whatever their overlap.
func trims(a, b Region, gap float64, copies bool) (fromA, fromB Region, err error) {
	over, err := And(a, b)
	if err != nil {
		return nil, nil, err
	}
	if 2*over.Area() > b.Area() && !copies {
		return nil, b.and(a.Offset(gap)), nil
	}
	if 2*over.Area() > a.Area() && !copies {
		return a.and(b.Offset(gap)), nil, nil
	}
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
		segs = appendSegs(segs, l)
	}
	return func(p Point) float64 {
		d, near := math.Inf(1), 0
		for i := range segs {
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
