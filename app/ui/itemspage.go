package ui

import (
	"fretband/app"
	"fretband/app/ui/kit"
	"fretband/pattern"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
)

// itemsPage is the part of a page that lists the reserves or the marks, and what can
// be changed of the one that is selected ([itemsEdit]).
type itemsPage struct {
	c        *controls
	page     *page
	mark     bool
	box      *fyne.Container
	list     *fyne.Container
	edit     *fyne.Container
	adds     []*kit.Button
	text     *textRow // of a text, while one is selected
	rows     []row
	shownFor int // number of items that the list was made for
	selected int
	editing  int
	none     string // what an empty list says
	// layRows adds the rows of item i.
	layRows func(p *itemsPage, i int)

	// Callbacks of the window.
	onSelect func(app.Item)
	onAdd    func(mark bool, kind string)
	onCopy   func(app.Item)
	onRemove func(app.Item)
	onDraw   func(app.Item)
}

func newItemsPage(c *controls, p *page, mark bool, none string, layRows func(*itemsPage, int)) *itemsPage {
	return &itemsPage{
		c: c, page: p, mark: mark, none: none, layRows: layRows, selected: -1, editing: -2, shownFor: -1,
		list: kit.Down(1), edit: kit.Down(2),
	}
}

// lay puts the part of the page together, under a name and buttons that add items.
func (r *itemsPage) lay(title, tip string, widths []float32, buttons ...*kit.Button) {
	r.adds = buttons
	objs := []fyne.CanvasObject{r.c.kit.Label(title, kit.Strong).Teach(tip)}
	for _, b := range buttons {
		objs = append(objs, b)
	}
	r.box = kit.Down(2, container.New(kit.Columns{Widths: widths, Gap: 4, Height: 30}, objs...), r.list)
}

func (r *itemsPage) object() fyne.CanvasObject { return r.box }

// itemsEdit is where the item that is selected is changed: under the lists of
// reserves and marks, so that the buttons of both stay in sight.
type itemsEdit struct{ r *itemsPage }

func (e itemsEdit) object() fyne.CanvasObject { return e.r.edit }
func (e itemsEdit) show(d pattern.Design)     { e.r.showEdit(d) }

func (r *itemsPage) item(i int) app.Item { return app.Item{Mark: r.mark, Index: i} }

func (r *itemsPage) count(d pattern.Design) int {
	if r.mark {
		return len(d.Marks)
	}
	return len(d.Reserves)
}

// choose selects item i, -1 for none.
func (r *itemsPage) choose(i int) {
	r.selected = i
	r.show(r.c.ed.now())
	r.showEdit(r.c.ed.now())
	r.page.box.Refresh()
	r.reveal()
}

// reveal scrolls to what is selected if the first of its controls are out of sight.
func (r *itemsPage) reveal() {
	if r.selected < 0 {
		return
	}
	const some = 130 // of the controls
	s := r.page.scroll
	top := r.edit.Position().Y
	if top >= s.Offset.Y && top+some <= s.Offset.Y+s.Size().Height {
		return
	}
	// The lists stay in sight over it, as far as they can.
	s.ScrollToOffset(fyne.NewPos(0, max(0, top+some-s.Size().Height)))
}

// show brings the list and what is selected up to the design.
func (r *itemsPage) show(d pattern.Design) {
	k, n := r.c.kit, r.count(d)
	if r.selected >= n {
		r.selected = -1
	}
	if r.shownFor != n {
		r.shownFor = n
		r.list.RemoveAll()
		for i := range n {
			b := k.Button("", "", func() { r.onSelect(r.item(i)) })
			b.Left = true
			r.list.Add(b)
		}
		if n == 0 {
			r.list.Add(kit.Inset(0, 8, 0, 8, k.Passage(r.none, kit.Soft, controlsWidth-40)))
		}
		r.editing = -2
	}
	for i := range n {
		b := r.list.Objects[i].(*kit.Button)
		b.SetText(r.item(i).Text(d))
		b.Choose(i == r.selected)
	}
	r.box.Refresh()
}

func (r *itemsPage) showEdit(d pattern.Design) {
	if r.editing != r.selected {
		r.editing = r.selected
		r.layEdit()
	}
	came := false
	for _, w := range r.rows {
		was := w.object().Visible()
		w.show(d)
		came = came || w.object().Visible() != was
		// Of two numbers of one path the one that is shown is meant.
		if n, ok := w.(*numberRow); ok && n.box.Visible() {
			r.c.rowsOf[n.n.Path] = n
		}
	}
	if came {
		r.c.newRows()
	}
	r.edit.Refresh()
}

func (r *itemsPage) layEdit() {
	for _, w := range r.rows {
		if n, ok := w.(*numberRow); ok {
			delete(r.c.rowsOf, n.n.Path)
		}
	}
	r.rows, r.text = nil, nil
	r.edit.RemoveAll()
	i := r.selected
	if i < 0 {
		return
	}
	k := r.c.kit
	r.layRows(r, i)
	r.edit.Add(container.New(kit.Columns{Widths: []float32{labelWidth, 96, 96, 0}, Gap: columnGap, Height: 32},
		k.Label("", kit.Plain),
		k.Button("Copy", "One more like it, beside it.", func() { r.onCopy(r.item(i)) }).Framed(),
		k.Button("Remove", "Take it away. Delete does the same.", func() { r.onRemove(r.item(i)) }).Framed(),
		k.Label("", kit.Plain)))
}

func (r *itemsPage) add(w row) {
	r.rows = append(r.rows, w)
	r.edit.Add(w.object())
}

func (r *itemsPage) addNumbers(ns []app.Number) {
	for _, n := range ns {
		r.add(r.c.numberRow(r.page, n))
	}
}

// addText adds a row for a text of the design.
func (r *itemsPage) addText(c app.Choice) *textRow {
	t := newTextRow(r.c.kit, c.Title, c.Tip, c.Get, func(s string) { r.c.ed.pickOption(c, s) })
	r.add(t)
	return t
}

// drawButton is a line with a button that asks for a drawing.
func (r *itemsPage) drawButton(title, tip string, i int) {
	k := r.c.kit
	r.edit.Add(container.New(kit.Columns{Widths: []float32{labelWidth, 0}, Gap: columnGap, Height: 30},
		k.Label("", kit.Plain), k.Button(title, tip, func() { r.onDraw(r.item(i)) }).Framed()))
}
