package plane

import (
	"math"
	"testing"
)

// sampled is the slow obvious distance: between dense points of both edges,
// then polished by stepping.
func sampledDist(a, b Edge) float64 {
	const n = 60
	best, bi := math.Inf(1), 0.0
	d := func(t float64) float64 { _, q := b.Nearest(a.At(t)); return q.Dist(a.At(t)) }
	for i := 0; i <= n; i++ {
		if x := d(float64(i) / n); x < best {
			best, bi = x, float64(i)/n
		}
	}
	for h := 1.0 / n; h > 1e-12; h /= 2 {
		for _, t := range [2]float64{bi - h, bi + h} {
			t = math.Max(0, math.Min(1, t))
			if x := d(t); x < best {
				best, bi = x, t
			}
		}
	}
	return best
}

func TestTheNearestPointOfAnEdgeIsNearerThanItsSamples(t *testing.T) {
	r := seeded(t)
	for range 3000 {
		e := randomEdge(r)
		p := Pt(r.Float64()*6-1, r.Float64()*6-1)
		f, q := e.Nearest(p)
		if f < 0 || f > 1 || q.Dist(e.At(f)) > 1e-9 {
			t.Fatalf("%v from %v: fraction %g is not %v", e, p, f, q)
		}
		d := p.Dist(q)
		nearly(t, "Dist and Nearest", e.Dist(p), d, 1e-9)
		best := math.Inf(1)
		for i := 0; i <= 200; i++ {
			best = math.Min(best, p.Dist(e.At(float64(i)/200)))
		}
		if d > best+1e-9 || d < best-e.Len()/400-1e-9 {
			t.Fatalf("%v from %v: %g, samples say %g", e, p, d, best)
		}
	}
}

func TestTheGapOfTwoEdgesIsThatOfDenseSamples(t *testing.T) {
	r := seeded(t)
	for range 2000 {
		a, b := randomEdge(r), randomEdge(r)
		g := NearestEdges(a, b)
		nearly(t, "length of gap", g.A.Dist(g.B), g.D, 1e-9)
		if a.Dist(g.A) > Snap || b.Dist(g.B) > Snap {
			t.Fatalf("%v %v: gap %v does not start and end on the edges: %g %g", a, b, g, a.Dist(g.A), b.Dist(g.B))
		}
		want := sampledDist(a, b)
		if g.D > want+1e-9 {
			t.Fatalf("%#v %#v: gap %.12g, samples %.12g", a, b, g.D, want)
		}
		if back := NearestEdges(b, a); math.Abs(back.D-g.D) > 1e-9 {
			t.Fatalf("%v %v: %g one way, %g the other", a, b, g.D, back.D)
		}
	}
}

func TestCrossingsLieOnBothEdgesAndNoneIsMissed(t *testing.T) {
	r := seeded(t)
	for range 3000 {
		a, b := randomEdge(r), randomEdge(r)
		cs := Crossings(a, b)
		last := -1.0
		for _, c := range cs {
			if c.A < last {
				t.Fatalf("%v %v: %v not in order", a, b, cs)
			}
			last = c.A
			if d := a.At(c.A).Dist(b.At(c.B)); d > 3*Snap {
				t.Fatalf("%#v %#v: crossing %v is %g apart", a, b, c, d)
			}
		}
		// Counted by sign changes of the distance from b along a, away from b's ends.
		if b.IsLine() && b.Chord() > 0.1 && a.Len() > 0.1 {
			n := 0
			const steps = 997
			side := func(p Point) float64 { return b.B.Sub(b.A).Cross(p.Sub(b.A)) }
			for i := range steps {
				p, q := a.At(float64(i)/steps), a.At(float64(i+1)/steps)
				if x, y := side(p), side(q); x*y < 0 && math.Abs(x-y) > 1e-9 {
					h := p.Dist(q) // clear of b's ends
					if f, at := b.Nearest(p.Mid(q)); f*b.Len() > h && (1-f)*b.Len() > h && at.Dist(p.Mid(q)) < h {
						n++
					}
				}
			}
			if n > len(cs) {
				t.Fatalf("%#v %#v: %d sign changes, crossings %v", a, b, n, cs)
			}
		}
	}
}

