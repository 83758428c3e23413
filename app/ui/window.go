package ui

import (
	"net/url"
	"time"

	"fretband/app"
	"fretband/app/ui/bent"
	"fretband/app/ui/blank"
	"fretband/app/ui/kit"
	"fretband/app/ui/pages"
	"fretband/export/picture"
	"fretband/pattern"
	"fretband/unroll/plane"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
)

// Window is the program's window with the design that is open in it.
type Window struct {
	app      fyne.App
	win      fyne.Window
	settings app.Settings

	ed       *app.Editor
	laying   *app.Laying
	bender   *app.Newest[bent.ToBend, bent.Solid]
	versions int
	cameAt   time.Time // when the last result came
	passed   bool      // it has not been bent
	fresh    bool      // the document has not been laid yet

	kit       *kit.Kit
	desk      *pages.Desk
	files     *pages.Files
	handOver  pages.HandOver
	compare   pages.Compare
	help      pages.Help
	blank     *blank.View
	blankPane *blank.Pane
	bent      *bent.View
	bentPane  *bent.Pane
	figures   *pages.Figures
	findings  *pages.Findings
	controls  *pages.Controls
	bar       *bar
	status    *status
	menu      *menu

	frame     *frame
	plain     bool // the bent band is shown before it is pierced
	keys      map[fyne.KeyName]func()
	shortcuts []fyne.Shortcut // those without a line in the menu
	ready     bool
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
	// run both at once. Nil means a goroutine and a mailbox.
	Go, Post func(func())
	// Begin asks what to begin with, once the window is on the screen.
	Begin bool
	// Quiet leaves out timers: no autosave, no tips after a while.
	Quiet bool
}

// NewWindow makes the window and starts computing its design.
func NewWindow(o Options) *Window {
	k := kit.New(o.Settings.Theme)
	w := &Window{app: o.App, settings: o.Settings, ed: app.NewEditor(o.Document, o.Log), kit: k}
	w.ed.Folded = o.Settings.Folded
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
	kit.NewDialogs(w.kit, w.win.Canvas(), w.logPlacesSoon)
	background, post := o.Go, o.Post
	if background == nil {
		background = func(f func()) { go f() }
	}
	if post == nil {
		post = newMailbox().post
	}
	w.desk = &pages.Desk{
		Kit: k, Ed: w.ed, Settings: &w.settings, Background: background, Post: post, Later: w.later,
		Opened:       w.logPlacesSoon,
		SaveSettings: w.saveSettings,
		Refresh:      w.refresh,
		Say:          func(t string) { w.status.file.SetText(t) },
		Width:        func() float32 { return w.win.Canvas().Size().Width },
		OpenURL:      func(u *url.URL) error { return w.app.OpenURL(u) },
		GoToEdit:     func(i int) { w.blank.GoToEdit(i) },
		TrueSize:     func() { w.blank.TrueSize() },
		Portrait:     bent.Portrait,
		Thumb:        func(s *app.Scene, wide, high float32) fyne.CanvasObject { return blank.Thumb(k, s, wide, high) },
	}
	w.files = &pages.Files{Desk: w.desk, Dir: o.Dir, Recovery: app.NewRecovery(o.Dir), Fresh: w.renew, Close: w.win.Close}
	if o.Begin {
		w.files.Instead = w.files.Begin
	}
	w.handOver, w.compare, w.help = pages.HandOver{Desk: w.desk}, pages.Compare{Desk: w.desk}, pages.Help{Desk: w.desk}
	w.laying = app.NewLaying(background, post, w.computed, w.deepened, w.solved)
	w.laying.Later = w.later
	w.bender = &app.Newest[bent.ToBend, bent.Solid]{Work: bent.Bend, Go: background, Post: post, Done: w.wasBent}
	w.ed.Stress = app.NewStress(background, post)
	w.lay()
	w.menu = newMenu(w)
	w.menu.fill()
	w.win.SetMainMenu(w.menu.main)
	w.win.SetCloseIntercept(w.files.AskToClose)
	w.keys = w.commands()
	w.win.Canvas().SetOnTypedKey(w.typed)
	w.addShortcuts()
	size := o.Size
	if size.IsZero() {
		size = fyne.NewSize(1400, 900)
	}
	w.win.Resize(size)
	w.refresh()
	w.compute()
	return w
}

// Fyne returns the toolkit's window.
func (w *Window) Fyne() fyne.Window { return w.win }

