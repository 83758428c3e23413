package pages

import (
	"fmt"

	"fretband/app"
	"fretband/app/ui/kit"
	"fretband/pattern"
	"fretband/pattern/check"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
)

// KeepVariant asks for a name and keeps the design as it is among its variants.
func (cm Compare) KeepVariant() {
	k := cm.Kit
	d := cm.Ed.Now()
	name := cm.Kit.Dialogs.Entry(app.VariantName(d))
	bad := k.Passage("", kit.Warn, 420)
	body := kit.Down(8,
		k.Passage("The design as it is now is kept in the same file, to be compared with or taken up again later.", kit.Plain, 420),
		container.New(kit.Columns{Widths: []float32{60, 340}, Gap: 8, Height: rowHeight}, k.Label("Name", kit.Plain), name), bad)
	var dl *kit.Dialog
	dl = cm.Kit.Dialogs.Ask("Keep as a variant", body, nil, kit.Answer{Text: "Cancel"}, kit.Answer{Text: "Keep", Main: true, Stay: true, Do: func() {
		next := cm.Ed.Now()
		if err := app.KeepVariant(&next, name.Text); err != nil {
			bad.Set(err.Error()+".", kit.Warn, 420)
			dl.Panel.Refresh()
			return
		}
		dl.Close()
		cm.Ed.Adopt("variants", "kept "+name.Text, next)
	}})
	dl.Named("name", name)
	cm.Kit.Dialogs.Focus(name)
}

// ShowVariants lays the design and its variants side by side.
func (cm Compare) ShowVariants() {
	k := cm.Kit
	d := cm.Ed.Now()
	if len(d.Variants) == 0 {
		cm.Kit.Dialogs.Ask("Variants", k.Passage("None is kept yet. Keep the design as it is, go on working, and compare the two here.", kit.Plain, 420), nil,
			kit.Answer{Text: "Close"}, kit.Answer{Text: "Keep as a variant...", Main: true, Do: cm.KeepVariant})
		return
	}
	cm.Background(func() {
		all := append([]pattern.Design{d}, d.Variants...)
		scenes := make([]*app.Scene, len(all))
		faults := make([]string, len(all))
		for i, v := range all {
			s, r, err := check.Lay(v)
			if err != nil {
				faults[i] = err.Error()
				continue
			}
			scenes[i] = app.NewScene(-1-i, s, r)
		}
		cm.Post(func() { cm.compareVariants(all, scenes, faults) })
	})
}

func (cm Compare) compareVariants(all []pattern.Design, scenes []*app.Scene, faults []string) {
	k := cm.Kit
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
				next := cm.Ed.Now()
				app.TakeVariant(&next, n)
				cm.Ed.Adopt("variants", "took up "+v.Name, next)
			}).Framed()
			drop := k.Button("Remove", "Take this variant out of the file. Undo brings it back.", func() {
				d.Close()
				next := cm.Ed.Now()
				app.DropVariant(&next, n)
				cm.Ed.Adopt("variants", "removed "+v.Name, next)
				cm.ShowVariants()
			}).Framed()
			c.buttons = []fyne.CanvasObject{take, drop}
			named = append(named, kit.Field{Name: fmt.Sprintf("take-%d", n), Object: take}, kit.Field{Name: fmt.Sprintf("remove-%d", n), Object: drop})
			if c.says == "" {
				c.says = difference(all[0], v)
			}
		}
		list = append(list, c)
	}
	d = cm.Kit.Dialogs.Ask("Variants", cm.sideways(cm.sideBySide(list)), nil, kit.Answer{Text: "Keep as a variant...", Do: cm.KeepVariant}, kit.Answer{Text: "Close", Main: true})
	d.Fields = append(d.Fields, named...)
	cm.Ed.Log.Event("variants", "count", len(all)-1)
	cm.Opened()
}

// difference says in a few words how a variant differs.
func difference(a, b pattern.Design) string {
	if ds := app.Differences(a, b, 4); ds != "" {
		return ds
	}
	return "The same numbers."
}
