package kit

import (
	"slices"

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
	c.Select.OnChanged = func(string) {
		if i := c.SelectedIndex(); i >= 0 && !c.quiet && c.OnChoose != nil {
			c.OnChoose(c.options[i].Key)
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
	if !slices.Equal(c.options, options) {
		c.options = options
		titles := make([]string, len(options))
		for i, o := range options {
			titles[i] = o.Title
		}
		c.SetOptions(titles)
	}
	switch i := slices.IndexFunc(options, func(o app.Option) bool { return o.Key == key }); {
	case i < 0 && c.Selected != "":
		c.ClearSelected()
	case i != c.SelectedIndex():
		c.SetSelectedIndex(i)
	}
}
