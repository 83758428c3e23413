package kit

import (
	"image/color"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/widget"
)

// Passage is text of several lines, wrapped to a width that is known before it
// is laid out: so its height is too, and what holds it need not guess.
// A label of the toolkit knows its height only once it has been laid out.
type Passage struct {
	widget.BaseWidget

	Text  string
	Voice Voice
	Width float32
	tip   string
	kit   *Kit
	lines []*canvas.Text
}

var _ desktop.Hoverable = (*Passage)(nil)

func (k *Kit) Passage(text string, v Voice, width float32) *Passage {
	p := &Passage{Text: text, Voice: v, Width: width, kit: k}
	p.ExtendBaseWidget(p)
	p.Paint()
	return p
}

func (p *Passage) Set(text string, v Voice, width float32) {
	if p.Text == text && p.Voice == v && p.Width == width {
		return
	}
	p.Text, p.Voice, p.Width = text, v, width
	p.Paint()
	p.Refresh()
}

// Teach gives it a tip.
func (p *Passage) Teach(tip string) *Passage { p.tip = tip; return p }

// MouseIn implements desktop.Hoverable.
func (p *Passage) MouseIn(*desktop.MouseEvent) {
	if p.tip != "" {
		p.kit.Tips.Rest(p, p.tip)
	}
}

// MouseMoved implements desktop.Hoverable.
func (p *Passage) MouseMoved(*desktop.MouseEvent) {}

// MouseOut implements desktop.Hoverable.
func (p *Passage) MouseOut() { p.kit.Tips.Leave(p) }

// Paint implements Built: it wraps the text.
func (p *Passage) Paint() {
	size, bold, ink := p.Voice.style(p.kit.Dress)
	style := fyne.TextStyle{Bold: bold}
	var broken []string
	if p.Text != "" {
		broken = wrapText(p.Text, p.Width, size, style)
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

// Height returns how high the text is.
func (p *Passage) Height() float32 {
	var h float32
	for _, l := range p.lines {
		h += l.MinSize().Height
	}
	return h
}

// CreateRenderer implements fyne.Widget.
func (p *Passage) CreateRenderer() fyne.WidgetRenderer { return Render(p) }

// Parts implements Built.
func (p *Passage) Parts() []fyne.CanvasObject {
	os := make([]fyne.CanvasObject, len(p.lines))
	for i, l := range p.lines {
		os[i] = l
	}
	return os
}

// Least implements Built.
func (p *Passage) Least() fyne.Size { return fyne.NewSize(p.Width, p.Height()) }

// Lay implements Built.
func (p *Passage) Lay(fyne.Size) {
	var y float32
	for _, l := range p.lines {
		m := l.MinSize()
		l.Move(fyne.NewPos(0, y))
		l.Resize(m)
		y += m.Height
	}
}

// wrapText breaks text into lines of at most width, at spaces and line breaks.
func wrapText(text string, width, size float32, style fyne.TextStyle) []string {
	var lines []string
	for _, para := range strings.Split(text, "\n") {
		line := ""
		for _, word := range strings.Fields(para) {
			longer := word
			if line != "" {
				longer = line + " " + word
			}
			if line != "" && fyne.MeasureText(longer, size, style).Width > width {
				lines = append(lines, line)
				longer = word
			}
			line = longer
		}
		lines = append(lines, line)
	}
	return lines
}
