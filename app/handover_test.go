package app

import (
	"os"
	"path/filepath"
	"slices"
	"testing"

	"fretband/export"
	"fretband/pattern/check"

	"github.com/stretchr/testify/require"
)

func TestAnswersOfAnEarlierVersionAreKeptAndAbsurdOnesMended(t *testing.T) {
	read := func(text string) HandOver {
		dir := t.TempDir()
		require.NoError(t, os.WriteFile(filepath.Join(dir, "settings.json"), []byte(text), 0o600))
		s, err := ReadSettings(dir)
		require.NoError(t, err)
		return s.HandOver
	}
	want := firstHandOver()
	want.Folder, want.Paper, want.Process, want.KerfMM, want.For = "/a", "letter", "laser", 0.1, "bench"
	require.Equal(t, want, read(`{"version":1,"export":{"folder":"/a","paper":"letter","process":"laser","kerf_mm":0.1,"solid":"stl","for":"bench"}}`))
	require.Equal(t, firstHandOver(), read(`{"version":1,"export":{"paper":"vellum","kerf_mm":-3,"curves":"splines","copies":0,"tabs":1000,"gap_mm":1e9,"sheet_w_mm":-1,"for":"nobody"}}`))
}

// Whoever is asked and whatever the answers, those that are allowed are options that
// the files can be made with.
func TestAllowedAnswersAreGoodOptions(t *testing.T) {
	for _, to := range append(receiverKeys(), Anyone) {
		h := firstHandOver()
		h.For = to
		require.NoError(t, h.Asked().Check(), to)
		for _, g := range HandOverGroups(to) {
			for _, c := range g.Choices {
				for _, o := range c.Options {
					c.Set(&h, o.Key)
					require.Equal(t, o.Key, c.Get(h))
					require.NoError(t, h.Asked().Check(), "%s %s", c.Key, o.Key)
				}
			}
			for _, most := range []bool{false, true} {
				for _, n := range slices.Concat(g.Numbers...) {
					v := n.Min
					if most {
						v = n.Max
					}
					require.NoError(t, n.Put(&h, FormatNumber(v, n.Decimals)), n.Title)
					require.Equal(t, v, n.Get(h), n.Title)
				}
				require.NoError(t, h.Asked().Check(), to)
			}
		}
	}
}

// What may be asked, whoever asks is asked in the window, but for the picture that only
// bench and client get.
func TestAnyoneIsAskedAll(t *testing.T) {
	asked := map[string]bool{}
	for _, g := range HandOverGroups(Anyone) {
		for _, c := range g.Choices {
			asked[c.Key] = true
		}
		for _, n := range slices.Concat(g.Numbers...) {
			asked[n.Key] = true
		}
	}
	for _, a := range export.Asks() {
		require.Equal(t, a.Title != "" && a.Key != "stress", asked[a.Key], a.Key)
	}
}

func TestAReceiverIsToldNothingOfAnothersAnswers(t *testing.T) {
	h := firstHandOver()
	h.KerfMM, h.Tabs, h.Copies, h.PaperCopies, h.StockW, h.StockH, h.Paper = 0.1, 3, 12, 2, 300, 200, export.A3
	h.For = "client"
	require.Equal(t, export.Options{Stress: export.NoStress}, h.Asked())
	h.For = "casting"
	require.Equal(t, export.Options{}, h.Asked())
	h.For = "bench"
	require.Equal(t, export.Options{Paper: export.A3, Copies: 2, Stress: export.NoStress}, h.Asked())
	h.For = "laser"
	o := h.Asked()
	require.Equal(t, []any{0.1, 3, 12, 300.0, ""}, []any{o.KerfMM, o.Tabs, o.Copies, o.StockW, o.Paper})
	require.Zero(t, o.ChordMM, "arcs have no chords")
}

func TestANumberOfTheAnswersIsTypedOrLeftEmpty(t *testing.T) {
	h := firstHandOver()
	w := askedNumber(export.AskByKey("sheet-width"))
	require.Equal(t, "", w.Text(h))
	require.NoError(t, w.Put(&h, "12 in"))
	require.InDelta(t, 304.8, h.StockW, 1e-9)
	require.Equal(t, "304.8", w.Text(h))
	require.NoError(t, w.Put(&h, " "))
	require.Zero(t, h.StockW)
	w.StepBy(&h, 1)
	require.Equal(t, 10.0, h.StockW)
	w.StepBy(&h, -1)
	require.Zero(t, h.StockW)
	c := askedNumber(export.AskByKey("copies"))
	c.StepBy(&h, -10)
	require.Equal(t, 1, h.Copies)
	c.StepBy(&h, 2)
	require.Equal(t, 3, h.Copies)
	k := askedNumber(export.AskByKey("kerf"))
	for _, bad := range []string{"", "wide", "-0.1", "2", "0.1 kg"} {
		require.ErrorContains(t, k.Put(&h, bad), "0 to 1 mm", bad)
		require.Zero(t, h.KerfMM)
	}
	require.ErrorContains(t, askedNumber(export.AskByKey("tabs")).Put(&h, "2.5"), "a whole number")
}

func TestBreachesThatAreLetStandAreNotCounted(t *testing.T) {
	n, first := Breaches([]check.Finding{
		{Severity: check.Caution, What: "a"},
		{Severity: check.Breach, What: "b", Accepted: "so"},
		{Severity: check.Breach, What: "c"},
		{Severity: check.Breach, What: "d"},
	})
	require.Equal(t, 2, n)
	require.Equal(t, "c", first)
}
