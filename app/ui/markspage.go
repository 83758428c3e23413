package ui

import (
	"fretband/app"
	"fretband/app/ui/kit"
	"fretband/pattern"
)

// newMarksPage is the part of a page for what is engraved, not cut.
func newMarksPage(c *controls, p *page) *itemsPage {
	k := c.kit
	r := newItemsPage(c, p, true, "None. Marks are engraved, not cut: a line, drawn lines, a name. In the files they have a layer of their own, and no figure of cutting counts them.", func(r *itemsPage, i int) {
		kind := c.ed.now().Marks[i].Kind
		if kind == pattern.TextMark {
			r.text = r.addText(app.ChoiceOf("marks[].text", i))
		}
		if kind == pattern.PathMark {
			r.drawButton("Change the lines\u2026", "Paste SVG path data of open or closed curves, or read a closed shape from a drawing.", i)
		}
		numbers := app.Numbers(pattern.MarkGroup, i)
		last := len(numbers) - 1
		r.addNumbers(numbers[:last])
		r.add(newChoiceRow(k, c.ed, app.ChoiceOf("marks[].keep_mm:by", i)))
		r.addNumbers(numbers[last:])
		r.addText(app.ChoiceOf("marks[].note", i))
	})
	add := func(title, tip, kind string) *kit.Button {
		return k.Button(title, tip, func() { r.onAdd(true, kind) }).Framed()
	}
	r.lay("Marks", "A mark is engraved, not cut. It goes to a layer of its own in the files.", []float32{64, 50, 44, 92, 0},
		add("Text", "A name, a date, a fineness, as outlines.", pattern.TextMark),
		add("Line", "A straight line.", pattern.LineMark),
		add("Drawn lines", "Open or closed curves; paste your own once it is there.", pattern.PathMark))
	return r
}
