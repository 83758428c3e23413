package pages

import (
	"fmt"
	"maps"
	"slices"
	"strings"

	"fretband/app"
	"fretband/app/ui/kit"
	"fretband/pattern"
	"fretband/pattern/check"
	"fretband/pattern/strength"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
)

// Controls is the narrow column where the numbers of the design are changed:
// one page each for band, form, metal, pattern and reserves.
type Controls struct {
	*Desk
	say  func(string) // an error in words, or "" when all is well
	Root *fyne.Container

	tabs   []*kit.Button
	Pages  []*page
	shown  bool                  // a design has been shown
	RowsOf map[string]*NumberRow // by path, for the script that drives the window

	Profile   *profileEditor
	Edges     *edgesEditor
	Fields    *fieldsPage
	Reserves  *itemsPage
	Added     *itemsPage
	Engraving *itemsPage
	Hand      *handPage
	Problem   *kit.Passage
	problemS  string
}

type page struct {
	Rows   []row
	Box    *fyne.Container
	Scroll *container.Scroll
}

const ControlsWidth = 340

func NewControls(desk *Desk) *Controls {
	k, ed := desk.Kit, desk.Ed
	c := &Controls{Desk: desk, RowsOf: map[string]*NumberRow{}}
	c.Problem = k.Passage("", kit.Warn, ControlsWidth-28)
	c.say = func(s string) {
		if s == "" {
			s = ed.Problem // still true
		}
		c.SetProblem(s)
	}
	band := c.page()
	for _, ch := range app.Choices(pattern.BandGroup) {
		c.add(band, newChoiceRow(k, ed, ch))
		if ch.Path == "band.inside.size" {
			c.add(band, newSizeRow(desk, "or typed", c.say))
		}
	}
	c.Profile = newProfileEditor(c, band)
	c.add(band, c.Profile)
	c.addNumbers(band, pattern.BandGroup)
	form := c.page()
	for _, ch := range app.Choices(pattern.FormGroup) {
		c.add(form, newChoiceRow(k, ed, ch))
	}
	c.addNumbers(form, pattern.FormGroup)
	c.Edges = newEdgesEditor(c, form)
	c.add(form, c.Edges)
	metal := c.page()
	c.add(metal, newChoiceRow(k, ed, app.ChoiceOf("metal.alloy")))
	c.add(metal, newNoteRow(k, alloySource))
	c.addNumbers(metal, pattern.MetalGroup)
	currency := app.ChoiceOf("metal.currency")
	c.add(metal, newTextRow(k, currency.Title, currency.Tip, currency.Get, func(s string) { ed.Choose(currency, strings.TrimSpace(s)) }))
	addWear(c, metal)
	addWork(c, metal)
	pat := c.page()
	c.Fields = newFieldsPage(c, pat)
	c.add(pat, c.Fields)
	res := c.page()
	c.Reserves, c.Engraving, c.Added = newReservesPage(c, res), newEngravingsPage(c, res), newAddedPage(c, res)
	for _, r := range c.items() {
		c.add(res, r)
	}
	for _, r := range c.items() {
		c.add(res, plain{r.edit, r.showEdit})
	}
	byHand := c.page()
	c.Hand = newHandPage(c, byHand)
	c.add(byHand, c.Hand)
	c.Pages = []*page{band, form, metal, pat, res, byHand}
	tabRow := container.New(kit.Spread{})
	for i, t := range []struct{ name, tip string }{
		{"Band", "Kind, size, width, thickness"},
		{"Form", "Ends, section, flare, making"},
		{"Metal", "Alloy, price, how a cuff is worn, and what cutting takes at your bench"},
		{"Pattern", "Rules, and fields of a motif"},
		{"Reserves", "Places kept solid: a hallmark, a hinge; marks: lines and names to be engraved; and what is added: stones, wire, beads"},
		{"By hand", "Single openings: left solid, changed, drawn"},
	} {
		b := k.Button(t.name, t.tip, func() { ed.OpenPage(app.Page(i)) })
		b.Tab = true
		c.tabs = append(c.tabs, b)
		tabRow.Add(b)
	}
	stack := container.NewStack()
	for _, p := range c.Pages {
		stack.Add(p.Scroll)
	}
	c.Root = kit.AtLeast(ControlsWidth, 0,
		container.NewBorder(
			kit.Down(0, kit.Inset(10, 4, 8, 0, tabRow), k.Hairline()),
			kit.Inset(14, 2, 14, 2, c.Problem), nil, nil, stack))
	c.ShowTab(ed.Page)
	return c
}

func (c *Controls) page() *page {
	p := &page{Box: kit.Down(1)}
	p.Scroll = container.NewVScroll(kit.Inset(14, 4, 14, 10, p.Box))
	return p
}

func (c *Controls) add(p *page, r row) {
	if t, ok := r.(*TextRow); ok {
		t.Entry.OnWheel = p.Scroll.Scrolled
	}
	p.Rows = append(p.Rows, r)
	p.Box.Add(r.object())
}

