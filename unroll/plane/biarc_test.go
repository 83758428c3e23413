package plane

import (
	"fmt"
	"math"
	"testing"
)

func ellipse(a, b float64) Curve {
	return func(t float64) (Point, Point) {
		s, c := math.Sincos(t)
		return Pt(a*c, b*s), Pt(-a*s, b*c)
	}
}

func cubic(p [4]Point) Curve {
	return func(t float64) (Point, Point) {
		u := 1 - t
		q := p[0].Mul(u * u * u).Add(p[1].Mul(3 * u * u * t)).Add(p[2].Mul(3 * u * t * t)).Add(p[3].Mul(t * t * t))
		d := p[1].Sub(p[0]).Mul(u * u).Add(p[2].Sub(p[1]).Mul(2 * u * t)).Add(p[3].Sub(p[2]).Mul(t * t))
		return q, d
	}
}

// checkFit holds a chain to its promises: on the curve's ends, joined, without
// corners, and never farther from a dense sampling of the curve than tol, nor
// the curve from it.
func checkFit(t testing.TB, what string, c Curve, t0, t1, tol float64, es []Edge) {
	t.Helper()
	if len(es) == 0 {
		t.Fatalf("%s: nothing", what)
	}
	p0, d0 := c(t0)
	p1, d1 := c(t1)
	if es[0].A != p0 || es[len(es)-1].B != p1 {
		t.Errorf("%s: does not start or end on the curve", what)
	}
	nearly(t, what+": first direction", es[0].Tangent(0).Cross(d0.Unit()), 0, 1e-6)
	nearly(t, what+": last direction", es[len(es)-1].Tangent(1).Cross(d1.Unit()), 0, 1e-6)
	for i := 1; i < len(es); i++ {
		if es[i].A != es[i-1].B {
			t.Errorf("%s: edge %d does not start where the one before ends", what, i)
		}
		if x := math.Abs(es[i-1].Tangent(1).Cross(es[i].Tangent(0))); x > 1e-6 {
			t.Errorf("%s: corner of sine %g before edge %d", what, x, i)
		}
	}
	const n = 4000
	worst := 0.0
	for i := range n + 1 {
		p, _ := c(t0 + (t1-t0)*float64(i)/n)
		d := math.Inf(1)
		for _, e := range es {
			d = math.Min(d, e.Dist(p))
		}
		worst = math.Max(worst, d)
	}
	if worst > tol*(1+1e-6)+1e-12 {
		t.Errorf("%s: %g from the curve, allowed %g", what, worst, tol)
	}
}

func TestArcsFollowCurvesWithinTheTolerance(t *testing.T) {
	for _, c := range []struct {
		what   string
		c      Curve
		t0, t1 float64
		tol    float64
		most   int
	}{
		{"line", func(t float64) (Point, Point) { return Pt(t, 2*t+1), Pt(1, 2) }, -3, 8, 1e-3, 1},
		{"circle", ellipse(7, 7), 0, 2 * math.Pi, 1e-3, 3},
		{"half circle", ellipse(7, 7), 1, 1 + math.Pi, 1e-9, 2},
		{"bangle oval", ellipse(30, 20), 0, 2 * math.Pi, 1e-3, 60},
		{"flat ellipse", ellipse(30, 2), 0, 2 * math.Pi, 1e-3, 70},
		{"fine ellipse", ellipse(30, 20), 0, 2 * math.Pi, 1e-6, 500},
		{"cubic", cubic([4]Point{{0, 0}, {1, 3}, {4, -3}, {5, 1}}), 0, 1, 1e-3, 24},
		{"cubic with a loop", cubic([4]Point{{0, 0}, {6, 4}, {-2, 4}, {3, 0}}), 0, 1, 1e-3, 32},
		{"sine", func(t float64) (Point, Point) { return Pt(t, math.Sin(t)), Pt(1, math.Cos(t)) }, 0, 12, 1e-3, 60},
		{"spiral", func(t float64) (Point, Point) {
			s, c := math.Sincos(t)
			return Pt(t*c, t*s), Pt(c-t*s, s+t*c)
		}, 1, 20, 1e-3, 80},
	} {
		es := FitArcs(c.c, c.t0, c.t1, c.tol)
		checkFit(t, c.what, c.c, c.t0, c.t1, c.tol, es)
		if len(es) > c.most {
			t.Errorf("%s: %d edges, want at most %d", c.what, len(es), c.most)
		}
		t.Logf("%s: %d edges at %g", c.what, len(es), c.tol)
	}
}

// Neither a tolerance of 0 nor a piece of curve without length can be fitted.
func TestNothingIsFittedWithoutATolerance(t *testing.T) {
	for _, c := range []struct{ t0, t1, tol float64 }{{0, 1, 0}, {0, 1, -1}, {0, 1, math.NaN()}, {1, 1, 1e-3}, {1, 0, 1e-3}, {math.NaN(), 1, 1e-3}} {
		if es := FitArcs(ellipse(30, 20), c.t0, c.t1, c.tol); es != nil {
			t.Errorf("from %g to %g within %g: %v", c.t0, c.t1, c.tol, es)
		}
	}
}

