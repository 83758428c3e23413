package ui

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/widget"
)

// numberEntry is a short entry for a number: arrow keys and, while it has the
// focus, the wheel step it; Enter and leaving it commit what was typed; Escape
// gives it up. It knows nothing of numbers: it calls back.
type numberEntry struct {
	widget.Entry

	shown string // the text that stands for the committed value

	onCommit func(typed string)  // Enter was pressed or the focus left
	onStep   func(steps float64) // arrow keys, page keys, wheel
	onLeave  func()
	onEscape func()
	onGiveUp func()
	onWheel  func(*fyne.ScrollEvent) // while it has no focus
	focused  bool
}

func newNumberEntry() *numberEntry {
	e := &numberEntry{}
	e.Wrapping = fyne.TextWrapOff
	e.Scroll = fyne.ScrollNone
	e.ExtendBaseWidget(e)
	e.OnSubmitted = func(string) { e.commit() }
	return e
}

// show writes the committed value, unless a person is typing.
func (e *numberEntry) show(text string) {
	typing := e.focused && e.Text != e.shown
	e.shown = text
	if !typing && e.Text != text {
		e.SetText(text)
	}
}

// settle writes the value that a commit has led to, over what was typed, and
// begins a new history of typing.
func (e *numberEntry) settle(text string) {
	e.shown = text
	e.SetText(text)
}

// typing reports whether there is text that has not been committed.
func (e *numberEntry) typing() bool { return e.focused && e.Text != e.shown }

func (e *numberEntry) commit() {
	if e.Text != e.shown && e.onCommit != nil {
		e.onCommit(e.Text)
	}
}

// giveUp puts the committed value back; an entry that commits to nothing (one in
// a dialog) keeps its text.
func (e *numberEntry) giveUp() {
	if e.Text != e.shown && e.onCommit != nil {
		e.SetText(e.shown)
		if e.onGiveUp != nil {
			e.onGiveUp()
		}
	}
}

// FocusGained implements fyne.Focusable.
func (e *numberEntry) FocusGained() {
	e.focused = true
	e.Entry.FocusGained()
}

// FocusLost implements fyne.Focusable.
func (e *numberEntry) FocusLost() {
	e.commit()
	e.focused = false
	e.giveUp() // what was refused goes
	e.Entry.FocusLost()
	if e.onLeave != nil {
		e.onLeave()
	}
}

// TypedKey implements fyne.Focusable.
func (e *numberEntry) TypedKey(k *fyne.KeyEvent) {
	if e.onStep != nil {
		steps := 0.0
		switch k.Name {
		case fyne.KeyUp:
			steps = 1
		case fyne.KeyDown:
			steps = -1
		case fyne.KeyPageUp:
			steps = 10
		case fyne.KeyPageDown:
			steps = -10
		}
		if steps != 0 {
			e.commit()
			e.onStep(steps)
			return
		}
	}
	if k.Name == fyne.KeyEscape {
		if e.typing() && e.onCommit != nil {
			e.giveUp()
		} else if e.onEscape != nil {
			e.onEscape()
		}
		return
	}
	e.Entry.TypedKey(k)
}

// Scrolled implements fyne.Scrollable.
func (e *numberEntry) Scrolled(s *fyne.ScrollEvent) {
	switch {
	case !e.focused || e.onStep == nil:
		if e.onWheel != nil {
			e.onWheel(s)
		}
	case s.Scrolled.DY > 0:
		e.commit()
		e.onStep(1)
	case s.Scrolled.DY < 0:
		e.commit()
		e.onStep(-1)
	}
}

// undoTyping takes back typed text and reports whether there was any.
func (e *numberEntry) undoTyping() bool {
	if !e.typing() {
		return false
	}
	before := e.Text
	e.Undo()
	if e.Text == before { // nothing left to take back: the value itself
		e.giveUp()
	}
	return true
}
