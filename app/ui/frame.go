package ui

import (
	"fmt"

	"fretband/app"
	"fretband/app/ui/kit"
	"fretband/app/ui/pages"
	"fretband/pattern/check"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
)

// frame lays the window out: the bar; below it, across the full width, the blank or the bent
// band; the lower row, where the controls, the other of these two, the figures and the
// findings are side by side; the status line. The borders between them can be dragged. Where
// there is no room for figures and findings side by side they take turns.
type frame struct {
	root *fyne.Container

	bar, status              fyne.CanvasObject
	blank, bent              fyne.CanvasObject
	controls, figures, found fyne.CanvasObject
	turns                    *fyne.Container // which of figures and findings is shown
	turn                     [2]*kit.Button
	showFound                bool // the findings, where they and the figures take turns

	level *kit.Divider    // between the upper place and the lower row
	upon  [3]*kit.Divider // right of the controls, left of the figures, left of the findings

	folded *bool // the controls are folded away
	panes  *app.Panes
	kept   func() // the panes have been given other sizes
}

const (
	barHeight    = 36
	statusHeight = 25
	turnsHeight  = 32
)

// Least sizes of the panes, and what they have unless a person has chosen.
const (
	leastUpper   = 150
	leastLower   = 170
	leastMiddle  = 240
	leastFigures = usualFigures
	leastFound   = 264
	mostSide     = 640

	usualUpper   = 0.48 // of the height of both rows
	mostUsual    = 580  // of the upper place
	usualFigures = 300
	usualFound   = 0.48 // of what the controls and figures leave
	mostFound    = 430
)

func newFrame(k *kit.Kit, f frame) *frame {
	f.level = k.Divider(false)
	f.level.OnMove = func(by float32) { f.moveLevel(by) }
	f.level.OnReset = func() { f.panes.Upper = 0; f.changed() }
	for i := range f.upon {
		d := k.Divider(true)
		d.OnMove = func(by float32) { f.moveUpright(i, by) }
		d.OnReset = func() {
			f.panes.Controls, f.panes.Figures, f.panes.Findings = 0, 0, 0
			f.changed()
		}
		d.OnEnd = f.kept
		f.upon[i] = d
	}
	f.level.OnEnd = f.kept
	f.turn = [2]*kit.Button{
		k.Button("Figures", "Weights, widths and lengths of the band", func() { f.show(false) }),
		k.Button("Findings", "What is to be decided", func() { f.show(true) }),
	}
	for _, b := range f.turn {
		b.Tab = true
	}
	f.turns = container.NewStack(kit.Inset(10, 4, 8, 0, kit.Along(0, f.turn[0], f.turn[1])))
	f.root = container.New(&f, f.bar, f.blank, f.bent, f.controls, f.turns, f.figures, f.found, f.status,
		f.level, f.upon[0], f.upon[1], f.upon[2])
	f.show(false)
	return &f
}

// show has the figures or the findings shown where they take turns.
func (f *frame) show(found bool) {
	f.showFound = found
	f.turn[0].Choose(!found)
	f.turn[1].Choose(found)
	f.root.Refresh()
}

// count says how many findings are to be decided, where they may be out of sight.
func (f *frame) count(found []check.Finding) {
	text := "Findings"
	open := 0
	for _, x := range found {
		if x.Accepted == "" {
			open++
		}
	}
	if open > 0 {
		text = fmt.Sprintf("Findings: %d", open)
	}
	if f.turn[1].Text != text {
		f.turn[1].SetText(text)
		f.turns.Refresh()
	}
}

// rooms are the sizes of the panes in a window.
type rooms struct {
	upper, lower                     float32 // heights
	controls, middle, figures, found float32 // widths; the last is 0 where it takes turns with the one before
	upTo                             float32 // how far down the upper place reaches
}

// rooms shares out the window.
func (f *frame) rooms(s fyne.Size) rooms {
	var r rooms
	high := s.Height - barHeight - statusHeight
	r.upper = min(mostUsual, high*usualUpper)
	if f.panes.Upper > 0 {
		r.upper = high * f.panes.Upper
	}
	r.upper = max(leastUpper, min(r.upper, high-leastLower))
	r.lower = high - r.upper
	r.upTo = barHeight + r.upper

	wide := s.Width
	if !*f.folded {
		r.controls = within(or(f.panes.Controls, pages.ControlsWidth), pages.ControlsWidth, min(mostSide, wide-leastMiddle-leastFigures))
		wide -= r.controls
	}
	if wide < leastMiddle+leastFigures+leastFound {
		r.figures = within(or(f.panes.Figures, usualFigures), leastFigures, wide-leastMiddle)
		r.middle = wide - r.figures
		return r
	}
	r.figures = within(or(f.panes.Figures, usualFigures), leastFigures, min(mostSide, wide-leastMiddle-leastFound))
	wide -= r.figures
	r.found = within(or(f.panes.Findings, min(mostFound, wide*usualFound)), leastFound, min(mostSide, wide-leastMiddle))
	r.middle = wide - r.found
	return r
}