func (w *Window) lay() {
	k := w.kit
	w.blankPane = blank.NewPane(k, w.ed, blank.Doors{
		Key:      w.typed,
		Position: func(t string) { w.status.at.SetText(t) },
		Over:     func(t string) { w.status.over.SetText(t) },
		Point:    func(number int) { w.bent.Point(number) },
		Zoomed:   func(t string) { w.status.size.SetText(t) },
		TrueZoom: func() float64 { return w.settings.ScreenDPI / 25.4 },
		Moved:    w.logPlacesSoon,
	})
	w.blank = w.blankPane.View
	w.bentPane = bent.New(k, bent.Doors{
		Hover: w.blank.HoverNumbered,
		Pick:  func(number int) { w.ed.PickOne(w.ed.Scene.Numbered(number), app.NoItem) },
		Key:   w.typed,
		Load:  w.toggleLoad,
		Plain: w.togglePlain,
		Large: w.toggleLarge,
		Later: func(d time.Duration, f func()) {
			if w.later == nil {
				f()
			} else {
				w.later(d, f)
			}
		},
	})
	w.bent = w.bentPane.View
	w.figures = pages.NewFigures(k)
	w.findings = pages.NewFindings(w.desk)
	w.findings.OnSelect, w.findings.OnRing = w.showFinding, w.ringFinding
	w.figures.OnChoose, w.figures.OnRing = w.showFigure, w.ringFigure
	w.controls = pages.NewControls(w.desk)
	w.bar = newBar(w)
	w.status = newStatus(k)
	w.follow()
	w.frame = newFrame(k, frame{
		bar: w.bar.root, status: w.status.root, blank: w.blankPane.Root, bent: w.bentPane.Root,
		controls: w.controls.Root, figures: w.figures.Root, found: w.findings.Root,
		folded: &w.ed.Folded, panes: &w.settings.Panes, kept: w.saveSettings,
	})
	w.bentPane.ShowLarge(w.settings.Panes.BentLarge)
	// The toolkit clears the window with the panels' colour (see kit.Dress): a rectangle of
	// it behind all would be painted twice.
	w.win.SetContent(container.NewStack(w.frame.root, k.Tips.Layer))
}

// follow tells the rooms what is changed, picked and selected.
func (w *Window) follow() {
	w.ed.On = app.Followers{
		Changed: w.changed,
		Picked: func() {
			w.controls.ShowPicked()
			w.blank.ShowHandles()
			w.blankPane.ShowStress()
			w.logPlacesSoon()
		},
		Item: func() {
			if w.ed.Item != app.NoItem {
				w.showTab(app.ReservesPage)
				return
			}
			w.controls.ShowItems()
			w.blank.ShowHandles()
		},
		Field: func() {
			w.controls.ShowField()
			w.blank.ShowHandles()
			w.logPlacesSoon()
		},
		Page: func() {
			w.controls.ShowTab(w.ed.Page)
			w.blank.ShowHandles()
			w.logPlacesSoon()
		},
		Leave: func() {
			w.blank.Ring(nil, 0)
			w.figures.Forget()
			w.findings.Clear()
		},
		Say:  w.controls.SetProblem,
		Push: w.push,
	}
	w.ed.Stress.On = w.showStress
}

// changed brings everything up to the document after an edit, undo or redo.
func (w *Window) changed() {
	w.refresh()
	w.compute()
	w.files.KeepSoon()
}

// refresh brings what shows the design, not its measures, up to date.
func (w *Window) refresh() {
	d := w.ed.Now()
	w.controls.Show(d)
	w.bar.show(w.ed.Doc)
	w.menu.show(w.ed.Doc)
	w.status.file.SetText(w.ed.Doc.SavedText())
	title := w.ed.Doc.Title()
	if w.ed.Doc.Dirty() {
		title = "* " + title
	}
	w.win.SetTitle(title + " - Fretband")
}

func (w *Window) compute() {
	w.findings.Checking(true)
	w.laying.Ask(w.ed.Now())
}

