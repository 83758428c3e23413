package ui

import (
	"fmt"
	"strings"

	"fretband/app"
	"fretband/app/ui/kit"
	"fretband/pattern"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
)

// controls is the narrow column where the numbers of the design are changed:
// one page each for band, form, metal, pattern and reserves.
type controls struct {
	kit  *kit.Kit
	ed   editor
	say  func(string) // an error in words, or "" when all is well
	root *fyne.Container
	// onTurn is called when another page is opened.
	onTurn func()
	// onRows is called when rows have come or gone.
	onRows func()

	tabs   []*kit.Button
	pages  []*page
	open   int
	shown  bool                  // a design has been shown
	rowsOf map[string]*numberRow // by path, for the script that drives the window

	profile  *profileEditor
	edges    *edgesEditor
	fields   *fieldsPage
	reserves *itemsPage
	marks    *itemsPage
	hand     *handPage
	problem  *kit.Passage
	problemS string
}

type page struct {
	rows   []row
	box    *fyne.Container
	scroll *container.Scroll
}

const controlsWidth = 340

// Pages of the controls.
const (
	bandPage = iota
	formPage
	metalPage
	patternPage
	reservesPageAt
	handPageAt
)

func newControls(k *kit.Kit, ed editor) *controls {
	c := &controls{kit: k, ed: ed, rowsOf: map[string]*numberRow{}}
	c.problem = k.Passage("", kit.Warn, controlsWidth-28)
	c.say = c.setProblem
	band := c.page()
	for _, ch := range app.Choices(pattern.BandGroup) {
		c.add(band, newChoiceRow(k, ed, ch))
		if ch.Path == "band.inside.size" {
			c.add(band, newSizeRow(c))
		}
	}
	c.profile = newProfileEditor(c, band)
	c.add(band, c.profile)
	for _, n := range app.Numbers(pattern.BandGroup) {
		c.addNumber(band, n)
	}
	form := c.page()
	for _, ch := range app.Choices(pattern.FormGroup) {
		c.add(form, newChoiceRow(k, ed, ch))
	}
	for _, n := range app.Numbers(pattern.FormGroup) {
		c.addNumber(form, n)
	}
	c.edges = newEdgesEditor(c, form)
	c.add(form, c.edges)
	metal := c.page()
	c.add(metal, newChoiceRow(k, ed, app.ChoiceOf("metal.alloy")))
	c.add(metal, &noteRow{p: k.Passage("", kit.Caption, controlsWidth-40), get: alloySource})
	for _, n := range app.Numbers(pattern.MetalGroup) {
		c.addNumber(metal, n)
	}
	currency := app.ChoiceOf("metal.currency")
	c.add(metal, newTextRow(k, currency.Title, currency.Tip, currency.Get, func(s string) { ed.pickOption(currency, strings.TrimSpace(s)) }))
	addWear(c, metal)
	addWork(c, metal)
	pat := c.page()
	c.fields = newFieldsPage(c, pat)
	c.add(pat, c.fields)
	res := c.page()
	c.reserves, c.marks = newReservesPage(c, res), newMarksPage(c, res)
	c.add(res, c.reserves)
	c.add(res, c.marks)
	c.add(res, itemsEdit{c.reserves})
	c.add(res, itemsEdit{c.marks})
	byHand := c.page()
	c.hand = newHandPage(c, byHand)
	c.add(byHand, c.hand)
	c.pages = []*page{band, form, metal, pat, res, byHand}
	for i, t := range []struct{ name, tip string }{
		{"Band", "Kind, size, width, thickness"},
		{"Form", "Ends, section, flare, making"},
		{"Metal", "Alloy, price, how a cuff is worn, and what cutting takes at your bench"},
		{"Pattern", "Rules, and fields of a motif"},
		{"Reserves", "Places kept solid: a stone seat, a hallmark; and marks: lines and names to be engraved"},
		{"By hand", "Single openings: left solid, changed, drawn"},
	} {
		b := k.Button(t.name, t.tip, func() { c.turnTo(i) })
		b.Tab = true
		c.tabs = append(c.tabs, b)
	}
	tabRow := container.New(kit.Spread{}, c.tabs[0], c.tabs[1], c.tabs[2], c.tabs[3], c.tabs[4], c.tabs[5])
	line := k.Filled(kit.LineOf)
	line.SetMinSize(fyne.NewSize(1, 1))
	stack := container.NewStack()
	for _, p := range c.pages {
		stack.Add(p.scroll)
	}
	c.root = kit.AtLeast(controlsWidth, 0,
		container.NewBorder(
			kit.Down(0, kit.Inset(10, 4, 8, 0, tabRow), line),
			kit.Inset(14, 2, 14, 2, c.problem), nil, nil, stack))
	c.turnTo(patternPage)
	return c
}

func (c *controls) page() *page {
	p := &page{box: kit.Down(1)}
	p.scroll = container.NewVScroll(kit.Inset(14, 8, 14, 10, p.box))
	return p
}

func (c *controls) add(p *page, r row) {
	p.rows = append(p.rows, r)
	p.box.Add(r.object())
}

func (c *controls) addNumber(p *page, n app.Number) { c.add(p, c.numberRow(p, n)) }

// numberRow makes the row of a number on a page, known by its path.
func (c *controls) numberRow(p *page, n app.Number) *numberRow {
	r := newNumberRow(c.kit, c.ed, n, func(s string) { c.say(s) })
	r.entry.OnWheel = func(e *fyne.ScrollEvent) { p.scroll.Scrolled(e) }
	c.rowsOf[n.Path] = r
	return r
}

func (c *controls) newRows() {
	if c.onRows != nil {
		c.onRows()
	}
}

// turnTo opens page i.
func (c *controls) turnTo(i int) {
	c.open = i
	for j, p := range c.pages {
		c.tabs[j].Choose(i == j)
		if i == j {
			p.scroll.Show()
		} else {
			p.scroll.Hide()
		}
	}
	if c.shown {
		c.show(c.ed.now())
	}
	if i == handPageAt {
		c.hand.show(c.ed.now())
	}
	if c.onTurn != nil {
		c.onTurn()
	}
}

// show brings the page that is open up to the design; the others follow when they
// are turned to.
func (c *controls) show(d pattern.Design) {
	c.shown = true
	c.pages[c.open].show(d)
}

// show brings the rows of a page up to the design, and lays it out anew only if one
// of them has come, gone, or grown: a slider that is dragged moves nothing else.
func (p *page) show(d pattern.Design) {
	changed := false
	for _, r := range p.rows {
		was := roomOf(r)
		r.show(d)
		changed = changed || roomOf(r) != was
	}
	if changed {
		p.box.Refresh()
	}
}

// roomOf tells apart the sizes that a row can have.
func roomOf(r row) float32 {
	o := r.object()
	if !o.Visible() {
		return -1
	}
	switch r.(type) {
	case *numberRow, *choiceRow, *textRow:
		return 0 // always the same
	}
	return o.MinSize().Height
}

// setProblem says what is wrong under the controls; "" says nothing.
func (c *controls) setProblem(s string) {
	if s == c.problemS {
		return
	}
	c.problemS = s
	c.problem.Set(s, kit.Warn, controlsWidth-28)
	c.root.Refresh()
}

func alloySource(d pattern.Design) string {
	a, ok := pattern.AlloyByKey(d.Metal.Alloy)
	if !ok || a.Key == pattern.OwnAlloy {
		return "Your own alloy: give its density."
	}
	return fmt.Sprintf("%s g/cm\u00b3. %s", app.FormatNumber(a.Density, 3), a.Source)
}
