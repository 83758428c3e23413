package check

import (
	"math/rand"
	"slices"
	"testing"

	"fretband/pattern"
	"fretband/unroll"
	"fretband/unroll/plane"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
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
		s.Process = "as the shop likes" // without usual limits
		s.EdgeRule *= 1.2               // as if the rim had been laid narrower
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

// On a steep flared blank the straight way between the ends of a row along the hollow
// edge leaves the metal. No bridge of an attached part may.
func TestNoBridgeOfAPieceLeavesTheBlank(t *testing.T) {
	for _, flare := range []float64{-30, -22.5, 22.5} {
		s, err := pattern.Lay(pattern.Design{
			Name: "row", Metal: pattern.Metal{Alloy: "sterling-925"}, Rules: pattern.DesignRules{BridgeMM: 1.07, RimMM: 1.97, CornerMM: 0.16, SmallestMM: 0.96},
			Band: unroll.Band{
				Kind: unroll.Bangle, Inside: unroll.Inside{By: unroll.ByCircumference, CircumferenceMM: 188.49, Ratio: 1}, Thickness: unroll.Thickness{MM: 1.54},
				WidthMM: 47, EndWidthMM: 47, FlareDeg: flare, Joint: unroll.Soldered, JointMM: 1.33, NeutralK: 0.33,
			},
			Fields: []pattern.Field{{
				Motif: "trefoils", Rows: 1, Repeats: 17, Phase: 0.63, Follow: pattern.FollowWidth,
				Area:       pattern.Area{Shape: pattern.RunShape, FromMM: -75, ToMM: 23.7},
				GradeAlong: []pattern.Grade{{At: -0.04, Size: 1.57}, {At: 0.65, Size: 2.1}, {At: 0.85, Size: 1.12}},
			}},
		})
		require.NoError(t, err)
		parts := attachedOf(s)
		for _, h := range []AttachedPart{parts.Inside, parts.AtEdge} {
			for _, bridge := range h.Bridges {
				for k := range 99 {
					p := bridge.A.Add(bridge.B.Sub(bridge.A).Mul(float64(k+1) / 100))
					require.True(t, s.Flat.Outline.Contains(p), "flare %g: %v of the bridge %v to %v", flare, p, bridge.A, bridge.B)
				}
			}
		}
	}
}
