package pages

import (
	"errors"
	"fmt"
	"path/filepath"
	"slices"
	"time"

	"fretband/app"
	"fretband/app/ui/kit"
	"fretband/export/handover"
	"fretband/pattern/project"
)

// Files are where designs come from and go to: the disk, the gallery, and what is kept of
// unsaved work. A question is asked before anything is lost.
type Files struct {
	*Desk
	Dir      string // of settings and recovery files
	Recovery *app.Recovery
	Fresh    func() // the document is another
	Close    func() // ends the window
	Instead  func() // runs when no unsaved work is brought back; nil for nothing

	autosave *time.Timer
	closing  bool
}

// Use opens a document in the window in place of the one before.
func (fs *Files) Use(d *app.Document) {
	fs.forgetKept()
	_ = d.Claim(fs.Dir, fs.Ed.Doc) // whoever opened it has asked
	if d != fs.Ed.Doc {
		fs.Ed.Doc.Release()
	}
	fs.Ed.Open(d)
	fs.Fresh()
	fs.Ed.On.Changed()
}

// unlessLost runs next, at once or after a question if changes would be lost.
func (fs *Files) unlessLost(next func()) {
	fs.Kit.Dialogs.Commit()
	if !fs.Ed.Doc.Dirty() {
		next()
		return
	}
	fs.Kit.Dialogs.Ask("Save the changes?",
		fs.Kit.Passage(fmt.Sprintf("%s has changes that are not saved.", fs.Ed.Doc.Title()), kit.Plain, 400), nil,
		kit.Answer{Text: "Cancel"},
		kit.Answer{Text: "Don't save", Do: next},
		kit.Answer{Text: "Save", Main: true, Do: func() { fs.SaveThen(next) }})
}

// New asks what to begin with; what is open is asked about once that is chosen.
func (fs *Files) New() {
	fs.Kit.Dialogs.Commit()
	fs.Begin()
}

func (fs *Files) OpenGallery(name string) {
	fs.unlessLost(func() {
		d, err := project.GalleryDesign(name)
		if err != nil {
			fs.Kit.Dialogs.Say("That design can't be opened", err.Error())
			return
		}
		fs.Use(app.NewDocument(d))
		fs.Ed.Log.Event("gallery", "name", name)
	})
}

func (fs *Files) Open() {
	fs.unlessLost(func() {
		fs.Choose(openFile, fs.Settings.Folder, "", fs.OpenPath)
	})
}

func (fs *Files) OpenRecent(path string) {
	fs.unlessLost(func() { fs.OpenPath(path) })
}

func (fs *Files) OpenPath(path string) {
	d, err := app.Open(path)
	if err != nil {
		fs.Settings.Forget(path)
		fs.SaveSettings()
		fs.Ed.Log.Event("error", "what", err)
		fs.Kit.Dialogs.Say("The design can't be opened", err.Error()+"\n\nThe file has been left as it is.")
		return
	}
	fs.UnlessElsewhere(d, nil, func(d *app.Document) {
		fs.Use(d)
		fs.Settings.Opened(path)
		fs.SaveSettings()
		fs.Ed.Log.Event("open", "path", path)
	})
}

// UnlessElsewhere calls next with the document, at once or, if another window has its
// file open, after a question; then perhaps with a copy that is in no file. cancel, if
// it is not nil, is called when the question is given up.
func (fs *Files) UnlessElsewhere(d *app.Document, cancel func(), next func(*app.Document)) {
	err := d.Claim(fs.Dir, fs.Ed.Doc)
	if !errors.Is(err, app.ErrElsewhere) {
		next(d)
		if err != nil { // what others change meanwhile is still noticed when it is saved
			fs.Ed.Log.Event("error", "what", err)
			fs.Say("no locks here: other windows unknown")
		}
		return
	}
	file := filepath.Base(d.Path)
	text := fmt.Sprintf("%s is open in another window.\n\n"+
		"A copy is in no file until you save it under a name of its own. If you open the file itself in both windows, "+
		"each asks before it saves over the work of the other.", file)
	fs.Ed.Log.Event("elsewhere", "path", d.Path)
	answers := []kit.Answer{
		{Text: "Open it all the same", Do: func() { next(d) }},
		{Text: "Open a copy", Main: true, Do: func() { next(d.Copy()) }},
	}
	if d != fs.Ed.Doc { // something else is shown here, which can stay
		answers = slices.Insert(answers, 0, kit.Answer{Text: "Cancel", Do: cancel})
	}
	fs.Kit.Dialogs.Ask("Open in another window", fs.Kit.Passage(text, kit.Plain, 440), cancel, answers...)
}

func (fs *Files) Save() { fs.SaveThen(nil) }

// SaveThen saves and then runs next, if it was saved.
func (fs *Files) SaveThen(next func()) {
	fs.Kit.Dialogs.Commit()
	if fs.Ed.Doc.Path == "" {
		fs.saveAsThen(next)
		return
	}
	fs.SaveTo(fs.Ed.Doc.Path, next)
}

func (fs *Files) SaveAs() { fs.Kit.Dialogs.Commit(); fs.saveAsThen(nil) }

func (fs *Files) saveAsThen(next func()) {
	folder, name := fs.Settings.Folder, handover.FileName(fs.Ed.Doc.Title())+project.Suffix
	if fs.Ed.Doc.Path != "" {
		folder, name = filepath.Dir(fs.Ed.Doc.Path), filepath.Base(fs.Ed.Doc.Path)
	}
	fs.Choose(SaveFile, folder, name, func(path string) { fs.SaveTo(path, next) })
}

