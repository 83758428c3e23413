package export

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"unicode"
)

// MaxKerfMM is the widest kerf that can be asked for, mm. Saw blades are 0.16 to
// 0.50 mm thick, beams take 0.03 to 0.38 mm, jets of water up to 1.2 mm (common
// practice); a whole millimetre on jewellery sheet is a slip of the keyboard.
const MaxKerfMM = 1.0

// Papers that a template can be laid on.
const (
	A4     = "a4"     // 210 x 297 mm, ISO 216
	Letter = "letter" // 8.5 x 11 in, ASME Y14.1
	A3     = "a3"     // 297 x 420 mm, ISO 216
)

// Processes that have words of their own; any other plain words are quoted.
const (
	Saw   = "saw"
	Laser = "laser"
)

// Options say how the files are to be used. The zero value is a template on A4
// and cut files without kerf compensation.
type Options struct {
	// KerfMM is the width that the blade or beam takes away. 0 draws the
	// finished edges; otherwise the cut files draw the middle of the cut.
	KerfMM float64
	// Paper is "a4", "letter" or "a3"; empty means A4.
	Paper string
	// Process is "saw", "laser" or plain words of the reader's own; empty leaves
	// it open.
	Process string
	// Solids are the keys of [Solids] that are written besides; none if empty.
	Solids []string
	// Date is written on job sheets as it stands; empty writes none.
	Date string
	// Files are what a job sheet lists; [HandOver] fills it in.
	Files []FileSum
}

// formats returns what the options ask for.
func (o Options) formats() []Format {
	fs := Formats()
	for _, f := range Solids() {
		if slices.Contains(o.Solids, f.Key) {
			fs = append(fs, f)
		}
	}
	return fs
}

// Check says what is wrong with the options, naming the one and its range.
func (o Options) Check() error {
	if math.IsNaN(o.KerfMM) || o.KerfMM < 0 || o.KerfMM > MaxKerfMM {
		return fmt.Errorf("kerf %g mm: must be 0 (off) to %g mm", o.KerfMM, MaxKerfMM)
	}
	if _, ok := sheetOfPaper(o.Paper); !ok {
		return fmt.Errorf("paper %q: must be one of %s", o.Paper, strings.Join(Papers(), ", "))
	}
	for _, k := range o.Solids {
		if !slices.Contains(solidKeys(), k) {
			return fmt.Errorf("solid %q: must be one of %s", k, strings.Join(solidKeys(), ", "))
		}
	}
	if len(o.Date) > 40 {
		return fmt.Errorf("date: %d letters: must be 40 at most", len(o.Date))
	}
	if len(o.Process) > 200 {
		return fmt.Errorf("process: %d letters: must be 200 at most", len(o.Process))
	}
	if i := strings.IndexFunc(o.Process, unicode.IsControl); i >= 0 {
		return fmt.Errorf("process: letter %d is a control character: must be plain words", i+1)
	}
	return nil
}

// paper is a sheet of paper, upright, mm.
type paper struct {
	name, title string
	w, h        float64
}

var papers = []paper{
	{A4, "A4", 210, 297},
	{Letter, "Letter", 215.9, 279.4},
	{A3, "A3", 297, 420},
}

// Papers lists the names that [Options.Paper] takes.
func Papers() []string {
	var names []string
	for _, p := range papers {
		names = append(names, p.name)
	}
	return names
}

func sheetOfPaper(name string) (paper, bool) {
	if name == "" {
		return papers[0], true
	}
	for _, p := range papers {
		if strings.EqualFold(name, p.name) {
			return p, true
		}
	}
	return paper{}, false
}
