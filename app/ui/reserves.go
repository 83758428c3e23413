package ui

import (
	"fmt"

	"fretband/app"
	"fretband/pattern"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
)

// reservesPage lists the reserves, and under the list the numbers of the one
// that is selected.
type reservesPage struct {
	c        *controls
	page     *page
	list     *fyne.Container
	edit     *fyne.Container
	rows     []row
	shownFor int // number of reserves that the list was made for
	selected int
	editing  int

	onSelect func(i int)
	onAdd    func(shape string)
	onRemove func(i int)
}

func newReservesPage(c *controls, p *page) *reservesPage {
	r := &reservesPage{c: c, page: p, selected: -1, editing: -2, shownFor: -1}
	k := c.kit
	buttons := container.New(columns{widths: []float32{labelWidth, 104, 0}, gap: columnGap, height: rowHeight},
		k.label("Add", plainVoice).teach("A reserve is an area that stays solid. Openings keep their margin from it."),
		k.button("Circle", "A round place, as for a stone seat.", func() { r.onAdd(pattern.CircleShape) }).framedOne(),
		k.button("Rectangle", "As for a hallmark or a hinge.", func() { r.onAdd(pattern.RectangleShape) }).framedOne())
	r.list = container.New(stackDown{1})
	r.edit = container.New(stackDown{2})
	p.box.Add(buttons)
	p.box.Add(r.list)
	p.box.Add(r.edit)
	return r
}

// choose selects reserve i, -1 for none.
func (r *reservesPage) choose(i int) {
	r.selected = i
	r.refresh(r.c.ed.now())
}

func (r *reservesPage) refresh(d pattern.Design) {
	k := r.c.kit
	if r.selected >= len(d.Reserves) {
		r.selected = -1
	}
	if r.shownFor != len(d.Reserves) {
		r.shownFor = len(d.Reserves)
		r.list.RemoveAll()
		for i := range d.Reserves {
			b := k.button("", "", func() { r.onSelect(i) })
			b.left = true
			x := k.button("Remove", "Take this reserve away.", func() { r.onRemove(i) })
			r.list.Add(container.New(columns{widths: []float32{0, 76}, gap: columnGap, height: rowHeight}, b, x))
		}
		if len(d.Reserves) == 0 {
			r.list.Add(container.New(inset{0, 8, 0, 8}, k.passage("None. The pattern runs over the whole ground.", softVoice, controlsWidth-40)))
		}
		r.editing = -2
	}
	for i := range d.Reserves {
		b := r.list.Objects[i].(*fyne.Container).Objects[0].(*button)
		b.setText(reserveText(i, d.Reserves[i]))
		b.choose(i == r.selected)
	}
	if r.editing != r.selected {
		r.editing = r.selected
		r.layEdit()
	}
	for _, w := range r.rows {
		w.show(d)
	}
	r.list.Refresh()
	r.edit.Refresh()
}

func (r *reservesPage) layEdit() {
	for _, w := range r.rows {
		if n, ok := w.(*numberRow); ok {
			delete(r.c.rowsOf, n.n.Path)
		}
	}
	r.rows = nil
	r.edit.RemoveAll()
	i := r.selected
	if i < 0 {
		return
	}
	add := func(w row) {
		r.rows = append(r.rows, w)
		r.edit.Add(w.object())
	}
	add(newChoiceRow(r.c.kit, r.c.ed, app.ReserveShape(i)))
	for _, n := range app.ReserveNumbers(i) {
		w := newNumberRow(r.c.kit, r.c.ed, n, func(s string) { r.c.say(s) })
		w.entry.onWheel = func(e *fyne.ScrollEvent) { r.page.scroll.Scrolled(e) }
		r.c.rowsOf[n.Path] = w
		add(w)
	}
	add(newTextRow(r.c.kit, "For", "What the place is kept for: stone seat, hallmark, hinge.",
		func(d pattern.Design) string {
			if i < len(d.Reserves) {
				return d.Reserves[i].Note
			}
			return ""
		},
		func(s string) {
			r.c.ed.pickOption(app.Choice{Path: fmt.Sprintf("reserves[%d].note", i),
				Get: func(d pattern.Design) string { return d.Reserves[i].Note },
				Set: func(d *pattern.Design, v string) {
					if i < len(d.Reserves) {
						*d = app.Clone(*d)
						d.Reserves[i].Note = v
					}
				}}, s)
		}))
}

func reserveText(i int, r pattern.Reserve) string {
	size := fmt.Sprintf("circle %s mm", app.FormatNumber(r.WidthMM, 2))
	if r.Shape == pattern.RectangleShape {
		size = fmt.Sprintf("rectangle %s x %s mm", app.FormatNumber(r.WidthMM, 2), app.FormatNumber(r.HeightMM, 2))
	}
	if r.Note != "" {
		return fmt.Sprintf("%d  %s, %s", i+1, r.Note, size)
	}
	return fmt.Sprintf("%d  %s", i+1, size)
}
