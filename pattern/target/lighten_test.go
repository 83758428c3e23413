package target

import (
	"context"
	"math"
	"testing"

	"fretband/pattern"
	"fretband/pattern/check"
	"fretband/unroll"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// smallCuff is a cuff that is solved in little time.
func smallCuff() pattern.Design {
	return pattern.Design{
		Name: "small",
		Band: unroll.Band{
			Kind: unroll.Cuff, Inside: unroll.Inside{By: unroll.ByAxes, WidthMM: 56, HeightMM: 46}, GapMM: 30,
			Thickness: unroll.Thickness{MM: 1.2}, WidthMM: 16, EndWidthMM: 16, EndCornerMM: 2, NeutralK: 0.5,
		},
		Metal:  pattern.Metal{Alloy: "sterling-925"},
		Rules:  pattern.DesignRules{BridgeMM: 1.2, RimMM: 2, CornerMM: 0.4, SmallestMM: 1},
		Fields: []pattern.Field{{Motif: "squares", Rows: 1, Repeats: 14}},
	}
}

// What is offered is laid, weighed and solved anew.
func TestAWayThatIsOfferedHoldsWhatTheBandHeld(t *testing.T) {
	d := smallCuff()
	roomy := smallCuff()
	roomy.Fields = []pattern.Field{{Motif: "squares", Rows: 1, Repeats: 14, BridgeMM: 2}}
	for name, d := range map[string]pattern.Design{"small": d, "roomy": roomy} {
		told := 0
		l, err := Lighten(context.Background(), d, 0, func(done, of int) {
			told = done
			assert.LessOrEqual(t, done, of)
		})
		require.NoError(t, err, name)
		assert.Equal(t, told, l.Solves, name)
		assert.LessOrEqual(t, l.Solves, MostSolves, name)
		ask := check.StrengthAsk{Coarse: l.Start.Figures.Coarse}
		solved := func(d pattern.Design) (stiffness, yield float64, r *check.Report) {
			s, r, err := check.Lay(d)
			require.NoError(t, err, name)
			r = check.Deepen(s, r)
			f, err := check.StrengthOf(context.Background(), s, r, ask)
			require.NoError(t, err, name)
			return 1 / f.Cases[0].PerN, f.Cases[0].BridgeYield, r
		}
		stiff, yield, start := solved(d)
		require.Positive(t, yield)
		kinds := map[check.Kind]bool{}
		for _, f := range start.Findings {
			kinds[f.Kind] = true
		}
		met := 0
		for _, w := range l.Ways {
			if !w.Met {
				assert.NotEmpty(t, w.Why, "%s: %s", name, w.Says)
				continue
			}
			met++
			k, y, r := solved(w.Design)
			assert.GreaterOrEqual(t, k, stiff*(1-Held), "%s: %s", name, w.Says)
			assert.GreaterOrEqual(t, y, yield*(1-Held), "%s: %s", name, w.Says)
			assert.InEpsilon(t, k, w.Stiffness(), 1e-9)
			assert.InEpsilon(t, k*y, w.YieldForce(), 1e-9)
			assert.InEpsilon(t, weight(t, w.Design), w.Report.Left, 1e-6, "%s: %s", name, w.Says)
			if w.Way == openingWay {
				assert.InEpsilon(t, l.Uniform, w.Report.Left, 0.01, "%s: %s", name, w.Says)
				assert.InDelta(t, y/yield-1, w.Opens, 1e-6, "%s: %s", name, w.Says)
				assert.Zero(t, w.Saved)
			} else {
				assert.Less(t, w.Report.Left, start.Left, "%s: %s", name, w.Says)
			}
			assert.LessOrEqual(t, l.Uniform, start.Left)
			if w.Way != uniformWay && w.Way != openingWay {
				assert.InDelta(t, 1-weight(t, w.Design)/l.Uniform, w.Saved, 1e-6, "%s: %s", name, w.Says)
			}
			assert.Equal(t, start.Openings-r.Openings, w.Lost)
			for _, f := range r.Findings {
				assert.True(t, f.Severity == check.Note || kinds[f.Kind], "%s: %s brings up: %s", name, w.Says, f.What)
			}
			assert.Equal(t, d.Rules.BridgeMM, w.Design.Rules.BridgeMM, "the rule is kept")
			assert.Equal(t, d.Band.Thickness, w.Design.Band.Thickness, "so is the sheet")
			for i, p := range w.Design.Rules.RimAlong {
				q := w.Design.Rules.RimAlong[len(w.Design.Rules.RimAlong)-1-i]
				assert.True(t, p.At == -q.At && p.Size == q.Size, "so is the symmetry")
			}
		}
		assert.Positive(t, met, name)
		if name == "roomy" {
			assert.Less(t, l.Uniform, start.Left, "what the roomy one wastes is not told as saved")
		}
	}
}

func TestLightenIsTheSameEachTimeAndCanBeStopped(t *testing.T) {
	ring := gallery(t, "mooring-ring")
	a, err := Lighten(context.Background(), ring, 0, nil)
	require.NoError(t, err)
	b, err := Lighten(context.Background(), ring, 0, nil)
	require.NoError(t, err)
	require.Len(t, b.Ways, len(a.Ways))
	for i, w := range a.Ways {
		assert.Equal(t, w.Design, b.Ways[i].Design)
		assert.Equal(t, w.Why, b.Ways[i].Why)
		assert.NotContains(t, []string{"rim", "taper"}, w.Way, "a ring has no ends")
	}
	ctx, stop := context.WithCancel(context.Background())
	_, err = Lighten(ctx, ring, 0, func(int, int) { stop() })
	assert.ErrorIs(t, err, context.Canceled)
	ring.Fields = nil
	_, err = Lighten(context.Background(), ring, 0, nil)
	assert.ErrorContains(t, err, "no field")
}

// With a weight each way comes to it, and tells what it holds there.
func TestLightenComesToAWeight(t *testing.T) {
	d := smallCuff()
	start := weight(t, d)
	l, err := Lighten(context.Background(), d, 0.85*start, nil)
	require.NoError(t, err)
	require.True(t, l.Worth())
	held := map[string]float64{}
	for _, w := range l.Ways {
		if !w.Met {
			continue
		}
		assert.InEpsilon(t, 0.85*start, weight(t, w.Design), 0.01, w.Way)
		assert.InDelta(t, 1-weight(t, w.Design)/start, w.Saved, 1e-9, w.Way)
		assert.InDelta(t, math.Min(w.Stiffness()/l.Start.Stiffness(), w.Load().BridgeYield/l.Start.Load().BridgeYield), w.Holds, 1e-9, w.Way)
		held[w.Way] = w.Holds
	}
	require.Contains(t, held, uniformWay)
	require.Contains(t, held, "rim")
	assert.Greater(t, held["rim"], held[uniformWay]+0.02, "metal at the front carries more than all round")
	for _, bad := range []float64{-1, 1.01 * start, math.NaN(), math.Inf(1)} {
		_, err := Lighten(context.Background(), d, bad, nil)
		assert.ErrorContains(t, err, "ask for less")
	}
	l, err = Lighten(context.Background(), d, 0.2*start, nil)
	require.NoError(t, err)
	assert.False(t, l.Worth(), "no rim is so narrow")
}
