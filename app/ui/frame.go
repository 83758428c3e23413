package ui

import (
	"fretband/app"
	"fretband/app/ui/kit"
	"fretband/app/ui/pages"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
)

// upperLower lays the window out: bar, blank across the full width, the lower
// row, status line.
type upperLower struct{}

const (
	barHeight    = 36
	statusHeight = 25
)

// MinSize implements fyne.Layout.
func (*upperLower) MinSize([]fyne.CanvasObject) fyne.Size { return fyne.NewSize(760, 520) }

// Layout implements fyne.Layout.
func (*upperLower) Layout(o []fyne.CanvasObject, s fyne.Size) {
	left := s.Height - barHeight - statusHeight
	blank := max(210, min(580, left*0.48))
	y := float32(0)
	for i, h := range [4]float32{barHeight, blank, left - blank, statusHeight} {
		o[i].Move(fyne.NewPos(0, y))
		o[i].Resize(fyne.NewSize(s.Width, h))
		y += h
	}
}

// lowerRow holds, side by side, the controls, the bent band, the figures and the
// findings, with hairlines between and one above.
type lowerRow struct {
	root  *fyne.Container
	parts [4]fyne.CanvasObject
	lines [4]*canvas.Rectangle
	ed    *app.Editor
}

func newLowerRow(k *kit.Kit, ed *app.Editor, controls, bent, figures, findings fyne.CanvasObject) *lowerRow {
	l := &lowerRow{ed: ed, parts: [4]fyne.CanvasObject{controls, bent, figures, findings}}
	objs := []fyne.CanvasObject{controls, bent, figures, findings}
	for i := range l.lines {
		l.lines[i] = k.Filled(kit.LineOf)
		objs = append(objs, l.lines[i])
	}
	l.root = container.New(l, objs...)
	return l
}

const figuresWidth = 286

// MinSize implements fyne.Layout.
func (l *lowerRow) MinSize([]fyne.CanvasObject) fyne.Size { return fyne.NewSize(700, 220) }

// Layout implements fyne.Layout.
func (l *lowerRow) Layout(_ []fyne.CanvasObject, s fyne.Size) {
	left := s.Width - figuresWidth - 3
	if l.ed.Folded {
		l.parts[0].Hide()
	} else {
		l.parts[0].Show()
		left -= pages.ControlsWidth
	}
	findings := max(250, min(430, left*0.48))
	widths := [4]float32{pages.ControlsWidth, max(120, left-findings), figuresWidth, findings}
	x := float32(0)
	for i, o := range l.parts {
		if i == 0 && l.ed.Folded {
			l.lines[0].Resize(fyne.NewSize(0, 0))
			continue
		}
		o.Move(fyne.NewPos(x, 1))
		o.Resize(fyne.NewSize(widths[i], s.Height-1))
		x += widths[i]
		if i < 3 {
			l.lines[i].Move(fyne.NewPos(x, 1))
			l.lines[i].Resize(fyne.NewSize(1, s.Height-1))
			x++
		}
	}
	l.lines[3].Move(fyne.Position{})
	l.lines[3].Resize(fyne.NewSize(s.Width, 1))
}
