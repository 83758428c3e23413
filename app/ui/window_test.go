package ui

import (
	"bytes"
	"image"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"fretband/app"
	"fretband/app/ui/kit"
	"fretband/app/ui/pages"
	"fretband/pattern"
	"fretband/pattern/motif"
	"fretband/pattern/project"
	"fretband/pattern/view3d"
	"fretband/unroll"
	"fretband/unroll/plane"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/test"
	"github.com/stretchr/testify/require"
)

// openTest opens a window on a gallery design with all work done at once.
func openTest(t *testing.T, name string, size fyne.Size, dress string) (*Window, *bytes.Buffer) {
	t.Helper()
	d, err := project.GalleryDesign(name)
	require.NoError(t, err)
	return openOn(t, app.NewDocument(d), size, dress)
}

func openOn(t *testing.T, doc *app.Document, size fyne.Size, dress string) (*Window, *bytes.Buffer) {
	t.Helper()
	a := test.NewApp()
	t.Cleanup(a.Quit)
	var log bytes.Buffer
	s := app.DefaultSettings()
	s.Theme = dress
	now := func(f func()) { f() }
	w := NewWindow(Options{App: a, Log: app.NewLog(&log), Dir: t.TempDir(), Settings: s, Document: doc, Size: size, Go: now, Post: now, Quiet: true})
	w.win.Resize(size)
	t.Cleanup(w.win.Close)
	return w, &log
}

// part returns a part of the controls by the name under which scripts find it; nil if it
// is not on the page that is open.
func part[T any](t *testing.T, w *Window, name string) (found T) {
	t.Helper()
	w.controls.Positions(func(n string, o fyne.CanvasObject) {
		if n == name {
			found = o.(T)
		}
	})
	return found
}

func usual(t *testing.T) (*Window, *bytes.Buffer) {
	t.Helper()
	return openTest(t, project.Gallery()[0], fyne.NewSize(1400, 900), "light")
}

func TestTheWholeWindowIsDrawnInBothDressesAndSizes(t *testing.T) {
	for _, name := range project.Gallery() {
		for _, dress := range []string{"light", "dark"} {
			for _, size := range []fyne.Size{{Width: 1400, Height: 870}, {Width: 1100, Height: 670}} {
				w, _ := openTest(t, name, size, dress)
				img := w.win.Canvas().Capture()
				require.Equal(t, int(size.Width), img.Bounds().Dx())
				keepPicture(t, "window-"+name+"-"+dress+"-"+app.FormatNumber(float64(size.Width), 0), func() image.Image { return img })
				// Metal is on the screen, on the blank and on the bent band.
				require.NotNil(t, w.ed.Scene)
				p := placeOn(w, plane.Pt(w.ed.Scene.Sheet.Flat.Outline.Bounds().Min.X+0.4, 0))
				require.True(t, p.X > 0 && p.Y > 0)
			}
		}
	}
}

func TestFiguresOnTheScreenAreTheReports(t *testing.T) {
	w, _ := usual(t)
	r := w.ed.Scene.Report
	require.Equal(t, pattern.Say("%.2f", r.Left), w.figures.Big[0].Value.Text)
	require.Equal(t, pattern.Say("%.2f", r.Thinnest.Width), w.figures.Big[1].Value.Text)
	require.Equal(t, pattern.Say("%.1f", 100*r.OpenShare), w.figures.Big[2].Value.Text)
	require.Len(t, w.findings.List.Rows, len(r.Findings))
}

func slideTo(s *kit.Slider, from, to float32) {
	y := s.Size().Height / 2
	s.MouseDown(&desktop.MouseEvent{PointEvent: fyne.PointEvent{Position: fyne.NewPos(from, y)}, Button: desktop.MouseButtonPrimary})
	for x := from; x <= to; x += 4 {
		s.Dragged(&fyne.DragEvent{PointEvent: fyne.PointEvent{Position: fyne.NewPos(x, y)}})
	}
	s.MouseUp(&desktop.MouseEvent{Button: desktop.MouseButtonPrimary})
	s.DragEnd()
}