func (fs *Files) SaveTo(path string, next func()) {
	fs.saved(path, fs.Ed.Doc.SaveAs(path), next)
}

// saved says what came of saving, and then runs next if it was saved.
func (fs *Files) saved(path string, err error, next func()) {
	switch {
	case errors.Is(err, app.ErrChanged), errors.Is(err, app.ErrElsewhere):
		fs.Ed.Log.Event("refused", "what", "save", "why", err)
		fs.askToOverwrite(path, errors.Is(err, app.ErrChanged), next)
		return
	case err != nil:
		fs.Ed.Log.Event("error", "what", err)
		fs.Kit.Dialogs.Say("The design could not be saved", fs.Ed.Why(err)+"\n\nNothing has been lost: it is still open here.")
		return
	}
	fs.forgetKept()
	fs.Settings.Opened(path)
	fs.SaveSettings()
	fs.Refresh()
	fs.Ed.Log.Event("save", "path", path)
	if next != nil {
		next()
	}
}

// askToOverwrite asks what to do about a file that was changed by others since it was
// opened here, or else that is open in another window.
func (fs *Files) askToOverwrite(path string, changed bool, next func()) {
	title, text := "Open in another window", filepath.Base(path)+" is open in another window. Saving replaces what it holds."
	answers := []kit.Answer{
		{Text: "Cancel"},
		{Text: "Overwrite", Do: func() { fs.saved(path, fs.Ed.Doc.Overwrite(path), next) }},
		{Text: "Save under another name", Main: true, Do: func() { fs.saveAsThen(next) }},
	}
	if changed {
		title = "The file has changed"
		text = filepath.Base(path) + " was changed by another window or program since it was opened here. Overwriting it loses those changes.\n\n" +
			"Reloading shows here what the file holds now; Undo brings back what you have."
		answers = slices.Insert(answers, 1, kit.Answer{Text: "Reload", Do: fs.reload})
	}
	fs.Kit.Dialogs.Ask(title, fs.Kit.Passage(text, kit.Plain, 440), nil, answers...)
}

// reload takes in what the file holds now; what stood here can be brought back.
func (fs *Files) reload() {
	if err := fs.Ed.Doc.Reload(); err != nil {
		fs.Ed.Log.Event("error", "what", err)
		fs.Kit.Dialogs.Say("The file can't be read", err.Error()+"\n\nYour design is as it was.")
		return
	}
	fs.Ed.Log.Event("reload", "path", fs.Ed.Doc.Path)
	fs.Ed.On.Changed()
}

// AskToClose closes the window, after a question if changes would be lost.
func (fs *Files) AskToClose() {
	if len(fs.Kit.Dialogs.Open) > 0 {
		return // a question is open already
	}
	fs.unlessLost(func() {
		fs.closing = true
		fs.forgetKept()
		fs.EndClaims()
		fs.SaveSettings()
		fs.Ed.Log.Event("quit")
		fs.Close()
	})
}

// EndClaims gives back what tells other windows of this one.
func (fs *Files) EndClaims() {
	fs.Ed.Doc.Release()
	if err := fs.Recovery.Close(); err != nil {
		fs.Ed.Log.Event("error", "what", err)
	}
}

// OfferRecovery asks about unsaved work that an earlier run left behind.
func (fs *Files) OfferRecovery(found []app.Recovered) {
	if len(found) == 0 {
		if fs.Instead != nil {
			fs.Instead()
		}
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
		fs.OfferRecovery(nil)
	}
	fs.Ed.Log.Event("recovery", "offered", doc.Title())
	fs.Kit.Dialogs.Ask("Unsaved work was found", fs.Kit.Passage(text, kit.Plain, 440), later,
		kit.Answer{Text: "Later", Do: later},
		kit.Answer{Text: "Throw it away", Do: func() { fs.discard(r); fs.OfferRecovery(found[1:]) }},
		kit.Answer{Text: "Bring it back", Main: true, Do: func() {
			fs.UnlessElsewhere(doc, later, func(d *app.Document) {
				fs.Use(d)
				fs.keep() // under this window's name first
				fs.discard(r)
				for _, other := range found[1:] {
					other.GiveBack()
				}
				fs.Ed.Log.Event("recovered", "path", r.Path)
			})
		}})
}

func (fs *Files) discard(r app.Recovered) {
	if err := r.Discard(); err != nil {
		fs.Ed.Log.Event("error", "what", err)
	}
}

// autosaveDelay is how long after the last change unsaved work is kept.
const autosaveDelay = 3 * time.Second

// KeepSoon keeps unsaved work in the recovery file some seconds after the last
// change.
func (fs *Files) KeepSoon() {
	if fs.Later == nil {
		return
	}
	if fs.autosave != nil {
		fs.autosave.Stop()
	}
	fs.autosave = fs.Later(autosaveDelay, fs.keep)
}

func (fs *Files) keep() {
	if fs.closing {
		return
	}
	if !fs.Ed.Doc.Dirty() {
		fs.forgetKept()
		return
	}
	if err := fs.Recovery.Write(fs.Ed.Doc); err != nil {
		fs.Say("the unsaved work could not be kept: " + err.Error())
		fs.Ed.Log.Event("error", "what", err)
		return
	}
	fs.Ed.Log.Event("kept")
}

func (fs *Files) forgetKept() {
	if fs.autosave != nil {
		fs.autosave.Stop()
	}
	if err := fs.Recovery.Clear(); err != nil {
		fs.Ed.Log.Event("error", "what", err)
	}
}
