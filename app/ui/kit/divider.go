package kit

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/widget"
)

// Divider is the border between two panes. A drag moves it, and so do the arrow keys while
// it has the focus; a double click puts it back. It moves nothing itself: it calls back. The
// toolkit's split has two sides, holds shares only, and can't be moved by keys.
type Divider struct {
	widget.BaseWidget

	kit     *Kit
	upright bool             // it is between panes that are side by side
	OnMove  func(by float32) // to the right or down
	OnEnd   func()
	OnReset func()
	over    bool
	held    bool
	focused bool
	line    *canvas.Rectangle
	grip    *canvas.Rectangle
}

var (
	_ fyne.Draggable      = (*Divider)(nil)
	_ fyne.Focusable      = (*Divider)(nil)
	_ fyne.DoubleTappable = (*Divider)(nil)
	_ desktop.Hoverable   = (*Divider)(nil)
	_ desktop.Cursorable  = (*Divider)(nil)
	_ desktop.Mouseable   = (*Divider)(nil)
)

// DividerSize is how broad a divider is to the pointer; its line is thinner.
const DividerSize = 7

// Divider makes the border between panes side by side, or, if not upright, one over the
// other.
func (k *Kit) Divider(upright bool) *Divider {
	d := &Divider{kit: k, upright: upright, line: &canvas.Rectangle{}, grip: &canvas.Rectangle{CornerRadius: 1.5}}
	d.ExtendBaseWidget(d)
	return d
}

// Dragged implements fyne.Draggable.
func (d *Divider) Dragged(e *fyne.DragEvent) {
	d.held = true
	by := e.Dragged.DY
	if d.upright {
		by = e.Dragged.DX
	}
	d.OnMove(by)
}

// DragEnd implements fyne.Draggable.
func (d *Divider) DragEnd() {
	d.end()
	d.letGo()
}

// letGo gives the keyboard back that the press took: a hand has moved it.
func (d *Divider) letGo() {
	if c := fyne.CurrentApp().Driver().CanvasForObject(d); c != nil && c.Focused() == fyne.Focusable(d) {
		c.Unfocus()
	}
}

func (d *Divider) end() {
	d.held = false
	d.Refresh()
	d.OnEnd()
}

// DoubleTapped implements fyne.DoubleTappable.
func (d *Divider) DoubleTapped(*fyne.PointEvent) { d.OnReset() }

// MouseDown implements desktop.Mouseable.
func (d *Divider) MouseDown(*desktop.MouseEvent) { d.held = true; d.Refresh() }

// MouseUp implements desktop.Mouseable.
func (d *Divider) MouseUp(*desktop.MouseEvent) {
	d.held = false
	d.Refresh()
	d.letGo()
}

// MouseIn implements desktop.Hoverable.
func (d *Divider) MouseIn(*desktop.MouseEvent) { d.over = true; d.Refresh() }

// MouseMoved implements desktop.Hoverable.
func (d *Divider) MouseMoved(*desktop.MouseEvent) {}

// MouseOut implements desktop.Hoverable.
func (d *Divider) MouseOut() { d.over = false; d.Refresh() }

// Cursor implements desktop.Cursorable.
func (d *Divider) Cursor() desktop.Cursor {
	if d.upright {
		return desktop.HResizeCursor
	}
	return desktop.VResizeCursor
}

// FocusGained implements fyne.Focusable.
func (d *Divider) FocusGained() { d.focused = true; d.Refresh() }

// FocusLost implements fyne.Focusable.
func (d *Divider) FocusLost() { d.focused = false; d.Refresh() }

// TypedRune implements fyne.Focusable.
func (d *Divider) TypedRune(rune) {}

// TypedKey implements fyne.Focusable.
func (d *Divider) TypedKey(e *fyne.KeyEvent) {
	const step = 16
	back, on := fyne.KeyUp, fyne.KeyDown
	if d.upright {
		back, on = fyne.KeyLeft, fyne.KeyRight
	}
	switch e.Name {
	case back:
		d.OnMove(-step)
		d.end()
	case on:
		d.OnMove(step)
		d.end()
	case fyne.KeyHome:
		d.OnReset()
	case fyne.KeyEscape:
		d.kit.Escape()
	}
}

// CreateRenderer implements fyne.Widget.
func (d *Divider) CreateRenderer() fyne.WidgetRenderer { return Render(d) }

// Parts implements Built.
func (d *Divider) Parts() []fyne.CanvasObject { return []fyne.CanvasObject{d.line, d.grip} }

// Least implements Built.
func (d *Divider) Least() fyne.Size { return fyne.NewSize(DividerSize, DividerSize) }

// Lay implements Built.
func (d *Divider) Lay(s fyne.Size) {
	const grip = 26
	thick := float32(1)
	if d.focused || d.held {
		thick = 2
	}
	if d.upright {
		d.line.Resize(fyne.NewSize(thick, s.Height))
		d.line.Move(fyne.NewPos((s.Width-1)/2, 0))
		d.grip.Resize(fyne.NewSize(3, grip))
	} else {
		d.line.Resize(fyne.NewSize(s.Width, thick))
		d.line.Move(fyne.NewPos(0, (s.Height-1)/2))
		d.grip.Resize(fyne.NewSize(grip, 3))
	}
	g := d.grip.Size()
	d.grip.Move(fyne.NewPos((s.Width-g.Width)/2, (s.Height-g.Height)/2))
}

// Paint implements Built. The grip shows while the pointer or the focus is there.
func (d *Divider) Paint() {
	w := d.kit.Dress
	d.line.FillColor, d.grip.FillColor = w.Line, Alpha(w.Rule, 0)
	switch {
	case d.focused || d.held:
		d.line.FillColor, d.grip.FillColor = w.Selected, w.Selected
	case d.over:
		d.grip.FillColor = w.Rule
	}
}
