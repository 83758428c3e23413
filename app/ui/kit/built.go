package kit

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/widget"
)

// Built is a widget that is put together of simpler objects.
type Built interface {
	fyne.Widget
	Parts() []fyne.CanvasObject
	Least() fyne.Size // the size that it asks for
	Paint()           // gives its parts what they show now
	Lay(fyne.Size)    // and their positions
}

// Render returns the renderer of a widget that is built.
func Render(b Built) fyne.WidgetRenderer {
	r := renderer{b}
	r.Refresh()
	return r
}

type renderer struct{ of Built }

func (r renderer) Destroy()                     {}
func (r renderer) Objects() []fyne.CanvasObject { return r.of.Parts() }
func (r renderer) MinSize() fyne.Size           { return r.of.Least() }
func (r renderer) Layout(s fyne.Size)           { r.of.Lay(s) }

func (r renderer) Refresh() {
	r.of.Paint()
	r.of.Lay(r.of.Size())
	for _, o := range r.of.Parts() {
		o.Refresh()
	}
}

// Press is what all widgets share that can be pressed: they follow the pointer and the
// focus, have a tip, and are pressed by keys as well.
type Press struct {
	widget.BaseWidget
	Tip           string
	Off           bool
	Over, Focused bool

	kit *Kit
	own fyne.Widget
	tap func()
}

var (
	_ fyne.Tappable     = (*Press)(nil)
	_ fyne.Focusable    = (*Press)(nil)
	_ desktop.Hoverable = (*Press)(nil)
)

// Begin makes own, whose part this is, a widget that calls tap when it is pressed.
func (p *Press) Begin(k *Kit, own fyne.Widget, tip string, tap func()) {
	p.kit, p.own, p.Tip, p.tap = k, own, tip, tap
	p.ExtendBaseWidget(own)
}

// Tapped implements fyne.Tappable.
func (p *Press) Tapped(*fyne.PointEvent) {
	p.kit.Tips.Leave(p.own)
	if !p.Off && p.tap != nil {
		p.tap()
	}
}

// MouseIn implements desktop.Hoverable.
func (p *Press) MouseIn(*desktop.MouseEvent) {
	p.Over = true
	if p.Tip != "" {
		p.kit.Tips.Rest(p.own, p.Tip)
	}
	p.Refresh()
}

// MouseMoved implements desktop.Hoverable.
func (p *Press) MouseMoved(*desktop.MouseEvent) {}

// MouseOut implements desktop.Hoverable.
func (p *Press) MouseOut() { p.Over = false; p.kit.Tips.Leave(p.own); p.Refresh() }

// FocusGained implements fyne.Focusable.
func (p *Press) FocusGained() { p.Focused = true; p.Refresh() }

// FocusLost implements fyne.Focusable.
func (p *Press) FocusLost() { p.Focused = false; p.Refresh() }

// TypedRune implements fyne.Focusable.
func (p *Press) TypedRune(rune) {}

// TypedKey implements fyne.Focusable.
func (p *Press) TypedKey(e *fyne.KeyEvent) {
	switch e.Name {
	case fyne.KeySpace, fyne.KeyReturn, fyne.KeyEnter:
		p.Tapped(nil)
	case fyne.KeyEscape:
		p.kit.Escape()
	}
}

// Dress returns the dress that it is to be painted in.
func (p *Press) Dress() *Dress { return p.kit.Dress }
