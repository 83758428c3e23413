package pattern

import (
	"math"
	"math/rand"
	"slices"
	"testing"

	"fretband/unroll/plane"
)

// apartBySight is the slow obvious distance of two loops that do not cross: 0 if
// one is in the other, else the least between any two of their edges.
func apartBySight(a, b plane.Loop) float64 {
	if a.Contains(b[0].Point) || b.Contains(a[0].Point) {
		return 0
	}
	d := math.Inf(1)
	for i := range a {
		for j := range b {
			d = math.Min(d, plane.NearestEdges(a.Edge(i), b.Edge(j)).D)
		}
	}
	return d
}

// within reports whether no place of l's edge is outside of r by more than 1e-6 mm.
func within(l plane.Loop, r plane.Region) bool {
	for i := range l {
		for f := 0.0; f < 1; f += 0.02 {
			if p := l.Edge(i).At(f); !r.Contains(p) && r.Nearest(p).D > 1e-6 {
				return false
			}
		}
	}
	return true
}

func TestEveryClauseOfTrimsGuaranteeHolds(t *testing.T) {
	made, dropped, kept, cut := 0, 0, 0, 0
	for seed := range 300 {
		rng := rand.New(rand.NewSource(int64(seed)))
		rules := Rules{Bridge: 0.3 + 0.7*rng.Float64()}
		if rng.Intn(2) == 0 {
			rules.Corner = 0.25 * rng.Float64()
		}
		if rng.Intn(2) == 0 {
			rules.Smallest = rng.Float64()
		}
		half := 5.0
		if rng.Intn(2) == 0 {
			rules.Period, half = 10, 7.5
		}
		// The ground has a hole where nothing may stand.
		ground := plane.Region{plane.Rect(plane.Box{Min: plane.Pt(-half, -3), Max: plane.Pt(half, 3)}), plane.Circle(plane.Pt(1, 1), 0.5).Reverse()}
		var loops []plane.Loop
		for range 2 + rng.Intn(8) {
			l := strewnShape(rng, 0.4+0.9*rng.Float64()).Turn(2 * math.Pi * rng.Float64())
			l = l.Move(plane.Pt(10*rng.Float64()-5, 7*rng.Float64()-3.5))
			if rng.Intn(2) == 0 {
				l = l.Reverse()
			}
			loops = append(loops, l)
		}
		out, not := Trim(loops, ground, rules)
		again, _ := Trim(loops, ground, rules)
		if !slices.EqualFunc(out, again, func(a, b Trimmed) bool { return a.From == b.From && slices.Equal(a.Loop, b.Loop) }) {
			t.Errorf("seed %d: not the same when done again", seed)
		}
		turns := []float64{0}
		if rules.Period > 0 {
			turns = []float64{0, -10, 10}
		}
		counted := make([]bool, len(loops))
		for _, d := range not {
			counted[d.From] = true
			if d.Why == "" {
				t.Errorf("seed %d: loop %d dropped without a reason", seed, d.From)
			}
		}
		for i, m := range out {
			l := m.Loop
			counted[m.From] = true
			if i > 0 && m.From < out[i-1].From {
				t.Errorf("seed %d: opening %d is out of order", seed, i)
			}
			if err := l.Check(); err != nil || l.Area() < 0 {
				t.Errorf("seed %d: opening %d of %.3f mm²: %v", seed, i, l.Area(), err)
			}
			if !within(l, plane.Region{loops[m.From].CCW()}) || !within(l, ground) || l.Contains(plane.Pt(1, 1)) {
				t.Errorf("seed %d: opening %d reaches out of its loop or off the ground", seed, i)
			}
			if n := l.Necks(rules.Bridge - 1e-5); len(n) > 0 {
				t.Errorf("seed %d: opening %d has a neck of %.6f mm", seed, i, n[0].D)
			}
			if rules.Smallest > 0 && len(l.Inset(rules.Smallest/2-1e-6)) == 0 {
				t.Errorf("seed %d: opening %d is too small", seed, i)
			}
			if a := (plane.Region{l}).Open(rules.Corner - 1e-6).Area(); math.Abs(a-l.Area()) > 1e-5 {
				t.Errorf("seed %d: opening %d has sharper corners: %.6f of %.6f mm²", seed, i, a, l.Area())
			}
			for j, o := range out[:i+1] {
				for _, x := range turns {
					if i == j && x == 0 {
						continue
					}
					if d := apartBySight(l, o.Loop.Move(plane.Pt(x, 0))); d < rules.Bridge-1e-6 {
						t.Errorf("seed %d: openings %d and %d, %g on, are %.6f apart, rule %.6f", seed, i, j, x, d, rules.Bridge)
					}
				}
			}
		}
		for i, l := range loops {
			if !counted[i] {
				t.Errorf("seed %d: loop %d is neither made nor dropped", seed, i)
			}
			// Alone on the ground and round: its very numbers.
			alone := within(l, ground) && !l.Contains(plane.Pt(1, 1))
			for j, o := range loops {
				for _, x := range turns {
					if (i != j || x != 0) && apartBySight(l, o.Move(plane.Pt(x, 0))) < rules.Bridge+1e-6 {
						alone = false
					}
				}
			}
			k := slices.IndexFunc(out, func(m Trimmed) bool { return m.From == i })
			if alone && rules.Corner == 0 && len(l.Inset(rules.Smallest/2+1e-6)) > 0 {
				if kept++; k < 0 || !slices.Equal(out[k].Loop, l.CCW()) {
					t.Errorf("seed %d: loop %d keeps the rules but does not come back as it is: %v, %v", seed, i, l, not)
				}
			}
			if k >= 0 && out[k].Loop.Area() < math.Abs(l.Area())-1e-3 {
				cut++
			}
		}
		made += len(out)
		dropped += len(not)
	}
	t.Logf("%d openings made, of which %d loops kept and %d cut; %d dropped", made, kept, cut, dropped)
	if made < 800 || kept < 100 || cut < 300 {
		t.Errorf("%d made, %d kept, %d cut: the test does not ask much", made, kept, cut)
	}
}

