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

func ExampleFitArcs() {
	oval := func(t float64) (p, tangent plane.Point) {
		s, c := math.Sincos(t)
		return plane.Pt(30*c, 20*s), plane.Pt(-30*s, 20*c)
	}
	l := plane.FitArcs(oval, 0, 2*math.Pi, 0.01).Loop()
	fmt.Printf("%d arcs, %.1f mm2; pi a b is %.1f\n", len(l), l.Area(), math.Pi*30*20)
	// Output: 21 arcs, 1885.2 mm2; pi a b is 1885.0
}

func ExampleRegion_Offset() {
	// A frame 2 mm wide: its metal thickened by 0.5 mm, then thinned until it is gone.
	frame := plane.Region{
		plane.Rect(plane.Box{Min: plane.Pt(0, 0), Max: plane.Pt(10, 8)}),
		plane.Rect(plane.Box{Min: plane.Pt(2, 2), Max: plane.Pt(8, 6)}).Reverse(),
	}
	for _, d := range []float64{0.5, -0.5, -1.2} {
		o := frame.Offset(d)
		fmt.Printf("by %g: %d loops, %.3f mm2\n", d, len(o), o.Area())
	}
	// Output:
	// by 0.5: 2 loops, 83.785 mm2
	// by -0.5: 2 loops, 28.215 mm2
	// by -1.2: 0 loops, 0.000 mm2
}

func ExampleRegion_OffsetMitre() {
	// The corners of a square stay sharp; the limit cuts them off square.
	sq := plane.Region{plane.Rect(plane.Box{Min: plane.Pt(0, 0), Max: plane.Pt(4, 4)})}
	for _, limit := range []float64{2, 1.2} {
		o, err := sq.OffsetMitre(1, limit)
		if err != nil {
			fmt.Println(err)
			return
		}
		fmt.Printf("limit %g: %d corners, %.3f mm2\n", limit, len(o[0]), o.Area())
	}
	// Output:
	// limit 2: 4 corners, 36.000 mm2
	// limit 1.2: 8 corners, 35.816 mm2
}

func ExampleRegion_WidthAt() {
	// A plate with two holes: how wide is the bridge between them, and the metal beside?
	plate := plane.Region{
		plane.Rect(plane.Box{Min: plane.Pt(-6, -4), Max: plane.Pt(6, 4)}),
		plane.Rect(plane.Box{Min: plane.Pt(-4.4, -2), Max: plane.Pt(-0.4, 2)}).Reverse(),
		plane.Rect(plane.Box{Min: plane.Pt(0.4, -2), Max: plane.Pt(4.4, 2)}).Reverse(),
	}
	for _, p := range []plane.Point{plane.Pt(0, 0), plane.Pt(0, 3)} {
		d, err := plate.WidthAt(p, 10)
		if err != nil {
			fmt.Println(err)
			return
		}
		fmt.Printf("%.2f mm at (%g, %g)\n", 2*d.R, p.X, p.Y)
	}
	for _, g := range plate.Necks(1) {
		fmt.Printf("a neck of %.2f mm at (%.1f, %.1f)\n", g.D, g.Mid().X, g.Mid().Y)
	}
	// Output:
	// 0.80 mm at (0, 0)
	// 2.08 mm at (0, 3)
	// a neck of 0.80 mm at (0.0, 0.0)
}

func ExampleApart() {
	// Two openings on a band 20 mm round, that come within 0.3 mm over its seam.
	sq := plane.Rect(plane.Box{Min: plane.Pt(-2, -2), Max: plane.Pt(2, 2)})
	out := plane.Apart([]plane.Region{{sq.Move(plane.Pt(8, 0))}, {sq.Move(plane.Pt(-7.7, 0))}}, 0.8, 20)
	for _, r := range out {
		b := r.Bounds()
		fmt.Printf("from %.2f to %.2f mm\n", b.Min.X, b.Max.X)
	}
	// Output:
	// from 6.00 to 9.75 mm
	// from -9.45 to -5.70 mm
}
