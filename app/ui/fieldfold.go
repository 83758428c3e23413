package ui

import (
	"image/color"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/widget"
)

// fold is a group of controls under a head that opens and closes it. While it is
// closed its head still says in words what it holds.
type fold struct {
	box  *fyne.Container
	body *fyne.Container
	head *foldHead
}

// newFold makes a group that is closed. toggled is called after it was opened or
// closed by hand.
func newFold(k *kit, title, tip string, toggled func()) *fold {
	f := &fold{body: container.New(stackDown{1})}
	f.head = newFoldHead(k, title, tip, func() {
		f.open(!f.head.open)
		if toggled != nil {
			toggled()
		}
	})
	f.body.Hide()
	f.box = container.New(stackDown{1}, f.head, f.body)
	return f
}

func (f *fold) open(on bool) {
	f.head.open = on
	if on {
		f.body.Show()
	} else {
		f.body.Hide()
	}
	f.head.Refresh()
	f.box.Refresh()
}

// tell says what the group holds, in words.
func (f *fold) tell(text string) {
	if f.head.summary.text != text {
		f.head.summary.setText(text)
	}
}

// foldHead is the line that opens a fold: an arrow, a name, what is inside.
type foldHead struct {
	widget.BaseWidget
	kit     *kit
	open    bool
	over    bool
	focused bool
	tip     string
	tap     func()

	back    *canvas.Rectangle
	rule    *canvas.Rectangle
	arrow   [2]*canvas.Line
	name    *canvas.Text
	summary *label
}

var (
	_ fyne.Tappable     = (*foldHead)(nil)
	_ fyne.Focusable    = (*foldHead)(nil)
	_ desktop.Hoverable = (*foldHead)(nil)
)

func newFoldHead(k *kit, title, tip string, tap func()) *foldHead {
	h := &foldHead{kit: k, tip: tip, tap: tap, back: canvas.NewRectangle(color.Transparent), rule: canvas.NewRectangle(k.dress.line),
		name: canvas.NewText(title, color.Black), summary: k.label("", captionVoice).right()}
	h.back.CornerRadius = 3
	for i := range h.arrow {
		h.arrow[i] = canvas.NewLine(color.Black)
		h.arrow[i].StrokeWidth = 1.5
	}
	h.ExtendBaseWidget(h)
	return h
}

// Tapped implements fyne.Tappable.
func (h *foldHead) Tapped(*fyne.PointEvent) { h.tap() }

// MouseIn implements desktop.Hoverable.
func (h *foldHead) MouseIn(*desktop.MouseEvent) {
	h.over = true
	if h.tip != "" {
		h.kit.tips.rest(h, h.tip)
	}
	h.Refresh()
}

// MouseMoved implements desktop.Hoverable.
func (h *foldHead) MouseMoved(*desktop.MouseEvent) {}

// MouseOut implements desktop.Hoverable.
func (h *foldHead) MouseOut() { h.over = false; h.kit.tips.leave(h); h.Refresh() }

// FocusGained implements fyne.Focusable.
func (h *foldHead) FocusGained() { h.focused = true; h.Refresh() }

// FocusLost implements fyne.Focusable.
func (h *foldHead) FocusLost() { h.focused = false; h.Refresh() }

// TypedRune implements fyne.Focusable.
func (h *foldHead) TypedRune(rune) {}

// TypedKey implements fyne.Focusable.
func (h *foldHead) TypedKey(e *fyne.KeyEvent) {
	switch e.Name {
	case fyne.KeySpace, fyne.KeyReturn, fyne.KeyEnter:
		h.tap()
	case fyne.KeyRight, fyne.KeyLeft:
		if (e.Name == fyne.KeyRight) != h.open {
			h.tap()
		}
	case fyne.KeyEscape:
		h.kit.escape()
	}
}

// CreateRenderer implements fyne.Widget.
func (h *foldHead) CreateRenderer() fyne.WidgetRenderer {
	r := &foldHeadRenderer{h}
	r.Refresh()
	return r
}

type foldHeadRenderer struct{ h *foldHead }

func (r *foldHeadRenderer) Destroy() {}
func (r *foldHeadRenderer) Objects() []fyne.CanvasObject {
	h := r.h
	return []fyne.CanvasObject{h.back, h.rule, h.arrow[0], h.arrow[1], h.name, h.summary}
}

func (r *foldHeadRenderer) MinSize() fyne.Size { return fyne.NewSize(120, 28) }

func (r *foldHeadRenderer) Layout(s fyne.Size) {
	h := r.h
	h.back.Move(fyne.NewPos(-4, 2))
	h.back.Resize(fyne.NewSize(s.Width+8, s.Height-3))
	h.rule.Resize(fyne.NewSize(s.Width, 1))
	mid := s.Height/2 + 1
	// A chevron: to the right while closed, down while open.
	a, b, c := fyne.NewPos(2, mid-4), fyne.NewPos(6, mid), fyne.NewPos(2, mid+4)
	if h.open {
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

func (r *foldHeadRenderer) Refresh() {
	h, d := r.h, r.h.kit.dress
	h.name.TextSize, h.name.TextStyle.Bold, h.name.Color = 13, h.open, d.ink
	h.rule.FillColor = d.line
	h.back.FillColor, h.back.StrokeColor, h.back.StrokeWidth = color.Transparent, color.Transparent, 0
	if h.over {
		h.back.FillColor = over(nil, alpha(d.ink, 16), d.panel)
	}
	if h.focused {
		h.back.StrokeColor, h.back.StrokeWidth = d.selected, 1.5
	}
	for _, l := range h.arrow {
		l.StrokeColor = d.soft
	}
	r.Layout(h.Size())
	h.back.Refresh()
	h.rule.Refresh()
	h.name.Refresh()
	h.summary.Refresh()
	for _, l := range h.arrow {
		l.Refresh()
	}
}
