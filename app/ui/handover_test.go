package ui

import (
	"errors"
	"net/url"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"fretband/app"
	"fretband/app/ui/kit"
	"fretband/app/ui/pages"
	"fretband/export"
	"fretband/export/handover"
	"fretband/pattern"
	"fretband/pattern/project"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/test"
	"github.com/stretchr/testify/require"
)

// viewer stands for a system with or without a program that shows folders.
type viewer struct {
	fyne.App
	asked []string
	err   error
}

func (v *viewer) OpenURL(u *url.URL) error {
	v.asked = append(v.asked, u.String())
	return v.err
}

func namesIn(t *testing.T, dir string) []string {
	t.Helper()
	entries, err := os.ReadDir(dir)
	require.NoError(t, err)
	var names []string
	for _, e := range entries {
		names = append(names, e.Name())
	}
	return names
}

// fieldOf returns a named field of the topmost dialog.
func fieldOf(t *testing.T, w *Window, name string) fyne.CanvasObject {
	t.Helper()
	for _, f := range w.kit.Dialogs.Top().Fields {
		if f.Name == name {
			return f.Object
		}
	}
	t.Fatalf("the dialog has no field %s", name)
	return nil
}

func wordsOf(o fyne.CanvasObject) string {
	switch x := o.(type) {
	case *kit.Passage:
		return x.Text + "\n"
	case *kit.Label:
		return x.Text + "\n"
	case *container.Scroll:
		return wordsOf(x.Content)
	case *fyne.Container:
		var s strings.Builder
		for _, c := range x.Objects {
			s.WriteString(wordsOf(c))
		}
		return s.String()
	}
	return ""
}

func TestEachReceiverIsAskedWhatConcernsHimAndGetsHisFiles(t *testing.T) {
	for _, size := range []fyne.Size{{Width: 1400, Height: 870}, {Width: 1100, Height: 670}} {
		for _, dress := range []string{"light", "dark"} {
			w, log := openTest(t, "harbour-cuff", size, dress)
			see := &viewer{App: w.app}
			w.app = see
			cut := []string{"curves", "words", "kerf", "lead", "tabs", "tab-width", "chord", "copies", "sheet-width", "sheet-height", "gap", "margin", "openings-colour", "outline-colour", "engraving-colour", "fold-openings-colour"}
			for _, r := range []struct {
				key  string
				asks []string
			}{
				{"bench", []string{"paper", "stress", "paper-copies"}},
				{"laser", cut},
				{"client", []string{"stress"}},
				{"casting", nil},
				{app.Anyone, append([]string{"process", "paper"}, cut...)},
			} {
				key := r.key
				dir := t.TempDir()
				w.settings.HandOver.Folder = dir
				w.settings.HandOver.Curves = export.Chords // the most that is asked
				w.handOver.Ask()
				test.Tap(fieldOf(t, w, "for-"+nameOf(key)).(*kit.Button))
				var fields []string
				for _, f := range w.kit.Dialogs.Top().Fields[len(export.Receivers())+1+3:] {
					fields = append(fields, f.Name)
				}
				require.Equal(t, r.asks, fields, key)
				keepPicture(t, "handover-"+nameOf(key)+"-"+dress+"-"+app.FormatNumber(float64(size.Width), 0), w.win.Canvas().Capture)
				require.LessOrEqual(t, w.kit.Dialogs.Top().Panel.MinSize().Height, size.Height, "the dialog fits into the window")
				if dress == "dark" || size.Width < 1400 { // once is enough to make them
					w.escape()
					continue
				}
				if slices.Contains(r.asks, "curves") {
					fieldOf(t, w, "curves").(*kit.ChoiceBox).OnChoose(export.Arcs)
				}
				require.True(t, w.kit.Dialogs.Enter())
				require.Equal(t, "Made for "+lowered(titleOf(key)), w.kit.Dialogs.Top().Title, wordsOf(w.kit.Dialogs.Top().Panel))
				keepPicture(t, "handed-"+nameOf(key), w.win.Canvas().Capture)
				told := wordsOf(w.kit.Dialogs.Top().Fields[0].Object)
				require.Len(t, namesIn(t, dir), len(makes(key)))
				for _, name := range namesIn(t, dir) {
					require.Contains(t, told, name)
				}
				require.Equal(t, "file://"+dir, see.asked[len(see.asked)-1])
				require.Equal(t, key, w.settings.HandOver.For)
				w.escape()
			}
			require.Contains(t, log.String(), "dialog name=\"hand over\"")
		}
	}
}

// nameOf is what the script that drives the window calls the button of a receiver.
func nameOf(receiver string) string {
	if receiver == app.Anyone {
		return "anyone"
	}
	return receiver
}

