// Package handover lists the formats of all files, and writes what a receiver needs: all
// of it or nothing, read back before it counts, and no file of another design replaced.
//
// A new format is a file in a room of export and a line in the list; a receiver gets it
// once his line in [export.Receivers] names it.
package handover

import (
	"context"
	"fmt"
	"image"
	"io"
	"path/filepath"
	"slices"
	"strings"
	"sync"

	"fretband/export"
	"fretband/export/cut"
	"fretband/export/jobsheet"
	"fretband/export/pdf"
	"fretband/export/picture"
	"fretband/export/solid"
	"fretband/export/template"
	"fretband/pattern"
	"fretband/pattern/check"
)

// Format is one kind of file.
type Format struct {
	Key    string // short name, for options and receivers
	Title  string // what it is, for people
	Suffix string // what follows the name of the part; [Gets] puts the receiver's key before it
	write  func(io.Writer, *set) error
	check  func([]byte, *set) error // reads the file back; nil if nothing does
}

// formats lists all of them in the order in which a person reads them. Who gets which is
// said by [export.Receiver.Formats].
var formats = []Format{
	{"svg", "Cut file, SVG", ".svg", planned((*cut.Files).WriteSVG), againstPlan((*cut.Files).CheckSVG)},
	{"dxf", "Cut file, DXF", ".dxf", planned((*cut.Files).WriteDXF), againstPlan((*cut.Files).CheckDXF)},
	{"template", "Saw template, PDF", "-template.pdf", alone(template.Write), whole},
	{"patches", "Patches to mark out by, PDF", "-patches.pdf", alone(template.WritePatches), whole},
	{"stl", "Solid of the bent band, STL", ".stl", alone(solid.WriteSTL), nil},
	{"3mf", "Solid of the bent band, 3MF", ".3mf", alone(solid.Write3MF), nil},
	{"note", "Note to the cut files, text", "-note.txt", alone(cut.WriteNote), nil},
	{"picture-png", "Picture, PNG", "-picture.png", alone(picture.WritePNG), nil},
	{"picture", "Picture, SVG", "-picture.svg", alone(picture.WriteSVG), nil},
	{"stress-png", "Picture of the stress, PNG", "-stress.png", stressed((*picture.StressPicture).WritePNG), nil},
	{"stress", "Picture of the stress, SVG", "-stress.svg", stressed((*picture.StressPicture).WriteSVG), nil},
	{"job-pdf", "Job sheet, PDF", "-job.pdf", listing(jobsheet.WritePDF), whole},
	{"job-html", "Job sheet, HTML", "-job.html", listing(jobsheet.WriteHTML), nil},
}

// Formats returns all formats.
func Formats() []Format { return slices.Clone(formats) }

// Gets returns what a receiver gets, in the order of [export.Receiver.Formats], the solids
// that the options name if it is [export.Anyone], and before job sheets the pictures of
// the stress where they are asked for and of use.
//
// The name of each file says for whom it is. So no receiver's set replaces a file of
// another's, made with other options, which that one's job sheet lists with its checksum.
func Gets(to export.Receiver, o export.Options) []Format {
	keys := to.Formats
	if to.Key == "" {
		keys = slices.Concat(keys, slices.DeleteFunc(export.Solids(), func(key string) bool { return !slices.Contains(o.Solids, key) }))
	}
	if to.Stress && o.Stress == export.StressShown {
		at := slices.IndexFunc(keys, func(key string) bool { return Format{Key: key}.lists() })
		if at < 0 {
			at = len(keys)
		}
		keys = slices.Insert(slices.Clone(keys), at, "stress-png", "stress")
	}
	var fs []Format
	for _, key := range keys {
		i := slices.IndexFunc(formats, func(f Format) bool { return f.Key == key })
		if i < 0 {
			continue
		}
		f := formats[i]
		if to.Key != "" {
			f.Suffix = "-" + to.Key + f.Suffix
		}
		fs = append(fs, f)
	}
	return fs
}

// GetsOf is [Gets] for a band that may be no flat part: it is cut from tube then, or marked out
// by patches.
func GetsOf(s *pattern.Sheet, to export.Receiver, o export.Options) []Format {
	o.For = to.Key
	fs := Gets(to, o)
	if cut.Tube(s, o) {
		fs = fromTube(fs)
	}
	if export.MarkedOut(s, o) {
		fs = markedOut(fs)
	}
	return fs
}

// markedOut has patches of paper in place of the saw template of a band that it can't be laid on.
func markedOut(fs []Format) []Format {
	for i, f := range fs {
		if f.Key == "template" {
			p := formats[slices.IndexFunc(formats, func(f Format) bool { return f.Key == "patches" })]
			p.Suffix = strings.TrimSuffix(f.Suffix, "-template.pdf") + p.Suffix
			fs[i] = p
		}
	}
	return fs
}

