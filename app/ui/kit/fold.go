package kit

import (
	"image/color"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
)

// Fold is a group of controls under a head that opens and closes it. While it is
// closed its head still says in words what it holds, for which the toolkit's accordion has
// no room.
type Fold struct {
	Box  *fyne.Container
	Body *fyne.Container
	Head *foldHead
}

// NewFold makes a group that is closed. toggled is called after it was opened or
// closed by hand.
func NewFold(k *Kit, title, tip string, toggled func()) *Fold {
	f := &Fold{Body: Down(1)}
	f.Head = newFoldHead(k, title, tip, func() {
		f.Open(!f.Head.Open)
		if toggled != nil {
			toggled()
		}
	})
	f.Body.Hide()
	f.Box = Down(1, f.Head, f.Body)
	return f
}

func (f *Fold) Open(on bool) {
	f.Head.Open = on
	Show(f.Body, on)
	f.Head.Refresh()
	f.Box.Refresh()
}

// Tell says what the group holds, in words.
func (f *Fold) Tell(text string) {
	if f.Head.summary.Text != text {
		f.Head.summary.SetText(text)
	}
}

// foldHead is the line that opens a fold: an arrow, a name, what is inside.
type foldHead struct {
	Press
	Open bool

	back    *canvas.Rectangle
	Rule    *canvas.Rectangle
	arrow   [2]*canvas.Line
	name    *canvas.Text
	summary *Label
}

func newFoldHead(k *Kit, title, tip string, tap func()) *foldHead {
	h := &foldHead{back: canvas.NewRectangle(color.Transparent), Rule: canvas.NewRectangle(k.Dress.Line),
		name: canvas.NewText(title, color.Black), summary: k.Label("", Caption).Right()}
	h.back.CornerRadius = 3
	for i := range h.arrow {
		h.arrow[i] = canvas.NewLine(color.Black)
		h.arrow[i].StrokeWidth = 1.5
	}
	h.Begin(k, h, tip, tap)
	return h
}

// TypedKey implements fyne.Focusable.
func (h *foldHead) TypedKey(e *fyne.KeyEvent) {
	switch e.Name {
	case fyne.KeyRight, fyne.KeyLeft:
		if (e.Name == fyne.KeyRight) != h.Open {
			h.tap()
		}
	default:
		h.Press.TypedKey(e)
	}
}

// CreateRenderer implements fyne.Widget.
func (h *foldHead) CreateRenderer() fyne.WidgetRenderer { return Render(h) }

// Parts implements Built.
func (h *foldHead) Parts() []fyne.CanvasObject {
	return []fyne.CanvasObject{h.back, h.Rule, h.arrow[0], h.arrow[1], h.name, h.summary}
}

// Least implements Built.
func (h *foldHead) Least() fyne.Size { return fyne.NewSize(120, 28) }

// Lay implements Built.
func (h *foldHead) Lay(s fyne.Size) {
	h.back.Move(fyne.NewPos(-4, 2))
	h.back.Resize(fyne.NewSize(s.Width+8, s.Height-3))
	h.Rule.Resize(fyne.NewSize(s.Width, 1))
	mid := s.Height/2 + 1
	// A chevron: to the right while closed, down while open.
	a, b, c := fyne.NewPos(2, mid-4), fyne.NewPos(6, mid), fyne.NewPos(2, mid+4)
	if h.Open {
		a, b, c = fyne.NewPos(0, mid-2), fyne.NewPos(4, mid+2), fyne.NewPos(8, mid-2)
	}
	h.arrow[0].Position1, h.arrow[0].Position2 = a, b
	h.arrow[1].Position1, h.arrow[1].Position2 = b, c
	m := fyne.MeasureText(h.name.Text, h.name.TextSize, h.name.TextStyle)
	h.name.Move(fyne.NewPos(16, (s.Height-m.Height)/2+1))
	h.name.Resize(m)
	ms := h.summary.MinSize().Height
	x := 16 + m.Width + 10
	h.summary.Move(fyne.NewPos(x, (s.Height-ms)/2+1))
	h.summary.Resize(fyne.NewSize(max(0, s.Width-x), ms))
}

// Paint implements Built.
func (h *foldHead) Paint() {
	d := h.kit.Dress
	h.name.TextSize, h.name.TextStyle.Bold, h.name.Color = 13, h.Open, d.Ink
	h.Rule.FillColor = d.Line
	h.back.FillColor, h.back.StrokeColor, h.back.StrokeWidth = color.Transparent, color.Transparent, 0
	if h.Over {
		h.back.FillColor = Over(nil, Alpha(d.Ink, 16), d.Panel)
	}
	if h.Focused {
		h.back.StrokeColor, h.back.StrokeWidth = d.Selected, 1.5
	}
	for _, l := range h.arrow {
		l.StrokeColor = d.Soft
	}
}