func TestRandomCubicsAreFitted(t *testing.T) {
	r := seeded(t)
	for range 100 {
		var p [4]Point
		for i := range p {
			p[i] = Pt(r.Float64()*10, r.Float64()*10)
		}
		// Straight enough for the curve to have no cusp.
		p[1] = p[0].Add(p[1].Sub(p[0]).Mul(0.4))
		p[2] = p[3].Add(p[2].Sub(p[3]).Mul(0.4))
		c := cubic(p)
		slow := false
		for i := range 101 {
			if _, d := c(float64(i) / 100); d.Len() < 0.3 {
				slow = true
			}
		}
		if slow {
			continue
		}
		checkFit(t, "cubic", c, 0, 1, 1e-3, FitArcs(c, 0, 1, 1e-3))
		if t.Failed() {
			t.Fatalf("%#v", p)
		}
	}
}

func TestTheAreaOfAFittedEllipseIsPiAB(t *testing.T) {
	l := fitLoop(ellipse(30, 20), 0, 2*math.Pi, 1e-4)
	if err := l.Check(); err != nil {
		t.Fatal(err)
	}
	nearly(t, "pi a b", l.Area(), math.Pi*30*20, 1e-4*l.Len())
}

// leastArcs returns how many arcs a smooth chain needs round an ellipse for a
// tolerance that goes to 0, if a piece h long of a curve whose curvature changes by
// k' per mm takes the tolerance stray*k'*(2h)^3: the integral of (stray 8
// k'/tol)^(1/3) along the curve.
func leastArcs(a, b, tol, stray float64) float64 {
	const n = 20000
	sum := 0.0
	for i := range n {
		s, c := math.Sincos(2 * math.Pi * (float64(i) + 0.5) / n)
		v := math.Hypot(a*s, b*c) // ds/dt; the curvature is ab/v^3
		change := 3 * a * b * math.Abs((a*a-b*b)*s*c) / math.Pow(v, 6)
		sum += math.Cbrt(change) * v * 2 * math.Pi / n
	}
	return sum * 2 * math.Cbrt(stray/tol)
}

func TestArcsAreNearlyAsFewAsCanBe(t *testing.T) {
	for _, c := range []struct {
		a, b, tol float64
		most      float64 // times the least
	}{
		{15, 10, 1e-3, 1.3}, {30, 20, 1e-3, 1.3}, {30, 20, 1e-4, 1.2}, {30, 20, 1e-6, 1.12}, {30, 20, 1e-8, 1.08}, {30, 2, 1e-6, 1.3},
	} {
		l := fitLoop(ellipse(c.a, c.b), 0, 2*math.Pi, c.tol)
		// The distance of a biarc, and of any chain, by the papers that FitArcs cites.
		biarcs, any := leastArcs(c.a, c.b, c.tol, biarcStray), leastArcs(c.a, c.b, c.tol, chainStray)
		t.Logf("%g by %g within %g: %d arcs; by the formula %.1f, in the curve's directions %.1f", c.a, c.b, c.tol, len(l), any, biarcs)
		if n := float64(len(l)); n > c.most*any || n > biarcs && c.a < 10*c.b {
			t.Errorf("%g by %g within %g: %d arcs, more than %.2f times %.1f", c.a, c.b, c.tol, len(l), c.most, any)
		}
		if err := l.Check(); err != nil {
			t.Error(err)
		}
	}
}

func TestTheFitOfASymmetricCurveIsSymmetric(t *testing.T) {
	same := func(what string, a, b Loop) {
		t.Helper()
		for _, v := range a {
			near := math.Inf(1)
			for _, w := range b {
				near = math.Min(near, v.Dist(w.Point))
			}
			if near > Snap/10 {
				t.Errorf("%s: the vertex at (%.6f, %.6f) has no mirror image", what, v.X, v.Y)
				return
			}
		}
	}
	for _, s := range [][2]float64{{15, 10}, {30, 20}, {3, 0.5}, {10, 9.9}, {1, 2}} {
		for _, tol := range []float64{1e-2, 1e-3, 1e-5} {
			l := fitLoop(ellipse(s[0], s[1]), 0, 2*math.Pi, tol)
			what := fmt.Sprintf("ellipse of %v within %g", s, tol)
			same(what, l, l.MirrorX())
			same(what, l, l.MirrorY())
		}
	}
	open := func(c Curve, t0, t1 float64) (l Loop) {
		for _, e := range FitArcs(c, t0, t1, 1e-3) {
			l = append(l, Vertex{e.A, e.Bulge}, Vertex{e.B, 0})
		}
		return l
	}
	arch := open(cubic([4]Point{{-4, 0}, {-2, 5}, {2, 5}, {4, 0}}), 0, 1)
	same("arch", arch, arch.MirrorX())
	wave := open(func(t float64) (Point, Point) { return Pt(t, 3*math.Cos(t)), Pt(1, -3*math.Sin(t)) }, -7, 7)
	same("wave", wave, wave.MirrorX())
}

func BenchmarkFitCubic(b *testing.B) {
	c := cubic([4]Point{{0, 0}, {1, 3}, {4, -3}, {5, 1}})
	for range b.N {
		FitArcs(c, 0, 1, FitTolerance)
	}
}

func BenchmarkFitGentle(b *testing.B) {
	c := cubic([4]Point{{0, 0}, {1, 0.2}, {2, 0.2}, {3, 0.1}})
	for range b.N {
		FitArcs(c, 0, 1, FitTolerance)
	}
}

func BenchmarkFitEllipse(b *testing.B) {
	b.ReportAllocs()
	for range b.N {
		fitLoop(ellipse(30, 20), 0, 2*math.Pi, FitTolerance)
	}
}

// fitLoop fits a closed curve, whose end is its start.
func fitLoop(c Curve, t0, t1, tol float64) Loop {
	return FitArcs(c, t0, t1, tol).Loop().merge(sameCurve)
}