func TestKnownCrossings(t *testing.T) {
	half := Edge{Pt(1, 0), Pt(-1, 0), 1} // upper half of the unit circle
	for _, c := range []struct {
		what string
		a, b Edge
		want []Crossing
	}{
		{"lines", Edge{Pt(0, 0), Pt(2, 2), 0}, Edge{Pt(0, 2), Pt(2, 0), 0}, []Crossing{{0.5, 0.5}}},
		{"lines at an end", Edge{Pt(0, 0), Pt(2, 0), 0}, Edge{Pt(1, 0), Pt(1, 5), 0}, []Crossing{{0.5, 0}}},
		{"lines apart", Edge{Pt(0, 0), Pt(2, 0), 0}, Edge{Pt(0, 1e-6), Pt(2, 1e-6), 0}, nil},
		{"one line, overlap", Edge{Pt(0, 0), Pt(4, 0), 0}, Edge{Pt(3, 0), Pt(1, 0), 0}, []Crossing{{0.25, 1}, {0.75, 0}}},
		{"one line, end to end", Edge{Pt(0, 0), Pt(4, 0), 0}, Edge{Pt(4, 0), Pt(6, 0), 0}, []Crossing{{1, 0}}},
		{"line through arc", half, Edge{Pt(0, 0), Pt(0, 2), 0}, []Crossing{{0.5, 0.5}}},
		{"tangent line", half, Edge{Pt(-1, 1), Pt(1, 1), 0}, []Crossing{{0.5, 0.5}}},
		{"line just off", half, Edge{Pt(-1, 1+1e-6), Pt(1, 1+1e-6), 0}, nil},
		{"arcs tangent outside", half, Edge{Pt(1, 2), Pt(-1, 2), -1}, []Crossing{{0.5, 0.5}}},
		{"arcs tangent inside", half, Edge{Pt(0.5, 0.5), Pt(-0.5, 0.5), 1}, []Crossing{{0.5, 0.5}}},
		{"one circle, overlap", half, Edge{Pt(0, 1), Pt(0, -1), 1}, []Crossing{{0.5, 0}, {1, 0.5}}},
		{"concentric", half, Edge{Pt(2, 0), Pt(-2, 0), 1}, nil},
		{"two halves of a circle", half, Edge{Pt(-1, 0), Pt(1, 0), 1}, []Crossing{{0, 1}, {1, 0}}},
	} {
		got := Crossings(c.a, c.b)
		ok := len(got) == len(c.want)
		for i := range c.want {
			ok = ok && math.Abs(got[i].A-c.want[i].A) < 1e-7 && math.Abs(got[i].B-c.want[i].B) < 1e-7
		}
		if !ok {
			t.Errorf("%s: got %v, want %v", c.what, got, c.want)
		}
	}
}

func TestTheGapOfTwoLoopsIsThatOfTheirFlattenedEdges(t *testing.T) {
	r := seeded(t)
	for range 60 {
		a := star(r, 3+r.IntN(6), true)
		b := star(r, 3+r.IntN(6), true).Move(Pt(r.Float64()*12-6, r.Float64()*12-6))
		g := Nearest(a, b)
		best := math.Inf(1)
		pa, pb := Polygon(a.Flatten(1e-3)...), Polygon(b.Flatten(1e-3)...)
		for i := range pa {
			for j := range pb {
				best = math.Min(best, NearestEdges(pa.Edge(i), pb.Edge(j)).D)
			}
		}
		nearly(t, "gap", g.D, best, 2.1e-3)
		if a.Nearest(g.A).D > 1e-8 || b.Nearest(g.B).D > 1e-8 {
			t.Fatalf("gap %v is not on the edges", g)
		}
		p := Pt(r.Float64()*12-6, r.Float64()*12-6)
		nearly(t, "from a point", a.Nearest(p).D, pa.Nearest(p).D, 1.1e-3)
	}
}

func TestFlattenKeepsItsTolerance(t *testing.T) {
	r := seeded(t)
	for range 100 {
		l := star(r, 3+r.IntN(6), true)
		for _, tol := range []float64{0.1, 1e-3, 1e-5} {
			p := Polygon(l.Flatten(tol)...)
			for i := range p {
				e := p.Edge(i)
				if d := l.Nearest(e.Mid()).D; d > tol*(1+1e-6) {
					t.Fatalf("chord %v is %g from the loop, allowed %g", e, d, tol)
				}
			}
		}
	}
}

func BenchmarkNearestRoundedTriangles(b *testing.B) {
	l := roundedTriangle(6, 0.5)
	m := l.Move(Pt(6.3, 0.4))
	b.ReportAllocs()
	for range b.N {
		Nearest(l, m)
	}
}

// roundedTriangle is an equilateral triangle of the given side, base down, its
// corners rounded by r: three lines, three arcs, counter-clockwise.
func roundedTriangle(side, r float64) Loop {
	var l Loop
	in := r / (side / (2 * math.Sqrt(3))) // the arcs' centres: a similar triangle
	for i := range 3 {
		c := Pt(0, -side/math.Sqrt(3)*(1-in)).Turn(float64(i)*2*math.Pi/3 - math.Pi/3)
		n := Pt(0, -r).Turn(float64(i)*2*math.Pi/3 - 2*math.Pi/3)
		l = append(l, Vertex{c.Add(n), math.Tan(math.Pi / 6)}, Vertex{c.Add(n.Turn(2 * math.Pi / 3)), 0})
	}
	return l
}

func TestTheBoundsOfAnEdgeAreThoseOfItsSamples(t *testing.T) {
	r := seeded(t)
	for range 1000 {
		e := randomEdge(r)
		b, c := e.Bounds(), EmptyBox()
		for i := 0; i <= 400; i++ {
			c = c.Add(e.At(float64(i) / 400))
		}
		slack := e.Len() / 400
		if !b.Grow(1e-9).Contains(c.Min) || !b.Grow(1e-9).Contains(c.Max) ||
			!c.Grow(slack).Contains(b.Min) || !c.Grow(slack).Contains(b.Max) {
			t.Fatalf("%#v: bounds %v, samples %v", e, b, c)
		}
	}
}

func TestTheSagittaIsWhereTheMiddleStands(t *testing.T) {
	r := seeded(t)
	for range 200 {
		e := Edge{Pt(r.Float64(), r.Float64()), Pt(3+r.Float64(), r.Float64()), 0.01 + 1.5*r.Float64()}
		if r.IntN(2) == 0 {
			e.Bulge = -e.Bulge
		}
		s := newSeg(e)
		nearly(t, "sagitta", s.sagitta(), e.Mid().Dist(e.A.Mid(e.B)), 1e-9)
	}
}
