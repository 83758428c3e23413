package ui

import (
	"os"
	"path/filepath"
	"testing"

	"fretband/app"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"
	"github.com/stretchr/testify/require"
)

// answers returns the words on the topmost dialog's buttons.
func answers(w *Window) (texts []string) {
	for _, b := range w.kit.Dialogs.Top().Buttons {
		texts = append(texts, b.Text)
	}
	return texts
}

// answerWith presses the button with that text.
func answerWith(t *testing.T, w *Window, text string) {
	t.Helper()
	for _, b := range w.kit.Dialogs.Top().Buttons {
		if b.Text == text {
			test.Tap(b)
			return
		}
	}
	t.Fatalf("%q has no button %q", w.kit.Dialogs.Top().Title, text)
}

// onFile opens a window on a file that another document of the program has as well.
func onFile(t *testing.T, dress string) (w *Window, path string, other *app.Document) {
	t.Helper()
	w, _ = openTest(t, "harbour-cuff", fyne.NewSize(1400, 900), dress)
	path = filepath.Join(t.TempDir(), "cuff.json")
	require.NoError(t, app.NewDocument(w.ed.Now()).SaveAs(path))
	w.files.OpenPath(path)
	require.Empty(t, w.kit.Dialogs.Open)
	require.Equal(t, path, w.ed.Doc.Path)
	other, err := app.Open(path)
	require.NoError(t, err)
	return w, path, other
}

// changedElsewhere changes the file behind the window's back, and the design in it.
func changedElsewhere(t *testing.T, w *Window, other *app.Document) {
	t.Helper()
	d := other.Now()
	d.Rules.RimMM = 2.75
	other.Change("", d)
	require.NoError(t, other.SaveAs(other.Path))
	typeInto(w, w.controls.RowsOf["rules.rim_mm"].Entry, "3.25")
}

func TestAFileThatOthersHaveChangedIsAskedAboutBeforeItIsOverwritten(t *testing.T) {
	for _, dress := range dresses() {
		w, path, other := onFile(t, dress)
		changedElsewhere(t, w, other)
		was, err := os.ReadFile(path)
		require.NoError(t, err)
		w.files.Save()
		require.Equal(t, "The file has changed", w.kit.Dialogs.Top().Title)
		require.Contains(t, wordsOf(w.kit.Dialogs.Top().Panel), "cuff.json was changed by another window or program")
		require.Equal(t, []string{"Cancel", "Reload", "Overwrite", "Save under another name"}, answers(w))
		keepPicture(t, "file-changed-"+dress, w.win.Canvas().Capture)
		w.escape()
		is, err := os.ReadFile(path)
		require.NoError(t, err)
		require.Equal(t, string(was), string(is))
		require.True(t, w.ed.Doc.Dirty())

		w.files.Save()
		w.kit.Dialogs.Enter()
		require.Equal(t, "Save the design as", w.kit.Dialogs.Top().Title)
		w.escape()

		w.files.Save()
		answerWith(t, w, "Reload")
		require.Equal(t, 2.75, w.ed.Now().Rules.RimMM)
		require.False(t, w.ed.Doc.Dirty())
		w.undo()
		require.Equal(t, 3.25, w.ed.Now().Rules.RimMM, "nothing is lost")

		changedElsewhere(t, w, other) // the same again: the file is as it was read
		require.Empty(t, w.kit.Dialogs.Open)
		d := other.Now()
		d.Rules.RimMM = 2.8
		other.Change("", d)
		require.NoError(t, other.SaveAs(path))
		ran := false
		w.files.SaveThen(func() { ran = true })
		require.False(t, ran)
		answerWith(t, w, "Overwrite")
		require.True(t, ran, "and what was to follow follows")
		got, err := app.Open(path)
		require.NoError(t, err)
		require.Equal(t, 3.25, got.Now().Rules.RimMM)
	}
}

func TestASecondWindowOnAFileSaysSoWhenItOpens(t *testing.T) {
	for _, dress := range dresses() {
		one, path, _ := onFile(t, dress)
		w, log := openTest(t, "harbour-cuff", fyne.NewSize(1400, 900), dress)
		w.files.Dir = one.files.Dir
		was := w.ed.Doc
		w.files.OpenPath(path)
		require.Equal(t, "Open in another window", w.kit.Dialogs.Top().Title)
		require.Equal(t, []string{"Cancel", "Open it all the same", "Open a copy"}, answers(w))
		keepPicture(t, "file-elsewhere-"+dress, w.win.Canvas().Capture)
		w.escape()
		require.Same(t, was, w.ed.Doc)
		require.Contains(t, log.String(), "elsewhere path=")

		w.files.OpenPath(path)
		w.kit.Dialogs.Enter()
		require.Empty(t, w.ed.Doc.Path, "a copy is in no file")
		require.True(t, app.Equal(one.ed.Doc.Now(), w.ed.Now()))
		w.files.SaveTo(path, nil)
		require.Equal(t, "Open in another window", w.kit.Dialogs.Top().Title)
		require.Equal(t, []string{"Cancel", "Overwrite", "Save under another name"}, answers(w))
		keepPicture(t, "file-save-elsewhere-"+dress, w.win.Canvas().Capture)
		w.escape()

		w.files.OpenPath(path)
		answerWith(t, w, "Open it all the same")
		require.Equal(t, path, w.ed.Doc.Path)
		w.files.OpenPath(path)
		require.Equal(t, "Open in another window", w.kit.Dialogs.Top().Title, "it still is")
		w.escape()
		one.files.EndClaims()
		w.files.OpenPath(path)
		require.Empty(t, w.kit.Dialogs.Open)
		w.files.OpenPath(path)
		require.Empty(t, w.kit.Dialogs.Open, "the window's own lock is no other's")
		w.files.EndClaims()
	}
}

func TestAWindowThatBeginsWithAFileThatIsOpenElsewhereSaysSo(t *testing.T) {
	one, path, _ := onFile(t, "light")
	for _, text := range []string{"", "Open a copy", "Open it all the same"} {
		doc, err := app.Open(path)
		require.NoError(t, err)
		w, _ := openOn(t, doc, fyne.NewSize(1400, 900), "light")
		w.files.Dir = one.files.Dir
		w.Started(nil)
		require.Equal(t, "Open in another window", w.kit.Dialogs.Top().Title)
		require.Equal(t, []string{"Open it all the same", "Open a copy"}, answers(w))
		if text == "" {
			w.escape()
		} else {
			answerWith(t, w, text)
		}
		if text == "Open it all the same" {
			require.Equal(t, path, w.ed.Doc.Path)
		} else {
			require.Empty(t, w.ed.Doc.Path)
		}
		require.Empty(t, w.kit.Dialogs.Open)
	}

}
