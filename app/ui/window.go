package ui

import (
	"errors"
	"math"
	"path/filepath"
	"sync/atomic"
	"time"

	"fretband/app"
	"fretband/app/ui/bent"
	"fretband/app/ui/kit"
	"fretband/pattern"
	"fretband/pattern/check"
	"fretband/unroll"
	"fretband/unroll/plane"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
)

// Window is the program's window with the design that is open in it.
type Window struct {
	app      fyne.App
	win      fyne.Window
	log      *app.Log
	dir      string // of settings and recovery files
	settings app.Settings

	doc      *app.Document
	computer *app.Computer
	deepener *app.Deepener
	resting  *time.Timer // until the hand rests
	// wanted is the sheet of which more is to be found, nil while the hand moves.
	wanted atomic.Pointer[pattern.Sheet]
	bender *app.Newest[*pattern.Sheet, bent.Solid]
	// background runs work elsewhere, post back on the toolkit's goroutine.
	background, post func(func())
	recovery         *app.Recovery
	scene            *scene
	versions         int
	result           app.Result
	fresh            bool   // the document has not been laid yet
	problem          string // why the design as it stands can't be laid

	kit      *kit.Kit
	dialogs  *kit.Dialogs
	blank    *blankView
	bent     *bent.View
	bentPane *bent.Pane
	figures  *figures
	findings *findings
	controls *controls
	bar      *bar
	status   *status
	menu     *menu

	lower     *lowerRow
	autosave  *time.Timer
	lastSaved time.Time
	closing   bool
	ready     bool
	// handles make what can be taken on the blank. grabs find what else a drag that
	// begins at a place moves: the first that returns something has it.
	handles []func(*scene) []handle
	grabs   []func(at plane.Point, mod fyne.KeyModifier) *hold
	hand    hand
	// later runs f on the toolkit's goroutine after d; nil in tests: never.
	later func(d time.Duration, f func()) *time.Timer
}

// Options say how a window starts.
type Options struct {
	App      fyne.App
	Log      *app.Log
	Dir      string // where settings and recovery files are kept
	Settings app.Settings
	Document *app.Document
	Size     fyne.Size
	// Go runs work in the background and Post on the toolkit's goroutine; tests
	// run both at once. Nil means a goroutine and fyne.Do.
	Go, Post func(func())
	// Quiet leaves out timers: no autosave, no tips after a while.
	Quiet bool
}

// autosaveDelay is how long after the last change unsaved work is kept.
const autosaveDelay = 3 * time.Second

// NewWindow makes the window and starts computing its design.
func NewWindow(o Options) (*Window, error) {
	k, err := kit.New(o.Settings.Theme)
	if err != nil {
		return nil, err
	}
	w := &Window{app: o.App, log: o.Log, dir: o.Dir, settings: o.Settings, doc: o.Document, kit: k}
	w.kit.Escape = w.escape
	if o.Quiet {
		w.kit.Tips.Later = func(time.Duration, func()) *time.Timer { return nil }
	} else {
		w.later = func(d time.Duration, f func()) *time.Timer {
			return time.AfterFunc(d, func() { fyne.Do(f) })
		}
	}
	o.App.Settings().SetTheme(w.kit.Dress)
	w.win = o.App.NewWindow("Fretband")
	w.win.SetPadded(false)
	w.recovery = app.NewRecovery(o.Dir)
	w.dialogs = kit.NewDialogs(w.kit, w.win.Canvas(), w.tellSoon)
	background, post := o.Go, o.Post
	if background == nil {
		background = func(f func()) { go f() }
	}
	if post == nil {
		post = fyne.Do
	}
	w.background, w.post = background, post
	w.computer = app.NewComputer(check.Lay)
	w.computer.Go, w.computer.Post, w.computer.Done = background, post, w.computed
	w.deepener = app.NewDeepener(w.deepenWhileWanted)
	w.deepener.Go, w.deepener.Post, w.deepener.Done = background, post, w.deepened
	w.bender = &app.Newest[*pattern.Sheet, bent.Solid]{Work: bent.Bend, Go: background, Post: post, Done: w.wasBent}
	w.lay()
	w.menu = newMenu(w)
	w.menu.fill()
	w.win.SetMainMenu(w.menu.main)
	w.win.SetCloseIntercept(w.askToClose)
	w.win.Canvas().SetOnTypedKey(w.typed)
	w.addShortcuts()
	size := o.Size
	if size.IsZero() {
		size = fyne.NewSize(1400, 900)
	}
	w.win.Resize(size)
	w.refresh()
	w.compute()
	return w, nil
}

