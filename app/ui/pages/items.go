package pages

import (
	"slices"

	"fretband/app"
	"fretband/app/ui/kit"
	"fretband/pattern"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
)

// itemsPage is the part of a page that lists the reserves, the engravings or the added parts,
// and what can be changed of the one that is selected: under the lists of all, so that the
// buttons of all stay in sight.
type itemsPage struct {
	c        *Controls
	page     *page
	kind     app.ItemKind
	box      *fyne.Container
	list     *fyne.Container
	edit     *fyne.Container
	adds     []*kit.Button
	text     *TextRow // of a text, while one is selected
	rows     []row
	shownFor int // number of items that the list was made for
	editing  int
	none     string // what an empty list says
	// layRows adds the rows of item i.
	layRows func(p *itemsPage, i int)
}

func newItemsPage(c *Controls, p *page, kind app.ItemKind, none string, layRows func(*itemsPage, int)) *itemsPage {
	return &itemsPage{
		c: c, page: p, kind: kind, none: none, layRows: layRows, editing: -2, shownFor: -1,
		list: kit.Down(1), edit: kit.Down(2),
	}
}

// lay puts the part of the page together, under a name and buttons that add items.
func (r *itemsPage) lay(title, tip string, widths []float32, buttons ...*kit.Button) {
	r.adds = buttons
	objs := []fyne.CanvasObject{r.c.Kit.Label(title, kit.Strong).Teach(tip)}
	for _, b := range buttons {
		objs = append(objs, b)
	}
	r.box = kit.Down(2, container.New(kit.Columns{Widths: widths, Gap: 4, Height: 30}, objs...), r.list)
}

func (r *itemsPage) object() fyne.CanvasObject { return r.box }

func (r *itemsPage) item(i int) app.Item { return app.Item{Kind: r.kind, Index: i} }

func (r *itemsPage) count(d pattern.Design) int { return r.kind.Count(d) }

// Selected returns the index of the one that is selected, -1 for none of the list.
func (r *itemsPage) Selected() int {
	if it := r.c.Ed.Item; it != app.NoItem && it.Kind == r.kind {
		return it.Index
	}
	return -1
}

// show brings the list and what is selected up to the design.
func (r *itemsPage) show(d pattern.Design) {
	k, n := r.c.Kit, r.count(d)
	if r.shownFor != n {
		r.shownFor = n
		r.list.RemoveAll()
		for i := range n {
			b := k.Button("", "", func() { r.c.Ed.Select(r.item(i)) })
			b.Left = true
			r.list.Add(b)
		}
		if n == 0 {
			r.list.Add(kit.Inset(0, 8, 0, 8, k.Passage(r.none, kit.Soft, ControlsWidth-40)))
		}
		r.editing = -2
	}
	for i := range n {
		b := r.list.Objects[i].(*kit.Button)
		b.SetText(shortened(r.item(i).Text(d)))
		b.Choose(i == r.Selected())
	}
	r.box.Refresh()
}

// shortened keeps a text to what fits the controls: a longer one would widen the page past
// their edge.
func shortened(s string) string {
	const most = 42
	if rs := []rune(s); len(rs) > most {
		return string(rs[:most-1]) + "\u2026"
	}
	return s
}

func (r *itemsPage) showEdit(d pattern.Design) {
	if i := r.Selected(); r.editing != i || i >= r.count(d) {
		r.editing = i
		if i >= r.count(d) {
			r.editing = -1 // it is no more
		}
		r.layEdit()
	}
	came := false
	for _, w := range r.rows {
		was := w.object().Visible()
		w.show(d)
		came = came || w.object().Visible() != was
		// Of two numbers of one path the one that is shown is meant.
		if n, ok := w.(*NumberRow); ok && n.Box.Visible() {
			r.c.RowsOf[n.Number.Path] = n
		}
	}
	if came {
		r.c.Opened()
	}
	r.edit.Refresh()
}