func TestASlidersDragMovesTheFiguresAndIsOneStep(t *testing.T) {
	w, log := usual(t)
	before := w.ed.Scene.Report.Left
	row := w.controls.RowsOf["rules.bridge_mm"]
	require.Greater(t, row.Slider.Size().Width, float32(60))
	slideTo(row.Slider, 20, 60)
	require.Greater(t, w.ed.Scene.Report.Left, before)
	require.GreaterOrEqual(t, w.ed.Scene.Report.Thinnest.Width, w.ed.Scene.Report.Rule-1e-3)
	require.GreaterOrEqual(t, strings.Count(log.String(), "computed "), 4)
	require.Equal(t, app.FormatNumber(w.ed.Now().Rules.BridgeMM, 2), row.Entry.Text)
	w.undo()
	require.Equal(t, before, w.ed.Scene.Report.Left)
	require.False(t, w.ed.Doc.CanUndo())
	w.redo()
	require.Greater(t, w.ed.Scene.Report.Left, before)
}

func typeInto(w *Window, e *kit.Entry, text string) {
	w.win.Canvas().Focus(e)
	e.SetText("")
	test.Type(e, text)
	e.TypedKey(&fyne.KeyEvent{Name: fyne.KeyReturn})
}

func TestANumberIsTypedAsTheBenchWritesIt(t *testing.T) {
	w, _ := usual(t)
	row := w.controls.RowsOf["rules.rim_mm"]
	typeInto(w, row.Entry, "1/16 in")
	require.InDelta(t, 1.5875, w.ed.Now().Rules.RimMM, 1e-9)
	require.Equal(t, "1.59", row.Entry.Text)
	typeInto(w, row.Entry, "2,25")
	require.Equal(t, 2.25, w.ed.Now().Rules.RimMM)
	w.showTab(app.BandPage)
	thick := w.controls.RowsOf["band.thickness.mm"]
	typeInto(w, thick.Entry, "18 ga")
	require.Equal(t, 18, w.ed.Now().Band.Thickness.BSGauge)
	require.Equal(t, "18 ga", thick.Entry.Text)
}

func TestWhatIsNotAllowedIsSaidAndChangesNothing(t *testing.T) {
	w, log := usual(t)
	row := w.controls.RowsOf["rules.rim_mm"]
	was := w.ed.Now()
	typeInto(w, row.Entry, "999")
	require.True(t, app.Equal(was, w.ed.Now()))
	require.Contains(t, w.controls.Problem.Text, "allowed is 0 to 60 mm")
	require.Contains(t, log.String(), "refused field=rules.rim_mm")
	row.Entry.TypedKey(&fyne.KeyEvent{Name: fyne.KeyEscape})
	require.Equal(t, row.Number.Text(was), row.Entry.Text)
	require.Empty(t, w.controls.Problem.Text)
}

func TestUndoInAnEntryTakesBackTypingOnly(t *testing.T) {
	w, _ := usual(t)
	row := w.controls.RowsOf["rules.rim_mm"]
	typeInto(w, row.Entry, "3")
	require.Equal(t, 3.0, w.ed.Now().Rules.RimMM)
	test.Type(row.Entry, "5")
	require.True(t, row.Entry.Typing())
	w.undo()
	require.Equal(t, "3", row.Entry.Text)
	require.Equal(t, 3.0, w.ed.Now().Rules.RimMM, "the design stays")
	w.undo()
	require.NotEqual(t, 3.0, w.ed.Now().Rules.RimMM)
}

func TestArrowKeysAndTheWheelStep(t *testing.T) {
	w, _ := usual(t)
	row := w.controls.RowsOf["rules.bridge_mm"]
	b := w.ed.Now().Rules.BridgeMM
	w.win.Canvas().Focus(row.Entry)
	row.Entry.TypedKey(&fyne.KeyEvent{Name: fyne.KeyUp})
	row.Entry.TypedKey(&fyne.KeyEvent{Name: fyne.KeyUp})
	require.InDelta(t, b+0.1, w.ed.Now().Rules.BridgeMM, 1e-9)
	row.Entry.Scrolled(&fyne.ScrollEvent{Scrolled: fyne.NewDelta(0, -10)})
	require.InDelta(t, b+0.05, w.ed.Now().Rules.BridgeMM, 1e-9)
	w.win.Canvas().Unfocus()
	row.Entry.Scrolled(&fyne.ScrollEvent{Scrolled: fyne.NewDelta(0, -10)})
	require.InDelta(t, b+0.05, w.ed.Now().Rules.BridgeMM, 1e-9, "without the focus the wheel scrolls the page")
}

