package ui

// listenToFields joins the page of the pattern to the window.
func (w *Window) listenToFields() {
	f := w.controls.fields
	w.handles = append(w.handles, w.fieldHandles)
	f.onMotif, f.onOwn, f.onOwnArea = w.chooseMotif, w.ownMotif, w.ownArea
	f.onSelect = func(i int) {
		w.showHandles()
		w.log.Event("field", "index", i)
		w.tellSoon()
	}
}

// pickedField follows a click on an opening to the field that it belongs to.
func (w *Window) pickedField(i int) {
	if i >= 0 && w.controls.fields.selected != i {
		w.controls.fields.choose(i)
	}
}
