package ui

import (
	"fmt"

	"fretband/app"
	"fretband/pattern"
	"fretband/pattern/check"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
)

// takeDesign makes d the design, in one step.
func (w *Window) takeDesign(what, says string, d pattern.Design) {
	old := w.doc.Now().Name
	w.doc.Seal()
	w.change("", what, old, says, d)
	w.doc.Seal()
}

// keepVariant asks for a name and keeps the design as it is among its variants.
func (w *Window) keepVariant() {
	k := w.kit
	d := w.doc.Now()
	name := newNumberEntry()
	name.SetText(app.VariantName(d))
	name.onEscape = k.escape
	name.OnSubmitted = func(string) { w.dialogs.enter() }
	bad := k.passage("", warnVoice, 420)
	body := container.New(stackDown{8},
		k.passage("The design as it is now is kept in the same file, to be compared with or taken up again later.", plainVoice, 420),
		container.New(columns{widths: []float32{60, 340}, gap: 8, height: rowHeight}, k.label("Name", plainVoice), name), bad)
	var dl *dialog
	dl = w.dialogs.ask("Keep as a variant", body, nil, answer{text: "Cancel"}, answer{text: "Keep", main: true, stay: true, do: func() {
		next := w.doc.Now()
		if err := app.KeepVariant(&next, name.Text); err != nil {
			bad.set(err.Error()+".", warnVoice, 420)
			dl.panel.Refresh()
			return
		}
		dl.close()
		w.takeDesign("variants", "kept "+name.Text, next)
	}})
	dl.named("name", name)
	w.win.Canvas().Focus(name)
}

// showVariants lays the design and its variants side by side.
func (w *Window) showVariants() {
	k := w.kit
	d := w.doc.Now()
	if len(d.Variants) == 0 {
		w.dialogs.ask("Variants", k.passage("None is kept yet. Keep the design as it is, go on working, and compare the two here.", plainVoice, 420), nil,
			answer{text: "Close"}, answer{text: "Keep as a variant...", main: true, do: w.keepVariant})
		return
	}
	w.background(func() {
		all := append([]pattern.Design{d}, d.Variants...)
		scenes := make([]*scene, len(all))
		faults := make([]string, len(all))
		for i, v := range all {
			s, r, err := check.Lay(v)
			if err != nil {
				faults[i] = err.Error()
				continue
			}
			scenes[i] = newScene(-1-i, s, r)
		}
		w.post(func() { w.compareVariants(all, scenes, faults) })
	})
}

func (w *Window) compareVariants(all []pattern.Design, scenes []*scene, faults []string) {
	k := w.kit
	var d *dialog
	var list []candidate
	var named []field
	for i, v := range all {
		c := candidate{title: v.Name, scene: scenes[i], says: faults[i], bad: faults[i] != ""}
		if i == 0 {
			c.says = "The one that is worked at. The others' figures are told against it."
		} else {
			n := i - 1
			take := k.button("Take up", "Work at this one; the present design takes its place among the variants.", func() {
				d.close()
				next := w.doc.Now()
				app.TakeVariant(&next, n)
				w.takeDesign("variants", "took up "+v.Name, next)
			}).framedOne()
			drop := k.button("Remove", "Take this variant out of the file. Undo brings it back.", func() {
				d.close()
				next := w.doc.Now()
				app.DropVariant(&next, n)
				w.takeDesign("variants", "removed "+v.Name, next)
				w.showVariants()
			}).framedOne()
			c.buttons = []fyne.CanvasObject{take, drop}
			named = append(named, field{fmt.Sprintf("take-%d", n), take}, field{fmt.Sprintf("remove-%d", n), drop})
			if c.says == "" {
				c.says = difference(all[0], v)
			}
		}
		list = append(list, c)
	}
	d = w.dialogs.ask("Variants", w.sideways(k.sideBySide(list)), nil, answer{text: "Keep as a variant...", do: w.keepVariant}, answer{text: "Close", main: true})
	d.fields = append(d.fields, named...)
	w.log.Event("variants", "count", len(all)-1)
	w.tellSoon()
}

// difference tells in a few words in what a variant differs.
func difference(a, b pattern.Design) string {
	if ds := app.Differences(a, b, 4); ds != "" {
		return ds
	}
	return "The same numbers."
}
