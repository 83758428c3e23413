package pattern

import (
	"math"
	"testing"

	"fretband/unroll"
	"fretband/unroll/plane"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// rimBands are bands of each kind that an edge can run on.
func rimBands() map[string]unroll.Band {
	cuff := unroll.Band{
		Kind: unroll.Cuff, Inside: unroll.Inside{By: unroll.ByAxes, WidthMM: 58, HeightMM: 46}, GapMM: 28,
		Thickness: unroll.Thickness{MM: 1.2}, WidthMM: 24, EndWidthMM: 24, NeutralK: 0.5,
	}
	tapered, round := cuff, cuff
	tapered.EndWidthMM = 16
	round.EndShape = unroll.RoundEnd
	waved := cuff
	waved.TopEdge = []unroll.EdgePoint{{At: -0.5, OutMM: 2}, {At: 0.5, OutMM: -1}}
	bangle := cuff
	bangle.Kind, bangle.GapMM, bangle.Joint = unroll.Bangle, 0, unroll.Seamless
	soldered := bangle
	soldered.Joint, soldered.JointMM = unroll.Soldered, 2
	return map[string]unroll.Band{"cuff": cuff, "tapered": tapered, "round ends": round, "waved": waved, "seamless": bangle, "soldered": soldered}
}

func rimDesign(b unroll.Band, follow string, along []Grade) Design {
	return Design{
		Name: "rim", Band: b, Metal: Metal{Alloy: "sterling-925"},
		Rules:  DesignRules{BridgeMM: 1, RimMM: 2, RimAlong: along, CornerMM: 0.2, SmallestMM: 0.8},
		Fields: []Field{{Motif: "squares", Rows: 3, Repeats: 24, Follow: follow}},
	}
}

// Each opening keeps from the nearest position on the edge what the curve asks there:
// the curve is computed here from its two ends and its middle, by its definition.
func TestOpeningsKeepOffTheEdgeWhatTheRimIsThere(t *testing.T) {
	curves := map[string][]Grade{
		"narrow ends": {{-1, 0.5}, {0, 1.5}, {1, 0.5}},
		"wide ends":   {{-1, 1.5}, {0, 0.6}, {1, 1.5}},
		"one side":    {{-0.5, 0.3}, {0.5, 1.6}},
	}
	for band, b := range rimBands() {
		for curve, along := range curves {
			for _, follow := range []string{"", FollowWidth} {
				name := band + ", " + curve + ", " + follow
				s, err := Lay(rimDesign(b, follow, along))
				require.NoError(t, err, name)
				require.NotEmpty(t, s.Openings, name)
				half, reached := s.Flat.Length/2, 0
				for _, o := range s.Openings {
					for i := range o.Loop {
						e := o.Loop.Edge(i)
						for _, p := range []plane.Point{e.A, e.At(0.5)} {
							near := s.Flat.Outline.Nearest(p)
							if b.Kind != unroll.Cuff { // the seam is no edge
								bottom, top := s.Flat.EdgesAt(p.X)
								near = plane.Gap{A: p, B: plane.Pt(p.X, top), D: math.Min(p.Y-bottom, top-p.Y)}
							}
							asked := math.Max(1, 2*GradeCurve(curveThere(along, b))(near.B.X/half))
							if b.Kind == unroll.Cuff && math.Abs(near.B.X) > half-13 {
								// Beside an end the edge's own curve bends; the end's width holds.
								asked = math.Min(asked, math.Max(1, 2*GradeCurve(along)(math.Copysign(1, near.B.X))))
							}
							// On a sloping edge the upright and the nearest position differ a
							// little along, and so does the rim.
							require.GreaterOrEqual(t, near.D, asked-0.06, "%s: opening %d at %v", name, o.Number, p)
							if near.D < asked+0.02 {
								reached++
							}
						}
					}
				}
				assert.Greater(t, reached, 20, "%s: openings come up to the rim", name)
			}
		}
	}
}

// curveThere is the curve as it runs over the seam of a closed band.
func curveThere(along []Grade, b unroll.Band) []Grade {
	if b.Kind == unroll.Cuff {
		return along
	}
	var out []Grade
	for _, turn := range []float64{-2, 0, 2} {
		for _, p := range along {
			if p.At += turn; len(out) == 0 || p.At > out[len(out)-1].At {
				out = append(out, p)
			}
		}
	}
	return out
}

// Rows that follow the width fill what the rims leave. On a strip of one width with a
// rim r(x), one row of squares leaves W - 2 r(x) open at the middle of each.
func TestRowsThatFollowTheWidthFollowTheRim(t *testing.T) {
	d := rimDesign(rimBands()["cuff"], FollowWidth, []Grade{{-1, 0.5}, {0, 2}, {1, 0.5}})
	d.Rules.CornerMM, d.Fields[0].Rows = 0, 1
	s, err := Lay(d)
	require.NoError(t, err)
	require.Len(t, s.Openings, 24)
	asked := GradeCurve(d.Rules.RimAlong)
	for _, o := range s.Openings {
		x := o.Box.Centre().X
		open := 0.0
		for _, y := range []float64{-1, 1} {
			for v := 0.0; o.Loop.Contains(plane.Pt(x, y*v)); v += 0.005 {
				open += 0.005
			}
		}
		assert.InDelta(t, 24-2*2*asked(x/(s.Flat.Length/2)), open, 0.06, "opening %d", o.Number)
	}
}

func TestARimAlikeAllAlongIsThePlainOne(t *testing.T) {
	for band, b := range rimBands() {
		plain := rimDesign(b, FollowWidth, nil)
		along := rimDesign(b, FollowWidth, []Grade{{-1, 1}, {0.3, 1}})
		want, err := Lay(plain)
		require.NoError(t, err, band)
		got, err := Lay(along)
		require.NoError(t, err, band)
		assert.Equal(t, want.Openings, got.Openings, band)
		// Under the bridge rule a curve changes nothing.
		plain.Rules.RimMM, along.Rules.RimMM = 1, 1
		along.Rules.RimAlong = []Grade{{-1, 0.2}, {0, 1}, {1, 0.3}}
		want, err = Lay(plain)
		require.NoError(t, err, band)
		got, err = Lay(along)
		require.NoError(t, err, band)
		assert.Equal(t, want.Openings, got.Openings, band)
	}
}

func TestAMirroredRimGivesAMirroredSheet(t *testing.T) {
	for band, b := range rimBands() {
		if len(b.TopEdge) > 0 {
			continue
		}
		d := rimDesign(b, FollowWidth, []Grade{{-1, 0.5}, {0.2, 1.2}, {0.8, 0.8}})
		m := d
		m.Rules.RimAlong = []Grade{{-0.8, 0.8}, {-0.2, 1.2}, {1, 0.5}}
		a, err := Lay(d)
		require.NoError(t, err, band)
		c, err := Lay(m)
		require.NoError(t, err, band)
		require.Len(t, c.Openings, len(a.Openings), band)
		left, right := 0.0, 0.0
		for i := range a.Openings {
			left += a.Openings[i].Loop.Area() * a.Openings[i].Loop.Centroid().X
			right += c.Openings[i].Loop.Area() * c.Openings[i].Loop.Centroid().X
		}
		assert.Greater(t, math.Abs(left), 1.0, band)
		assert.InEpsilon(t, left, -right, 1e-3, band)
	}
}
