package check

import (
	"math"
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

// Round a closed way lies what it encloses less the openings in it, wherever it begins, on a
// band that wraps also over the seam and a period on. Areas by hand.
func TestMetalUnderAClosedWayIsWhatItEncloses(t *testing.T) {
	const length, width = 160.0, 24.0
	at := func(x float64) []plane.Loop { // three over one another, of one width
		var loops []plane.Loop
		for i := range 3 {
			y := -9 + 7*float64(i)
			loops = append(loops, plane.Polygon(plane.Pt(x-5, y), plane.Pt(x+5, y), plane.Pt(x+5, y+2), plane.Pt(x-5, y+2)))
		}
		return loops
	}
	for _, c := range []struct {
		name string
		band unroll.Band
		x    float64
	}{
		{"open", openStrip(length, width), -20}, {"closed", strip(length, width), 3},
		{"over the seam", strip(length, width), length/2 - 1}, {"over it from the left", strip(length, width), -length/2 + 2},
	} {
		t.Run(c.name, func(t *testing.T) {
			s := pierced(t, c.band, at(c.x)...)
			m := newMetalUnder(s)
			assert.InDelta(t, s.Flat.Length*width-60, m.all, 1e-9)
			around := func(x, low, high float64) []plane.Point {
				x0, x1 := x-7, x+7
				return []plane.Point{{X: x0, Y: high}, {X: x1, Y: high}, {X: x1, Y: low}, {X: x0, Y: low}, {X: x0, Y: high}}
			}
			wraps := 0.0
			if c.band.Kind != unroll.Cuff {
				wraps = s.Flat.Length
			}
			for _, by := range []float64{0, wraps, -wraps} {
				assert.InDelta(t, 14*16-40, m.beneath(around(c.x+by, -3, 13)), 1e-9, "two openings")
				assert.InDelta(t, 14*3, m.beneath(around(c.x+by, -6, -3)), 1e-9, "none")
				assert.InDelta(t, -(14*22 - 60), m.beneath(reversed(around(c.x+by, -11, 11))), 1e-9, "all, the other way round")
			}
			// From one edge to the other and back along the edge lies what is on one side.
			half := s.Flat.Length / 2
			up := []plane.Point{{X: -half + 30, Y: -12}, {X: -half + 30, Y: 12}}
			got := math.Mod(m.toEdge(up[0])+m.beneath(up)-m.toEdge(up[1])+2*m.all, m.all)
			left := 0.0
			for _, a := range m.anchors {
				if a.X < -half+30 {
					left += 20
				}
			}
			assert.InDelta(t, 30*width-left, math.Min(got, m.all-got), 1e-9)
		})
	}
}

func reversed(pts []plane.Point) []plane.Point {
	pts = slices.Clone(pts)
	slices.Reverse(pts)
	return pts
}

// The anchor lies in the opening, also in one that is hollow.
func TestAnAnchorLiesWithin(t *testing.T) {
	for _, l := range []plane.Loop{
		plane.Circle(plane.Pt(3, -4), 2), sector(plane.Pt(0, 0), 6.5, 8, 0.3, 6, 1), sector(plane.Pt(0, 0), 6.5, 8, 2, 4, 1),
		plane.Polygon(plane.Pt(0, 0), plane.Pt(9, 0), plane.Pt(9, 1), plane.Pt(1, 1), plane.Pt(1, 7), plane.Pt(9, 7), plane.Pt(9, 8), plane.Pt(0, 8)),
	} {
		a := anchorOf(l)
		assert.True(t, l.Contains(a.Point), "%v in %v", a, l)
		assert.Greater(t, l.Nearest(a.Point).D, 0.2)
		assert.InDelta(t, l.Area(), a.area, 1e-12)
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
