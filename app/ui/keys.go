package ui

import (
	"fretband/app"
	"fretband/pattern"
	"fretband/unroll/plane"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
)

// undo takes back typing in the entry that has the focus, or else the last
// change of the design. The menu gets its shortcut before the entry does, so the
// entry's share is handed back here.
func (w *Window) undo() {
	if e := w.kit.Dialogs.Typing(); e != nil && e.UndoTyping() {
		return
	}
	if w.ed.Doc.Undo() {
		w.ed.Log.Event("undo")
		w.changed()
	}
}

func (w *Window) redo() {
	if e := w.kit.Dialogs.Typing(); e != nil && e.Typing() {
		e.Redo()
		return
	}
	if w.ed.Doc.Redo() {
		w.ed.Log.Event("redo")
		w.changed()
	}
}

// escape gives up what is in the foreground: a dialog, a mark, a selection, the
// focus.
func (w *Window) escape() {
	w.kit.Tips.Hide()
	if w.kit.Dialogs.Escape() {
		return
	}
	switch {
	case w.blank.GiveUp():
	case w.ed.Tool != "":
		w.ed.TakeTool("")
	case w.blank.Ringed() || len(w.ed.Picked) > 0 || w.ed.Item != app.NoItem:
		w.ed.LetGo()
		w.blank.Redraw()
	case w.ed.LeaveField():
	default:
		w.win.Canvas().Unfocus()
	}
}

// typed takes the keys that no entry wants.
func (w *Window) typed(e *fyne.KeyEvent) {
	if len(w.kit.Dialogs.Open) > 0 {
		switch e.Name {
		case fyne.KeyEscape:
			w.escape()
		case fyne.KeyReturn, fyne.KeyEnter:
			w.kit.Dialogs.Enter()
		}
		return
	}
	switch e.Name {
	case fyne.KeyEscape:
		w.escape()
	case fyne.KeyF:
		w.blank.Fit()
	case fyne.Key1:
		w.blank.TrueSize()
	case fyne.KeyPlus, fyne.KeyEqual:
		w.blank.ZoomStep(1.25)
	case fyne.KeyMinus:
		w.blank.ZoomStep(0.8)
	case fyne.KeyT:
		if w.ed.Scene != nil {
			t := w.ed.Scene.Report.Thinnest
			w.blank.Ring(nil, 0)
			if !t.None() {
				w.blank.LookAt([]plane.Point{t.A, t.B})
			}
		}
	case fyne.KeyN:
		w.findings.Next(1)
	case fyne.KeyP:
		w.findings.Next(-1)
	case fyne.KeyB:
		w.showTab(app.BandPage)
	case fyne.KeyA:
		w.showTab(app.FormPage)
	case fyne.KeyM:
		w.showTab(app.MetalPage)
	case fyne.KeyO:
		w.showTab(app.PatternPage)
	case fyne.KeyR:
		w.showTab(app.ReservesPage)
	case fyne.KeyD:
		w.otherDress()
	case fyne.KeyS:
		w.blank.ToggleStretch()
	case fyne.KeyY:
		w.toggleStress()
	case fyne.KeyJ:
		w.toggleLoad()
	case fyne.KeyH:
		w.showTab(app.HandPage)
	case fyne.KeyL:
		w.ed.LeaveSolid()
	case fyne.KeyU:
		w.ed.OpenAgain()
	case fyne.KeyC:
		w.ed.TakeTool(pattern.CircleShape)
	case fyne.KeyE:
		w.ed.TakeTool(pattern.OvalShape)
	case fyne.KeyQ:
		w.ed.TakeTool(pattern.RectangleShape)
	case fyne.KeyI:
		w.ed.TakeTool(app.TieTool)
	case fyne.KeyDelete:
		if it := w.ed.Item; it != app.NoItem {
			w.ed.RemoveItem(it)
		} else if w.ed.Tied(w.ed.Now()) {
			w.ed.UndoHand()
		} else {
			w.ed.LeaveSolid()
		}
	case fyne.KeyF9:
		w.fold()
	case fyne.KeyF1:
		w.help.Keys()
	case fyne.KeyLeft, fyne.KeyRight, fyne.KeyUp, fyne.KeyDown:
		if w.win.Canvas().Focused() == nil {
			w.blank.TypedKey(e)
		}
	default:
		w.bent.Key(e)
	}
}

func (w *Window) showTab(p app.Page) {
	w.unfold()
	w.ed.OpenPage(p)
}

// pickAll picks all openings, unless an entry has the focus: the menu gets its shortcut
// before the entry does.
func (w *Window) pickAll() {
	if e, ok := w.win.Canvas().Focused().(fyne.Shortcutable); ok {
		e.TypedShortcut(&fyne.ShortcutSelectAll{})
		return
	}
	w.guard(w.ed.PickAll)()
}

// addShortcuts adds those that have no line in the menu.
func (w *Window) addShortcuts() {
	c := w.win.Canvas()
	c.AddShortcut(&fyne.ShortcutRedo{}, func(fyne.Shortcut) { w.guard(w.redo)() })
	c.AddShortcut(&desktop.CustomShortcut{KeyName: fyne.Key0, Modifier: fyne.KeyModifierShortcutDefault}, func(fyne.Shortcut) { w.guard(w.blank.Fit)() })
}

// guard keeps a command from running while a question is open.
func (w *Window) guard(f func()) func() {
	return func() {
		if len(w.kit.Dialogs.Open) == 0 {
			f()
		}
	}
}
