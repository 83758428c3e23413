package plane

import (
	"math"
	"testing"
)

func TestTheImageOfALoopUnderAMapIsWithinTheTolerance(t *testing.T) {
	r := seeded(t)
	// Rolled onto a cone's development: x to an angle, y to a radius.
	roll := func(p Point) Point {
		s, c := math.Sincos(p.X / 40)
		return Pt((40+p.Y)*s, (40+p.Y)*c)
	}
	exact := Map(func(p Point) (q, dx, dy Point) {
		s, c := math.Sincos(p.X / 40)
		k := (40 + p.Y) / 40
		return Pt((40+p.Y)*s, (40+p.Y)*c), Pt(k*c, -k*s), Pt(s, c)
	})
	for range 40 {
		l := star(r, 3+r.IntN(8), true)
		for name, m := range map[string]Map{"exact": exact, "steps": steps(roll, 1e-3)} {
			got := l.Map(m, 1e-3)
			if err := got.Check(); err != nil {
				t.Fatalf("%s: %v of %#v", name, err, l)
			}
			for i := range l {
				for f := 0.0; f < 1; f += 0.02 {
					if g := got.Nearest(roll(l.Edge(i).At(f))); g.D > 1e-3*(1+1e-6) {
						t.Fatalf("%s: %g from the image of %#v", name, g.D, l)
					}
				}
			}
		}
	}
	// A rectangle rolled up is two arcs and two lines, exactly.
	ring := Rect(Box{Pt(-30, -5), Pt(30, 5)}).Map(exact, 1e-3)
	if len(ring) != 4 {
		t.Errorf("rectangle rolled up: %d edges, want 4", len(ring))
	}
	nearly(t, "its area", math.Abs(ring.Area()), (45*45-35*35)/2.0*60/40, 1e-9)
}

// steps returns the map of f with its derivative taken from differences over
// 2h, mm: good to h^2 times the third derivative.
func steps(f func(p Point) Point, h float64) Map {
	return func(p Point) (q, dx, dy Point) {
		x, y := Point{h, 0}, Point{0, h}
		dx = f(p.Add(x)).Sub(f(p.Sub(x))).Mul(1 / (2 * h))
		dy = f(p.Add(y)).Sub(f(p.Sub(y))).Mul(1 / (2 * h))
		return f(p), dx, dy
	}
}