// Fyne returns the toolkit's window.
func (w *Window) Fyne() fyne.Window { return w.win }

func (w *Window) lay() {
	k := w.kit
	w.blank = newBlankView(k.Faces, k.Dress)
	w.bentPane = bent.New(k, bent.Doors{
		Hover: func(number int) {
			w.blank.setHover(w.scene.numbered(number))
			w.blank.redraw()
		},
		Pick: func(number int) { w.blank.pick(w.scene.numbered(number), app.NoItem) },
		Key:  w.typed,
	})
	w.bent = w.bentPane.View
	w.figures = newFigures(k)
	w.findings = newFindings(k)
	w.controls = newControls(k, w)
	w.controls.say = func(s string) {
		if s == "" {
			s = w.problem // still true
		}
		w.controls.setProblem(s)
	}
	w.bar = newBar(w)
	w.status = newStatus(k)
	kit.OnDress(k, w, func(w *Window, d *kit.Dress) { w.blank.wear(d) })

	w.blank.nearest = func(i int) *check.Bridge {
		if w.scene == nil {
			return nil
		}
		b := check.NearestBridge(w.scene.sheet, i)
		return &b
	}
	w.blank.onPointer = w.pointer
	w.blank.onHover = w.hovered
	w.blank.onPick = w.picked
	w.handles = []func(*scene) []handle{w.edgeHandles, w.handHandles, w.itemHandles}
	w.grabs = []func(plane.Point, fyne.KeyModifier) *hold{w.grabTool, w.grabPicked, w.grabItem, w.sweep}
	w.blank.onGrab = func(at plane.Point, mod fyne.KeyModifier) *hold {
		for _, g := range w.grabs {
			if h := g(at, mod); h != nil {
				return h
			}
		}
		return nil
	}
	w.listenToHand()
	w.blank.onDropped = w.seal
	w.controls.onTurn, w.controls.onRows = w.showHandles, w.tellSoon
	w.blank.onView = func() { w.status.zoom(w.zoomText()); w.showHandles() }
	w.blank.onKey = func(e *fyne.KeyEvent) bool { w.typed(e); return true }
	paints := 0
	w.blank.onPaint = func(d time.Duration) {
		// Every tenth is enough to see how it goes.
		if paints++; paints%10 == 1 {
			w.log.Event("paint", "ms", float64(d.Microseconds())/1000)
		}
	}
	w.listenToFindings()
	w.listenToFields()
	w.listenToItems()

	w.blank.onResize = w.tellSoon
	w.lower = newLowerRow(k, w.controls.root, w.bentPane.Root, w.figures.root, w.findings.root)
	w.lower.folded = w.settings.Folded
	content := container.New(&upperLower{}, w.bar.root, w.blank, w.lower.root, w.status.root)
	back := k.Filled(kit.PanelOf)
	w.win.SetContent(container.NewStack(back, content, k.Tips.Layer))
}

// now implements editor.
func (w *Window) now() pattern.Design { return w.doc.Now() }

// change makes d the design. key joins changes in a row into one step.
func (w *Window) change(key, path, old, now string, d pattern.Design) {
	if !w.doc.Change(key, d) {
		return
	}
	w.log.Event("edit", "field", path, "old", old, "new", now)
	w.changed()
}

// changed brings everything up to the document after an edit, undo or redo.
func (w *Window) changed() {
	w.refresh()
	w.compute()
	w.keepSoon()
}

// put implements editor.
func (w *Window) put(n app.Number, typed string) error {
	d := w.doc.Now()
	old := n.Text(d)
	if err := n.Put(&d, typed); err != nil {
		w.log.Event("refused", "field", n.Path, "typed", typed, "why", err)
		return err
	}
	w.doc.Seal()
	w.change("", n.Path, old, n.Text(d), d)
	return nil
}

// slide implements editor.
func (w *Window) slide(n app.Number, v float64) {
	d := w.doc.Now()
	old := n.Text(d)
	n.Slide(&d, v)
	w.change(n.Path, n.Path, old, n.Text(d), d)
}

// step implements editor.
func (w *Window) step(n app.Number, steps float64) {
	d := w.doc.Now()
	old := n.Text(d)
	n.StepBy(&d, steps)
	w.change(n.Path, n.Path, old, n.Text(d), d)
}

