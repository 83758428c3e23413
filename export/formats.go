package export

import (
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"strings"

	"fretband/pattern"
	"fretband/pattern/check"
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
// paths. Files of these names
// are replaced, each at once: a reader sees the old file or the new one, never
// half of one. If any format can't be made, none is written.
//
// Errors: a name that is no safe file name ([CheckName]), options out of range,
// [ErrPieces], [KerfError], [RoomError], [PreflightError] and other [unroll.ProgramError]s,
// which are no fault of the design, and those of the disk.
func WriteAll(dir, name string, s *pattern.Sheet, r *check.Report, o Options) ([]string, error) {
	return writeFormats(dir, name, s, r, o, o.formats())
}

// writeFormats is WriteAll for any formats. Those after one are told of its file in
// [Options.Files]; job sheets are not listed.
//
// Cut files and PDFs are read back before any file is written ([PreflightError]), and
// each file once more from the disk, byte by byte.
func writeFormats(dir, name string, s *pattern.Sheet, r *check.Report, o Options, formats []Format) ([]string, error) {
	if err := CheckName(name); err != nil {
		return nil, err
	}
	if err := o.Check(); err != nil {
		return nil, err
	}
	if r.Pieces > 1 {
		return nil, fmt.Errorf("%d pieces: %w", r.Pieces, ErrPieces)
	}
	o.Files = nil
	look := newPreflights(s, r, o)
	defer look.wait()
	made := make([]bytes.Buffer, len(formats))
	sums := make([][sha256.Size]byte, len(formats))
	for i, f := range formats {
		if err := look.write(&made[i], f, o); err != nil {
			return nil, fmt.Errorf("%s: %w", name+f.Suffix, err)
		}
		look.start(name+f.Suffix, f.Key, made[i].Bytes())
		sums[i] = sha256.Sum256(made[i].Bytes())
		if !f.job() {
			o.Files = append(o.Files, FileSum{name + f.Suffix, f.Title, hex.EncodeToString(sums[i][:]), made[i].Len()})
		}
	}
	if err := look.wait(); err != nil {
		return nil, err
	}
	if err := os.MkdirAll(dir, 0o777); err != nil {
		return nil, err
	}
	var paths []string
	for i, f := range formats {
		p := filepath.Join(dir, name+f.Suffix)
		if err := replaceFile(p, made[i].Bytes()); err != nil {
			return paths, err
		}
		paths = append(paths, p)
		onDisk, err := os.ReadFile(p)
		if err != nil {
			return paths, err
		}
		if sha256.Sum256(onDisk) != sums[i] {
			return paths, fmt.Errorf("%s: what the disk gives back is not what was written: do not use the file; write it to another disk", p)
		}
	}
	return paths, nil
}
