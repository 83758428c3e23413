package plane

import (
	"fmt"
	"math"
	"testing"
)

// wellFormed fails the test unless r is a region: simple loops, none empty,
// outer ones counter-clockwise, that do not cross (touching is allowed).
func wellFormed(t testing.TB, what string, r Region) {
	t.Helper()
	for i, l := range r {
		if len(l) < 2 {
			t.Fatalf("%s: loop %d has %d vertices", what, i, len(l))
		}
		for _, v := range l {
			if !v.Finite() || math.IsNaN(v.Bulge) {
				t.Fatalf("%s: loop %d holds %v", what, i, v)
			}
		}
		if l.Area() == 0 {
			t.Fatalf("%s: loop %d has no area", what, i)
		}
	}
	if r.Area() < 0 {
		t.Fatalf("%s: area %g", what, r.Area())
	}
	// A point just left of every edge is inside, just right outside.
	const off = 20 * Snap
	for i, l := range r {
		for k := range l {
			e := l.Edge(k)
			if e.Len() < 1e-3 {
				continue
			}
			m := e.At(0.4817)
			n := e.Tangent(0.4817).Left()
			if others := r.nearestOther(m, i, k); others < 10*off {
				continue
			}
			if !r.Contains(m.Add(n.Mul(off))) || r.Contains(m.Sub(n.Mul(off))) {
				t.Fatalf("%s: loop %d edge %d %v does not have the inside on its left alone", what, i, k, e)
			}
		}
	}
	// No two edges cross.
	type ref struct{ l, e int }
	var segs []seg
	var refs []ref
	for i, l := range r {
		for k := range l {
			segs, refs = append(segs, newSeg(l.Edge(k))), append(refs, ref{i, k})
		}
	}
	for i := range segs {
		for j := i + 1; j < len(segs); j++ {
			if !segs[i].box.Meets(segs[j].box) {
				continue
			}
			p, n := meets(&segs[i], &segs[j], 4*Snap)
			for _, q := range p[:n] {
				depth := math.Inf(1)
				for _, s := range [2]*seg{&segs[i], &segs[j]} {
					depth = math.Min(depth, math.Min(q.Dist(s.A), q.Dist(s.B)))
				}
				// Tangent touch or crossing? By how far the one reaches over the other.
				a, b := segs[i].Tangent(segs[i].frac(q)), segs[j].Tangent(segs[j].frac(q))
				if depth*math.Abs(a.Cross(b)) > 5*Snap {
					t.Fatalf("%s: loop %d edge %d crosses loop %d edge %d at %v", what, refs[i].l, refs[i].e, refs[j].l, refs[j].e, q)
				}
			}
		}
	}
}

// nearestOther is the distance from p to all edges but edge k of loop i.
func (r Region) nearestOther(p Point, i, k int) float64 {
	d := math.Inf(1)
	for a, l := range r {
		for b := range l {
			if a != i || b != k {
				d = math.Min(d, l.Edge(b).Dist(p))
			}
		}
	}
	return d
}

func square(s float64) Loop { return Rect(Box{Pt(0, 0), Pt(s, s)}) }

// equilateral has its base on the x axis.
func equilateral(side float64) Loop {
	return Polygon(Pt(0, 0), Pt(side, 0), Pt(side/2, side*math.Sqrt(3)/2))
}

