package ui

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/widget"
)

// tick is a yes-or-no of a dialog.
type tick struct {
	widget.Check

	onEscape func()
}

func newTick(text string, on bool, onChange func(bool)) *tick {
	t := &tick{}
	t.Text, t.Checked, t.OnChanged = text, on, onChange
	t.ExtendBaseWidget(t)
	return t
}

// TypedKey implements fyne.Focusable.
func (t *tick) TypedKey(e *fyne.KeyEvent) {
	if e.Name == fyne.KeyEscape && t.onEscape != nil {
		t.onEscape()
		return
	}
	t.Check.TypedKey(e)
}
