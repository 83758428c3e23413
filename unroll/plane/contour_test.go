package plane

import (
	"math"
	"testing"
)

// The contour of a known distance lies where the distance is 0, on whichever of the
// grid's lines it passes: circles (apart, and one within another) and a slanting strip.
func TestAContourLiesWhereTheFunctionPassesZero(t *testing.T) {
	circle := func(c Point, r float64) func(Point) float64 {
		return func(p Point) float64 { return p.Dist(c) - r }
	}
	ring, hole, far := circle(Pt(0.3, -0.2), 3), circle(Pt(0.8, 0.1), 1.5), circle(Pt(7, 0.5), 2)
	n := Pt(math.Cos(1), math.Sin(1))
	for _, c := range []struct {
		what  string
		f     func(Point) float64
		box   Box
		loops int
		area  float64
	}{
		{"circle", ring, Box{Pt(-4, -4), Pt(4, 4)}, 1, 9 * math.Pi},
		{"two circles", func(p Point) float64 { return math.Min(ring(p), far(p)) }, Box{Pt(-4, -4), Pt(10, 4)}, 2, 13 * math.Pi},
		{"ring", func(p Point) float64 { return math.Max(ring(p), -hole(p)) }, Box{Pt(-4, -4), Pt(4, 4)}, 2, (9 - 2.25) * math.Pi},
		{"end of a strip", func(p Point) float64 { return math.Max(math.Abs(p.Dot(n))-0.9, math.Abs(p.Dot(n.Left()))-2) }, Box{Pt(-4, -4), Pt(4, 4)}, 1, 1.8 * 4},
	} {
		r := below(c.f, 1, c.box, 1)
		if len(r) != c.loops {
			t.Errorf("%s: %d loops, want %d", c.what, len(r), c.loops)
		}
		corners := 0.0
		if c.what == "end of a strip" {
			corners = 0.01 // the grid cuts them
		}
		nearly(t, c.what+": area", r.Area(), c.area, 0.005+corners)
		for _, l := range r {
			for i := range l {
				for _, at := range []float64{0, 0.25, 0.5, 0.75} {
					if off := math.Abs(c.f(l.Edge(i).At(at))); off > 5e-4+5*corners {
						t.Errorf("%s: edge %d lies %g mm off", c.what, i, off)
					}
				}
			}
		}
	}
}
