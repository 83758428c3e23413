package check

import (
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
		h := Run(s).Hang
		const area, ring = math.Pi * hole * hole, 2 * math.Pi * r * w
		want := area * r * (1 - hole*hole/r/r/8) / (ring - area)
		assert.InDelta(t, want, h.Off, 0.01)
		assert.Equal(t, c.side, h.Words())
	}
	h := Run(pierced(t, b, plane.Circle(plane.Point{}, 4))).Hang
	assert.InDelta(t, 16*math.Pi*r/(2*math.Pi*r*w-16*math.Pi), h.Off, 0.01) // under a thirtieth of 61 mm
	assert.Equal(t, "nearly balanced", h.Words())
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
		b := Run(s).Springback
		x := b.Round * c.mpa / (c.gpa * 1000 * c.mm)
		assert.InEpsilon(t, b.Round/(4*x*x*x-3*x+1), c.inside/2, 1e-9, c.alloy)
		assert.InDelta(t, c.inside/2, b.Inside, 1e-9)
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
		b := Run(s).Springback
		assert.Zero(t, b.Round)
		assert.False(t, b.Most)
	}
}

// Sheet that hardly takes its curve is told. By hand, with titanium of 275 MPa and 102 GPa
// (MatWeb, annealed sheet) 0.3 mm thick: bent round 37.5 mm, x = 37.5 275 / (102000 0.3) =
// 0.337 and it springs open to 37.5 / (4 0.337³ - 3 0.337 + 1) = 264 mm, past the 75; of
// 1.2 mm, x = 0.084 and it springs open to 50 mm, short of it.
func TestSheetThatMostlySpringsBackIsTold(t *testing.T) {
	d := benchBangle()
	d.Metal.Alloy, d.Band.Inside.WidthMM, d.Band.Inside.HeightMM = "titanium-2", 150, 150
	_, ok := worst(Run(laid(t, d)), "springback")
	assert.False(t, ok)
	d.Band.Thickness.MM = 0.3
	f, ok := worst(Run(laid(t, d)), "springback")
	require.True(t, ok)
	assert.Equal(t, Note, f.Severity)
	assert.Equal(t, "Sheet of 0.30 mm bent to a radius of 75.0 mm springs back from less than half of that.", f.What)
}

// What is left solid is counted by reason, and told where it is a quarter of the pattern by area: here 9 mm² of 9 + 27.
func TestPlacesLeftSolidAreCountedByReasonAndToldWhereTheyAreMany(t *testing.T) {
	s := &pattern.Sheet{}
	for i, why := range []string{"too small", "cut in two", "too small", "too small"} {
		s.Dropped = append(s.Dropped, pattern.Dropped{Why: why, At: plane.Pt(float64(i), 1), Area: 2})
	}
	s.Dropped[1].Area = 3
	gs := leftSolid(s)
	require.Len(t, gs, 2)
	assert.Equal(t, []string{"cut in two", "too small"}, []string{gs[0].Why, gs[1].Why})
	assert.Equal(t, []plane.Point{{X: 0, Y: 1}, {X: 2, Y: 1}, {X: 3, Y: 1}}, gs[1].At)
	assert.Equal(t, []float64{3, 6}, []float64{gs[0].Area, gs[1].Area})
	r := &Report{LeftSolid: gs, Dropped: 4, Openings: 9, CutArea: 27}
	fs := checkDropped(s, r)
	require.Len(t, fs, 1)
	assert.Equal(t, "25 % of the pattern is left solid, 4 places; most of it is too small.", fs[0].What)
	assert.Len(t, fs[0].At, 4)
	r.CutArea = 28
	assert.Empty(t, checkDropped(s, r))
}