func or(chosen, usual float32) float32 {
	if chosen > 0 {
		return chosen
	}
	return usual
}

// within keeps a size in its limits; the least counts if there is no room for it.
func within(v, least, most float32) float32 { return max(least, min(v, most)) }

func (f *frame) moveLevel(by float32) {
	s := f.root.Size()
	high := s.Height - barHeight - statusHeight
	f.panes.Upper = within(f.rooms(s).upper+by, leastUpper, high-leastLower) / high
	f.root.Refresh()
}

func (f *frame) moveUpright(i int, by float32) {
	r, p := f.rooms(f.root.Size()), f.panes
	switch i {
	case 0:
		r.controls = within(r.controls+min(by, r.middle-leastMiddle), pages.ControlsWidth, mostSide)
	case 1:
		r.figures = within(r.figures-max(by, leastMiddle-r.middle), leastFigures, mostSide)
	case 2:
		// What the findings gain the figures lose first, so that the line follows the hand.
		both := r.figures + r.found
		r.found = within(r.found-by, leastFound, min(mostSide, both-leastFigures+r.middle-leastMiddle))
		r.figures = within(both-r.found, leastFigures, mostSide)
	}
	// The others stay as they are.
	if i == 0 || p.Controls > 0 {
		p.Controls = or(r.controls, p.Controls)
	}
	p.Figures, p.Findings = r.figures, or(r.found, p.Findings)
	f.root.Refresh()
}

func (f *frame) changed() {
	f.root.Refresh()
	f.kept()
}

// MinSize implements fyne.Layout.
func (f *frame) MinSize([]fyne.CanvasObject) fyne.Size {
	return fyne.NewSize(pages.ControlsWidth+leastMiddle+leastFigures, barHeight+leastUpper+leastLower+statusHeight)
}

// Layout implements fyne.Layout.
func (f *frame) Layout(_ []fyne.CanvasObject, s fyne.Size) {
	r := f.rooms(s)
	put := func(o fyne.CanvasObject, x, y, w, h float32) {
		o.Move(fyne.NewPos(x, y))
		o.Resize(fyne.NewSize(max(0, w), max(0, h)))
	}
	put(f.bar, 0, 0, s.Width, barHeight)
	put(f.status, 0, s.Height-statusHeight, s.Width, statusHeight)
	large, small := f.blank, f.bent
	if f.panes.BentLarge {
		large, small = small, large
	}
	put(large, 0, barHeight, s.Width, r.upper)
	const half = (kit.DividerSize - 1) / 2
	put(f.level, 0, r.upTo-half, s.Width, kit.DividerSize)

	// The lower row, with a hairline over it and between the panes.
	y, h := r.upTo+1, r.lower-1
	x := float32(0)
	line := func(i int, on bool) {
		kit.Show(f.upon[i], on)
		put(f.upon[i], x-half, y, kit.DividerSize, h)
	}
	kit.Show(f.controls, !*f.folded)
	put(f.controls, x, y, r.controls, h)
	x += r.controls
	line(0, !*f.folded)
	gap := float32(1)
	if *f.folded {
		gap = 0
	}
	put(small, x+gap, y, r.middle-gap, h)
	x += r.middle
	line(1, true)
	turns := r.found == 0
	kit.Show(f.turns, turns)
	kit.Show(f.figures, !turns || !f.showFound)
	kit.Show(f.found, !turns || f.showFound)
	if turns {
		put(f.turns, x+1, y, r.figures-1, turnsHeight)
		put(f.figures, x+1, y+turnsHeight, r.figures-1, h-turnsHeight)
		put(f.found, x+1, y+turnsHeight, r.figures-1, h-turnsHeight)
		line(2, false)
		return
	}
	put(f.figures, x+1, y, r.figures-1, h)
	x += r.figures
	line(2, true)
	put(f.found, x+1, y, r.found-1, h)
}
