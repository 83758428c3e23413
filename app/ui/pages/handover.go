package pages

import (
	"fmt"
	"net/url"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"time"
	"unicode"
	"unicode/utf8"

	"fretband/app"
	"fretband/app/ui/kit"
	"fretband/export"
	"fretband/export/handover"
	"fretband/pattern"
	"fretband/pattern/check"
)

// HandOver asks who receives the files, and makes them.
type HandOver struct{ *Desk }

// Ask asks who receives the files and how they work, and makes the files. A design that
// can't be made is refused before anything is asked.
func (ho HandOver) Ask() {
	ho.Kit.Dialogs.Commit()
	switch {
	case ho.Ed.Problem != "":
		ho.Kit.Dialogs.Say("Not yet", "The design as it stands can't be laid, so no file is made. "+ho.Ed.Problem)
		return
	case ho.Ed.Scene == nil:
		ho.Kit.Dialogs.Say("Not yet", "There is nothing to hand over yet.")
		return
	case ho.Ed.Scene.Report.Pieces > 1:
		ho.refuse(fmt.Errorf("%d pieces: %w", ho.Ed.Scene.Report.Pieces, export.ErrPieces))
		return
	}
	ho.ask()
}

func (ho HandOver) refuse(err error) {
	ho.Ed.Log.Event("refused", "what", "hand over", "why", err)
	ho.Kit.Dialogs.Say("Nothing is handed over", sentence(err.Error()))
}

// sentence makes one of an error's words; the name of a file stays as it is.
func sentence(s string) string {
	s = strings.TrimSuffix(s, ".") + "."
	if first, _, _ := strings.Cut(s, " "); strings.Contains(strings.TrimSuffix(first, "."), ".") || filepath.IsAbs(first) {
		return s
	}
	r, n := utf8.DecodeRuneInString(s)
	return string(unicode.ToUpper(r)) + s[n:]
}

// handed is what came of handing over.
type handed struct {
	to, dir, name string
	options       export.Options
	report        *check.Report
	paths         []string
	err           error
	asked         bool  // the system was asked to open the folder
	askErr        error // what it said
}

// makeFiles makes the files in the background and then calls done. With replace they
// take the place of files of other designs. A title is one that has been given to the design
// here; it keeps it once the files are made.
func (ho HandOver) makeFiles(x app.HandOver, name, title string, replace bool, done func(handed)) {
	sc, doc, d := ho.Ed.Scene, ho.Ed.Doc, ho.Ed.Now()
	h := handed{to: x.For, dir: x.Folder, name: name, options: x.Asked()}
	h.options.Replace, h.options.Earlier = replace, doc.Handed
	h.options.Date = time.Now().Format("2 January 2006")
	if title != "" {
		h.options.Was = d.Name
	}
	ho.Say("making the files")
	ho.Background(func() {
		var sheet *pattern.Sheet
		sheet, h.report, h.err = laidOf(sc, d)
		if h.err == nil && title != "" {
			named := *sheet
			named.Design.Name = app.AsName(title)
			sheet = &named
		}
		if h.err == nil {
			to, _ := export.ReceiverByKey(h.to)
			sheet, h.report, h.options = handover.CutFor(sheet, h.report, h.options, to)
			h.paths, h.err = handover.Write(h.dir, name, sheet, h.report, h.options, to)
		}
		if h.err == nil && !x.LeaveFolder {
			h.asked, h.askErr = true, ho.openFolder(h.dir)
		}
		ho.Post(func() {
			ho.Say(ho.Ed.Doc.SavedText())
			if h.err != nil {
				ho.Ed.Log.Event("error", "what", h.err)
			} else {
				if title != "" && doc == ho.Ed.Doc {
					ho.Ed.Rename(title)
					d.Name = app.AsName(title)
				}
				doc.Handed = append(doc.Handed, export.ContentNumber(d))
			}
			ho.Ed.Log.Event("handover", "receiver", h.to, "dir", h.dir, "files", len(h.paths), "paths", strings.Join(h.paths, "|"))
			done(h)
		})
	})
}

// laidOf returns the scene's sheet and all that there is to say of it, or lays the
// design anew if the scene is still that of an earlier one.
func laidOf(sc *app.Scene, d pattern.Design) (*pattern.Sheet, *check.Report, error) {
	if app.Equal(sc.Sheet.Design, d) {
		return sc.Sheet, check.Deepen(sc.Sheet, sc.Report), nil
	}
	s, r, err := check.Lay(d)
	if err != nil {
		return nil, nil, err
	}
	return s, check.Deepen(s, r), nil
}