// Three pairs of holes, each with another thinnest bridge: to the edge, between two and
// within one. Sawn, a tenth of a mm goes a side, and half a mm should be left.
func TestAThinnestBridgeThatTheFinishTakesIsTold(t *testing.T) {
	hole := func(x, y float64) plane.Loop { return plane.Circle(plane.Pt(x, y), 3) }
	bent := plane.Polygon(plane.Pt(-6, -4), plane.Pt(6, -4), plane.Pt(6, 4), plane.Pt(0.3, 4), plane.Pt(0.3, 2), plane.Pt(4, 2), plane.Pt(4, -2), plane.Pt(-4, -2), plane.Pt(-4, 2), plane.Pt(-0.3, 2), plane.Pt(-0.3, 4), plane.Pt(-6, 4))
	for _, c := range []struct {
		loops []plane.Loop
		what  string
		width float64
	}{
		{[]plane.Loop{hole(0, 0), hole(20, 8.4)}, "The thinnest bridge, 0.60 mm between opening 2 and the edge, is about 0.40 mm once it is finished.", 0.6},
		{[]plane.Loop{hole(20, 7), hole(0, 0), hole(13.5, 7)}, "The thinnest bridge, 0.50 mm between openings 1 and 3, is about 0.30 mm once it is finished.", 0.5},
		{[]plane.Loop{hole(20, 7), bent}, "The thinnest bridge, 0.60 mm within the edge of opening 2, is about 0.40 mm once it is finished.", 0.6},
		{[]plane.Loop{hole(20, 7), hole(0, 0), hole(13.3, 7)}, "", 0.7},
	} {
		f, ok := worst(Run(pierced(t, openStrip(160, 24), c.loops...)), "thinnest-bridge")
		if require.Equal(t, c.what != "", ok, c.what); !ok {
			continue
		}
		assert.Equal(t, c.what, f.What)
		assert.InDelta(t, c.width, f.Value, 1e-9)
		require.Len(t, f.At, 2)
		assert.InDelta(t, c.width, f.At[0].Dist(f.At[1]), 1e-9)
	}
}

// Weak ways are told with their metal, how many bridges they pass and their share of the full
// section; one that passes none is not, and none that passes much.
func TestWeakWaysAreToldWithTheirShare(t *testing.T) {
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
	assert.Equal(t, "The weakest way from edge to edge passes only 4.50 mm of metal in 3 bridges, 19 % of the full 24.0 mm.", fs[0].What) // 4.5/24
	assert.Equal(t, "The weakest way lengthwise passes only 4.00 mm of metal in 1 bridge, 2 % of the full 160.0 mm.", fs[1].What)         // 4/160 is 2.5, to even
	assert.Equal(t, []Kind{KindWeakestWayAcross, KindWeakestWayAlong}, []Kind{fs[0].Kind, fs[1].Kind})
	assert.Len(t, fs[0].At, 6)
	r.Deep.WeakestPaths = WeakestPaths{Across: way(24, 3, 3), Along: way(160, 16)}
	assert.Empty(t, checkWeakestPaths(nil, r), "a quarter across, a tenth along")
	r.Deep.WeakestPaths = WeakestPaths{Across: way(24, 1.5, 1, 2), Along: way(160)}
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
	s := &pattern.Sheet{Rule: 1, Design: benchCuff(), Flat: unroll.Flat{Thickness: 1.25}}
	s.Process = "saw"
	b := func(kind BridgeKind, width, usual float64) NarrowBridge {
		return NarrowBridge{Bridge: Bridge{Width: width, Rule: 1, From: 3, To: 8}, Kind: kind, Length: 2, Usual: usual}
	}
	fs := checkNarrowBridges(s, &Report{Deep: &Deep{NarrowBridges: 3, Bridges: []NarrowBridge{
		b(BetweenOpenings, 0.7, 1.25), b(BetweenOpenings, 0.8, 1.25), b(BetweenOpenings, 1.05, 1.25),
	}}})
	require.Len(t, fs, 2)
	assert.Equal(t, []Severity{Breach, Note}, []Severity{fs[0].Severity, fs[1].Severity})
	assert.Equal(t, "2 bridges between openings are under the rule; the worst, between openings 3 and 8, is 0.700 mm wide over 2.00 mm, 0.300 mm under the 1.000 mm asked for.", fs[0].What)
	assert.Equal(t, "1 bridge is thinner than the usual least of 1.25 mm (sawn by hand); the thinnest, between openings 3 and 8, is 1.05 mm wide over 2.00 mm.", fs[1].What)
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
	r := Run(s)
	f, ok := worst(r, "doming")
	require.True(t, ok)
	weight := (s.Flat.Outline.Area() - 9*math.Pi) * 8.96 / 1000
	assert.InDelta(t, weight, r.Doming.BlankG, 1e-9)
	assert.InDelta(t, 100*r.Doming.Most, f.Value, 1e-12)
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
