package kit

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"
)

// Entry is a short entry for a number: arrow keys and, while it has the
// focus, the wheel step it; Enter and leaving it commit what was typed; Escape
// gives it up. It knows nothing of numbers: it calls back.
//
// When it gets the focus, at a double click, and when the program writes a text into it,
// all of the text is selected, so that typing replaces it. A single click puts the caret
// where it is.
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

// SetText writes a text, which the next that is typed replaces.
func (e *Entry) SetText(text string) {
	e.Entry.SetText(text)
	e.selectAll()
	e.follow()
}

// follow keeps the caret in sight while a text is typed that is longer than the entry. Only
// then: the toolkit's scroll would take the wheel, which steps the number.
func (e *Entry) follow() {
	if e.MultiLine {
		return
	}
	scroll := container.ScrollNone
	if e.focused && fyne.MeasureText(e.Text, e.Theme().Size(theme.SizeNameText), e.TextStyle).Width > e.Size().Width-3*e.Theme().Size(theme.SizeNameInnerPadding) {
		scroll = container.ScrollHorizontalOnly
	}
	if e.Scroll != scroll {
		e.Scroll = scroll
		e.Refresh()
	}
}

// TypedRune implements fyne.Focusable.
func (e *Entry) TypedRune(r rune) {
	e.Entry.TypedRune(r)
	e.follow()
}

// TypedShortcut implements fyne.Shortcutable.
func (e *Entry) TypedShortcut(s fyne.Shortcut) {
	e.Entry.TypedShortcut(s)
	e.follow()
}

// WhileEmpty shows a text in grey as long as there is no other.
func (e *Entry) WhileEmpty(text string) {
	if e.PlaceHolder != text {
		e.SetPlaceHolder(text)
	}
}

// selectAll selects the text if it has the focus. What takes several lines is longer than
// one value, which a person would want to replace.
func (e *Entry) selectAll() {
	switch {
	case !e.focused || e.MultiLine:
	case e.Text == "":
		// The toolkit would keep the selection that was, and begin it anew with each letter.
		e.Entry.TypedKey(&fyne.KeyEvent{Name: fyne.KeyHome})
	default:
		e.TypedShortcut(&fyne.ShortcutSelectAll{})
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
	had := e.focused
	e.focused = true
	e.Entry.FocusGained()
	if !had {
		e.selectAll()
		e.follow()
	}
}

// DoubleTapped implements fyne.DoubleTappable. The toolkit's takes 32.9 for two words.
func (e *Entry) DoubleTapped(p *fyne.PointEvent) {
	e.Entry.DoubleTapped(p)
	e.selectAll()
}

// FocusLost implements fyne.Focusable.
func (e *Entry) FocusLost() {
	e.Commit()
	e.focused = false
	e.giveUp() // what was refused goes
	e.Entry.FocusLost()
	e.follow()
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
	e.follow()
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
	if e.Text == "" && e.Shown != "" { // what was typed in the value's place
		e.Undo()
	}
	switch e.Text {
	case before: // nothing left to take back: the value itself
		e.giveUp()
	case e.Shown:
		e.selectAll()
	}
	return true
}
