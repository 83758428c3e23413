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
	s := [...]struct {
		size float32
		bold bool
		ink  color.NRGBA
	}{
		Plain: {13, false, d.Ink}, Soft: {12, false, d.Soft}, Caption: {11, false, d.Soft}, Head: {11, true, d.Soft},
		Strong: {13, true, d.Ink}, Big: {24, true, d.Ink}, Title: {15, true, d.Ink}, Warn: {12, false, d.Breach}, Chosen: {13, true, d.Selected},
	}[v]
	return s.size, s.bold, s.ink
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
func (l *Label) CreateRenderer() fyne.WidgetRenderer { return Render(l) }

// Parts implements Built.
func (l *Label) Parts() []fyne.CanvasObject { return []fyne.CanvasObject{l.t} }

// Least implements Built.
func (l *Label) Least() fyne.Size {
	size, bold, _ := l.voice.style(l.kit.Dress)
	return fyne.MeasureText(l.Text, size, fyne.TextStyle{Bold: bold}).AddWidthHeight(1, 0)
}

// Lay implements Built.
func (l *Label) Lay(s fyne.Size) {
	l.t.Text = FitText(l.Text, s.Width, l.t.TextSize, l.t.TextStyle)
	l.t.Resize(s)
}

// Paint implements Built.
func (l *Label) Paint() {
	l.t.TextSize, l.t.TextStyle.Bold, l.t.Color = l.voice.style(l.kit.Dress)
	l.t.Alignment = l.align
}

// FitText shortens text to the width, ending in an ellipsis.
func FitText(text string, width, size float32, style fyne.TextStyle) string {
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
