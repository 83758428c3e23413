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

func (hp Help) Keys() {
	k := hp.Kit
	left, right := kit.Down(3), kit.Down(3)
	for i, l := range keyList {
		rows := left
		if 2*i >= len(keyList) {
			rows = right
		}
		rows.Add(container.New(kit.Columns{Widths: []float32{170, 330}, Gap: 12, Height: 19},
			k.Label(l[0], kit.Strong), k.Label(l[1], kit.Plain)))
	}
	hp.Kit.Dialogs.Ask("Keys", container.NewHBox(left, kit.Inset(20, 0, 0, 0, right)), nil, kit.Answer{Text: "Close", Main: true})
}

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

// keyList is what Help shows; every line is a key and what it does.
var keyList = [][2]string{
	{"Ctrl+N, Ctrl+O", "new design, open a design"},
	{"Ctrl+S, Ctrl+Shift+S", "save, save as"},
	{"Ctrl+E", "hand over: make the files for whoever receives them"},
	{"Ctrl+Z, Ctrl+Shift+Z", "undo, redo; in an entry, of the typing"},
	{"Ctrl+G", "reach a weight"},
	{"Ctrl+L", "lighten where metal idles, as strong as before"},
	{"Ctrl+K, Ctrl+B", "keep as a variant; variants side by side"},
	{"Ctrl+Q", "quit"},
	{"B, A, M, O, R, H", "band, form, metal, pattern, reserves, by hand"},
	{"Click, Shift+click", "pick an opening; add or leave out one more"},
	{"Drag a box, Ctrl+A", "pick all in it; pick all"},
	{"Two clicks, three", "pick its row, its field"},
	{"L or Delete, U", "leave what is picked solid, open it again"},
	{"Arrows, with Shift", "move what is picked by 0.1 mm, by 1 mm"},
	{"C, E, Q", "draw a circle, an oval, a rectangle"},
	{"I", "draw a tie across an opening, metal to metal"},
	{"Up, Down in an entry", "one step; Page Up, Page Down: ten"},
	{"Left, Right on a slider", "one step"},
	{"Tab, Shift+Tab", "next entry, the one before"},
	{"F or Ctrl+0, 1", "fit the blank, true size"},
	{"+, -, wheel", "nearer, farther; the wheel keeps the place under it"},
	{"Space and drag, arrows", "move the drawing; so does the middle button"},
	{"V, G", "bent band: next side to look from; the whole in sight"},
	{"X, Page Up, Page Down", "cut the bent band open, the next cut; move the cut"},
	{"W", "show or hide the wrist, in a ring the finger"},
	{"Arrows, +, -, Home", "on the bent band: turn it, nearer, farther, as at first"},
	{"S", "show or hide the stretch of a domed band"},
	{"Y", "show or hide the stress over blank and band"},
	{"J", "with the stress: the band under its load"},
	{"K, then click", "push at the metal there, and see what it does"},
	{"T", "go to the thinnest bridge"},
	{"N, P", "next finding that has a place, the one before"},
	{"D", "light or dark"},
	{"Delete", "remove the reserve or mark that is selected"},
	{"F8", "the bent band large and the blank small, or back"},
	{"Z", "the bent band before it is pierced, to compare"},
	{"F9", "fold the controls away, bring them back"},
	{"Esc", "give up: a drag, typing, a question, what is picked"},
	{"F1, Alt", "this list, the menu"},
}
