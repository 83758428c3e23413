package plane

import (
	"math"
	"testing"
)

func TestMitredOutsetsOfPolygonsHaveTheAreaOfTheClosedForm(t *testing.T) {
	r := seeded(t)
	// A convex polygon outset by d with sharp corners: A + P d + d^2 sum tan(turn/2).
	for range 60 {
		l := convex(r, 3+r.IntN(6), false)
		d := 0.05 + r.Float64()
		sum := 0.0
		for i := range l {
			a, b := l.Edge((i+len(l)-1)%len(l)), l.Edge(i)
			sum += math.Tan(math.Asin(a.Tangent(1).Cross(b.Tangent(0))) / 2)
			if a.Tangent(1).Dot(b.Tangent(0)) < 0 {
				sum = math.NaN() // sharper than a right angle: leave to the case below
			}
		}
		if math.IsNaN(sum) {
			continue
		}
		o := mitred(t, Region{l}, d, 10)
		if len(o) != 1 || len(o[0]) != len(l) {
			t.Fatalf("%#v by %g: %v", l, d, o)
		}
		nearly(t, "area", o.Area(), l.Area()+l.Len()*d+d*d*sum, 1e-5)
	}
	nearly(t, "square", mitred(t, Region{square(10)}, 1, 2).Area(), 144, 1e-6)
	nearly(t, "triangle", mitred(t, Region{equilateral(6)}, 1, 3)[0].Edge(0).Len(), 6+2*math.Sqrt(3), 1e-6)
	// Cut at the crown of the round join: an octagon about a square.
	nearly(t, "square cut", mitred(t, Region{square(10)}, 1, 1).Area(), 144-4*math.Pow(math.Sqrt2-1, 2), 1e-6)
}

func TestAMitredInsetOfAFrameSharpensTheCornersOfTheMetal(t *testing.T) {
	// A notch: the inset of an L goes round its inner corner with an arc, or sharp.
	l := Polygon(Pt(0, 0), Pt(6, 0), Pt(6, 2), Pt(2, 2), Pt(2, 6), Pt(0, 6))
	round, sharp := l.Inset(0.5), mitred(t, Region{l}, -0.5, 4)
	nearly(t, "difference", round.Area()-sharp.Area(), 0.25*(1-math.Pi/4), 1e-6)
	wellFormed(t, "L", sharp)
}

func mitred(t testing.TB, r Region, d, limit float64) Region {
	t.Helper()
	o, err := r.OffsetMitre(d, limit)
	if err != nil {
		t.Fatalf("%#v by %g: %v", r, d, err)
	}
	return o
}

// inMitre is the definition: whether p lies in the tip at a corner, beyond the ends
// of both edges, nearer than d to both tangents and no farther out than the limit.
func inMitre(l Loop, p Point, d, limit float64) bool {
	for i := range l {
		in, out := l.Edge((i+len(l)-1)%len(l)).Tangent(1), l.Edge(i).Tangent(0)
		if in.Cross(out)*d <= 0 {
			continue
		}
		v := p.Sub(l[i].Point)
		m := math.Copysign(1, d)
		half := in.Sub(out).Unit() // out of the corner
		if v.Dot(in) >= 0 && v.Dot(out) <= 0 && m*v.Cross(in) <= math.Abs(d) && m*v.Cross(out) <= math.Abs(d) && v.Dot(half) <= limit*math.Abs(d) {
			return true
		}
	}
	return false
}

func TestEveryCornerGetsItsMitre(t *testing.T) {
	r := seeded(t)
	spikes := []Loop{
		// A thorn of one degree, and corners between arcs.
		Polygon(Pt(0, 0), Pt(4, 0), Pt(4, 1), Pt(9, 1.05), Pt(4, 1.1), Pt(4, 3), Pt(0, 3)),
		{{Pt(0, 0), 0}, {Pt(4, 0), math.Tan(math.Pi / 8)}, {Pt(2, 2), -math.Tan(math.Pi / 8)}, {Pt(0, 4), 0}},
	}
	for round := range 200 {
		l := star(r, 3+r.IntN(7), round%2 == 0)
		if round < len(spikes) {
			l = spikes[round].CCW()
			if err := l.Check(); err != nil {
				t.Fatal(err)
			}
		}
		d := r.NormFloat64() * 0.4
		if math.Abs(d) < 0.01 {
			d = 0.1
		}
		limit := 1 + 3*r.Float64()
		o := mitred(t, Region{l}, d, limit)
		wellFormed(t, "mitre", o)
		b := l.Bounds().Grow(2)
		for range 400 {
			p := Pt(b.Min.X+r.Float64()*b.W(), b.Min.Y+r.Float64()*b.H())
			if r.IntN(2) == 0 { // about a corner
				p = l[r.IntN(len(l))].Add(Pt(r.NormFloat64(), r.NormFloat64()).Mul(2 * d))
			}
			want, sure := insideBy(Region{l}, p, d)
			if !sure {
				continue
			}
			// What the tips of d and of a hair more and less agree on.
			tip := inMitre(l, p, d, limit)
			if tip != inMitre(l, p, d*(1+1e-5), limit) || tip != inMitre(l, p, d*(1-1e-5), limit) {
				continue
			}
			if tip {
				want = d > 0
			}
			if o.Contains(p) != want {
				t.Fatalf("%#v by %g, limit %g: %v is inside: %v", l, d, limit, p, !want)
			}
		}
	}
}

func TestTheMitreOfACuspIsCutSquare(t *testing.T) {
	// A line along x and an arc of radius 2 that leaves its end straight back.
	cusp := Loop{{Pt(0, 0), 0}, {Pt(4, 0), 1 - math.Sqrt2}, {Pt(2, 2), 0}, {Pt(0, 3), 0}}
	for _, l := range []Loop{cusp, cusp.MirrorY().Turn(1).Turn(-1)} {
		o := mitred(t, Region{l.CCW()}, 0.3, 2)
		wellFormed(t, "cusp", o)
		for _, c := range []struct {
			p  Point
			in bool
		}{{Pt(4.599, 0.299), true}, {Pt(4.599, -0.299), true}, {Pt(4.601, 0), false}, {Pt(4.5, 0.301), false}, {Pt(4.5, -0.301), false}} {
			if o.Contains(c.p) != c.in {
				t.Errorf("%v is inside: %v", c.p, !c.in)
			}
		}
	}
	// The same of an inset, at a cusp that points into the region.
	frame := Region{Rect(Box{Pt(-2, -2), Pt(8, 5)}), cusp.Reverse()}
	in := mitred(t, frame, -0.3, 2)
	wellFormed(t, "frame", in)
	if in.Contains(Pt(4.599, 0.299)) || !in.Contains(Pt(4.601, 0)) {
		t.Error("the cusp of the metal is not cut square")
	}
}
