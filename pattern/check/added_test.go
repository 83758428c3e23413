package check

import (
	"math"
	"testing"

	"fretband/pattern"
	"fretband/unroll"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// addedBangle is round, seamless, of sterling and 31.2 mm outer radius.
func addedBangle(parts ...pattern.Added) pattern.Design {
	d := benchBangle()
	d.Band.Inside = unroll.Inside{By: unroll.ByAxes, WidthMM: 60, HeightMM: 60}
	d.Band.Joint, d.Band.JointMM = unroll.Seamless, 0
	d.Fields = nil
	d.Added = parts
	return d
}

func measured(t *testing.T, d pattern.Design) *Report {
	t.Helper()
	s, err := pattern.Lay(d)
	require.NoError(t, err)
	return Run(s)
}

// Worked by hand from published formulas; the source stands beside each.
func TestAddedPartsWeighWhatFormulasSay(t *testing.T) {
	for _, c := range []struct {
		name         string
		part         pattern.Added
		count        int
		carat        float64
		each, total  float64
		strip, metal float64
		source       string
	}{
		{
			name: "turquoise", part: pattern.Added{Kind: pattern.StonePart, Cut: "cabochon", Gem: "turquoise", WidthMM: 18, HeightMM: 13, DepthMM: 6},
			count: 1, carat: 10.4626, each: 2.0925, total: 2.0925, source: "0.0027 x 18 x 13 x 6 x 2.76 ct, International Gem Society",
		},
		{
			name: "bezel", part: pattern.Added{Kind: pattern.StonePart, Cut: "round-cabochon", Gem: "own", SG: 2, WidthMM: 10, DepthMM: 3, Setting: pattern.Bezel, WallMM: 0.3, RiseMM: 3, Alloy: "silver-999", Count: 3, SpacingMM: 20},
			count: 3, carat: 0.0027 * 100 * 3 * 2, each: 0.324 + 0.305496, total: 3 * (0.324 + 0.305496), strip: 32.3584, metal: 0.305496,
			source: "pi (d + t) x t x h x 10.49, Ganoksin 37651",
		},
		{
			name: "wire", part: pattern.Added{Kind: pattern.WirePart, Section: "half-round", WidthMM: 2, Row: pattern.RowBoth},
			count: 2, each: 2 * 3.233568, total: 2 * 3.233568, metal: 2 * 3.233568, source: "2 pi (Ro + c) A x 10.36, Pappus",
		},
		{
			name: "beads", part: pattern.Added{Kind: pattern.BeadsPart, Row: pattern.RowTop, Count: 134},
			count: 134, each: math.Pi / 6 * math.Pow(1.497932, 3) * 0.01036, total: 134 * math.Pi / 6 * math.Pow(1.497932, 3) * 0.01036,
			metal: math.Pi / 6 * math.Pow(1.497932, 3) * 0.01036, source: "spheres that close the row",
		},
		{
			name: "part", part: pattern.Added{Kind: pattern.OtherPart, Seat: pattern.CircleShape, WidthMM: 4, WeightG: 0.7, Count: 2, SpacingMM: 10},
			count: 2, each: 0.7, total: 1.4, metal: 0.7, source: "as typed",
		},
	} {
		t.Run(c.name, func(t *testing.T) {
			r := measured(t, addedBangle(c.part))
			require.Len(t, r.Added, 1)
			p := r.Added[0]
			assert.Equal(t, c.count, p.Count)
			assert.InDelta(t, c.carat, p.Carat, 6e-5, c.source)
			assert.InDelta(t, c.each, p.Each, 3e-5, c.source)
			assert.InDelta(t, c.total, p.Total, 1e-4, c.source)
			assert.InDelta(t, c.strip, p.Strip, 5e-5, c.source)
			assert.InDelta(t, c.metal, p.MetalGrams, 2e-6, c.source)
			assert.InDelta(t, p.Total, r.AddedGrams, 1e-12)
		})
	}
}

// Two weights hang from their common centre of gravity: a part of 5 g on a round closed band of
// m g, whose own centre is on the axis, draws it out by 5 R/(m + 5). Wire and beads all round do
// not.
func TestAddedPartsDrawTheCentreOfGravity(t *testing.T) {
	d := addedBangle(pattern.Added{Kind: pattern.OtherPart, Seat: pattern.CircleShape, WidthMM: 4, WeightG: 5})
	r := measured(t, d)
	assert.InDelta(t, 5*31.2/(r.Left+5), r.Hang.Off, 1e-6)
	assert.InDelta(t, 0, r.Hang.Angle, 1e-9, "to the front, where it is")

	d.Added[0].XMM = r.BlankLen / 4
	r = measured(t, d)
	assert.InDelta(t, math.Pi/2, r.Hang.Angle, 1e-6, "to the right")

	r = measured(t, addedBangle(pattern.Added{Kind: pattern.WirePart, Section: "round", WidthMM: 1, Row: pattern.RowTop}, pattern.Added{Kind: pattern.BeadsPart, Row: pattern.RowTop, InsetMM: 1, Count: 100}))
	assert.InDelta(t, 0, r.Hang.Off, 1e-4)
	assert.Greater(t, r.Hang.Centre.Z, 0.5, "but to their edge")
}

func TestPricesOfAddedParts(t *testing.T) {
	d := addedBangle(
		pattern.Added{Kind: pattern.OtherPart, Seat: pattern.CircleShape, WidthMM: 2, Count: 3, SpacingMM: 9, Price: 4, WeightG: 1},
		pattern.Added{Kind: pattern.WirePart, Section: "half-round", WidthMM: 2, Row: pattern.RowTop},
		pattern.Added{Kind: pattern.WirePart, Section: "half-round", WidthMM: 2, Row: pattern.RowBottom, Alloy: "gold-750-yellow"},
	)
	d.Metal.PricePerG = 1.5
	r := measured(t, d)
	assert.InDelta(t, 12, r.Added[0].Cost, 1e-12, "three at 4")
	assert.InDelta(t, 1.5*3.233568, r.Added[1].Cost, 1e-5, "at the band's price")
	assert.Zero(t, r.Added[2].Cost, "of another metal no price is known")
	assert.InDelta(t, 12+1.5*3.233568, r.AddedCost, 1e-5)
}

func TestPartsSideBySideAreNoFault(t *testing.T) {
	r := measured(t, addedBangle(
		pattern.Added{Kind: pattern.WirePart, Section: "round", WidthMM: 1, Row: pattern.RowBoth},
		pattern.Added{Kind: pattern.BeadsPart, Row: pattern.RowBoth, InsetMM: 1, Count: 120},
		pattern.Added{Kind: pattern.StonePart, Cut: "cabochon", Gem: "opal", WidthMM: 8, HeightMM: 6, DepthMM: 3, Setting: pattern.Bezel, WallMM: 0.3, RiseMM: 2, XMM: 95},
	))
	for _, f := range r.Findings {
		assert.NotContains(t, f.Kind.Key, "added", f.What)
	}
}
