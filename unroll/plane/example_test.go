package plane_test

import (
	"fmt"
	"math"

	"fretband/unroll/plane"
)

func ExampleLoop_Inset() {
	// A dumbbell: two squares joined by a bar 1 mm wide.
	l := plane.Polygon(
		plane.Pt(0, 0), plane.Pt(4, 0), plane.Pt(4, 1), plane.Pt(8, 1), plane.Pt(8, 0), plane.Pt(12, 0),
		plane.Pt(12, 4), plane.Pt(8, 4), plane.Pt(8, 2), plane.Pt(4, 2), plane.Pt(4, 4), plane.Pt(0, 4),
	)
	for _, d := range []float64{0.4, 0.6, 2} {
		in := l.Inset(d)
		fmt.Printf("by %g: %d parts, %.2f mm2\n", d, len(in), in.Area())
	}
	// Output:
	// by 0.4: 1 parts, 21.58 mm2
	// by 0.6: 2 parts, 15.84 mm2
	// by 2: 0 parts, 0.00 mm2
}

func ExampleRegion_Open() {
	// The least corner radius: what no disc of 0.5 mm reaches is left out.
	h := 3 * math.Sqrt(3)
	triangle := plane.Polygon(plane.Pt(0, 0), plane.Pt(6, 0), plane.Pt(3, h))
	r := plane.Region{triangle}.Open(0.5)
	fmt.Printf("%d edges, %.4f mm2 of %.4f, %.4f mm round\n", len(r[0]), r.Area(), triangle.Area(), r.Len())
	// Output: 6 edges, 15.0748 mm2 of 15.5885, 15.9454 mm round
}

func ExampleAnd() {
	lens, err := plane.And(
		plane.Region{plane.Circle(plane.Pt(0, 0), 1)},
		plane.Region{plane.Circle(plane.Pt(1, 0), 1)},
	)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%.8f mm2, edges:\n", lens.Area())
	for _, e := range lens[0].Edges() {
		fmt.Printf("arc of radius %.3f over %.0f degrees\n", e.Radius(), e.Sweep()*180/math.Pi)
	}
	// Output:
	// 1.22836970 mm2, edges:
	// arc of radius 1.000 over 120 degrees
	// arc of radius 1.000 over 120 degrees
}

func ExampleNearest() {
	g := plane.Nearest(plane.Circle(plane.Pt(0, 0), 2), plane.Circle(plane.Pt(6, 0), 3))
	fmt.Printf("%.3f mm, from (%.1f, %.1f) to (%.1f, %.1f)\n", g.D, g.A.X, g.A.Y, g.B.X, g.B.Y)
	// Output: 1.000 mm, from (2.0, 0.0) to (3.0, 0.0)
}

func ExampleLoop_Necks() {
	// A C-shaped opening: the tongue of metal that its arms enclose is 1 mm wide.
	c := plane.Polygon(
		plane.Pt(0, 0), plane.Pt(6, 0), plane.Pt(6, 2), plane.Pt(2, 2),
		plane.Pt(2, 3), plane.Pt(6, 3), plane.Pt(6, 5), plane.Pt(0, 5),
	)
	for _, g := range c.Necks(4) {
		fmt.Printf("%.1f mm at (%.1f, %.1f)\n", g.D, g.Mid().X, g.Mid().Y)
	}
	// Output: 1.0 mm at (4.0, 2.5)
}

func ExampleFitLoop() {
	oval := func(t float64) (p, tangent plane.Point) {
		s, c := math.Sincos(t)
		return plane.Pt(30*c, 20*s), plane.Pt(-30*s, 20*c)
	}
	l := plane.FitLoop(oval, 0, 2*math.Pi, 0.01)
	fmt.Printf("%d arcs, %.1f mm2; pi a b is %.1f\n", len(l), l.Area(), math.Pi*30*20)
	// Output: 20 arcs, 1885.2 mm2; pi a b is 1885.0
}
