package kit

import (
	"image/color"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/driver/desktop"
)

// Button is a flat button of words: quiet until the pointer is over it. A chosen
// one (a tab that is open) is underlined as well as coloured. The toolkit's button has no
// tip, no chosen state, and does not shorten its words.
type Button struct {
	Press

	Text   string
	framed bool // has an edge at rest
	main   bool // the one that a dialog expects
	Tab    bool
	Strong bool // bold at rest
	Left   bool // the text is at the left

	chosen, down bool

	box, mark *canvas.Rectangle
	t         *canvas.Text
}

var _ desktop.Mouseable = (*Button)(nil)

func (k *Kit) Button(text, tip string, tap func()) *Button {
	b := &Button{Text: text}
	b.box, b.mark, b.t = canvas.NewRectangle(color.Transparent), canvas.NewRectangle(color.Transparent), canvas.NewText(text, color.Black)
	b.box.CornerRadius = 3
	b.Begin(k, b, tip, tap)
	return b
}

func (b *Button) Framed() *Button { b.framed = true; return b }

func (b *Button) SetOff(off bool) {
	if b.Off != off {
		b.Off = off
		b.Refresh()
	}
}

func (b *Button) Choose(on bool) {
	if b.chosen != on {
		b.chosen = on
		b.Refresh()
	}
}

func (b *Button) SetText(t string) {
	if b.Text != t {
		b.Text = t
		b.Refresh()
	}
}

// MouseDown implements desktop.Mouseable.
func (b *Button) MouseDown(*desktop.MouseEvent) { b.down = true; b.Refresh() }

// MouseUp implements desktop.Mouseable.
func (b *Button) MouseUp(*desktop.MouseEvent) { b.down = false; b.Refresh() }

// MouseOut implements desktop.Hoverable.
func (b *Button) MouseOut() { b.down = false; b.Press.MouseOut() }

// CreateRenderer implements fyne.Widget.
func (b *Button) CreateRenderer() fyne.WidgetRenderer { return Render(b) }

// Parts implements Built.
func (b *Button) Parts() []fyne.CanvasObject { return []fyne.CanvasObject{b.box, b.mark, b.t} }

// Least implements Built.
func (b *Button) Least() fyne.Size {
	m := fyne.MeasureText(b.Text, 13, fyne.TextStyle{Bold: b.Tab || b.main || b.Strong})
	pad := float32(18)
	if b.framed || b.main {
		pad = 28
	}
	return fyne.NewSize(m.Width+pad, 26)
}

// Lay implements Built.
func (b *Button) Lay(s fyne.Size) {
	b.box.Resize(s)
	b.t.Text = b.Text
	if s.Width > 0 {
		b.t.Text = FitText(b.Text, s.Width-10, b.t.TextSize, b.t.TextStyle)
	}
	m := fyne.MeasureText(b.Text, b.t.TextSize, b.t.TextStyle)
	x := float32(0)
	b.t.Alignment = fyne.TextAlignCenter
	if b.Left {
		x, b.t.Alignment = 7, fyne.TextAlignLeading
	}
	b.t.Move(fyne.NewPos(x, (s.Height-m.Height)/2))
	b.t.Resize(fyne.NewSize(s.Width-x, m.Height))
	b.mark.Move(fyne.NewPos(7, s.Height-2))
	b.mark.Resize(fyne.NewSize(s.Width-14, 2))
}

// Paint implements Built.
func (b *Button) Paint() {
	d := b.kit.Dress
	b.t.TextSize, b.t.TextStyle.Bold, b.t.Color = 13, b.main || b.Strong || b.Tab && b.chosen, d.Ink
	b.box.FillColor, b.box.StrokeColor, b.box.StrokeWidth = color.Transparent, color.Transparent, 0
	b.mark.FillColor = color.Transparent
	if b.framed {
		b.box.FillColor, b.box.StrokeColor, b.box.StrokeWidth = d.raised, d.Line, 1
	}
	if b.main {
		b.box.FillColor, b.t.Color = d.Selected, d.onSelected
	}
	if b.Tab && !b.chosen && !b.Over && !b.down {
		b.t.Color = d.Soft
	}
	if b.chosen {
		b.mark.FillColor = d.Selected
		if !b.Tab {
			b.t.Color = d.Selected
		}
	}
	switch {
	case b.Off:
		b.t.Color = d.Faint
	case b.down && b.Over:
		b.box.FillColor = Over(b.box.FillColor, Alpha(d.Ink, 40), d.Panel)
	case b.Over:
		b.box.FillColor = Over(b.box.FillColor, Alpha(d.Ink, 20), d.Panel)
	}
	if b.Focused {
		b.box.StrokeColor, b.box.StrokeWidth = d.Selected, 1.5
	}
}

// Over lays a see-through colour over another; over nothing it lies on ground.
func Over(base color.Color, c, ground color.NRGBA) color.NRGBA {
	b, ok := base.(color.NRGBA)
	if !ok || b.A == 0 {
		b = ground
	}
	mix := func(x, y uint8) uint8 {
		return uint8((int(x)*(255-int(c.A)) + int(y)*int(c.A)) / 255)
	}
	return color.NRGBA{mix(b.R, c.R), mix(b.G, c.G), mix(b.B, c.B), 255}
}
