package pages

import (
	"cmp"
	"context"
	"errors"
	"fmt"
	"strings"

	"fretband/app"
	"fretband/app/ui/kit"
	"fretband/pattern"
	"fretband/pattern/check"
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
	wait := cm.Kit.Dialogs.Ask("Looking for ways", k.Passage("Bridge, rim, repeats and cell size are tried one after the other. Then it is solved how each carries load.", kit.Plain, 420), stop,
		kit.Answer{Text: "Stop", Do: stop})
	cm.Background(func() {
		choices, err := target.Find(ctx, from, g)
		var scenes []*app.Scene
		for i := range choices {
			c := &choices[i]
			if i == 0 || !app.Equal(c.Design, from) {
				c.Report = check.Strengthen(ctx, c.Sheet, check.Deepen(c.Sheet, c.Report), check.Unasked())
			}
			scenes = append(scenes, app.NewScene(-i, c.Sheet, c.Report))
		}
		cm.Post(func() {
			if err == nil {
				err = ctx.Err() // given up while it was solved
			}
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
	named := map[int]string{} // the ways that can be taken, by their buttons
	reached := 0
	var none []string // ways that would change nothing, and what stands in their way
	for i, c := range choices {
		one := candidate{title: c.Title, says: c.Says, scene: scenes[i]}
		if i > 0 && app.Equal(c.Design, choices[0].Design) {
			if why := cmp.Or(c.Why, "it is as far as it goes"); !c.Met {
				none = append(none, c.Title+": "+why)
			}
			continue
		}
		if i > 0 {
			title := "Take this"
			if c.Met {
				reached++
			} else {
				one.bad = true
				one.says = c.Why + " (" + c.Says + ")"
				title = "Take it all the same"
			}
			one.says = strings.TrimSuffix(one.says, ".") + ". " + costWords(choices[0].Report, c.Report)
			named[len(takes)] = c.Way
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
	body := cm.sideways(cm.sideBySide(all))
	if len(none) > 0 {
		body = kit.Down(8, body, k.Passage("Would change nothing. "+strings.Join(none, "; ")+".", kit.Soft, 560))
	}
	d = cm.Kit.Dialogs.Ask(title, body, nil, kit.Answer{Text: "Leave it as it is", Main: true})
	for i, b := range takes {
		d.Named("take-"+named[i], b)
	}
	cm.Opened()
}

// costWords says in a sentence what a way costs: openings, new cautions, and how the band
// springs, as far as that has been solved.
func costWords(from, to *check.Report) string {
	var costs []string
	if n := from.Openings - to.Openings; n > 0 {
		costs = append(costs, many(n, "opening fewer", "openings fewer"))
	} else if n < 0 {
		costs = append(costs, many(-n, "opening more", "openings more"))
	}
	had := map[check.Kind]bool{}
	for _, f := range from.Findings {
		had[f.Kind] = had[f.Kind] || f.Open()
	}
	for _, f := range to.Findings {
		if f.Open() && !had[f.Kind] {
			had[f.Kind] = true
			costs = append(costs, "new: "+strings.TrimSuffix(f.What, "."))
		}
	}
	if solved(from) && solved(to) {
		a, b := from.Strength.Cases[0], to.Strength.Cases[0]
		if share := 100 * (a.PerN/b.PerN - 1); share >= 0.5 {
			costs = append(costs, pattern.Say("%.0f %% stiffer", share))
		} else if share <= -0.5 {
			costs = append(costs, pattern.Say("%.0f %% softer", -share))
		}
		if yields(from) && yields(to) {
			costs = append(costs, pattern.Say("bridges yield at %.1f mm, not at %.1f", b.BridgeYield, a.BridgeYield))
		}
	}
	if costs == nil {
		return "No opening is lost, and nothing new is found."
	}
	return sentence(strings.Join(costs, "; "))
}
