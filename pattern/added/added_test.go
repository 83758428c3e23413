package added

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"fretband/unroll/plane"
)

func cutOf(t *testing.T, key string) Cut {
	c, ok := CutOf(key)
	require.True(t, ok, key)
	return c
}

func gemOf(t *testing.T, key string) Gem {
	g, ok := GemOf(key)
	require.True(t, ok, key)
	return g
}

// Published formulas worked by hand on sizes of our own.
func TestStonesWeighWhatPublishedFormulasSay(t *testing.T) {
	for _, c := range []struct {
		cut, gem       string
		l, w, d, carat float64
		source         string
	}{
		{"round", Diamond, 6.08, 0, 3.63, 0.8185, "D^2 x depth x 0.0061, a1-diamond's table"},
		{"oval", "coral", 8, 6, 4, 1.0388, "mean^2 x depth x SG x 0.0020 at SG 2.65, International Gem Society"},
		{"cabochon", "turquoise", 18, 13, 6, 10.4626, "L x W x H x SG x 0.0027, International Gem Society"},
		{"emerald", Diamond, 6, 4, 2.5, 6 * 4 * 2.5 * 0.0092, "factor at 1.5 : 1, a1-diamond"},
		{"emerald", Diamond, 6, 3, 2, 6 * 3 * 2 * 0.0100, "factor at 2 : 1, a1-diamond"},
		{"emerald", "beryl", 7, 5, 3, 7 * 5 * 3 * 2.72 * 0.0025, "International Gem Society"},
		{"marquise", "quartz", 8, 4, 3, 8 * 4 * 3 * 2.66 * 0.0017, "International Gem Society"},
		{"pear", "peridot", 9, 6, 4, 9 * 6 * 4 * 3.34 * 0.0018, "International Gem Society"},
		{"heart", "spinel", 6, 6, 4, 6 * 6 * 4 * 3.60 * 0.0021, "International Gem Society"},
		{"round", "corundum", 5, 0, 3, 25 * 3 * 4.00 * 0.0018, "International Gem Society"},
	} {
		got := cutOf(t, c.cut).Carats(gemOf(t, c.gem), c.l, c.w, c.d)
		require.InDelta(t, c.carat, got, 6e-5, "%s: %s", c.cut, c.source)
	}
	require.InDelta(t, 2.0925, 10.4626*GramsPerCarat, 1e-4)
}

// The published factors are of shapes: 0.005 ct/mm^3 (1 ct is 200 mm^3 of water) times the
// share of the box that the stone fills. None may fill less than a pyramid or more than the box.
func TestFactorsOfCutsAreThoseOfSolids(t *testing.T) {
	for _, c := range Cuts() {
		share := c.k / 0.005
		require.Greater(t, share, 1.0/3, c.Key)
		require.Less(t, share, 1.0, c.Key)
	}
	require.InDelta(t, 2*math.Pi/3/4, cutOf(t, "cabochon").k/0.005, 0.02, "half an ellipsoid, a little fuller")
}

// An equally long and wide stone weighs the same whichever way its sizes are given.
func TestLengthAndWidthMayChangePlaces(t *testing.T) {
	for _, c := range Cuts() {
		for _, g := range []Gem{gemOf(t, Diamond), gemOf(t, "opal")} {
			if !c.Even {
				require.InDelta(t, c.Carats(g, 9, 5, 3), c.Carats(g, 5, 9, 3), 1e-12, c.Key)
			}
		}
	}
}

func TestOutlinesAreSimpleAndAsLargeAsAsked(t *testing.T) {
	for _, c := range Cuts() {
		for _, z := range [][2]float64{{8, 6}, {6, 6}, {12, 3}, {1, 0.8}} {
			l := c.Outline(z[0], z[1])
			require.NoError(t, l.Check(), "%s %v", c.Key, z)
			w := z[1]
			if c.Even {
				w = z[0]
			}
			b := l.Bounds()
			require.InDelta(t, z[0], b.W(), 2*plane.FitTolerance, "%s %v", c.Key, z)
			require.InDelta(t, w, b.H(), 2*plane.FitTolerance, "%s %v", c.Key, z)
			require.InDelta(t, 0, b.Centre().Len(), plane.FitTolerance, "%s %v", c.Key, z)
			area, around := c.Girdle(z[0], z[1])
			require.InDelta(t, area, l.Area(), 2*plane.FitTolerance*around, c.Key)
			require.InDelta(t, around, l.Len(), 10*plane.FitTolerance, c.Key)
		}
	}
}

