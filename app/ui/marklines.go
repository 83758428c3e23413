package ui

import (
	"fmt"
	"path/filepath"
	"strings"

	"fretband/app"
	"fretband/app/ui/kit"
	"fretband/pattern"
	"fretband/pattern/own"

	"fyne.io/fyne/v2/container"
)

// askLines asks for the lines of a drawn mark: SVG path data of any curves, or the
// closed shape of a drawing.
func (w *Window) askLines(it app.Item) {
	d := w.now()
	if !it.In(d) {
		return
	}
	k := w.kit
	entry := k.LongEntry("M -8 0 C -4 -4 4 4 8 0")
	const wide = 460
	state := k.Passage("", kit.Soft, wide)
	good := ""
	var q *kit.Dialog
	say := func(s string, v kit.Voice) {
		state.Set(s, v, wide)
		if q != nil {
			q.Panel.Refresh()
		}
	}
	entry.OnChanged = func(t string) {
		good = ""
		t = strings.TrimSpace(t)
		switch ss, err := own.Strokes(t); {
		case t == "":
			say("Path data in mm, y down as in SVG; its origin comes to lie at the mark's place.", kit.Soft)
		case err != nil:
			say("This can't be used: "+strings.TrimSuffix(err.Error(), ".")+".", kit.Warn)
		case len(t) > pattern.MaxPath:
			say(fmt.Sprintf("This can't be used: %d bytes of path data; at most %d are kept.", len(t), pattern.MaxPath), kit.Warn)
		default:
			good = t
			n := 0.0
			for _, s := range ss {
				for _, e := range s.Edges() {
					n += e.Len()
				}
			}
			say(fmt.Sprintf("It can be used: %d curves, %s mm of line.", len(ss), app.FormatNumber(n, 1)), kit.Soft)
		}
	}
	read := k.Button("Read a file\u2026", "An SVG file or an ASCII DXF file. Of its closed curves the largest is taken.", func() {
		w.choose(openDrawing, w.settings.Folder, "", func(path string) {
			w.settings.Folder = filepath.Dir(path)
			data, err := readDrawing(path)
			if err == nil {
				var s own.Shape
				if s, err = own.Read(data); err == nil {
					entry.SetText(own.Data(s.Loop))
					if good != "" { // what was assumed of the drawing
						say(strings.Join(append([]string{state.Text}, s.Notes...), " "), kit.Soft)
					}
					return
				}
			}
			say(filepath.Base(path)+": "+err.Error(), kit.Warn)
		})
	}).Framed()
	body := kit.Down(8,
		container.New(kit.Columns{Widths: []float32{120, 0}, Gap: columnGap, Height: rowHeight}, read, k.Label("or paste SVG path data, open or closed:", kit.Soft)),
		kit.Sized(wide, 120, entry),
		kit.AtLeast(wide, 40, state))
	q = w.dialogs.Ask("Lines to be engraved", body, nil, kit.Answer{Text: "Cancel"}, kit.Answer{Text: "Use it", Main: true, Stay: true, Do: func() {
		if good == "" {
			w.log.Event("refused", "field", it.Path()+".path", "why", state.Text)
			return
		}
		q.Close()
		w.pickOption(app.ChoiceOf("marks[].path", it.Index), good)
	}})
	q.Named("path", entry)
	q.Named("read", read)
	w.log.Event("dialog", "name", "lines")
	entry.SetText(d.Marks[it.Index].Path)
	w.win.Canvas().Focus(entry)
	w.tellSoon()
}
