package pages

import (
	"context"
	"errors"
	"fmt"

	"fretband/app"
	"fretband/app/ui/kit"
	"fretband/pattern/target"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
)

// ForWeight asks for a weight, looks for ways to it in the background, and shows
// them side by side; the one that is taken becomes the design, in one step that
// can be undone.
func (cm Compare) ForWeight() {
	if cm.Ed.Scene == nil {
		return
	}
	k, r := cm.Kit, cm.Ed.Scene.Report
	entry := cm.Kit.Dialogs.Entry(app.FormatNumber(r.Left*0.9, 1))
	kinds := []struct{ kind, title, unit, tip string }{
		{target.Left, "Weight left", "g", "So many grams of metal are left."},
		{target.Taken, "Taken out", "%", "Such a share of the plain band's weight is taken out."},
		{target.Lightest, "As light as the rules allow", "", "The lightest that breaks no rule and brings no new caution."},
	}
	chosen := 0
	unit := k.Label("g", kit.Soft)
	bad := k.Passage("", kit.Warn, 420)
	var picks []*kit.Button
	pick := func(i int) {
		chosen = i
		for j, b := range picks {
			b.Choose(i == j)
		}
		unit.SetText(kinds[i].unit)
		if kinds[i].kind == target.Lightest {
			entry.Disable()
		} else {
			entry.Enable()
			cm.Kit.Dialogs.Focus(entry)
		}
	}
	list := kit.Down(2)
	for i, c := range kinds {
		b := k.Button(c.title, c.tip, func() { pick(i) })
		b.Left = true
		picks = append(picks, b)
		list.Add(b)
	}
	body := kit.Down(8,
		k.Passage(fmt.Sprintf("The band weighs %s g plain and %s g as it is. Bridge, rim, repeats and the size of cells are tried in turn; no rule of the design is broken, and bridges never go under the usual least for the sheet.",
			decimals(r.Plain, 2), decimals(r.Left, 2)), kit.Plain, 420),
		list,
		container.New(kit.Columns{Widths: []float32{120, entryWidth, 40}, Gap: 8, Height: rowHeight}, k.Label("How much", kit.Plain), entry, unit),
		bad)
	var d *kit.Dialog
	d = cm.Kit.Dialogs.Ask("Reach a weight", body, nil, kit.Answer{Text: "Cancel"}, kit.Answer{Text: "Look for ways", Main: true, Stay: true, Do: func() {
		g := target.Target{Kind: kinds[chosen].kind}
		if g.Kind != target.Lightest {
			q, err := app.ReadQuantity(entry.Text, kinds[chosen].unit, false, 0)
			if err != nil {
				bad.Set(sentence(err.Error()), kit.Warn, 420)
				return
			}
			g.Value = q.Value
			if g.Kind == target.Taken {
				g.Value /= 100
			}
		}
		d.Close()
		cm.SearchWays(g)
	}})
	for i, c := range kinds {
		d.Named(c.kind, picks[i])
	}
	d.Named("weight", entry)
	pick(0)
}

// SearchWays looks for ways in the background; giving the dialog up stops it.
func (cm Compare) SearchWays(g target.Target) {
	k := cm.Kit
	ctx, stop := context.WithCancel(context.Background())
	from := cm.Ed.Now()
	wait := cm.Kit.Dialogs.Ask("Looking for ways", k.Passage("Bridge, rim, repeats and cell size are tried one after the other.", kit.Plain, 420), stop,
		kit.Answer{Text: "Stop", Do: stop})
	cm.Background(func() {
		choices, err := target.Find(ctx, from, g)
		var scenes []*app.Scene
		for i, c := range choices {
			scenes = append(scenes, app.NewScene(-i, c.Sheet, c.Report))
		}
		cm.Post(func() {
			stop()
			wait.Close()
			switch {
			case errors.Is(err, context.Canceled):
			case err != nil:
				cm.Kit.Dialogs.Say("That can't be reached", err.Error()+".")
			default:
				cm.showWays(choices, scenes)
			}
		})
	})
}

func (cm Compare) showWays(choices []target.Choice, scenes []*app.Scene) {
	k := cm.Kit
	var d *kit.Dialog
	var all []candidate
	var takes []*kit.Button
	reached := 0
	for i, c := range choices {
		one := candidate{title: c.Title, says: c.Says, scene: scenes[i]}
		if i > 0 {
			title := "Take this"
			if c.Met {
				reached++
			} else {
				one.bad = true
				one.says = c.Why + " (" + c.Says + ")"
				title = "Take it all the same"
			}
			b := k.Button(title, "The design becomes this one, in one step that can be undone.", func() {
				d.Close()
				cm.Ed.Adopt("reach", c.Says, c.Design)
			}).Framed()
			takes = append(takes, b)
			one.buttons = []fyne.CanvasObject{b}
		}
		all = append(all, one)
		cm.Ed.Log.Event("way", "key", c.Way, "left_g", c.Report.Left, "reached", c.Met)
	}
	title := fmt.Sprintf("%d ways to reach it", reached)
	switch reached {
	case 0:
		title = "No way reaches it: this is what stands in the way"
	case 1:
		title = "One way to reach it"
	}
	d = cm.Kit.Dialogs.Ask(title, cm.sideways(cm.sideBySide(all)), nil, kit.Answer{Text: "Leave it as it is", Main: true})
	for i, b := range takes {
		d.Named("take-"+choices[i+1].Way, b)
	}
	cm.Opened()
}
