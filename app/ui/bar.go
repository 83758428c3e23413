package ui

import (
	"fretband/app"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
)

// bar is the line of buttons over the drawing, with the design's name in it.
type bar struct {
	root                   *fyne.Container
	undo, redo, fold, save *button
	name                   *button
}

func foldText(folded bool) string {
	if folded {
		return "Show controls"
	}
	return "Hide controls"
}

func newBar(w *Window) *bar {
	k := w.kit
	b := &bar{}
	b.undo = k.button("Undo", "Take back the last change. Ctrl+Z", w.undo)
	b.redo = k.button("Redo", "Do it again. Ctrl+Shift+Z", w.redo)
	b.save = k.button("Save", "Save the design. Ctrl+S", w.save)
	b.fold = k.button(foldText(w.settings.Folded), "Fold the controls away for a larger picture, or bring them back. F9", w.fold)
	b.name = k.button("", "The design's name. Click to change it, or its note.", w.guard(w.editName))
	b.name.strong = true
	left := container.New(fromLeft{2},
		k.button("New", "A design from the start. Ctrl+N", w.newDesign),
		k.button("Open", "Open a design. Ctrl+O", w.openDesign),
		b.save, k.gap(14), b.undo, b.redo, k.gap(14), b.fold, k.gap(14),
		k.button("Weight", "Reach a weight: ways to bring the band to so many grams, side by side. Ctrl+G", w.guard(w.reachWeight)),
		k.button("Variants", "Other designs of the piece in the same file, side by side. Ctrl+B", w.guard(w.showVariants)))
	right := container.New(fromRight{2},
		k.button("Nearer", "Or turn the wheel over the blank. +", func() { w.zoomStep(1.25) }),
		k.button("Farther", "-", func() { w.zoomStep(0.8) }),
		k.button("Fit", "The whole blank in sight. F", w.fit),
		k.button("True size", "1 mm on the screen is 1 mm, as far as the screen tells its size truly. Set it under View. 1", w.trueSize),
		k.gap(10),
		k.button("Hand over", "Make the files for the bench, the laser shop, the client or the caster. Ctrl+E", w.handOver).framedOne())
	line := k.filled(lineOf)
	b.root = container.New(barLayout{}, left, b.name, right, line)
	return b
}

func (b *bar) show(d *app.Document) {
	b.undo.setOff(!d.CanUndo())
	b.redo.setOff(!d.CanRedo())
	b.save.setOff(!d.Dirty() && d.Path != "")
	t := d.Title()
	if d.Dirty() {
		t += "  (changed)"
	}
	if b.name.text != t {
		b.name.setText(t)
		b.root.Refresh() // it is as wide as its text
	}
}

// gap is an empty space of that width.
func (k *kit) gap(w float32) fyne.CanvasObject {
	r := canvas.NewRectangle(nil)
	r.FillColor = alpha(k.dress.panel, 0)
	r.SetMinSize(fyne.NewSize(w, 1))
	return r
}

type barLayout struct{}

func (barLayout) MinSize([]fyne.CanvasObject) fyne.Size { return fyne.NewSize(700, barHeight) }

func (barLayout) Layout(o []fyne.CanvasObject, s fyne.Size) {
	l, r := o[0].MinSize(), o[2].MinSize()
	o[0].Move(fyne.NewPos(6, 5))
	o[0].Resize(fyne.NewSize(l.Width, 26))
	o[2].Move(fyne.NewPos(s.Width-r.Width-10, 5))
	o[2].Resize(fyne.NewSize(r.Width, 26))
	// In the middle of the window if there is room, else between the two.
	h := o[1].MinSize().Height
	w := min(o[1].MinSize().Width, s.Width-l.Width-r.Width-48)
	x := (s.Width - w) / 2
	x = max(l.Width+20, min(x, s.Width-r.Width-24-w))
	o[1].Move(fyne.NewPos(x, (barHeight-h)/2))
	o[1].Resize(fyne.NewSize(max(0, w), h))
	o[3].Move(fyne.NewPos(0, s.Height-1))
	o[3].Resize(fyne.NewSize(s.Width, 1))
}

// fromLeft lays its objects in a row from the left.
type fromLeft struct{ gap float32 }

// MinSize implements fyne.Layout.
func (l fromLeft) MinSize(objs []fyne.CanvasObject) fyne.Size { return fromRight(l).MinSize(objs) }

// Layout implements fyne.Layout.
func (l fromLeft) Layout(objs []fyne.CanvasObject, size fyne.Size) {
	x := float32(0)
	for _, o := range objs {
		m := o.MinSize()
		o.Resize(fyne.NewSize(m.Width, size.Height))
		o.Move(fyne.NewPos(x, 0))
		x += m.Width + l.gap
	}
}
