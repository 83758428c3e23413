package ui

import (
	"fretband/app/ui/kit"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
)

// status is the line at the foot of the window.
type status struct {
	root                      *fyne.Container
	at, over, size, file, bad *kit.Label // what is bad has the place of what the pointer is over
}

// warn says what is wrong with the design; "" says nothing.
func (s *status) warn(what string) {
	s.bad.SetText(what)
	kit.Show(s.over, what == "")
}

func newStatus(k *kit.Kit) *status {
	s := &status{
		at:   k.Label("", kit.Soft).Teach("Where the pointer is, from the middle of the blank."),
		over: k.Label("", kit.Soft),
		bad:  k.Label("", kit.Warn),
		size: k.Label("", kit.Soft).Right().Teach("How large the blank is drawn. Screens state their size roughly, so true size is nominal: check it with a ruler, and set the screen's dots per inch under View."),
		file: k.Label("", kit.Soft).Right(),
	}
	row := container.New(kit.Columns{Widths: []float32{190, 0, 140, 220}, Gap: 10, Height: statusHeight - 1},
		s.at, container.NewStack(s.over, s.bad), s.size, s.file)
	s.root = container.NewStack(k.Filled(kit.GroundOf), container.NewBorder(k.Hairline(), nil, nil, nil), kit.Inset(14, 1, 14, 0, row))
	return s
}
