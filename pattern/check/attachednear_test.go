package check

import (
	"math/rand"
	"slices"
	"testing"

	"fretband/pattern"
	"fretband/unroll/plane"

	"github.com/stretchr/testify/assert"
)

// The slow way: the exact distance. Arcs up to nearly whole circles.
func TestNoEdgeThatTouchesAWayCountsAsBesideIt(t *testing.T) {
	rng := rand.New(rand.NewSource(1))
	point := func() plane.Point { return plane.Pt(rng.Float64()*4-2, rng.Float64()*4-2) }
	touching, beyond := 0, 0
	for range 20000 {
		way := plane.Edge{A: point(), B: point()}
		e := plane.Edge{A: point(), B: point(), Bulge: [3]float64{0, rng.NormFloat64(), 8 * rng.NormFloat64()}[rng.Intn(3)]}
		switch seen := beside(way, e); {
		case plane.NearestEdges(way, e).D <= plane.Snap:
			touching++
			assert.False(t, seen, "%v %v", way, e)
		case seen:
			beyond++
		}
	}
	assert.Greater(t, touching, 2000)
	assert.Greater(t, beyond, 2000)
}

// The slow way: the height less what each opening takes of it below.
func TestMetalUnderAHeightIsWhatOpeningsLeaveOfIt(t *testing.T) {
	const length, width = 160.0, 24.0
	var loops []plane.Loop
	for i := range 3 { // one over the other, of one width
		y := -9 + 7*float64(i)
		loops = append(loops, plane.Polygon(plane.Pt(-5, y), plane.Pt(5, y), plane.Pt(5, y+2), plane.Pt(-5, y+2)))
	}
	s := pierced(t, openStrip(length, width), loops...)
	c := newColumns(s)
	k := columnCount / 2
	for y := -12.0; y <= 12; y += 0.25 {
		want := y + 12
		for i := range 3 {
			low := -9 + 7*float64(i)
			want -= min(max(y-low, 0), 2)
		}
		assert.InDelta(t, want, c.under(k, y), 1e-9, "at %g", y)
		assert.InDelta(t, y+12, c.under(8, y), 1e-9, "beside the openings, at %g", y)
	}
	// Under the top edge from the left end on lies the blank less the openings; where they
	// end within a column is not known.
	half := s.Flat.Length / 2
	for x := -half + 0.01; x < half; x += 0.77 {
		within := 1e-6
		if x > -5.5 {
			within = 3 * 2 * length / columnCount
		}
		assert.InDelta(t, (x+half)*width-3*2*min(max(x+5, 0), 10), c.edge(plane.Pt(x, 12)), within, "at %g", x)
		assert.Zero(t, c.edge(plane.Pt(x, -12)))
	}
}

// Which bridges to the rim lack anything does not depend on how far they are looked for.
func TestBridgesToTheRimAreAllThatAnUnboundedSearchFinds(t *testing.T) {
	for _, d := range []pattern.Design{bigDesign(200), crossesBangle()} {
		d.Rules.RimMM *= 1.5
		s, err := pattern.Lay(d)
		assert.NoError(t, err)
		s.EdgeRule *= 1.2 // as if the rim had been laid narrower
		list, _ := NarrowBridges(s)
		m, wanted := newMeasure(s), []int{}
		for i := range s.Openings {
			b := none(s.EdgeRule)
			if m.toEdge(i, &b); b.Width < s.EdgeRule-slack {
				wanted = append(wanted, s.Openings[i].Number)
			}
		}
		var got []int
		for _, b := range list {
			if b.Kind == ToRim && b.Width < s.EdgeRule-slack {
				got = append(got, b.From)
			}
		}
		slices.Sort(got)
		slices.Sort(wanted)
		assert.NotEmpty(t, wanted)
		assert.Equal(t, wanted, got)
	}
}