// Bezels: the strip of a round stone by Ganoksin 37651, pi (d + t); of a square one 4 s + pi t;
// of an oval one by the exact perimeter of an ellipse, which the rule of the mean diameter (here
// 49.951) misses by 0.3 mm.
func TestBezelsAreAsLongAndHeavyAsPublished(t *testing.T) {
	area, around := cutOf(t, "round").Girdle(10, 0)
	strip := BezelStrip(around, 0.3)
	require.InDelta(t, 32.3584, strip, 5e-5)
	require.InDelta(t, 0.305496, Grams(strip*0.3*3, 10.49), 1e-6)
	require.InDelta(t, 0.457121, Grams(BezelBase(area, around, 0.3)*0.5, 10.36), 1e-6, "a disc of 10.6 x 0.5 mm")

	_, around = cutOf(t, "oval").Girdle(18, 13)
	require.InDelta(t, 50.26853, BezelStrip(around, 0.4), 5e-6)

	_, around = cutOf(t, "square").Girdle(6, 0)
	require.InDelta(t, 4*6+math.Pi*0.35, BezelStrip(around, 0.35), 1e-12)
}

// The strip is the middle line of the wall: the true offset of the outline, by plane.
func TestTheStripIsTheMiddleOfTheWall(t *testing.T) {
	for _, c := range Cuts() {
		w := 7.0
		if c.Even {
			w = 9
		}
		slack := 2 * math.Pi * plane.FitTolerance // of fitted arcs
		require.InDelta(t, c.Outline(9, w).Outset(0.2)[0].Len(), c.Strip(9, w, 0.4), slack, c.Key)
		require.InDelta(t, c.Outline(9, w).Outset(0.4)[0].Area(), c.Base(9, w, 0.4), 40*slack, c.Key)
	}
}

// A half-round wire of 2 x 1 mm round a bangle of 31.2 mm outer radius: Pappus' theorem,
// 2 pi (R + c) A; and areas of plane figures.
func TestWiresHaveTheAreasAndCentroidsOfTheirSections(t *testing.T) {
	half, ok := SectionOf("half-round")
	require.True(t, ok)
	require.InDelta(t, 0.2122*2, half.Centroid(2, 0), 1e-4)
	require.InDelta(t, 3.233568, Grams(2*math.Pi*(31.2+half.Centroid(2, 0))*half.Area(2, 0), 10.36), 1e-6)

	area := map[string]float64{"round": math.Pi * 2.25 / 4, "half-round": math.Pi * 2.25 / 8, "square": 2.25, "oval": math.Pi * 1.5 * 0.8 / 4}
	for _, s := range Sections() {
		require.InDelta(t, area[s.Key], s.Area(1.5, 0.8), 1e-12, s.Key)
	}
}

func TestBeadsCloseExactly(t *testing.T) {
	d := ClosingBead(31.2, 134)
	require.InDelta(t, 1.497932, d, 1e-6)
	// Two neighbours touch: their middles are a chord d apart.
	require.InDelta(t, d, 2*(31.2+d/2)*math.Sin(math.Pi/134), 1e-12)
	// Six equal coins round one: on a circle of their own radius.
	require.InDelta(t, 2, ClosingBead(1, 6), 1e-12)

	require.Equal(t, 5, BeadsAlong(10, 2, 0, false))
	require.Equal(t, 4, BeadsAlong(10, 2, 0.5, false), "4 beads, 3 gaps: 9.5 mm")
	require.Equal(t, 4, BeadsAlong(10, 2, 0.5, true))
	require.Equal(t, 3, BeadsAlong(9.99, 2, 0.5, true))
	require.Equal(t, 0, BeadsAlong(1, 2, 0, false))
}