// computed takes a finished result.
func (w *Window) computed(r app.Result) {
	if r.Err != nil {
		// The last good picture stays, unless it is of another document.
		if w.fresh {
			w.clear()
		}
		w.ed.Problem = w.ed.Why(r.Err)
		if !w.fresh {
			w.ed.Problem += " The picture shows the last design that could be laid."
		}
		w.controls.SetProblem(w.ed.Problem)
		w.status.warn(w.ed.Problem)
		w.findings.OfLast(w.ed.Scene != nil && w.ed.Scene.Report.Deep != nil)
		w.ed.Log.Event("error", "what", r.Err)
		return
	}
	if w.ed.Problem != "" {
		w.ed.Problem = ""
		w.controls.SetProblem("")
	}
	w.status.warn("")
	w.fresh = false
	w.versions++
	w.ed.SetScene(app.NewScene(w.versions, r.Sheet, r.Report))
	w.blank.SetScene(w.ed.Scene)
	w.blankPane.ShowStress()
	w.printStress()
	w.controls.ShowPicked()
	w.controls.ShowInForce()
	w.blank.ShowHandles()
	w.bendOften()
	w.controls.Fields.Counted(r.Sheet)
	w.figures.Show(r.Report)
	w.showFindings()
	w.status.size.SetText(w.blank.ZoomText())
	pairs := []any{"openings", r.Report.Openings, "left_g", r.Report.Left}
	if b := r.Report.Thinnest; !b.None() {
		pairs = append(pairs, "thinnest_mm", b.Width)
	}
	w.ed.Log.Event("computed", append(pairs, "rule_mm", r.Report.Rule, "findings", len(r.Report.Findings),
		"ms", float64(r.Took.Microseconds())/1000)...)
}

// deepened shows what the slower checks have found in the design in sight.
func (w *Window) deepened(r app.Result) {
	w.ed.Scene.Report = r.Report
	w.findings.Checking(w.laying.Computer.Busy())
	w.showFindings()
	w.figures.Show(r.Report)
	w.ed.Log.Event("deepened", "findings", len(r.Report.Findings))
	w.logPlacesSoon()
}

// solved shows how the design in sight carries load.
func (w *Window) solved(s app.Solved) {
	w.ed.Stress.Take(s)
	if s.Report != nil {
		w.ed.Scene.Report = s.Report
		w.showFindings()
		w.figures.Show(s.Report)
	}
	pairs := []any{"more", s.More, "ms", float64(s.Took.Microseconds()) / 1000}
	if s.Figures != nil {
		pairs = append(pairs, "coarse", s.Figures.Coarse, "freedoms", s.Figures.Freedoms)
	}
	if s.Err != nil {
		pairs = append(pairs, "why", s.Err)
	}
	w.ed.Log.Event("solved", pairs...)
}

// showFindings lists what the report says.
func (w *Window) showFindings() {
	w.findings.Show(w.ed.Scene.Report)
	w.frame.count(w.findings.Found)
}

// toggleStress shows or hides the stress over the blank.
func (w *Window) toggleStress() {
	on := !w.ed.Stress.Shown
	w.ed.Stress.Show(on)
	w.laying.Watch(on)
	w.ed.Log.Event("stress", "shown", on)
}

// push has the band pushed at a position of the blank, and shows the stress of that.
func (w *Window) push(at plane.Point) {
	if !w.ed.Stress.Shown {
		w.toggleStress()
	}
	w.ed.Stress.Choose(app.PushedCase)
	w.laying.Push(at)
	w.ed.Log.Event("push", "x_mm", at.X, "y_mm", at.Y)
}

// toggleLoad draws the bent band under the load that is shown, or without.
func (w *Window) toggleLoad() {
	if s := w.ed.Stress; s.Shown {
		s.Load(!s.Loaded)
		w.ed.Log.Event("load", "drawn", s.Loaded)
	}
}

// bendOften bends what has been computed: of results that follow one another quickly
// every second at once, and the other only if none has followed it.
func (w *Window) bendOften() {
	const quick = 100 * time.Millisecond
	last := w.cameAt
	w.cameAt = time.Now()
	if w.later == nil || w.passed || w.cameAt.Sub(last) > quick {
		w.passed = false
		w.bend()
		return
	}
	w.passed = true
	at := w.cameAt
	w.later(quick, func() {
		if w.passed && w.cameAt.Equal(at) && w.ed.Scene != nil {
			w.passed = false
			w.bend()
		}
	})
}

// bend has the band in sight bent, as it is to be drawn.
func (w *Window) bend() {
	sheet := w.ed.Scene.Sheet
	w.bender.Ask(bent.ToBend{Sheet: sheet, Load: w.loadOn(sheet), Plain: w.plain, Last: w.bent.Solid()})
}

