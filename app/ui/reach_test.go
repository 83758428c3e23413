package ui

import (
	"image"
	"strings"
	"testing"

	"fretband/app"
	"fretband/app/ui/kit"
	"fretband/pattern"
	"fretband/pattern/target"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"
	"github.com/stretchr/testify/require"
)

// answerOf returns the button of the topmost dialog with that name or text.
func answerOf(t *testing.T, w *Window, name string) *kit.Button {
	t.Helper()
	d := w.kit.Dialogs.Top()
	require.NotNil(t, d, "no dialog is open for %s", name)
	for _, f := range d.Fields {
		if b, ok := f.Object.(*kit.Button); ok && f.Name == name {
			return b
		}
	}
	for _, b := range d.Buttons {
		if b.Text == name {
			return b
		}
	}
	t.Fatalf("%s has no %s", d.Title, name)
	return nil
}

func TestAWeightIsReachedFromTheWindowAndUndone(t *testing.T) {
	for _, dress := range []string{"light", "dark"} {
		w, log := openTest(t, "harbour-cuff", fyne.NewSize(1400, 900), dress)
		before := w.ed.Now()
		w.compare.ForWeight()
		entry := w.kit.Dialogs.Top().Fields[3].Object.(*kit.Entry)
		entry.SetText("28")
		keepPicture(t, "reach-ask-"+dress, func() image.Image { return w.win.Canvas().Capture() })
		test.Tap(answerOf(t, w, "Look for ways"))
		keepPicture(t, "reach-ways-"+dress, func() image.Image { return w.win.Canvas().Capture() })
		require.Contains(t, w.kit.Dialogs.Top().Title, "ways to reach it")
		test.Tap(answerOf(t, w, "take-bridge"))
		require.Empty(t, w.kit.Dialogs.Open)
		require.InEpsilon(t, 28, w.ed.Scene.Report.Left, 0.001)
		require.Contains(t, log.String(), "edit field=reach")
		w.undo()
		require.True(t, app.Equal(before, w.ed.Now()))
	}
}

func TestWhatCantBeReachedIsSaid(t *testing.T) {
	w, _ := usual(t)
	w.compare.ForWeight()
	w.kit.Dialogs.Top().Fields[3].Object.(*kit.Entry).SetText("900")
	test.Tap(answerOf(t, w, "Look for ways"))
	require.Equal(t, "That can't be reached", w.kit.Dialogs.Top().Title)
	w.kit.Dialogs.Escape()
	w.compare.ForWeight()
	w.kit.Dialogs.Top().Fields[3].Object.(*kit.Entry).SetText("much")
	test.Tap(answerOf(t, w, "Look for ways"))
	require.Equal(t, "Reach a weight", w.kit.Dialogs.Top().Title, "it stays open")
	w.kit.Dialogs.Escape()
	w.compare.SearchWays(target.Target{Kind: target.Left, Value: 3})
	require.True(t, strings.HasPrefix(w.kit.Dialogs.Top().Title, "No way"), w.kit.Dialogs.Top().Title)
}

// Every way that is offered changes the design, and says what it costs.
func TestNoWayIsOfferedThatChangesNothing(t *testing.T) {
	w, log := usual(t)
	now := w.ed.Scene.Report.Left
	for _, g := range []target.Target{{Kind: target.Left, Value: now}, {Kind: target.Left, Value: 28}, {Kind: target.Left, Value: 3}, {Kind: target.Lightest}} {
		log.Reset()
		before := w.ed.Now()
		w.compare.SearchWays(g)
		d := w.kit.Dialogs.Top()
		var takes []string
		for _, f := range d.Fields {
			takes = append(takes, f.Name)
		}
		if g.Value == 28 {
			require.NotEmpty(t, takes)
			require.Regexp(t, "stiffer|softer", wordsOf(d.Panel), "how it springs")
		}
		w.escape()
		for _, name := range takes {
			w.compare.SearchWays(g)
			test.Tap(answerOf(t, w, name))
			require.False(t, app.Equal(before, w.ed.Now()), "%v %s", g, name)
			w.undo()
			require.True(t, app.Equal(before, w.ed.Now()))
		}
	}
}

func TestVariantsAreComparedAndTakenUp(t *testing.T) {
	w, _ := usual(t)
	w.compare.ShowVariants()
	test.Tap(answerOf(t, w, "Keep as a variant..."))
	test.Tap(answerOf(t, w, "Keep"))
	require.Len(t, w.ed.Now().Variants, 1)
	first := w.ed.Scene.Report.Left
	d := w.ed.Now()
	d.Rules.BridgeMM = 2
	w.ed.Change("", "rules.bridge_mm", "", "", d)
	second := w.ed.Scene.Report.Left
	require.Greater(t, second, first+1)
	w.compare.ShowVariants()
	keepPicture(t, "variants", func() image.Image { return w.win.Canvas().Capture() })
	test.Tap(answerOf(t, w, "take-0"))
	require.Equal(t, first, w.ed.Scene.Report.Left)
	require.Equal(t, 2.0, w.ed.Now().Variants[0].Rules.BridgeMM)
	w.undo()
	require.Equal(t, second, w.ed.Scene.Report.Left)
	w.compare.ShowVariants()
	test.Tap(answerOf(t, w, "remove-0"))
	require.Empty(t, w.ed.Now().Variants)
}

func TestWaysToLightenAreShownAndOneIsTaken(t *testing.T) {
	w, log := usual(t)
	d := w.ed.Now()
	d.Reserves, d.Band.WidthMM, d.Band.EndWidthMM, d.Band.EndCornerMM = nil, 16, 16, 2
	d.Fields = []pattern.Field{{Motif: "squares", Rows: 1, Repeats: 14}}
	w.ed.Change("", "band.width_mm", "", "", d)
	before := w.ed.Now()
	w.compare.Lighten()
	w.kit.Dialogs.Top().Fields[0].Object.(*kit.Entry).SetText("much")
	test.Tap(answerOf(t, w, "Look for ways"))
	require.Equal(t, "Lighten where metal idles", w.kit.Dialogs.Top().Title, "it stays open")
	w.kit.Dialogs.Top().Fields[0].Object.(*kit.Entry).SetText("")
	test.Tap(answerOf(t, w, "Look for ways"))
	keepPicture(t, "lighten-ways", func() image.Image { return w.win.Canvas().Capture() })
	require.Equal(t, "Ways to have less metal that carries as much", w.kit.Dialogs.Top().Title)
	test.Tap(answerOf(t, w, "take-taper"))
	require.Empty(t, w.kit.Dialogs.Open)
	require.Less(t, w.ed.Now().Band.EndWidthMM, 16.0)
	require.Contains(t, log.String(), "edit field=lighten")
	w.undo()
	require.True(t, app.Equal(before, w.ed.Now()))

	d.Fields = nil
	w.ed.Change("", "fields", "", "", d)
	w.compare.Lightened(0)
	require.Equal(t, "That can't be lightened", w.kit.Dialogs.Top().Title)
}
