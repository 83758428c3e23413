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
	"fretband/pattern"
	"fretband/pattern/motif"
	"fretband/pattern/project"
	"fretband/pattern/view3d"
	"fretband/unroll"

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
	w, err := NewWindow(Options{App: a, Log: app.NewLog(&log), Dir: t.TempDir(), Settings: s, Document: doc, Size: size, Go: now, Post: now, Quiet: true})
	require.NoError(t, err)
	w.win.Resize(size)
	t.Cleanup(w.win.Close)
	return w, &log
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
				require.NotNil(t, w.scene)
				inside := w.blank.v
				x, y := int(inside.x(w.scene.sheet.Flat.Outline.Bounds().Min.X+0.4)), int(inside.y(0))
				require.True(t, x > 0 && y > 0)
			}
		}
	}
}

func TestFiguresOnTheScreenAreTheReports(t *testing.T) {
	w, _ := usual(t)
	r := w.result.Report
	require.Equal(t, decimals(r.Left, 2), w.figures.big[0].value.Text)
	require.Equal(t, decimals(r.Thinnest.Width, 2), w.figures.big[1].value.Text)
	require.Equal(t, decimals(100*r.OpenShare, 1), w.figures.big[2].value.Text)
	require.Len(t, w.findings.list.rows, len(r.Findings))
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
	before := w.result.Report.Left
	row := w.controls.rowsOf["rules.bridge_mm"]
	require.Greater(t, row.slider.Size().Width, float32(60))
	slideTo(row.slider, 20, 60)
	require.Greater(t, w.result.Report.Left, before)
	require.GreaterOrEqual(t, w.result.Report.Thinnest.Width, w.result.Report.Rule-1e-3)
	require.GreaterOrEqual(t, strings.Count(log.String(), "computed "), 4)
	require.Equal(t, app.FormatNumber(w.doc.Now().Rules.BridgeMM, 2), row.entry.Text)
	w.undo()
	require.Equal(t, before, w.result.Report.Left)
	require.False(t, w.doc.CanUndo())
	w.redo()
	require.Greater(t, w.result.Report.Left, before)
}

func typeInto(w *Window, e *kit.Entry, text string) {
	w.win.Canvas().Focus(e)
	e.SetText("")
	test.Type(e, text)
	e.TypedKey(&fyne.KeyEvent{Name: fyne.KeyReturn})
}

func TestANumberIsTypedAsTheBenchWritesIt(t *testing.T) {
	w, _ := usual(t)
	row := w.controls.rowsOf["rules.rim_mm"]
	typeInto(w, row.entry, "1/16 in")
	require.InDelta(t, 1.5875, w.doc.Now().Rules.RimMM, 1e-9)
	require.Equal(t, "1.59", row.entry.Text)
	typeInto(w, row.entry, "2,25")
	require.Equal(t, 2.25, w.doc.Now().Rules.RimMM)
	w.turnTo(bandPage)
	thick := w.controls.rowsOf["band.thickness.mm"]
	typeInto(w, thick.entry, "18 ga")
	require.Equal(t, 18, w.doc.Now().Band.Thickness.BSGauge)
	require.Equal(t, "18 ga", thick.entry.Text)
}

func TestWhatIsNotAllowedIsSaidAndChangesNothing(t *testing.T) {
	w, log := usual(t)
	row := w.controls.rowsOf["rules.rim_mm"]
	was := w.doc.Now()
	typeInto(w, row.entry, "999")
	require.True(t, app.Equal(was, w.doc.Now()))
	require.Contains(t, w.controls.problem.Text, "allowed is 0 to 60 mm")
	require.Contains(t, log.String(), "refused field=rules.rim_mm")
	row.entry.TypedKey(&fyne.KeyEvent{Name: fyne.KeyEscape})
	require.Equal(t, row.n.Text(was), row.entry.Text)
	require.Empty(t, w.controls.problem.Text)
}

func TestUndoInAnEntryTakesBackTypingOnly(t *testing.T) {
	w, _ := usual(t)
	row := w.controls.rowsOf["rules.rim_mm"]
	typeInto(w, row.entry, "3")
	require.Equal(t, 3.0, w.doc.Now().Rules.RimMM)
	test.Type(row.entry, "5")
	require.True(t, row.entry.Typing())
	w.undo()
	require.Equal(t, "3", row.entry.Text)
	require.Equal(t, 3.0, w.doc.Now().Rules.RimMM, "the design stays")
	w.undo()
	require.NotEqual(t, 3.0, w.doc.Now().Rules.RimMM)
}

