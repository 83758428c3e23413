package ui

import (
	"bytes"
	"strings"
	"testing"
	"time"

	"fretband/app"
	"fretband/app/ui/pages"
	"fretband/pattern/check"
	"fretband/pattern/project"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"
	"github.com/stretchr/testify/require"
)

// waiting is a window whose hand never rests until the test says so.
func waiting(t *testing.T) (w *Window, rest func()) {
	t.Helper()
	d, err := project.GalleryDesign(project.Gallery()[0])
	require.NoError(t, err)
	d.Rules.Process, d.Rules.BridgeMM = "saw", 0.8 // thinner than is usual in sheet of 1.2 mm
	a := test.NewApp()
	t.Cleanup(a.Quit)
	var log bytes.Buffer
	s := app.DefaultSettings()
	now := func(f func()) { f() }
	w = NewWindow(Options{App: a, Log: app.NewLog(&log), Dir: t.TempDir(), Settings: s, Document: app.NewDocument(d), Size: fyne.NewSize(1400, 900), Go: now, Post: now, Quiet: true})
	t.Cleanup(w.win.Close)
	w.laying.Deepen()
	var soon func()
	w.laying.Later = func(_ time.Duration, f func()) *time.Timer {
		soon = f
		return time.NewTimer(time.Hour)
	}
	return w, func() { soon() }
}

// deepRows are the rows of what is found more slowly.
func deepRows(w *Window) (rows []*pages.FindingRow) {
	for _, r := range w.findings.List.Rows {
		if r.Finding.Deep {
			rows = append(rows, r)
		}
	}
	return rows
}

func TestWhatIsFoundMoreSlowlySaysThatItIsStillLookedFor(t *testing.T) {
	w, rest := waiting(t)
	require.NotNil(t, w.ed.Scene.Report.Deep)
	require.NotEmpty(t, deepRows(w))
	require.NotContains(t, w.findings.Head.Text, "checking")
	before := deepRows(w)[0].Finding.Value

	w.ed.Slide(w.controls.RowsOf["rules.bridge_mm"].Number, 1)
	require.Nil(t, w.ed.Scene.Report.Deep, "not while the hand moves")
	require.Contains(t, w.findings.Head.Text, "checking...")
	for _, r := range deepRows(w) {
		require.Equal(t, "checking...", r.Value.Text, "what is of an older design says so")
		r.Tapped(nil)
		require.Nil(t, w.blank.Overlay.Rings, "and leads nowhere")
	}

	rest()
	require.NotNil(t, w.ed.Scene.Report.Deep)
	require.NotContains(t, w.findings.Head.Text, "checking")
	require.Greater(t, deepRows(w)[0].Finding.Value, before, "wider bridges")
	require.False(t, strings.Contains(deepRows(w)[0].Value.Text, "checking"))

	// What is no longer wanted is given up.
	w.ed.Slide(w.controls.RowsOf["rules.bridge_mm"].Number, 0.9)
	w.laying.Deepener.Done(app.Result{Sheet: w.ed.Scene.Sheet})
	require.Contains(t, w.findings.Head.Text, "checking...")
	rest()
	require.NotNil(t, w.ed.Scene.Report.Deep)

	// A result of a design that is no longer in sight is let go.
	old := app.Result{Sheet: w.ed.Scene.Sheet, Report: w.ed.Scene.Report}
	w.ed.Slide(w.controls.RowsOf["rules.bridge_mm"].Number, 1.1)
	w.laying.Deepener.Done(old)
	require.Nil(t, w.ed.Scene.Report.Deep)
	require.Contains(t, w.findings.Head.Text, "checking...")
}

func TestFindingsOfTheLastGoodDesignSayWhoseTheyAre(t *testing.T) {
	w, rest := waiting(t)
	w.showTab(app.BandPage)
	typeInto(w, w.controls.RowsOf["band.gap_mm"].Entry, "200")
	require.Contains(t, w.findings.Head.Text, "of the last design that could be laid")
	w.undo()
	rest()
	require.NotContains(t, w.findings.Head.Text, "last design")
}

func TestASheetThatIsKeptBackLeavesTheLastGoodPicture(t *testing.T) {
	w, rest := waiting(t)
	good, text := w.ed.Scene, "the metal between openings 3 and 4 is 0.000000 mm wide"
	w.computed(app.Result{Design: w.ed.Now(), Err: &check.FaultError{Openings: []int{3, 4}, What: text}})
	require.Same(t, good, w.ed.Scene)
	require.Contains(t, w.controls.Problem.Text, text)
	require.Contains(t, w.controls.Problem.Text, "this is a fault of Fretband")
	require.Contains(t, w.controls.Problem.Text, "The picture shows the last design that could be laid.")
	w.showTab(app.BandPage)
	typeInto(w, w.controls.RowsOf["band.gap_mm"].Entry, "27")
	rest()
	require.Empty(t, w.ed.Problem)
	require.NotSame(t, good, w.ed.Scene)
}
