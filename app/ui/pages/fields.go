package pages

import (
	"fmt"
	"strings"

	"fretband/app"
	"fretband/app/ui/kit"
	"fretband/pattern"
	"fretband/pattern/motif"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
)

// fieldsPage is the page of the pattern: the list of fields and, of the field that is selected,
// the motif as a picture with the numbers that matter most, which are always in sight: rows,
// repeats and stagger, and the bridge and the rim of the whole band. All else lies in groups
// that open.
type fieldsPage struct {
	c    *Controls
	page *page
	box  *fyne.Container

	rules    *kit.Fold
	ruleRows []*NumberRow
	rim      *fyne.Container
	RimAlong *GradeEditor
	// rimPoints is for how many points of the rim's curve RimAlong has rows.
	rimPoints int
	process   *choiceRow
	Usual     *kit.Label // limits of the process
	list      *fyne.Container
	lines     []*fieldLine
	buttons   [5]*kit.Button // add, copy, up, down, remove
	none      fyne.CanvasObject
	edit      *fyne.Container // motif and grid of the selected field
	more      *fyne.Container // its groups
	Rows      []row
	motif     *motifRow
	stands    *kit.Passage // how the field came out
	folds     [foldCount]*kit.Fold
	opened    [foldCount]bool

	laidFor string
	counts  map[int]int    // openings by field, of the last sheet
	sheet   *pattern.Sheet // the last that was laid; nil before
	stander *app.Newest[standing, standing]
}

// Groups of a field's controls.
const (
	shapeFold = iota
	placeFold
	arrangeFold
	sizeFold
	foldCount
)

// foldNames name them for the script that drives the window.
var foldNames = [foldCount]string{"shape", "place", "arrangement", "sizes"}

// Buttons under the list.
const (
	addButton = iota
	copyButton
	upButton
	downButton
	removeButton
)

func newFieldsPage(c *Controls, p *page) *fieldsPage {
	k := c.Kit
	f := &fieldsPage{c: c, page: p, counts: map[int]int{}}
	f.rules = kit.NewFold(k, "Rules", "What holds for every opening of the band, in whatever field it lies: besides bridge and rim, the rim's width along the band, corners, the smallest opening, and how it is cut.", nil)
	for _, n := range app.Numbers(pattern.RulesGroup) {
		f.ruleRows = append(f.ruleRows, c.numberRow(p, n))
	}
	bridge, rim, corner, smallest := f.ruleRows[0], f.ruleRows[1], f.ruleRows[2], f.ruleRows[3]
	// Two that are seldom touched share a line.
	both := container.New(kit.Columns{Widths: []float32{46, 0, 48, 60, 48, 24}, Gap: columnGap, Height: rowHeight},
		corner.Name, corner.Slider, corner.Entry, smallest.Name, smallest.Entry, smallest.unit)
	corner.Box, smallest.Box = both, both
	f.rim = kit.Down(1)
	f.rules.Body.Add(f.rim)
	f.rules.Body.Add(both)
	f.process = newChoiceRow(k, c.Ed, app.ChoiceOf("rules.process"))
	f.rules.Body.Add(f.process.box)
	f.Usual = k.Label("", kit.Caption)
	f.Usual.Hide()
	f.rules.Body.Add(f.Usual)
	f.stander = &app.Newest[standing, standing]{Go: c.Background, Post: c.Post, Done: f.setStanding,
		Work: func(s standing) standing {
			s.text = app.StandingText(s.sheet, s.field)
			return s
		}}
	f.list = kit.Down(1)
	act := func(title, tip string, do func(d *pattern.Design) int) *kit.Button {
		return k.Button(title, tip, func() { f.change(do) }).Framed()
	}
	f.buttons = [5]*kit.Button{
		act("Add", "One more field. While none covers the whole band it takes what the others leave; else it is a run in the middle, and the one that covers the band yields to it.", func(d *pattern.Design) int {
			return app.AddField(d)
		}),
		act("Copy", "The selected field once more, beside it.", func(d *pattern.Design) int { return app.CopyField(d, f.c.Ed.Field) }),
		act("Up", "Where two fields lie over each other, the upper one in the list has the right of way and the lower one fills what is left, a bridge away.", func(d *pattern.Design) int {
			return app.MoveField(d, f.c.Ed.Field, -1)
		}),
		act("Down", "Where two fields lie over each other, the lower one in the list yields to the upper one.", func(d *pattern.Design) int {
			return app.MoveField(d, f.c.Ed.Field, 1)
		}),
		act("Remove", "Take the selected field away. A band without fields is plain.", func(d *pattern.Design) int {
			app.RemoveField(d, f.c.Ed.Field)
			return min(f.c.Ed.Field, len(d.Fields)-1)
		}),
	}
	objs := make([]fyne.CanvasObject, len(f.buttons))
	for i, b := range f.buttons {
		objs[i] = b
	}
	head := k.Label("Fields", kit.Strong).Teach("A field fills an area of the band with one motif. Any number of them may lie on a band; between two fields a bridge is kept.")
	buttons := container.New(kit.Columns{Widths: []float32{46, 42, 48, 36, 52, 66}, Gap: 4, Height: 28}, append([]fyne.CanvasObject{head}, objs...)...)
	f.none = kit.Inset(0, 6, 0, 6, k.Passage("None: the band stays plain. Add a field to pierce it.", kit.Soft, ControlsWidth-40))
	f.edit, f.more = kit.Down(1), kit.Down(1)
	f.box = kit.Down(1, buttons, f.list, f.none, f.edit, bridge.Box, rim.Box, f.rules.Box, f.more)
	return f
}

