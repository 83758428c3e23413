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
	left, right            *fyne.Container
	line                   fyne.CanvasObject
	// spare are left out where there is no room for the design's name, the first one first:
	// the menu has them all.
	spare []*kit.Button
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
	weight := k.Button("Weight", "Reach a weight: ways to bring the band to so many grams, side by side. Ctrl+G", w.guard(w.compare.ForWeight))
	variants := k.Button("Variants", "Other designs of the piece in the same file, side by side. Ctrl+B", w.guard(w.compare.ShowVariants))
	b.left = kit.Along(2,
		k.Button("New", "A design from the start. Ctrl+N", w.files.New),
		k.Button("Open", "Open a design. Ctrl+O", w.files.Open),
		b.save, k.Gap(14), b.undo, b.redo, k.Gap(14), b.fold, k.Gap(14), weight, variants)
	b.stress = k.Button("Stress", "Show where the metal works and where it idles, over the blank and the bent band. Y", w.toggleStress)
	b.stress.Tab = true // a line under it says that it is on
	nearer := k.Button("Nearer", "Or turn the wheel over the blank. +", func() { w.blank.ZoomStep(1.25) })
	farther := k.Button("Farther", "-", func() { w.blank.ZoomStep(0.8) })
	b.spare = []*kit.Button{farther, nearer, variants, weight}
	b.right = kit.Along(2,
		b.stress, k.Gap(10), nearer, farther,
		k.Button("Fit", "The whole blank in sight. F", w.blank.Fit),
		k.Button("True size", "1 mm on the screen is 1 mm, as far as the screen tells its size truly. Set it under View. 1", w.blank.TrueSize),
		k.Gap(10),
		k.Button("Hand over", "Make the files for the bench, the laser shop, the client or the caster. Ctrl+E", w.handOver.Ask).Framed())
	b.line = k.Filled(kit.LineOf)
	b.root = container.New(b, b.left, b.name, b.right, b.line)
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

// MinSize implements fyne.Layout.
func (b *bar) MinSize([]fyne.CanvasObject) fyne.Size { return fyne.NewSize(700, barHeight) }

// Layout implements fyne.Layout.
func (b *bar) Layout(_ []fyne.CanvasObject, s fyne.Size) {
	const (
		edges    = 52  // beside and between the three
		leastFor = 150 // the name, or what it needs if that is less
	)
	name := b.name.MinSize()
	sides := func() float32 { return b.left.MinSize().Width + b.right.MinSize().Width + edges }
	for _, x := range b.spare {
		x.Show()
	}
	for _, x := range b.spare {
		if sides()+min(name.Width, leastFor) <= s.Width {
			break
		}
		x.Hide()
	}
	l, r := b.left.MinSize().Width, b.right.MinSize().Width
	b.left.Move(fyne.NewPos(6, 5))
	b.left.Resize(fyne.NewSize(l, 26))
	b.right.Move(fyne.NewPos(s.Width-r-10, 5))
	b.right.Resize(fyne.NewSize(r, 26))
	// In the middle of the window if there is room, else between the two.
	w := max(0, min(name.Width, s.Width-sides()))
	x := max(l+22, min((s.Width-w)/2, s.Width-r-26-w))
	b.name.Move(fyne.NewPos(x, (barHeight-name.Height)/2))
	b.name.Resize(fyne.NewSize(w, name.Height))
	b.line.Move(fyne.NewPos(0, s.Height-1))
	b.line.Resize(fyne.NewSize(s.Width, 1))
}
