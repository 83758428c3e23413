package pattern

import (
	"math"
	"math/rand"
	"testing"

	"fretband/unroll/plane"
)

func TestOpeningsLaidAnyhowKeepTheRules(t *testing.T) {
	ground := plane.Region{plane.Rect(plane.Box{Min: plane.Pt(-20, -10), Max: plane.Pt(20, 10)})}
	total := 0
	for seed := range 25 {
		rng := rand.New(rand.NewSource(int64(seed)))
		var loops []plane.Loop
		for range 12 {
			n := 3 + rng.Intn(5)
			var l plane.Loop
			for i := range n {
				a := 2 * math.Pi * (float64(i) + 0.5*rng.Float64()) / float64(n)
				r := 1.5 + 3*rng.Float64()
				l = append(l, plane.Vertex{Point: plane.Pt(r*math.Cos(a), r*math.Sin(a)), Bulge: 0.3*rng.Float64() - 0.1})
			}
			if l.Check() == nil {
				loops = append(loops, l.Move(plane.Pt(36*rng.Float64()-18, 18*rng.Float64()-9)))
			}
		}
		rules := Rules{Bridge: 0.4 + rng.Float64(), Corner: 0.2, Smallest: 0.8}
		made, dropped := Trim(loops, ground, rules)
		total += len(made)
		for i, l := range made {
			if err := l.Check(); err != nil {
				t.Errorf("seed %d: opening %d: %v", seed, i, err)
			}
			out, err := plane.Not(plane.Region{l}, ground)
			if err != nil || out.Area() > 1e-6 {
				t.Errorf("seed %d: opening %d lies %g mm² off the ground (%v)", seed, i, out.Area(), err)
			}
			if n := l.Necks(rules.Bridge - 1e-6); len(n) > 0 {
				t.Errorf("seed %d: opening %d has a neck of %.6f mm", seed, i, n[0].D)
			}
			if len(l.Inset(rules.Smallest/2-1e-9)) == 0 {
				t.Errorf("seed %d: opening %d is too small", seed, i)
			}
			// Opening it by the least radius takes nothing away.
			if a := (plane.Region{l}).Open(rules.Corner * 0.999).Area(); math.Abs(a-l.Area()) > 1e-3*l.Area() {
				t.Errorf("seed %d: opening %d has sharper corners: %.6f of %.6f mm²", seed, i, a, l.Area())
			}
			for j := range i {
				if d := plane.Nearest(l, made[j]).D; d < rules.Bridge-1e-6 {
					t.Errorf("seed %d: openings %d and %d are %.6f apart, rule %.6f", seed, i, j, d, rules.Bridge)
				}
			}
		}
		for _, d := range dropped {
			if d.Why == "" {
				t.Errorf("seed %d: dropped without a reason", seed)
			}
		}
	}
	if total < 100 {
		t.Errorf("only %d openings made in all", total)
	}
}

func TestTrimSaysWhatIsNoOpening(t *testing.T) {
	ground := plane.Region{plane.Rect(plane.Box{Min: plane.Pt(-5, -5), Max: plane.Pt(5, 5)})}
	bow := plane.Polygon(plane.Pt(-1, -1), plane.Pt(1, 1), plane.Pt(1, -1), plane.Pt(-1, 1))
	made, dropped := Trim([]plane.Loop{nil, bow, {{Point: plane.Pt(math.NaN(), 0)}, {}, {}}}, ground, Rules{Bridge: 1})
	if len(made) != 0 || len(dropped) != 3 {
		t.Errorf("made %d, dropped %v", len(made), dropped)
	}
}