// seal implements editor.
func (w *Window) seal() { w.doc.Seal() }

// pickOption implements editor.
func (w *Window) pickOption(c app.Choice, key string) {
	d := w.doc.Now()
	old := c.Get(d)
	c.Set(&d, key)
	w.doc.Seal()
	w.change("", c.Path, old, key, d)
}

// refresh brings what shows the design, not its measures, up to date.
func (w *Window) refresh() {
	d := w.doc.Now()
	w.controls.show(d)
	w.bar.show(w.doc)
	w.menu.show(w.doc)
	w.status.saved(w.savedText())
	title := w.doc.Title()
	if w.doc.Dirty() {
		title = "* " + title
	}
	w.win.SetTitle(title + " - Fretband")
}

func (w *Window) savedText() string {
	switch {
	case w.doc.Dirty() && w.doc.Path == "":
		return "not saved yet"
	case w.doc.Dirty():
		return "changed since " + filepath.Base(w.doc.Path) + " was saved"
	case w.doc.Path == "":
		return "not in a file"
	}
	return "saved in " + filepath.Base(w.doc.Path)
}

func (w *Window) compute() {
	w.findings.checking(true)
	w.wanted.Store(nil)
	w.computer.Ask(w.doc.Now())
}

// computed takes a finished result.
func (w *Window) computed(r app.Result) {
	if r.Err != nil {
		// The last good picture stays, unless it is of another document.
		if w.fresh {
			w.clear()
		}
		w.problem = w.problemText(r.Err)
		w.controls.setProblem(w.problem)
		w.status.problem(w.problem)
		w.findings.ofLast(w.scene != nil && w.result.Report.Deep != nil)
		w.deepenSoon()
		w.log.Event("error", "what", r.Err)
		return
	}
	if w.problem != "" {
		w.problem = ""
		w.controls.setProblem("")
	}
	w.status.problem("")
	w.fresh = false
	w.result = r
	w.versions++
	w.scene = newScene(w.versions, r.Sheet, r.Report)
	w.refind()
	w.blank.show(w.scene)
	w.showPicked()
	w.bender.Ask(w.scene.sheet)
	w.controls.fields.counted(r.Sheet)
	w.figures.show(r.Report)
	w.findings.show(r.Report)
	w.status.zoom(w.zoomText())
	pairs := []any{"openings", r.Report.Openings, "left_g", r.Report.Left}
	if b := r.Report.Thinnest; !b.None() {
		pairs = append(pairs, "thinnest_mm", b.Width)
	}
	w.log.Event("computed", append(pairs, "rule_mm", r.Report.Rule, "findings", len(r.Report.Findings),
		"ms", float64(r.Took.Microseconds())/1000)...)
	w.deepenSoon()
}

// clear takes away the picture and the figures.
func (w *Window) clear() {
	w.scene, w.result = nil, app.Result{}
	w.blank.show(nil)
	w.bent.SetSolid(bent.Solid{})
	w.figures.clear()
	w.findings.clearAll()
}

// problemText says why a design can't be laid, with the field as it is called
// in the controls.
func (w *Window) problemText(err error) string {
	text := err.Error() + "."
	var fe *unroll.FieldError
	if errors.As(err, &fe) {
		text = app.TitleOf(w.doc.Now(), fe.Path) + ": " + fe.Msg + "."
	}
	if !w.fresh {
		text += " The picture shows the last design that could be laid."
	}
	return text
}

// zoomText says how large the blank is drawn. True size is what the screen says
// of itself, so it is nominal.
func (w *Window) zoomText() string {
	f := w.blank.v.frame
	if f.scale == 0 {
		return ""
	}
	share := w.blank.v.k / w.trueZoom()
	if math.Abs(share-1) < 0.0005 {
		return "true size, nominal"
	}
	return pattern.Say("%.0f %% of true size", 100*share)
}

// trueZoom is the pixels per mm of true size on a screen of the stated dpi.
func (w *Window) trueZoom() float64 { return w.settings.ScreenDPI / 25.4 }

func (w *Window) trueSize() {
	w.blank.setZoom(w.trueZoom())
	w.log.Event("zoom", "k", w.blank.v.k)
}

func (w *Window) fit() {
	w.blank.fit()
	w.log.Event("fit", "k", w.blank.v.k)
}