// fromTube names the files that a shop cuts from so that nobody takes them for flat parts.
func fromTube(fs []Format) []Format {
	for i, f := range fs {
		if f.Key == "svg" || f.Key == "dxf" || f.Key == "note" {
			fs[i].Suffix = strings.Replace(f.Suffix, "-"+export.LaserShop, "-"+export.LaserShop+"-tube", 1)
		}
	}
	return fs
}

// FormatOf returns the format of a file that [Write] wrote for a part of that name, and
// whether there is one.
func FormatOf(name, path string) (Format, bool) {
	fs := Formats()
	for _, v := range export.Receivers() {
		gets := Gets(v, export.Options{Stress: export.StressShown})
		fs = slices.Concat(fs, gets, fromTube(slices.Clone(gets)), markedOut(slices.Clone(gets)))
	}
	for _, f := range fs {
		if filepath.Base(path) == name+f.Suffix {
			return f, true
		}
	}
	return Format{}, false
}

// lists reports whether it is a job sheet, which lists the other files.
func (f Format) lists() bool { return strings.HasPrefix(f.Key, "job-") }

// Write writes one file. It returns [export.ErrPieces] or a [cut.KerfError] for a part that can't be
// made, and whatever w returns.
func (f Format) Write(w io.Writer, s *pattern.Sheet, r *check.Report, o export.Options) error {
	if err := o.Check(); err != nil {
		return err
	}
	s, r, o = CutFor(s, r, o, export.Anyone())
	return f.write(w, newSet(s, r, o))
}

// set is a part whose files are made, and what several of them need, which is made once.
type set struct {
	sheet   *pattern.Sheet
	report  *check.Report
	options export.Options
	cut     func() (*cut.Files, error)
	bent    func() (*image.Gray, error)
	loaded  func() *check.Report // with the band's strength, for job sheets
	stress  func() (*picture.StressPicture, error)
	files   []jobsheet.File // made so far, but for job sheets
}

func newSet(s *pattern.Sheet, r *check.Report, o export.Options) *set {
	p := &set{
		sheet: s, report: r, options: o,
		cut:  sync.OnceValues(func() (*cut.Files, error) { return cut.NewFiles(s, r, o) }),
		bent: sync.OnceValues(func() (*image.Gray, error) { return jobsheet.Picture(s) }),
		// Solved anew, so that a sheet is the same whoever asks for it and when.
		loaded: sync.OnceValue(func() *check.Report {
			d := *r
			d.Strength, d.Unsolved = check.StrengthOf(context.Background(), s, r, check.Unasked())
			return &d
		}),
	}
	p.stress = sync.OnceValues(func() (*picture.StressPicture, error) {
		f := p.loaded()
		if f.Strength == nil {
			return nil, fmt.Errorf("no picture of the stress: %w; or leave that picture out", f.Unsolved)
		}
		shown := picture.NewStressPicture(s, f.Strength, f.Strength.Cases[0], s.Design.Temper().ProofMPa)
		return shown, shown.AddBent()
	})
	return p
}

// stressed is for a picture of the stress.
func stressed(write func(*picture.StressPicture, io.Writer) error) func(io.Writer, *set) error {
	return func(w io.Writer, p *set) error {
		shown, err := p.stress()
		if err != nil {
			return err
		}
		return write(shown, w)
	}
}

// alone is for a file that needs the part alone.
func alone(write func(io.Writer, *pattern.Sheet, *check.Report, export.Options) error) func(io.Writer, *set) error {
	return func(w io.Writer, p *set) error { return write(w, p.sheet, p.report, p.options) }
}

// planned is for a file that is made from the cutting plan.
func planned(write func(*cut.Files, io.Writer) error) func(io.Writer, *set) error {
	return func(w io.Writer, p *set) error {
		f, err := p.cut()
		if err != nil {
			return err
		}
		return write(f, w)
	}
}

// againstPlan is for a file that is compared with the cutting plan.
func againstPlan(check func(*cut.Files, []byte) error) func([]byte, *set) error {
	return func(data []byte, p *set) error {
		f, err := p.cut()
		if err != nil {
			return err
		}
		return check(f, data)
	}
}

// listing is for a job sheet, which shows the bent band and lists the other files.
func listing(write func(io.Writer, *pattern.Sheet, *check.Report, export.Options, []jobsheet.File, *image.Gray) error) func(io.Writer, *set) error {
	return func(w io.Writer, p *set) error {
		bent, err := p.bent()
		if err != nil {
			return err
		}
		return write(w, p.sheet, p.loaded(), p.options, p.files, bent)
	}
}

// whole reads a PDF back.
func whole(data []byte, _ *set) error { return pdf.Check(data) }
