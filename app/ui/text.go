package ui

import (
	"image/color"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/widget"
)

func splitLines(s string) []string { return strings.Split(s, "\n") }
func splitWords(s string) []string { return strings.Fields(s) }

// passage is text of several lines, wrapped to a width that is known before it
// is laid out: so its height is too, and what holds it need not guess.
type passage struct {
	widget.BaseWidget

	text  string
	voice voice
	width float32
	kit   *kit
	lines []*canvas.Text
}

func (k *kit) passage(text string, v voice, width float32) *passage {
	p := &passage{text: text, voice: v, width: width, kit: k}
	p.ExtendBaseWidget(p)
	p.wrap()
	return p
}

func (p *passage) set(text string, v voice, width float32) {
	if p.text == text && p.voice == v && p.width == width {
		return
	}
	p.text, p.voice, p.width = text, v, width
	p.wrap()
	p.Refresh()
}

func (p *passage) wrap() {
	size, bold, ink := p.voice.style(p.kit.dress)
	style := fyne.TextStyle{Bold: bold}
	var broken []string
	if p.text != "" {
		broken = wrapText(p.text, p.width, size, style)
	}
	for len(p.lines) < len(broken) {
		p.lines = append(p.lines, canvas.NewText("", color.Black))
	}
	p.lines = p.lines[:len(broken)]
	for i, t := range broken {
		l := p.lines[i]
		l.Text, l.TextSize, l.TextStyle, l.Color = t, size, style, ink
	}
}

// height returns how high the text stands.
func (p *passage) height() float32 {
	var h float32
	for _, l := range p.lines {
		h += l.MinSize().Height
	}
	return h
}

// CreateRenderer implements fyne.Widget.
func (p *passage) CreateRenderer() fyne.WidgetRenderer { return &passageRenderer{p} }

type passageRenderer struct{ p *passage }

func (r *passageRenderer) Destroy()           {}
func (r *passageRenderer) MinSize() fyne.Size { return fyne.NewSize(r.p.width, r.p.height()) }
func (r *passageRenderer) Objects() []fyne.CanvasObject {
	os := make([]fyne.CanvasObject, len(r.p.lines))
	for i, l := range r.p.lines {
		os[i] = l
	}
	return os
}

func (r *passageRenderer) Layout(fyne.Size) {
	var y float32
	for _, l := range r.p.lines {
		m := l.MinSize()
		l.Move(fyne.NewPos(0, y))
		l.Resize(m)
		y += m.Height
	}
}

func (r *passageRenderer) Refresh() {
	r.p.wrap()
	r.Layout(r.p.Size())
	for _, l := range r.p.lines {
		l.Refresh()
	}
}
