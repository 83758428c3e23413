package ui

import (
	"fretband/app"
	"fretband/app/ui/kit"
	"fretband/pattern"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
)

// undo takes back typing in the entry that has the focus, or else the last
// change of the design. The menu gets its shortcut before the entry does, so the
// entry's share is handed back here.
func (w *Window) undo() {
	if e := w.entry(); e != nil && e.UndoTyping() {
		return
	}
	if w.doc.Undo() {
		w.log.Event("undo")
		w.changed()
	}
}

func (w *Window) redo() {
	if e := w.entry(); e != nil && e.Typing() {
		e.Redo()
		return
	}
	if w.doc.Redo() {
		w.log.Event("redo")
		w.changed()
	}
}

func (w *Window) entry() *kit.Entry {
	e, _ := w.win.Canvas().Focused().(*kit.Entry)
	return e
}

// leaveEntry commits what is being typed.
func (w *Window) leaveEntry() {
	if e := w.entry(); e != nil {
		e.Commit()
	}
}

// escape gives up what is in the foreground: a dialog, a mark, a selection, the
// focus.
func (w *Window) escape() {
	w.kit.Tips.Hide()
	if w.dialogs.Escape() {
		return
	}
	if w.giveUpDrag() {
		return
	}
	if w.blank.marks.hand.tool != "" {
		w.takeTool("")
		return
	}
	if m := &w.blank.marks; m.places != nil || len(m.picked) > 0 || m.item != app.NoItem {
		m.places = nil
		w.pickThese(nil)
		w.findings.clear()
		w.letGo()
		w.blank.redraw()
		return
	}
	if w.leaveField() {
		return
	}
	w.win.Canvas().Unfocus()
}

func (w *Window) zoomStep(by float64) {
	f := w.blank.v.frame
	w.blank.zoomBy(by, (f.left+f.right)/2, (f.top+f.bottom)/2)
}

// typed takes the keys that no entry wants.
func (w *Window) typed(e *fyne.KeyEvent) {
	if len(w.dialogs.Open) > 0 {
		switch e.Name {
		case fyne.KeyEscape:
			w.escape()
		case fyne.KeyReturn, fyne.KeyEnter:
			w.dialogs.Enter()
		}
		return
	}
	switch e.Name {
	case fyne.KeyEscape:
		w.escape()
	case fyne.KeyF:
		w.fit()
	case fyne.Key1:
		w.trueSize()
	case fyne.KeyPlus, fyne.KeyEqual:
		w.zoomStep(1.25)
	case fyne.KeyMinus:
		w.zoomStep(0.8)
	case fyne.KeyT:
		if w.scene != nil {
			t := w.scene.report.Thinnest
			w.blank.marks.places = nil
			if !t.None() {
				w.blank.lookAt(points(t.A, t.B))
			}
		}
	case fyne.KeyN:
		w.findings.next(1)
	case fyne.KeyP:
		w.findings.next(-1)
	case fyne.KeyB:
		w.turnTo(bandPage)
	case fyne.KeyA:
		w.turnTo(formPage)
	case fyne.KeyM:
		w.turnTo(metalPage)
	case fyne.KeyO:
		w.turnTo(patternPage)
	case fyne.KeyR:
		w.turnTo(reservesPageAt)
	case fyne.KeyD:
		w.otherDress()
	case fyne.KeyS:
		w.blank.marks.noStretch = !w.blank.marks.noStretch
		w.blank.redraw()
	case fyne.KeyH:
		w.turnTo(handPageAt)
	case fyne.KeyL:
		w.leaveSolid()
	case fyne.KeyU:
		w.openAgain()
	case fyne.KeyC:
		w.takeTool(pattern.CircleShape)
	case fyne.KeyE:
		w.takeTool(pattern.OvalShape)
	case fyne.KeyQ:
		w.takeTool(pattern.RectangleShape)
	case fyne.KeyDelete:
		if it := w.blank.marks.item; it != app.NoItem {
			w.removeItem(it)
		} else {
			w.leaveSolid()
		}
	case fyne.KeyF9:
		w.fold()
	case fyne.KeyF1:
		w.showKeys()
	case fyne.KeyLeft, fyne.KeyRight, fyne.KeyUp, fyne.KeyDown:
		if w.win.Canvas().Focused() == nil {
			w.blank.TypedKey(e)
		}
	default:
		w.bent.Key(e)
	}
}

func (w *Window) turnTo(page int) {
	w.unfold()
	w.controls.turnTo(page)
	w.tellSoon()
}

// addShortcuts adds those that have no line in the menu.
func (w *Window) addShortcuts() {
	c := w.win.Canvas()
	c.AddShortcut(&fyne.ShortcutRedo{}, func(fyne.Shortcut) { w.guard(w.redo)() })
	c.AddShortcut(&desktop.CustomShortcut{KeyName: fyne.Key0, Modifier: fyne.KeyModifierShortcutDefault}, func(fyne.Shortcut) { w.guard(w.fit)() })
}

// guard keeps a command from running while a question is open.
func (w *Window) guard(f func()) func() {
	return func() {
		if len(w.dialogs.Open) == 0 {
			f()
		}
	}
}

// keyList is what Help shows; every line is a key and what it does.
var keyList = [][2]string{
	{"Ctrl+N, Ctrl+O", "new design, open a design"},
	{"Ctrl+S, Ctrl+Shift+S", "save, save as"},
	{"Ctrl+E", "hand over: make the files for whoever receives them"},
	{"Ctrl+Z, Ctrl+Shift+Z", "undo, redo; in an entry, of the typing"},
	{"Ctrl+G", "reach a weight"},
	{"Ctrl+K, Ctrl+B", "keep as a variant; variants side by side"},
	{"Ctrl+Q", "quit"},
	{"B, A, M, O, R, H", "controls of band, form, metal, pattern, reserves and marks, by hand"},
	{"Click, Shift+click", "pick an opening; add or leave out one more"},
	{"Drag a box, Ctrl+A", "pick all in it; pick all"},
	{"Two clicks, three", "pick its row, its field"},
	{"L or Delete, U", "leave what is picked solid, open it again"},
	{"Arrows, with Shift", "move what is picked by 0.1 mm, by 1 mm: openings, a reserve, a mark"},
	{"C, E, Q", "draw a circle, an oval, a rectangle"},
	{"Up, Down in an entry", "one step; Page Up, Page Down: ten"},
	{"Left, Right on a slider", "one step"},
	{"Tab, Shift+Tab", "next entry, the one before"},
	{"F or Ctrl+0, 1", "fit the blank, true size"},
	{"+, -, wheel", "nearer, farther; the wheel keeps the place under it"},
	{"Space and drag, arrows", "move the drawing; so does the middle button"},
	{"V, G", "bent band: next side to look from; the whole in sight"},
	{"X, Page Up, Page Down", "cut the bent band open, the next cut; move the cut"},
	{"W", "show or hide the wrist, in a ring the finger"},
	{"Arrows, +, - on the bent band", "turn it; nearer, farther; Home: as at first"},
	{"S", "show or hide the stretch of a domed band on the blank"},
	{"T", "go to the thinnest bridge"},
	{"N, P", "next finding that has a place, the one before"},
	{"D", "light or dark"},
	{"Delete", "remove the reserve or mark that is selected"},
	{"F9", "fold the controls away, bring them back"},
	{"Esc", "give up: a drag, typing, a question, what is picked"},
	{"F1, Alt", "this list, the menu"},
}
