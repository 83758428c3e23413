package ui

import (
	"fretband/app"
	"fretband/app/ui/blank"
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

// escape gives up what is in the foreground: a dialog, a tool, a selection, the focus.
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
	case w.plain:
		w.togglePlain()
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
	if do := w.keys[e.Name]; do != nil {
		do()
		return
	}
	switch e.Name {
	case fyne.KeyLeft, fyne.KeyRight, fyne.KeyUp, fyne.KeyDown, fyne.KeyReturn, fyne.KeyEnter:
		if w.win.Canvas().Focused() == nil {
			w.blank.TypedKey(e)
		}
	default:
		w.bent.Key(e)
	}
}

// commands are what single keys do while no dialog is open.
func (w *Window) commands() map[fyne.KeyName]func() {
	tab := func(p app.Page) func() { return func() { w.showTab(p) } }
	tool := func(shape string) func() { return func() { w.ed.TakeTool(shape) } }
	return map[fyne.KeyName]func(){
		fyne.KeyEscape:  w.escape,
		fyne.KeyF:       w.blank.Fit,
		fyne.Key1:       w.blank.TrueSize,
		fyne.KeyPlus:    func() { w.blank.ZoomStep(1.25) },
		fyne.KeyEqual:   func() { w.blank.ZoomStep(1.25) },
		fyne.KeyMinus:   func() { w.blank.ZoomStep(0.8) },
		fyne.KeyT:       w.showThinnest,
		fyne.KeyN:       func() { w.findings.Next(1) },
		fyne.KeyP:       func() { w.findings.Next(-1) },
		fyne.KeyB:       tab(app.BandPage),
		fyne.KeyA:       tab(app.FormPage),
		fyne.KeyM:       tab(app.MetalPage),
		fyne.KeyO:       tab(app.PatternPage),
		fyne.KeyR:       tab(app.ReservesPage),
		fyne.KeyH:       tab(app.HandPage),
		fyne.KeyD:       w.otherDress,
		fyne.KeyS:       w.blank.ToggleStretch,
		fyne.KeyY:       w.toggleStress,
		fyne.KeyJ:       w.toggleLoad,
		fyne.KeyK:       tool(app.PushTool),
		fyne.KeyL:       w.ed.LeaveSolid,
		fyne.KeyU:       w.ed.OpenAgain,
		fyne.KeyC:       tool(pattern.CircleShape),
		fyne.KeyE:       tool(pattern.OvalShape),
		fyne.KeyQ:       tool(pattern.RectangleShape),
		fyne.KeyI:       tool(app.TieTool),
		fyne.KeyF2:      tool(app.PenTool),
		fyne.KeyDelete:  w.remove,
		desktop.KeyMenu: w.blank.OfferAtSelection,
		fyne.KeyF10:     w.blank.OfferAtSelection,
		fyne.KeyF8:      w.toggleLarge,
		fyne.KeyF9:      w.fold,
		fyne.KeyZ:       w.togglePlain,
		fyne.KeyF1:      w.help.Keys,
	}
}

// showThinnest goes to the thinnest bridge.
func (w *Window) showThinnest() {
	if w.ed.Scene == nil {
		return
	}
	w.blank.Ring(nil, 0)
	if t := w.ed.Scene.Report.Thinnest; !t.None() {
		w.blank.LookAt([]plane.Point{t.A, t.B})
	}
}

// remove takes away what is selected: an item, a tie, or the openings that are picked.
func (w *Window) remove() {
	switch it := w.ed.Item; {
	case it != app.NoItem:
		w.ed.RemoveItem(it)
	case w.ed.Tied(w.ed.Now()):
		w.ed.UndoHand()
	default:
		w.ed.LeaveSolid()
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
	add := func(s fyne.Shortcut, do func()) {
		w.shortcuts = append(w.shortcuts, s)
		w.win.Canvas().AddShortcut(s, func(fyne.Shortcut) { w.guard(do)() })
	}
	add(&fyne.ShortcutRedo{}, w.redo)
	add(&desktop.CustomShortcut{KeyName: fyne.Key0, Modifier: fyne.KeyModifierShortcutDefault}, w.blank.Fit)
	for key, way := range blank.Arrows {
		for _, large := range []bool{false, true} {
			mod := fyne.KeyModifierShortcutDefault
			if large {
				mod |= fyne.KeyModifierShift
			}
			w.win.Canvas().AddShortcut(&desktop.CustomShortcut{KeyName: key, Modifier: mod}, func(fyne.Shortcut) { w.guard(func() { w.move(way, large) })() })
		}
	}
}

// move moves what is selected by a step.
func (w *Window) move(way plane.Point, large bool) {
	if w.blank.Nudge(way, large) {
		w.blank.Redraw()
	}
}

// guard keeps a command from running while a question is open.
func (w *Window) guard(f func()) func() {
	return func() {
		if len(w.kit.Dialogs.Open) == 0 {
			f()
		}
	}
}