// wasBent takes the finished solid of a scene.
func (w *Window) wasBent(b bent.Solid) {
	if w.scene == nil {
		return // the document has been closed meanwhile
	}
	w.bent.SetSolid(b)
	if b.Err != nil {
		w.log.Event("error", "what", b.Err)
		return
	}
	w.log.Event("bent", "triangles", b.Triangles, "ms", float64(b.Took.Microseconds())/1000)
}

// pointer tells where the pointer is.
func (w *Window) pointer(at plane.Point, where region) {
	w.tellItem()
	switch where {
	case onBlank:
		w.status.place(pattern.Say("x %.2f   y %.2f mm", at.X, at.Y))
	case onGraph:
		text := pattern.Say("x %.2f mm", at.X)
		if w.scene != nil {
			if net, _, ok := w.scene.sectionAt(at.X); ok {
				text += pattern.Say("   metal %.1f mm", net)
			}
		}
		w.status.place(text)
	default:
		w.status.place("")
	}
}

// hovered tells what is known of the opening under the pointer.
func (w *Window) hovered(i int) {
	if i < 0 || w.scene == nil {
		w.status.opening("")
		w.bent.Point(0)
		return
	}
	o := &w.scene.sheet.Openings[i]
	text := pattern.Say("opening %d   %.2f mm\u00b2", o.Number, o.Loop.Area())
	pairs := []any{"opening", o.Number, "area_mm2", o.Loop.Area()}
	if b := w.blank.marks.near; b != nil && !b.None() {
		text += pattern.Say("   nearest metal %.2f mm", b.Width)
		pairs = append(pairs, "bridge_mm", b.Width)
	}
	w.status.opening(text)
	w.bent.Point(o.Number)
	w.log.Event("hover", pairs...)
}

// picked follows a click on the blank.
func (w *Window) picked(opening int, it app.Item) {
	w.findings.clear()
	switch {
	case it != app.NoItem:
		w.selectItem(it)
		if it.Mark {
			opening = -1 // it lies over the opening
		}
	default:
		w.letGo()
	}
	n := 0
	var picks []app.Picked
	if opening >= 0 {
		n = w.scene.sheet.Openings[opening].Number
		w.pickedField(w.scene.sheet.Openings[opening].Field)
		picks = []app.Picked{app.Pick(w.scene.sheet, opening)}
	}
	w.pickThese(picks)
	reserve, mark := it.Index+1, 0
	if it.Mark {
		reserve, mark = 0, it.Index+1
	}
	w.log.Event("pick", "opening", n, "reserve", reserve, "mark", mark)
}

func (w *Window) fold() {
	w.lower.folded = !w.lower.folded
	w.settings.Folded = w.lower.folded
	w.lower.root.Refresh()
	w.showHandles()
	w.bar.fold.SetText(foldText(w.lower.folded))
	w.log.Event("fold", "folded", w.lower.folded)
	w.tellSoon()
}

func (w *Window) unfold() {
	if w.lower.folded {
		w.fold()
	}
}

// wear puts the window into the light or the dark dress.
func (w *Window) wear(name string) {
	w.settings.Theme = name
	w.kit.Wear(name)
	w.app.Settings().SetTheme(w.kit.Dress)
	w.menu.show(w.doc)
	w.log.Event("theme", "name", name)
	w.keepSettings()
}

func (w *Window) otherDress() {
	if w.settings.Theme == "dark" {
		w.wear("light")
	} else {
		w.wear("dark")
	}
}

func (w *Window) keepSettings() {
	s := w.win.Canvas().Size()
	w.settings.Width, w.settings.Height = s.Width, s.Height
	if err := w.settings.Write(w.dir); err != nil {
		w.log.Event("error", "what", err)
	}
}

// keepSoon keeps unsaved work in the recovery file some seconds after the last
// change.
func (w *Window) keepSoon() {
	if w.later == nil {
		return
	}
	if w.autosave != nil {
		w.autosave.Stop()
	}
	w.autosave = w.later(autosaveDelay, w.keep)
}

func (w *Window) keep() {
	if w.closing {
		return
	}
	if !w.doc.Dirty() {
		w.forgetKept()
		return
	}
	if err := w.recovery.Keep(w.doc); err != nil {
		w.status.saved("the unsaved work could not be kept: " + err.Error())
		w.log.Event("error", "what", err)
		return
	}
	w.log.Event("kept")
}

func (w *Window) forgetKept() {
	if w.autosave != nil {
		w.autosave.Stop()
	}
	if err := w.recovery.Clear(); err != nil {
		w.log.Event("error", "what", err)
	}
}
