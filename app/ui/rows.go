package ui

import (
	"fretband/app"
	"fretband/app/ui/kit"
	"fretband/pattern"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
)

// Widths of the columns that labels, fields and units stand in.
const (
	labelWidth = 88
	entryWidth = 68
	unitWidth  = 52
	columnGap  = 6
	rowHeight  = 27
)

// editor is what the rows of the controls call: the window.
type editor interface {
	now() pattern.Design
	// put writes what was typed into a number; it returns what is wrong with it.
	put(n app.Number, typed string) error
	slide(n app.Number, v float64)
	step(n app.Number, steps float64)
	seal()
	pickOption(c app.Choice, key string)
}

// row is one line of the controls.
type row interface {
	object() fyne.CanvasObject
	// show brings the row up to the design.
	show(d pattern.Design)
}

// numberRow edits one number: label, slider where there is one, entry, unit.
type numberRow struct {
	n      app.Number
	kit    *kit.Kit
	box    *fyne.Container
	name   *kit.Label
	slider *kit.Slider
	entry  *kit.Entry
	unit   *kit.Label
	isBad  bool
	say    func(string)
}

func newNumberRow(k *kit.Kit, ed editor, n app.Number, say func(string)) *numberRow {
	r := &numberRow{n: n, kit: k, say: say}
	r.name = k.Label(n.Title, kit.Plain).Teach(n.Tip + "\nAllowed: " + n.Allowed() + ".")
	r.unit = k.Label(n.Unit, kit.Soft)
	r.entry = k.Entry()
	r.entry.OnCommit = func(typed string) {
		if err := ed.put(n, typed); err != nil {
			r.bad(true)
			say(err.Error())
			k.Tips.Tell(r.entry, err.Error())
			return
		}
		r.bad(false)
		r.entry.Settle(n.Text(ed.now()))
	}
	r.entry.OnStep = func(steps float64) { ed.step(n, steps) }
	r.entry.OnGiveUp = func() { r.bad(false) }
	r.entry.OnLeave = func() { r.bad(false); ed.seal() }
	objs := []fyne.CanvasObject{r.name}
	cols := kit.Columns{Widths: []float32{0, entryWidth, unitWidth}, Gap: columnGap, Height: rowHeight}
	if n.HasSlider() {
		r.slider = k.Slider(n.Slider.Min, n.Slider.Max)
		r.slider.OnMove = func(v float64) { ed.slide(n, v) }
		r.slider.OnStep = func(steps float64) { ed.step(n, steps) }
		r.slider.OnEnd = ed.seal
		objs = append(objs, r.slider)
		cols.Widths = []float32{labelWidth, 0, entryWidth, unitWidth}
	}
	objs = append(objs, r.entry, r.unit)
	r.box = container.New(cols, objs...)
	return r
}

func (r *numberRow) object() fyne.CanvasObject { return r.box }

func (r *numberRow) bad(is bool) {
	if is == r.isBad {
		return
	}
	r.isBad = is
	if !is {
		r.say("")
		r.kit.Tips.Leave(r.entry)
	}
	v := kit.Plain
	if is {
		v = kit.Warn
	}
	r.name.SetVoice(v)
}

func (r *numberRow) show(d pattern.Design) {
	if r.n.Shown != nil && !r.n.Shown(d) {
		r.box.Hide()
		return
	}
	r.box.Show()
	r.entry.Present(r.n.Text(d))
	if r.slider != nil {
		r.slider.Span(r.n.Span(d))
		r.slider.Set(r.n.Get(d))
	}
}

// choiceRow edits one either-or.
type choiceRow struct {
	c    app.Choice
	box  *fyne.Container
	list *kit.ChoiceBox
}

func newChoiceRow(k *kit.Kit, ed editor, c app.Choice) *choiceRow {
	r := &choiceRow{c: c, list: k.ChoiceBox()}
	r.list.OnChoose = func(key string) { ed.pickOption(c, key) }
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

// textRow edits a text of the design.
type textRow struct {
	box   *fyne.Container
	entry *kit.Entry
	get   func(pattern.Design) string
	shown func(pattern.Design) bool
}

func newTextRow(k *kit.Kit, title, tip string, get func(pattern.Design) string, set func(string)) *textRow {
	r := &textRow{entry: k.Entry(), get: get}
	r.entry.OnCommit = func(typed string) {
		set(typed)
		r.entry.Settle(typed)
	}
	r.box = container.New(kit.Columns{Widths: []float32{labelWidth, 0}, Gap: columnGap, Height: rowHeight},
		k.Label(title, kit.Plain).Teach(tip), r.entry)
	return r
}

func (r *textRow) object() fyne.CanvasObject { return r.box }

func (r *textRow) show(d pattern.Design) {
	if r.shown != nil && !r.shown(d) {
		r.box.Hide()
		return
	}
	r.box.Show()
	r.entry.Present(r.get(d))
}

// noteRow is a few lines of small text.
type noteRow struct {
	p   *kit.Passage
	get func(pattern.Design) string
}

func (r *noteRow) object() fyne.CanvasObject { return r.p }

func (r *noteRow) show(d pattern.Design) { r.p.Set(r.get(d), kit.Caption, r.p.Width) }
