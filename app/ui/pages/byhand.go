package pages

import (
	"fmt"
	"math"
	"strings"

	"fretband/app"
	"fretband/app/ui/kit"
	"fretband/pattern"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
)

// handPage is the page for editing by hand: what is picked and what can be done
// with it, the tools that draw a single opening, and the list of what was done.
type handPage struct {
	c    *Controls
	box  *fyne.Container
	what *kit.Passage

	solid, open, undo    *kit.Button
	row, field, all      *kit.Button
	circle, oval, square *kit.Button
	tie, points          *kit.Button
	drawOn, motif        *kit.Button
	trace                *kit.Fold
	lay, unlay           *kit.Button
	rows                 []row
	list                 *fyne.Container
	lines                []*kit.Button
	clear                *kit.Button
	head                 *kit.Label
	outline              *kit.Button
}

// listedEdits is how many edits the page lists; the others are counted.
const listedEdits = 60

func newHandPage(c *Controls, p *page) *handPage {
	h := &handPage{c: c, box: kit.Down(2)}
	k := c.Kit
	h.what = k.Passage("", kit.Plain, ControlsWidth-40)
	h.box.Add(kit.Inset(0, 2, 0, 4, h.what))
	ed := c.Ed
	act := func(b **kit.Button, title, tip string, do func()) *kit.Button {
		*b = k.Button(title, tip, do).Framed()
		return *b
	}
	three := func(a, b, c fyne.CanvasObject) fyne.CanvasObject {
		return container.New(kit.Columns{Widths: []float32{0, 0, 0}, Gap: 4, Height: 30}, a, b, c)
	}
	h.box.Add(container.New(kit.Columns{Widths: []float32{84, 84, 0}, Gap: 4, Height: 30},
		act(&h.solid, "Leave solid", "Not cut out: the metal stays whole there. L or Delete", ed.LeaveSolid),
		act(&h.open, "Open again", "Cut out again what was left solid. U", ed.OpenAgain),
		act(&h.undo, "Back to the pattern", "Undo every edit by hand of what is picked: the pattern decides there again.", ed.UndoHand)))
	h.box.Add(three(
		act(&h.row, "Its row", "Pick the whole row. Or click it twice.", ed.PickRow),
		act(&h.field, "Its field", "Pick the whole field. Or click it three times.", ed.PickField),
		act(&h.all, "All", "Pick all openings. Ctrl+A", ed.PickAll)))
	add := func(r row) {
		h.rows = append(h.rows, r)
		h.box.Add(r.object())
	}
	add(newChoiceRow(k, c.Ed, ed.HandShape()))
	var ns []*NumberRow
	for _, n := range ed.HandNumbers() {
		r := c.numberRow(p, n)
		if n.Title == "Diameter" { // of the path of the width
			c.RowsOf["edits.picked.diameter"] = r
		}
		ns = append(ns, r)
	}
	add(newPairRow(ns[0], ns[1]))
	add(newPairRow(ns[2], ns[3], ns[4]))
	add(newPairRow(ns[5], ns[6]))
	add(newPairRow(ns[8], ns[9])) // of ties
	add(newPairRow(ns[7], ns[10]))
	h.outline = k.Button("Read or paste an outline\u2026", "An SVG path or a closed curve of a drawing, as large as it is drawn.", Shapes{c.Desk}.ofPicked).Framed()
	outline := container.New(kit.Columns{Widths: []float32{labelWidth, 0}, Gap: columnGap, Height: 30}, k.Label("Outline", kit.Plain), h.outline)
	add(plain{outline, func(d pattern.Design) { // for shapes that have an outline of their own
		_, has := ed.HandPath(d)
		kit.Show(outline, has)
	}})
	add(newChoiceRow(k, c.Ed, ed.HandMirror()))
	shape := container.New(kit.Columns{Widths: []float32{labelWidth, 0, 0}, Gap: 4, Height: 30}, k.Label("Its outline", kit.Plain).Teach("What is picked as points and edges that can be dragged, or as a motif."),
		act(&h.drawOn, "Draw on", "Make a drawing of this opening: its points and edges can then be dragged.", ed.DrawOn),
		act(&h.motif, "As a motif", "Fill the selected field with this shape, as a motif of your own.", ed.MotifOfPicked))
	h.box.Add(shape)
	h.box.Add(container.New(kit.Columns{Widths: []float32{36, 54, 50, 42, 76, 0}, Gap: 3, Height: 30},
		k.Label("Draw", kit.Strong).Teach("Choose a shape, then drag a box on the blank, or click for one as large as the last. Or draw its outline point by point. The pattern gives way to it by the bridge. Or tie an opening: drag across it from metal to metal."),
		act(&h.points, "Points", "An outline of lines and arcs: click its points, pull a line into an arc before you let go, and click the first point to close. F2", func() { ed.TakeTool(app.PenTool) }),
		act(&h.circle, "Circle", "A single opening: drag its box on the blank. C", func() { ed.TakeTool(pattern.CircleShape) }),
		act(&h.oval, "Oval", "A single opening: drag its box on the blank. E", func() { ed.TakeTool(pattern.OvalShape) }),
		act(&h.square, "Rectangle", "A single opening: drag its box on the blank. Q", func() { ed.TakeTool(pattern.RectangleShape) }),
		act(&h.tie, "Tie", "A bridge of metal across openings: drag from metal to metal on the blank, or click its two ends. I", func() { ed.TakeTool(app.TieTool) })))
	h.trace = kit.NewFold(k, "Picture to trace", "A sketch or photograph under your hand: dimmed on the blank, at true size. It stays in its own file beside the design and is in no file that is made of it.", func() {
		ed.TraceShown = h.trace.Head.Open
		ed.On.Picked()
	})
	h.trace.Body.Add(container.New(kit.Columns{Widths: []float32{0, 0}, Gap: 4, Height: 30},
		act(&h.lay, "Lay a picture\u2026", "A PNG or JPEG picture, as wide as it says that it is, or as the blank is long.", h.layPicture),
		act(&h.unlay, "Take it away", "The picture's own file stays as it is.", ed.TakeUnderlay)))
	for _, n := range app.Numbers(pattern.UnderlayGroup) {
		r := c.numberRow(p, n)
		h.rows = append(h.rows, r)
		h.trace.Body.Add(r.Box)
	}
	h.box.Add(h.trace.Box)
	h.head = k.Label("Done by hand", kit.Strong).Teach("Each belongs to its place on the blank and works on whatever cell lies there when other numbers change. Click one to go there.")
	h.clear = k.Button("Remove idle", "Take away what finds nothing to work on any more.", ed.ClearIdle).Framed()
	h.box.Add(container.New(kit.Columns{Widths: []float32{0, 104}, Gap: columnGap, Height: 30}, h.head, h.clear))
	h.list = kit.Down(1)
	h.box.Add(h.list)
	return h
}