func titleOf(receiver string) string {
	if v, ok := export.ReceiverByKey(receiver); ok {
		return v.Title
	}
	return "Anyone"
}

func lowered(s string) string { return strings.ToLower(s[:1]) + s[1:] }

// makes lists what a receiver gets.
func makes(receiver string) []handover.Format {
	to, _ := export.ReceiverByKey(receiver)
	return handover.Gets(to, export.Options{})
}

// Nothing is cut off: the receiver who is asked the most fits into the room that is
// kept for him, and so does what is said of a broken rule.
func TestTheQuestionHasRoomForTheReceiverWhoIsAskedTheMost(t *testing.T) {
	broken, err := project.GalleryDesign("harbour-cuff")
	require.NoError(t, err)
	broken.Reserves = []pattern.Reserve{ // over the edge
		{Shape: pattern.CircleShape, YMM: 14, WidthMM: 8, MarginMM: 1, Note: "stone"},
		{Shape: pattern.CircleShape, XMM: 20, YMM: 14, WidthMM: 8, MarginMM: 1, Note: "another stone"},
	}
	d, _ := openOn(t, app.NewDocument(broken), fyne.NewSize(1100, 670), "light")
	breaches, _ := app.Breaches(d.ed.Scene.Report.Findings)
	require.Positive(t, breaches)
	for _, v := range append(export.Receivers(), export.Receiver{Key: app.Anyone}) {
		d.settings.HandOver.For, d.settings.HandOver.Curves = v.Key, export.Chords
		d.handOver.Ask()
		q := d.kit.Dialogs.Top()
		keepPicture(t, "handover-breach-"+nameOf(v.Key), d.win.Canvas().Capture)
		if app.CutsSheet(v.Key) {
			test.Tap(fieldOf(t, d, "fold-openings-colour").(fyne.Tappable))
			require.True(t, fieldOf(t, d, "outline-colour").Visible())
			keepPicture(t, "handover-colours-"+nameOf(v.Key), d.win.Canvas().Capture)
		}
		asked := holderOf(q.Panel, fieldOf(t, d, "folder"))
		require.NotNil(t, asked)
		require.LessOrEqual(t, asked.MinSize().Height, float32(pages.AskedHeight), v.Key)
		require.Contains(t, wordsOf(q.Panel), "2 rules of the design are broken: ", "it is said before anything is written")
		d.escape()
	}
}

// holderOf returns the container whose row holds o.
func holderOf(c *fyne.Container, o fyne.CanvasObject) *fyne.Container {
	for _, x := range c.Objects {
		inner, ok := x.(*fyne.Container)
		if !ok {
			continue
		}
		for _, y := range inner.Objects {
			if y == o {
				return c
			}
		}
		if h := holderOf(inner, o); h != nil {
			return h
		}
	}
	return nil
}

func TestWhatIsTypedIsTakenInMillimetresOrInchesOrRefusedInTheQuestion(t *testing.T) {
	w, log := usual(t)
	dir := t.TempDir()
	w.settings.HandOver.Folder, w.settings.HandOver.For = dir, "laser"
	w.handOver.Ask()
	put := func(name, text string) { fieldOf(t, w, name).(*kit.Entry).SetText(text) }
	put("kerf", "wide")
	require.True(t, w.kit.Dialogs.Enter())
	require.Equal(t, "Hand over", w.kit.Dialogs.Top().Title, "it stays")
	require.Empty(t, namesIn(t, dir))
	put("kerf", "50")
	w.kit.Dialogs.Enter()
	require.Equal(t, "Hand over", w.kit.Dialogs.Top().Title)
	require.Contains(t, wordsOf(w.kit.Dialogs.Top().Panel), "allowed is 0 to 1 mm")
	put("kerf", "0,1")
	require.NotContains(t, wordsOf(w.kit.Dialogs.Top().Panel), "allowed is", "it is being mended")
	put("sheet-width", "12 in")
	w.kit.Dialogs.Enter()
	require.Equal(t, "Hand over", w.kit.Dialogs.Top().Title, "one side of a sheet is none")
	put("sheet-height", "6 in")
	put("copies", "1")
	fieldOf(t, w, "copies").(*kit.Entry).TypedKey(&fyne.KeyEvent{Name: fyne.KeyUp})
	w.kit.Dialogs.Enter()
	require.Equal(t, "Made for the laser shop", w.kit.Dialogs.Top().Title)
	w.escape()
	got := w.settings.HandOver.Asked()
	require.InDeltaSlice(t, []float64{0.1, 304.8, 152.4, 2}, []float64{got.KerfMM, got.StockW, got.StockH, float64(got.Copies)}, 1e-9)
	// Kept for the next time, in the file too; the bench gets nothing of it.
	kept, err := app.ReadSettings(w.files.Dir)
	require.NoError(t, err)
	require.Equal(t, w.settings.HandOver, kept.HandOver)
	w.handOver.Ask()
	require.Equal(t, "0.1", fieldOf(t, w, "kerf").(*kit.Entry).Text)
	test.Tap(fieldOf(t, w, "for-bench").(*kit.Button))
	w.kit.Dialogs.Enter()
	require.Zero(t, w.settings.HandOver.Asked().KerfMM)
	require.Contains(t, log.String(), "handover receiver=bench")
}