func TestArrowKeysAndTheWheelStep(t *testing.T) {
	w, _ := usual(t)
	row := w.controls.rowsOf["rules.bridge_mm"]
	b := w.doc.Now().Rules.BridgeMM
	w.win.Canvas().Focus(row.entry)
	row.entry.TypedKey(&fyne.KeyEvent{Name: fyne.KeyUp})
	row.entry.TypedKey(&fyne.KeyEvent{Name: fyne.KeyUp})
	require.InDelta(t, b+0.1, w.doc.Now().Rules.BridgeMM, 1e-9)
	row.entry.Scrolled(&fyne.ScrollEvent{Scrolled: fyne.NewDelta(0, -10)})
	require.InDelta(t, b+0.05, w.doc.Now().Rules.BridgeMM, 1e-9)
	w.win.Canvas().Unfocus()
	row.entry.Scrolled(&fyne.ScrollEvent{Scrolled: fyne.NewDelta(0, -10)})
	require.InDelta(t, b+0.05, w.doc.Now().Rules.BridgeMM, 1e-9, "without the focus the wheel scrolls the page")
}

func TestADesignThatCannotBeLaidKeepsTheLastPicture(t *testing.T) {
	w, _ := usual(t)
	sc := w.scene
	w.turnTo(bandPage)
	gap := w.controls.rowsOf["band.gap_mm"]
	typeInto(w, gap.entry, "200")
	require.Same(t, sc, w.scene)
	require.Contains(t, w.controls.problem.Text, "Gap: must be")
	w.handOver()
	require.Equal(t, "Not yet", w.dialogs.Top().Title)
	w.escape()
	w.undo()
	require.Empty(t, w.controls.problem.Text)
	require.NotSame(t, sc, w.scene)
}

// at returns the place of an opening on the widget.
func at(w *Window, i int) fyne.Position {
	c := w.scene.sheet.Openings[i].Loop.Centroid()
	s := w.blank.v.frame.scale
	return fyne.NewPos(float32(w.blank.v.x(c.X)/s), float32(w.blank.v.y(c.Y)/s))
}

func TestPointingAtAnOpeningTellsIt(t *testing.T) {
	w, log := usual(t)
	o := w.scene.sheet.Openings[10]
	w.blank.MouseMoved(&desktop.MouseEvent{PointEvent: fyne.PointEvent{Position: at(w, 10)}})
	require.Equal(t, 10, w.blank.marks.hover)
	require.Contains(t, w.status.over.Text, "opening 11")
	require.Contains(t, w.status.over.Text, decimals(o.Loop.Area(), 2))
	require.Contains(t, w.status.over.Text, "nearest metal")
	require.Contains(t, log.String(), "hover opening=11 ")
	w.blank.MouseOut()
	require.Empty(t, w.status.over.Text)
}

func TestTheWheelKeepsThePlaceUnderThePointer(t *testing.T) {
	w, _ := usual(t)
	p := at(w, 5)
	x, y := w.blank.at(p)
	before := w.blank.v.mm(x, y)
	k := w.blank.v.k
	w.blank.Scrolled(&fyne.ScrollEvent{PointEvent: fyne.PointEvent{Position: p}, Scrolled: fyne.NewDelta(0, 30)})
	require.Greater(t, w.blank.v.k, k)
	require.InDelta(t, 0, before.Dist(w.blank.v.mm(x, y)), 1e-9)
	w.fit()
	require.InDelta(t, k, w.blank.v.k, 1e-9)
	w.trueSize()
	require.Equal(t, "true size, nominal", w.status.size.Text)
	require.InDelta(t, 96/25.4, w.blank.v.k, 1e-9, "1 in is 25.4 mm; at 96 dpi it is 96 pixels")
}

func TestAClickOnAFindingGoesThere(t *testing.T) {
	w, _ := usual(t)
	for i, f := range w.findings.found {
		if len(f.At) == 0 || len(f.At) > 12 {
			continue
		}
		w.fit()
		w.findings.list.rows[i].Tapped(nil)
		require.Equal(t, f.At, w.blank.marks.places)
		for _, p := range f.At {
			require.True(t, w.blank.v.frame.inBlank(w.blank.v.x(p.X), w.blank.v.y(p.Y)), f.Kind.Key)
		}
		keepPicture(t, "finding", w.win.Canvas().Capture)
		return
	}
	t.Fatal("no finding has a place")
}

