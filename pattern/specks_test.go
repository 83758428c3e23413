package pattern

import (
	"math/rand"
	"testing"

	"fretband/unroll/plane"
)

func TestNoOpeningHasASpeckOfAnEdge(t *testing.T) {
	for seed := range 300 {
		d := randomDesign(rand.New(rand.NewSource(int64(seed))))
		s, err := Lay(d)
		if err != nil {
			t.Fatal(err)
		}
		for _, o := range s.Openings {
			for i := range o.Loop {
				if c := o.Loop.Edge(i).Chord(); c <= plane.Snap {
					t.Fatalf("seed %d, %s: opening %d has an edge %g mm long", seed, d.Fields[0].Motif, o.Number, c)
				}
			}
		}
	}
}
