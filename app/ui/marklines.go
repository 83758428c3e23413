package ui

import (
	"fmt"
	"path/filepath"
	"strings"

	"fretband/app"
	"fretband/pattern"
	"fretband/pattern/own"

	"fyne.io/fyne/v2"
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
	entry := newNumberEntry()
	entry.MultiLine = true
	entry.Wrapping = fyne.TextWrapBreak
	entry.Scroll = container.ScrollVerticalOnly
	entry.OnSubmitted = nil
	entry.onEscape = k.escape
	entry.SetPlaceHolder("M -8 0 C -4 -4 4 4 8 0")
	const wide = 460
	state := k.passage("", softVoice, wide)
	good := ""
	var q *dialog
	say := func(s string, v voice) {
		state.set(s, v, wide)
		if q != nil {
			q.panel.Refresh()
		}
	}
	entry.OnChanged = func(t string) {
		good = ""
		t = strings.TrimSpace(t)
		switch ss, err := own.Strokes(t); {
		case t == "":
			say("Path data in mm, y down as in SVG; its origin comes to lie at the mark's place.", softVoice)
		case err != nil:
			say("This can't be used: "+strings.TrimSuffix(err.Error(), ".")+".", warnVoice)
		case len(t) > pattern.MaxPath:
			say(fmt.Sprintf("This can't be used: %d bytes of path data; at most %d are kept.", len(t), pattern.MaxPath), warnVoice)
		default:
			good = t
			n := 0.0
			for _, s := range ss {
				for _, e := range s.Edges() {
					n += e.Len()
				}
			}
			say(fmt.Sprintf("It can be used: %d curves, %s mm of line.", len(ss), app.FormatNumber(n, 1)), softVoice)
		}
	}
	read := k.button("Read a file\u2026", "An SVG file or an ASCII DXF file. Of its closed curves the largest is taken.", func() {
		w.choose(openDrawing, w.settings.Folder, "", func(path string) {
			w.settings.Folder = filepath.Dir(path)
			data, err := readDrawing(path)
			if err == nil {
				var s own.Shape
				if s, err = own.Read(data); err == nil {
					entry.SetText(own.Data(s.Loop))
					if good != "" { // what was assumed of the drawing
						say(strings.Join(append([]string{state.text}, s.Notes...), " "), softVoice)
					}
					return
				}
			}
			say(filepath.Base(path)+": "+err.Error(), warnVoice)
		})
	}).framedOne()
	body := container.New(stackDown{8},
		container.New(columns{widths: []float32{120, 0}, gap: columnGap, height: rowHeight}, read, k.label("or paste SVG path data, open or closed:", softVoice)),
		container.New(fixedSize{wide, 120}, entry),
		container.New(minHeight{wide, 40}, state))
	q = w.dialogs.ask("Lines to be engraved", body, nil, answer{text: "Cancel"}, answer{text: "Use it", main: true, stay: true, do: func() {
		if good == "" {
			w.log.Event("refused", "field", it.Path()+".path", "why", state.text)
			return
		}
		q.close()
		w.pickOption(app.MarkPath(it.Index), good)
	}})
	q.named("path", entry)
	q.named("read", read)
	w.log.Event("dialog", "name", "lines")
	entry.SetText(d.Marks[it.Index].Path)
	w.win.Canvas().Focus(entry)
	w.tellSoon()
}
