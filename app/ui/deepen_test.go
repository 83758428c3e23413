package ui

import (
	"bytes"
	"strings"
	"testing"
	"time"

	"fretband/app"
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
	a := test.NewApp()
	t.Cleanup(a.Quit)
	var log bytes.Buffer
	s := app.DefaultSettings()
	now := func(f func()) { f() }
	w, err = NewWindow(Options{App: a, Log: app.NewLog(&log), Dir: t.TempDir(), Settings: s, Document: app.NewDocument(d), Size: fyne.NewSize(1400, 900), Go: now, Post: now, Quiet: true})
	require.NoError(t, err)
	t.Cleanup(w.win.Close)
	w.deepen()
	var soon func()
	w.later = func(d time.Duration, f func()) *time.Timer {
		if d == restTime {
			soon = f
		}
		return time.NewTimer(time.Hour)
	}
	return w, func() { soon() }
}

// deepRows are the rows of what is found more slowly.
func deepRows(w *Window) (rows []*findingRow) {
	for _, r := range w.findings.list.rows {
		if r.f.Deep {
			rows = append(rows, r)
		}
	}
	return rows
}

func TestWhatIsFoundMoreSlowlySaysThatItIsStillLookedFor(t *testing.T) {
	w, rest := waiting(t)
	require.NotNil(t, w.result.Report.Deep)
	require.NotEmpty(t, deepRows(w))
	require.NotContains(t, w.findings.head.Text, "checking")
	before := deepRows(w)[0].f.Value

	w.slide(w.controls.rowsOf["rules.bridge_mm"].n, 1.6)
	require.Nil(t, w.result.Report.Deep, "not while the hand moves")
	require.Contains(t, w.findings.head.Text, "checking...")
	for _, r := range deepRows(w) {
		require.Equal(t, "checking...", r.value.Text, "what is of an older design says so")
		r.Tapped(nil)
		require.Nil(t, w.blank.marks.places, "and leads nowhere")
	}

	rest()
	require.NotNil(t, w.result.Report.Deep)
	require.Same(t, w.result.Report, w.scene.report)
	require.NotContains(t, w.findings.head.Text, "checking")
	require.Greater(t, deepRows(w)[0].f.Value, before, "wider bridges, more metal to break")
	require.False(t, strings.Contains(deepRows(w)[0].value.Text, "checking"))

	// What is no longer wanted is given up.
	w.slide(w.controls.rowsOf["rules.bridge_mm"].n, 1.4)
	require.Nil(t, w.deepenWhileWanted(w.result.Sheet, w.result.Report), "the hand has just moved")
	w.deepened(app.Result{Sheet: w.result.Sheet})
	require.Contains(t, w.findings.head.Text, "checking...")
	rest()
	require.NotNil(t, w.result.Report.Deep)

	// A result of a design that is no longer in sight is let go.
	old := w.result
	w.slide(w.controls.rowsOf["rules.bridge_mm"].n, 1.3)
	w.deepened(old)
	require.Nil(t, w.result.Report.Deep)
	require.Contains(t, w.findings.head.Text, "checking...")
}

func TestFindingsOfTheLastGoodDesignSayWhoseTheyAre(t *testing.T) {
	w, rest := waiting(t)
	w.turnTo(bandPage)
	typeInto(w, w.controls.rowsOf["band.gap_mm"].entry, "200")
	require.Contains(t, w.findings.head.Text, "of the last design that could be laid")
	w.undo()
	rest()
	require.NotContains(t, w.findings.head.Text, "last design")
}

func TestASheetThatIsKeptBackLeavesTheLastGoodPicture(t *testing.T) {
	w, rest := waiting(t)
	good, text := w.scene, "the metal between openings 3 and 4 is 0.000000 mm wide"
	w.computed(app.Result{Design: w.now(), Err: &check.FaultError{Openings: []int{3, 4}, What: text}})
	require.Same(t, good, w.scene)
	require.Contains(t, w.controls.problem.Text, text)
	require.Contains(t, w.controls.problem.Text, "this is a fault of Fretband")
	require.Contains(t, w.controls.problem.Text, "The picture shows the last design that could be laid.")
	w.turnTo(bandPage)
	typeInto(w, w.controls.rowsOf["band.gap_mm"].entry, "27")
	rest()
	require.Empty(t, w.problem)
	require.NotSame(t, good, w.scene)
}
