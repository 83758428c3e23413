package check

import (
	"fmt"
	"math"
	"testing"

	"fretband/pattern"
	"fretband/unroll"
	"fretband/unroll/plane"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// A hole of the area A in a thin ring of the mean radius R and the width W takes its
// centre of gravity A R / (2 pi R W - A) away from the hole (any handbook of mechanics:
// composite bodies; a round hole of the half angle a weighs as if 1 - a²/8 nearer to the axis).
func TestABandTurnsItsHeavySideDown(t *testing.T) {
	const r, w, hole = 30.0, 20.0, 9.0
	b := strip(2*math.Pi*r, w)
	for _, c := range []struct {
		deg  float64 // of the hole, from the front to the right
		side string
	}{
		{0, "towards the back"}, {14, "towards the back"}, {-14, "towards the back"}, {16, "164 degrees from the front to the left"},
		{-16, "164 degrees from the front to the right"}, {90, "90 degrees from the front to the left"}, {-120, "60 degrees from the front to the right"},
		{164, "16 degrees from the front to the left"}, {166, "towards the front"}, {-166, "towards the front"},
	} {
		s := pierced(t, b, plane.Circle(plane.Pt(c.deg*math.Pi/180*r, 0), hole))
		f, ok := worst(Run(s), "balance")
		require.True(t, ok)
		const area, ring = math.Pi * hole * hole, 2 * math.Pi * r * w
		want := area * r * (1 - hole*hole/r/r/8) / (ring - area)
		assert.InDelta(t, want, f.Value, 0.01)
		assert.Equal(t, fmt.Sprintf("The centre of gravity is %.1f mm from the middle of the inside, %s.", want, c.side), f.What)
	}
	f, ok := worst(Run(pierced(t, b, plane.Circle(plane.Point{}, 4))), "balance")
	require.True(t, ok)
	assert.InDelta(t, 16*math.Pi*r/(2*math.Pi*r*w-16*math.Pi), f.Value, 0.01) // under a thirtieth of 61 mm
	assert.Contains(t, f.What, "Nearly balanced: the centre of gravity is 0.4 mm from")
}

// The radius told is the one from which the textbook's formula leads back to the inside.
func TestTheBenderIsToldTheRadiusOfTheTextbook(t *testing.T) {
	for _, c := range []struct {
		alloy      string
		mpa, gpa   float64 // Smithells, table 22.7, and Olin's data sheet, as in the table of tempers
		inside, mm float64
	}{{"copper", 54, 117, 58, 1}, {"copper", 54, 117, 30, 0.4}, {"brass-cuzn30", 145, 110, 62, 1.2}} {
		d := benchBangle()
		d.Metal.Alloy, d.Band.Inside.WidthMM, d.Band.Inside.HeightMM, d.Band.Thickness.MM = c.alloy, c.inside, c.inside, c.mm
		s := laid(t, d)
		f, ok := worst(Run(s), "springback")
		require.True(t, ok)
		x := f.Value * c.mpa / (c.gpa * 1000 * c.mm)
		assert.InEpsilon(t, f.Value/(4*x*x*x-3*x+1), c.inside/2, 1e-9, c.alloy)
		assert.InDelta(t, c.inside/2, f.Limit, 1e-9)
		assert.Equal(t, fmt.Sprintf("Bend it round a radius of about %.1f mm: it springs open to %.1f mm.", f.Value, c.inside/2), f.What)
	}
	// Nothing is said of what is not bent, and of metal that no source gives.
	for _, change := range []func(*pattern.Design){
		func(d *pattern.Design) { d.Band.Making = unroll.Formed },
		func(d *pattern.Design) { d.Metal.Alloy = "gold-585-red" },
	} {
		d := benchBangle()
		d.Metal.Alloy = "copper"
		change(&d)
		s := laid(t, d)
		_, ok := worst(Run(s), "springback")
		assert.False(t, ok)
	}
}

// What is left solid is counted by reason, in the order in which the reasons come.
func TestPlacesLeftSolidAreCountedByReason(t *testing.T) {
	s := &pattern.Sheet{}
	for i, why := range []string{"too small", "cut in two", "too small", "too small"} {
		s.Dropped = append(s.Dropped, pattern.Dropped{Why: why, At: plane.Pt(float64(i), 1)})
	}
	fs := checkDropped(s, nil)
	require.Len(t, fs, 2)
	assert.Equal(t, KindLeftSolid, fs[0].Kind)
	assert.Equal(t, "3 places are left solid: too small.", fs[0].What)
	assert.Equal(t, []plane.Point{{X: 0, Y: 1}, {X: 2, Y: 1}, {X: 3, Y: 1}}, fs[0].At)
	assert.Equal(t, "1 place is left solid: cut in two.", fs[1].What)
	assert.Equal(t, 3.0, fs[0].Value)
	assert.Equal(t, []string{"places", "place"}, []string{fs[0].Unit, fs[1].Unit})
	assert.Empty(t, checkDropped(&pattern.Sheet{}, nil))
}

func TestWhatUnrollingSaysIsPassedOnInSentences(t *testing.T) {
	s := &pattern.Sheet{Flat: unroll.Flat{Notes: []string{"équidistant", "It ends."}}, Design: benchCuff()}
	fs := checkBand(s, nil)
	require.Len(t, fs, 2)
	assert.Equal(t, []string{"Équidistant.", "It ends."}, []string{fs[0].What, fs[1].What})
	assert.Equal(t, []Kind{KindBand, KindBand}, []Kind{fs[0].Kind, fs[1].Kind})
}

// Three pairs of holes, each with another thinnest bridge: to the edge, between two and
// within one.
func TestTheThinnestBridgeIsToldWithWhatItStandsBetween(t *testing.T) {
	hole := func(x, y float64) plane.Loop { return plane.Circle(plane.Pt(x, y), 3) }
	bent := plane.Polygon(plane.Pt(-6, -4), plane.Pt(6, -4), plane.Pt(6, 4), plane.Pt(0.6, 4), plane.Pt(0.6, 2), plane.Pt(4, 2), plane.Pt(4, -2), plane.Pt(-4, -2), plane.Pt(-4, 2), plane.Pt(-0.6, 2), plane.Pt(-0.6, 4), plane.Pt(-6, 4))
	for _, c := range []struct {
		loops []plane.Loop
		what  string
		width float64
	}{
		{[]plane.Loop{hole(0, 0), hole(20, 7.5)}, "The thinnest bridge is 1.500 mm, between opening 2 and the edge; the rule is 1.000 mm.", 1.5},
		{[]plane.Loop{hole(20, 7), hole(0, 0), hole(13.1, 7)}, "The thinnest bridge is 0.900 mm, between openings 1 and 3; the rule is 1.000 mm.", 0.9},
		{[]plane.Loop{hole(20, 7), bent}, "The thinnest bridge is 1.200 mm, within the edge of opening 2; the rule is 1.000 mm.", 1.2},
	} {
		f, ok := worst(Run(pierced(t, openStrip(160, 24), c.loops...)), "thinnest-bridge")
		require.True(t, ok)
		assert.Equal(t, c.what, f.What)
		assert.InDelta(t, c.width, f.Value, 1e-9)
		require.Len(t, f.At, 2)
		assert.InDelta(t, c.width, f.At[0].Dist(f.At[1]), 1e-9)
	}
}

// The weakest ways are told with their metal, how many bridges they pass and their share
// of the full section; one that passes none is not.
func TestTheWeakestWaysAreToldWithTheirShare(t *testing.T) {
	way := func(full float64, widths ...float64) WeakestPath {
		c := WeakestPath{Full: full}
		for i, w := range widths {
			c.Metal += w
			c.Bridges = append(c.Bridges, Bridge{Width: w, A: plane.Pt(float64(i), 0), B: plane.Pt(float64(i), w)})
		}
		return c
	}
	r := &Report{Openings: 3, Deep: &Deep{WeakestPaths: WeakestPaths{Across: way(24, 1.5, 1, 2), Along: way(160, 4)}}}
	fs := checkWeakestPaths(nil, r)
	require.Len(t, fs, 2)
	assert.Equal(t, "The weakest way from edge to edge passes 4.50 mm of metal in 3 bridges, 19 % of the full section.", fs[0].What) // 4.5/24
	assert.Equal(t, "The weakest way lengthwise passes 4.00 mm of metal in 1 bridge, 2 % of the full section.", fs[1].What)          // 4/160 is 2.5, to even
	assert.Equal(t, []Kind{KindWeakestWayAcross, KindWeakestWayAlong}, []Kind{fs[0].Kind, fs[1].Kind})
	assert.Len(t, fs[0].At, 6)
	r.Deep.WeakestPaths.Along = way(160)
	assert.Len(t, checkWeakestPaths(nil, r), 1)
	r.Openings = 0
	assert.Empty(t, checkWeakestPaths(nil, r))
}

// A square reserve of 8 mm reaches 3 mm over the top edge at y = 12, by hand: 5/8 of it
// are on metal.
func TestAReserveOffTheBlankIsToldByItsShareOnMetal(t *testing.T) {
	d := pattern.Design{
		Name: "by hand", Band: openStrip(160, 24), Metal: pattern.Metal{Alloy: "copper"}, Rules: pattern.DesignRules{BridgeMM: 1, RimMM: 1},
		Reserves: []pattern.Reserve{{Shape: pattern.CircleShape, WidthMM: 4}, {Shape: pattern.RectangleShape, YMM: 11, WidthMM: 8, HeightMM: 8}},
	}
	s := laid(t, d)
	fs := checkReserves(s, nil)
	require.Len(t, fs, 1)
	assert.Equal(t, "Reserve 2 (rectangle) stands partly off the blank: 62 % of it is on metal.", fs[0].What)
	assert.InDelta(t, 40, fs[0].Value, 1e-6)
	assert.InDelta(t, 64, fs[0].Limit, 1e-9)
}

// What is told of narrow bridges: how many, which is worst, and by how much.
func TestNarrowBridgesAreToldWithWhatTheyLack(t *testing.T) {
	s := &pattern.Sheet{Rule: 1, Design: benchCuff()}
	s.Process = "saw"
	b := func(kind BridgeKind, width, usual float64) NarrowBridge {
		return NarrowBridge{Bridge: Bridge{Width: width, Rule: 1, From: 3, To: 8}, Kind: kind, Length: 2, Usual: usual}
	}
	fs := checkNarrowBridges(s, &Report{Deep: &Deep{Bridges: []NarrowBridge{
		b(BetweenOpenings, 0.7, 1.25), b(BetweenOpenings, 0.8, 1.25), b(BetweenOpenings, 1.05, 1.25),
	}}})
	require.Len(t, fs, 2)
	assert.Equal(t, "2 bridges between openings are under the rule; the worst, between openings 3 and 8, is 0.700 mm wide over 2.00 mm, 0.300 mm under the 1.000 mm asked for.", fs[0].What)
	assert.Equal(t, "1 bridge between openings is under the usual 1.25 mm (sawn by hand); the worst, between openings 3 and 8, is 1.050 mm wide over 2.00 mm, 0.200 mm under it.", fs[1].What)
	assert.Len(t, fs[1].Fixes, 1)
}

// A rim under the bridge rule of 1.3 mm may be raised to it or to half as much again.
func TestARimIsRaisedToTheRuleOrToHalfAsMuchAgain(t *testing.T) {
	d := benchCuff()
	d.Rules.RimMM = 0.8
	s := laid(t, d)
	f, ok := worst(Run(s), "rim")
	require.True(t, ok)
	require.Len(t, f.Fixes, 2)
	assert.Equal(t, []string{"Set the rim to 1.3 mm", "Set the rim to 1.95 mm"}, []string{f.Fixes[0].Title, f.Fixes[1].Title})
	assert.InDelta(t, 1.3, f.Fixes[0].Design.Rules.RimMM, 1e-9)
	assert.InDelta(t, 1.95, f.Fixes[1].Design.Rules.RimMM, 1e-9)
}

// Beside the blank's weight once domed that of the flat sheet is told: copper of 8.96 g/cm³,
// 1 mm thick, less a hole of 3 mm, by pencil.
func TestTheWeightOfADomedBandIsToldFlatToo(t *testing.T) {
	b := strip(160, 24)
	b.Dome, b.DomeRadiusMM, b.DomeFlat = unroll.Outward, 40, unroll.ArcLength
	s := pierced(t, b, plane.Circle(plane.Pt(5, 1), 3))
	f, ok := worst(Run(s), "doming")
	require.True(t, ok)
	weight := (s.Flat.Outline.Area() - 9*math.Pi) * 8.96 / 1000
	assert.Contains(t, f.Why, fmt.Sprintf("the pierced blank, cut flat, weighs %.2f g.", weight))
}

// The joint of a bangle keeps 3 mm solid, 1.5 at either end: a line 4 mm long that reaches
// into them is moved until it ends there, not farther.
func TestAMarkIsMovedBesideTheJoint(t *testing.T) {
	s := laid(t, benchBangle())
	end := s.Flat.Length/2 - 1.5
	for _, c := range []struct{ x, want float64 }{{end - 1, end - 2}, {-end - 0.5, -end + 2}} {
		d := benchBangle()
		d.Engravings = []pattern.Engraving{{Kind: pattern.LineEngraving, XMM: c.x, LengthMM: 4}}
		f, ok := worst(Run(laid(t, d)), "mark-over-the-joint")
		require.True(t, ok)
		require.NotEmpty(t, f.Fixes)
		moved := f.Fixes[0].Design.Engravings[0].XMM
		assert.InDelta(t, c.want, moved, 0.0101) // by hundredths, away from where it was
		assert.LessOrEqual(t, math.Abs(moved), end-2+1e-9)
	}
}

func laid(t *testing.T, d pattern.Design) *pattern.Sheet {
	t.Helper()
	s, err := pattern.Lay(d)
	require.NoError(t, err)
	return s
}