func TestReservesAreAddedMovedAndRemoved(t *testing.T) {
	w, _ := usual(t)
	onlyLaying(w)
	n := len(w.doc.Now().Reserves)
	w.addReserve(pattern.CircleShape)
	require.Len(t, w.doc.Now().Reserves, n+1)
	require.Equal(t, app.Item{Index: n}, w.blank.marks.item)
	require.True(t, w.controls.pages[reservesPageAt].scroll.Visible())
	// Carry it by hand, in many small moves: one step.
	x, y := float32(w.blank.v.x(0)), float32(w.blank.v.y(0))
	w.blank.MouseDown(&desktop.MouseEvent{PointEvent: fyne.PointEvent{Position: fyne.NewPos(x, y)}, Button: desktop.MouseButtonPrimary})
	for range 40 {
		x += 1.3
		w.blank.Dragged(&fyne.DragEvent{PointEvent: fyne.PointEvent{Position: fyne.NewPos(x, y)}, Dragged: fyne.NewDelta(1.3, 0)})
	}
	w.blank.DragEnd()
	moved := w.doc.Now().Reserves[n].XMM
	require.InDelta(t, 52/w.blank.v.k, moved, 0.02)
	keepPicture(t, "reserve", w.win.Canvas().Capture)
	w.undo()
	require.Equal(t, 0.0, w.doc.Now().Reserves[n].XMM)
	w.redo()
	w.selectItem(app.Item{Index: n})
	w.typed(&fyne.KeyEvent{Name: fyne.KeyDelete})
	require.Len(t, w.doc.Now().Reserves, n)
	w.undo()
	require.Equal(t, moved, w.doc.Now().Reserves[n].XMM)
}

func TestEveryMotifAndKindCanBeChosen(t *testing.T) {
	w, _ := usual(t)
	for _, m := range motif.All() {
		w.pickOption(app.ChoiceOf("fields[].motif", 0), m.Key)
		require.Empty(t, w.problem, m.Key)
		require.Equal(t, m.Key, w.scene.sheet.Design.Fields[0].Motif)
		keepPicture(t, "motif-"+m.Key, w.win.Canvas().Capture)
	}
	for _, c := range app.Choices(pattern.BandGroup)[:1] {
		for _, o := range c.Options(w.now()) {
			w.pickOption(c, o.Key)
			require.Empty(t, w.problem, o.Key)
			w.turnTo(bandPage)
			keepPicture(t, "kind-"+o.Key, w.win.Canvas().Capture)
		}
	}
}

func TestSaveAskAndOpen(t *testing.T) {
	w, log := usual(t)
	dir := t.TempDir()
	path := filepath.Join(dir, "one.json")
	typeInto(w, w.controls.rowsOf["rules.rim_mm"].entry, "3")
	w.win.Canvas().Unfocus()
	w.saveTo(path, nil)
	require.Contains(t, log.String(), "save path=")
	require.Equal(t, []string{path}, w.settings.Recent)
	require.Equal(t, "saved in one.json", w.status.file.Text)
	d, err := project.ReadFile(path)
	require.NoError(t, err)
	require.True(t, app.Equal(d, w.doc.Now()))

	// A change, then New: asked; cancelled: it stays.
	typeInto(w, w.controls.rowsOf["rules.rim_mm"].entry, "4")
	w.win.Canvas().Unfocus()
	w.newDesign()
	require.Equal(t, "Save the changes?", w.dialogs.Top().Title)
	keepPicture(t, "ask", w.win.Canvas().Capture)
	w.escape()
	require.Empty(t, w.dialogs.Open)
	require.Equal(t, 4.0, w.doc.Now().Rules.RimMM)
	// Save, then New.
	w.newDesign()
	require.True(t, w.dialogs.Enter())
	require.Equal(t, "Untitled", w.doc.Now().Name)
	require.Empty(t, w.problem)
	w.openPath(path)
	require.Equal(t, 4.0, w.doc.Now().Rules.RimMM)
	// A broken file is told and left alone.
	bad := filepath.Join(dir, "bad.json")
	require.NoError(t, os.WriteFile(bad, []byte(`{"fretband": 99}`), 0o600))
	w.openPath(bad)
	require.Equal(t, "The design can't be opened", w.dialogs.Top().Title)
	w.escape()
	require.Equal(t, path, w.doc.Path)
}

