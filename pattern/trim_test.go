package pattern

import (
	"math"
	"math/rand"
	"slices"
	"strings"
	"testing"

	"fretband/unroll/plane"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
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
		for i, m := range made {
			l := m.Loop
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
				if d := plane.Nearest(l, made[j].Loop).D; d < rules.Bridge-1e-6 {
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

func TestLoopsThatKeepTheRulesComeBackWithTheirVeryNumbers(t *testing.T) {
	ground := plane.Region{plane.Rect(plane.Box{Min: plane.Pt(-10, -10), Max: plane.Pt(10, 10)})}
	slot := plane.Loop{{Point: plane.Pt(-1, -0.5)}, {Point: plane.Pt(1, -0.5), Bulge: 1}, {Point: plane.Pt(1, 0.5)}, {Point: plane.Pt(-1, 0.5), Bulge: 1}}
	loops := []plane.Loop{plane.Circle(plane.Pt(-5, 0.1), 1), slot.Turn(0.3), plane.Circle(plane.Pt(0.2, 9), 1), plane.Circle(plane.Pt(-9.4, 5), 0.5)}
	made, dropped := Trim(loops, ground, Rules{Bridge: 0.8, Corner: 0.3, Smallest: 0.8, Period: 22})
	if len(made) != len(loops) || len(dropped) > 0 {
		t.Fatalf("made %d, dropped %v", len(made), dropped)
	}
	for i, m := range made {
		if m.From != i || !slices.Equal(m.Loop, loops[i]) {
			t.Errorf("loop %d came back as %v from %d", i, m.Loop, m.From)
		}
	}
}

func TestOnABandThatClosesOpeningsKeepApartOverTheSeam(t *testing.T) {
	// Squares of 4 mm on a turn of 20 mm, whose edges come within 0.3 mm over the
	// seam: each gives (0.8 - 0.3)/2 along 4 mm.
	const period, bridge = 20, 0.8
	ground := plane.Region{plane.Rect(plane.Box{Min: plane.Pt(-30, -5), Max: plane.Pt(30, 5)})}
	sq := plane.Rect(plane.Box{Min: plane.Pt(-2, -2), Max: plane.Pt(2, 2)})
	for _, c := range []struct {
		name string
		a, b float64 // where the middles are
	}{{"right, left", 8, -7.7}, {"left, right", -7.7, 8}, {"one turn on", 8, 12.3}, {"two turns on", -12, 32.3}} {
		made, dropped := Trim([]plane.Loop{sq.Move(plane.Pt(c.a, 0)), sq.Move(plane.Pt(c.b, 0))}, ground.Move(plane.Pt(5, 0)), Rules{Bridge: bridge, Period: period})
		if len(made) != 2 || len(dropped) > 0 {
			t.Fatalf("%s: made %d, dropped %v", c.name, len(made), dropped)
		}
		for i, m := range made {
			if a := m.Loop.Area(); math.Abs(a-15) > 4e-3 || m.From != i {
				t.Errorf("%s: opening %d from %d has %.5f mm², want 15", c.name, i, m.From, a)
			}
		}
		// In the turn of each other.
		turns := math.Round((made[1].Loop.Centroid().X - made[0].Loop.Centroid().X) / period)
		b := made[1].Loop.Move(plane.Pt(-turns*period, 0))
		if d := plane.Nearest(made[0].Loop, b).D; math.Abs(d-bridge) > 2e-3 || d < bridge-1e-6 {
			t.Errorf("%s: %.6f mm apart", c.name, d)
		}
	}
	// A bar longer than the turn keeps apart from itself.
	bar := plane.Rect(plane.Box{Min: plane.Pt(-10.5, -1), Max: plane.Pt(10.5, 1)})
	made, _ := Trim([]plane.Loop{bar}, ground, Rules{Bridge: bridge, Period: period})
	if len(made) != 1 || math.Abs(made[0].Loop.Bounds().W()-(period-bridge)) > 1e-3 {
		t.Errorf("a bar round the band came back as %v", made)
	}
	// One that slants past its own copies would wind round the band.
	for _, c := range []struct {
		length float64
		made   int
	}{{0.9 * period, 1}, {1.1 * period, 0}, {2.5 * period, 0}} {
		l := c.length / 2
		winding := plane.Polygon(plane.Pt(-l, -4), plane.Pt(l, 3.6), plane.Pt(l, 4), plane.Pt(-l, -3.6))
		made, dropped := Trim([]plane.Loop{winding}, ground, Rules{Bridge: 0.1, Period: period})
		if len(made) != c.made || len(made)+len(dropped) != 1 || c.made == 0 && !strings.Contains(dropped[0].Why, "wind round the band") {
			t.Errorf("a slot of %g mm on a turn of %d mm: made %d, dropped %v", c.length, period, len(made), dropped)
		}
	}
}

func TestATipThatReachesOverTheRimByAMicronIsCut(t *testing.T) {
	ground := plane.Region{plane.Rect(plane.Box{Min: plane.Pt(-5, -5), Max: plane.Pt(5, 5)})}
	tip := plane.Polygon(plane.Pt(3, -1), plane.Pt(5.0005, 0), plane.Pt(3, 1))
	made, _ := Trim([]plane.Loop{tip}, ground, Rules{Bridge: 0.5})
	if len(made) != 1 || made[0].Loop.Bounds().Max.X > 5+1e-6 {
		t.Errorf("made %v", made)
	}
}

// A round edge over the ground by h takes 2/3 h sqrt(8 r h) of area: next to nothing, but
// the rim is to be kept all the same.
func TestARoundEdgeOverTheRimByLessThanAMicronIsCut(t *testing.T) {
	ground := plane.Region{plane.Rect(plane.Box{Min: plane.Pt(-10, -5), Max: plane.Pt(10, 5)})}
	for _, over := range []float64{3e-6, 1e-5, 6e-5, 5e-4} {
		made, _ := Trim([]plane.Loop{plane.Circle(plane.Pt(0, 4+over), 1)}, ground, Rules{Bridge: 1, Smallest: 0.5})
		require.Len(t, made, 1)
		assert.LessOrEqual(t, made[0].Loop.Bounds().Max.Y, 5+1e-6, "%g", over)
		assert.InDelta(t, math.Pi, made[0].Loop.Area(), 1e-3)
	}
}