func (f *fieldsPage) object() fyne.CanvasObject { return f.box }

// change edits the list as one step; do returns which field is selected then.
func (f *fieldsPage) change(do func(*pattern.Design) int) {
	d := f.c.Ed.Now()
	to := do(&d)
	if to < 0 && len(d.Fields) > 0 {
		f.c.say(fmt.Sprintf("A band has %d fields at most.", pattern.MaxFields))
		return
	}
	f.c.Ed.Field = max(0, to)
	f.c.Ed.Choose(app.Choice{Path: "fields",
		Get: func(d pattern.Design) string { return fmt.Sprint(len(d.Fields)) },
		Set: func(to *pattern.Design, _ string) { *to = d }}, fmt.Sprint(len(d.Fields)))
	f.c.Ed.SelectField(f.c.Ed.Field)
}

// Counted takes the number of openings of each field from a finished sheet.
func (f *fieldsPage) Counted(s *pattern.Sheet) {
	counts := map[int]int{}
	for i := range s.Openings {
		counts[s.Openings[i].Field]++
	}
	f.counts, f.sheet = counts, s
	f.tellStanding()
	f.tellUsual()
	for i, l := range f.lines {
		l.count.SetText(fmt.Sprint(counts[i]))
	}
}

func (f *fieldsPage) show(d pattern.Design) {
	for _, r := range f.ruleRows {
		r.show(d)
	}
	f.process.show(d)
	f.showRim(d)
	f.c.Ed.Field = max(0, min(f.c.Ed.Field, len(d.Fields)-1))
	f.showList(d)
	changed := false
	if key := f.layout(d); key != f.laidFor {
		f.laidFor, changed = key, true
		f.lay(d)
	}
	for _, r := range f.Rows {
		was := roomOf(r)
		r.show(d)
		changed = changed || roomOf(r) != was
	}
	if changed {
		f.edit.Refresh()
		f.more.Refresh()
	}
	f.rules.Tell(app.RulesText(d))
	if len(d.Fields) > 0 {
		f.tell(d)
	}
}

// showRim shows the curve of the rim's width, with rows for as many points as it has.
func (f *fieldsPage) showRim(d pattern.Design) {
	if n := len(d.Rules.RimAlong); f.RimAlong == nil || n != f.rimPoints {
		f.c.forget(app.RimCurve.Path(0) + "[")
		f.rimPoints = n
		f.RimAlong = newGradeEditor(f.c, f.page, app.RimCurve, 0, n)
		f.rim.RemoveAll()
		f.rim.Add(f.RimAlong.object())
		defer f.page.Box.Refresh()
	}
	f.RimAlong.show(d)
}

// tellUsual tells the usual limits of the process for the sheet, under the rules.
func (f *fieldsPage) tellUsual() {
	text, source := app.UsualText(f.sheet.Design, f.sheet.Flat.Thickness)
	f.Usual.Tip = source
	if f.Usual.Text == text {
		return
	}
	f.Usual.SetText(text)
	kit.Show(f.Usual, text != "")
	f.page.Box.Refresh()
}

