package ui

import (
	"strings"
	"time"

	"fretband/app"

	"fyne.io/fyne/v2"
)

// logPlacesSoon calls logPlaces after the next frame, once what has just opened is drawn: until
// then the toolkit does not know where it is.
func (w *Window) logPlacesSoon() {
	if w.later != nil && w.ready {
		w.later(150*time.Millisecond, w.logPlaces)
	}
}

// logPlaces writes where the named parts are, in pixels of the window, so
// that a script can drive it without knowing its layout.
func (w *Window) logPlaces() {
	if !w.ready {
		return
	}
	tell := func(name string, o fyne.CanvasObject) {
		if o == nil || !o.Visible() {
			return
		}
		c := fyne.CurrentApp().Driver().CanvasForObject(o)
		if c == nil {
			return
		}
		p := fyne.CurrentApp().Driver().AbsolutePositionForObject(o)
		s, k := o.Size(), c.Scale()
		w.ed.Log.Event("place", "name", name, "x", int(p.X*k), "y", int(p.Y*k), "w", int(s.Width*k), "h", int(s.Height*k))
	}
	if d := w.kit.Dialogs.Top(); d != nil {
		for _, b := range d.Buttons {
			tell("answer:"+strings.ReplaceAll(b.Text, " ", "-"), b)
		}
		for _, f := range d.Fields {
			tell("field:"+f.Name, f.Object)
		}
		return
	}
	tell("blank", w.blank)
	tell("bar:stress", w.bar.stress)
	w.bentPane.Positions(tell)
	if w.ed.Stress.Shown {
		tell("stress:case", w.blankPane.Case)
	}
	w.findings.Positions(tell)
	w.controls.Positions(tell)
	w.blank.Positions(func(name string, x, y int) {
		w.ed.Log.Event("place", "name", name, "x", x, "y", y, "w", 0, "h", 0)
	}, w.ed.Page == app.HandPage)
}

// Ready says that the window is on the screen.
func (w *Window) Ready() {
	w.ready = true
	s := w.win.Canvas().Size()
	w.ed.Log.Event("ready", "w", float64(s.Width), "h", float64(s.Height), "scale", float64(w.win.Canvas().Scale()))
	w.logPlaces()
}

// Started is called once the window is on the screen: it tells so, asks if the design
// that it began with is open elsewhere, and offers what earlier runs left unsaved or, without
// any, asks what to begin with.
func (w *Window) Started(found []app.Recovered) {
	w.Ready()
	w.files.OfferRecovery(found)
	// Above the offer, so that it is answered first.
	begin := func(d *app.Document) {
		if d != w.ed.Doc {
			w.files.Use(d)
		}
	}
	w.files.UnlessElsewhere(w.ed.Doc, func() { begin(w.ed.Doc.Copy()) }, begin)
}
