package pages

import (
	"strings"

	"fretband/app"
	"fretband/app/ui/kit"
	"fretband/pattern"
	"fretband/unroll"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
)

// Widths of the columns that labels, fields and units are in.
const (
	labelWidth = 88
	entryWidth = 68
	unitWidth  = 52
	columnGap  = 6
	rowHeight  = 27
)

// row is one line of the controls.
type row interface {
	object() fyne.CanvasObject
	// show brings the row up to the design.
	show(d pattern.Design)
}

// plain is a row of which only what follows the design is its own.
type plain struct {
	o      fyne.CanvasObject
	follow func(pattern.Design) // nil for one that shows the same for every design
}

func (r plain) object() fyne.CanvasObject { return r.o }

func (r plain) show(d pattern.Design) {
	if r.follow != nil {
		r.follow(d)
	}
}

// NumberRow edits one number: label, slider where there is one, entry, unit.
type NumberRow struct {
	Number app.Number
	kit    *kit.Kit
	ed     *app.Editor
	Box    *fyne.Container
	Name   *kit.Label
	Slider *kit.Slider
	Entry  *kit.Entry
	unit   *kit.Label
	isBad  bool
	say    func(string)
}

func newNumberRow(k *kit.Kit, ed *app.Editor, n app.Number, say func(string)) *NumberRow {
	r := &NumberRow{Number: n, kit: k, ed: ed, say: say}
	r.Name = k.Label(n.Title, kit.Plain).Teach(n.Tip + "\nAllowed: " + n.Allowed() + ".")
	r.unit = k.Label(n.Unit, kit.Soft)
	r.Entry = k.Entry()
	r.Entry.OnCommit = func(typed string) {
		if err := ed.Put(n, typed); err != nil {
			r.bad(true)
			say(err.Error())
			k.Tips.Tell(r.Entry, err.Error())
			return
		}
		r.bad(false)
		r.Entry.Settle(n.Text(ed.Now()))
	}
	r.Entry.OnStep = func(steps float64) { ed.Step(n, steps) }
	r.Entry.OnGiveUp = func() { r.bad(false) }
	r.Entry.OnLeave = func() { r.bad(false); ed.Seal() }
	objs := []fyne.CanvasObject{r.Name}
	cols := kit.Columns{Widths: []float32{0, entryWidth, unitWidth}, Gap: columnGap, Height: rowHeight}
	if n.HasSlider() {
		r.Slider = k.Slider(n.Slider.Min, n.Slider.Max)
		r.Slider.OnMove = func(v float64) { ed.Slide(n, v) }
		r.Slider.OnStep = func(steps float64) { ed.Step(n, steps) }
		r.Slider.OnEnd = ed.Seal
		objs = append(objs, r.Slider)
		cols.Widths = []float32{labelWidth, 0, entryWidth, unitWidth}
	}
	objs = append(objs, r.Entry, r.unit)
	r.Box = container.New(cols, objs...)
	return r
}

func (r *NumberRow) object() fyne.CanvasObject { return r.Box }

func (r *NumberRow) bad(is bool) {
	if is == r.isBad {
		return
	}
	r.isBad = is
	if !is {
		r.say("")
		r.kit.Tips.Leave(r.Entry)
	}
	r.Name.SetVoice(map[bool]kit.Voice{false: kit.Plain, true: kit.Warn}[is])
}

func (r *NumberRow) show(d pattern.Design) {
	if r.Number.Shown != nil && !r.Number.Shown(d) {
		r.Box.Hide()
		return
	}
	r.Box.Show()
	r.Entry.Present(r.Number.Text(d))
	r.showInForce()
	if r.Slider != nil {
		r.Slider.Span(r.Number.Span(d))
	}
}

// showInForce shows the value that holds while there is none in the entry.
func (r *NumberRow) showInForce() {
	if r.Number.Empty != "" {
		r.Entry.WhileEmpty(r.ed.WhileEmpty(r.Number))
	}
	if r.Slider != nil {
		r.Slider.Set(r.ed.InForce(r.Number))
	}
}

// choiceRow edits one either-or.
type choiceRow struct {
	c    app.Choice
	box  *fyne.Container
	list *kit.ChoiceBox
}

func newChoiceRow(k *kit.Kit, ed *app.Editor, c app.Choice) *choiceRow {
	r := &choiceRow{c: c, list: k.ChoiceBox()}
	r.list.OnChoose = func(key string) { ed.Choose(c, key) }
	r.box = container.New(kit.Columns{Widths: []float32{labelWidth, 0}, Gap: columnGap, Height: rowHeight},
		k.Label(c.Title, kit.Plain).Teach(c.Tip), k.Framed(r.list))
	return r
}

func (r *choiceRow) object() fyne.CanvasObject { return r.box }

func (r *choiceRow) show(d pattern.Design) {
	if r.c.Shown != nil && !r.c.Shown(d) {
		r.box.Hide()
		return
	}
	r.box.Show()
	r.list.Offer(r.c.Options(d), r.c.Get(d))
}

// TextRow edits a text of the design.
type TextRow struct {
	Box   *fyne.Container
	Entry *kit.Entry
	get   func(pattern.Design) string
	shown func(pattern.Design) bool
}

func newTextRow(k *kit.Kit, title, tip string, get func(pattern.Design) string, set func(string)) *TextRow {
	r := &TextRow{Entry: k.Entry(), get: get}
	r.Entry.OnCommit = func(typed string) {
		set(typed)
		r.Entry.Settle(typed)
	}
	r.Box = container.New(kit.Columns{Widths: []float32{labelWidth, 0}, Gap: columnGap, Height: rowHeight},
		k.Label(title, kit.Plain).Teach(tip), r.Entry)
	return r
}

func (r *TextRow) object() fyne.CanvasObject { return r.Box }

func (r *TextRow) show(d pattern.Design) {
	if r.shown != nil && !r.shown(d) {
		r.Box.Hide()
		return
	}
	r.Box.Show()
	r.Entry.Present(r.get(d))
}

// newNoteRow makes a few lines of small text.
func newNoteRow(k *kit.Kit, get func(pattern.Design) string) row {
	p := k.Passage("", kit.Caption, ControlsWidth-40)
	return plain{p, func(d pattern.Design) { p.Set(get(d), kit.Caption, p.Width) }}
}

// newSizeRow takes a trade size that is not in the list: a quarter size, or one
// written in another way. What could mean several things is asked about.
func newSizeRow(desk *Desk, title string, say func(string)) *TextRow {
	get := func(d pattern.Design) string { return d.Band.Inside.Size }
	r := newTextRow(desk.Kit, title, "A size as you write it: 7 1/4, N 1/2, Z+2, 54.5, 2-4.", get, nil)
	r.shown = func(d pattern.Design) bool { return d.Band.Inside.By == unroll.BySize }
	r.Entry.OnCommit = func(typed string) {
		d := desk.Ed.Now()
		if err := app.PutSize(&d, typed); err != nil {
			why := "Size: " + err.Error()
			if !strings.HasSuffix(why, "?") {
				why += "."
			}
			say(why)
			desk.Kit.Tips.Tell(r.Entry, why)
			return
		}
		say("")
		desk.Ed.Choose(app.Choice{Path: "band.inside.size", Get: get,
			Set: func(d *pattern.Design, _ string) { _ = app.PutSize(d, typed) }}, typed)
		r.Entry.Settle(d.Band.Inside.Size)
	}
	r.Entry.OnGiveUp = func() { say(""); desk.Kit.Tips.Leave(r.Entry) }
	return r
}