func TestTheChooserAsksBeforeItReplaces(t *testing.T) {
	w, _ := usual(t)
	dir := t.TempDir()
	there := filepath.Join(dir, "there.json")
	require.NoError(t, os.WriteFile(there, []byte("mine"), 0o600))
	got := ""
	w.choose(saveFile, dir, "there", func(p string) { got = p })
	keepPicture(t, "chooser", w.win.Canvas().Capture)
	w.dialogs.Enter()
	require.Equal(t, "Replace the file?", w.dialogs.Top().Title)
	require.Empty(t, got)
	w.escape() // keep it
	require.Equal(t, "Save the design as", w.dialogs.Top().Title)
	w.dialogs.Enter()
	w.dialogs.Enter() // replace
	require.Equal(t, there, got)
	require.Empty(t, w.dialogs.Open)
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
	require.NoError(t, r.Keep(doc))
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
	dir := w.dir
	d := w.doc.Now()
	d.Fields[0].Rows++
	crashed(t, dir, app.NewDocument(d))
	w.Started(app.LeftBehind(dir))
	require.Equal(t, "Unsaved work was found", w.dialogs.Top().Title)
	w.escape() // later
	w.Started(app.LeftBehind(dir))
	keepPicture(t, "recovery", w.win.Canvas().Capture)
	w.dialogs.Enter()
	require.Equal(t, d.Fields[0].Rows, w.doc.Now().Fields[0].Rows)
	require.True(t, w.doc.Dirty())
	// It is kept under this window's name now: nothing is lost, and nobody else offers it.
	kept, err := filepath.Glob(filepath.Join(dir, "unsaved-*.json"))
	require.NoError(t, err)
	require.Len(t, kept, 1)
	require.Empty(t, app.LeftBehind(dir))
	w.saveTo(filepath.Join(t.TempDir(), "a.json"), nil)
	kept, _ = filepath.Glob(filepath.Join(dir, "unsaved-*.json"))
	require.Empty(t, kept, "a saved design leaves nothing behind")
	w.endClaims()
	kept, _ = filepath.Glob(filepath.Join(dir, "*.lock"))
	require.Empty(t, kept)
}

func TestClosingAsksWhenThereAreChanges(t *testing.T) {
	w, log := usual(t)
	typeInto(w, w.controls.rowsOf["rules.rim_mm"].entry, "3.3")
	w.askToClose()
	require.Equal(t, "Save the changes?", w.dialogs.Top().Title)
	w.askToClose() // a second press of the cross opens no second question
	require.Len(t, w.dialogs.Open, 1)
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
	s, err := app.ReadSettings(w.dir)
	require.NoError(t, err)
	require.Equal(t, "dark", s.Theme)
}

func TestHelpPagesOpenAndEscapeClosesThem(t *testing.T) {
	w, _ := usual(t)
	for name, show := range map[string]func(){"keys": w.showKeys, "cautions": w.showCautions, "figures": w.showFigures, "dpi": w.askDPI, "name": w.editName} {
		show()
		keepPicture(t, "help-"+name, w.win.Canvas().Capture)
		require.Len(t, w.dialogs.Open, 1, name)
		m, c := w.dialogs.Top().Panel.MinSize(), w.win.Canvas().Size()
		require.Less(t, m.Height, c.Height, name)
		w.typed(&fyne.KeyEvent{Name: fyne.KeyEscape})
		require.Empty(t, w.dialogs.Open, name)
	}
}

func TestTipsStayInsideTheWindow(t *testing.T) {
	w, _ := usual(t)
	w.kit.Tips.Later = func(_ time.Duration, f func()) *time.Timer { f(); return nil }
	for _, r := range w.controls.rowsOf {
		if !r.name.Visible() {
			continue
		}
		r.name.MouseIn(nil)
		if len(w.kit.Tips.Layer.Objects) == 0 {
			t.Fatal("no tip for", r.n.Path)
		}
		b := w.kit.Tips.Box
		require.GreaterOrEqual(t, b.Position().X, float32(0))
		require.LessOrEqual(t, b.Position().Y+b.Size().Height, w.win.Canvas().Size().Height)
		r.name.MouseOut()
		require.Empty(t, w.kit.Tips.Layer.Objects)
	}
}

