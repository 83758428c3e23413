package ui

import (
	"errors"
	"fmt"
	"path/filepath"
	"strconv"
	"strings"
	"time"

	"fretband/app"
	"fretband/export"
	"fretband/pattern"
	"fretband/pattern/check"
	"fretband/pattern/project"
	"fretband/unroll"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
)

// StartingDesign is what New begins with: a plain round-cornered cuff with a
// field that can be cut. A few strings and numbers, ours.
func StartingDesign() pattern.Design {
	return pattern.Design{
		Name: "Untitled",
		Band: unroll.Band{
			Kind:      unroll.Cuff,
			Inside:    unroll.Inside{By: unroll.ByAxes, WidthMM: 60, HeightMM: 48},
			GapMM:     28,
			Thickness: unroll.Thickness{MM: 1.2},
			WidthMM:   26, EndWidthMM: 26, EndCornerMM: 4, NeutralK: 0.5,
		},
		Metal:  pattern.Metal{Alloy: "sterling-925"},
		Rules:  pattern.DesignRules{BridgeMM: 1.2, RimMM: 2, CornerMM: 0.3, SmallestMM: 1},
		Fields: []pattern.Field{{Motif: "triangles", Rows: 3, Repeats: 20, Stagger: 0.5}},
	}
}

// use opens a document in the window in place of the one before.
func (w *Window) use(d *app.Document) {
	w.forgetKept()
	w.doc = d
	w.blank.marks = noMarks()
	w.blank.fitted, w.blank.anew = true, true
	w.fresh = true
	w.controls.reserves.selected, w.controls.marks.selected = -1, -1
	w.findings.selected = -1
	w.controls.setProblem("")
	w.problem = ""
	w.changed()
}

// unlessLost runs next, at once or after a question if changes would be lost.
func (w *Window) unlessLost(next func()) {
	w.leaveEntry()
	if !w.doc.Dirty() {
		next()
		return
	}
	w.dialogs.ask("Save the changes?",
		w.kit.passage(fmt.Sprintf("%s has changes that are not saved.", w.doc.Title()), plainVoice, 400), nil,
		answer{text: "Cancel"},
		answer{text: "Don't save", do: next},
		answer{text: "Save", main: true, do: func() { w.saveThen(next) }})
}

func (w *Window) newDesign() {
	w.unlessLost(func() {
		w.use(app.NewDocument(StartingDesign()))
		w.log.Event("new")
	})
}

func (w *Window) openGallery(name string) {
	w.unlessLost(func() {
		d, err := project.GalleryDesign(name)
		if err != nil {
			w.dialogs.say("That design can't be opened", err.Error())
			return
		}
		w.use(app.NewDocument(d))
		w.log.Event("gallery", "name", name)
	})
}

func (w *Window) openDesign() {
	w.unlessLost(func() {
		w.choose(openFile, w.settings.Folder, "", w.openPath)
	})
}

func (w *Window) openRecent(path string) {
	w.unlessLost(func() { w.openPath(path) })
}

func (w *Window) openPath(path string) {
	d, err := app.Open(path)
	if err != nil {
		w.settings.Forget(path)
		w.keepSettings()
		w.menu.fill()
		w.log.Event("error", "what", err)
		w.dialogs.say("The design can't be opened", err.Error()+"\n\nThe file has been left as it is.")
		return
	}
	w.use(d)
	w.settings.Opened(path)
	w.keepSettings()
	w.menu.fill()
	w.log.Event("open", "path", path)
}

func (w *Window) save() { w.saveThen(nil) }

// saveThen saves and then runs next, if it was saved.
func (w *Window) saveThen(next func()) {
	w.leaveEntry()
	if w.doc.Path == "" {
		w.saveAsThen(next)
		return
	}
	w.saveTo(w.doc.Path, next)
}

func (w *Window) saveAs() { w.leaveEntry(); w.saveAsThen(nil) }

func (w *Window) saveAsThen(next func()) {
	folder, name := w.settings.Folder, export.FileName(w.doc.Title())+designSuffix
	if w.doc.Path != "" {
		folder, name = filepath.Dir(w.doc.Path), filepath.Base(w.doc.Path)
	}
	w.choose(saveFile, folder, name, func(path string) { w.saveTo(path, next) })
}

func (w *Window) saveTo(path string, next func()) {
	if err := w.doc.SaveAs(path); err != nil {
		w.log.Event("error", "what", err)
		w.dialogs.say("The design could not be saved", w.problemText(err)+"\n\nNothing has been lost: it is still open here.")
		return
	}
	w.forgetKept()
	w.lastSaved = time.Now()
	w.settings.Opened(path)
	w.keepSettings()
	w.menu.fill()
	w.refresh()
	w.log.Event("save", "path", path)
	if next != nil {
		next()
	}
}

// askToClose closes the window, after a question if changes would be lost.
func (w *Window) askToClose() {
	if len(w.dialogs.open) > 0 {
		return // a question is open already
	}
	w.unlessLost(func() {
		w.closing = true
		w.forgetKept()
		w.keepSettings()
		w.log.Event("quit")
		w.win.Close()
	})
}

