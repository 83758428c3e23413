package ui

import (
	"fretband/app"
	"fretband/app/ui/kit"
	"fretband/pattern"

	"fyne.io/fyne/v2"
)

// addWork adds the maker's own bench to a page: what cutting takes there.
func addWork(c *controls, p *page) {
	k := c.kit
	c.add(p, still{kit.Inset(0, 12, 0, 0, k.Label("Your bench", kit.Strong).Teach("Times and costs are reckoned by your own figures only. What is 0 is left out."))})
	for _, n := range app.Numbers(pattern.WorkGroup) {
		c.addNumber(p, n)
	}
}

// still is a row that shows the same for every design.
type still struct{ o fyne.CanvasObject }

func (r still) object() fyne.CanvasObject { return r.o }
func (r still) show(pattern.Design)       {}
