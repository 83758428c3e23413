package plane

import (
	"math"
	"math/rand/v2"
	"testing"
)

func TestNecksOfKnownOpenings(t *testing.T) {
	// A C-shaped opening: a ring sector whose ends face each other over a tongue of
	// metal 1 wide.
	c := Polygon(Pt(0, 0), Pt(6, 0), Pt(6, 2), Pt(2, 2), Pt(2, 3), Pt(6, 3), Pt(6, 5), Pt(0, 5))
	q := math.Sqrt(3)
	arcs := Loop{
		{Pt(2-q, 0), 0}, {Pt(8+q, 0), 0}, {Pt(8+q, 3), q}, {Pt(8-q, 3), 0}, {Pt(8-q, 1), 0},
		{Pt(2+q, 1), 0}, {Pt(2+q, 3), q}, {Pt(2-q, 3), 0},
	}
	points := Polygon(Pt(0, 0), Pt(10, 0), Pt(10, 3), Pt(5.5, 5), Pt(9, 1), Pt(1, 1), Pt(4.5, 5), Pt(0, 3))
	for _, x := range []struct {
		what  string
		l     Loop
		limit float64
		want  []float64
	}{
		{"square", square(4), 100, nil},
		{"circle", Circle(Pt(0, 0), 3), 100, nil},
		{"a tongue of metal between parallel sides", c, 4, []float64{1}},
		{"over the limit", c, 1, nil},
		// Two round heads of radius 2 about (8, 4) and (2, 4).
		{"between two arcs", arcs, 3, []float64{2}},
		{"between two corners", points, 1.5, []float64{1}},
	} {
		got := x.l.Necks(x.limit)
		if len(got) != len(x.want) {
			t.Errorf("%s: %v, want widths %v", x.what, got, x.want)
			continue
		}
		for i, g := range got {
			nearly(t, x.what, g.D, x.want[i], 1e-9)
			nearly(t, x.what+": ends", g.A.Dist(g.B), g.D, 1e-9)
		}
		if rev := x.l.Reverse().Necks(x.limit); len(rev) != len(got) {
			t.Errorf("%s, run the other way: %v", x.what, rev)
		}
	}
}

// Between arcs about one centre the metal is as wide as the radii differ, wherever and
// however far one stands before the other.
func TestMetalBetweenArcsAboutOneCentreIsAsWideAsTheRadiiDiffer(t *testing.T) {
	at := func(r, a float64) Point { return Pt(r*math.Cos(a), r*math.Sin(a)) }
	// The opening runs round a tongue of metal between the radii 4 and 5: inside of it
	// from angle a to b, outside of it from c to d, joined beyond its free end.
	for _, x := range [][4]float64{{0, 2, 0, 2}, {0, 1.2, 0.4, 1.6}, {0.8, 2, 0.2, 1.5}, {0.3, 0.9, 0, 2}, {0, 2.4, 1.9, 2.3}, {1.9, 2.3, 0, 2.4}} {
		end := math.Min(x[0], x[2]) - 0.4
		in, out := math.Tan((x[1]-end)/4), math.Tan((x[3]-end)/4)
		l := Loop{
			{at(4, x[1]), 0}, {at(3, x[1]), -in}, {at(3, end), 0}, {at(6, end), out}, {at(6, x[3]), 0}, {at(5, x[3]), -math.Tan((x[3] - x[2]) / 4)},
			{at(5, x[2]), 0}, {at(5, end+0.2), 0}, {at(4, end+0.2), math.Tan((x[1] - end - 0.2) / 4)},
		}
		found := false
		for _, g := range l.Necks(1.5) {
			nearly(t, "ends", g.A.Dist(g.B), g.D, 1e-9)
			if math.Abs(g.D-1) < 1e-9 && math.Abs(g.A.Len()+g.B.Len()-9) < 1e-9 {
				found = true
				m := g.Mid()
				if a := math.Atan2(m.Y, m.X); a < math.Max(end+0.2, x[2])-1e-6 || a > math.Min(x[1], x[3])+1e-6 {
					t.Errorf("%v: the place at %.4f does not lie between both arcs", x, a)
				}
			}
		}
		if !found {
			t.Errorf("%v: not found in %v", x, l.Necks(1.5))
		}
	}
}