// OfferRecovery asks about unsaved work that an earlier run left behind.
func (w *Window) OfferRecovery(found []app.Recovered) {
	if len(found) == 0 {
		return
	}
	r := found[0]
	doc := app.Restore(r)
	text := fmt.Sprintf("%s was being edited and not saved when the program ended, on %s.",
		doc.Title(), r.At.Local().Format("2 January 2006, 15:04"))
	if r.Path != "" {
		text += "\nIt belongs to " + r.Path + "."
	}
	next := func() { w.OfferRecovery(found[1:]) }
	w.log.Event("recovery", "offered", doc.Title())
	w.dialogs.ask("Unsaved work was found", w.kit.passage(text, plainVoice, 440), nil,
		answer{text: "Later"},
		answer{text: "Throw it away", do: func() { w.discard(r); next() }},
		answer{text: "Bring it back", main: true, do: func() {
			w.use(doc)
			w.keep() // under this run's name first
			w.discard(r)
			w.log.Event("recovered", "path", r.Path)
		}})
}

func (w *Window) discard(r app.Recovered) {
	if err := r.Discard(); err != nil {
		w.log.Event("error", "what", err)
	}
}

// export asks for a folder and options and makes the hand-over files.
func (w *Window) export() {
	w.leaveEntry()
	if w.scene == nil || w.problem != "" {
		text := "There is nothing to export yet."
		if w.problem != "" {
			text = "The design as it stands can't be laid, so no file is made. " + w.problem
		}
		w.dialogs.say("Not yet", text)
		return
	}
	k := w.kit
	x := w.settings.Export
	folder := x.Folder
	if folder == "" {
		folder = w.settings.Folder
		if w.doc.Path != "" {
			folder = filepath.Dir(w.doc.Path)
		}
	}
	dir, name, kerf := newNumberEntry(), newNumberEntry(), newNumberEntry()
	dir.SetText(folder)
	name.SetText(export.FileName(w.doc.Title()))
	kerf.SetText(app.FormatNumber(x.KerfMM, 3))
	for _, e := range []*numberEntry{dir, name, kerf} {
		e.onEscape = k.escape
		e.OnSubmitted = func(string) { w.dialogs.enter() }
	}
	paper, process := newChoiceBox(), newChoiceBox()
	var papers []app.Option
	for _, p := range export.Papers() {
		papers = append(papers, app.Option{Key: p, Title: paperTitle(p)})
	}
	paper.show(papers, x.Paper)
	paper.onChoose = func(key string) { x.Paper = key }
	if p := w.doc.Now().Rules.Process; p != "" {
		x.Process = p // the design's own, whatever was said last of another
	}
	process.show(app.ProcessChoice().Options(w.doc.Now()), x.Process)
	process.onChoose = func(key string) { x.Process = key }
	receiver := newChoiceBox()
	receivers := []app.Option{{Key: "", Title: "Whoever asks: template and cut files"}}
	for _, v := range export.Receivers() {
		receivers = append(receivers, app.Option{Key: v.Key, Title: v.Title})
	}
	makes := k.passage("", softVoice, 440)
	tellMakes := func() { makes.set(whatIsMade(x.For), softVoice, 440) }
	tellMakes()
	receiver.show(receivers, x.For)
	receiver.onChoose = func(key string) { x.For = key; tellMakes(); makes.Refresh() }
	solid := newChoiceBox()
	solids := []app.Option{{Key: "", Title: "None"}}
	for _, f := range export.Solids() {
		solids = append(solids, app.Option{Key: f.Key, Title: f.Title})
	}
	solid.show(solids, x.Solid)
	solid.onChoose = func(key string) { x.Solid = key }
	bad := k.passage("", warnVoice, 440)
	line := func(title, tip string, o ...fyne.CanvasObject) fyne.CanvasObject {
		cols := columns{widths: []float32{90, 0}, gap: 8, height: rowHeight + 2}
		if len(o) > 1 {
			cols.widths = append(cols.widths, 90)
		}
		return container.New(cols, append([]fyne.CanvasObject{k.label(title, plainVoice).teach(tip)}, o...)...)
	}
	body := container.New(fixedSize{452, 340}, container.New(stackDown{3},
		line("For", "Who receives the files: he gets what he needs and no more, with a job sheet that lists them by checksum.", k.framed(receiver)),
		makes,
		line("Folder", "Where the files go. It is made if it is missing.", dir, k.button("Choose", "", func() {
			w.choose(chooseFolder, dir.Text, "", func(p string) { dir.SetText(p) })
		}).framedOne()),
		line("Name", "Of the files, without a suffix.", name),
		line("Made with", "What the notes in the files say.", k.framed(process)),
		line("Kerf, mm", "The width that the blade or beam takes away. 0 draws the finished edges; otherwise the cut files draw the middle of the cut.", kerf),
		line("Paper", "Of the saw template, printed at 100 %.", k.framed(paper)),
		line("Solid", "The bent band as a closed surface, for a casting pattern. The caster gets both kinds anyway.", k.framed(solid)),
		bad))
	var d *dialog
	fail := func(s string) { bad.set(s, warnVoice, 440); bad.Refresh() }
	d = w.dialogs.ask("Export", body, nil, answer{text: "Cancel"}, answer{text: "Make the files", main: true, stay: true, do: func() {
		v, err := app.ReadQuantity(kerf.Text, "mm", false)
		if err != nil {
			fail("Kerf: " + err.Error() + ".")
			return
		}
		x.KerfMM = v.Value
		o := export.Options{KerfMM: x.KerfMM, Paper: x.Paper, Process: x.Process}
		if x.Solid != "" {
			o.Solids = []string{x.Solid}
		}
		if err := o.Check(); err != nil {
			fail(err.Error())
			return
		}
		if err := export.CheckName(strings.TrimSpace(name.Text)); err != nil {
			fail(err.Error())
			return
		}
		if strings.TrimSpace(dir.Text) == "" {
			fail("Give a folder.")
			return
		}
		to, err := filepath.Abs(strings.TrimSpace(dir.Text))
		if err != nil {
			fail(err.Error())
			return
		}
		x.Folder = to
		d.close()
		w.settings.Export = x
		w.keepSettings()
		o.Date = time.Now().Format("2 January 2006")
		w.writeFiles(to, strings.TrimSpace(name.Text), x.For, o)
	}})
	d.named("folder", dir)
	d.named("name", name)
	d.named("kerf", kerf)
	w.win.Canvas().Focus(name)
	w.log.Event("dialog", "name", "export")
	w.tellSoon()
}

