package kit

import (
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
)

// Tips shows a short text beside what the pointer rests on. It draws into a
// layer of its own over the window's content, which takes no events. The
// toolkit has no tips.
type Tips struct {
	kit   *Kit
	Layer *fyne.Container
	on    *fyne.Container // the layer that the tip is drawn in: of the window, or of a dialog
	Box   *canvas.Rectangle
	over  fyne.CanvasObject
	wait  *time.Timer
	// Later runs f on the toolkit's goroutine after d; tests run it at once.
	Later func(d time.Duration, f func()) *time.Timer
}

const (
	tipDelay = 550 * time.Millisecond
	tipWidth = 300
	tipText  = 12
)

func newTips(k *Kit) *Tips {
	t := &Tips{kit: k, Layer: container.NewWithoutLayout(), Box: canvas.NewRectangle(nil)}
	t.on = t.Layer
	t.Box.CornerRadius = 4
	t.Box.StrokeWidth = 1
	t.Later = func(d time.Duration, f func()) *time.Timer {
		return time.AfterFunc(d, func() { fyne.Do(f) })
	}
	return t
}

// Rest says that the pointer has come over o, whose tip is text.
func (t *Tips) Rest(o fyne.CanvasObject, text string) {
	t.Hide()
	t.over = o
	if t.wait != nil {
		t.wait.Stop()
	}
	t.wait = t.Later(tipDelay, func() {
		if t.over == o {
			t.show(o, text)
		}
	})
}

// Tell shows text beside o at once, until the pointer rests elsewhere.
func (t *Tips) Tell(o fyne.CanvasObject, text string) {
	t.Hide()
	t.over = o
	t.show(o, text)
}

// Leave says that the pointer has left o.
func (t *Tips) Leave(o fyne.CanvasObject) {
	if t.over == o {
		t.over = nil
		t.Hide()
	}
}

func (t *Tips) Hide() {
	if len(t.on.Objects) == 0 {
		return
	}
	t.on.Objects = nil
	t.on.Refresh()
}

func (t *Tips) show(o fyne.CanvasObject, text string) {
	at := fyne.CurrentApp().Driver().AbsolutePositionForObject
	t.on = t.Layer
	if ds := t.kit.Dialogs; ds != nil && ds.Top() != nil {
		t.on = ds.Top().tips // the window's lies under the dialog
	}
	t.layOut(at(o).Subtract(at(t.on)), o.Size(), text)
}

// layOut puts the tip under an object at that position and of that size, or above it
// where there is no room below.
func (t *Tips) layOut(at fyne.Position, beside fyne.Size, text string) {
	d := t.kit.Dress
	t.Box.FillColor, t.Box.StrokeColor = d.Ink, d.Ink
	objs := []fyne.CanvasObject{t.Box}
	const pad = 8
	var w, y float32 = 0, pad - 2
	for _, l := range wrapText(text, tipWidth, tipText, fyne.TextStyle{}) {
		c := canvas.NewText(l, d.Panel)
		c.TextSize = tipText
		c.Move(fyne.NewPos(pad, y))
		m := c.MinSize()
		w = max(w, m.Width)
		y += m.Height
		objs = append(objs, c)
	}
	size := fyne.NewSize(w+2*pad, y+pad-2)
	at.Y += beside.Height + 4
	room := t.on.Size()
	at.X = max(4, min(at.X, room.Width-size.Width-4))
	if at.Y+size.Height > room.Height-4 {
		at.Y -= beside.Height + 8 + size.Height
	}
	for _, c := range objs[1:] {
		c.Move(c.Position().Add(at))
		c.Resize(c.MinSize())
	}
	t.Box.Move(at)
	t.Box.Resize(size)
	t.on.Objects = objs
	t.on.Refresh()
}
