package ui

import (
	"image/color"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/widget"
)

// voice is how a piece of text speaks: its size, weight and ink.
type voice int

const (
	plainVoice   voice = iota
	softVoice          // captions and units
	headVoice          // small bold heads
	strongVoice        // figures that matter
	bigVoice           // the few that are read across a table
	warnVoice          // an error in words
	chosenVoice        // what is selected
	titleVoice         // a dialog's title
	captionVoice       // the smallest
)

func (v voice) style(d *dress) (size float32, bold bool, ink color.NRGBA) {
	switch v {
	case softVoice:
		return 12, false, d.soft
	case captionVoice:
		return 11, false, d.soft
	case headVoice:
		return 11, true, d.soft
	case strongVoice:
		return 13, true, d.ink
	case bigVoice:
		return 24, true, d.ink
	case titleVoice:
		return 15, true, d.ink
	case warnVoice:
		return 12, false, d.breach
	case chosenVoice:
		return 13, true, d.selected
	}
	return 13, false, d.ink
}

// label is one line of text that keeps to the width it is given: what does not
// fit ends in an ellipsis. With a tip it teaches its word to a pointer that
// rests on it.
type label struct {
	widget.BaseWidget

	text  string
	voice voice
	align fyne.TextAlign
	tip   string
	kit   *kit

	t *canvas.Text
}

var _ desktop.Hoverable = (*label)(nil)

func (k *kit) label(text string, v voice) *label {
	l := &label{text: text, voice: v, kit: k, t: canvas.NewText("", color.Black)}
	l.ExtendBaseWidget(l)
	return l
}

func (l *label) right() *label                  { l.align = fyne.TextAlignTrailing; return l }
func (l *label) teach(tip string) *label        { l.tip = tip; return l }
func (l *label) setVoice(v voice)               { l.set(l.text, v) }
func (l *label) setText(t string)               { l.set(t, l.voice) }
func (l *label) MouseMoved(*desktop.MouseEvent) {}

func (l *label) set(text string, v voice) {
	if text == l.text && v == l.voice {
		return
	}
	l.text, l.voice = text, v
	l.Refresh()
}

// MouseIn implements desktop.Hoverable.
func (l *label) MouseIn(*desktop.MouseEvent) {
	tip := l.tip
	if tip == "" && l.t.Text != l.text {
		tip = l.text // cut off: show it whole
	}
	if tip != "" {
		l.kit.tips.rest(l, tip)
	}
}

// MouseOut implements desktop.Hoverable.
func (l *label) MouseOut() { l.kit.tips.leave(l) }

// CreateRenderer implements fyne.Widget.
func (l *label) CreateRenderer() fyne.WidgetRenderer {
	r := &labelRenderer{l}
	r.dress()
	return r
}

type labelRenderer struct{ l *label }

func (r *labelRenderer) dress() {
	size, bold, ink := r.l.voice.style(r.l.kit.dress)
	r.l.t.TextSize, r.l.t.TextStyle.Bold, r.l.t.Color = size, bold, ink
	r.l.t.Alignment = r.l.align
}

func (r *labelRenderer) Destroy()                     {}
func (r *labelRenderer) Objects() []fyne.CanvasObject { return []fyne.CanvasObject{r.l.t} }

func (r *labelRenderer) MinSize() fyne.Size {
	size, bold, _ := r.l.voice.style(r.l.kit.dress)
	m := fyne.MeasureText(r.l.text, size, fyne.TextStyle{Bold: bold})
	m.Width += 1
	return m
}

func (r *labelRenderer) Layout(s fyne.Size) {
	t := r.l.t
	t.Text = fitText(r.l.text, s.Width, t.TextSize, t.TextStyle)
	t.Move(fyne.NewPos(0, 0))
	t.Resize(s)
}

func (r *labelRenderer) Refresh() {
	r.dress()
	r.Layout(r.l.Size())
	r.l.t.Refresh()
}

// fitText shortens text to the width, ending in an ellipsis.
func fitText(text string, width, size float32, style fyne.TextStyle) string {
	if fyne.MeasureText(text, size, style).Width <= width+1 {
		return text
	}
	rs := []rune(text)
	lo, hi := 0, len(rs)
	for lo < hi {
		mid := (lo + hi + 1) / 2
		if fyne.MeasureText(string(rs[:mid])+"\u2026", size, style).Width <= width {
			lo = mid
		} else {
			hi = mid - 1
		}
	}
	if lo == 0 {
		return ""
	}
	return string(rs[:lo]) + "\u2026"
}
