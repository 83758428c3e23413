package export

import (
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"fmt"
	"io"
	"strings"

	"fretband/pattern"
	"fretband/pattern/check"
	"fretband/pattern/project/disk"
)

// Format is one kind of file for one kind of receiver.
type Format struct {
	Key    string // short name, for options
	Title  string // what it is, for people
	Suffix string // what follows the name of the part
	// Write writes the whole file. It returns [ErrPieces] or a [KerfError] for
	// a part that can't be made, and whatever w returns.
	Write func(w io.Writer, s *pattern.Sheet, r *check.Report, o Options) error
}

// job reports whether it is a job sheet.
func (f Format) job() bool { return strings.HasPrefix(f.Key, "job-") }

// Formats returns all formats, in the order in which a person reads them.
func Formats() []Format {
	return []Format{
		{"svg", "Cut file, SVG", ".svg", writeSVG},
		{"dxf", "Cut file, DXF", ".dxf", writeDXF},
		{"template", "Saw template, PDF", "-template.pdf", writeTemplate},
	}
}

// draw draws a cut file from a plan of cuts.
type draw func(w io.Writer, p cutPlan, s *pattern.Sheet, r *check.Report, o Options) error

// writePlanned lays out the plan of cuts and has it drawn.
func writePlanned(w io.Writer, s *pattern.Sheet, r *check.Report, o Options, d draw) error {
	if err := o.Check(); err != nil {
		return err
	}
	p, err := newCutPlan(s, r, o)
	if err != nil {
		return err
	}
	return d(w, p, s, r, o)
}

// ErrPieces is returned for a part that would not stay in one piece.
var ErrPieces = errors.New("the metal falls into separate pieces, so no file is written: " +
	"widen the bridge or the rim, or take fewer rows, until the report counts one piece")

// WriteAll writes every format of the part, and the solids that o names, into
// dir, which is made if it is missing, as name.svg and so on, and returns the
// paths. They appear all together or not at all: if any format can't be made, or the
// disk has no room, dir is as it was.
//
// Files of the same names that are made of the same design are replaced: of the design
// as it is, as it was at one of the [Options.Earlier] content numbers, or of one that
// has the same name, for a design keeps its name while it is worked on. Any other file
// is a stranger's and is replaced only if [Options.Replace] says so.
//
// Errors: a name that is no safe file name ([CheckName]), options out of range,
// [StrangersError], [ErrPieces], [KerfError], [RoomError], [PreflightError] and other
// [unroll.ProgramError]s, which are no fault of the design, and those of the disk.
func WriteAll(dir, name string, s *pattern.Sheet, r *check.Report, o Options) ([]string, error) {
	return writeFormats(dir, name, s, r, o, o.formats())
}

// writeFormats is WriteAll for any formats. Each file is read once more from the disk,
// byte by byte, before it takes its place.
func writeFormats(dir, name string, s *pattern.Sheet, r *check.Report, o Options, formats []Format) ([]string, error) {
	if err := CheckName(name); err != nil {
		return nil, err
	}
	if err := strangers(dir, name, formats, s.Design, o); err != nil { // before the work
		return nil, err
	}
	made, err := makeFormats(name, s, r, o, formats)
	if err != nil {
		return nil, err
	}
	if err := strangers(dir, name, formats, s.Design, o); err != nil { // come meanwhile
		return nil, err
	}
	return disk.WriteSet(dir, made)
}

// Rehearse makes the files of a part as [WriteAll] would, of any formats, reads them back
// and throws them away. Its errors are those of WriteAll but for the disk's.
func Rehearse(s *pattern.Sheet, r *check.Report, o Options, formats []Format) error {
	_, err := makeFormats("rehearsal", s, r, o, formats)
	return err
}

// makeFormats makes files of any formats. Those after one are told of its file in
// [Options.Files]; job sheets are not listed. Cut files and PDFs are read back
// ([PreflightError]).
func makeFormats(name string, s *pattern.Sheet, r *check.Report, o Options, formats []Format) ([]disk.File, error) {
	if err := o.Check(); err != nil {
		return nil, err
	}
	if r.Pieces > 1 {
		return nil, fmt.Errorf("%d pieces: %w", r.Pieces, ErrPieces)
	}
	o.Files = nil
	look := newPreflights(s, r, o)
	defer look.wait()
	var made []disk.File
	for _, f := range formats {
		var b bytes.Buffer
		if err := look.write(&b, f, o); err != nil {
			return nil, fmt.Errorf("%s: %w", name+f.Suffix, err)
		}
		made = append(made, disk.File{Name: name + f.Suffix, Data: b.Bytes()})
		look.start(name+f.Suffix, f.Key, b.Bytes())
		if !f.job() {
			sum := sha256.Sum256(b.Bytes())
			o.Files = append(o.Files, FileSum{name + f.Suffix, f.Title, hex.EncodeToString(sum[:]), b.Len()})
		}
	}
	return made, look.wait()
}
