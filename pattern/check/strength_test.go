package check_test

import (
	"bytes"
	"context"
	"math"
	"testing"

	"fretband/pattern"
	"fretband/pattern/check"
	"fretband/pattern/project"
	"fretband/pattern/strength"
	"fretband/testdata"
	"fretband/unroll"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func strengthOf(t testing.TB, d pattern.Design, ask check.StrengthAsk) (*strength.Figures, error) {
	t.Helper()
	s, r, err := check.Lay(d)
	require.NoError(t, err)
	return check.StrengthOf(context.Background(), s, check.Deepen(s, r), ask)
}

// CalculiX 2.20, solids of 15 nodes in two layers, E 75 GPa, Poisson's ratio 0.37: mm of
// opening at the ends for a newton, both ends together.
func TestCuffsOpenAsSolidElementsSay(t *testing.T) {
	solids := map[string]float64{"circles": 2.734, "leaves": 2.050, "squares": 4.080}
	for name, file := range testdata.Strength() {
		d, err := project.Read(bytes.NewReader(file))
		require.NoError(t, err)
		for _, coarse := range []bool{false, true} {
			f, err := strengthOf(t, d, check.StrengthAsk{Coarse: coarse})
			require.NoError(t, err)
			open := f.Cases[0]
			within := 0.02
			if coarse {
				within = 0.05
			}
			assert.Equal(t, strength.Open, open.Case)
			assert.InEpsilon(t, solids[name], open.PerN, within, name)
			assert.Equal(t, 10.0, open.AtMM)
			assert.InEpsilon(t, 10/solids[name], open.ForceN, within, name)
			// The moment of every section is the load's.
			assert.Less(t, open.Result.Off, 0.03, name)
			assert.Less(t, open.P99, open.Peak)
			assert.Less(t, open.FirstYield, open.BridgeYield)
		}
	}
}

// A ring of the mean radius 30.75, 6 wide and 1.5 thick, E 75 GPa, squeezed by 10 N:
// 0.1488 F r^3/(E I) = 0.341799 mm (Roark), bent by 0.3183 F r: 43.5024 MPa, so that it
// yields (124 MPa) at 28.5042 N. The inner face of a curved bar has t/(3 r) more.
func TestAPlainRingIsSqueezedAsRoarkSays(t *testing.T) {
	d := pattern.Design{
		Name: "ring",
		Band: unroll.Band{
			Kind: unroll.Ring, Inside: unroll.Inside{By: unroll.ByAxes, WidthMM: 60, HeightMM: 60},
			Thickness: unroll.Thickness{MM: 1.5}, WidthMM: 6, EndWidthMM: 6, NeutralK: 0.5, Joint: unroll.Seamless,
		},
		Metal: pattern.Metal{Alloy: "sterling-925"},
		Rules: pattern.DesignRules{BridgeMM: 1, RimMM: 1},
	}
	f, err := strengthOf(t, d, check.StrengthAsk{})
	require.NoError(t, err)
	c := f.Cases[0]
	assert.Equal(t, strength.Squeeze, c.Case)
	assert.InEpsilon(t, 0.0341799, c.PerN, 0.01)
	assert.InEpsilon(t, 28.5042, c.BridgeYield/c.PerN*(1+1.5/30.75/3), 0.04)
	assert.Nil(t, nilIfZero(f.Rims))
}

// A plain cuff of the mean radius 30: a slit ring whose ends are pulled apart, as
// Timoshenko has it (Strength of Materials, II). A wide plain band is up to
// 1/(1 - nu^2) stiffer, since it can't curl across.
func TestAPlainCuffOpensAsASlitRing(t *testing.T) {
	const in, th, gap = 29.4, 1.2, 28.0
	for _, width := range []float64{4, 25} {
		d := pattern.Design{
			Name: "cuff",
			Band: unroll.Band{
				Kind: unroll.Cuff, Inside: unroll.Inside{By: unroll.ByAxes, WidthMM: 2 * in, HeightMM: 2 * in}, GapMM: gap,
				Thickness: unroll.Thickness{MM: th}, WidthMM: width, EndWidthMM: width, NeutralK: 0.5,
			},
			Metal: pattern.Metal{Alloy: "sterling-925"},
			Rules: pattern.DesignRules{BridgeMM: 1, RimMM: 1},
		}
		f, err := strengthOf(t, d, check.StrengthAsk{})
		require.NoError(t, err)
		half := gap / 2 / in
		r := in + th/2
		c := 2 * ((math.Pi-half)*(math.Cos(half)*math.Cos(half)+0.5) + 1.5*math.Sin(half)*math.Cos(half))
		bar := c * r * r * r / (75000 * width * th * th * th / 12)
		assert.LessOrEqual(t, f.Cases[0].PerN, bar*1.01)
		assert.GreaterOrEqual(t, f.Cases[0].PerN, bar*(1-0.37*0.37))
		if width < 5 {
			assert.InEpsilon(t, bar, f.Cases[0].PerN, 0.02)
		}
		assert.InEpsilon(t, f.Cases[0].PlainPerN, f.Cases[0].PerN, 0.01)
	}
}

// Every form can be loaded, the moments of its sections agree with the load's, and
// piercing makes it softer.
func TestEveryFormCarriesItsLoad(t *testing.T) {
	for _, e := range append(testdata.Gallery(), testdata.Forms()...) {
		d, err := project.Read(bytes.NewReader(e.JSON))
		require.NoError(t, err)
		f, err := strengthOf(t, d, check.StrengthAsk{Coarse: true})
		if !assert.NoError(t, err, e.Name) {
			continue
		}
		for _, c := range f.Cases {
			assert.Greater(t, c.PerN, 0.0, "%s %s", e.Name, c.What)
			assert.Greater(t, c.Peak, 0.0, "%s %s", e.Name, c.What)
			assert.GreaterOrEqual(t, c.Peak, c.P99, "%s %s", e.Name, c.What)
			if c.Case != strength.CatchOn {
				assert.Greater(t, c.PerN, c.PlainPerN, "%s %s", e.Name, c.What)
			}
		}
		assert.Less(t, f.Cases[0].Result.Off, 0.05, e.Name)
		assert.True(t, f.Rims > 0 && f.Rims < 1, e.Name)
	}
}

// Nothing is said of springing on until the maker gives an opening. Then a cuff whose
// bridges yield first is told, and each change that is offered holds when it is solved.
func TestACuffOpenedTooFarIsToldAndMended(t *testing.T) {
	d, err := project.Read(bytes.NewReader(testdata.Strength()["circles"]))
	require.NoError(t, err)
	d.Metal.Alloy = "copper"
	told := func(d pattern.Design) *check.Finding {
		s, r, err := check.Lay(d)
		require.NoError(t, err)
		r = check.Strengthen(context.Background(), s, check.Deepen(s, r), check.StrengthAsk{Coarse: true})
		require.NoError(t, r.Unsolved)
		for i, f := range r.Findings {
			if f.Kind == check.KindSpringingOn {
				return &r.Findings[i]
			}
		}
		return nil
	}
	d.Wear.OpenMM = 0
	assert.Nil(t, told(d))
	d.Wear.OpenMM = 1
	assert.Nil(t, told(d))
	d.Wear.OpenMM = 4
	f := told(d)
	require.NotNil(t, f)
	assert.Equal(t, check.Caution, f.Severity)
	assert.Less(t, f.Value, 4.0)
	require.Len(t, f.Fixes, 2)
	for _, fix := range f.Fixes {
		assert.Nil(t, told(fix.Design), fix.Title)
	}
}

// A tongue across the front of a plain cuff: a cantilever, which a force at its tip bends
// by 4 F l^3/(E w t^3) and loads by 6 F l/(w t^2) at its root (handbook).
func TestATipBendsAsACantilever(t *testing.T) {
	d, err := project.Read(bytes.NewReader(testdata.Strength()["circles"]))
	require.NoError(t, err)
	d.Fields = nil
	// A slot in the form of a U leaves a tongue of 6 x 2 mm.
	const u = "M-2.2 -4.2 L2.2 -4.2 L2.2 3 L1 3 L1 -3 L-1 -3 L-1 3 L-2.2 3 Z"
	d.Edits = []pattern.Edit{{Do: pattern.Add, Shape: pattern.PathShape, Path: u, At: []pattern.Spot{{}}}}
	d.Rules.BridgeMM, d.Rules.CornerMM, d.Rules.SmallestMM = 0.8, 0.1, 0.3
	s, r, err := check.Lay(d)
	require.NoError(t, err)
	r = check.Strengthen(context.Background(), s, check.Deepen(s, r), check.StrengthAsk{})
	require.NoError(t, r.Unsolved)
	require.Len(t, r.Deep.Tongues, 1)
	long, wide := r.Deep.Tongues[0].Length, r.Deep.Tongues[0].Root
	tips := 0
	for _, c := range r.Strength.Cases {
		if c.Case != strength.CatchOn || !c.Across {
			continue
		}
		tips++
		const e, th, proof = 75000, 1.2, 124
		yields := proof * wide * th * th / (6 * long)
		assert.InEpsilon(t, yields, c.BridgeYield, 0.15)
		// The metal that it hangs on gives too.
		least := 4 * long * long * long / (e * wide * th * th * th)
		assert.Greater(t, c.PerN, least*0.9)
		assert.Less(t, c.PerN, 2.2*least)
	}
	assert.Equal(t, 1, tips)
}

// A tongue of the faults: the tie that is offered takes its finding away, adds little metal
// and holds more.
func TestATipIsTiedAcross(t *testing.T) {
	for _, e := range testdata.Faults() {
		if e.Name != "tongue" {
			continue
		}
		d, err := project.Read(bytes.NewReader(e.JSON))
		require.NoError(t, err)
		s, r, err := check.Lay(d)
		require.NoError(t, err)
		r = check.Strengthen(context.Background(), s, check.Deepen(s, r), check.Unasked())
		require.NoError(t, r.Unsolved)
		var offered []check.Fix
		for _, f := range r.Findings {
			if f.Kind == check.KindTongue {
				assert.Contains(t, f.Why, "bends for good")
				offered = f.Fixes
			}
		}
		require.NotEmpty(t, offered)
		fix := offered[len(offered)-1]
		assert.Contains(t, fix.Title, "Tie the tip across")
		tied, after, err := check.Lay(fix.Design)
		require.NoError(t, err)
		assert.Greater(t, after.Left, r.Left)
		assert.Less(t, after.Left, r.Left+0.2)
		for _, f := range check.Deepen(tied, after).Findings {
			assert.NotEqual(t, check.KindTongue, f.Kind)
		}
		return
	}
	t.Fatal("no tongue among the faults")
}

// Of the faults, the one weak place of a cuff: the tie that is offered holds more when it
// is solved by the fine mesh, adds little metal and brings up nothing to be decided.
func TestAWeakestWayIsTiedAcross(t *testing.T) {
	for _, c := range []struct {
		fault string
		kind  check.Kind
		title string
	}{
		{"weakest-way", check.KindWeakestWayAcross, "Tie an opening of it across"},
	} {
		for _, e := range testdata.Faults() {
			if e.Name != c.fault {
				continue
			}
			d, err := project.Read(bytes.NewReader(e.JSON))
			require.NoError(t, err)
			s, r, err := check.Lay(d)
			require.NoError(t, err)
			r = check.Strengthen(context.Background(), s, check.Deepen(s, r), check.Unasked())
			require.NoError(t, r.Unsolved)
			var fix *check.Fix
			value, had := 0.0, map[check.Kind]bool{}
			for _, f := range r.Findings {
				had[f.Kind] = had[f.Kind] || f.Severity > check.Note
				if f.Kind == c.kind && len(f.Fixes) > 0 {
					value, fix = f.Value, &f.Fixes[len(f.Fixes)-1]
				}
			}
			require.NotNil(t, fix, c.fault)
			t.Log(fix.Title)
			assert.Contains(t, fix.Title, c.title)
			tied, after, err := check.Lay(fix.Design)
			require.NoError(t, err)
			assert.Greater(t, after.Left, r.Left)
			assert.Less(t, after.Left, r.Left+0.3)
			after = check.Deepen(tied, after)
			for _, f := range after.Findings {
				assert.True(t, f.Severity == check.Note || had[f.Kind], f.What)
				if f.Kind == c.kind {
					assert.Greater(t, f.Value, value)
				}
			}
			now, err := check.StrengthOf(context.Background(), s, r, check.StrengthAsk{Alone: true})
			require.NoError(t, err)
			then, err := check.StrengthOf(context.Background(), tied, after, check.StrengthAsk{Alone: true})
			require.NoError(t, err)
			assert.Greater(t, then.Cases[0].BridgeYield, 1.04*now.Cases[0].BridgeYield)
		}
	}
}

// A regular pattern has its weakest way in many places: no tie is offered.
func TestNoTieIsOfferedWhereItDoesNotHelp(t *testing.T) {
	for _, file := range testdata.Strength() {
		d, err := project.Read(bytes.NewReader(file))
		require.NoError(t, err)
		s, r, err := check.Lay(d)
		require.NoError(t, err)
		for _, f := range check.Strengthen(context.Background(), s, check.Deepen(s, r), check.Unasked()).Findings {
			for _, fix := range f.Fixes {
				assert.NotContains(t, fix.Title, "Tie", f.What)
			}
		}
	}
}

func TestWhatCantBeLoadedIsSaid(t *testing.T) {
	d, err := project.Read(bytes.NewReader(testdata.Gallery()[0].JSON))
	require.NoError(t, err)
	_, err = strengthOf(t, d, check.StrengthAsk{Memory: 1e6})
	require.ErrorIs(t, err, strength.ErrTooMany)
	require.ErrorContains(t, err, "1 MB of memory")
	d.Metal.Alloy = "gold-585-yellow"
	_, err = strengthOf(t, d, check.StrengthAsk{Coarse: true})
	assert.ErrorIs(t, err, check.ErrNoModulus)
	d.Wear.ModulusGPa = 90
	f, err := strengthOf(t, d, check.StrengthAsk{Coarse: true})
	require.NoError(t, err)
	assert.Zero(t, f.Cases[0].FirstYield)
}

func nilIfZero(v float64) any {
	if v == 0 {
		return nil
	}
	return v
}
