package pages

import (
	"fmt"
	"strings"

	"fretband/app"
	"fretband/app/ui/kit"
	"fretband/export"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
)

// Help are the dialogs that tell something, and the two that ask for a name and for the
// screen's size.
type Help struct{ *Desk }

func (hp Help) Cautions() {
	k := hp.Kit
	rows := kit.Down(8)
	cautions := export.Cautions(nil, nil, export.Options{})
	if hp.Ed.Scene != nil {
		cautions = export.Cautions(hp.Ed.Scene.Sheet, hp.Ed.Scene.Report, export.Options{})
	}
	for _, c := range cautions {
		rows.Add(k.Passage(c, kit.Plain, 600))
	}
	hp.Kit.Dialogs.Ask("Cautions", rows, nil, kit.Answer{Text: "Close", Main: true})
}

func (hp Help) Figures() {
	k := hp.Kit
	rows := kit.Down(8)
	for _, c := range []string{
		"Weights are the flat sheet's: area times thickness times the alloy's density. Bending keeps the volume where the length is taken on the neutral surface. A band that is cut or cast as formed, or domed, is weighed by the volume of its form.",
		"The thinnest bridge is the exact least distance between two openings, or between an opening and the edge, with its two points. In the bent band the inner face is a little shorter and the outer a little longer than the flat.",
		"The net section is how much of the width is metal in each cross-section. It is a picture of where the band is weak, not a strength.",
		"Saw blade and drill are advice from nominal sizes. Measure the blade at hand.",
		"All figures are estimates from the drawing. Weigh the finished piece, and ask your assay office before marking.",
	} {
		rows.Add(k.Passage(c, kit.Plain, 560))
	}
	if hp.Ed.Scene != nil {
		for _, n := range hp.Ed.Scene.Sheet.Flat.Notes {
			rows.Add(k.Passage("Of this band: "+n+".", kit.Soft, 560))
		}
	}
	hp.Kit.Dialogs.Ask("About the figures", rows, nil, kit.Answer{Text: "Close", Main: true})
}

// About says which version this is.
func (hp Help) About() {
	k := hp.Kit
	rows := kit.Down(8)
	for _, t := range []string{
		"Fretband " + export.Built() + ".",
		"Free software under the MIT licence. The file THIRD-PARTY.txt beside the program names what else is in it, with its licences.",
	} {
		rows.Add(k.Passage(t, kit.Plain, 460))
	}
	hp.Kit.Dialogs.Ask("About Fretband", rows, nil, kit.Answer{Text: "Close", Main: true})
}

func (hp Help) AskScreen() {
	k := hp.Kit
	e := hp.Kit.Dialogs.Entry(app.FormatNumber(hp.Settings.ScreenDPI, 1))
	bad := k.Label("", kit.Warn)
	body := kit.Down(8,
		k.Passage("True size is as good as this number. Choose true size, hold a ruler to the screen, and change the number until the drawing's ruler agrees.", kit.Plain, 400),
		container.New(kit.Columns{Widths: []float32{150, entryWidth, 60}, Gap: 8, Height: rowHeight},
			k.Label("Pixels to the inch", kit.Plain), e, k.Label("40 to 800", kit.Soft)), bad)
	var d *kit.Dialog
	d = hp.Kit.Dialogs.Ask("The screen's size", body, nil, kit.Answer{Text: "Cancel"}, kit.Answer{Text: "Set", Main: true, Stay: true, Do: func() {
		q, err := app.ReadQuantity(e.Text, "", false, 0)
		if err != nil || q.Value < 40 || q.Value > 800 {
			bad.SetText("Type a number from 40 to 800.")
			return
		}
		d.Close()
		hp.Settings.ScreenDPI = q.Value
		hp.SaveSettings()
		hp.TrueSize()
	}})
	hp.Kit.Dialogs.Focus(e)
}

func (hp Help) AskName() {
	k := hp.Kit
	d := hp.Ed.Now()
	name, note := hp.Kit.Dialogs.Entry(d.Name), hp.Kit.Dialogs.Entry(strings.ReplaceAll(d.Note, "\n", " "))
	row := func(t string, o fyne.CanvasObject) fyne.CanvasObject {
		return container.New(kit.Columns{Widths: []float32{60, 360}, Gap: 8, Height: rowHeight + 2}, k.Label(t, kit.Plain), o)
	}
	bad := k.Label("", kit.Warn)
	var dl *kit.Dialog
	dl = hp.Kit.Dialogs.Ask("Name and note", kit.Down(4, row("Name", name), row("Note", note), bad), nil,
		kit.Answer{Text: "Cancel"}, kit.Answer{Text: "Set", Main: true, Stay: true, Do: func() {
			n := strings.TrimSpace(name.Text)
			if n == "" || len(n) > 80 {
				bad.SetText("A name has 1 to 80 letters.")
				return
			}
			next := hp.Ed.Now()
			next.Name = n
			if note.Text != strings.ReplaceAll(d.Note, "\n", " ") {
				next.Note = note.Text
			}
			dl.Close()
			hp.Ed.Seal()
			hp.Ed.Change("", "name", d.Name, fmt.Sprint(n), next)
		}})
	hp.Kit.Dialogs.Focus(name)
}
