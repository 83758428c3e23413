package export

import (
	"errors"
	"io"
	"strings"

	"fretband/pattern"
	"fretband/pattern/check"
)

// cutDraws draw the formats that are made from a plan of cuts.
var cutDraws = map[string]draw{"dxf": drawDXF, "svg": drawSVG}

// preflights makes the cut files of a set from one plan, and looks through the files
// that are made while the next ones are being made.
type preflights struct {
	s *pattern.Sheet
	r *check.Report
	o Options

	plan    cutPlan
	planned bool
	running []chan error
}

func newPreflights(s *pattern.Sheet, r *check.Report, o Options) *preflights {
	return &preflights{s: s, r: r, o: o}
}

// write writes a file of the set.
func (f *preflights) write(w io.Writer, format Format, o Options) error {
	d := cutDraws[format.Key]
	if d == nil {
		return format.Write(w, f.s, f.r, o)
	}
	if !f.planned {
		p, err := newCutPlan(f.s, f.r, o)
		if err != nil {
			return err
		}
		f.plan, f.planned = p, true
	}
	return d(w, f.plan, f.s, f.r, o)
}

// start begins to look through a file. Formats that are neither cut files nor PDFs
// are passed.
func (f *preflights) start(name, key string, data []byte) {
	var look func() error
	switch {
	case cutReaders[key] != nil:
		look = func() error { return preflight(key, data, f.plan, f.s, f.r, f.o) }
	case strings.HasSuffix(name, ".pdf"):
		look = func() error { return preflightPDF(data) }
	default:
		return
	}
	answer := make(chan error, 1)
	f.running = append(f.running, answer)
	go func() {
		err := look()
		var p *PreflightError
		if errors.As(err, &p) {
			p.File = name
		}
		answer <- err
	}()
}

// wait returns the first file's error once all have been looked through.
func (f *preflights) wait() (first error) {
	for _, answer := range f.running {
		if err := <-answer; err != nil && first == nil {
			first = err
		}
	}
	f.running = nil
	return first
}

// preflightPDF checks of a PDF that its table of places reads and leads to every
// object, and that its tree of pages counts the pages that there are (ISO 32000-1,
// 7.5.4 and 7.7.3). Its errors are [PreflightError] without File.
func preflightPDF(data []byte) error {
	if err := readPDFBack(data); err != nil {
		return &PreflightError{What: err.Error()}
	}
	return nil
}
