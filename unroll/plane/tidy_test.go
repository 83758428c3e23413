package plane

import (
	"math"
	"strings"
	"testing"
)

func TestTidyMergesWhatIsOneLineOrCircle(t *testing.T) {
	r := seeded(t)
	for range 200 {
		l := star(r, 3+r.IntN(8), true)
		if len(l.Tidy()) != len(l) {
			t.Fatalf("%#v: tidied to %#v", l, l.Tidy())
		}
		over := 0 // arcs of more than half a turn stay in two
		for _, v := range l {
			if math.Abs(v.Bulge) > 1 {
				over++
			}
		}
		// Cut at random, with edges of no length between.
		var m Loop
		for i := range l {
			e := l.Edge(i)
			f := 0.1 + 0.4*r.Float64()
			g := f + 0.1 + 0.3*r.Float64()
			for _, p := range []Edge{e.Part(0, f), e.Part(f, g), e.Part(g, 1)} {
				m = append(m, Vertex{p.A, p.Bulge})
			}
			if r.IntN(2) == 0 {
				m = append(m, Vertex{e.B.Add(Pt(Snap/9, 0)), 0})
			}
		}
		got := m.Tidy()
		if len(got) > len(l)+over || len(got) < len(l) {
			t.Fatalf("%d edges, want %d\n%#v\n%#v", len(got), len(l), got, l)
		}
		nearly(t, "area", got.Area(), l.Area(), 1e-6)
		nearly(t, "length", got.Len(), l.Len(), 1e-6)
	}
}

func TestTidyOfCirclesAndOfNothing(t *testing.T) {
	var c Loop
	for i := range 8 {
		s, x := math.Sincos(float64(i) * math.Pi / 4)
		c = append(c, Vertex{Pt(2*x, 2*s), math.Tan(math.Pi / 16)})
	}
	got := c.Tidy()
	if len(got) != 2 {
		t.Errorf("a circle of eight arcs: %d edges, want 2", len(got))
	}
	nearly(t, "area", got.Area(), 4*math.Pi, 1e-9)
	for _, l := range []Loop{nil, {{Pt(1, 1), 0}}, Polygon(Pt(0, 0), Pt(1, 0)), Polygon(Pt(0, 0), Pt(1, 0), Pt(2, 0)), {{Pt(1, 1), 0.5}, {Pt(1, 1), 1}}} {
		if got := l.Tidy(); len(got) > 0 && math.Abs(got.Area()) > 0 {
			t.Errorf("%v: tidied to %v", l, got)
		}
	}
}

func TestCheckSaysWhatIsWrongWithALoop(t *testing.T) {
	r := seeded(t)
	for range 50 {
		if err := star(r, 3+r.IntN(8), true).Check(); err != nil {
			t.Error(err)
		}
	}
	if err := Circle(Pt(3, 4), 2).Check(); err != nil {
		t.Error(err)
	}
	// A rectangle as narrow as this is one all the same.
	if err := Rect(Box{Pt(0, 0), Pt(1, 1.5*Snap)}).Check(); err != nil {
		t.Error(err)
	}
	for _, c := range []struct {
		l    Loop
		want string
	}{
		{Polygon(Pt(0, 0), Pt(1, 0), Pt(2, 0.9*Snap)), "no area"},
		{nil, "0 vertices"},
		{Polygon(Pt(1, 2)), "1 vertices"},
		{Polygon(Pt(0, 0), Pt(math.NaN(), 0), Pt(1, 1)), "vertex 1"},
		{Polygon(Pt(0, 0), Pt(1e6, 0), Pt(1, 1)), "vertex 1"},
		{Loop{{Pt(0, 0), math.Inf(1)}, {Pt(1, 0), 0}}, "bulge"},
		{Polygon(Pt(0, 0), Pt(1, 0), Pt(1, 0), Pt(1, 1)), "edge 1"},
		{Polygon(Pt(0, 0), Pt(1, 0)), "no area"},
		{Polygon(Pt(0, 0), Pt(3, 3), Pt(3, 0), Pt(0, 2)), "edges 0 and 2 meet"},
		{Polygon(Pt(0, 0), Pt(4, 0), Pt(4, 4), Pt(2, 0), Pt(0, 4)), "meet"},
		{Loop{{Pt(0, 0), 0}, {Pt(4, 0), 0}, {Pt(4, 1), -1}, {Pt(0, 1), 0}}, "meet"},
	} {
		err := c.l.Check()
		if err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%v: error %v, want one with %q", c.l, err, c.want)
		}
	}
}
