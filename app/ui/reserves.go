package ui

import (
	"fretband/app"
	"fretband/app/ui/kit"
	"fretband/pattern"
)

// newReservesPage is the part of a page for the areas that are kept solid.
func newReservesPage(c *controls, p *page) *itemsPage {
	k := c.kit
	r := newItemsPage(c, p, false, "None. The pattern runs over the whole ground.", func(r *itemsPage, i int) {
		r.add(newChoiceRow(k, c.ed, app.ChoiceOf("reserves[].shape", i)))
		r.drawButton("Shape from a drawing\u2026", "Have the reserve take a shape read from a drawing or pasted as SVG path data.", i)
		r.addNumbers(app.Numbers(pattern.ReserveGroup, i))
		r.addText(app.ChoiceOf("reserves[].note", i))
	})
	add := func(title, tip, shape string) *kit.Button {
		return k.Button(title, tip, func() { r.onAdd(false, shape) }).Framed()
	}
	r.lay("Reserves", "A reserve is an area that stays solid. Openings keep their margin from it.", []float32{64, 50, 44, 76, 62},
		add("Circle", "A round place, as for a stone seat, or a row of them.", pattern.CircleShape),
		add("Oval", "As for an oval stone or a signature.", pattern.OvalShape),
		add("Rectangle", "As for a hallmark or a hinge.", pattern.RectangleShape),
		k.Button("Drawn\u2026", "Any closed shape, from a drawing or pasted as SVG path data.", func() { r.onDraw(app.NoItem) }).Framed())
	return r
}