// pairRow lays two short numbers side by side. Of a pair's second there may be
// several, of which one at most is shown.
type pairRow struct {
	box  *fyne.Container
	rows []*NumberRow
}

func newPairRow(rows ...*NumberRow) *pairRow {
	r := &pairRow{rows: rows, box: container.New(pairLayout{})}
	for _, n := range rows {
		r.box.Add(container.New(kit.Columns{Widths: []float32{58, 62, 26}, Gap: 4, Height: rowHeight}, n.Name, n.Entry, n.unit))
	}
	return r
}

func (r *pairRow) object() fyne.CanvasObject { return r.box }

func (r *pairRow) show(d pattern.Design) {
	any := false
	for i, n := range r.rows {
		n.show(d)
		kit.Show(r.box.Objects[i], n.Box.Visible())
		any = any || n.Box.Visible()
	}
	kit.Show(r.box, any)
	r.box.Refresh()
}

// pairLayout lays what is visible in two halves.
type pairLayout struct{}

func (pairLayout) MinSize([]fyne.CanvasObject) fyne.Size { return fyne.NewSize(308, rowHeight) }

func (pairLayout) Layout(objs []fyne.CanvasObject, s fyne.Size) {
	x := float32(0)
	for _, o := range objs {
		if o.Visible() {
			o.Move(fyne.NewPos(x, 0))
			o.Resize(fyne.NewSize(154, rowHeight))
			x += s.Width - 154
		}
	}
}

