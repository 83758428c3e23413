package ui

import (
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
)

// tips shows a short text beside what the pointer rests on. It draws into a
// layer of its own over the window's content, which takes no events.
type tips struct {
	kit   *kit
	layer *fyne.Container
	box   *canvas.Rectangle
	over  fyne.CanvasObject
	wait  *time.Timer
	// later runs f on the toolkit's goroutine after d; tests run it at once.
	later func(d time.Duration, f func()) *time.Timer
}

const (
	tipDelay = 550 * time.Millisecond
	tipWidth = 300
	tipText  = 12
)

func newTips() *tips {
	t := &tips{layer: container.NewWithoutLayout(), box: canvas.NewRectangle(nil)}
	t.box.CornerRadius = 4
	t.box.StrokeWidth = 1
	t.later = func(d time.Duration, f func()) *time.Timer {
		return time.AfterFunc(d, func() { fyne.Do(f) })
	}
	return t
}

// rest says that the pointer has come over o, whose tip is text.
func (t *tips) rest(o fyne.CanvasObject, text string) {
	t.hide()
	t.over = o
	if t.wait != nil {
		t.wait.Stop()
	}
	t.wait = t.later(tipDelay, func() {
		if t.over == o {
			t.show(o, text)
		}
	})
}

// tell shows text beside o at once, until the pointer rests elsewhere.
func (t *tips) tell(o fyne.CanvasObject, text string) {
	t.hide()
	t.over = o
	t.show(o, text)
}

// leave says that the pointer has left o.
func (t *tips) leave(o fyne.CanvasObject) {
	if t.over == o {
		t.over = nil
		t.hide()
	}
}

func (t *tips) hide() {
	if len(t.layer.Objects) == 0 {
		return
	}
	t.layer.Objects = nil
	t.layer.Refresh()
}

func (t *tips) show(o fyne.CanvasObject, text string) {
	d := t.kit.dress
	t.box.FillColor, t.box.StrokeColor = d.ink, d.ink
	objs := []fyne.CanvasObject{t.box}
	const pad = 8
	var w, y float32 = 0, pad - 2
	for _, l := range wrapText(text, tipWidth, tipText, fyne.TextStyle{}) {
		c := canvas.NewText(l, d.panel)
		c.TextSize = tipText
		c.Move(fyne.NewPos(pad, y))
		m := c.MinSize()
		w = max(w, m.Width)
		y += m.Height
		objs = append(objs, c)
	}
	size := fyne.NewSize(w+2*pad, y+pad-2)
	at := fyne.CurrentApp().Driver().AbsolutePositionForObject(o).Subtract(
		fyne.CurrentApp().Driver().AbsolutePositionForObject(t.layer))
	at.Y += o.Size().Height + 4
	room := t.layer.Size()
	at.X = max(4, min(at.X, room.Width-size.Width-4))
	if at.Y+size.Height > room.Height-4 {
		at.Y -= o.Size().Height + 8 + size.Height
	}
	for _, c := range objs[1:] {
		c.Move(c.Position().Add(at))
		c.Resize(c.MinSize())
	}
	t.box.Move(at)
	t.box.Resize(size)
	t.layer.Objects = objs
	t.layer.Refresh()
}

// wrapText breaks text into lines of at most width, at spaces and line breaks.
func wrapText(text string, width, size float32, style fyne.TextStyle) []string {
	var lines []string
	for _, para := range splitLines(text) {
		line := ""
		for _, word := range splitWords(para) {
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