func TestADocumentThatCannotBeLaidShowsNoOtherOnesPicture(t *testing.T) {
	w, _ := usual(t)
	d := w.doc.Now()
	d.Band.GapMM = 150 // more than half of the inside
	w.use(app.NewDocument(d))
	require.Nil(t, w.scene)
	require.Equal(t, none, w.figures.big[0].value.Text)
	require.Empty(t, w.findings.list.rows)
	require.Contains(t, w.controls.problem.Text, "Gap")
	keepPicture(t, "no-picture", w.win.Canvas().Capture)
	// Mended, it is there.
	w.turnTo(bandPage)
	typeInto(w, w.controls.rowsOf["band.gap_mm"].entry, "25")
	require.NotNil(t, w.scene)
	require.Empty(t, w.controls.problem.Text)
}

func TestEveryControlCanBeReachedByTheKeyboard(t *testing.T) {
	w, _ := usual(t)
	seen := map[fyne.Focusable]bool{}
	for range 80 {
		w.win.Canvas().FocusNext()
		seen[w.win.Canvas().Focused()] = true
	}
	for path, r := range w.controls.rowsOf {
		if !w.controls.shows(r) || !r.box.Visible() {
			continue
		}
		require.True(t, seen[r.entry], path)
		if r.slider != nil {
			require.True(t, seen[r.slider], path)
		}
	}
	require.True(t, seen[w.bar.save])
	require.True(t, seen[w.blank])
	require.True(t, seen[w.findings.list.rows[0]])
}

func TestTheBlankIsWorkedByKeys(t *testing.T) {
	w, log := usual(t)
	k := w.blank.v.k
	w.typed(&fyne.KeyEvent{Name: fyne.KeyPlus})
	require.InDelta(t, k*1.25, w.blank.v.k, 1e-9)
	x := w.blank.v.centre.X
	w.blank.TypedKey(&fyne.KeyEvent{Name: fyne.KeyRight})
	require.Greater(t, w.blank.v.centre.X, x)
	w.blank.TypedKey(&fyne.KeyEvent{Name: fyne.KeyF}) // keys of the window work there too
	require.InDelta(t, k, w.blank.v.k, 1e-9)
	w.typed(&fyne.KeyEvent{Name: fyne.KeyN})
	require.Contains(t, log.String(), "finding index=")
	w.typed(&fyne.KeyEvent{Name: fyne.KeyF9})
	require.False(t, w.controls.root.Visible())
	w.typed(&fyne.KeyEvent{Name: fyne.KeyB}) // asks for the controls: they come back
	require.True(t, w.controls.root.Visible())
}

func TestAnOpeningIsPointedOutOnTheBentBandAndBack(t *testing.T) {
	w, log := usual(t)
	require.Contains(t, log.String(), "bent triangles=")
	w.win.Canvas().Capture() // draws, so that the bent band can be pointed at
	w.blank.MouseMoved(&desktop.MouseEvent{PointEvent: fyne.PointEvent{Position: at(w, 40)}})
	require.Equal(t, w.scene.sheet.Openings[40].Number, w.bent.Pointed)
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
	require.Equal(t, w.scene.numbered(w.bent.Told), w.blank.marks.hover)
	require.Contains(t, w.status.over.Text, "opening")
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
	for i := range view3d.Cuts() {
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
	w.turnTo(formPage)
	for _, c := range app.Choices(pattern.FormGroup) {
		for _, o := range c.Options(w.now()) {
			if c.Shown != nil && !c.Shown(w.now()) {
				continue
			}
			w.pickOption(c, o.Key)
			require.Empty(t, w.problem, "%s %s", c.Path, o.Key)
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
	require.Empty(t, w.problem)
	keepPicture(t, "flared", w.win.Canvas().Capture)
	b := w.scene.sheet.Flat.Outline.Bounds()
	v := w.blank.v
	require.True(t, v.frame.inBlank(v.x(b.Min.X), v.y(b.Min.Y)) && v.frame.inBlank(v.x(b.Max.X), v.y(b.Max.Y)), "the whole blank is in sight")
}
