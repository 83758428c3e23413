package plane

import (
	"math"
	"slices"
)

// Crossing is a position that two edges share: the fraction of the first edge at
// which it lies (0 at its A, 1 at its B) and that of the second.
type Crossing struct {
	A, B float64
}

// Crossings returns the positions that the edges a and b share, in their order
// along a, two points nearer than [Snap] counted as one:
//
//   - where they cross;
//   - where they touch, that is come within Snap, at an end or as tangents (two
//     crossings no deeper than Snap are one touch, half way);
//   - where they run along each other within Snap, on one line or circle, both
//     ends of each shared stretch, but nothing between.
//
// Lines, arcs and edges without length may be mixed. Cost: constant.
//
// Lines and circles are met in closed form in the curvature form
// n.q - k/2 q.q = 0, in which a line is a circle of curvature 0; two circles
// through their radical line. The root is taken without cancellation (Numerical
// Recipes, section "Quadratic and Cubic Equations"), so flat arcs keep their
// digits.
func Crossings(a, b Edge) []Crossing {
	sa, sb := newSeg(a), newSeg(b)
	if sa.box.Dist(sb.box) > Snap {
		return nil
	}
	var buf [8]Crossing
	cs := buf[:0]
	add := func(p Point) {
		s, p1 := sa.nearest(p)
		t, _ := sb.nearest(p)
		for _, c := range cs {
			if p1.Dist(a.At(c.A)) <= Snap && p.Dist(b.At(c.B)) <= 2*Snap {
				return
			}
		}
		cs = append(cs, Crossing{s, t})
	}
	for _, p := range [2]Point{a.A, a.B} {
		if sb.dist(p) <= Snap {
			add(p)
		}
	}
	for _, p := range [2]Point{b.A, b.B} {
		if sa.dist(p) <= Snap {
			add(p)
		}
	}
	byA := func(x, y Crossing) int {
		switch {
		case x.A < y.A:
			return -1
		case x.A > y.A:
			return 1
		}
		return 0
	}
	slices.SortFunc(cs, byA)
	// Between two shared ends the edges may run along each other.
	var shared [4][2]float64
	ns := 0
	for i := 1; i < len(cs); i++ {
		t0, t1 := cs[i-1].A, cs[i].A
		if a.Len()*(t1-t0) <= Snap {
			continue
		}
		along := true
		for _, f := range [3]float64{0.25, 0.5, 0.75} {
			along = along && sb.dist(a.At(t0+f*(t1-t0))) <= 2*Snap
		}
		if along {
			shared[ns] = [2]float64{t0, t1}
			ns++
		}
	}
	pts, n := meets(&sa, &sb, Snap)
next:
	for _, p := range pts[:n] {
		t := sa.frac(p)
		for _, s := range shared[:ns] {
			if t >= s[0] && t <= s[1] {
				continue next
			}
		}
		add(p)
	}
	slices.SortFunc(cs, byA)
	return slices.Clone(cs)
}

// crossing returns a point in which the edges cross or touch exactly (to
// rounding), and whether there is one.
func crossing(a, b *seg) (Point, bool) {
	if !a.box.Meets(b.box) {
		return Point{}, false
	}
	p, n := meets(a, b, 0)
	if n == 0 || math.IsNaN(p[0].X) {
		return Point{}, false
	}
	return p[0], true
}
