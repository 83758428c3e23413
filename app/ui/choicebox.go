package ui

import (
	"fretband/app"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/widget"
)

// choiceBox is a drop-down list of options that calls back with the key of the
// one chosen by hand.
type choiceBox struct {
	widget.Select

	options  []app.Option
	onChoose func(key string)
	onEscape func()
	quiet    bool
}

func newChoiceBox() *choiceBox {
	c := &choiceBox{}
	c.Select.OnChanged = func(title string) {
		if c.quiet || c.onChoose == nil {
			return
		}
		for _, o := range c.options {
			if o.Title == title {
				c.onChoose(o.Key)
				return
			}
		}
	}
	c.ExtendBaseWidget(c)
	return c
}

// TypedKey implements fyne.Focusable.
func (c *choiceBox) TypedKey(e *fyne.KeyEvent) {
	if e.Name == fyne.KeyEscape && c.onEscape != nil {
		c.onEscape()
		return
	}
	c.Select.TypedKey(e)
}

// show offers the options with the one of that key chosen, without calling back.
func (c *choiceBox) show(options []app.Option, key string) {
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