func (h *handPage) object() fyne.CanvasObject { return h.box }

// show brings the page up to the design and to what is picked.
func (h *handPage) show(d pattern.Design) {
	if h.c.Ed.Page != app.HandPage {
		return
	}
	picks := h.c.Ed.Picked
	openings, solid, edited := 0, 0, 0
	for _, p := range picks {
		switch {
		case p.Solid >= 0:
			solid++
		case p.Opening >= 0:
			openings++
		}
	}
	if s := h.c.Ed.Scene; s != nil {
		for _, p := range picks {
			if p.Solid >= 0 || p.Opening < 0 || p.Opening >= 0 && p.Opening < len(s.Sheet.Openings) && len(s.Sheet.Openings[p.Opening].By) > 0 {
				edited++
			}
		}
	}
	h.what.Set(h.text(picks, openings, solid), kit.Plain, ControlsWidth-40)
	h.solid.SetOff(openings == 0)
	h.open.SetOff(solid == 0)
	h.undo.SetOff(edited == 0)
	h.row.SetOff(openings == 0)
	h.field.SetOff(openings == 0)
	tool := h.c.Ed.Tool
	h.circle.Choose(tool == pattern.CircleShape)
	h.oval.Choose(tool == pattern.OvalShape)
	h.square.Choose(tool == pattern.RectangleShape)
	h.tie.Choose(tool == app.TieTool)
	h.points.Choose(tool == app.PenTool)
	_, drawn := h.c.Ed.PickedOutline()
	h.drawOn.SetOff(openings != 1 || drawn)
	h.motif.SetOff(openings == 0)
	for _, r := range h.rows {
		r.show(d)
	}
	h.trace.Tell(h.c.Ed.UnderlayText())
	h.unlay.SetOff(d.Underlay.File == "")
	h.showList(d)
	h.box.Refresh()
}

// layPicture asks for a picture to trace.
func (h *handPage) layPicture() {
	h.c.Choose(openPicture, h.c.Settings.Folder, "", func(path string) {
		if err := h.c.Ed.LayUnder(path); err != nil {
			h.c.Kit.Dialogs.Say("The picture can't be laid under", capital(err.Error())+".")
			return
		}
		h.c.Ed.On.Picked()
	})
}

// capital returns a sentence as it begins.
func capital(s string) string { return strings.ToUpper(s[:1]) + s[1:] }

