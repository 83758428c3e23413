package plane

import (
	"math"
	"testing"
)

func TestNonsenseGivesErrorsOrNothingButNoPanic(t *testing.T) {
	r := seeded(t)
	odd := []float64{0, 1, -1, 1e-300, 1e300, -1e300, math.Inf(1), math.Inf(-1), math.NaN(), 1e5, -1e5, 1e9, 1e-7, 1e-9, math.MaxFloat64, 5e-324}
	number := func() float64 {
		if r.IntN(2) == 0 {
			return odd[r.IntN(len(odd))]
		}
		return r.NormFloat64()
	}
	loop := func() Loop {
		l := make(Loop, r.IntN(6))
		for i := range l {
			l[i] = Vertex{Pt(number(), number()), number()}
			if i > 0 && r.IntN(4) == 0 {
				l[i].Point = l[i-1].Point
			}
		}
		return l
	}
	for i := range 3000 {
		l, m := loop(), loop()
		d := number()
		finite := true
		for _, v := range l {
			finite = finite && v.Finite() && !math.IsNaN(v.Bulge) && !math.IsInf(v.Bulge, 0)
		}
		_, err := And(Region{l}, Region{m})
		_, err2 := Xor(Region{l}, Region{m, l})
		if !finite && len(l) > 1 && (err == nil || err2 == nil) && l.Check() == nil {
			t.Errorf("%v: no error", l)
		}
		_ = l.Check()
		_ = l.Tidy()
		_ = l.Inset(d)
		_ = l.Outset(d)
		_ = Region{l, m}.Offset(d)
		_, _ = Region{l}.OffsetMitre(d, 2)
		_ = l.Necks(d)
		_ = Nearest(l, m)
		_ = Pairs([]Loop{l, m, l}, d)
		_, _ = Merge([]Loop{l, m})
		_ = l.Winding(Pt(number(), number()))
		_ = l.Nearest(Pt(number(), number()))
		_ = l.Centroid()
		if len(l) > 1 && len(m) > 1 {
			_ = Crossings(l.Edge(0), m.Edge(1))
			if i%20 == 0 { // of huge arcs these are many points
				_ = l.Edge(0).Flatten(10)
			}
		}
		c := func(x float64) (Point, Point) { return Pt(x*number(), number()), Pt(number(), number()) }
		if r.IntN(1500) == 0 {
			_ = FitArcs(c, 0, 1, 0.1)
		}
	}
	for _, f := range []func(a, b Region) (Region, error){And, Or, Not, Xor} {
		for _, x := range []Region{nil, {}, {nil}, {square(1)}} {
			if _, err := f(x, nil); err != nil {
				t.Error(err)
			}
			if _, err := f(nil, x); err != nil {
				t.Error(err)
			}
		}
	}
}