func TestADesignThatCannotBeLaidKeepsTheLastPicture(t *testing.T) {
	w, _ := usual(t)
	sc := w.ed.Scene
	w.showTab(app.BandPage)
	gap := w.controls.RowsOf["band.gap_mm"]
	typeInto(w, gap.Entry, "200")
	require.Same(t, sc, w.ed.Scene)
	require.Contains(t, w.controls.Problem.Text, "Gap: must be")
	w.handOver.Ask()
	require.Equal(t, "Not yet", w.kit.Dialogs.Top().Title)
	w.escape()
	w.undo()
	require.Empty(t, w.controls.Problem.Text)
	require.NotSame(t, sc, w.ed.Scene)
}

// at returns the place of an opening on the widget.
func at(w *Window, i int) fyne.Position {
	return placeOn(w, w.ed.Scene.Sheet.Openings[i].Loop.Centroid())
}

func TestPointingAtAnOpeningTellsIt(t *testing.T) {
	w, log := usual(t)
	o := w.ed.Scene.Sheet.Openings[10]
	w.blank.MouseMoved(&desktop.MouseEvent{PointEvent: fyne.PointEvent{Position: at(w, 10)}})
	require.Equal(t, 10, w.blank.Overlay.Hover)
	require.Contains(t, w.status.over.Text, "opening 11")
	require.Contains(t, w.status.over.Text, pattern.Say("%.2f", o.Loop.Area()))
	require.Contains(t, w.status.over.Text, "nearest metal")
	require.Contains(t, log.String(), "hover opening=11 ")
	w.blank.MouseOut()
	require.Empty(t, w.status.over.Text)
}

func TestTheWheelKeepsThePlaceUnderThePointer(t *testing.T) {
	w, _ := usual(t)
	p := at(w, 5)
	before := w.blank.PointAt(p)
	k := w.blank.Zoom()
	w.blank.Scrolled(&fyne.ScrollEvent{PointEvent: fyne.PointEvent{Position: p}, Scrolled: fyne.NewDelta(0, 30)})
	require.Greater(t, w.blank.Zoom(), k)
	require.InDelta(t, 0, before.Dist(w.blank.PointAt(p)), 1e-9)
	w.blank.Fit()
	require.InDelta(t, k, w.blank.Zoom(), 1e-9)
	w.blank.TrueSize()
	require.Equal(t, "true size, nominal", w.status.size.Text)
	require.InDelta(t, 96/25.4, w.blank.Zoom(), 1e-9, "1 in is 25.4 mm; at 96 dpi it is 96 pixels")
}

func TestAClickOnAFindingGoesThere(t *testing.T) {
	w := faulty(t, "light")
	for i, f := range w.findings.Found {
		if len(f.At) == 0 || len(f.At) > 12 {
			continue
		}
		w.blank.Fit()
		w.findings.List.Rows[i].Tapped(nil)
		require.Equal(t, f.At, w.blank.Overlay.Rings)
		for _, p := range f.At {
			q, in := placeOn(w, p), w.blank.Size()
			require.True(t, q.X > 0 && q.Y > 0 && q.X < in.Width && q.Y < in.Height, f.Kind.Key)
		}
		keepPicture(t, "finding", w.win.Canvas().Capture)
		return
	}
	t.Fatal("no finding has a place")
}

func TestReservesAreAddedMovedAndRemoved(t *testing.T) {
	w, _ := usual(t)
	onlyLaying(w)
	n := len(w.ed.Now().Reserves)
	w.ed.AddItem(app.ReserveItem, pattern.CircleShape)
	require.Len(t, w.ed.Now().Reserves, n+1)
	require.Equal(t, app.Item{Index: n}, w.ed.Item)
	require.True(t, w.controls.Pages[app.ReservesPage].Scroll.Visible())
	// Carry it by hand, in many small moves: one step.
	x, y := placeOn(w, plane.Point{}).X, placeOn(w, plane.Point{}).Y
	w.blank.MouseDown(&desktop.MouseEvent{PointEvent: fyne.PointEvent{Position: fyne.NewPos(x, y)}, Button: desktop.MouseButtonPrimary})
	for range 40 {
		x += 1.3
		w.blank.Dragged(&fyne.DragEvent{PointEvent: fyne.PointEvent{Position: fyne.NewPos(x, y)}, Dragged: fyne.NewDelta(1.3, 0)})
	}
	w.blank.DragEnd()
	moved := w.ed.Now().Reserves[n].XMM
	require.InDelta(t, 52/w.blank.Zoom(), moved, 0.02)
	keepPicture(t, "reserve", w.win.Canvas().Capture)
	w.undo()
	require.Equal(t, 0.0, w.ed.Now().Reserves[n].XMM)
	w.redo()
	w.ed.Select(app.Item{Index: n})
	w.typed(&fyne.KeyEvent{Name: fyne.KeyDelete})
	require.Len(t, w.ed.Now().Reserves, n)
	w.undo()
	require.Equal(t, moved, w.ed.Now().Reserves[n].XMM)
}