// openFolder asks the system to show a folder in its file viewer. It may have none.
func (ho HandOver) openFolder(dir string) error {
	err := ho.OpenURL(folderURL(dir))
	if err != nil {
		ho.Ed.Log.Event("error", "what", fmt.Errorf("%s is not opened: %w", dir, err))
		return err
	}
	ho.Ed.Log.Event("folder", "asked", dir)
	return nil
}

// folderURL is a folder's address by RFC 8089; one with a drive's letter begins with a
// slash as well.
func folderURL(dir string) *url.URL {
	p := filepath.ToSlash(dir)
	if !strings.HasPrefix(p, "/") {
		p = "/" + p
	}
	return &url.URL{Scheme: "file", Path: p}
}

// tellHanded says what was made, where, and what to look at before it is used.
func (ho HandOver) tellHanded(h handed) {
	const wide = 500
	k := ho.Kit
	rows := kit.Down(3)
	title := "Made for " + receiverWords(h.to)
	rows.Add(k.Passage("In "+h.dir+":", kit.Plain, wide))
	for _, p := range h.paths {
		what := ""
		if f, ok := handover.FormatOf(h.name, p); ok {
			what = f.Title
		}
		rows.Add(fileLine(k, filepath.Base(p), what, sizeWords(p)))
	}
	rows.Add(k.Gap(6))
	if h.asked {
		word := "The system has been asked to show the folder. If nothing opens, it knows no program for folders."
		if h.askErr != nil {
			word = "The folder could not be opened: the system has no program for it. The files are there all the same."
		}
		rows.Add(k.Passage(word, kit.Soft, wide))
	}
	if n, first := app.Breaches(h.report.Findings); n > 0 {
		rows.Add(k.Passage(breachWords(n, first)+" The notes in the files say so.", kit.Warn, wide))
	}
	for _, s := range adviceFor(h) {
		rows.Add(k.Passage(s, kit.Soft, wide))
	}
	d := ho.Kit.Dialogs.Ask(title, rows, nil,
		kit.Answer{Text: "Open the folder", Stay: true, Do: func() { _ = ho.openFolder(h.dir) }}, // it is logged, and the path is above
		kit.Answer{Text: "Close", Main: true})
	d.Named("files", rows)
	ho.Opened()
}

// adviceFor says what the user should pass on with the files.
func adviceFor(h handed) []string {
	var words []string
	has := func(key string) bool {
		for _, p := range h.paths {
			if f, ok := handover.FormatOf(h.name, p); ok && f.Key == key {
				return true
			}
		}
		return false
	}
	if has("template") {
		words = append(words, "Print the template at 100 % and measure its ruler before sawing.")
	}
	if has("dxf") {
		words = append(words, "Kerf: "+kerfWord(h.options.KerfMM)+".")
	}
	if has("stl") {
		words = append(words, "The solid has its finished size: nothing is added for shrinkage, sprues or polishing. Ask the caster.")
	}
	if h.to != "client" {
		words = append(words, "Wear eye protection; edges and free points are sharp. Figures are estimates. Local rules and trained practice decide.")
	}
	return words
}

// receiverWords name a receiver within a sentence.
func receiverWords(key string) string {
	v, _ := export.ReceiverByKey(key)
	return strings.ToLower(v.Title[:1]) + v.Title[1:]
}

func breachWords(n int, first string) string {
	s := fmt.Sprintf("%s broken: %s", many(n, "rule of the design is", "rules of the design are"), first)
	if n > 1 {
		s += " And so on: look at the findings before anything is cut."
	} else {
		s += " Look at it before anything is cut."
	}
	return s
}

func kerfWord(mm float64) string {
	if mm == 0 {
		return "none taken off, the lines are the finished edges"
	}
	return strconv.FormatFloat(mm, 'g', -1, 64) + " mm, allowed for in the cut files"
}

// sizeWords is the size of a file, for people; empty if it is gone.
func sizeWords(path string) string {
	st, err := os.Stat(path)
	switch {
	case err != nil:
		return ""
	case st.Size() < 1e6:
		return pattern.Say("%.1f KB", float64(st.Size())/1e3)
	}
	return pattern.Say("%.1f MB", float64(st.Size())/1e6)
}
