package pages

import (
	"fretband/app/ui/kit"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
)

// KeyGroup is a part of the list of keys.
type KeyGroup struct {
	Title string
	Lines []KeyLine
}

// KeyLine is one or a few keys and what they do.
type KeyLine struct{ Keys, What string }

// KeyList is every key that does something, in the order in which a person reads them.
var KeyList = []KeyGroup{
	{"File and edit", []KeyLine{
		{"Ctrl+N, Ctrl+O", "new design, open a design"},
		{"Ctrl+S, Ctrl+Shift+S", "save, save as"},
		{"Ctrl+E", "hand over: make the files"},
		{"Ctrl+Z, Ctrl+Shift+Z", "undo, redo; in an entry, of the typing"},
		{"Ctrl+Y", "redo, too"},
		{"Ctrl+G, Ctrl+L", "reach a weight, lighten where it idles"},
		{"Ctrl+K, Ctrl+B", "keep as a variant, compare variants"},
		{"Ctrl+Q", "quit"},
	}},
	{"Pages and entries", []KeyLine{
		{"B, A, M, O, R, H", "band, form, metal, pattern, reserves, by hand"},
		{"Tab, Shift+Tab", "the next entry, the one before"},
		{"Up, Down, PgUp, PgDn", "in an entry: one step, ten steps"},
		{"Left, Right", "on a slider: one step"},
		{"N, P", "the next finding with a place, the one before"},
		{"F9", "fold the controls away, bring them back"},
		{"F1, Alt", "this list, the menu"},
		{"Esc", "give up: a drag, typing, a question, a tool"},
	}},
	{"Openings", []KeyLine{
		{"Click, Shift+click", "pick an opening, add or leave out one"},
		{"Two clicks, three", "pick its row, its field"},
		{"Drag a box, Ctrl+A", "pick all in it, pick all"},
		{"L or Delete, U", "leave what is picked solid, open it again"},
		{"Arrows, with Shift", "pick the next opening, one more"},
		{"Enter", "pick an opening, its row, its field"},
		{"Ctrl+arrows, and Shift", "move what is picked by 0.1 mm, by 1 mm"},
		{"Menu, F10", "or the second button: what can be done there"},
		{"C, E, Q", "draw a circle, an oval, a rectangle"},
		{"F2", "draw an outline by points and arcs"},
		{"Enter, Backspace", "close that outline, take a point back"},
		{"I", "draw a tie across an opening"},
		{"Delete", "remove the reserve or mark that is selected"},
	}},
	{"Blank", []KeyLine{
		{"F or Ctrl+0, 1", "fit the blank, true size"},
		{"+ or =, -, wheel", "nearer, farther, about the pointer"},
		{"Space and drag, arrows", "move the drawing; so does the middle button"},
		{"T", "go to the thinnest bridge"},
		{"S", "the stretch of a domed band"},
		{"Y, J", "stress over blank and band, under its load"},
		{"K, then click", "push at the metal there"},
	}},
	{"Bent band", []KeyLine{
		{"V, G", "the next side to look from, all in sight"},
		{"X, PgUp, PgDn", "cut it open or the next cut, move the cut"},
		{"W", "show the wrist, in a ring the finger"},
		{"Z", "before it is pierced, to compare"},
		{"F8", "the bent band large and the blank small"},
		{"Arrows, +, -, Home", "turn it, nearer, farther, as at first"},
		{"D", "light or dark"},
	}},
}

// Widths of the columns of the list of keys.
const (
	keysWide     = 152
	keysWhatWide = 286
)

// Keys shows the list of keys.
func (hp Help) Keys() {
	k := hp.Kit
	total := 0
	for _, g := range KeyList {
		total += len(g.Lines) + 2
	}
	left, right := kit.Down(0), kit.Down(0)
	rows, n := left, 0
	for _, g := range KeyList {
		if 2*n+len(g.Lines)+2 > total { // more than half of it would be in the first column
			rows = right
		}
		n += len(g.Lines) + 2
		if len(rows.Objects) > 0 {
			rows.Add(k.Gap(8))
		}
		rows.Add(k.Label(g.Title, kit.Head))
		for _, l := range g.Lines {
			rows.Add(container.New(kit.Columns{Widths: []float32{keysWide, keysWhatWide}, Gap: 8, Height: 18},
				k.Label(l.Keys, kit.Strong), k.Label(l.What, kit.Plain)))
		}
	}
	columns := []fyne.CanvasObject{left, kit.Inset(18, 0, 0, 0, right)}
	box := container.NewHBox(columns...)
	if hp.Width() < box.MinSize().Width+60 {
		box = container.NewVBox(left, right)
	}
	hp.Kit.Dialogs.Ask("Keys", box, nil, kit.Answer{Text: "Close", Main: true})
}
