package pattern

import (
	"math"
	"testing"

	"fretband/unroll"
)

// On a closed flared band the repeats close over the joint: along the band, whole
// openings of a row stand a circumference's share apart, and so do the last before
// the joint and the first after it.
func TestRepeatsCloseOverTheJointOfAFlaredBand(t *testing.T) {
	const repeats = 17
	for _, stagger := range []float64{0, 0.5} {
		d := Design{
			Name: "flared", Metal: Metal{Alloy: "copper"},
			Band: unroll.Band{
				Kind: unroll.Bangle, Inside: unroll.Inside{By: unroll.ByAxes, WidthMM: 64, HeightMM: 64}, Thickness: unroll.Thickness{MM: 1},
				WidthMM: 20, EndWidthMM: 20, FlareDeg: 14, Joint: unroll.Soldered, JointMM: 1, NeutralK: 0.5,
			},
			Rules:  DesignRules{BridgeMM: 1.2, RimMM: 1.5},
			Fields: []Field{{Motif: "circles", Rows: 3, Repeats: repeats, Stagger: stagger}},
		}
		s, err := Lay(d)
		if err != nil {
			t.Fatal(err)
		}
		pitch := s.Flat.Length / repeats
		whole := 0
		first, area := map[int]float64{}, map[int]float64{}
		for _, o := range s.Openings {
			area[o.Row] = math.Max(area[o.Row], o.Loop.Area())
		}
		for _, o := range s.Openings {
			if o.Loop.Area() < area[o.Row]-1e-6 {
				continue // cut by the joint
			}
			x, _ := s.Flat.Where(o.Loop.Centroid())
			whole++
			if _, ok := first[o.Row]; !ok {
				first[o.Row] = x
			}
			// To the micrometre to which cells are fitted.
			if off := math.Remainder(x-first[o.Row], pitch); math.Abs(off) > 2e-3 {
				t.Errorf("stagger %g: opening %d stands %.4f mm off the pitch of %.4f", stagger, o.Number, off, pitch)
			}
		}
		if whole < 3*(repeats-2) {
			t.Errorf("stagger %g: only %d whole openings", stagger, whole)
		}
	}
}
