package check

import (
	"fmt"
	"math/rand"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"

	"fretband/pattern"
	"fretband/pattern/own"
	"fretband/unroll/plane"
)

// slowWithin is the plain way: every line of the mark against every edge of the region.
func slowWithin(m pattern.EngravedLines, r plane.Region) (length float64) {
	for _, s := range m.Strokes {
		for _, e := range s.Edges() {
			ts := []float64{0, 1}
			for _, l := range r {
				for _, f := range l.Edges() {
					for _, c := range plane.Crossings(e, f) {
						ts = append(ts, c.A)
					}
				}
			}
			slices.Sort(ts)
			for i := 1; i < len(ts); i++ {
				if ts[i] > ts[i-1] && r.Contains(e.At((ts[i-1]+ts[i])/2)) {
					length += (ts[i] - ts[i-1]) * e.Len()
				}
			}
		}
	}
	return length
}

// However long, short, bent or joined its strokes, as much of a linework lies in an area
// as by looking at every edge.
func TestLineworkIsHeldAgainstAreasAsByLookingAtEveryEdge(t *testing.T) {
	const seed = 5
	rng := rand.New(rand.NewSource(seed))
	at := func(r float64) plane.Point { return plane.Pt(r*(2*rng.Float64()-1), r*(2*rng.Float64()-1)) }
	areas := []plane.Loop{plane.Circle(plane.Pt(3, 1), 0.4), plane.Circle(plane.Point{}, 20), plane.Rect(plane.Box{Min: plane.Pt(-8, -3), Max: plane.Pt(9, 4)})}
	partly := 0
	for i := range 400 {
		var m pattern.EngravedLines
		for range 1 + rng.Intn(3) {
			s := own.Stroke{Closed: rng.Intn(2) == 0}
			size := []float64{0.05, 1, 10, 60}[rng.Intn(4)]
			c := at(10)
			for range 2 + rng.Intn(6) {
				s.Line = append(s.Line, plane.Vertex{Point: c.Add(at(size)), Bulge: float64(rng.Intn(2)) * (rng.Float64() - 0.5)})
			}
			m.Strokes = append(m.Strokes, s)
		}
		l := newLinework(m)
		for k, r := range areas {
			what := fmt.Sprintf("seed %d, linework %d, area %d", seed, i, k)
			want, a, v := slowWithin(m, plane.Region{r}), newArea(plane.Region{r}), at(4)
			if want > 0 && want < l.length-1e-6 {
				partly++
			}
			all, out := l.within(a)
			require.InDelta(t, want, all, 1e-9, what)
			require.InDelta(t, want, l.inside(a), 1e-9, what)
			if want < l.length-1e-6 {
				require.False(t, r.Contains(out), what)
			}
			moved := slowWithin(m, plane.Region{r.Move(v.Mul(-1))})
			require.Equal(t, moved >= l.length-1e-6, l.holds(a, v), what)
		}
	}
	require.Greater(t, partly, 300)
}
