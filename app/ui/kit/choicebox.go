package kit

import (
	"fretband/app"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/widget"
)

// ChoiceBox is a drop-down list of options that calls back with the key of the
// one chosen by hand.
type ChoiceBox struct {
	widget.Select

	kit      *Kit
	options  []app.Option
	OnChoose func(key string)
	quiet    bool
}

func (k *Kit) ChoiceBox() *ChoiceBox {
	c := &ChoiceBox{kit: k}
	c.Select.OnChanged = func(title string) {
		if c.quiet || c.OnChoose == nil {
			return
		}
		for _, o := range c.options {
			if o.Title == title {
				c.OnChoose(o.Key)
				return
			}
		}
	}
	c.ExtendBaseWidget(c)
	return c
}

// TypedKey implements fyne.Focusable.
func (c *ChoiceBox) TypedKey(e *fyne.KeyEvent) {
	if e.Name == fyne.KeyEscape {
		c.kit.Escape()
		return
	}
	c.Select.TypedKey(e)
}

// Offer offers the options with the one of that key chosen, without calling back.
func (c *ChoiceBox) Offer(options []app.Option, key string) {
	c.quiet = true
	defer func() { c.quiet = false }()
	if !sameOptions(c.options, options) {
		c.options = options
		titles := make([]string, len(options))
		for i, o := range options {
			titles[i] = o.Title
		}
		c.SetOptions(titles)
	}
	title := ""
	for _, o := range options {
		if o.Key == key {
			title = o.Title
		}
	}
	if c.Selected != title {
		if title == "" {
			c.ClearSelected()
			return
		}
		c.SetSelected(title)
	}
}

func sameOptions(a, b []app.Option) bool {
	if len(a) != len(b) {
		return false
	}
	for i := range a {
		if a[i] != b[i] {
			return false
		}
	}
	return true
}
