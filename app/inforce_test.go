package app

import (
	"strings"
	"testing"

	"fretband/pattern"
	"fretband/pattern/check"
	"fretband/unroll"

	"github.com/stretchr/testify/require"
)

// editorOf opens a design and lays it.
func editorOf(t *testing.T, d pattern.Design) *Editor {
	t.Helper()
	e := NewEditor(NewDocument(d), nil)
	relay(t, e)
	return e
}

func relay(t *testing.T, e *Editor) {
	t.Helper()
	s, r, err := check.Lay(e.Now())
	require.NoError(t, err)
	e.SetScene(NewScene(1, s, r))
}

// A number that may be left empty shows what holds then, not 0; what is typed holds instead,
// and emptying the entry brings the first back.
func TestANumberLeftEmptyShowsWhatHolds(t *testing.T) {
	d := gallery(t)
	require.Equal(t, unroll.Cuff, d.Band.Kind)
	d.Rules.Process, d.Work, d.Wear = "laser", pattern.Work{}, pattern.Wear{}
	d.Reserves = []pattern.Reserve{NewReserve(pattern.CircleShape, d)}
	d.Reserves[0].Count = 3
	e := editorOf(t, d)
	temper := pattern.Tempers(d.Metal.Alloy)[0]
	for path, c := range map[string]struct {
		want   float64
		source string
	}{
		"work.kerf_mm":           {0.1, "the tip says so"},
		"work.least_angle_deg":   {30, "the tip says so"},
		"wear.proof_mpa":         {temper.ProofMPa, "the table of tempers"},
		"wear.modulus_gpa":       {temper.ModulusGPa, "the table of tempers"},
		"fields[0].bridge_mm":    {d.Rules.BridgeMM, "the rule"},
		"reserves[0].spacing_mm": {e.Scene.Sheet.Flat.Length / 3, "evenly along the band"},
		"band.swell_length_mm":   {e.Scene.Sheet.Flat.Length, "the whole band"},
		"wear.open_mm":           {check.OpenedBy(e.Scene.Sheet), "what a wrist needs"},
	} {
		n, ok := NumberAt(e.Now(), path)
		require.True(t, ok, path)
		require.Zero(t, n.Get(e.Now()), path)
		require.Empty(t, n.Text(e.Now()), path)
		require.Greater(t, c.want, 0.0, path)
		require.InDelta(t, c.want, e.InForce(n), 1e-6, "%s: %s", path, c.source)
		require.Equal(t, "("+FormatNumber(c.want, max(1, n.Decimals))+")", e.WhileEmpty(n), path)
		// A step goes on from there.
		e.Step(n, 1)
		require.InDelta(t, c.want+n.Step, n.Get(e.Now()), n.Step/2, path)
		require.NoError(t, e.Put(n, ""), path)
		require.Empty(t, n.Text(e.Now()), path)
		require.Contains(t, n.Allowed(), "or nothing", path)
	}
	for _, path := range []string{"metal.price_per_g", "work.cut_mm_min", "work.opening_min", "work.hour_price"} {
		n, ok := NumberAt(e.Now(), path)
		require.True(t, ok, path)
		require.NoError(t, e.Put(n, "0"), path)
		require.Contains(t, e.WhileEmpty(n), "no", path)
	}
}

// What may be left empty says in its tip what that means, and the other way round.
func TestTipsSayWhatAnEmptyEntryMeans(t *testing.T) {
	table := pattern.Table()
	for i := range table {
		e := &table[i]
		if !isNumber(e) {
			continue
		}
		says := strings.Contains(strings.ToLower(e.Tip), "left empty")
		require.False(t, says && e.Empty == "", e.Key())
		for _, zero := range []string{"0 takes", "0 is the usual", "0 keeps to", "0 is what"} {
			require.NotContains(t, e.Tip, zero, e.Key())
		}
		if standsFor[e.Key()] != nil {
			require.True(t, says, e.Key())
		}
	}
	for key := range standsFor {
		require.NotEmpty(t, byKey(key).Empty, key)
	}
}

func byKey(key string) *pattern.Entry {
	table := pattern.Table()
	for i := range table {
		if table[i].Key() == key {
			return &table[i]
		}
	}
	return &pattern.Entry{}
}

func TestPercentagesAreOfWhatAPersonMeans(t *testing.T) {
	d := gallery(t)
	d.Band.WidthMM, d.Band.EndWidthMM, d.Rules.BridgeMM = 30, 22, 1.2
	for path, want := range map[string]float64{
		"band.end_width_mm":   15, // of the width
		"fields[0].bridge_mm": 0.6,
		"fields[0].stagger":   0.5, // of a repeat
		"fields[0].phase":     0.5,
		"band.neutral_k":      0.5, // of the thickness
	} {
		n, ok := NumberAt(d, path)
		require.True(t, ok, path)
		e := Clone(d)
		require.NoError(t, n.Put(&e, "50 %"), path)
		require.InDelta(t, want, n.Get(e), 1e-9, path)
	}
	n, _ := NumberAt(d, "rules.bridge_mm")
	require.ErrorContains(t, n.Put(&d, "50 %"), "percentage")
	require.NoError(t, n.Put(&d, "1.2 * 150 %"))
	require.InDelta(t, 1.8, d.Rules.BridgeMM, 1e-9)
}