func (r *itemsPage) layEdit() {
	r.c.forget(r.item(0).List() + "[")
	r.rows, r.text = nil, nil
	r.edit.RemoveAll()
	i := r.editing
	if i < 0 {
		return
	}
	k := r.c.Kit
	r.layRows(r, i)
	r.edit.Add(container.New(kit.Columns{Widths: []float32{labelWidth, 96, 96, 0}, Gap: columnGap, Height: 32},
		k.Label("", kit.Plain),
		k.Button("Copy", "One more like it, beside it.", func() { r.c.Ed.CopyItem(r.item(i)) }).Framed(),
		k.Button("Remove", "Take it away. Delete does the same.", func() { r.c.Ed.RemoveItem(r.item(i)) }).Framed(),
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
func (r *itemsPage) addText(c app.Choice) *TextRow {
	t := newTextRow(r.c.Kit, c.Title, c.Tip, c.Get, func(s string) { r.c.Ed.Choose(c, s) })
	r.add(t)
	return t
}

// drawButton is a line with a button that asks for a drawing.
func (r *itemsPage) drawButton(title, tip string, i int) {
	k := r.c.Kit
	r.edit.Add(container.New(kit.Columns{Widths: []float32{labelWidth, 0}, Gap: columnGap, Height: 30},
		k.Label("", kit.Plain), k.Button(title, tip, func() { Shapes{r.c.Desk}.OfItem(r.item(i)) }).Framed()))
}

// newEngravingsPage is the part of a page for what is engraved, not cut.
func newEngravingsPage(c *Controls, p *page) *itemsPage {
	k := c.Kit
	r := newItemsPage(c, p, app.EngravingItem, "None. Marks are engraved, not cut: a line, drawn lines, a name. In the files they have a layer of their own, and no figure of cutting counts them.", func(r *itemsPage, i int) {
		kind := c.Ed.Now().Engravings[i].Kind
		if kind == pattern.TextEngraving {
			r.text = r.addText(app.ChoiceOf("marks[].text", i))
		}
		if kind == pattern.PathEngraving {
			r.drawButton("Change the lines\u2026", "Paste SVG path data of open or closed curves, or read a closed shape from a drawing.", i)
		}
		numbers := app.Numbers(pattern.EngravingGroup, i)
		last := len(numbers) - 1
		r.addNumbers(numbers[:last])
		r.add(newChoiceRow(k, c.Ed, app.ChoiceOf("marks[].side", i)))
		r.add(newChoiceRow(k, c.Ed, app.ChoiceOf("marks[].keep_mm:by", i)))
		r.addNumbers(numbers[last:])
		r.addText(app.ChoiceOf("marks[].note", i))
	})
	add := func(title, tip, kind string) *kit.Button {
		return k.Button(title, tip, func() { c.Ed.AddItem(app.EngravingItem, kind) }).Framed()
	}
	r.lay("Marks", "A mark is engraved, not cut. It goes to a layer of its own in the files.", []float32{64, 50, 44, 92, 0},
		add("Text", "A name, a date, a fineness, as outlines.", pattern.TextEngraving),
		add("Line", "A straight line.", pattern.LineEngraving),
		add("Drawn lines", "Open or closed curves; paste your own once it is there.", pattern.PathEngraving))
	return r
}

// newReservesPage is the part of a page for the areas that are kept solid.
func newReservesPage(c *Controls, p *page) *itemsPage {
	k := c.Kit
	r := newItemsPage(c, p, app.ReserveItem, "None. The pattern runs over the whole ground.", func(r *itemsPage, i int) {
		r.add(newChoiceRow(k, c.Ed, app.ChoiceOf("reserves[].shape", i)))
		r.drawButton("Shape from a drawing\u2026", "Have the reserve take a shape read from a drawing or pasted as SVG path data.", i)
		r.addNumbers(app.Numbers(pattern.ReserveGroup, i))
		r.addText(app.ChoiceOf("reserves[].note", i))
		r.edit.Add(container.New(kit.Columns{Widths: []float32{labelWidth, 0}, Gap: columnGap, Height: 30},
			k.Label("", kit.Plain), k.Button("Set a stone in it", "Have a stone in a bezel, as large as the reserve, take its place: with its weight, strip and price.", func() { c.Ed.SetStone(i) }).Framed()))
	})
	add := func(title, tip, shape string) *kit.Button {
		return k.Button(title, tip, func() { c.Ed.AddItem(app.ReserveItem, shape) }).Framed()
	}
	r.lay("Reserves", "A reserve is an area that stays solid. Openings keep their margin from it.", []float32{64, 50, 44, 76, 62},
		add("Circle", "A round place, as for a stone seat, or a row of them.", pattern.CircleShape),
		add("Oval", "As for an oval stone or a signature.", pattern.OvalShape),
		add("Rectangle", "As for a hallmark or a hinge.", pattern.RectangleShape),
		k.Button("Drawn\u2026", "Any closed shape, from a drawing or pasted as SVG path data.", func() { Shapes{c.Desk}.OfItem(app.NoItem) }).Framed())
	return r
}

// newAddedPage is the part of a page for what is soldered or set on.
func newAddedPage(c *Controls, p *page) *itemsPage {
	k := c.Kit
	r := newItemsPage(c, p, app.AddedItem, "None. Stones, border wire, beads and other parts count in weight, price and balance, and openings keep clear of them.", func(r *itemsPage, i int) {
		for _, key := range []string{"cut", "gem", "section", "seat", "row"} {
			r.add(newChoiceRow(k, c.Ed, app.ChoiceOf("added[]."+key, i)))
		}
		numbers := app.Numbers(pattern.AddedGroup, i)
		setting := slices.IndexFunc(numbers, func(n app.Number) bool { return n.Entry.Path == "added[].wall_mm" })
		r.addNumbers(numbers[:setting])
		r.add(newChoiceRow(k, c.Ed, app.ChoiceOf("added[].setting", i)))
		r.addNumbers(numbers[setting:])
		r.add(newChoiceRow(k, c.Ed, app.ChoiceOf("added[].alloy", i)))
		r.addText(app.ChoiceOf("added[].note", i))
	})
	add := func(title, tip, kind string) *kit.Button {
		return k.Button(title, tip, func() { c.Ed.AddItem(app.AddedItem, kind) }).Framed()
	}
	r.lay("Added", "What is soldered or set on the outside. It takes a solid seat in the pattern.", []float32{64, 54, 48, 56, 48},
		add("Stone", "A stone, or a row of them, in a bezel or with prongs.", pattern.StonePart),
		add("Wire", "A border wire along one edge or both.", pattern.WirePart),
		add("Beads", "A row of beads that closes, or fits the length.", pattern.BeadsPart),
		add("Part", "Any other part, by its weight: a clasp, a boss, a leaf.", pattern.OtherPart))
	return r
}
