package kit

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/widget"
)

// Tick is a yes-or-no of a dialog.
type Tick struct {
	widget.Check

	kit *Kit
}

func (k *Kit) Tick(text string, on bool, onChange func(bool)) *Tick {
	t := &Tick{kit: k}
	t.Text, t.Checked, t.OnChanged = text, on, onChange
	t.ExtendBaseWidget(t)
	return t
}

// TypedKey implements fyne.Focusable.
func (t *Tick) TypedKey(e *fyne.KeyEvent) {
	if e.Name == fyne.KeyEscape {
		t.kit.Escape()
		return
	}
	t.Check.TypedKey(e)
}
