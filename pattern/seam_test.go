package pattern

import (
	"math"
	"math/rand"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"fretband/unroll"
	"fretband/unroll/plane"
)

// A motion keeps all distances, its way back undoes it, and it carries all alike.
func TestAMotionIsUndoneByItsWayBack(t *testing.T) {
	rng := rand.New(rand.NewSource(9))
	at := func() plane.Point { return plane.Pt(40*rng.Float64()-20, 40*rng.Float64()-20) }
	for i := range 50 {
		m := motion{rotation: 6 * rng.Float64() * float64(i%2), by: at()}
		p, q := at(), at()
		assert.InDelta(t, p.Dist(q), m.point(p).Dist(m.point(q)), 1e-9)
		assert.InDelta(t, 0, m.back().point(m.point(p)).Dist(p), 1e-9)
		e := m.edge(plane.Edge{A: p, B: q, Bulge: 0.4})
		assert.InDelta(t, 0, e.At(0.3).Dist(m.point(plane.Edge{A: p, B: q, Bulge: 0.4}.At(0.3))), 1e-9)
		l := plane.Circle(p, 3)
		assert.InDelta(t, 0, m.loop(l).Centroid().Dist(m.point(p)), 1e-9)
		b := m.box(plane.Box{Min: p, Max: p.Add(plane.Pt(2, 1))})
		for _, v := range []plane.Point{p, p.Add(plane.Pt(2, 0)), p.Add(plane.Pt(2, 1)), p.Add(plane.Pt(0, 1))} {
			assert.True(t, b.Grow(1e-9).Contains(m.point(v)))
		}
	}
}

// Wherever a thing stands on a closed band, its copies on the blank are those that reach
// over it, all turns tried, and the thing itself.
func TestTheCopiesOnTheBlankAreAllThatReachOverIt(t *testing.T) {
	for name, b := range reserveBands() {
		flat, err := unroll.Unroll(b)
		require.NoError(t, err)
		s := &Sheet{Design: Design{Band: b}, Flat: flat}
		far := 2.3
		if flat.Flared() {
			far = 0.7 // what lies farther round the apex has another place along
		}
		for i := range 93 {
			x := flat.Length * far * (float64(i)/46 - 1)
			l := plane.Circle(flat.Place(x, 2), 3)
			lo, hi := math.Inf(1), math.Inf(-1) // along the band
			for _, p := range l.Flatten(0.001) {
				u, _ := flat.Where(p)
				lo, hi = math.Min(lo, u), math.Max(hi, u)
			}
			var want []plane.Loop
			for n := -4.0; n <= 4; n++ {
				from, to := lo+n*flat.Length-flat.Length/2, hi+n*flat.Length+flat.Length/2
				if math.Min(math.Abs(from), math.Abs(to)) < 0.01 {
					want = nil // too near to say
					break
				}
				if n == 0 || !b.Open() && from < 0 && to > 0 {
					want = append(want, plane.Circle(flat.Place(x+n*flat.Length, 2), 3))
				}
			}
			if want == nil {
				continue
			}
			got := s.Again(l)
			require.Len(t, got, len(want), "%s at %.3f", name, x)
			require.Len(t, s.OnBlank(l), len(want), "%s at %.3f", name, x)
			for _, w := range want {
				near := math.Inf(1)
				for _, g := range got {
					near = math.Min(near, g.Centroid().Dist(w.Centroid()))
				}
				require.Less(t, near, 1e-6, "%s at %.3f", name, x)
			}
		}
	}
}