// bent returns a random opening bent round like a C or a U, so that its ends or
// bays come near each other.
func bent(r *rand.Rand) Loop {
	for {
		n := 3 + r.IntN(4)
		turn := 2 + 4*r.Float64()
		var out, in Loop
		for i := range n {
			s, c := math.Sincos(turn * float64(i) / float64(n-1))
			o, h := 3+0.6*r.NormFloat64(), 1.6+0.5*r.NormFloat64()
			out = append(out, Vertex{Pt(o*c, o*s), 0.2 * r.NormFloat64() * float64(r.IntN(2))})
			in = append(in, Vertex{Pt(h*c, h*s), 0.2 * r.NormFloat64() * float64(r.IntN(2))})
		}
		l := append(out, in.Reverse()...)
		if l.Check() == nil && l.Area() > 0 {
			return l
		}
	}
}

// The outset of an opening by d swallows metal narrower than 2d: with the least
// neck it meets itself and closes round a hole.
func TestTheLeastNeckIsWhereAnOutsetMeetsItself(t *testing.T) {
	r := seeded(t)
	n := 0
	for i := range 400 {
		l := star(r, 5+r.IntN(8), true)
		if i%4 > 0 {
			l = bent(r)
		}
		ns := l.Necks(1)
		if len(ns) == 0 {
			// No metal between parts of the edge closes: the outset stays one loop.
			for _, d := range []float64{0.1, 0.3, 0.49} {
				if o := l.Outset(d); len(o) != 1 {
					t.Fatalf("%#v: no neck under 1, but outset by %g has %d loops", l, d, len(o))
				}
			}
			continue
		}
		n++
		d := ns[0].D
		if o := l.Outset(d/2 - 1e-5); len(o) != 1 {
			t.Fatalf("%#v: least neck %v, but outset by less has %d loops", l, ns[0], len(o))
		}
		if o := l.Outset(d/2 + 1e-5); len(o) < 2 {
			t.Fatalf("%#v: least neck %v, but outset by more has %d loops", l, ns[0], len(o))
		}
	}
	if n < 8 {
		t.Errorf("only %d loops had a neck", n)
	}
}

func TestTheNecksOfARegionHoldTheGapsOfItsLoops(t *testing.T) {
	r := seeded(t)
	for range 100 {
		// A plate with two openings: the least neck between them is their gap, that
		// to the rim likewise, unless a neck within one is less.
		a := star(r, 3+r.IntN(6), true)
		b := star(r, 3+r.IntN(6), true).Move(Pt(8.5, r.NormFloat64()))
		if Nearest(a, b).D == 0 || a.Contains(b[0].Point) {
			continue
		}
		rim := Rect(Box{Pt(-6, -6), Pt(16, 7)})
		want := math.Min(Nearest(a, b).D, math.Min(Nearest(a, rim).D, Nearest(b, rim).D))
		for _, l := range []Loop{a, b} {
			if ns := l.Necks(want); len(ns) > 0 {
				want = ns[0].D
			}
		}
		plate := Region{rim, a.Reverse(), b.Reverse()}
		got := plate.NecksBetween(20)
		if len(got) == 0 {
			t.Fatalf("no neck in the plate round %#v and %#v", a, b)
		}
		for _, n := range got {
			nearly(t, "end on the first loop", plate[n.I].Nearest(n.A).D, 0, 1e-9)
			nearly(t, "end on the second", plate[n.J].Nearest(n.B).D, 0, 1e-9)
		}
		nearly(t, "least neck", got[0].D, want, 1e-7)
	}
}

func BenchmarkNecksPetal(b *testing.B) {
	l := petal()
	b.ReportAllocs()
	for range b.N {
		l.Necks(0.8)
	}
}

func BenchmarkNecksRoundedTriangle(b *testing.B) {
	l := roundedTriangle(6, 0.5)
	b.ReportAllocs()
	for range b.N {
		l.Necks(0.8)
	}
}

func TestANeckJustWhereTwoEdgesJoinIsFoundHoweverItIsTurned(t *testing.T) {
	// The mouth of a bay, between the round ends of two arms: the way over it leaves
	// both just where arc and line join.
	bay := Loop{{Pt(-0.5, 0), 0}, {Pt(-0.5, -0.8), 1}, {Pt(0.5, -0.8), 0}, {Pt(0.5, 0), 1}, {Pt(0.13, 0), 0}, {Pt(0.2, -0.8), -1}, {Pt(-0.2, -0.8), 0}, {Pt(-0.13, 0), 1}}
	for i := range 200 {
		n := bay.Turn(float64(i) * 0.0731).Move(Pt(float64(i), 3)).Necks(0.35)
		if len(n) != 1 || math.Abs(n[0].D-0.26) > 1e-9 {
			t.Fatalf("turned %d times: %v", i, n)
		}
	}
}
