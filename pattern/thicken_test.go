package pattern

import (
	"math"
	"testing"

	"fretband/unroll/plane"
)

// A horseshoe: a ring of radii 3 and 5 whose mouth is as wide as the rule lacks. The
// metal between its horns is a neck within the opening's own edge. It is widened to
// the rule, evenly from both horns, and no more of the opening is lost than the strip
// that the neck lacks along the horns' length.
func TestANeckWithinOneEdgeIsWidenedEvenly(t *testing.T) {
	const rule = 1.2
	for _, mouth := range []float64{0.3, 0.8, 1.1} {
		m := mouth / 2
		x3, x5 := math.Sqrt(9-m*m), math.Sqrt(25-m*m)
		a3, a5 := 2*math.Pi-2*math.Asin(m/3), 2*math.Pi-2*math.Asin(m/5)
		horseshoe := plane.Loop{
			{Point: plane.Pt(x3, m)}, {Point: plane.Pt(x5, m), Bulge: math.Tan(a5 / 4)},
			{Point: plane.Pt(x5, -m)}, {Point: plane.Pt(x3, -m), Bulge: -math.Tan(a3 / 4)},
		}
		if err := horseshoe.Check(); err != nil {
			t.Fatal(err)
		}
		ground := plane.Region{plane.Rect(plane.Box{Min: plane.Pt(-20, -20), Max: plane.Pt(20, 20)})}
		made, dropped := Trim([]plane.Loop{horseshoe}, ground, Rules{Bridge: rule, Corner: 0.2, Smallest: 0.5})
		if len(made) != 1 || len(dropped) != 0 {
			t.Fatalf("mouth %g: %d made, dropped %v", mouth, len(made), dropped)
		}
		l := made[0].Loop
		// The narrowest metal of the mouth, by brute force between the two horns.
		least := math.Inf(1)
		var up, down []plane.Point
		for _, p := range l.Flatten(1e-4) {
			if p.X > 2.5 && math.Abs(p.Y) < 1.5 {
				if p.Y > 0 {
					up = append(up, p)
				} else {
					down = append(down, p)
				}
			}
		}
		for _, p := range up {
			for _, q := range down {
				least = math.Min(least, p.Dist(q))
			}
		}
		if least < rule-1e-4 || least > rule+1e-3 {
			t.Errorf("mouth %g: the neck is %.5f mm wide, the rule is %g", mouth, least, rule)
		}
		if n := l.Necks(rule - touch); len(n) > 0 {
			t.Errorf("mouth %g: a neck of %g is left", mouth, n[0].D)
		}
		if b := l.Bounds(); math.Abs(b.Min.Y+b.Max.Y) > 1e-3 {
			t.Errorf("mouth %g: uneven: %v", mouth, b)
		}
		lost := horseshoe.Area() - l.Area()
		// The strips, and corners rounded.
		if most := (rule-mouth)*2*1.15 + 4*0.2*0.2 + 0.1; lost > most || lost < (rule-mouth)*1.8 {
			t.Errorf("mouth %g: %.3f mm2 are lost, at most %.3f need be", mouth, lost, most)
		}
		if r, err := plane.Not(plane.Region{l}, plane.Region{horseshoe}); err != nil || r.Area() > 1e-6 {
			t.Errorf("mouth %g: it reaches outside its loop", mouth)
		}
	}
}
