package main

import (
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"

	"fretband/export"
	"fretband/export/handover"
	"fretband/export/report"
	"fretband/pattern"
	"fretband/pattern/check"
	"fretband/pattern/project/disk"
)

// toOutput is the name of standard output as a file.
const toOutput = "-"

// summary tells programs what came of a call. Fields are only ever added.
type summary struct {
	Designs []madeJSON `json:"designs"`
	Totals  totals     `json:"totals"`
}

// madeJSON is what came of one design.
type madeJSON struct {
	Design   string     `json:"design"` // path of the design file
	Name     string     `json:"name"`   // the design's own
	Content  string     `json:"content_number"`
	Receiver string     `json:"receiver"` // bench, laser, client, casting; empty is anyone
	Folder   string     `json:"folder"`
	Exit     int        `json:"exit"`  // as the program's, for this design alone
	Error    string     `json:"error"` // empty if its files are made
	Files    []fileJSON `json:"files"` // as they lie on the disk
	// InTheWay are the files of other designs that kept this one's from being made.
	InTheWay []otherJSON `json:"in_the_way,omitempty"`
	Copies   int         `json:"copies"`
	*figures             // left out if the design can't be read
	Findings []foundJSON `json:"findings"`
}

type figures struct {
	Left     float64  `json:"left_g"` // of one part
	Removed  float64  `json:"removed_g"`
	Open     float64  `json:"open_share"`
	Openings int      `json:"openings"`
	Thinnest *float64 `json:"thinnest_mm"` // null without openings
	Pieces   int      `json:"pieces"`
	Breaches int      `json:"breaches"` // that ask for something
	Cautions int      `json:"cautions"` // likewise
	Accepted int      `json:"accepted"` // breaches and cautions that the maker accepts
}

type fileJSON struct {
	Name  string `json:"name"`
	What  string `json:"what"`
	Bytes int    `json:"bytes"`
	Sum   string `json:"sha256"`
}

type otherJSON struct {
	Name    string `json:"name"`
	Design  string `json:"design"`         // name of the design that it is made of
	Content string `json:"content_number"` // of that design; empty if the file names no design
}

type foundJSON struct {
	Severity string `json:"severity"` // breach, caution, note
	Check    string `json:"check"`
	What     string `json:"what"`
	Accepted string `json:"accepted,omitempty"` // the maker's reason for accepting it
}

// totals count designs and sum up what is made.
type totals struct {
	Designs  int     `json:"designs"`
	Made     int     `json:"made"`     // all files written
	Refused  int     `json:"refused"`  // the others
	Breached int     `json:"breached"` // with a broken rule, made or not
	Left     float64 `json:"left_g"`   // of all copies of what is made
}

func (t totals) String() string {
	s := fmt.Sprintf("%d designs: %d made", t.Designs, t.Made)
	if t.Designs == 1 {
		s = fmt.Sprintf("1 design: %d made", t.Made)
	}
	return s + pattern.Say(", %d not made, %d with a broken rule; %.2f g left in all", t.Refused, t.Breached, t.Left)
}

// add adds what came of a design.
func (s *summary) add(r result) {
	s.Designs = append(s.Designs, r.made)
	s.Totals.Designs++
	if f := r.made.figures; f != nil && f.Breaches > 0 {
		s.Totals.Breached++
	}
	if r.err != nil {
		s.Totals.Refused++
		return
	}
	s.Totals.Made++
	s.Totals.Left += r.made.Left * float64(r.made.Copies)
}

// write writes the summary to a file, or to out.
func (s summary) write(file string, out io.Writer) error {
	var b bytes.Buffer
	if err := report.WriteJSON(&b, s); err != nil {
		return err
	}
	if file == toOutput {
		_, err := out.Write(b.Bytes())
		return err
	}
	_, err := disk.WriteSet(filepath.Dir(file), []disk.File{{Name: filepath.Base(file), Data: b.Bytes()}})
	return err
}

// isOtherThanSummary reports whether there is a file at path that is no summary.
func isOtherThanSummary(path string) bool {
	b, err := os.ReadFile(path)
	if err != nil {
		return false
	}
	var s struct{ Designs, Totals json.RawMessage }
	return json.Unmarshal(b, &s) != nil || s.Designs == nil || s.Totals == nil
}

// madeOf says what came of a design, and of its files as they lie on the disk.
func (t task) madeOf(r result, d *pattern.Design, rep *check.Report) madeJSON {
	m := madeJSON{Design: r.item.path, Receiver: t.receiver.Key, Folder: r.folder, Exit: r.exit, Files: []fileJSON{}, Copies: max(1, t.options.Copies), Findings: []foundJSON{}}
	if r.err != nil {
		m.Error = r.err.Error()
	}
	var others *handover.StrangersError
	if errors.As(r.err, &others) {
		for _, f := range others.Files {
			m.InTheWay = append(m.InTheWay, otherJSON{f.File, f.Name, f.Content})
		}
	}
	for _, path := range r.files {
		m.Files = append(m.Files, fileOf(r.item.name, path))
	}
	if d == nil {
		return m
	}
	m.Name, m.Content = d.Name, export.ContentNumber(*d)
	m.figures = figuresOf(rep)
	for _, f := range rep.Findings {
		m.Findings = append(m.Findings, foundJSON{f.Severity.String(), f.Kind.Title, f.What, f.Accepted})
	}
	return m
}

func figuresOf(r *check.Report) *figures {
	f := &figures{Left: r.Left, Removed: r.Removed, Open: r.OpenShare, Openings: r.Openings, Pieces: r.Pieces}
	if w := r.Thinnest.Width; !r.Thinnest.None() {
		f.Thinnest = &w
	}
	for _, found := range r.Findings {
		switch {
		case found.Accepted != "":
			f.Accepted++
		case found.Severity == check.Breach:
			f.Breaches++
		case found.Severity == check.Caution:
			f.Cautions++
		}
	}
	return f
}

// fileOf reports a file as it lies on the disk. One that can't be read back, as it
// was taken away in between, has no checksum.
func fileOf(name, path string) fileJSON {
	f := fileJSON{Name: filepath.Base(path)}
	if format, ok := handover.FormatOf(name, path); ok {
		f.What = format.Title
	}
	if b, err := os.ReadFile(path); err == nil {
		sum := sha256.Sum256(b)
		f.Bytes, f.Sum = len(b), hex.EncodeToString(sum[:])
	}
	return f
}
