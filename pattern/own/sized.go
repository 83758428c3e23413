package own

import (
	"fmt"
	"math"

	"fretband/unroll/plane"
)

// OutlineSized is [Outline] with the curve stretched along and across about its
// origin, so that its box has that width and height, mm, before lines and arcs are
// fitted to it: its edges are as true as those of a curve drawn at that size.
func OutlineSized(d string, width, height float64) (plane.Loop, error) {
	first, err := Outline(d)
	if err != nil {
		return nil, err
	}
	cs, err := placed(d)
	if err != nil {
		return nil, err
	}
	closed, _ := join(cs, plane.Snap)
	// The size as drawn, from a fit whose error is nothing at the size wanted.
	b := first.Bounds()
	exact, err := closed[0].loop(math.Min(plane.FitTolerance, 1e-6*math.Max(b.W(), b.H())))
	if err == nil {
		b = exact.Bounds()
	}
	if !(b.W() > plane.Snap && b.H() > plane.Snap) {
		return nil, fmt.Errorf("the shape is %.3g by %.3g mm: it can't be stretched", b.W(), b.H())
	}
	l, err := closed[0].through(affine{a: width / b.W(), d: height / b.H()}).loop(plane.FitTolerance)
	if err != nil {
		return nil, err
	}
	if err := Check(l); err != nil {
		return nil, err
	}
	return l.CCW(), nil
}
