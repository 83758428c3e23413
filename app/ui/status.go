package ui

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
)

// status is the line at the foot of the window.
type status struct {
	root                      *fyne.Container
	at, over, size, file, bad *label
}

func newStatus(k *kit) *status {
	s := &status{
		at:   k.label("", softVoice).teach("Where the pointer is, from the middle of the blank."),
		over: k.label("", softVoice),
		bad:  k.label("", warnVoice),
		size: k.label("", softVoice).right().teach("How large the blank is drawn. Screens state their size roughly, so true size is nominal: check it with a ruler, and set the screen's dots per inch under View."),
		file: k.label("", softVoice).right(),
	}
	line, back := k.filled(lineOf), k.filled(groundOf)
	row := container.New(columns{widths: []float32{200, 320, 0, 150, 250}, gap: 10, height: statusHeight - 1},
		s.at, s.over, s.bad, s.size, s.file)
	s.root = container.NewStack(back, container.New(topLine{}, line), container.New(inset{14, 1, 14, 0}, row))
	return s
}

func (s *status) place(t string)   { s.at.setText(t) }
func (s *status) opening(t string) { s.over.setText(t) }
func (s *status) zoom(t string)    { s.size.setText(t) }
func (s *status) saved(t string)   { s.file.setText(t) }
func (s *status) problem(t string) { s.bad.setText(t) }

// topLine draws its object as a hairline along the top.
type topLine struct{}

func (topLine) MinSize([]fyne.CanvasObject) fyne.Size { return fyne.NewSize(1, 1) }
func (topLine) Layout(o []fyne.CanvasObject, s fyne.Size) {
	o[0].Move(fyne.Position{})
	o[0].Resize(fyne.NewSize(s.Width, 1))
}
