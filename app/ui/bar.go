package ui

import (
	"fretband/app"
	"fretband/app/ui/kit"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
)

// bar is the line of buttons over the drawing, with the design's name in it.
type bar struct {
	root                   *fyne.Container
	undo, redo, fold, save *kit.Button
	stress                 *kit.Button
	name                   *kit.Button
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
	b.undo = k.Button("Undo", "Take back the last change. Ctrl+Z", w.undo)
	b.redo = k.Button("Redo", "Do it again. Ctrl+Shift+Z", w.redo)
	b.save = k.Button("Save", "Save the design. Ctrl+S", w.files.Save)
	b.fold = k.Button(foldText(w.settings.Folded), "Fold the controls away for a larger picture, or bring them back. F9", w.fold)
	b.name = k.Button("", "The design's name. Click to change it, or its note.", w.guard(w.help.AskName))
	b.name.Strong = true
	left := kit.Along(2,
		k.Button("New", "A design from the start. Ctrl+N", w.files.New),
		k.Button("Open", "Open a design. Ctrl+O", w.files.Open),
		b.save, k.Gap(14), b.undo, b.redo, k.Gap(14), b.fold, k.Gap(14),
		k.Button("Weight", "Reach a weight: ways to bring the band to so many grams, side by side. Ctrl+G", w.guard(w.compare.ForWeight)),
		k.Button("Variants", "Other designs of the piece in the same file, side by side. Ctrl+B", w.guard(w.compare.ShowVariants)))
	b.stress = k.Button("Stress", "Show where the metal works and where it idles, over the blank and the bent band. Y", w.toggleStress)
	b.stress.Tab = true // a line under it says that it is on
	right := kit.Along(2,
		b.stress, k.Gap(10),
		k.Button("Nearer", "Or turn the wheel over the blank. +", func() { w.blank.ZoomStep(1.25) }),
		k.Button("Farther", "-", func() { w.blank.ZoomStep(0.8) }),
		k.Button("Fit", "The whole blank in sight. F", w.blank.Fit),
		k.Button("True size", "1 mm on the screen is 1 mm, as far as the screen tells its size truly. Set it under View. 1", w.blank.TrueSize),
		k.Gap(10),
		k.Button("Hand over", "Make the files for the bench, the laser shop, the client or the caster. Ctrl+E", w.handOver.Ask).Framed())
	line := k.Filled(kit.LineOf)
	b.root = container.New(barLayout{}, left, b.name, right, line)
	return b
}

func (b *bar) show(d *app.Document) {
	b.undo.SetOff(!d.CanUndo())
	b.redo.SetOff(!d.CanRedo())
	b.save.SetOff(!d.Dirty() && d.Path != "")
	t := d.Title()
	if d.Dirty() {
		t += "  (changed)"
	}
	if b.name.Text != t {
		b.name.SetText(t)
		b.root.Refresh() // it is as wide as its text
	}
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
	w := min(o[1].MinSize().Width, s.Width-l.Width-r.Width-52)
	x := (s.Width - w) / 2
	x = max(l.Width+22, min(x, s.Width-r.Width-26-w))
	o[1].Move(fyne.NewPos(x, (barHeight-h)/2))
	o[1].Resize(fyne.NewSize(max(0, w), h))
	o[3].Move(fyne.NewPos(0, s.Height-1))
	o[3].Resize(fyne.NewSize(s.Width, 1))
}
