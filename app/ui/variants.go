package ui

import (
	"fmt"

	"fretband/app"
	"fretband/app/ui/kit"
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
	name := w.dialogs.Entry(app.VariantName(d))
	bad := k.Passage("", kit.Warn, 420)
	body := kit.Down(8,
		k.Passage("The design as it is now is kept in the same file, to be compared with or taken up again later.", kit.Plain, 420),
		container.New(kit.Columns{Widths: []float32{60, 340}, Gap: 8, Height: rowHeight}, k.Label("Name", kit.Plain), name), bad)
	var dl *kit.Dialog
	dl = w.dialogs.Ask("Keep as a variant", body, nil, kit.Answer{Text: "Cancel"}, kit.Answer{Text: "Keep", Main: true, Stay: true, Do: func() {
		next := w.doc.Now()
		if err := app.KeepVariant(&next, name.Text); err != nil {
			bad.Set(err.Error()+".", kit.Warn, 420)
			dl.Panel.Refresh()
			return
		}
		dl.Close()
		w.takeDesign("variants", "kept "+name.Text, next)
	}})
	dl.Named("name", name)
	w.win.Canvas().Focus(name)
}

// showVariants lays the design and its variants side by side.
func (w *Window) showVariants() {
	k := w.kit
	d := w.doc.Now()
	if len(d.Variants) == 0 {
		w.dialogs.Ask("Variants", k.Passage("None is kept yet. Keep the design as it is, go on working, and compare the two here.", kit.Plain, 420), nil,
			kit.Answer{Text: "Close"}, kit.Answer{Text: "Keep as a variant...", Main: true, Do: w.keepVariant})
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
	var d *kit.Dialog
	var list []candidate
	var named []kit.Field
	for i, v := range all {
		c := candidate{title: v.Name, scene: scenes[i], says: faults[i], bad: faults[i] != ""}
		if i == 0 {
			c.says = "The one that is worked at. The others' figures are told against it."
		} else {
			n := i - 1
			take := k.Button("Take up", "Work at this one; the present design takes its place among the variants.", func() {
				d.Close()
				next := w.doc.Now()
				app.TakeVariant(&next, n)
				w.takeDesign("variants", "took up "+v.Name, next)
			}).Framed()
			drop := k.Button("Remove", "Take this variant out of the file. Undo brings it back.", func() {
				d.Close()
				next := w.doc.Now()
				app.DropVariant(&next, n)
				w.takeDesign("variants", "removed "+v.Name, next)
				w.showVariants()
			}).Framed()
			c.buttons = []fyne.CanvasObject{take, drop}
			named = append(named, kit.Field{Name: fmt.Sprintf("take-%d", n), Object: take}, kit.Field{Name: fmt.Sprintf("remove-%d", n), Object: drop})
			if c.says == "" {
				c.says = difference(all[0], v)
			}
		}
		list = append(list, c)
	}
	d = w.dialogs.Ask("Variants", w.sideways(sideBySide(k, list)), nil, kit.Answer{Text: "Keep as a variant...", Do: w.keepVariant}, kit.Answer{Text: "Close", Main: true})
	d.Fields = append(d.Fields, named...)
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
