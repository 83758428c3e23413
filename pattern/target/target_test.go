package target

import (
	"context"
	"math"
	"testing"

	"fretband/pattern"
	"fretband/pattern/project"
	"fretband/unroll"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func gallery(t *testing.T, name string) pattern.Design {
	t.Helper()
	d, err := project.GalleryDesign(name)
	require.NoError(t, err)
	return d
}

// weight of the metal left, from areas alone: the blank's less the openings', by
// thickness and density.
func weight(t *testing.T, d pattern.Design) float64 {
	t.Helper()
	s, err := pattern.Lay(d)
	require.NoError(t, err)
	area := s.Flat.Outline.Area()
	for _, o := range s.Openings {
		area -= o.Loop.Area()
	}
	_, density := d.Metal.Density()
	return area * s.Flat.Thickness * density / 1000
}

func TestAWeightIsReachedOrTheObstacleTold(t *testing.T) {
	for _, name := range []string{"harbour-cuff", "tide-bangle", "mooring-ring"} {
		d := gallery(t, name)
		plain := d
		plain.Fields = nil
		full := weight(t, plain)
		for _, share := range []float64{0.1, 0.25, 0.4, 0.6, 0.9} {
			cs, err := Find(context.Background(), d, Target{Taken, share})
			require.NoError(t, err)
			require.Greater(t, len(cs), 2)
			reached := 0
			for _, c := range cs {
				if c.Met {
					reached++
					assert.InEpsilon(t, full*(1-share), weight(t, c.Design), Near*1.0001, "%s: %s (%s)", name, c.Title, c.Says)
					assert.Empty(t, c.Why)
				} else if c.Way != "now" {
					assert.NotEmpty(t, c.Why, "%s %g: %s (%s)", name, share, c.Title, c.Says)
				}
				assert.False(t, c.Met && c.Report.Breached(), "%s: %s", name, c.Says)
				require.NoError(t, c.Design.Check())
			}
			if share == 0.25 {
				assert.Positive(t, reached, "%s %g", name, share)
			}
			if share == 0.9 {
				assert.Zero(t, reached, "%s: nine tenths can't be taken out", name)
			}
		}
	}
}

// A band of squares on a closed strip has a closed form: n cells a side s = pitch,
// bridge b: open area n (s-b)^2. So the bridge for a given weight is known.
func TestTheBridgeThatIsFoundIsTheOneOfTheClosedForm(t *testing.T) {
	d := pattern.Design{
		Name: "squares",
		Band: unroll.Band{
			Kind: unroll.Bangle, Inside: unroll.Inside{By: unroll.ByAxes, WidthMM: 200/math.Pi - 1, HeightMM: 200/math.Pi - 1},
			Thickness: unroll.Thickness{MM: 1}, WidthMM: 22, EndWidthMM: 22, Joint: unroll.Seamless, NeutralK: 0.5,
		},
		Metal: pattern.Metal{Alloy: pattern.OwnAlloy, DensityGCM3: 10},
		Rules: pattern.DesignRules{BridgeMM: 2, RimMM: 0},
		// The frame is the blank less two rims of a bridge each plus a bridge: 20 mm
		// high at a bridge of 2, and it grows and shrinks with the bridge.
		Fields: []pattern.Field{{Motif: "squares", Rows: 2, Repeats: 20}},
	}
	// Weight of 200 x 22 x 1 mm at 10 g/cm3 is 44 g. Cells are 10 mm along and
	// (22 - b)/2 across: open 40 (10 - b) ((22 - b)/2 - b) = 20 (10-b)(22-3b).
	want := 1.5
	left := (200*22 - 20*(10-want)*(22-3*want)) * 0.01
	cs, err := Find(context.Background(), d, Target{Left, left})
	require.NoError(t, err)
	for _, c := range cs {
		if c.Way == "bridge" {
			require.True(t, c.Met, c.Why)
			assert.InDelta(t, want, c.Design.Rules.BridgeMM, 0.002)
			return
		}
	}
	t.Fatal("no choice by the bridge")
}

func TestTheLightestKeepsAllRules(t *testing.T) {
	d := gallery(t, "harbour-cuff")
	d.Rules.BridgeMM = 2
	cs, err := Find(context.Background(), d, Target{Kind: Lightest})
	require.NoError(t, err)
	lighter := 0
	for _, c := range cs[1:] {
		assert.False(t, c.Report.Breached(), c.Says)
		assert.GreaterOrEqual(t, c.Design.Rules.BridgeMM, 1.2, "the sheet's thickness")
		if c.Met {
			lighter++
			assert.Less(t, c.Report.Left, cs[0].Report.Left)
		}
	}
	assert.GreaterOrEqual(t, lighter, 2)
}

func TestWhatCanBeNoGoalIsRefused(t *testing.T) {
	d := gallery(t, "harbour-cuff")
	for _, g := range []Target{{Left, 0}, {Left, 1e6}, {Left, math.NaN()}, {Taken, 0}, {Taken, 1.2}, {"heavy", 3}} {
		_, err := Find(context.Background(), d, g)
		assert.Error(t, err, "%v", g)
	}
	d.Fields = nil
	_, err := Find(context.Background(), d, Target{Left, 20})
	assert.ErrorContains(t, err, "no field")
}

func TestASearchCanBeStopped(t *testing.T) {
	ctx, stop := context.WithCancel(context.Background())
	stop()
	_, err := Find(ctx, gallery(t, "harbour-cuff"), Target{Left, 20})
	assert.ErrorIs(t, err, context.Canceled)
}