func TestAreasAndLengthsAreThoseOfClosedForms(t *testing.T) {
	one := func(r Region) Loop {
		t.Helper()
		if len(r) != 1 {
			t.Fatalf("%d loops, want 1: %v", len(r), r)
		}
		wellFormed(t, "", r)
		return r[0]
	}
	slot := Loop{{Pt(-4, -1), 0}, {Pt(4, -1), 1}, {Pt(4, 1), 0}, {Pt(-4, 1), 1}}
	lattice := one(equilateral(6).Inset(0.4))
	rounded := one(Region{equilateral(6)}.Open(0.5))
	steiner := one(square(10).Outset(1))
	for _, c := range []struct {
		what           string
		got, want, tol float64
		source         string
	}{
		{"slot 2 x 10, area", slot.Area(), 19.14159265, 1e-8, "w l - 0.215 w^2, catalogue perfom.rs; exactly w l - (1 - pi/4) w^2"},
		{"triangle lattice a 6, strut 0.8: side", lattice.Edge(0).Len(), 4.61435935, 1e-7, "closed form a - sqrt3 w"},
		{"triangle lattice a 6, strut 0.8: open fraction", lattice.Area() / equilateral(6).Area(), 0.59145312, 1e-7, "closed form (1 - sqrt3 w/a)^2"},
		{"rounded triangle side 6, r 0.5: area", rounded.Area(), 15.07481733, 1e-7, "closed form A0 - r^2 (n tan(pi/n) - pi)"},
		{"rounded triangle side 6, r 0.5: perimeter", rounded.Len(), 15.94544023, 1e-7, "closed form P0 - 2 r (n tan(pi/n) - pi)"},
		{"square 10, r 2: area", Region{square(10)}.Open(2).Area(), 96.56637061, 1e-7, "the same closed form"},
		{"square 10, r 2: perimeter", Region{square(10)}.Open(2).Len(), 36.56637061, 1e-7, "the same closed form"},
		{"square 10, outset 1: area", steiner.Area(), 143.14159, 1e-5, "Steiner: A + P d + pi d^2"},
		{"square 10, outset 1: perimeter", steiner.Len(), 46.28319, 1e-5, "Steiner: P + 2 pi d"},
		{"3-4-5 triangle, inset 0.25: area", one(Polygon(Pt(0, 0), Pt(4, 0), Pt(0, 3)).Inset(0.25)).Area(), 3.375, 1e-12, "similar triangle, (1 - d/r_in)^2 with r_in 1"},
		{"shoelace", Polygon(Pt(4, 6), Pt(4, -4), Pt(8, -4), Pt(8, -8), Pt(-4, -8), Pt(-4, 6)).Area(), -128, 1e-12, "ezdxf tests, polygon of area 128, which runs clockwise"},
		{"segment, chord 10, bulge 0.5", Loop{{Pt(0, 0), 0.5}, {Pt(10, 0), 0}}.Area(), 17.47246945, 1e-8, "R^2/2 (s - sin s), computed"},
	} {
		nearly(t, c.what+" ("+c.source+")", c.got, c.want, c.tol)
	}
}

func TestBulgesAreThoseOfEzdxf(t *testing.T) {
	// ezdxf tests, test_601_bulge.py: bulge = tan(included angle / 4).
	for _, c := range []struct{ deg, bulge float64 }{{180, 1}, {106.26020471, 0.5}, {56.14497387, 0.25}, {90, 0.414213562}} {
		nearly(t, "included angle", Edge{Pt(0, 0), Pt(1, 0), c.bulge}.Sweep()*180/math.Pi, c.deg, 1e-7)
	}
	e := Edge{Pt(0, 0), Pt(10, 0), 0.5}
	nearly(t, "chord 10, bulge 0.5: radius", e.Radius(), 6.25, 1e-9)
	h := Edge{Pt(0, 0), Pt(1, 0), 1}
	nearly(t, "radius", h.Radius(), 0.5, 1e-9)
	nearly(t, "centre", h.Centre().Dist(Pt(0.5, 0)), 0, 1e-9)
	nearly(t, "middle", h.Mid().Dist(Pt(0.5, -0.5)), 0, 1e-9)
}

func TestOutsetsOfConvexLoopsFollowSteiner(t *testing.T) {
	r := seeded(t)
	for range 300 {
		l := convex(r, 2+r.IntN(9), true)
		if len(l) == 2 && l.Area() < 1e-3 {
			continue
		}
		d := 0.01 + 2*r.Float64()
		for name, o := range map[string]Region{
			"shifted": l.Outset(d),
			"general": offsetGeneral(Region{l}, d),
			"in two":  l.Outset(d / 3)[0].Outset(d - d/3),
		} {
			if len(o) != 1 {
				t.Fatalf("%s: %d loops from %#v by %g", name, len(o), l, d)
			}
			wellFormed(t, name, o)
			// J. Steiner, "Ueber parallele Flaechen", 1840.
			nearly(t, name+" area", o.Area(), l.Area()+l.Len()*d+math.Pi*d*d, 1e-6*(1+l.Area()))
			nearly(t, name+" length", o.Len(), l.Len()+2*math.Pi*d, 1e-6*(1+l.Len()))
		}
	}
}

// offsetGeneral is the offset without the short way of convex loops.
func offsetGeneral(r Region, d float64) Region { return offsetGroup(nil, r, d) }

// insideBy is the slow obvious offset: whether p is in it, if that is clear.
func insideBy(r Region, p Point, d float64) (in, sure bool) {
	g := r.Nearest(p)
	if math.Abs(g.D-math.Abs(d)) < 1e-5 {
		return false, false
	}
	if d < 0 {
		return r.Contains(p) && g.D > -d, true
	}
	return r.Contains(p) || g.D < d, true
}

