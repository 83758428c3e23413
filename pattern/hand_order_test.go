package pattern

import (
	"cmp"
	"math"
	"math/rand"
	"slices"
	"testing"

	"fretband/unroll/plane"
)

// byHandAlone are the openings laid by hand, from the largest on.
func byHandAlone(s *Sheet) []plane.Loop {
	var ls []plane.Loop
	for _, o := range s.Openings {
		if o.Edit >= 0 {
			ls = append(ls, o.Loop)
		}
	}
	slices.SortFunc(ls, func(a, b plane.Loop) int { return cmp.Compare(b.Area(), a.Area()) })
	return ls
}

func area(ls []plane.Loop) float64 { return plane.Region(ls).Area() }

// Openings added near each other and over each other, some with mirror images: in any
// order of the edits and of their places they come out alike, and the other way round
// if all are drawn the other way round.
func TestAdditionsDoNotDependOnTheirOrder(t *testing.T) {
	bands := handBands()
	n, touched := int64(12), 0
	if testing.Short() {
		n = 5
	}
	for seed := range n {
		rng := rand.New(rand.NewSource(seed))
		pick := func(lo, hi float64) float64 { return lo + (hi-lo)*rng.Float64() }
		d := bands[[]string{"cuff", "soldered", "seamless", "tapered", "flared"}[seed%5]]
		var edits, images []Edit
		given := 0.0
		for range 2 + rng.Intn(4) {
			e := Edit{Do: Add, Shape: OvalShape, WidthMM: pick(3, 12), HeightMM: pick(3, 12), RotationDeg: pick(-90, 90), Mirror: []string{"", MirrorAlong, MirrorAcross, MirrorBoth}[rng.Intn(4)]}
			for range 1 + rng.Intn(3) {
				e.At = append(e.At, Spot{pick(-9, 9), pick(-9, 9)})
				given += math.Pi / 4 * e.WidthMM * e.HeightMM
			}
			edits = append(edits, e)
			e.At, e.RotationDeg = slices.Clone(e.At), -e.RotationDeg
			for i := range e.At {
				e.At[i].XMM *= -1
			}
			images = append(images, e)
		}
		d.Fields = nil
		s := layWith(t, d, edits...)
		want := byHandAlone(s)
		if area(want) < 0.9*given {
			touched++
		}
		shuffled := slices.Clone(edits)
		rng.Shuffle(len(shuffled), func(i, j int) { shuffled[i], shuffled[j] = shuffled[j], shuffled[i] })
		for i := range shuffled {
			at := slices.Clone(shuffled[i].At)
			rng.Shuffle(len(at), func(i, j int) { at[i], at[j] = at[j], at[i] })
			shuffled[i].At = at
		}
		got := byHandAlone(layWith(t, d, shuffled...))
		if !slices.EqualFunc(want, got, func(a, b plane.Loop) bool { return slices.Equal(a, b) }) {
			t.Errorf("seed %d: %d openings of %.4f mm², in another order %d of %.4f", seed, len(want), area(want), len(got), area(got))
		}
		got = byHandAlone(layWith(t, d, images...))
		if math.Abs(area(want)-area(got)) > 0.05 {
			t.Errorf("seed %d: %d openings of %.4f mm², as mirror images %d of %.4f", seed, len(want), area(want), len(got), area(got))
		}
	}
	if int64(touched) < n/2 {
		t.Errorf("only in %d of %d anything was trimmed", touched, n)
	}
}
