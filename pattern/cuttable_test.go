package pattern

import (
	"math/rand"
	"slices"
	"testing"
)

func TestOpeningsAndOutlinesCanBeCutAsTheyAreLaid(t *testing.T) {
	n := 300
	if testing.Short() {
		n = 60
	}
	for seed := range n {
		d := randomDesign(rand.New(rand.NewSource(int64(seed))))
		s, err := Lay(d)
		if err != nil {
			t.Fatal(err)
		}
		for _, o := range s.Openings {
			if l, ok := o.Loop.Cuttable(); !ok || !slices.Equal(l, o.Loop) {
				t.Fatalf("seed %d, %s: opening %d has an edge too short to be cut, or too flat", seed, d.Fields[0].Motif, o.Number)
			}
		}
		if l, ok := s.Flat.Outline.CuttableAround(); !ok || !slices.Equal(l, s.Flat.Outline) {
			t.Fatalf("seed %d: the outline has an edge too short to be cut, or too flat", seed)
		}
	}
}