func TestEveryMotifAndKindCanBeChosen(t *testing.T) {
	w, _ := usual(t)
	for _, m := range motif.All() {
		w.ed.Choose(app.ChoiceOf("fields[].motif", 0), m.Key)
		require.Empty(t, w.ed.Problem, m.Key)
		require.Equal(t, m.Key, w.ed.Scene.Sheet.Design.Fields[0].Motif)
		keepPicture(t, "motif-"+m.Key, w.win.Canvas().Capture)
	}
	for _, c := range app.Choices(pattern.BandGroup)[:1] {
		for _, o := range c.Options(w.ed.Now()) {
			w.ed.Choose(c, o.Key)
			require.Empty(t, w.ed.Problem, o.Key)
			w.showTab(app.BandPage)
			keepPicture(t, "kind-"+o.Key, w.win.Canvas().Capture)
		}
	}
}

func TestSaveAskAndOpen(t *testing.T) {
	w, log := usual(t)
	dir := t.TempDir()
	path := filepath.Join(dir, "one.json")
	typeInto(w, w.controls.RowsOf["rules.rim_mm"].Entry, "3")
	w.win.Canvas().Unfocus()
	w.files.SaveTo(path, nil)
	require.Contains(t, log.String(), "save path=")
	require.Equal(t, []string{path}, w.settings.Recent)
	require.Equal(t, "saved in one.json", w.status.file.Text)
	d, err := project.ReadFile(path)
	require.NoError(t, err)
	require.True(t, app.Equal(d, w.ed.Now()))

	// A change, then New: asked; cancelled: it stays.
	typeInto(w, w.controls.RowsOf["rules.rim_mm"].Entry, "4")
	w.win.Canvas().Unfocus()
	w.files.New()
	require.True(t, w.kit.Dialogs.Enter())
	require.Equal(t, "Save the changes?", w.kit.Dialogs.Top().Title)
	keepPicture(t, "ask", w.win.Canvas().Capture)
	w.escape()
	require.Empty(t, w.kit.Dialogs.Open)
	require.Equal(t, 4.0, w.ed.Now().Rules.RimMM)
	// Save, then New.
	w.files.New()
	require.True(t, w.kit.Dialogs.Enter())
	require.True(t, w.kit.Dialogs.Enter())
	require.Equal(t, "Untitled", w.ed.Now().Name)
	require.Empty(t, w.ed.Problem)
	w.files.OpenPath(path)
	require.Equal(t, 4.0, w.ed.Now().Rules.RimMM)
	// A broken file is reported and left alone.
	bad := filepath.Join(dir, "bad.json")
	require.NoError(t, os.WriteFile(bad, []byte(`{"fretband": 99}`), 0o600))
	w.files.OpenPath(bad)
	require.Equal(t, "The design can't be opened", w.kit.Dialogs.Top().Title)
	w.escape()
	require.Equal(t, path, w.ed.Doc.Path)
}

func TestTheChooserAsksBeforeItReplaces(t *testing.T) {
	w, _ := usual(t)
	dir := t.TempDir()
	there := filepath.Join(dir, "there.fretband")
	require.NoError(t, os.WriteFile(there, []byte("mine"), 0o600))
	got := ""
	w.desk.Choose(pages.SaveFile, dir, "there", func(p string) { got = p })
	keepPicture(t, "chooser", w.win.Canvas().Capture)
	w.kit.Dialogs.Enter()
	require.Equal(t, "Replace the file?", w.kit.Dialogs.Top().Title)
	require.Empty(t, got)
	w.escape() // keep it
	require.Equal(t, "Save the design as", w.kit.Dialogs.Top().Title)
	w.kit.Dialogs.Enter()
	w.kit.Dialogs.Enter() // replace
	require.Equal(t, there, got)
	require.Empty(t, w.kit.Dialogs.Open)
	b, err := os.ReadFile(there)
	require.NoError(t, err)
	require.Equal(t, "mine", string(b), "the chooser itself writes nothing")
}

