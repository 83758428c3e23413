package check

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"fretband/pattern"
	"fretband/unroll"
)

// Each hazard is told where the metal or the hand says so, and not just beside.
// Sheet from 0.8 mm for a bracelet and 0.6 mm for a ring is common practice, thinner where
// the metal is stiffer (a plate's stiffness goes with E t³). Walls of 0.8 mm and 0.40 mm
// are those of casters (common practice; Morris & Watson). Hands of 173, 201 and wrists of
// 166 mm: US Army 2012, at second hand. The rest is ours or from memory, and says so.
func TestHazardsAreToldOfTheMetalThatIsThere(t *testing.T) {
	cuff := func(mm float64, change ...func(d *pattern.Design)) pattern.Design {
		d := benchCuff()
		d.Band.Thickness = unroll.Thickness{MM: mm}
		for _, do := range change {
			do(&d)
		}
		return d
	}
	bangle := func(change func(in *unroll.Inside)) pattern.Design {
		d := benchBangle()
		change(&d.Band.Inside)
		return d
	}
	by := func(process string) func(d *pattern.Design) {
		return func(d *pattern.Design) { d.Rules.Process = process }
	}
	of := func(alloy string) func(d *pattern.Design) {
		return func(d *pattern.Design) { d.Metal.Alloy = alloy }
	}
	kept := func(note string, w, h float64) func(d *pattern.Design) {
		return func(d *pattern.Design) {
			d.Rules.BridgeMM, d.Rules.RimMM = 1, 1
			d.Reserves = append(d.Reserves, pattern.Reserve{Shape: pattern.RectangleShape, XMM: 20, WidthMM: w, HeightMM: h, MarginMM: 0.5, Note: note})
		}
	}
	for name, c := range map[string]struct {
		design pattern.Design
		kind   Kind
		told   bool
	}{
		"a cuff of 0.5 mm":            {cuff(0.5), KindThinBand, true},
		"a cuff of 0.79 mm":           {cuff(0.79), KindThinBand, true},
		"a cuff of 0.8 mm":            {cuff(0.8), KindThinBand, false},
		"a steel cuff of 0.6 mm":      {cuff(0.6, of("steel-316l")), KindThinBand, false},
		"a steel cuff of 0.5 mm":      {cuff(0.5, of("steel-316l")), KindThinBand, true},
		"cast at 0.7 mm":              {cuff(0.7, by("cast")), KindCastWall, true},
		"cast at 0.8 mm":              {cuff(0.8, by("cast")), KindCastWall, false},
		"sawn at 0.7 mm":              {cuff(0.7, by("saw")), KindCastWall, false},
		"silver of 2 mm by laser":     {cuff(2, by("laser")), KindBeam, true},
		"silver of 1.5 mm by laser":   {cuff(1.5, by("laser")), KindBeam, false},
		"titanium of 2 mm by laser":   {cuff(2, by("laser"), of("titanium-2")), KindBeam, false},
		"silver of 2 mm by saw":       {cuff(2, by("saw")), KindBeam, false},
		"a small place for the marks": {cuff(1.2, kept("Hallmark", 2, 1)), KindMarkRoom, true},
		"a place for the marks":       {cuff(1.2, kept("Hallmark", 4, 1.5)), KindMarkRoom, false},
		"a seat is no such place":     {cuff(1.2, kept("stone seat", 4, 4)), KindMarkRoom, true},
		"brass is not marked":         {cuff(1.2, kept("stone seat", 4, 4), of("brass-cuzn30")), KindMarkRoom, false},
		"170 mm round": {bangle(func(in *unroll.Inside) {
			*in = unroll.Inside{By: unroll.ByCircumference, CircumferenceMM: 170, Ratio: 1}
		}), KindHand, true},
		"174 mm round": {bangle(func(in *unroll.Inside) {
			*in = unroll.Inside{By: unroll.ByCircumference, CircumferenceMM: 174, Ratio: 1}
		}), KindHand, false},
		"by a wrist, little ease":  {bangle(func(in *unroll.Inside) { *in = unroll.Inside{By: unroll.ByWrist, WristMM: 166, EaseMM: 30, Ratio: 1} }), KindHand, true},
		"by a wrist, for the hand": {bangle(func(in *unroll.Inside) { *in = unroll.Inside{By: unroll.ByWrist, WristMM: 166, EaseMM: 35, Ratio: 1} }), KindHand, false},
		"a ring passes no hand": {bangle(func(in *unroll.Inside) {
			*in = unroll.Inside{By: unroll.ByCircumference, CircumferenceMM: 57, Ratio: 1}
		}), KindHand, false},
	} {
		_, r, err := Lay(c.design)
		require.NoError(t, err, name)
		i := -1
		for k, f := range r.Findings {
			if f.Kind == c.kind {
				i = k
			}
		}
		require.Equal(t, c.told, i >= 0, name)
		if i < 0 {
			continue
		}
		f := r.Findings[i]
		assert.Equal(t, c.kind == KindBeam, f.Value > f.Limit, name)
		for _, fix := range f.Fixes {
			mended, r, err := Lay(fix.Design)
			require.NoError(t, err, name)
			for _, g := range r.Findings {
				assert.NotEqual(t, c.kind, g.Kind, "%s: %s", name, fix.Title)
			}
			assert.NotEmpty(t, mended.Openings, name)
		}
	}
}