func paperTitle(key string) string {
	if key == export.A4 || key == export.A3 {
		return strings.ToUpper(key)
	}
	return strings.ToUpper(key[:1]) + key[1:]
}

// whatIsMade tells what a receiver gets.
func whatIsMade(receiver string) string {
	var titles []string
	if v, ok := export.ReceiverByKey(receiver); ok {
		for _, key := range v.Formats {
			for _, f := range export.AllFormats() {
				if f.Key == key {
					titles = append(titles, f.Title)
				}
			}
		}
	} else {
		for _, f := range export.Formats() {
			titles = append(titles, f.Title)
		}
	}
	return "Makes: " + strings.Join(titles, "; ") + ". Files of the same name are replaced."
}

// writeFiles makes the files in the background, then says what was made, or what
// was refused and why.
func (w *Window) writeFiles(dir, name, receiver string, o export.Options) {
	sc := w.scene
	w.status.saved("making the files")
	r := sc.report
	w.background(func() {
		r := check.Deepen(sc.sheet, r) // the files say all that there is to say
		var paths []string
		var err error
		if v, ok := export.ReceiverByKey(receiver); ok {
			paths, err = export.HandOver(dir, name, sc.sheet, r, o, v)
		} else {
			paths, err = export.WriteAll(dir, name, sc.sheet, r, o)
		}
		w.post(func() {
			w.status.saved(w.savedText())
			w.tellFiles(sc, dir, o, paths, err)
		})
	})
}

func (w *Window) tellFiles(sc *scene, dir string, o export.Options, paths []string, err error) {
	k := w.kit
	rows := container.New(stackDown{4})
	title := "The files are made"
	if err != nil {
		title = "No file was made"
		if len(paths) > 0 {
			title = "Not all files were made"
		}
		why := err.Error()
		if errors.Is(err, export.ErrPieces) {
			why = "Refused: " + why + "."
		}
		rows.Add(k.passage(why, warnVoice, 460))
		w.log.Event("error", "what", err)
	}
	if len(paths) > 0 {
		rows.Add(k.passage("In "+dir+":", plainVoice, 460))
		for _, p := range paths {
			rows.Add(k.label("    "+filepath.Base(p), strongVoice))
		}
	}
	breaches := 0
	for _, f := range sc.report.Findings {
		if f.Severity == check.Breach && f.Open() {
			breaches++
		}
	}
	if breaches > 0 && err == nil {
		rows.Add(k.passage(many(breaches, "rule of the design is", "rules of the design are")+" broken. The files are made and their notes say so; look at the findings before anything is cut.", warnVoice, 460))
	}
	if err == nil {
		rows.Add(k.passage("Print the template at 100 % and measure its ruler before sawing. Kerf: "+kerfWord(o.KerfMM)+".", softVoice, 460))
		rows.Add(k.passage("Wear eye protection; edges and free points are sharp. Figures are estimates. Local rules and trained practice decide.", softVoice, 460))
	}
	answers := []answer{{text: "Close", main: true}}
	w.dialogs.ask(title, rows, nil, answers...)
	w.log.Event("export", "dir", dir, "files", len(paths), "paths", strings.Join(paths, "|"))
}

func kerfWord(mm float64) string {
	if mm == 0 {
		return "none taken off, the lines are the finished edges"
	}
	return strconv.FormatFloat(mm, 'g', -1, 64) + " mm, allowed for in the cut files"
}