func checkOffset(t testing.TB, what string, r Region, d float64, o Region, random func() float64) {
	t.Helper()
	wellFormed(t, fmt.Sprintf("%s by %g: %#v", what, d, r), o)
	b := r.Bounds().Grow(math.Max(0, d) + 0.2)
	for range 60 {
		p := Pt(b.Min.X+random()*b.W(), b.Min.Y+random()*b.H())
		if want, sure := insideBy(r, p, d); sure && o.Contains(p) != want {
			t.Fatalf("%s: offset of %#v by %g: %v is inside: %v, want %v; result %v", what, r, d, p, !want, want, o)
		}
	}
	for _, l := range o {
		for i := range l {
			for _, f := range [3]float64{0, 0.3, 0.7} {
				if g := r.Nearest(l.Edge(i).At(f)).D; math.Abs(g-math.Abs(d)) > 5*Snap {
					t.Fatalf("%s: offset of %#v by %g: edge %d of the result is %g away", what, r, d, i, g)
				}
			}
		}
	}
}

func TestAnOffsetHoldsThePointsOfItsDistance(t *testing.T) {
	r := seeded(t)
	for range 400 {
		l := star(r, 3+r.IntN(10), true)
		reg := Region{l}
		if in := l.Inset(0.8); len(in) > 0 && r.IntN(2) == 0 {
			reg = append(reg, in[0].Reverse()) // a frame
		}
		d := r.NormFloat64() * 0.6
		checkOffset(t, "star", reg, d, reg.Offset(d), r.Float64)
	}
}

func TestInsetsVanishPastTheInradius(t *testing.T) {
	r := seeded(t)
	for range 300 {
		// Around a circle of radius 1 every polygon of tangents has inradius 1.
		n := 3 + r.IntN(8)
		var l Loop
		as := make([]float64, n)
		for i := range as {
			as[i] = 2 * math.Pi * (float64(i) + 0.45*r.Float64()) / float64(n)
		}
		for i := range as {
			next := as[(i+1)%n]
			if i == n-1 {
				next += 2 * math.Pi
			}
			h := (next - as[i]) / 2
			s, c := math.Sincos(as[i] + h)
			l = append(l, Vertex{Point: Pt(c/math.Cos(h), s/math.Cos(h))})
		}
		for _, d := range []float64{1, 1 + 1e-9, 1 + 1e-7, 1 + 1e-5, 1.01, 1.5, 3, 100} {
			if o := l.Inset(d); len(o) != 0 {
				t.Fatalf("inset by %g of %#v, of inradius 1, leaves %v", d, l, o)
			}
		}
		for _, d := range []float64{0.5, 0.99, 1 - 1e-4} {
			if o := l.Inset(d); len(o) != 1 {
				t.Fatalf("inset by %g of %#v, of inradius 1, leaves %v", d, l, o)
			} else {
				nearly(t, "similar", o.Area(), l.Area()*(1-d)*(1-d), 1e-9)
			}
		}
	}
}

func TestOpeningIsIdempotentAndIncluded(t *testing.T) {
	r := seeded(t)
	for range 150 {
		l := star(r, 3+r.IntN(9), true)
		d := 0.05 + 0.6*r.Float64()
		o := Region{l}.Open(d)
		wellFormed(t, "open", o)
		if o.Area() > l.Area()+1e-6 {
			t.Fatalf("opened by %g: %#v grows", d, l)
		}
		for _, m := range o {
			for i := range m {
				e := m.Edge(i)
				if p := e.At(0.5); !l.Contains(p) && l.Nearest(p).D > 3*Snap {
					t.Fatalf("opened by %g: %#v: %v is outside by %g", d, l, p, l.Nearest(p).D)
				}
				prev := m.Edge((i + len(m) - 1) % len(m))
				// Points that are a Snap off turn a short edge by more.
				short := math.Min(e.Len(), prev.Len())
				if turn := prev.Tangent(1).Cross(e.Tangent(0)); short > 1e-4 && turn > 1e-4+4*Snap/short {
					t.Fatalf("opened by %g: %#v: corner of %g at %v", d, l, turn, e.A)
				}
			}
		}
		again := o.Open(d)
		nearly(t, "opened twice", again.Area(), o.Area(), 1e-5)
		if t.Failed() {
			t.Fatalf("loop %#v by %g", l, d)
		}
	}
}

