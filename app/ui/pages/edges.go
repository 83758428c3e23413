package pages

import (
	"fmt"

	"fretband/app"
	"fretband/app/ui/kit"
	"fretband/pattern"
	"fretband/unroll"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
)

// edgesEditor edits the points that the two long edges run through: for each
// edge a line with its name and, under it, a line for each point. The same
// points can be dragged on the blank (blank/handles.go).
type edgesEditor struct {
	c     *Controls
	page  *page
	Box   *fyne.Container
	parts [2]*edgeEditor
}

type edgeEditor struct {
	edge  app.Edge
	list  *fyne.Container
	plain *kit.Label
	add   *kit.Button
	cells []*NumberRow
	count int // number of points that the list was made for
}

// newNumberCell returns a number's entry alone, for a table of them.
func (c *Controls) newNumberCell(p *page, n app.Number) *NumberRow {
	r := c.numberRow(p, n)
	r.Box = container.NewStack(r.Entry)
	return r
}

func newEdgesEditor(c *Controls, p *page) *edgesEditor {
	k := c.Kit
	ed := &edgesEditor{c: c, page: p, Box: kit.Down(1)}
	for i, e := range app.Edges() {
		part := &edgeEditor{edge: e, list: kit.Down(1), count: -1}
		part.plain = k.Label("", kit.Soft)
		part.add = k.Button("Add a point", "Have the edge run through one more point. Drag the points on the blank, or type their numbers.", func() {
			ed.change(e, func(d *pattern.Design) { app.AddEdgePoint(d, e) })
		}).Framed()
		ed.Box.Add(container.New(kit.Columns{Widths: []float32{labelWidth, 0, 104}, Gap: columnGap, Height: rowHeight},
			k.Label(e.Title(), kit.Plain).Teach(e.Tip()),
			part.plain, part.add))
		ed.Box.Add(part.list)
		ed.parts[i] = part
	}
	return ed
}

// change edits an edge as one step.
func (ed *edgesEditor) change(e app.Edge, do func(*pattern.Design)) {
	ed.c.Ed.Choose(app.Choice{Path: e.Path(),
		Get: func(d pattern.Design) string { return fmt.Sprint(len(e.Points(d))) },
		Set: func(d *pattern.Design, _ string) { do(d) }}, "changed")
}

func (ed *edgesEditor) object() fyne.CanvasObject { return ed.Box }

func (ed *edgesEditor) show(d pattern.Design) {
	kit.Show(ed.Box, d.Band.Inside.By != unroll.ByEdges) // else its edges are circles
	if !ed.Box.Visible() {
		return
	}
	for _, part := range ed.parts {
		if n := len(part.edge.Points(d)); n != part.count {
			ed.lay(part, n)
		}
		for _, r := range part.cells {
			r.show(d)
		}
	}
	ed.Box.Refresh()
}

// edgeColumns are those of the table of points.
var edgeColumns = []float32{labelWidth, entryWidth, entryWidth, 28, 30}

func (ed *edgesEditor) lay(part *edgeEditor, n int) {
	k := ed.c.Kit
	ed.c.forget(part.edge.Path() + "[")
	part.count, part.cells = n, nil
	part.list.RemoveAll()
	part.plain.SetText("")
	ed.c.Opened()
	if n == 0 {
		part.plain.SetText("plain")
		return
	}
	numbers := part.edge.Numbers(0)
	part.list.Add(container.New(kit.Columns{Widths: edgeColumns[:3], Gap: columnGap, Height: 18},
		k.Label("", kit.Caption), k.Label("Along", kit.Caption).Teach(numbers[0].Tip), k.Label("Out", kit.Caption).Teach(numbers[1].Tip)))
	for i := range n {
		objs := []fyne.CanvasObject{k.Label(fmt.Sprintf("   point %d", i+1), kit.Plain)}
		for _, num := range part.edge.Numbers(i) {
			cell := ed.c.newNumberCell(ed.page, num)
			part.cells = append(part.cells, cell)
			objs = append(objs, cell.Box)
		}
		objs = append(objs, k.Label("mm", kit.Soft), k.Button("\u00d7", "Take this point away.", func() {
			ed.change(part.edge, func(d *pattern.Design) { app.RemoveEdgePoint(d, part.edge, i) })
		}))
		part.list.Add(container.New(kit.Columns{Widths: edgeColumns, Gap: columnGap, Height: rowHeight}, objs...))
	}
}
