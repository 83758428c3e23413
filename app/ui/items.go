package ui

import (
	"fmt"

	"fretband/app"
	"fretband/pattern"
	"fretband/unroll/plane"

	"fyne.io/fyne/v2"
)

// markReach is how near the pointer must come to an engraved line to take it, px.
const markReach = 5

// listenToItems joins the pages of reserves and marks, and what a hand does with
// them on the blank, to the window.
func (w *Window) listenToItems() {
	for _, p := range []*itemsPage{w.controls.reserves, w.controls.marks} {
		p.onSelect = w.selectItem
		p.onAdd = w.addItem
		p.onCopy = w.copyItem
		p.onRemove = w.removeItem
		p.onDraw = w.askItemShape
	}
}

// itemAt returns the topmost mark or reserve at a place; marks lie over reserves.
// reach is in mm.
func (s *scene) itemAt(p plane.Point, reach float64) app.Item {
	if s == nil {
		return app.NoItem
	}
	for i := len(s.sheet.Marks) - 1; i >= 0; i-- {
		m := s.sheet.Marks[i]
		if s.sheet.Design.Marks[m.Mark].Kind == pattern.TextMark && m.Frame.Contains(p) {
			return app.Item{Mark: true, Index: m.Mark}
		}
		for _, st := range m.Strokes {
			for _, e := range st.Edges() {
				if e.Bounds().Grow(reach).Holds(p) && e.Dist(p) <= reach {
					return app.Item{Mark: true, Index: m.Mark}
				}
			}
		}
	}
	if i := s.reserveAt(p); i >= 0 {
		return app.Item{Index: i}
	}
	return app.NoItem
}

// reach is how near the pointer must come to an engraved line, mm.
func (b *blankView) reach() float64 { return markReach * b.v.frame.scale / b.v.k }

// tellItem says which reserve or mark is under the pointer, where no opening is.
func (w *Window) tellItem() {
	if w.scene == nil || w.blank.marks.hover >= 0 {
		return
	}
	text, it := "", w.blank.marks.over
	if it.In(w.scene.sheet.Design) {
		kind := "reserve"
		if it.Mark {
			kind = "mark"
		}
		text = kind + " " + it.Text(w.scene.sheet.Design)
	}
	w.status.opening(text)
}

func (w *Window) selectItem(it app.Item) {
	w.blank.marks.item = it
	w.unfold()
	page, other := w.controls.reserves, w.controls.marks
	if it.Mark {
		page, other = other, page
	}
	other.selected, page.selected = -1, it.Index
	w.controls.turnTo(reservesPageAt)
	w.showHandles()
	w.tellSoon()
}

// letGo selects no reserve and no mark.
func (w *Window) letGo() {
	w.blank.marks.item = app.NoItem
	w.controls.reserves.choose(-1)
	w.controls.marks.choose(-1)
	w.showHandles()
}

// addItem adds a reserve of that shape or a mark of that kind.
func (w *Window) addItem(mark bool, kind string) {
	d := w.doc.Now()
	it := app.Item{Mark: mark, Index: len(d.Reserves)}
	if mark {
		it.Index = len(d.Marks)
		d.Marks = append(d.Marks, app.NewMark(kind, d))
	} else {
		d.Reserves = append(d.Reserves, app.NewReserve(kind, d))
	}
	w.added(it, d)
}

func (w *Window) addReserve(shape string) { w.addItem(false, shape) }

func (w *Window) copyItem(it app.Item) {
	d := w.doc.Now()
	if !it.In(d) {
		return
	}
	if c := it.Copy(&d); c != app.NoItem {
		w.added(c, d)
	}
}

// added takes a design with one more item, the last of its list, and selects that.
func (w *Window) added(it app.Item, d pattern.Design) {
	w.doc.Seal()
	w.change("", it.List(), fmt.Sprint(it.Index), fmt.Sprint(it.Index+1), d)
	w.selectItem(it)
}

func (w *Window) removeItem(it app.Item) {
	d := w.doc.Now()
	if !it.In(d) {
		return
	}
	it.Remove(&d)
	w.letGo()
	w.doc.Seal()
	w.change("", it.List(), it.Path(), "removed", d)
}

// grabItem has the reserve or mark at a place follow the hand.
func (w *Window) grabItem(at plane.Point, _ fyne.KeyModifier) *hold {
	it := w.scene.itemAt(at, w.blank.reach())
	d := w.doc.Now()
	if !it.In(d) {
		return nil
	}
	was := it.At(d)
	return &hold{move: func(to plane.Point) {
		if w.blank.marks.item != it {
			w.pickThese(nil)
			w.selectItem(it)
		}
		w.moveItem(it, was.Add(to.Sub(at)))
	}}
}

// nudgeItem moves what is selected by a step of an arrow key, if anything is.
func (w *Window) nudgeItem(by plane.Point) bool {
	d, it := w.doc.Now(), w.blank.marks.item
	if !it.In(d) {
		return false
	}
	w.moveItem(it, it.At(d).Add(by))
	w.blank.marks.beside = ""
	return true
}

func (w *Window) moveItem(it app.Item, to plane.Point) {
	d := w.doc.Now()
	if !it.In(d) {
		return
	}
	old := it.PlaceText(d)
	it.Put(&d, to)
	w.blank.marks.beside = it.PlaceText(d)
	path := it.Path() + ".place"
	w.change(path, path, old, it.PlaceText(d), d)
}

// askItemShape asks for the outline of a reserve or the lines of a mark.
func (w *Window) askItemShape(it app.Item) {
	d := w.now()
	if it.Mark {
		w.askLines(it)
		return
	}
	start := ""
	if it.In(d) {
		start = d.Reserves[it.Index].Path
	}
	w.askShape("A reserve of your own shape", start, true, func(path string, size plane.Box) {
		if !it.In(w.now()) {
			w.addReserve(pattern.CircleShape)
			it = app.Item{Index: len(w.now().Reserves) - 1}
		}
		w.pickOption(app.OwnReserve(it.Index, path, size), pattern.PathShape)
		w.selectItem(it)
	})
}
