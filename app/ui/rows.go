package ui

import (
	"fretband/app"
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
	kit    *kit
	box    *fyne.Container
	name   *label
	slider *slider
	entry  *numberEntry
	unit   *label
	isBad  bool
	say    func(string)
}

func newNumberRow(k *kit, ed editor, n app.Number, say func(string)) *numberRow {
	r := &numberRow{n: n, kit: k, say: say}
	r.name = k.label(n.Title, plainVoice).teach(n.Tip + "\nAllowed: " + n.Allowed() + ".")
	r.unit = k.label(n.Unit, softVoice)
	r.entry = newNumberEntry()
	r.entry.onCommit = func(typed string) {
		if err := ed.put(n, typed); err != nil {
			r.bad(true)
			say(err.Error())
			k.tips.tell(r.entry, err.Error())
			return
		}
		r.bad(false)
		r.entry.settle(n.Text(ed.now()))
	}
	r.entry.onStep = func(steps float64) { ed.step(n, steps) }
	r.entry.onGiveUp = func() { r.bad(false) }
	r.entry.onLeave = func() { r.bad(false); ed.seal() }
	r.entry.onEscape = func() { k.escape() }
	objs := []fyne.CanvasObject{r.name}
	cols := columns{widths: []float32{0, entryWidth, unitWidth}, gap: columnGap, height: rowHeight}
	if n.HasSlider() {
		r.slider = newSlider(n.Low, n.High, k.worn)
		r.slider.onMove = func(v float64) { ed.slide(n, v) }
		r.slider.onStep = func(steps float64) { ed.step(n, steps) }
		r.slider.onEnd = ed.seal
		objs = append(objs, r.slider)
		cols.widths = []float32{labelWidth, 0, entryWidth, unitWidth}
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
		r.kit.tips.leave(r.entry)
	}
	v := plainVoice
	if is {
		v = warnVoice
	}
	r.name.setVoice(v)
}

func (r *numberRow) show(d pattern.Design) {
	if r.n.Shown != nil && !r.n.Shown(d) {
		r.box.Hide()
		return
	}
	r.box.Show()
	r.entry.show(r.n.Text(d))
	if r.slider != nil {
		r.slider.span(r.n.Span(d))
		r.slider.set(r.n.Get(d))
	}
}

// choiceRow edits one either-or.
type choiceRow struct {
	c    app.Choice
	box  *fyne.Container
	list *choiceBox
}

func newChoiceRow(k *kit, ed editor, c app.Choice) *choiceRow {
	r := &choiceRow{c: c, list: newChoiceBox()}
	r.list.onChoose = func(key string) { ed.pickOption(c, key) }
	r.box = container.New(columns{widths: []float32{labelWidth, 0}, gap: columnGap, height: rowHeight},
		k.label(c.Title, plainVoice).teach(c.Tip), k.framed(r.list))
	return r
}

func (r *choiceRow) object() fyne.CanvasObject { return r.box }

func (r *choiceRow) show(d pattern.Design) {
	if r.c.Shown != nil && !r.c.Shown(d) {
		r.box.Hide()
		return
	}
	r.box.Show()
	r.list.show(r.c.Options(d), r.c.Get(d))
}

// textRow edits a text of the design.
type textRow struct {
	box   *fyne.Container
	entry *numberEntry
	get   func(pattern.Design) string
	shown func(pattern.Design) bool
}

func newTextRow(k *kit, title, tip string, get func(pattern.Design) string, set func(string)) *textRow {
	r := &textRow{entry: newNumberEntry(), get: get}
	r.entry.onCommit = func(typed string) {
		set(typed)
		r.entry.settle(typed)
	}
	r.entry.onEscape = func() { k.escape() }
	r.box = container.New(columns{widths: []float32{labelWidth, 0}, gap: columnGap, height: rowHeight},
		k.label(title, plainVoice).teach(tip), r.entry)
	return r
}

func (r *textRow) object() fyne.CanvasObject { return r.box }

func (r *textRow) show(d pattern.Design) {
	if r.shown != nil && !r.shown(d) {
		r.box.Hide()
		return
	}
	r.box.Show()
	r.entry.show(r.get(d))
}

// noteRow is a few lines of small text.
type noteRow struct {
	p   *passage
	get func(pattern.Design) string
}

func (r *noteRow) object() fyne.CanvasObject { return r.p }

func (r *noteRow) show(d pattern.Design) { r.p.set(r.get(d), captionVoice, r.p.width) }
