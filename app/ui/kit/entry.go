package kit

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"
)

// Entry is a short entry for a number: arrow keys and, while it has the
// focus, the wheel step it; Enter and leaving it commit what was typed; Escape
// gives it up. It knows nothing of numbers: it calls back.
type Entry struct {
	widget.Entry

	kit   *Kit
	Shown string // the text that stands for the committed value

	OnCommit func(typed string)  // Enter was pressed or the focus left
	OnStep   func(steps float64) // arrow keys, page keys, wheel
	OnLeave  func()
	OnGiveUp func()
	OnWheel  func(*fyne.ScrollEvent) // while it has no focus
	focused  bool
}

func (k *Kit) Entry() *Entry {
	e := &Entry{kit: k}
	e.Wrapping = fyne.TextWrapOff
	e.Scroll = fyne.ScrollNone
	e.ExtendBaseWidget(e)
	e.OnSubmitted = func(string) { e.Commit() }
	return e
}

// LongEntry makes an entry of several lines, which shows what it is for while it is empty.
func (k *Kit) LongEntry(say string) *Entry {
	e := k.Entry()
	e.MultiLine, e.Wrapping, e.Scroll = true, fyne.TextWrapBreak, container.ScrollVerticalOnly
	e.OnSubmitted = nil
	e.SetPlaceHolder(say)
	return e
}

// Present writes the committed value, unless a person is typing.
func (e *Entry) Present(text string) {
	typing := e.focused && e.Text != e.Shown
	e.Shown = text
	if !typing && e.Text != text {
		e.SetText(text)
	}
}

// Settle writes the value that a commit has led to, over what was typed, and
// begins a new history of typing.
func (e *Entry) Settle(text string) {
	e.Shown = text
	e.SetText(text)
}

// Typing reports whether there is text that has not been committed.
func (e *Entry) Typing() bool { return e.focused && e.Text != e.Shown }

func (e *Entry) Commit() {
	if e.Text != e.Shown && e.OnCommit != nil {
		e.OnCommit(e.Text)
	}
}

// giveUp puts the committed value back; an entry that commits to nothing (one in
// a dialog) keeps its text.
func (e *Entry) giveUp() {
	if e.Text != e.Shown && e.OnCommit != nil {
		e.SetText(e.Shown)
		if e.OnGiveUp != nil {
			e.OnGiveUp()
		}
	}
}

// FocusGained implements fyne.Focusable.
func (e *Entry) FocusGained() {
	e.focused = true
	e.Entry.FocusGained()
}

// FocusLost implements fyne.Focusable.
func (e *Entry) FocusLost() {
	e.Commit()
	e.focused = false
	e.giveUp() // what was refused goes
	e.Entry.FocusLost()
	if e.OnLeave != nil {
		e.OnLeave()
	}
}

// TypedKey implements fyne.Focusable.
func (e *Entry) TypedKey(k *fyne.KeyEvent) {
	if e.OnStep != nil {
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
			e.Commit()
			e.OnStep(steps)
			return
		}
	}
	if k.Name == fyne.KeyEscape {
		if e.Typing() && e.OnCommit != nil {
			e.giveUp()
		} else {
			e.kit.Escape()
		}
		return
	}
	e.Entry.TypedKey(k)
}

// Scrolled implements fyne.Scrollable.
func (e *Entry) Scrolled(s *fyne.ScrollEvent) {
	switch {
	case !e.focused || e.OnStep == nil:
		if e.OnWheel != nil {
			e.OnWheel(s)
		}
	case s.Scrolled.DY > 0:
		e.Commit()
		e.OnStep(1)
	case s.Scrolled.DY < 0:
		e.Commit()
		e.OnStep(-1)
	}
}

// UndoTyping takes back typed text and reports whether there was any.
func (e *Entry) UndoTyping() bool {
	if !e.Typing() {
		return false
	}
	before := e.Text
	e.Undo()
	if e.Text == before { // nothing left to take back: the value itself
		e.giveUp()
	}
	return true
}
