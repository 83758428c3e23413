package motif

import (
	"fretband/unroll/plane"
)

// fitWithin fits arcs to a curve that runs counter-clockwise round a cell and
// keeps them inside of it: they follow the parallel curve that lies tol further
// in, from which they stay within tol. So cells whose curves touch do not
// overlap. The curve's radius must nowhere be less than tol.
func fitWithin(c plane.Curve, t0, t1, tol float64) plane.Chain {
	return plane.FitArcs(c.Inward(tol), t0, t1, tol)
}

// symmetric closes the right half of a loop, run from its lowest to its highest
// point on the upright axis, by its mirror image.
func symmetric(right plane.Chain) plane.Loop {
	l := right.Loop()
	for i := len(right) - 1; i >= 0; i-- {
		e := right[i]
		l = append(l, plane.Vertex{Point: plane.Pt(-e.B.X, e.B.Y), Bulge: e.Bulge})
	}
	return l
}

// largest returns the greatest number up to most for which fits holds, where it
// holds for all smaller ones: found by halving, to the last bits.
func largest(most float64, fits func(float64) bool) float64 {
	if fits(most) {
		return most
	}
	lo, _ := plane.Halve(0, most, 60, fits)
	return lo
}