func (c *Controls) addNumbers(p *page, g pattern.Group) {
	for _, n := range app.Numbers(g) {
		c.add(p, c.numberRow(p, n))
	}
}

// numberRow makes the row of a number on a page, known by its path.
func (c *Controls) numberRow(p *page, n app.Number) *NumberRow {
	r := newNumberRow(c.Kit, c.Ed, n, func(s string) { c.say(s) })
	r.Entry.OnWheel = func(e *fyne.ScrollEvent) { p.Scroll.Scrolled(e) }
	c.RowsOf[n.Path] = r
	return r
}

// ShowTab shows a page.
func (c *Controls) ShowTab(open app.Page) {
	for i, p := range c.Pages {
		here := app.Page(i) == open
		c.tabs[i].Choose(here)
		kit.Show(p.Scroll, here)
	}
	if c.shown {
		c.Show(c.Ed.Now())
	}
}

// items are the lists of the page of reserves.
func (c *Controls) items() []*itemsPage { return []*itemsPage{c.Reserves, c.Engraving, c.Added} }

// ShowItems brings the lists of reserves, engravings and added parts up to what is selected.
func (c *Controls) ShowItems() {
	d := c.Ed.Now()
	for _, r := range c.items() {
		r.show(d)
		r.showEdit(d)
	}
	c.Reserves.page.Box.Refresh()
}

// Show brings the page that is open up to the design; the others follow when they
// are turned to.
func (c *Controls) Show(d pattern.Design) {
	c.shown = true
	c.Pages[c.Ed.Page].show(d)
}

// show brings the rows of a page up to the design, and lays it out anew only if one
// of them has come, gone, or grown: a slider that is dragged moves nothing else.
func (p *page) show(d pattern.Design) {
	changed := false
	for _, r := range p.Rows {
		was := roomOf(r)
		r.show(d)
		changed = changed || roomOf(r) != was
	}
	if changed {
		p.Box.Refresh()
	}
}

// roomOf distinguishes the sizes that a row can have.
func roomOf(r row) float32 {
	o := r.object()
	if !o.Visible() {
		return -1
	}
	switch r.(type) {
	case *NumberRow, *choiceRow, *TextRow:
		return 0 // always the same
	}
	return o.MinSize().Height
}

// SetProblem says what is wrong under the controls; "" says nothing.
func (c *Controls) SetProblem(s string) {
	if s == c.problemS {
		return
	}
	c.problemS = s
	c.Problem.Set(s, kit.Warn, ControlsWidth-28)
	c.Root.Refresh()
}

func alloySource(d pattern.Design) string {
	a, ok := pattern.AlloyByKey(d.Metal.Alloy)
	if !ok || a.Key == pattern.OwnAlloy {
		return "Your own alloy: give its density."
	}
	return fmt.Sprintf("%s g/cm\u00b3. %s", app.FormatNumber(a.Density, 3), a.Source)
}

// Positions says where tabs, buttons and entries are, for the script that drives the window.
func (c *Controls) Positions(tell func(name string, o fyne.CanvasObject)) {
	for _, t := range c.tabs {
		tell("tab:"+t.Text, t)
	}
	if c.Ed.Folded {
		return
	}
	if h := c.Hand; c.Ed.Page == app.HandPage {
		for _, b := range []*kit.Button{h.solid, h.open, h.undo, h.row, h.field, h.all, h.points, h.circle, h.oval, h.square, h.tie, h.clear, h.drawOn, h.motif, h.lay, h.unlay} {
			tell("hand:"+strings.ReplaceAll(b.Text, " ", "-"), b)
		}
		tell("hand:text", h.what)
		tell("fold:trace", h.trace.Head)
		tell("hand:outline", h.outline)
		for i, l := range h.lines {
			tell(fmt.Sprintf("hand:%d", i), l)
		}
	}
	if c.Ed.Page == app.FormPage {
		for _, e := range c.Edges.parts {
			tell("add:"+e.edge.Path(), e.add)
		}
	}
	if f := c.Fields; c.Ed.Page == app.PatternPage {
		for _, b := range f.buttons {
			tell("fields:"+b.Text, b)
		}
		for i, l := range f.lines {
			tell(fmt.Sprintf("fields:%d", i), l.Text)
			tell(fmt.Sprintf("fields:%d:openings", i), l.count)
		}
		tell("fold:rules", f.rules.Head)
		for i, name := range foldNames {
			if f.folds[i] != nil {
				tell("fold:"+name, f.folds[i].Head)
			}
		}
		if f.stands != nil {
			tell("fields:text", f.stands)
		}
		tell("fields:none", f.none)
		if f.motif != nil {
			tell("fields:motif", f.motif.button)
		}
	}
	if c.Ed.Page == app.ReservesPage {
		for _, p := range c.items() {
			for _, b := range p.adds {
				tell("add:"+strings.ReplaceAll(b.Text, " ", "-"), b)
			}
			if t := p.text; t != nil {
				tell("entry:"+c.Ed.Item.Path()+".text", t.Entry)
			}
		}
	}
	for _, p := range slices.Sorted(maps.Keys(c.RowsOf)) {
		r := c.RowsOf[p]
		if !r.Box.Visible() || !c.Shows(r) {
			continue
		}
		if r.Slider != nil {
			tell("slider:"+p, r.Slider)
		}
		tell("entry:"+p, r.Entry)
	}
}