// crashed leaves a design in dir as a window does that is killed: its lock ends, its file
// stays.
func crashed(t *testing.T, dir string, doc *app.Document) {
	t.Helper()
	aside := t.TempDir()
	r := app.NewRecovery(aside)
	require.NoError(t, r.Write(doc))
	files, err := filepath.Glob(filepath.Join(aside, "*.json"))
	require.NoError(t, err)
	require.Len(t, files, 1)
	b, err := os.ReadFile(files[0])
	require.NoError(t, err)
	require.NoError(t, r.Close())
	require.NoError(t, os.WriteFile(filepath.Join(dir, filepath.Base(files[0])), b, 0o600))
}

func TestRecoveryIsOfferedAndBroughtBack(t *testing.T) {
	w, _ := usual(t)
	dir := w.files.Dir
	d := w.ed.Now()
	d.Fields[0].Rows++
	crashed(t, dir, app.NewDocument(d))
	w.Started(app.LeftBehind(dir))
	require.Equal(t, "Unsaved work was found", w.kit.Dialogs.Top().Title)
	w.escape() // later
	w.Started(app.LeftBehind(dir))
	keepPicture(t, "recovery", w.win.Canvas().Capture)
	w.kit.Dialogs.Enter()
	require.Equal(t, d.Fields[0].Rows, w.ed.Now().Fields[0].Rows)
	require.True(t, w.ed.Doc.Dirty())
	// It is kept under this window's name now: nothing is lost, and nobody else offers it.
	kept, err := filepath.Glob(filepath.Join(dir, "unsaved-*.json"))
	require.NoError(t, err)
	require.Len(t, kept, 1)
	require.Empty(t, app.LeftBehind(dir))
	w.files.SaveTo(filepath.Join(t.TempDir(), "a.json"), nil)
	kept, _ = filepath.Glob(filepath.Join(dir, "unsaved-*.json"))
	require.Empty(t, kept, "a saved design leaves nothing behind")
	w.files.EndClaims()
	kept, _ = filepath.Glob(filepath.Join(dir, "*.lock"))
	require.Empty(t, kept)
}

func TestClosingAsksWhenThereAreChanges(t *testing.T) {
	w, log := usual(t)
	typeInto(w, w.controls.RowsOf["rules.rim_mm"].Entry, "3.3")
	w.files.AskToClose()
	require.Equal(t, "Save the changes?", w.kit.Dialogs.Top().Title)
	w.files.AskToClose() // a second press of the cross opens no second question
	require.Len(t, w.kit.Dialogs.Open, 1)
	w.escape()
	require.NotContains(t, log.String(), "quit")
}

func TestTheDressChangesEverywhere(t *testing.T) {
	w, _ := usual(t)
	light := w.win.Canvas().Capture()
	w.typed(&fyne.KeyEvent{Name: fyne.KeyD})
	dark := w.win.Canvas().Capture()
	keepPicture(t, "dark", func() image.Image { return dark })
	// Darker in every part of the window, not only in some.
	b := light.Bounds()
	for _, p := range [][2]int{{400, 12}, {10, 20}, {700, 70}, {334, 500}, {700, 820}, {900, 860}, {1300, 860}, {500, b.Max.Y - 8}} {
		l, _, _, _ := light.At(p[0], p[1]).RGBA()
		d, _, _, _ := dark.At(p[0], p[1]).RGBA()
		require.Less(t, d, l, "%v", p)
	}
	s, err := app.ReadSettings(w.files.Dir)
	require.NoError(t, err)
	require.Equal(t, "dark", s.Theme)
}

func TestHelpPagesOpenAndEscapeClosesThem(t *testing.T) {
	w, _ := usual(t)
	for name, show := range map[string]func(){"keys": w.help.Keys, "cautions": w.help.Cautions, "figures": w.help.Figures, "dpi": w.help.AskScreen, "name": w.help.AskName} {
		show()
		keepPicture(t, "help-"+name, w.win.Canvas().Capture)
		require.Len(t, w.kit.Dialogs.Open, 1, name)
		m, c := w.kit.Dialogs.Top().Panel.MinSize(), w.win.Canvas().Size()
		require.Less(t, m.Height, c.Height, name)
		w.typed(&fyne.KeyEvent{Name: fyne.KeyEscape})
		require.Empty(t, w.kit.Dialogs.Open, name)
	}
}

