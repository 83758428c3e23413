package ui

import (
	"context"
	"errors"
	"fmt"

	"fretband/app"
	"fretband/pattern/goal"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
)

// reachWeight asks for a weight, looks for ways to it in the background, and shows
// them side by side; the one that is taken becomes the design, in one step that
// can be undone.
func (w *Window) reachWeight() {
	if w.scene == nil {
		return
	}
	k := w.kit
	entry := newNumberEntry()
	entry.onEscape = k.escape
	entry.OnSubmitted = func(string) { w.dialogs.enter() }
	kinds := []struct{ kind, title, unit, tip string }{
		{goal.Left, "Weight left", "g", "So many grams of metal are left."},
		{goal.Taken, "Taken out", "%", "Such a share of the plain band's weight is taken out."},
		{goal.Lightest, "As light as the rules allow", "", "The lightest that breaks no rule and brings no new caution."},
	}
	chosen := 0
	unit := k.label("g", softVoice)
	bad := k.passage("", warnVoice, 420)
	var picks []*button
	pick := func(i int) {
		chosen = i
		for j, b := range picks {
			b.choose(i == j)
		}
		unit.setText(kinds[i].unit)
		if kinds[i].kind == goal.Lightest {
			entry.Disable()
		} else {
			entry.Enable()
			w.win.Canvas().Focus(entry)
		}
	}
	list := container.New(stackDown{2})
	for i, c := range kinds {
		b := k.button(c.title, c.tip, func() { pick(i) })
		b.left = true
		picks = append(picks, b)
		list.Add(b)
	}
	r := w.scene.report
	entry.SetText(app.FormatNumber(r.Left*0.9, 1))
	body := container.New(stackDown{8},
		k.passage(fmt.Sprintf("The band weighs %s g plain and %s g as it is. Bridge, rim, repeats and the size of cells are tried in turn; no rule of the design is broken, and bridges never go under the usual least for the sheet.",
			decimals(r.Plain, 2), decimals(r.Left, 2)), plainVoice, 420),
		list,
		container.New(columns{widths: []float32{120, entryWidth, 40}, gap: 8, height: rowHeight}, k.label("How much", plainVoice), entry, unit),
		bad)
	var d *dialog
	d = w.dialogs.ask("Reach a weight", body, nil, answer{text: "Cancel"}, answer{text: "Look for ways", main: true, stay: true, do: func() {
		g := goal.Goal{Kind: kinds[chosen].kind}
		if g.Kind != goal.Lightest {
			q, err := app.ReadQuantity(entry.Text, "", false)
			if err != nil {
				bad.set("Type a number.", warnVoice, 420)
				return
			}
			g.Value = q.Value
			if g.Kind == goal.Taken {
				g.Value /= 100
			}
		}
		d.close()
		w.searchWays(g)
	}})
	for i, c := range kinds {
		d.named(c.kind, picks[i])
	}
	d.named("weight", entry)
	pick(0)
}

// searchWays looks for ways in the background; giving the dialog up stops it.
func (w *Window) searchWays(g goal.Goal) {
	k := w.kit
	ctx, stop := context.WithCancel(context.Background())
	from := w.doc.Now()
	wait := w.dialogs.ask("Looking for ways", k.passage("Bridge, rim, repeats and cell size are tried one after the other.", plainVoice, 420), stop,
		answer{text: "Stop", do: stop})
	w.background(func() {
		choices, err := goal.Reach(ctx, from, g)
		var scenes []*scene
		for i, c := range choices {
			scenes = append(scenes, newScene(-i, c.Sheet, c.Report))
		}
		w.post(func() {
			stop()
			wait.close()
			switch {
			case errors.Is(err, context.Canceled):
			case err != nil:
				w.dialogs.say("That can't be reached", err.Error()+".")
			default:
				w.showWays(choices, scenes)
			}
		})
	})
}

func (w *Window) showWays(choices []goal.Choice, scenes []*scene) {
	k := w.kit
	var d *dialog
	var all []candidate
	var takes []*button
	reached := 0
	for i, c := range choices {
		one := candidate{title: c.Title, says: c.Says, scene: scenes[i]}
		if i > 0 {
			title := "Take this"
			if c.Reached {
				reached++
			} else {
				one.bad = true
				one.says = c.Why + " (" + c.Says + ")"
				title = "Take it all the same"
			}
			b := k.button(title, "The design becomes this one, in one step that can be undone.", func() {
				d.close()
				w.takeDesign("reach", c.Says, c.Design)
			}).framedOne()
			takes = append(takes, b)
			one.buttons = []fyne.CanvasObject{b}
		}
		all = append(all, one)
		w.log.Event("way", "key", c.Way, "left_g", c.Report.Left, "reached", c.Reached)
	}
	title := fmt.Sprintf("%d ways to reach it", reached)
	switch reached {
	case 0:
		title = "No way reaches it: this is what stands in the way"
	case 1:
		title = "One way to reach it"
	}
	d = w.dialogs.ask(title, w.sideways(k.sideBySide(all)), nil, answer{text: "Leave it as it is", main: true})
	for i, b := range takes {
		d.named("take-"+choices[i+1].Way, b)
	}
	w.tellSoon()
}