func TestWhatCantBeMadeIsSaidInTheQuestionAndItStays(t *testing.T) {
	w, _ := usual(t)
	w.settings.HandOver.Folder, w.settings.HandOver.For = t.TempDir(), "laser"
	w.settings.HandOver.StockW, w.settings.HandOver.StockH = 20, 20 // the cuff is longer
	w.handOver.Ask()
	q := w.kit.Dialogs.Top()
	w.kit.Dialogs.Enter()
	require.Same(t, q, w.kit.Dialogs.Top())
	require.False(t, q.Main.Off, "it can be tried again")
	fieldOf(t, w, "sheet-width").(*kit.Entry).SetText("")
	fieldOf(t, w, "sheet-height").(*kit.Entry).SetText("")
	w.kit.Dialogs.Enter()
	require.Equal(t, "Made for the laser shop", w.kit.Dialogs.Top().Title)
}

// Files of another design are not lost without a question; those of the same one are
// made anew in one step, whatever was edited meanwhile.
func TestFilesOfAnotherDesignAreReplacedOnlyAfterAQuestion(t *testing.T) {
	for _, dress := range dresses() {
		w, log := openTest(t, "harbour-cuff", fyne.NewSize(1400, 900), dress)
		dir := t.TempDir()
		w.settings.HandOver.Folder, w.settings.HandOver.For = dir, "laser"
		give := func(name string) {
			w.handOver.Ask()
			fieldOf(t, w, "name").(*kit.Entry).SetText(name)
			w.kit.Dialogs.Enter()
		}
		done := func() {
			t.Helper()
			require.Equal(t, "Made for the laser shop", w.kit.Dialogs.Top().Title, wordsOf(w.kit.Dialogs.Top().Panel))
			w.escape()
		}
		rename := func(name string) {
			d := w.ed.Now()
			d.Name = name
			w.ed.Change("", "name", "", name, d)
		}
		give("cuff")
		done()
		typeInto(w, w.controls.RowsOf["rules.rim_mm"].Entry, "2.5")
		give("cuff")
		done()
		require.Equal(t, "cuff", w.ed.Now().Name)
		rename("A cuff that has been given another name")
		give("cuff")
		done() // this window knows it by its content number

		w.files.Use(app.NewDocument(w.ed.Now()))
		rename("The other cuff")
		typeInto(w, w.controls.RowsOf["rules.rim_mm"].Entry, "2.8")
		require.NoError(t, os.WriteFile(filepath.Join(dir, "cuff-laser-note.txt"), []byte("a letter"), 0o644))
		was, err := os.ReadFile(filepath.Join(dir, "cuff-laser.dxf"))
		require.NoError(t, err)
		give("cuff")
		require.Equal(t, "Files of another design are there", w.kit.Dialogs.Top().Title)
		keepPicture(t, "handover-others-"+dress, w.win.Canvas().Capture)
		told := wordsOf(w.kit.Dialogs.Top().Panel)
		require.Contains(t, told, "cuff-laser.dxf, cuff-laser.svg, cuff-laser-job.pdf, cuff-laser-job.html\nof cuff, content number ")
		require.Contains(t, told, "cuff-laser-note.txt\nof no known design\n")
		w.kit.Dialogs.Enter() // go back
		require.Equal(t, "Hand over", w.kit.Dialogs.Top().Title, "and it can be given another name")
		is, err := os.ReadFile(filepath.Join(dir, "cuff-laser.dxf"))
		require.NoError(t, err)
		require.Equal(t, was, is)
		w.kit.Dialogs.Enter()
		answerWith(t, w, "Replace them")
		done()
		is, err = os.ReadFile(filepath.Join(dir, "cuff-laser.dxf"))
		require.NoError(t, err)
		require.NotEqual(t, was, is)
		require.Contains(t, log.String(), `refused what="hand over" why=`)
	}
}