func (f *fieldsPage) showList(d pattern.Design) {
	if len(f.lines) != len(d.Fields) {
		f.lines = nil
		f.list.RemoveAll()
		for i := range d.Fields {
			l := newFieldLine(f.c.Kit, func() { f.c.Ed.SelectField(i) })
			f.lines = append(f.lines, l)
			f.list.Add(l.box)
		}
	}
	for i, l := range f.lines {
		l.show(d, i, f.counts[i], i == f.c.Ed.Field)
	}
	kit.Show(f.list, len(d.Fields) > 1) // one says all of itself below
	kit.Show(f.none, len(d.Fields) == 0)
	f.buttons[addButton].SetOff(len(d.Fields) >= pattern.MaxFields)
	f.buttons[copyButton].SetOff(len(d.Fields) == 0 || len(d.Fields) >= pattern.MaxFields)
	f.buttons[upButton].SetOff(f.c.Ed.Field <= 0)
	f.buttons[downButton].SetOff(f.c.Ed.Field >= len(d.Fields)-1)
	f.buttons[removeButton].SetOff(len(d.Fields) == 0)
}

// fieldLine is one field of the list: a picture of its motif, what and where it
// is, and how many openings it has.
type fieldLine struct {
	box     *fyne.Container
	picture *motifPicture
	Text    *kit.Button
	count   *kit.Label
}

func newFieldLine(k *kit.Kit, tap func()) *fieldLine {
	l := &fieldLine{picture: newMotifPicture(k), Text: k.Button("", "", tap), count: k.Label("", kit.Soft).Right().Teach("Openings that are cut in this field.")}
	l.Text.Left = true
	l.box = container.New(kit.Columns{Widths: []float32{36, 0, 30}, Gap: 2, Height: 25}, kit.Sized(36, 22, l.picture.Raster), l.Text, l.count)
	return l
}

func (l *fieldLine) show(d pattern.Design, i, count int, selected bool) {
	l.picture.show(d.Fields[i], kit.MetalOf(d.Metal.Alloy))
	l.Text.SetText(app.FieldText(d, i))
	l.Text.Tip = app.FieldText(d, i)
	l.Text.Choose(selected)
	l.count.SetText(fmt.Sprint(count))
}

// layout distinguishes the sets of rows that a field can have.
func (f *fieldsPage) layout(d pattern.Design) string {
	if f.c.Ed.Field >= len(d.Fields) {
		return "none"
	}
	x := d.Fields[f.c.Ed.Field]
	return fmt.Sprint(f.c.Ed.Field, x.Motif, x.Path != "", x.Area.Shape, x.Area.WidthMM > 0, len(x.GradeAlong), len(x.GradeAcross), len(x.BridgeAlong))
}