// forget drops the rows of numbers whose paths begin so.
func (c *Controls) forget(prefix string) {
	maps.DeleteFunc(c.RowsOf, func(path string, _ *NumberRow) bool { return strings.HasPrefix(path, prefix) })
}

// Shows reports whether a row's page is the one that is open.
func (c *Controls) Shows(r *NumberRow) bool { return holds(c.Pages[c.Ed.Page].Box, r.Entry) }

// holds reports whether an object lies in a container, where nothing between
// them is hidden.
func holds(box *fyne.Container, o fyne.CanvasObject) bool {
	for _, x := range box.Objects {
		if x == o {
			return true
		}
		if inner, ok := x.(*fyne.Container); ok && inner.Visible() && holds(inner, o) {
			return true
		}
	}
	return false
}

// ShowInForce brings up to the design as it is laid now what holds where numbers are left
// empty.
func (c *Controls) ShowInForce() {
	for _, r := range c.RowsOf {
		if r.Number.Empty != "" && r.Box.Visible() {
			r.showInForce()
		}
	}
}

// ShowPicked brings the page of editing by hand up to what is picked.
func (c *Controls) ShowPicked() { c.Hand.show(c.Ed.Now()) }

// ShowField brings the page of the pattern up to the field that is selected.
func (c *Controls) ShowField() {
	c.Fields.show(c.Ed.Now())
	c.Fields.page.Box.Refresh()
}

// addWear adds to a page how a cuff is put on, and what its metal bears.
func addWear(c *Controls, p *page) {
	k := c.Kit
	head := kit.Inset(0, 12, 0, 0, k.Label("Wearing", kit.Strong).Teach("An open cuff is sprung on. Whether it springs back is an estimate for comparing designs, not a promise: bend a trial piece."))
	c.add(p, plain{head, func(d pattern.Design) { kit.Show(head, app.TemperText(d) != "") }})
	c.add(p, newChoiceRow(k, c.Ed, app.ChoiceOf("wear.temper")))
	c.add(p, newNoteRow(k, app.TemperText))
	c.addNumbers(p, pattern.WearGroup)
}

// strengthRows adds the figures of strength. They are there from the first solve on, so that
// nothing jumps while the next is waited for.
func strengthRows(add func(name, tip string, of func(*check.Report) (string, string), shown func(*check.Report) bool)) {
	solved := false
	shown := func(r *check.Report) bool {
		solved = solved || r.Strength != nil
		return solved
	}
	of := func(say func(*check.Report, strength.CaseFigures) (string, string)) func(*check.Report) (string, string) {
		return func(r *check.Report) (string, string) {
			if r.Strength == nil {
				return noFigure, ""
			}
			return say(r, r.Strength.Cases[0])
		}
	}
	const estimate = " An estimate for comparing designs, not a promise: a trial piece decides."
	add("Stiffness", "By how much a newton opens a cuff at its ends, or squeezes a closed band in its softest direction; and the same of the band unpierced."+estimate,
		of(func(_ *check.Report, c strength.CaseFigures) (string, string) {
			return fmt.Sprintf("%s, plain %s", decimals(c.PerN, 2), decimals(c.PlainPerN, 2)), "mm/N"
		}), shown)
	add("Yields from", "The opening or squeeze from which whole bridges keep a bend, by the proof stress of the metal's temper."+estimate,
		of(func(_ *check.Report, c strength.CaseFigures) (string, string) {
			if c.BridgeYield == 0 {
				return "no proof stress", ""
			}
			return decimals(c.BridgeYield, 1), "mm"
		}), shown)
	add("Rims carry", "The share of the bending that the two rims carry where the band is pierced."+estimate,
		of(func(r *check.Report, _ strength.CaseFigures) (string, string) {
			return decimals(100*r.Strength.Rims, 0), "%"
		}), func(r *check.Report) bool { return shown(r) && r.Openings > 0 })
	add("Idle metal", "Metal that is loaded less than a tenth of the most loaded bridge: weight that could come out."+estimate,
		of(func(r *check.Report, _ strength.CaseFigures) (string, string) {
			return decimals(r.Strength.IdleVolume*r.Density/1000, 2), "g"
		}), shown)
}

// addWork adds the maker's own bench to a page: what cutting takes there.
func addWork(c *Controls, p *page) {
	k := c.Kit
	c.add(p, plain{kit.Inset(0, 12, 0, 0, k.Label("Your bench", kit.Strong).Teach("Times and costs are reckoned by your own figures only. What is 0 is left out.")), nil})
	c.addNumbers(p, pattern.WorkGroup)
}