// A name that is given at a hand-over is the design's from then on, and tells nothing of files
// that stand under it already.
func TestANameGivenAtAHandOverIsRemembered(t *testing.T) {
	w, _ := usual(t)
	d := w.ed.Now()
	d.Name = pattern.Untitled
	w.files.Use(app.NewDocument(d))
	dir := t.TempDir()
	w.settings.HandOver.Folder, w.settings.HandOver.For = dir, "client"
	w.handOver.Ask()
	name := fieldOf(t, w, "name").(*kit.Entry)
	require.Equal(t, "cuff", name.Text)
	name.SetText("Sea holly")
	w.kit.Dialogs.Enter()
	require.Equal(t, "Made for the client", w.kit.Dialogs.Top().Title)
	w.escape()
	require.Equal(t, "Sea holly", w.ed.Now().Name)
	drawn, err := filepath.Glob(filepath.Join(dir, "Sea holly*.svg"))
	require.NoError(t, err)
	require.Len(t, drawn, 1)
	picture, err := os.ReadFile(drawn[0])
	require.NoError(t, err)
	require.Contains(t, string(picture), "Sea holly")
	w.handOver.Ask()
	require.Equal(t, "sea-holly", fieldOf(t, w, "name").(*kit.Entry).Text)
	w.escape()
	w.undo()
	require.Equal(t, pattern.Untitled, w.ed.Now().Name)

	// Another design that is handed over under that name asks, again and again.
	other := w.ed.Now()
	other.Rules.RimMM++
	w.files.Use(app.NewDocument(other))
	for range 2 {
		w.handOver.Ask()
		fieldOf(t, w, "name").(*kit.Entry).SetText("Sea holly")
		w.kit.Dialogs.Enter()
		require.Equal(t, "Files of another design are there", w.kit.Dialogs.Top().Title)
		w.escape()
		w.escape()
		require.Equal(t, pattern.Untitled, w.ed.Now().Name)
	}
}

func TestAPartInPiecesIsRefusedBeforeAnythingIsAsked(t *testing.T) {
	w, log := usual(t)
	r := *w.ed.Scene.Report
	r.Pieces = 2 // no design file is known that comes to this: the bridge rule is kept
	w.ed.Scene.Report = &r
	w.handOver.Ask()
	require.Equal(t, "Nothing is handed over", w.kit.Dialogs.Top().Title)
	require.Contains(t, log.String(), "2 pieces")
}

func TestAFolderThatCantBeShownIsSaidPlainly(t *testing.T) {
	w, log := usual(t)
	see := &viewer{App: w.app, err: errors.New("no such program")}
	w.app = see
	dir := filepath.Join(t.TempDir(), "with a space")
	w.settings.HandOver.Folder, w.settings.HandOver.For = dir, "client"
	w.handOver.Ask()
	w.kit.Dialogs.Enter()
	require.Contains(t, wordsOf(w.kit.Dialogs.Top().Fields[0].Object), "The folder could not be opened")
	require.Contains(t, log.String(), "no such program")
	require.Contains(t, see.asked[0], "with%20a%20space")
	w.escape()
	// The tick taken out, nobody is asked.
	w.handOver.Ask()
	fieldOf(t, w, "open").(*kit.Tick).SetChecked(false)
	w.kit.Dialogs.Enter()
	require.Len(t, see.asked, 1)
	require.NotContains(t, wordsOf(w.kit.Dialogs.Top().Fields[0].Object), "could not be opened")
	require.True(t, w.settings.HandOver.LeaveFolder)
}

// While the numbers are typed the question shows how the parts will lie on the sheet, and
// says it when they have no room; who cuts no sheet is shown none.
func TestTheQuestionShowsThePartsOnTheirSheet(t *testing.T) {
	w, _ := openTest(t, "harbour-cuff", fyne.Size{Width: 1400, Height: 870}, "light")
	w.settings.HandOver.Folder = t.TempDir()
	w.handOver.Ask()
	test.Tap(fieldOf(t, w, "for-laser").(*kit.Button))
	told := func() string { return wordsOf(w.kit.Dialogs.Top().Panel) }
	require.Contains(t, told(), "1 part on 155.5 x 40 mm") // 145.47 x 30 and twice the margin of 5
	fieldOf(t, w, "copies").(*kit.Entry).SetText("6")
	require.Contains(t, told(), "6 parts on ")
	fieldOf(t, w, "sheet-width").(*kit.Entry).SetText("160")
	fieldOf(t, w, "sheet-height").(*kit.Entry).SetText("110")
	require.Contains(t, told(), "Room for 3 of 6 parts.")
	keepPicture(t, "handover-sheet", w.win.Canvas().Capture)
	test.Tap(fieldOf(t, w, "for-client").(*kit.Button))
}