func TestTipsStayInsideTheWindow(t *testing.T) {
	w, _ := usual(t)
	w.kit.Tips.Later = func(_ time.Duration, f func()) *time.Timer { f(); return nil }
	for _, r := range w.controls.RowsOf {
		if !r.Name.Visible() {
			continue
		}
		r.Name.MouseIn(nil)
		if len(w.kit.Tips.Layer.Objects) == 0 {
			t.Fatal("no tip for", r.Number.Path)
		}
		b := w.kit.Tips.Box
		require.GreaterOrEqual(t, b.Position().X, float32(0))
		require.LessOrEqual(t, b.Position().Y+b.Size().Height, w.win.Canvas().Size().Height)
		r.Name.MouseOut()
		require.Empty(t, w.kit.Tips.Layer.Objects)
	}
}

func TestADocumentThatCannotBeLaidShowsNoOtherOnesPicture(t *testing.T) {
	w, _ := usual(t)
	d := w.ed.Now()
	d.Band.GapMM = 150 // more than half of the inside
	w.files.Use(app.NewDocument(d))
	require.Nil(t, w.ed.Scene)
	require.Equal(t, "\u2013", w.figures.Big[0].Value.Text)
	require.Empty(t, w.findings.List.Rows)
	require.Contains(t, w.controls.Problem.Text, "Gap")
	keepPicture(t, "no-picture", w.win.Canvas().Capture)
	// Mended, it is there.
	w.showTab(app.BandPage)
	typeInto(w, w.controls.RowsOf["band.gap_mm"].Entry, "25")
	require.NotNil(t, w.ed.Scene)
	require.Empty(t, w.controls.Problem.Text)
}

func TestEveryControlCanBeReachedByTheKeyboard(t *testing.T) {
	w := faulty(t, "light")
	seen := map[fyne.Focusable]bool{}
	for range 80 {
		w.win.Canvas().FocusNext()
		seen[w.win.Canvas().Focused()] = true
	}
	for path, r := range w.controls.RowsOf {
		if !w.controls.Shows(r) || !r.Box.Visible() {
			continue
		}
		require.True(t, seen[r.Entry], path)
		if r.Slider != nil {
			require.True(t, seen[r.Slider], path)
		}
	}
	require.True(t, seen[w.bar.save])
	require.True(t, seen[w.blank])
	require.True(t, seen[w.findings.List.Rows[0]])
}

func TestTheBlankIsWorkedByKeys(t *testing.T) {
	d, err := project.GalleryDesign("harbour-cuff")
	require.NoError(t, err)
	d.Band.EndCornerMM = 0 // a finding
	w, log := openOn(t, app.NewDocument(d), fyne.NewSize(1400, 900), "light")
	k := w.blank.Zoom()
	w.typed(&fyne.KeyEvent{Name: fyne.KeyPlus})
	require.InDelta(t, k*1.25, w.blank.Zoom(), 1e-9)
	x := w.blank.PointAt(fyne.Position{}).X
	w.blank.TypedKey(&fyne.KeyEvent{Name: fyne.KeyRight})
	require.Greater(t, w.blank.PointAt(fyne.Position{}).X, x)
	w.blank.TypedKey(&fyne.KeyEvent{Name: fyne.KeyF}) // keys of the window work there too
	require.InDelta(t, k, w.blank.Zoom(), 1e-9)
	w.typed(&fyne.KeyEvent{Name: fyne.KeyN})
	require.Contains(t, log.String(), "finding index=")
	w.typed(&fyne.KeyEvent{Name: fyne.KeyF9})
	require.False(t, w.controls.Root.Visible())
	w.typed(&fyne.KeyEvent{Name: fyne.KeyB}) // asks for the controls: they come back
	require.True(t, w.controls.Root.Visible())
}

