package ui

import (
	"image/color"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/widget"
)

// button is a flat button of words: quiet until the pointer is over it. A chosen
// one (a tab that is open) is underlined as well as coloured.
type button struct {
	widget.BaseWidget

	text   string
	tip    string
	kit    *kit
	tap    func()
	framed bool // has an edge at rest
	main   bool // the one that a dialog expects
	tab    bool
	strong bool // bold at rest
	left   bool // the text stands at the left

	chosen, off, over, focused, down bool

	box, mark *canvas.Rectangle
	t         *canvas.Text
}

var (
	_ fyne.Tappable     = (*button)(nil)
	_ fyne.Focusable    = (*button)(nil)
	_ desktop.Hoverable = (*button)(nil)
	_ desktop.Mouseable = (*button)(nil)
)

func (k *kit) button(text, tip string, tap func()) *button {
	b := &button{text: text, tip: tip, kit: k, tap: tap}
	b.box, b.mark, b.t = canvas.NewRectangle(color.Transparent), canvas.NewRectangle(color.Transparent), canvas.NewText(text, color.Black)
	b.box.CornerRadius = 3
	b.t.Alignment = fyne.TextAlignCenter
	b.ExtendBaseWidget(b)
	return b
}

func (b *button) framedOne() *button { b.framed = true; return b }

func (b *button) setOff(off bool) {
	if b.off != off {
		b.off = off
		b.Refresh()
	}
}

func (b *button) choose(on bool) {
	if b.chosen != on {
		b.chosen = on
		b.Refresh()
	}
}

func (b *button) setText(t string) {
	if b.text != t {
		b.text = t
		b.Refresh()
	}
}

// Tapped implements fyne.Tappable.
func (b *button) Tapped(*fyne.PointEvent) {
	b.kit.tips.leave(b)
	if !b.off && b.tap != nil {
		b.tap()
	}
}

// MouseDown implements desktop.Mouseable.
func (b *button) MouseDown(*desktop.MouseEvent) { b.down = true; b.Refresh() }

// MouseUp implements desktop.Mouseable.
func (b *button) MouseUp(*desktop.MouseEvent) { b.down = false; b.Refresh() }

// MouseIn implements desktop.Hoverable.
func (b *button) MouseIn(*desktop.MouseEvent) {
	b.over = true
	if b.tip != "" {
		b.kit.tips.rest(b, b.tip)
	}
	b.Refresh()
}

// MouseMoved implements desktop.Hoverable.
func (b *button) MouseMoved(*desktop.MouseEvent) {}

// MouseOut implements desktop.Hoverable.
func (b *button) MouseOut() {
	b.over, b.down = false, false
	b.kit.tips.leave(b)
	b.Refresh()
}

// FocusGained implements fyne.Focusable.
func (b *button) FocusGained() { b.focused = true; b.Refresh() }

// FocusLost implements fyne.Focusable.
func (b *button) FocusLost() { b.focused = false; b.Refresh() }

// TypedRune implements fyne.Focusable.
func (b *button) TypedRune(rune) {}

// TypedKey implements fyne.Focusable.
func (b *button) TypedKey(e *fyne.KeyEvent) {
	switch e.Name {
	case fyne.KeySpace, fyne.KeyReturn, fyne.KeyEnter:
		b.Tapped(nil)
	case fyne.KeyEscape:
		b.kit.escape()
	}
}

// CreateRenderer implements fyne.Widget.
func (b *button) CreateRenderer() fyne.WidgetRenderer {
	r := &buttonRenderer{b}
	r.Refresh()
	return r
}

type buttonRenderer struct{ b *button }

func (r *buttonRenderer) Destroy() {}
func (r *buttonRenderer) Objects() []fyne.CanvasObject {
	return []fyne.CanvasObject{r.b.box, r.b.mark, r.b.t}
}

func (r *buttonRenderer) MinSize() fyne.Size {
	m := fyne.MeasureText(r.b.text, 13, fyne.TextStyle{Bold: r.b.tab || r.b.main || r.b.strong})
	pad := float32(18)
	if r.b.framed || r.b.main {
		pad = 28
	}
	return fyne.NewSize(m.Width+pad, 26)
}

func (r *buttonRenderer) Layout(s fyne.Size) {
	b := r.b
	b.box.Resize(s)
	b.t.Text = b.text
	if s.Width > 0 {
		b.t.Text = fitText(b.text, s.Width-10, b.t.TextSize, b.t.TextStyle)
	}
	m := fyne.MeasureText(b.text, b.t.TextSize, b.t.TextStyle)
	x := float32(0)
	b.t.Alignment = fyne.TextAlignCenter
	if b.left {
		x, b.t.Alignment = 7, fyne.TextAlignLeading
	}
	b.t.Move(fyne.NewPos(x, (s.Height-m.Height)/2))
	b.t.Resize(fyne.NewSize(s.Width-x, m.Height))
	b.mark.Move(fyne.NewPos(7, s.Height-2))
	b.mark.Resize(fyne.NewSize(s.Width-14, 2))
}

func (r *buttonRenderer) Refresh() {
	b, d := r.b, r.b.kit.dress
	b.t.Text, b.t.TextSize = b.text, 13
	b.t.TextStyle.Bold = b.main || b.strong || b.tab && b.chosen
	b.t.Color = d.ink
	b.box.FillColor, b.box.StrokeColor, b.box.StrokeWidth = color.Transparent, color.Transparent, 0
	b.mark.FillColor = color.Transparent
	if b.framed {
		b.box.FillColor, b.box.StrokeColor, b.box.StrokeWidth = d.raised, d.line, 1
	}
	if b.main {
		b.box.FillColor, b.t.Color = d.selected, d.onSelected
	}
	if b.tab && !b.chosen {
		b.t.Color = d.soft
	}
	if b.chosen {
		b.mark.FillColor = d.selected
		if !b.tab {
			b.t.Color = d.selected
		}
	}
	switch {
	case b.off:
		b.t.Color = d.faint
	case b.down && b.over:
		b.box.FillColor = over(b.box.FillColor, alpha(d.ink, 40), d.panel)
	case b.over:
		b.box.FillColor = over(b.box.FillColor, alpha(d.ink, 20), d.panel)
	}
	if b.focused && !b.off {
		b.box.StrokeColor, b.box.StrokeWidth = d.selected, 1.5
	}
	r.Layout(b.Size())
	b.box.Refresh()
	b.mark.Refresh()
	b.t.Refresh()
}

// over lays a see-through colour over another; over nothing it lies on ground.
func over(base color.Color, c, ground color.NRGBA) color.NRGBA {
	b, ok := base.(color.NRGBA)
	if !ok || b.A == 0 {
		b = ground
	}
	mix := func(x, y uint8) uint8 {
		return uint8((int(x)*(255-int(c.A)) + int(y)*int(c.A)) / 255)
	}
	return color.NRGBA{mix(b.R, c.R), mix(b.G, c.G), mix(b.B, c.B), 255}
}
