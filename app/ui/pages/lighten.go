package pages

import (
	"fmt"

	"fretband/app"
	"fretband/app/ui/kit"
	"fretband/export/picture"
	"fretband/pattern"
	"fretband/pattern/target"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
)

// Lighten asks for a weight, or none, and looks for ways to have less metal that carries
// as much.
func (cm Compare) Lighten() {
	if cm.Ed.Scene == nil {
		return
	}
	k := cm.Kit
	entry := k.Dialogs.Entry("")
	bad := k.Passage("", kit.Warn, 420)
	var d *kit.Dialog
	d = k.Dialogs.Ask("Lighten where metal idles", kit.Down(8,
		k.Passage(pattern.Say("Rims, ends and the size of openings are changed in turn, and each try is solved. Without a weight the band comes out as light as it can be while it stays as stiff, and goes as far before whole bridges yield, within %.0f %%. With one, you see how much of that is left at the weight.", 100*target.Held), kit.Plain, 420),
		container.New(kit.Columns{Widths: []float32{120, entryWidth, 40}, Gap: 8, Height: rowHeight}, k.Label("Weight, if you want one", kit.Plain), entry, k.Label("g", kit.Soft)),
		bad), nil, kit.Answer{Text: "Cancel"}, kit.Answer{Text: "Look for ways", Main: true, Stay: true, Do: func() {
		left := 0.0
		if entry.Text != "" {
			q, err := app.ReadQuantity(entry.Text, "g", false, 0)
			if err != nil {
				bad.Set(sentence(err.Error()), kit.Warn, 420)
				return
			}
			left = q.Value
		}
		d.Close()
		cm.Lightened(left)
	}})
	d.Named("weight", entry)
}

// Lightened looks for the ways and shows them side by side; the one that is taken becomes
// the design, in one step that can be undone. left is the weight to come to, g; 0 is as
// light as it goes.
func (cm Compare) Lightened(left float64) {
	k := cm.Kit
	solved := k.Label(" ", kit.Soft)
	var stop func()
	wait := k.Dialogs.Ask("Looking for metal that idles", solved, func() { stop() }, kit.Answer{Text: "Stop", Do: func() { stop() }})
	stop = app.Lighten(cm.Ed.Now(), left, cm.Background, cm.Post, func(done, of int) {
		solved.SetText(fmt.Sprintf("Solved: %d, of %d at most.", done, of))
	}, func(l *target.Lightened, err error) {
		wait.Close()
		if err != nil {
			k.Dialogs.Say("That can't be lightened", err.Error()+".")
			return
		}
		cm.showLighter(l)
	})
}

func (cm Compare) showLighter(l *target.Lightened) {
	k := cm.Kit
	var d *kit.Dialog
	scenes := app.LighterScenes(l)
	all := []candidate{{title: l.Start.Title, scene: scenes[0]}}
	if l.Left == 0 {
		all[0].says = pattern.Say("The best pattern of one rim and one bridge weighs %.2f g: what is saved is told against that.", l.Uniform)
	}
	var takes []*kit.Button
	for i, w := range l.Ways {
		one := candidate{title: w.Title, says: app.LighterSays(w), bad: !w.Met, scene: scenes[i+1]}
		if w.Met {
			b := k.Button("Take this", "The design becomes this one, in one step that can be undone.", func() {
				d.Close()
				cm.Ed.Adopt("lighten", w.Says, w.Design)
			}).Framed()
			one.buttons = []fyne.CanvasObject{b}
			takes = append(takes, b)
		} else {
			takes = append(takes, nil)
		}
		all = append(all, one)
		cm.Ed.Log.Event("lighter", "key", w.Way, "left_g", w.Report.Left, "saved", w.Saved, "held", w.Met)
	}
	body := kit.Down(8, cm.sideways(cm.sideBySide(all)), k.Label(picture.StressCaution, kit.Caption))
	d = k.Dialogs.Ask(app.LighterTitle(l), body, nil, kit.Answer{Text: "Leave it as it is", Main: true})
	for i, b := range takes {
		if b != nil {
			d.Named("take-"+l.Ways[i].Way, b)
		}
	}
	cm.Opened()
}
