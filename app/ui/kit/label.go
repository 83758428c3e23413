package kit

import (
	"image/color"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/widget"
)

// Voice is how a piece of text speaks: its size, weight and ink.
type Voice int

const (
	Plain   Voice = iota
	Soft          // captions and units
	Head          // small bold heads
	Strong        // figures that matter
	Big           // the few that are read across a table
	Warn          // an error in words
	Chosen        // what is selected
	Title         // a dialog's title
	Caption       // the smallest
)

func (v Voice) style(d *Dress) (size float32, bold bool, ink color.NRGBA) {
	switch v {
	case Soft:
		return 12, false, d.Soft
	case Caption:
		return 11, false, d.Soft
	case Head:
		return 11, true, d.Soft
	case Strong:
		return 13, true, d.Ink
	case Big:
		return 24, true, d.Ink
	case Title:
		return 15, true, d.Ink
	case Warn:
		return 12, false, d.Breach
	case Chosen:
		return 13, true, d.Selected
	}
	return 13, false, d.Ink
}

// Label is one line of text that keeps to the width it is given: what does not
// fit ends in an ellipsis. With a tip it teaches its word to a pointer that
// rests on it.
// The toolkit's has no tip, and keeps room round its text that our rows do not have.
type Label struct {
	widget.BaseWidget

	Text  string
	voice Voice
	align fyne.TextAlign
	Tip   string
	kit   *Kit

	t *canvas.Text
}

var _ desktop.Hoverable = (*Label)(nil)

func (k *Kit) Label(text string, v Voice) *Label {
	l := &Label{Text: text, voice: v, kit: k, t: canvas.NewText("", color.Black)}
	l.ExtendBaseWidget(l)
	return l
}

func (l *Label) Right() *Label                  { l.align = fyne.TextAlignTrailing; return l }
func (l *Label) Teach(tip string) *Label        { l.Tip = tip; return l }
func (l *Label) SetVoice(v Voice)               { l.Set(l.Text, v) }
func (l *Label) SetText(t string)               { l.Set(t, l.voice) }
func (l *Label) MouseMoved(*desktop.MouseEvent) {}

func (l *Label) Set(text string, v Voice) {
	if text == l.Text && v == l.voice {
		return
	}
	l.Text, l.voice = text, v
	l.Refresh()
}

// MouseIn implements desktop.Hoverable.
func (l *Label) MouseIn(*desktop.MouseEvent) {
	tip := l.Tip
	if tip == "" && l.t.Text != l.Text {
		tip = l.Text // cut off: show it whole
	}
	if tip != "" {
		l.kit.Tips.Rest(l, tip)
	}
}

// MouseOut implements desktop.Hoverable.
func (l *Label) MouseOut() { l.kit.Tips.Leave(l) }

// CreateRenderer implements fyne.Widget.
func (l *Label) CreateRenderer() fyne.WidgetRenderer {
	r := &labelRenderer{l}
	r.dress()
	return r
}

type labelRenderer struct{ l *Label }

func (r *labelRenderer) dress() {
	size, bold, ink := r.l.voice.style(r.l.kit.Dress)
	r.l.t.TextSize, r.l.t.TextStyle.Bold, r.l.t.Color = size, bold, ink
	r.l.t.Alignment = r.l.align
}

func (r *labelRenderer) Destroy()                     {}
func (r *labelRenderer) Objects() []fyne.CanvasObject { return []fyne.CanvasObject{r.l.t} }

func (r *labelRenderer) MinSize() fyne.Size {
	size, bold, _ := r.l.voice.style(r.l.kit.Dress)
	m := fyne.MeasureText(r.l.Text, size, fyne.TextStyle{Bold: bold})
	m.Width += 1
	return m
}

func (r *labelRenderer) Layout(s fyne.Size) {
	t := r.l.t
	t.Text = fitText(r.l.Text, s.Width, t.TextSize, t.TextStyle)
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