// loadOn is what the bent band is drawn under, nil for none.
func (w *Window) loadOn(sheet *pattern.Sheet) *picture.StressMap {
	if w.plain {
		return nil
	}
	return w.ed.Stress.LoadOn(sheet)
}

// togglePlain shows the bent band before it is pierced, to compare, or as it is.
func (w *Window) togglePlain() {
	w.plain = !w.plain
	w.ed.Log.Event("plain", "shown", w.plain)
	if w.ed.Scene != nil {
		w.printStress()
		w.bend()
	}
}

// toggleLarge has the bent band and the blank change places.
func (w *Window) toggleLarge() {
	p := &w.settings.Panes
	p.BentLarge = !p.BentLarge
	w.bentPane.ShowLarge(p.BentLarge)
	w.frame.changed()
	w.ed.Log.Event("large", "bent", p.BentLarge)
	w.logPlacesSoon()
}

// showStress brings what shows the stress up to what there is of it.
func (w *Window) showStress() {
	w.blankPane.ShowStress()
	w.bar.stress.Choose(w.ed.Stress.Shown)
	w.printStress()
	w.bentPane.ShowLoad(w.ed.Stress.Shown, w.ed.Stress.Loaded)
	if s := w.ed.Scene; s != nil && w.loadOn(s.Sheet) != w.bent.Solid().Load {
		w.bend()
	}
	if m := w.ed.Stress.Map; m != nil && w.ed.Stress.Shown && w.ed.Scene != nil {
		w.ed.Log.Event("stressed", "case", m.Case.What, "peak_mpa", m.Case.Peak, "fresh", w.ed.Stress.Fresh(w.ed.Scene.Sheet))
	}
	w.logPlacesSoon()
}

// printStress lays the stress over the bent band.
func (w *Window) printStress() {
	s := w.ed.Stress
	if !s.Shown || s.Map == nil || w.ed.Scene == nil || w.plain {
		w.bent.SetPrint(nil)
		return
	}
	w.bent.SetPrint(s.Map.OnBand(!s.Fresh(w.ed.Scene.Sheet)))
}

// clear takes away the picture and the figures.
func (w *Window) clear() {
	w.laying.Forget()
	w.ed.SetScene(nil)
	w.blank.SetScene(nil)
	w.bent.SetSolid(bent.Solid{})
	w.figures.Clear()
	w.findings.ClearAll()
}

// renew prepares for another document, which has not been laid yet.
func (w *Window) renew() {
	w.blank.Renew()
	w.bent.Renew()
	w.ed.Stress.Forget()
	w.fresh = true
	w.findings.Forget()
	w.controls.SetProblem("")
}

// wasBent takes the finished solid of a scene.
func (w *Window) wasBent(b bent.Solid) {
	if w.ed.Scene == nil {
		return // the document has been closed meanwhile
	}
	w.bent.SetSolid(b)
	if b.Err != nil {
		w.ed.Log.Event("error", "what", b.Err)
		return
	}
	w.ed.Log.Event("bent", "triangles", b.Triangles, "ms", float64(b.Took.Microseconds())/1000)
}

func (w *Window) fold() {
	w.ed.Folded = !w.ed.Folded
	w.settings.Folded = w.ed.Folded
	w.frame.root.Refresh()
	w.blank.ShowHandles()
	w.bar.fold.SetText(foldText(w.ed.Folded))
	w.ed.Log.Event("fold", "folded", w.ed.Folded)
	w.logPlacesSoon()
}

func (w *Window) unfold() {
	if w.ed.Folded {
		w.fold()
	}
}

// wear puts the window into the light or the dark dress.
func (w *Window) wear(name string) {
	w.settings.Theme = name
	w.kit.Wear(name)
	w.app.Settings().SetTheme(w.kit.Dress)
	w.menu.show(w.ed.Doc)
	w.ed.Log.Event("theme", "name", name)
	w.saveSettings()
}

func (w *Window) otherDress() {
	if w.settings.Theme == "dark" {
		w.wear("light")
	} else {
		w.wear("dark")
	}
}

func (w *Window) saveSettings() {
	s := w.win.Canvas().Size()
	w.settings.Width, w.settings.Height = s.Width, s.Height
	if err := w.settings.Write(w.files.Dir); err != nil {
		w.ed.Log.Event("error", "what", err)
	}
	w.menu.fill()
}
