package mesh

import (
	"math"
	"testing"

	"fretband/pattern"
	"fretband/unroll"

	"github.com/stretchr/testify/require"
)

// formsOn returns the forms of parts on a round bangle.
func formsOn(t *testing.T, parts ...pattern.Added) *Forms {
	t.Helper()
	s, err := pattern.Lay(pattern.Design{
		Name: "Forms", Metal: pattern.Metal{Alloy: "sterling-925"},
		Band: unroll.Band{
			Kind: unroll.Bangle, Joint: unroll.Seamless, Thickness: unroll.Thickness{MM: 1.2}, WidthMM: 20, EndWidthMM: 20, NeutralK: 0.5,
			Inside: unroll.Inside{By: unroll.ByAxes, WidthMM: 60, HeightMM: 60},
		},
		Rules: pattern.DesignRules{BridgeMM: 1, RimMM: 1},
		Added: parts,
	})
	require.NoError(t, err)
	return Added(s, nil)
}

// enclosed is the volume inside of triangles that all look outwards, by the divergence theorem.
func enclosed(f *Forms) float64 {
	v := 0.0
	for _, t := range f.Triangles {
		a, b, c := f.Vertices[t.V[0]], f.Vertices[t.V[1]], f.Vertices[t.V[2]]
		v += dot(a, cross(b, c)) / 6
	}
	return v
}

// A ball of 12 x 6 flat faces is a tenth smaller than the true one; a wire on a bangle holds what
// Pappus says but for its chords. Either would come out wrong, or negative, if a face looked
// inwards.
func TestFormsAreClosedAndHoldWhatTheyShould(t *testing.T) {
	bead := formsOn(t, pattern.Added{Kind: pattern.BeadsPart, Count: 1, WidthMM: 3})
	require.InDelta(t, math.Pi/6*27, enclosed(bead), 0.15*math.Pi/6*27)
	for section, area := range map[string]float64{"square": 4, "round": math.Pi, "half-round": math.Pi / 2} {
		centre := map[string]float64{"square": 1, "round": 1, "half-round": 0.4244}[section]
		wire := formsOn(t, pattern.Added{Kind: pattern.WirePart, Section: section, WidthMM: 2, Row: pattern.RowTop})
		want := 2 * math.Pi * (31.2 + centre) * area
		if section == "square" {
			require.InDelta(t, want, enclosed(wire), 0.01*want, section)
		} else {
			require.InDelta(t, want, enclosed(wire), 0.08*want, "%s, of few chords", section)
		}
	}
}

// Every cut, with and without a bezel, stands on the outer face and no higher than it may, and its
// directions look away from the band's axis or along the surface.
func TestFormsStandOnTheOuterFace(t *testing.T) {
	for _, cut := range []string{"round", "oval", "square", "pear", "heart", "marquise", "emerald", "cushion", "cabochon", "round-cabochon"} {
		a := pattern.Added{Kind: pattern.StonePart, Cut: cut, Gem: "quartz", WidthMM: 6, DepthMM: 3}
		if cut == "oval" || cut == "pear" || cut == "heart" || cut == "marquise" || cut == "emerald" || cut == "cabochon" {
			a.HeightMM = 5
		}
		for _, setting := range []string{"", pattern.Bezel} {
			if a.Setting = setting; setting != "" {
				a.WallMM, a.RiseMM = 0.4, 2
			}
			f := formsOn(t, a)
			require.NotEmpty(t, f.Triangles, cut)
			high := 0.0
			for _, v := range f.Vertices {
				r := math.Hypot(v.X, v.Y)
				require.False(t, math.IsNaN(r), cut)
				require.Greater(t, r, 29.0, "%s: not through to the wrist", cut)
				high = math.Max(high, r-31.2)
			}
			require.Less(t, high, 6.0, cut)
			require.Greater(t, high, 1.0, cut)
			require.Len(t, f.Flat, len(f.Vertices))
			for _, n := range f.Normals {
				if l := length(n); l != 0 {
					require.InDelta(t, 1, l, 1e-9)
				}
			}
		}
	}
}