func TestOffsetsOfTrickyShapes(t *testing.T) {
	r := seeded(t)
	strip := Rect(Box{Pt(0, 0), Pt(10, 2)})
	slot := Loop{{Pt(-4, -1), 0}, {Pt(4, -1), 1}, {Pt(4, 1), 0}, {Pt(-4, 1), 1}}
	vesica := Loop{{Pt(0, -1), math.Tan(math.Pi / 8)}, {Pt(0, 1), math.Tan(math.Pi / 8)}}
	dumbbell := Polygon(Pt(0, 0), Pt(4, 0), Pt(4, 1), Pt(8, 1), Pt(8, 0), Pt(12, 0), Pt(12, 4), Pt(8, 4), Pt(8, 2), Pt(4, 2), Pt(4, 4), Pt(0, 4))
	bay := Polygon(Pt(0, 0), Pt(10, 0), Pt(10, 10), Pt(5.5, 10), Pt(5.5, 9), Pt(8, 9), Pt(8, 2), Pt(2, 2), Pt(2, 9), Pt(4.5, 9), Pt(4.5, 10), Pt(0, 10))
	crescent := Loop{{Pt(0, -2), 1}, {Pt(0, 2), -0.5}}
	ring := Region{Circle(Pt(0, 0), 3), Circle(Pt(0, 0), 2).Reverse()}
	for _, c := range []struct {
		what  string
		r     Region
		d     float64
		loops int
	}{
		{"strip by half its width", Region{strip}, -1, 0},
		{"strip by nearly half", Region{strip}, -1 + 1e-3, 1},
		{"strip by half less a hair", Region{strip}, -1 + 1e-8, 0},
		{"slot by half its width", Region{slot}, -1, 0},
		{"slot by less", Region{slot}, -0.999, 1},
		{"slot by more", Region{slot}, -1.2, 0},
		{"circle by its radius", Region{Circle(Pt(1, 1), 2)}, -2, 0},
		{"circle by nearly its radius", Region{Circle(Pt(1, 1), 2)}, -1.9999, 1},
		{"circle past its radius", Region{Circle(Pt(1, 1), 2)}, -3, 0},
		{"vesica", Region{vesica}, -0.2, 1},
		{"vesica by its half width", Region{vesica}, -(math.Sqrt2 - 1), 0},
		{"dumbbell parts", Region{dumbbell}, -0.6, 2},
		{"dumbbell by half its neck", Region{dumbbell}, -0.5, 2},
		{"dumbbell holds", Region{dumbbell}, -0.4, 1},
		{"bay closes", Region{bay}, 0.6, 2},
		{"bay closes just", Region{bay}, 0.5, 2},
		{"bay stays open", Region{bay}, 0.4, 1},
		{"bay fills", Region{bay}, 5, 1},
		{"crescent in", Region{crescent}, -0.1, 1},
		{"crescent out", Region{crescent}, 1, 1},
		{"ring by half its width", ring, -0.5, 0},
		{"ring by less", ring, -0.45, 2},
		{"ring fills", ring, 2, 1},
		{"ring nearly fills", ring, 1.99, 2},
		{"ring of nearly equal centres", Region{Circle(Pt(0, 0), 3), Circle(Pt(1e-8, 0), 2).Reverse()}, -0.5, 0},
		{"ring off centre", Region{Circle(Pt(0, 0), 3), Circle(Pt(0.5, 0), 2).Reverse()}, -0.5, 1},
		{"two squares grow together", Region{square(2), square(2).Move(Pt(3, 0))}, 0.6, 1},
		{"two squares just touch", Region{square(2), square(2).Move(Pt(3, 0))}, 0.5, 1},
	} {
		o := c.r.Offset(c.d)
		if len(o) != c.loops {
			t.Errorf("%s: %d loops, want %d: %v", c.what, len(o), c.loops, o)
			continue
		}
		checkOffset(t, c.what, c.r, c.d, o, r.Float64)
		for _, turn := range []float64{0.3, 1.9, 4} {
			var m Region
			for _, l := range c.r {
				m = append(m, l.Turn(turn).Move(Pt(31, -17)))
			}
			o2 := m.Offset(c.d)
			if len(o2) != c.loops {
				t.Errorf("%s turned by %g: %d loops, want %d: %v", c.what, turn, len(o2), c.loops, o2)
			}
			nearly(t, c.what+" turned", o2.Area(), o.Area(), 1e-5)
		}
	}
}

func BenchmarkInsetRoundedTriangle(b *testing.B) {
	l := roundedTriangle(6, 0.5)
	b.ReportAllocs()
	for range b.N {
		l.Inset(0.2)
	}
}

func BenchmarkInsetAndRoundTriangle(b *testing.B) {
	l := equilateral(6)
	b.ReportAllocs()
	for range b.N {
		l.Inset(0.4 + 0.3)[0].Outset(0.3)
	}
}

func BenchmarkInsetRoundedTriangleGeneral(b *testing.B) {
	l := Region{roundedTriangle(6, 0.5)}
	b.ReportAllocs()
	for range b.N {
		offsetGeneral(l, -0.2)
	}
}

// petal is a curved opening of eight arcs, two of them turning inward.
func petal() Loop {
	return Loop{
		{Pt(0, -3), 0.12}, {Pt(1, -1), 0.2}, {Pt(1.1, 0.8), 0.15}, {Pt(0.5, 2), -0.2},
		{Pt(0, 3), -0.2}, {Pt(-0.5, 2), 0.15}, {Pt(-1.1, 0.8), 0.2}, {Pt(-1, -1), 0.12},
	}
}

func BenchmarkInsetPetal(b *testing.B) {
	l := petal()
	b.ReportAllocs()
	for range b.N {
		l.Inset(0.2)
	}
}
