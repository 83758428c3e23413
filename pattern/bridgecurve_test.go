package pattern

import (
	"fmt"
	"math"
	"math/rand"
	"testing"

	"fretband/pattern/motif"
	"fretband/unroll/plane"
)

// Any two openings of a field lie as far apart as the curve of its bridges asks where
// either of them ends, and never under the rule: random curves on random motifs, orders and
// bands, measured by the distances of what was laid. The curve is run through here by its
// definition, from the field's ends.
func TestBridgesAreAsWideAsTheirCurve(t *testing.T) {
	pairs, wider := 0, 0
	names := []string{"cuff", "soldered", "seamless", "tapered", "flared"}
	for seed := range 120 {
		rng := rand.New(rand.NewSource(int64(seed) + 40))
		pick := func(lo, hi float64) float64 { return lo + (hi-lo)*rng.Float64() }
		d := handBands()[names[seed%5]]
		f := &d.Fields[0]
		ms := motif.All()
		f.Motif, f.Rows, f.Repeats = ms[rng.Intn(len(ms))].Key, 1+rng.Intn(4), 8+rng.Intn(16)
		if rng.Intn(3) == 0 {
			f.GradeAlong, f.GradeBridge = []Grade{{-1, pick(0.6, 1.4)}, {pick(-0.5, 0.5), 1}, {1, pick(0.6, 1.4)}}, pick(0, 1)
		}
		if rng.Intn(3) == 0 {
			f.RotationDeg = pick(-40, 40)
		}
		f.Mirror = []string{"", "", MirrorAlong, MirrorAcross, MirrorBoth}[rng.Intn(5)]
		f.BridgeMM = []float64{0, 0, 1.4}[rng.Intn(3)]
		for at := pick(-1, -0.2); at <= 1; at += pick(0.2, 0.9) {
			f.BridgeAlong = append(f.BridgeAlong, Grade{at, pick(0.5, 2)})
		}
		s, err := Lay(d)
		if err != nil {
			t.Fatal(err)
		}
		m, err := f.motif()
		if err != nil {
			t.Fatal(err)
		}
		area, err := f.Area.land(s.Flat)
		if err != nil {
			t.Fatal(err)
		}
		length := s.extent(*f, m, area).w
		points := f.BridgeAlong
		if !d.Band.Open() && (f.Mirror == "" || f.Mirror == MirrorAcross) && s.Flat.Wraps() {
			points = roundAbout(oneSeam(append([]Grade{}, points...)))
		}
		curve := GradeCurve(points)
		asked := func(p plane.Point) float64 {
			x, _ := s.Flat.Where(p)
			u := 2 * x / length
			if s.Flat.Wraps() {
				u = math.Remainder(u, 2)
			}
			if f.Mirror == MirrorAlong || f.Mirror == MirrorBoth {
				u = math.Abs(u)
			}
			return math.Max(s.Rule, f.Bridge(d.Rules)*curve(u))
		}
		for _, p := range s.Pairs(4) {
			want := s.Rule
			if f.GradeBridge == 0 {
				want = (asked(p.A) + asked(p.Home(p.B))) / 2
			}
			pairs++
			if want > s.Rule+0.05 {
				wider++
			}
			if p.D < want-1e-4 {
				t.Errorf("seed %d, %s on a %s: openings %d and %d are %.5f mm apart at x = %.2f, asked %.5f",
					seed, f.Motif, names[seed%5], s.Openings[p.I].Number, s.Openings[p.J].Number, p.D, p.A.X, want)
				break
			}
		}
		keepsTheRule(t, s, fmt.Sprint("seed ", seed))
	}
	if pairs < 5000 || wider < 2000 {
		t.Errorf("only %d bridges, %d of them wider than the rule", pairs, wider)
	}
}

// Squares in a row between straight bars: each bar is as wide as the wider half of what the
// curve has along its two squares, and no more; the squares stay where they are.
func TestBridgesAreNoWiderThanTheirCurve(t *testing.T) {
	d := handBands()["seamless"]
	d.Rules.CornerMM = 0
	d.Fields = []Field{{Motif: "squares", Rows: 1, Repeats: 30}}
	plain := layWith(t, d)
	d.Fields[0].BridgeAlong = []Grade{{-1, 1}, {0, 2}, {1, 1}}
	s := layWith(t, d)
	if len(s.Openings) != len(plain.Openings) {
		t.Fatalf("%d openings, without a curve %d", len(s.Openings), len(plain.Openings))
	}
	curve := GradeCurve([]Grade{{-3, 1}, {-2, 2}, {-1, 1}, {0, 2}, {1, 1}, {2, 2}, {3, 1}})
	pitch := s.Flat.Length / 30
	for _, p := range s.Pairs(4) {
		border := math.Round((p.A.X+p.B.X)/pitch) * pitch / 2
		most := func(from, to float64) float64 {
			v := 0.0
			for k := range 201 {
				v = math.Max(v, curve(2*(from+(to-from)*float64(k)/200)/s.Flat.Length))
			}
			return v
		}
		if want := (most(border-pitch, border) + most(border, border+pitch)) / 2; math.Abs(p.D-want) > 2e-3 {
			t.Errorf("at x = %.2f a bridge of %.4f mm, want %.4f", border, p.D, want)
		}
	}
}
