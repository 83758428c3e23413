package ui

import "fretband/app"

// listenToFields joins the page of the pattern to the window.
func (w *Window) listenToFields() {
	f := w.controls.fields
	w.handles = append(w.handles, w.fieldHandles)
	f.stander = &app.Newest[standing, standing]{Go: w.background, Post: w.post, Done: f.setStanding,
		Work: func(s standing) standing {
			s.text = app.StandingText(s.sheet, s.field)
			return s
		}}
	f.onMotif, f.onOwn, f.onOwnArea = w.chooseMotif, w.ownMotif, w.ownArea
	f.onSelect = func(i int) {
		w.showHandles()
		w.log.Event("field", "index", i)
		w.tellSoon()
	}
}

// pickedField follows a click on an opening to the field that it belongs to.
func (w *Window) pickedField(i int) {
	if f := w.controls.fields; i >= 0 && f.selected != i {
		f.choose(i)
		w.leaveField() // it is the opening that was meant
	}
}

// leaveField takes the selected field's area off the blank and reports whether it
// was there.
func (w *Window) leaveField() bool {
	f := w.controls.fields
	if !f.chosen || w.controls.open != patternPage {
		return false
	}
	f.chosen = false
	w.showHandles()
	return true
}
