package ui

import (
	"fmt"
	"sort"
	"strings"
	"time"

	"fretband/app"
	"fretband/app/ui/kit"
	"fretband/unroll/plane"

	"fyne.io/fyne/v2"
)

func points(p ...plane.Point) []plane.Point { return p }

// tellSoon tells the places once what has just opened has been drawn: until
// then the toolkit does not know where it stands.
func (w *Window) tellSoon() {
	if w.later != nil && w.ready {
		w.later(150*time.Millisecond, w.tellPlaces)
	}
}

// tellPlaces writes where the named parts stand, in pixels of the window, so
// that a script can drive it without knowing its layout.
func (w *Window) tellPlaces() {
	if w.log == nil || !w.ready {
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
		w.log.Event("place", "name", name, "x", int(p.X*k), "y", int(p.Y*k), "w", int(s.Width*k), "h", int(s.Height*k))
	}
	if d := w.dialogs.Top(); d != nil {
		for _, b := range d.Buttons {
			tell("answer:"+strings.ReplaceAll(b.Text, " ", "-"), b)
		}
		for _, f := range d.Fields {
			tell("field:"+f.Name, f.Object)
		}
		return
	}
	tell("blank", w.blank)
	w.bentPane.Places(tell)
	tell("findings", w.findings.root)
	w.tellFindings(tell)
	for _, t := range w.controls.tabs {
		tell("tab:"+t.Text, t)
	}
	if w.lower.folded {
		return
	}
	if h := w.controls.hand; w.controls.open == handPageAt {
		for _, b := range []*kit.Button{h.solid, h.open, h.undo, h.row, h.field, h.all, h.circle, h.oval, h.square} {
			tell("hand:"+strings.ReplaceAll(b.Text, " ", "-"), b)
		}
	}
	if w.controls.open == formPage {
		for _, e := range w.controls.edges.parts {
			tell("add:"+e.edge.Path(), e.add)
		}
	}
	if f := w.controls.fields; w.controls.open == patternPage {
		for _, b := range f.buttons {
			tell("fields:"+b.Text, b)
		}
		for i, l := range f.lines {
			tell(fmt.Sprintf("fields:%d", i), l.text)
		}
		if f.motif != nil {
			tell("fields:motif", f.motif.button)
		}
	}
	if w.controls.open == reservesPageAt {
		for _, p := range []*itemsPage{w.controls.reserves, w.controls.marks} {
			for _, b := range p.adds {
				tell("add:"+strings.ReplaceAll(b.Text, " ", "-"), b)
			}
			if t := p.text; t != nil {
				tell("entry:"+p.item(p.selected).Path()+".text", t.entry)
			}
		}
	}
	w.tellOnBlank()
	paths := make([]string, 0, len(w.controls.rowsOf))
	for p := range w.controls.rowsOf {
		paths = append(paths, p)
	}
	sort.Strings(paths)
	for _, p := range paths {
		r := w.controls.rowsOf[p]
		if !r.box.Visible() || !w.controls.shows(r) && !w.controls.hand.shows(r) {
			continue
		}
		if r.slider != nil {
			tell("slider:"+p, r.slider)
		}
		tell("entry:"+p, r.entry)
	}
}

// tellOnBlank tells where the handles on the blank are, and some openings.
func (w *Window) tellOnBlank() {
	v, at := w.blank.v, fyne.CurrentApp().Driver().AbsolutePositionForObject(w.blank)
	tell := func(name string, p plane.Point) {
		w.log.Event("place", "name", name, "x", int(float64(at.X)*v.frame.scale+v.x(p.X)), "y", int(float64(at.Y)*v.frame.scale+v.y(p.Y)), "w", 0, "h", 0)
	}
	for _, h := range w.blank.marks.handles {
		tell("handle:"+h.name, h.at)
	}
	if w.controls.open == handPageAt && w.scene != nil {
		for i := range w.scene.sheet.Openings {
			if o := &w.scene.sheet.Openings[i]; i < 40 {
				tell(fmt.Sprintf("opening:%d", o.Number), o.Place())
			}
		}
		for i, c := range w.scene.sheet.Solid {
			tell(fmt.Sprintf("solid:%d", i+1), c.At)
		}
	}
}

// shows reports whether a row's page is the one that is open.
func (c *controls) shows(r *numberRow) bool {
	return holds(c.pages[c.open].box, r.box)
}

// holds reports whether an object lies in a container, where nothing between
// them is hidden.
func holds(box *fyne.Container, o fyne.CanvasObject) bool {
	for _, x := range box.Objects {
		if x == o {
			return true
		}
		if inner, ok := x.(*fyne.Container); ok && inner.Visible() && holds(inner, o) {
			return true
		}
	}
	return false
}

// Ready says that the window is on the screen.
func (w *Window) Ready() {
	w.ready = true
	s := w.win.Canvas().Size()
	w.log.Event("ready", "w", float64(s.Width), "h", float64(s.Height), "scale", float64(w.win.Canvas().Scale()))
	w.tellPlaces()
}

// Started is called once the window is on the screen: it tells so, asks if the design
// that it began with is open elsewhere, and offers what earlier runs left unsaved.
func (w *Window) Started(found []app.Recovered) {
	w.Ready()
	w.OfferRecovery(found)
	// Above the offer, so that it is answered first.
	begin := func(d *app.Document) {
		if d != w.doc {
			w.use(d)
		}
	}
	w.unlessElsewhere(w.doc, func() { begin(w.doc.Copy()) }, begin)
}
