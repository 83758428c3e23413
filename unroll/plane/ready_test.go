package plane

import (
	"math"
	"testing"
)

// The slow way: the loop itself, which makes its edges ready for each question.
func TestAReadyLoopAnswersAsTheLoop(t *testing.T) {
	r := seeded(t)
	for range 300 {
		a := star(r, 3+r.IntN(9), true)
		b := star(r, 3+r.IntN(9), true).Move(Pt(4+4*r.Float64(), 3*r.NormFloat64()))
		ra, rb := a.Ready(), b.Ready()
		want := Nearest(a, b)
		for _, limit := range []float64{math.Inf(1), 2 * want.D, want.D} {
			got := ra.Gap(rb, limit)
			if limit > want.D && got != want || limit == want.D && !math.IsInf(got.D, 1) {
				t.Fatalf("%#v and %#v under %g: %v, want %v", a, b, limit, got, want)
			}
		}
		p := Pt(4*r.NormFloat64(), 4*r.NormFloat64())
		i, f, q := ra.Nearest(p)
		nearly(t, "distance", q.Dist(p), a.Nearest(p).D, 1e-9)
		nearly(t, "place on the edge", a.Edge(i).At(f).Dist(q), 0, 1e-9)
		for k := range i { // no earlier edge is as near
			if _, x := a.Edge(k).Nearest(p); x.Dist(p) <= q.Dist(p) {
				t.Fatalf("%#v: edge %d is no farther from %v than edge %d", a, k, p, i)
			}
		}
	}
	if i, _, _ := (Loop{}).Ready().Nearest(Pt(1, 2)); i != -1 {
		t.Errorf("edge %d of none", i)
	}
}