// TestTwoLoopsGiveAlikeAndNoMoreThanNeeded holds what is left of two loops to the
// definition, place by place: of a loop stays what is no nearer than half a bridge to
// any place on the other's side of the bisector.
func TestTwoLoopsGiveAlikeAndNoMoreThanNeeded(t *testing.T) {
	ground := plane.Region{plane.Rect(plane.Box{Min: plane.Pt(-9, -9), Max: plane.Pt(9, 9)})}
	asked := 0
	for seed := range 60 {
		rng := rand.New(rand.NewSource(int64(seed)))
		bridge := 0.3 + 0.7*rng.Float64()
		var loops [2]plane.Loop
		for i := range loops {
			l := strewnShape(rng, 0.6+1.5*rng.Float64()).Turn(2 * math.Pi * rng.Float64())
			loops[i] = l.Move(plane.Pt(float64(i)*(0.8+2.5*rng.Float64()), rng.Float64()))
		}
		both, err := plane.And(plane.Region{loops[0]}, plane.Region{loops[1]})
		if err != nil {
			t.Fatal(err)
		}
		if 2*both.Area() > 0.98*math.Min(loops[0].Area(), loops[1].Area()) {
			continue // the later yields
		}
		made, _ := Trim(loops[:], ground, Rules{Bridge: bridge})
		signed := func(l plane.Loop, p plane.Point) float64 {
			if l.Contains(p) {
				return -l.Nearest(p).D
			}
			return l.Nearest(p).D
		}
		for i, l := range loops {
			o := loops[1-i]
			var left plane.Region
			for _, m := range made {
				if m.From == i {
					left = append(left, m.Loop)
				}
			}
			b := l.Bounds()
			for range 40 {
				p := plane.Pt(b.Min.X+b.W()*rng.Float64(), b.Min.Y+b.H()*rng.Float64())
				if !l.Contains(p) || l.Nearest(p).D < 1e-3 {
					continue
				}
				// The other's side within half a bridge of p: how deep at most.
				deepest := func(r float64) float64 {
					most := signed(l, p) - signed(o, p)
					for _, k := range []float64{1, 0.7, 0.4} {
						for a := range 90 {
							q := p.Add(plane.Pt(r*k, 0).Turn(2 * math.Pi * float64(a) / 90))
							most = math.Max(most, signed(l, q)-signed(o, q))
						}
					}
					return most
				}
				stays := left.Contains(p)
				asked++
				if in := deepest(bridge/2 - 1e-3); stays && in > 1e-3 {
					t.Errorf("seed %d: (%.4f, %.4f) of loop %d stays, %.4f mm within the other's half", seed, p.X, p.Y, i, in)
				}
				if out := deepest(bridge/2 + 0.02); !stays && out < -1e-3 {
					t.Errorf("seed %d: (%.4f, %.4f) of loop %d goes without need", seed, p.X, p.Y, i)
				}
			}
		}
	}
	if asked < 1000 {
		t.Errorf("only %d places asked", asked)
	}
}

func TestCirclesOfDifferentSizeAreParted(t *testing.T) {
	// The bisector of two circles is a branch of a hyperbola through the middle of
	// the gap between them; the edges end half a bridge on either side of it.
	ground := plane.Region{plane.Rect(plane.Box{Min: plane.Pt(-9, -9), Max: plane.Pt(9, 9)})}
	for _, c := range []struct{ r1, r2, gap float64 }{{2, 1, 0.3}, {2, 1, -0.4}, {3, 0.8, 0.1}, {1.5, 1.4, -0.2}} {
		a, b := plane.Circle(plane.Pt(-c.r1, 0), c.r1), plane.Circle(plane.Pt(c.gap+c.r2, 0), c.r2)
		made, dropped := Trim([]plane.Loop{a, b}, ground, Rules{Bridge: 0.8})
		if len(made) != 2 || len(dropped) > 0 {
			t.Fatalf("%v: made %d, dropped %v", c, len(made), dropped)
		}
		for i, l := range []plane.Loop{made[0].Loop, made[1].Loop} {
			if d := l.Nearest(plane.Pt(c.gap/2, 0)).D; math.Abs(d-0.4) > 1e-3 || d < 0.4-1e-6 {
				t.Errorf("%v: opening %d is %.6f from the middle of the gap, want 0.4", c, i, d)
			}
		}
	}
}