// lay makes the rows of the selected field.
func (f *fieldsPage) lay(d pattern.Design) {
	f.c.forget("fields[")
	for i, x := range f.folds {
		if x != nil {
			f.opened[i] = x.Head.Open
		}
	}
	f.Rows, f.motif = nil, nil
	f.edit.RemoveAll()
	f.more.RemoveAll()
	i, k := f.c.Ed.Field, f.c.Kit
	if i >= len(d.Fields) {
		return
	}
	add := func(to *fyne.Container, rs ...row) {
		for _, r := range rs {
			f.Rows = append(f.Rows, r)
			to.Add(r.object())
		}
	}
	numbers := func(to *fyne.Container, ns []app.Number, only func(app.Number) bool) {
		for _, n := range ns {
			if only == nil || only(n) {
				add(to, f.c.numberRow(f.page, n))
			}
		}
	}
	f.motif = newMotifRow(k, i, func() { Shapes{f.c.Desk}.ChooseMotif(i) })
	add(f.edit, f.motif)
	numbers(f.edit, app.Numbers(pattern.GridGroup, i), nil)
	if d.Fields[i].Interlocks() {
		f.edit.Add(container.New(kit.Columns{Widths: []float32{labelWidth, 0}, Gap: columnGap, Height: rowHeight},
			k.Label("Stagger", kit.Soft), k.Label("none: it fits together one way only", kit.Soft)))
	}
	f.stands = k.Passage("", kit.Caption, ControlsWidth-40)
	f.more.Add(kit.Inset(0, 4, 0, 4, f.stands))
	f.tellStanding()
	for n, t := range [foldCount][2]string{
		{"Shape", "The motif's own numbers."},
		{"Place", "Where the field lies on the band, and its name."},
		{"Arrangement", "How the rows lie in the field: pitch, shift, turn, mirror, what happens at the edge, a bridge of its own."},
		{"Sizes", "Openings that grow and shrink along the field or across it."},
	} {
		f.folds[n] = kit.NewFold(k, t[0], t[1], f.toggled)
		f.more.Add(f.folds[n].Box)
	}
	shape := f.folds[shapeFold].Body
	if d.Fields[i].Motif == motif.OwnKey {
		shape.Add(container.New(kit.Columns{Widths: []float32{labelWidth, 150, 0}, Gap: columnGap, Height: 32}, k.Label("Outline", kit.Plain),
			k.Button("Change it\u2026", "Read or paste another shape.", func() { Shapes{f.c.Desk}.OwnMotif(i) }).Framed(), k.Label("", kit.Plain)))
	}
	own := app.MotifNumbers(d, i)
	numbers(shape, own, nil)
	if len(own) == 0 && d.Fields[i].Motif != motif.OwnKey {
		f.folds[shapeFold].Box.Hide()
	}
	place := f.folds[placeFold].Body
	add(place, newChoiceRow(k, f.c.Ed, app.ChoiceOf("fields[].area.shape", i)))
	numbers(place, app.Numbers(pattern.AreaGroup, i), func(n app.Number) bool { return n.Shown(d) })
	title, tip := "A shape of your own\u2026", "Have the field fill a shape read from a drawing or pasted as SVG path data."
	if d.Fields[i].Area.Shape == pattern.PathShape {
		title, tip = "Change the shape\u2026", "Read or paste another shape."
	}
	place.Add(container.New(kit.Columns{Widths: []float32{labelWidth, 0}, Gap: columnGap, Height: 30}, k.Label("", kit.Plain), k.Button(title, tip, func() { Shapes{f.c.Desk}.OwnArea(i) }).Framed()))
	name := app.ChoiceOf("fields[].name", i)
	add(place, newTextRow(k, name.Title, name.Tip, name.Get, func(s string) { f.c.Ed.Choose(name, strings.TrimSpace(s)) }))
	arrange := f.folds[arrangeFold].Body
	for _, c := range app.Choices(pattern.ArrangeGroup, i) {
		add(arrange, newChoiceRow(k, f.c.Ed, c))
	}
	numbers(arrange, app.Numbers(pattern.ArrangeGroup, i), nil)
	sizes := f.folds[sizeFold].Body
	for _, c := range app.Curves() {
		add(sizes, newGradeEditor(f.c, f.page, c, i, len(c.Points(d, i))))
	}
	numbers(sizes, app.Numbers(pattern.SizesGroup, i), nil)
	for n, x := range f.folds {
		x.Open(f.opened[n])
	}
}

// toggled is called after a group was opened or closed by hand. Opening the place shows it
// on the blank.
func (f *fieldsPage) toggled() {
	f.c.Ed.FieldShown = f.c.Ed.FieldShown || f.folds[placeFold].Head.Open
	f.c.Ed.On.Field()
}

// tell writes into the heads of the groups what they hold.
func (f *fieldsPage) tell(d pattern.Design) {
	x := d.Fields[f.c.Ed.Field]
	var own []string
	for _, n := range app.MotifNumbers(d, f.c.Ed.Field) {
		unit := n.Unit
		if unit != "\u00b0" { // the others are said in words, which have no room here
			unit = ""
		}
		own = append(own, strings.ToLower(n.Title)+" "+n.Text(d)+unit)
	}
	f.folds[shapeFold].Tell(strings.Join(own, ", "))
	f.folds[placeFold].Tell(app.AreaText(x.Area))
	f.folds[arrangeFold].Tell(app.ArrangeText(d, f.c.Ed.Field))
	f.folds[sizeFold].Tell(app.SizesText(d, f.c.Ed.Field))
}

// standing is a field on a sheet, and then how it came out.
type standing struct {
	sheet *pattern.Sheet
	field int
	text  string
}

// tellStanding says how the selected field came out: how large a repeat is, at what
// rotation it closes, or why it has no openings. This is worked out in the background.
func (f *fieldsPage) tellStanding() {
	if f.sheet != nil && f.stands != nil && f.stander != nil && f.c.Ed.Field < len(f.sheet.Design.Fields) {
		f.stander.Ask(standing{sheet: f.sheet, field: f.c.Ed.Field})
	}
}

func (f *fieldsPage) setStanding(s standing) {
	if f.sheet != s.sheet || f.c.Ed.Field != s.field || f.stands == nil {
		return
	}
	text := s.text
	v := kit.Caption
	if f.counts[f.c.Ed.Field] == 0 {
		v = kit.Warn
	}
	if f.stands.Text == text && f.stands.Voice == v {
		return
	}
	high := f.stands.Height()
	f.stands.Set(text, v, ControlsWidth-40)
	if f.stands.Height() != high {
		f.page.Box.Refresh()
	}
}
