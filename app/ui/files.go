package ui

import (
	"errors"
	"fmt"
	"path/filepath"
	"slices"
	"time"

	"fretband/app"
	"fretband/app/ui/kit"
	"fretband/export/handover"
	"fretband/pattern"
	"fretband/pattern/project"
	"fretband/unroll"
)

// StartingDesign is what New begins with: a plain round-cornered cuff with a
// field that can be cut. A few strings and numbers, ours.
func StartingDesign() pattern.Design {
	return pattern.Design{
		Name: pattern.Untitled,
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
	_ = d.Hold(w.dir, w.doc) // whoever opened it has asked
	if d != w.doc {
		w.doc.Release()
	}
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
	w.dialogs.Ask("Save the changes?",
		w.kit.Passage(fmt.Sprintf("%s has changes that are not saved.", w.doc.Title()), kit.Plain, 400), nil,
		kit.Answer{Text: "Cancel"},
		kit.Answer{Text: "Don't save", Do: next},
		kit.Answer{Text: "Save", Main: true, Do: func() { w.saveThen(next) }})
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
			w.dialogs.Say("That design can't be opened", err.Error())
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
		w.dialogs.Say("The design can't be opened", err.Error()+"\n\nThe file has been left as it is.")
		return
	}
	w.unlessElsewhere(d, nil, func(d *app.Document) {
		w.use(d)
		w.settings.Opened(path)
		w.keepSettings()
		w.menu.fill()
		w.log.Event("open", "path", path)
	})
}

// unlessElsewhere calls next with the document, at once or, if another window has its
// file open, after a question; then perhaps with a copy that is in no file. cancel, if
// it is not nil, is called when the question is given up.
func (w *Window) unlessElsewhere(d *app.Document, cancel func(), next func(*app.Document)) {
	err := d.Hold(w.dir, w.doc)
	if !errors.Is(err, app.ErrElsewhere) {
		next(d)
		if err != nil { // what others change meanwhile is still noticed when it is saved
			w.log.Event("error", "what", err)
			w.status.saved("no locks here: other windows unknown")
		}
		return
	}
	file := filepath.Base(d.Path)
	text := fmt.Sprintf("%s is open in another window.\n\n"+
		"A copy is in no file until you save it under a name of its own. If you open the file itself in both windows, "+
		"each asks before it saves over the work of the other.", file)
	w.log.Event("elsewhere", "path", d.Path)
	answers := []kit.Answer{
		{Text: "Open it all the same", Do: func() { next(d) }},
		{Text: "Open a copy", Main: true, Do: func() { next(d.Copy()) }},
	}
	if d != w.doc { // something else is shown here, which can stay
		answers = slices.Insert(answers, 0, kit.Answer{Text: "Cancel", Do: cancel})
	}
	w.dialogs.Ask("Open in another window", w.kit.Passage(text, kit.Plain, 440), cancel, answers...)
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
	folder, name := w.settings.Folder, handover.FileName(w.doc.Title())+designSuffix
	if w.doc.Path != "" {
		folder, name = filepath.Dir(w.doc.Path), filepath.Base(w.doc.Path)
	}
	w.choose(saveFile, folder, name, func(path string) { w.saveTo(path, next) })
}

func (w *Window) saveTo(path string, next func()) {
	w.saved(path, w.doc.SaveAs(path), next)
}

// saved tells what came of saving, and then runs next if it was saved.
func (w *Window) saved(path string, err error, next func()) {
	switch {
	case errors.Is(err, app.ErrChanged), errors.Is(err, app.ErrElsewhere):
		w.log.Event("refused", "what", "save", "why", err)
		w.askToOverwrite(path, errors.Is(err, app.ErrChanged), next)
		return
	case err != nil:
		w.log.Event("error", "what", err)
		w.dialogs.Say("The design could not be saved", w.problemText(err)+"\n\nNothing has been lost: it is still open here.")
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

// askToOverwrite asks what to do about a file that was changed by others since it was
// opened here, or else that is open in another window.
func (w *Window) askToOverwrite(path string, changed bool, next func()) {
	title, text := "Open in another window", filepath.Base(path)+" is open in another window. Saving replaces what it holds."
	answers := []kit.Answer{
		{Text: "Cancel"},
		{Text: "Overwrite", Do: func() { w.saved(path, w.doc.Overwrite(path), next) }},
		{Text: "Save under another name", Main: true, Do: func() { w.saveAsThen(next) }},
	}
	if changed {
		title = "The file has changed"
		text = filepath.Base(path) + " was changed by another window or program since it was opened here. Overwriting it loses those changes.\n\n" +
			"Reloading shows here what the file holds now; Undo brings back what you have."
		answers = slices.Insert(answers, 1, kit.Answer{Text: "Reload", Do: w.reload})
	}
	w.dialogs.Ask(title, w.kit.Passage(text, kit.Plain, 440), nil, answers...)
}

// reload takes in what the file holds now; what stood here can be brought back.
func (w *Window) reload() {
	if err := w.doc.Reload(); err != nil {
		w.log.Event("error", "what", err)
		w.dialogs.Say("The file can't be read", err.Error()+"\n\nYour design is as it was.")
		return
	}
	w.log.Event("reload", "path", w.doc.Path)
	w.changed()
}

// askToClose closes the window, after a question if changes would be lost.
func (w *Window) askToClose() {
	if len(w.dialogs.Open) > 0 {
		return // a question is open already
	}
	w.unlessLost(func() {
		w.closing = true
		w.forgetKept()
		w.endClaims()
		w.keepSettings()
		w.log.Event("quit")
		w.win.Close()
	})
}

// endClaims gives back what tells other windows of this one.
func (w *Window) endClaims() {
	w.doc.Release()
	if err := w.recovery.Close(); err != nil {
		w.log.Event("error", "what", err)
	}
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
	if r.Unsure {
		text = fmt.Sprintf("%s was being edited and not saved on %s. The disk has no locks, so it can't be told whether that window is still open. If it is, answer Later.",
			doc.Title(), r.At.Local().Format("2 January 2006, 15:04"))
	}
	if r.Path != "" {
		text += "\nIt belongs to " + r.Path + "."
	}
	later := func() {
		for _, r := range found {
			r.GiveBack()
		}
	}
	w.log.Event("recovery", "offered", doc.Title())
	w.dialogs.Ask("Unsaved work was found", w.kit.Passage(text, kit.Plain, 440), later,
		kit.Answer{Text: "Later", Do: later},
		kit.Answer{Text: "Throw it away", Do: func() { w.discard(r); w.OfferRecovery(found[1:]) }},
		kit.Answer{Text: "Bring it back", Main: true, Do: func() {
			w.unlessElsewhere(doc, later, func(d *app.Document) {
				w.use(d)
				w.keep() // under this window's name first
				w.discard(r)
				for _, other := range found[1:] {
					other.GiveBack()
				}
				w.log.Event("recovered", "path", r.Path)
			})
		}})
}

func (w *Window) discard(r app.Recovered) {
	if err := r.Discard(); err != nil {
		w.log.Event("error", "what", err)
	}
}