func TestAnOpeningIsPointedOutOnTheBentBandAndBack(t *testing.T) {
	w, log := usual(t)
	require.Contains(t, log.String(), "bent triangles=")
	w.win.Canvas().Capture() // draws, so that the bent band can be pointed at
	w.blank.MouseMoved(&desktop.MouseEvent{PointEvent: fyne.PointEvent{Position: at(w, 40)}})
	require.Equal(t, w.ed.Scene.Sheet.Openings[40].Number, w.bent.Pointed)
	keepPicture(t, "pointed", w.win.Canvas().Capture)
	w.blank.MouseOut()
	require.Zero(t, w.bent.Pointed)
	// And from the bent band: walk over it until an opening is met.
	s := w.bent.Size()
	for x := s.Width * 0.3; x < s.Width*0.7; x += 3 {
		w.bent.MouseMoved(&desktop.MouseEvent{PointEvent: fyne.PointEvent{Position: fyne.NewPos(x, s.Height*0.55)}})
		if w.bent.Told > 0 {
			break
		}
	}
	require.NotZero(t, w.bent.Told)
	require.Equal(t, w.ed.Scene.Numbered(w.bent.Told), w.blank.Overlay.Hover)
	require.Contains(t, w.status.over.Text, "opening")
}

// An edit numbers openings anew: what is pointed out is what is under the pointer now, on
// the blank and on the bent band alike, or nothing.
func TestAnEditPointsOutNoOtherOpening(t *testing.T) {
	w, _ := usual(t)
	w.win.Canvas().Capture()
	agree := func() {
		t.Helper()
		number := 0
		if h := w.blank.Overlay.Hover; h >= 0 {
			number = w.ed.Scene.Sheet.Openings[h].Number
		}
		require.Equal(t, number, w.bent.Pointed)
	}
	rows := w.controls.RowsOf["fields[0].rows"]
	w.blank.MouseMoved(&desktop.MouseEvent{PointEvent: fyne.PointEvent{Position: at(w, 40)}})
	for range 2 {
		w.ed.Step(rows.Number, 1)
		agree()
	}
	w.blank.MouseOut()
	w.blank.HoverNumbered(7) // as from the bent band
	w.ed.Step(rows.Number, -1)
	agree()
	require.Negative(t, w.blank.Overlay.Hover)
}

func TestTheWindowsKeysReachTheBentBand(t *testing.T) {
	w, _ := usual(t)
	was := w.win.Canvas().Capture()
	press := func(n fyne.KeyName) image.Image {
		w.typed(&fyne.KeyEvent{Name: n})
		now := w.win.Canvas().Capture()
		require.NotEqual(t, was, now, n)
		was = now
		return now
	}
	for i := range view3d.Sections() {
		img := press(fyne.KeyX)
		keepPicture(t, "cut-"+app.FormatNumber(float64(i), 0), func() image.Image { return img })
	}
	press(fyne.KeyX)
	press(fyne.KeyW)
	keepPicture(t, "wrist", w.win.Canvas().Capture)
	press(fyne.KeyV)
}

func TestTheFinerFormCanBeChosen(t *testing.T) {
	w, _ := usual(t)
	w.showTab(app.FormPage)
	for _, c := range app.Choices(pattern.FormGroup) {
		for _, o := range c.Options(w.ed.Now()) {
			if c.Shown != nil && !c.Shown(w.ed.Now()) {
				continue
			}
			w.ed.Choose(c, o.Key)
			require.Empty(t, w.ed.Problem, "%s %s", c.Path, o.Key)
			keepPicture(t, "form-"+strings.ReplaceAll(c.Path, ".", "-")+"-"+o.Key, w.win.Canvas().Capture)
			w.undo()
		}
	}
}

func TestAFlaredBangleIsDrawn(t *testing.T) {
	d, err := project.GalleryDesign("tide-bangle")
	require.NoError(t, err)
	d.Band.FlareDeg = 12
	d.Band.Inside = unroll.Inside{By: unroll.ByCircumference, CircumferenceMM: 195, Ratio: 1}
	w, _ := openOn(t, app.NewDocument(d), fyne.NewSize(1400, 900), "light")
	require.Empty(t, w.ed.Problem)
	keepPicture(t, "flared", w.win.Canvas().Capture)
	b := w.ed.Scene.Sheet.Flat.Outline.Bounds()
	in := w.blank.Size()
	for _, p := range []fyne.Position{placeOn(w, b.Min), placeOn(w, b.Max)} {
		require.True(t, p.X > 0 && p.Y > 0 && p.X < in.Width && p.Y < in.Height, "the whole blank is in sight")
	}
}