func (h *handPage) text(picks []app.Picked, openings, solid int) string {
	s := h.c.Ed.Scene
	var one *pattern.Opening
	for _, p := range picks {
		if s != nil && p.Opening >= 0 && p.Opening < len(s.Sheet.Openings) {
			one = &s.Sheet.Openings[p.Opening]
		}
	}
	tie, _, tied := h.c.Ed.PickedTie(h.c.Ed.Now())
	switch tool := h.c.Ed.Tool; {
	case tool == app.TieTool:
		return "Drag across an opening, from metal to metal, for a tie, or click its two ends. Esc puts it away."
	case tool == app.PenTool:
		return "Click the points of the outline. Press and pull to bend the line that leads there. Click the first point, or Enter, to close it; Backspace takes a point back, Esc gives up."
	case tool != "":
		return fmt.Sprintf("Drag a box on the blank for the %s, or click where it is to be. Esc puts it away.", tool)
	case tied && len(picks) == 1 && solid == 0:
		return "No opening lies under this tie with the present numbers. Move it or its ends, or go back to the pattern."
	case tied && len(picks) == 1:
		return pattern.Say("A tie, %.2f mm wide, %.2f mm from end to end. Drag it, its ends, or its middle to bend it.", tie.TieWidth(h.c.Ed.Now().Rules), math.Hypot(tie.SpanXMM, tie.SpanYMM))
	case openings+solid == 0 && len(picks) > 0:
		return "What is picked is not cut with the present numbers: its place is on the rim, in a reserve, or too little is left of it. Move it, or go back to the pattern."
	case openings+solid == 0:
		return "Nothing is picked. Click an opening, with Shift several; drag a box over them; click twice for a row. Then drag them, or use the arrow keys."
	case openings == 1 && solid == 0 && one != nil:
		o := one
		text := pattern.Say("Opening %d: %.2f mm\u00b2, %.2f mm long, %.2f mm high.", o.Number, o.Loop.Area(), o.Box.W(), o.Box.H())
		if o.Field < 0 {
			text += " Drawn by hand. " + h.c.Ed.TakenText()
		} else if len(o.By) > 0 {
			text += " Changed by hand."
		}
		return text
	}
	area := 0.0
	for _, p := range picks {
		if s != nil && p.Opening >= 0 && p.Opening < len(s.Sheet.Openings) {
			area += s.Sheet.Openings[p.Opening].Loop.Area()
		}
	}
	switch {
	case openings == 0 && solid == 1:
		return "One place that is left solid by hand."
	case openings == 0:
		return fmt.Sprintf("%d places that are left solid by hand.", solid)
	case solid == 0:
		return pattern.Say("%d openings: %.1f mm\u00b2.", openings, area)
	}
	return pattern.Say("%d openings, %.1f mm\u00b2, and %d left solid by hand.", openings, area, solid)
}

// showList lists the edits; those with idle positions say so.
func (h *handPage) showList(d pattern.Design) {
	k := h.c.Kit
	n := min(len(d.Edits), listedEdits)
	if len(h.lines) != n || len(h.list.Objects) == 0 {
		h.list.RemoveAll()
		h.lines = nil
		for i := range n {
			b := k.Button("", "Go there and pick it.", func() { h.c.GoToEdit(i) })
			b.Left = true
			x := k.Button("\u00d7", "Take this edit away.", func() { h.c.Ed.RemoveEdit(i) })
			h.lines = append(h.lines, b)
			h.list.Add(container.New(kit.Columns{Widths: []float32{0, 28}, Gap: columnGap, Height: rowHeight}, b, x))
		}
		if n == 0 {
			h.list.Add(kit.Inset(0, 2, 0, 6, k.Passage("Nothing yet: all openings are the pattern's own.", kit.Soft, ControlsWidth-40)))
		}
	}
	idle := map[int]int{}
	total := 0
	if s := h.c.Ed.Scene; s != nil {
		for _, i := range s.Sheet.Idle {
			idle[i.Edit]++
			total++
		}
	}
	for i, b := range h.lines {
		text := fmt.Sprintf("%d  %s", i+1, app.EditText(d.Edits[i]))
		if c := idle[i]; c == 1 && len(d.Edits[i].At) == 1 && d.Edits[i].Mirror == "" {
			text = fmt.Sprintf("%d  idle: %s", i+1, app.EditText(d.Edits[i]))
		} else if c > 0 {
			text = fmt.Sprintf("%d  %d idle: %s", i+1, c, app.EditText(d.Edits[i]))
		}
		b.SetText(text)
	}
	head := "Done by hand"
	if len(d.Edits) > n {
		head = fmt.Sprintf("Done by hand: the first %d of %d", n, len(d.Edits))
	}
	h.head.SetText(head)
	kit.Show(h.clear, total > 0)
}
