package unroll

import (
	"errors"
	"math"
	"strings"
	"testing"

	"fretband/unroll/plane"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestEveryFormUnrollsToASoundBlank(t *testing.T) {
	for name, b := range forms() {
		f := unroll(t, b)
		box := f.Outline.Bounds()
		assert.InDelta(t, f.Length, box.W(), 1e-9, name)
		assert.InDelta(t, f.Width, box.H(), 1e-9, name)
		assert.InDelta(t, 0, box.Centre().Len(), 1e-9, name)
		assert.Greater(t, f.Outline.Area(), 0.0, "counter-clockwise: %s", name)
		assert.InDelta(t, 0, f.Outline.Centroid().Len(), 1e-9, name)
		if b.Kind == Cuff {
			assert.Zero(t, f.Period)
			assert.Zero(t, f.JointStrip)
		} else {
			assert.Equal(t, f.Length, f.Period)
			assert.Equal(t, 1.5, f.JointStrip)
		}
		for i := range f.Outline {
			assert.Greater(t, f.Outline.Edge(i).Chord(), plane.Snap, "%s: edge %d", name, i)
		}
		again := unroll(t, b)
		assert.Equal(t, f, again, "the same band gives the same flat")
	}
}

func TestAConstantWidthIsAnExactRectangle(t *testing.T) {
	for _, b := range []Band{cuff(60, 48, 25, 1.2), closed(Ring, 17.2, 17.2, 1.4)} {
		f := unroll(t, b)
		require.Len(t, f.Outline, 4)
		assert.Equal(t, plane.Rect(plane.Box{Min: plane.Pt(-f.Length/2, -f.Width/2), Max: plane.Pt(f.Length/2, f.Width/2)}), f.Outline)
	}
}

// Rounding a square corner takes (1 - pi/4) r^2 (closed form).
func TestRoundedEndsOfAConstantWidth(t *testing.T) {
	for _, r := range []float64{0.5, 3, 12.5} {
		b := cuff(60, 48, 25, 1.2)
		b.EndCornerMM = r
		f := unroll(t, b)
		assert.InDelta(t, f.Length*25-(4-math.Pi)*r*r, f.Outline.Area(), 1e-9)
		assert.InDelta(t, 2*(f.Length+25)-(8-2*math.Pi)*r, f.Outline.Len(), 1e-9)
		assertSmooth(t, f.Outline)
	}
	b := cuff(60, 48, 25, 1.2)
	b.EndCornerMM = 12.5
	assert.Len(t, unroll(t, b).Outline, 6, "half round ends: two sides, four quarter circles")
}

// The area under the raised cosine is the mean of the two widths.
func TestATaperHasTheAreaOfItsFormula(t *testing.T) {
	for _, b := range []Band{
		tapered(cuff(60, 48, 25, 1.2), 30, 22),
		tapered(cuff(60, 48, 25, 1.2), 12, 30),
		tapered(closed(Bangle, 62, 54, 1.5), 12, 20),
	} {
		f := unroll(t, b)
		want := f.Length * (b.WidthMM + b.EndWidthMM) / 2
		assert.InDelta(t, want, f.Outline.Area(), 2*f.Length*plane.FitTolerance)
		for i := range f.Outline {
			p := f.Outline.Edge(i).Mid()
			if math.Abs(p.X) > f.Length/2-1e-9 {
				continue // an end
			}
			_, top := f.EdgesAt(p.X)
			assert.InDelta(t, top, math.Abs(p.Y), plane.FitTolerance*1.5)
		}
		mirrored := f.Outline.MirrorX()
		assert.InDelta(t, f.Outline.Area(), mirrored.Area(), 1e-12)
	}
}

func TestRoundedEndsOfATaper(t *testing.T) {
	for _, c := range []struct{ mid, end, r float64 }{
		{30, 22, 0.5}, {30, 22, 6}, {30, 22, 11}, {18, 26, 5}, {18, 26, 9}, {100, 40, 18},
	} {
		b := tapered(cuff(60, 48, 25, 1.2), c.mid, c.end)
		square := unroll(t, b)
		b.EndCornerMM = c.r
		f := unroll(t, b)
		assertSmooth(t, f.Outline)
		assert.InDelta(t, f.Length, f.Outline.Bounds().W(), 1e-9)
		for i := range f.Outline {
			for _, k := range []float64{0, 0.25, 0.5, 0.75} {
				p := f.Outline.Edge(i).At(k)
				_, top := f.EdgesAt(p.X)
				assert.Less(t, math.Abs(p.Y), top+1.5*plane.FitTolerance, "rounding only takes away")
			}
		}
		// On an end that runs level the corner is nearly square, so nearly
		// (4 - pi) r^2 is taken; a steep taper takes more.
		taken := square.Outline.Area() - f.Outline.Area()
		assert.Greater(t, taken, 0.0)
		if math.Abs(c.mid-c.end) < 10 {
			assert.InDelta(t, (4-math.Pi)*c.r*c.r, taken, 0.2*c.r*c.r, "%v", c)
		}
		arcs := 0
		for i := range f.Outline {
			if e := f.Outline.Edge(i); !e.IsLine() && math.Abs(e.Radius()-c.r) < 1e-9 {
				arcs++
			}
		}
		assert.Equal(t, 4, arcs, "%v: four corners of the radius asked", c)
	}
}

// assertSmooth holds a loop to having no corner sharper than the fit explains.
func assertSmooth(t *testing.T, l plane.Loop) {
	t.Helper()
	for i := range l {
		a, b := l.Edge(i), l.Edge((i+1)%len(l))
		turn := math.Abs(math.Atan2(a.Tangent(1).Cross(b.Tangent(0)), a.Tangent(1).Dot(b.Tangent(0))))
		assert.Less(t, turn, 2e-3, "corner at %v", b.A)
	}
}

func TestTheInsideMayBeGivenInSeveralWays(t *testing.T) {
	base := closed(Bangle, 60, 48, 1.2)
	direct := unroll(t, base)
	c := direct.Oval.Circumference()
	for _, in := range []Inside{
		{By: ByCircumference, CircumferenceMM: c, Ratio: 1.25},
		{By: ByWrist, WristMM: c - 12, EaseMM: 12, Ratio: 1.25},
		{By: ByWrist, WristMM: c + 3, EaseMM: -3, Ratio: 1.25},
	} {
		b := base
		b.Inside = in
		f := unroll(t, b)
		assert.InDelta(t, 30, f.Oval.A, 1e-11)
		assert.InDelta(t, 24, f.Oval.B, 1e-11)
		assert.InDelta(t, direct.Length, f.Length, 1e-10)
	}
	ring := closed(Ring, 17, 17, 1.4)
	ring.Inside = Inside{By: BySize, Scale: "iso", Size: "54"}
	assert.InDelta(t, 54+math.Pi*1.4, unroll(t, ring).Length, 1e-10, "ISO 8653: the size is the inner circumference")
	ring.Inside = Inside{By: BySize, Scale: "us", Size: "7"}
	assert.InDelta(t, 17.3228, 2*unroll(t, ring).Oval.A, 1e-4)
	bangle := base
	bangle.Inside = Inside{By: BySize, Scale: "bangle", Size: "2-4"}
	assert.InDelta(t, 57.15, 2*unroll(t, bangle).Oval.A, 1e-9)
	gauge := base
	gauge.Thickness = Thickness{BSGauge: 18}
	assert.InDelta(t, 1.0237, unroll(t, gauge).Thickness, 1e-4)
}

// The sum of metal and gap inside is the wrist and its ease (hillcountrylapidary.com:
// total inside = metal + gap).
func TestACuffsInsideCountsMetalAndGap(t *testing.T) {
	b := cuff(60, 48, 28, 1.2)
	b.Inside = Inside{By: ByWrist, WristMM: 165, EaseMM: 10, Ratio: 1.25}
	f := unroll(t, b)
	metal := f.Length - f.Neutral*2*f.Oval.turnAll(f)
	assert.InDelta(t, 175, metal+f.GapInner, 1e-8)
}

// turnAll returns half the angle that the metal turns through.
func (o Oval) turnAll(f Flat) float64 {
	_, n, _ := f.Station(f.Length / 2)
	return math.Atan2(-n.X, n.Y)
}

func TestNumbersThatCannotBeUsedAreRefused(t *testing.T) {
	type change func(*Band)
	cuffs := cuff(60, 48, 25, 1.2)
	ring := closed(Ring, 17.2, 17.2, 1.4)
	nan, inf := math.NaN(), math.Inf(1)
	for _, c := range []struct {
		from   Band
		change change
		path   string
		part   string
	}{
		{cuffs, func(b *Band) { b.Kind = "" }, "band.kind", `must be "cuff", "bangle" or "ring"; it is ""`},
		{cuffs, func(b *Band) { b.Kind = "Cuff" }, "band.kind", `it is "Cuff"`},
		{cuffs, func(b *Band) { b.Inside.By = "feel" }, "band.inside.by", `"axes"`},
		{cuffs, func(b *Band) { b.Inside.WidthMM = 600 }, "band.inside.width_mm", "from 8 to 150 mm; it is 600"},
		{cuffs, func(b *Band) { b.Inside.WidthMM = nan }, "band.inside.width_mm", "it is NaN"},
		{cuffs, func(b *Band) { b.Inside.HeightMM = 0 }, "band.inside.height_mm", "from 8 to 150"},
		{cuffs, func(b *Band) { b.Inside.HeightMM = 10 }, "band.inside.height_mm", "four times"},
		{cuffs, func(b *Band) { b.Inside.Ratio = 1.2 }, "band.inside.ratio", "is not used when the inside is given by \"axes\""},
		{cuffs, func(b *Band) { b.Inside.Ratio = nan }, "band.inside.ratio", "is not used"},
		{cuffs, func(b *Band) { b.Inside.Size = "7" }, "band.inside.size", "is not used"},
		{cuffs, func(b *Band) { b.Inside = Inside{By: ByCircumference, CircumferenceMM: 170} }, "band.inside.ratio", "is missing"},
		{cuffs, func(b *Band) { b.Inside = Inside{By: ByCircumference, CircumferenceMM: 170, Ratio: 9} }, "band.inside.ratio", "0.25 to 4"},
		{cuffs, func(b *Band) { b.Inside = Inside{By: ByCircumference, CircumferenceMM: inf, Ratio: 1} }, "band.inside.circumference_mm", "it is +Inf"},
		{cuffs, func(b *Band) { b.Inside = Inside{By: ByCircumference, CircumferenceMM: 30, Ratio: 4} }, "band.inside.circumference_mm", "each axis"},
		{cuffs, func(b *Band) { b.Inside = Inside{By: ByWrist, WristMM: 16.5, Ratio: 1.25} }, "band.inside.wrist_mm", "80 to 300 mm"},
		{cuffs, func(b *Band) { b.Inside = Inside{By: ByWrist, WristMM: 165, EaseMM: 200, Ratio: 1.25} }, "band.inside.ease_mm", "-30 to 80"},
		{cuffs, func(b *Band) { b.Inside = Inside{By: BySize, Scale: "us", Size: "7"} }, "band.inside.by", "rings and bangles"},
		{cuffs, func(b *Band) { b.GapMM = -1 }, "band.gap_mm", "from 0 to less than half"},
		{cuffs, func(b *Band) { b.GapMM = 100 }, "band.gap_mm", "85.1 mm; it is 100"},
		{cuffs, func(b *Band) { b.GapMM = nan }, "band.gap_mm", "NaN"},
		{cuffs, func(b *Band) { b.Thickness.BSGauge = 18 }, "band.thickness", "not both"},
		{cuffs, func(b *Band) { b.Thickness = Thickness{} }, "band.thickness", "is missing"},
		{cuffs, func(b *Band) { b.Thickness = Thickness{BSGauge: 40} }, "band.thickness.bs_gauge", "3 (5.83 mm) to 32 (0.20 mm); it is 40"},
		{cuffs, func(b *Band) { b.Thickness = Thickness{BSGauge: -1} }, "band.thickness.bs_gauge", "it is -1"},
		{cuffs, func(b *Band) { b.Thickness.MM = 12 }, "band.thickness.mm", "from 0.2 to 6 mm"},
		{cuffs, func(b *Band) { b.WidthMM = 0 }, "band.width_mm", "from 1 to 150 mm; it is 0"},
		{cuffs, func(b *Band) { b.EndWidthMM = -4 }, "band.end_width_mm", "it is -4"},
		{cuffs, func(b *Band) { b.EndWidthMM = 150 }, "band.end_width_mm", "45 degrees"},
		{cuffs, func(b *Band) { b.EndCornerMM = 13 }, "band.end_corner_mm", "at most 12.50 mm"},
		{cuffs, func(b *Band) { b.EndCornerMM = -1 }, "band.end_corner_mm", "it is -1"},
		{cuffs, func(b *Band) { b.Joint = Soldered }, "band.joint", "a cuff has no joint"},
		{cuffs, func(b *Band) { b.JointMM = 2 }, "band.joint_mm", "a cuff has no joint"},
		{cuffs, func(b *Band) { b.NeutralK = 0 }, "band.neutral_k", "from 0.3 to 0.6; it is 0"},
		{ring, func(b *Band) { b.GapMM = 3 }, "band.gap_mm", "a ring is closed"},
		{ring, func(b *Band) { b.EndCornerMM = 1 }, "band.end_corner_mm", "a ring is closed"},
		{ring, func(b *Band) { b.Joint = "" }, "band.joint", `"soldered" or "seamless"`},
		{ring, func(b *Band) { b.JointMM = 0 }, "band.joint_mm", "from 0.2 to 40 mm"},
		{ring, func(b *Band) { b.JointMM = 39 }, "band.joint_mm", "at most half the blank's length"},
		{ring, func(b *Band) { b.Joint = Seamless }, "band.joint_mm", "seamless"},
		{ring, func(b *Band) { b.Inside = Inside{By: ByWrist, WristMM: 165, Ratio: 1} }, "band.inside.by", "cuffs and bangles"},
		{ring, func(b *Band) { b.Inside = Inside{By: BySize, Scale: "us"} }, "band.inside.size", "is missing"},
		{ring, func(b *Band) { b.Inside = Inside{By: BySize, Size: "7"} }, "band.inside.scale", "which is meant"},
		{ring, func(b *Band) { b.Inside = Inside{By: BySize, Scale: "bangle", Size: "2-4"} }, "band.inside.scale", "the band is a ring"},
	} {
		b := c.from
		c.change(&b)
		_, err := Unroll(b)
		var field *FieldError
		require.True(t, errors.As(err, &field), "%s: %v", c.path, err)
		assert.Equal(t, c.path, field.Path)
		assert.Contains(t, field.Msg, c.part)
		assert.NotContains(t, err.Error(), "\n")
		assert.Equal(t, err, b.Check())
	}
}

func TestNotesSayWhatWasMadeOfTheInput(t *testing.T) {
	b := closed(Ring, 17.2, 17.2, 1.4)
	b.Inside = Inside{By: BySize, Scale: "us", Size: "7"}
	b.Thickness = Thickness{BSGauge: 16}
	all := strings.Join(unroll(t, b).Notes, "\n")
	assert.Contains(t, all, "17.32 mm across")
	assert.Contains(t, all, "no exact US standard")
	assert.Contains(t, all, "16 Brown & Sharpe gauge is 1.291 mm")
	assert.Contains(t, all, "wide rings sit tighter")
	over := closed(Bangle, 60, 60, 1.2)
	over.Inside = Inside{By: ByWrist, WristMM: 165, EaseMM: 20, Ratio: 1}
	assert.Contains(t, strings.Join(unroll(t, over).Notes, "\n"), "has to pass over the hand: was 165 mm taken round the wrist, or")
	assert.Contains(t, strings.Join(unroll(t, closed(Ring, 8, 8, 6)).Notes, "\n"), "twice the thickness")
}
