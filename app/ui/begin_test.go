package ui

import (
	"bytes"
	"image"
	"image/color"
	"path/filepath"
	"testing"

	"fretband/app"
	"fretband/app/ui/kit"
	"fretband/pattern"
	"fretband/pattern/check"
	"fretband/unroll"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"
	"github.com/stretchr/testify/require"
)

// field returns what the topmost dialog has under a name.
func field[T any](t *testing.T, w *Window, name string) (found T) {
	t.Helper()
	for _, f := range w.kit.Dialogs.Top().Fields {
		if f.Name == name {
			return f.Object.(T)
		}
	}
	require.Fail(t, "the dialog has no "+name)
	return found
}

// begun opens a window without a file.
func begun(t *testing.T, dress string, size fyne.Size, s app.Settings) (*Window, *bytes.Buffer) {
	t.Helper()
	a := test.NewApp()
	t.Cleanup(a.Quit)
	var log bytes.Buffer
	s.Theme = dress
	now := func(f func()) { f() }
	w := NewWindow(Options{App: a, Log: app.NewLog(&log), Dir: t.TempDir(), Settings: s, Document: app.NewDocument(pattern.Begin(unroll.Cuff)),
		Size: size, Begin: true, Go: now, Post: now, Quiet: true})
	w.win.Resize(size)
	t.Cleanup(w.win.Close)
	w.Started(nil)
	return w, &log
}

// Three numbers, and a pierced band stands there with nothing amber.
func TestAPieceIsBegunByThreeNumbers(t *testing.T) {
	for _, c := range []struct {
		kind, size, width, sheet string
		ok                       func(unroll.Inside) bool
	}{
		{unroll.Cuff, "152", "24", "18 ga", func(i unroll.Inside) bool { return i.WristMM == 152 }},
		{unroll.Bangle, "210", "12", "1.5", func(i unroll.Inside) bool { return i.CircumferenceMM == 210 }},
		{unroll.Ring, "58", "9", "1.3", func(i unroll.Inside) bool { return i.Size == "58" }},
	} {
		t.Run(c.kind, func(t *testing.T) {
			w, _ := begun(t, "light", fyne.NewSize(1400, 900), app.DefaultSettings())
			require.Equal(t, "What will you make?", w.kit.Dialogs.Top().Title)
			test.Tap(field[fyne.Tappable](t, w, "kind:"+c.kind))
			for name, typed := range map[string]string{"begin:size": c.size, "begin:width": c.width, "begin:sheet": c.sheet} {
				typeInto(w, field[*kit.Entry](t, w, name), typed)
			}
			test.Tap(w.kit.Dialogs.Top().Main)
			require.Empty(t, w.kit.Dialogs.Open)
			b := w.ed.Now().Band
			require.Equal(t, c.kind, b.Kind)
			require.True(t, c.ok(b.Inside), "%+v", b.Inside)
			require.Equal(t, c.width, app.FormatNumber(b.WidthMM, 2))
			require.Greater(t, len(w.ed.Scene.Sheet.Openings), 6)
			r := check.Deepen(w.ed.Scene.Sheet, w.ed.Scene.Report)
			for _, f := range r.Findings {
				require.Equal(t, check.Note, f.Severity, f.What)
			}
		})
	}
}

// What is begun may have another motif, and escape leaves the page without a change.
func TestBeginningTakesAMotifAndCanBeLeft(t *testing.T) {
	w, _ := begun(t, "light", fyne.NewSize(1400, 900), app.DefaultSettings())
	was := w.ed.Now()
	test.Tap(field[*kit.Button](t, w, "begin:motif"))
	test.Tap(field[fyne.Tappable](t, w, "motif:leaves"))
	require.Equal(t, "What will you make?", w.kit.Dialogs.Top().Title)
	require.True(t, app.Equal(was, w.ed.Now()))
	require.True(t, w.kit.Dialogs.Enter())
	require.Equal(t, "leaves", w.ed.Now().Fields[0].Motif)
	is := w.ed.Now()
	w.files.New()
	w.escape()
	require.Empty(t, w.kit.Dialogs.Open)
	require.True(t, app.Equal(is, w.ed.Now()))
}

func TestBeginningShowsTheGalleryAndRecentFiles(t *testing.T) {
	dir := t.TempDir()
	s := app.DefaultSettings()
	for _, name := range []string{"first", "second"} {
		d := pattern.Begin(unroll.Bangle)
		d.Name = name
		doc := app.NewDocument(d)
		require.NoError(t, doc.SaveAs(filepath.Join(dir, name+".json")))
		s.Opened(doc.Path)
	}
	s.Opened(filepath.Join(dir, "gone.json"))
	for _, dress := range dresses() {
		for _, size := range []fyne.Size{{Width: 1400, Height: 870}, {Width: 1100, Height: 670}} {
			w, _ := begun(t, dress, size, s)
			img := w.win.Canvas().Capture()
			keepPicture(t, "begin-"+dress+"-"+app.FormatNumber(float64(size.Width), 0), func() image.Image { return img })
			panel := w.kit.Dialogs.Top().Panel.MinSize()
			require.True(t, panel.Width < size.Width && panel.Height < size.Height, "%v in %v", panel, size)
			for _, f := range w.kit.Dialogs.Top().Fields {
				require.NotEqual(t, "recent:gone", f.Name)
			}
			test.Tap(field[fyne.Tappable](t, w, "recent:second"))
			require.Empty(t, w.kit.Dialogs.Open, "nothing has been changed, so nothing is asked")
			require.Equal(t, "second", w.ed.Now().Name)
			w.files.New()
			test.Tap(field[fyne.Tappable](t, w, "gallery:keel-cuff"))
			require.Equal(t, "Keel cuff", w.ed.Now().Name)
		}
	}
}

// Unsaved work comes first; if none of it is brought back, the page is there.
func TestBeginningComesAfterUnsavedWork(t *testing.T) {
	dir := t.TempDir()
	left := app.NewDocument(pattern.Begin(unroll.Ring))
	left.Change("", pattern.Begin(unroll.Bangle))
	crashed(t, dir, left)
	for _, answer := range []string{"Later", "Throw it away"} {
		w, _ := begun(t, "light", fyne.NewSize(1400, 900), app.DefaultSettings())
		w.escape()
		w.Started(app.LeftBehind(dir))
		require.Equal(t, "Unsaved work was found", w.kit.Dialogs.Top().Title)
		answerWith(t, w, answer)
		require.Len(t, w.kit.Dialogs.Open, 1)
		require.Equal(t, "What will you make?", w.kit.Dialogs.Top().Title)
	}
}

// A tip of what lies in a dialog is drawn over the dialog, not under it.
func TestTipsOfADialogLieOverIt(t *testing.T) {
	w, _ := begun(t, "light", fyne.NewSize(1400, 900), app.DefaultSettings())
	w.kit.Tips.Tell(field[fyne.CanvasObject](t, w, "kind:ring"), "Closed, for a finger.")
	require.Empty(t, w.kit.Tips.Layer.Objects)
	box := w.kit.Tips.Box
	at := fyne.CurrentApp().Driver().AbsolutePositionForObject(box).AddXY(4, box.Size().Height/2)
	require.Equal(t, w.kit.Dress.Ink, color.NRGBAModel.Convert(w.win.Canvas().Capture().At(int(at.X), int(at.Y))))
	w.escape()
	w.kit.Tips.Tell(w.blank, "The blank.")
	require.NotEmpty(t, w.kit.Tips.Layer.Objects)
}
