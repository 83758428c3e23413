package pattern

import (
	"errors"
	"fmt"
	"math"
	"strings"
	"unicode"

	"fretband/unroll"
)

// Range is the least and greatest value of a number, both allowed.
type Range struct {
	Min, Max float64
	Whole    bool
}

// Limits of the numbers of a design, by their path in the design file. They are
// ours: wide enough for any band worn on an arm, narrow enough that a slip of
// the keyboard is caught.
var (
	RowsRange     = Range{1, 60, true}
	RepeatsRange  = Range{1, 1000, true}
	StaggerRange  = Range{0, 0.5, false}
	BridgeRange   = Range{0.1, 20, false}
	RimRange      = Range{0, 60, false}
	CornerRange   = Range{0, 10, false}
	SmallestRange = Range{0, 20, false}
	DensityRange  = Range{0.5, 25, false}
	PriceRange    = Range{0, 100000, false}
	PlaceRange    = Range{-500, 500, false}
	SizeRange     = Range{0.1, 150, false}
	MarginRange   = Range{0, 20, false}
	PitchRange    = Range{0.2, 200, false}
	PhaseRange    = Range{-1, 1, false}
	TurnRange     = Range{-360, 360, false}
	GradeAtRange  = Range{-1, 1, false}
	GradeRange    = Range{0.2, 5, false} // of sizes
	ShareRange    = Range{0, 1, false}
	CountRange    = Range{0, 200, true}
	SpacingRange  = Range{0, 300, false}
	KeepRange     = Range{-1, 20, false}
	LengthRange   = Range{0.1, 500, false}
	LetterRange   = Range{0.3, 40, false}
	ScaleRange    = Range{0.1, 10, false}
)

// Limits of what a design holds, ours.
const (
	MaxFields   = 40
	MaxReserves = 200
	MaxMarks    = 100
	MaxEdits    = 1000
	MaxSpots    = 2000 // of one edit
	MaxVariants = 20
	MaxAccepted = 200
	MaxGrades   = 24 // points of a curve
	MaxPath     = 100000
	MaxKept     = 2000 // reserves, those of rows counted singly
	MaxPlaces   = 4000 // of all edits together, with their mirror images
)

// MaxCells is the greatest number of rows times repeats: some hundred thousand
// openings are more than a bench cuts in a lifetime.
const MaxCells = 30000

// MaxMotifEdges is the greatest number of edges of all cells of a user's own motifs
// together; MaxShapeEdges that of the paths of all reserves, those of rows counted singly, and
// of all areas of fields, and of all openings laid by hand; MaxMarkEdges that of all
// engraved paths that openings keep away from.
const (
	MaxMarkEdges  = 2000
	MaxMotifEdges = 300000
	MaxShapeEdges = 5000
)

// MaxPieces is the greatest number of lines and curves of all paths of a design without
// its variants, each path counted once: reading so many takes a tenth of a second.
const MaxPieces = 20000

// MaxMarkLength is the greatest length of all that is engraved, mm.
const MaxMarkLength = 100000

func (r Range) check(path string, v float64) error {
	what := "a number"
	if r.Whole {
		what = "a whole number"
	}
	if math.IsNaN(v) || v < r.Min || v > r.Max {
		return &unroll.FieldError{Path: path, Msg: fmt.Sprintf("must be %s from %g to %g; it is %g", what, r.Min, r.Max, v)}
	}
	return nil
}

// Check reports the first number that can't be used, as an
// [unroll.FieldError] naming the field as the design file does.
func (d Design) Check() error {
	if err := checkText("name", d.Name, 80, true); err != nil {
		return err
	}
	if err := checkLines("note", d.Note, 2000, false); err != nil {
		return err
	}
	if err := d.Band.Check(); err != nil {
		return err
	}
	if err := d.Metal.check(); err != nil {
		return err
	}
	if err := d.Rules.check("rules"); err != nil {
		return err
	}
	for _, c := range []struct {
		path     string
		n, limit int
	}{
		{"fields", len(d.Fields), MaxFields}, {"reserves", len(d.Reserves), MaxReserves}, {"marks", len(d.Marks), MaxMarks},
		{"edits", len(d.Edits), MaxEdits}, {"accepted", len(d.Accepted), MaxAccepted}, {"variants", len(d.Variants), MaxVariants},
	} {
		if c.n > c.limit {
			return &unroll.FieldError{Path: c.path, Msg: fmt.Sprintf("at most %d %s; there are %d", c.limit, c.path, c.n)}
		}
	}
	if err := d.checkPieces(); err != nil {
		return err
	}
	cells := 0
	for i, f := range d.Fields {
		if err := f.check(fmt.Sprintf("fields[%d]", i)); err != nil {
			return err
		}
		if cells += f.Rows * f.Repeats; cells > MaxCells {
			return &unroll.FieldError{Path: fmt.Sprintf("fields[%d].repeats", i), Msg: fmt.Sprintf("rows times repeats must be at most %d, all fields together; it is %d", MaxCells, cells)}
		}
	}
	kept := 0
	for i, r := range d.Reserves {
		if err := r.check(fmt.Sprintf("reserves[%d]", i)); err != nil {
			return err
		}
		if kept += max(1, r.Count); kept > MaxKept {
			return &unroll.FieldError{Path: fmt.Sprintf("reserves[%d].count", i), Msg: fmt.Sprintf("at most %d reserves, those of rows counted singly; there are %d or more", MaxKept, kept)}
		}
	}
	for i, m := range d.Marks {
		if err := m.check(fmt.Sprintf("marks[%d]", i)); err != nil {
			return err
		}
	}
	places := 0
	for i, e := range d.Edits {
		if err := e.check(fmt.Sprintf("edits[%d]", i)); err != nil {
			return err
		}
		if places += len(e.At) * len(e.flips()); places > MaxPlaces {
			return &unroll.FieldError{Path: fmt.Sprintf("edits[%d].at", i), Msg: fmt.Sprintf("at most %d places of all edits together, with their mirror images; there are %d or more", MaxPlaces, places)}
		}
	}
	if err := d.checkWork(); err != nil {
		return err
	}
	for i, v := range d.Variants {
		path := fmt.Sprintf("variants[%d]", i)
		if len(v.Variants) > 0 {
			return &unroll.FieldError{Path: path + ".variants", Msg: "a variant has no variants of its own; put them all beside it"}
		}
		if err := v.Check(); err != nil {
			var f *unroll.FieldError
			if errors.As(err, &f) {
				return &unroll.FieldError{Path: path + "." + f.Path, Msg: f.Msg}
			}
			return fmt.Errorf("%s: %w", path, err)
		}
	}
	return nil
}

func (r DesignRules) check(path string) error {
	if r.Process != "" {
		if _, ok := ProcessByKey(r.Process); !ok {
			return oneOf(path+".process", r.Process, processKeys())
		}
	}
	return checkAll(path, []ranged{
		{".bridge_mm", BridgeRange, r.BridgeMM}, {".rim_mm", RimRange, r.RimMM},
		{".corner_mm", CornerRange, r.CornerMM}, {".smallest_mm", SmallestRange, r.SmallestMM},
	})
}

// ranged is a number to be checked.
type ranged struct {
	field string
	r     Range
	v     float64
}

// checkAll returns the first number out of its range.
func checkAll(path string, all []ranged) error {
	for _, c := range all {
		if err := c.r.check(path+c.field, c.v); err != nil {
			return err
		}
	}
	return nil
}

// absent returns an error if one of the numbers is given although it means nothing
// for a thing of this kind.
func absent(path, kind string, all []ranged) error {
	for _, c := range all {
		if c.v != 0 {
			return &unroll.FieldError{Path: path + c.field, Msg: fmt.Sprintf("means nothing for a %s; leave it out", kind)}
		}
	}
	return nil
}

// checkText checks a text of one line. Whatever it is shown or written in, a line of a
// list or of a drawing, a control character in it would break.
func checkText(path, s string, most int, needed bool) error {
	if strings.ContainsAny(s, lineBreaks) {
		return &unroll.FieldError{Path: path, Msg: "must be one line; it holds a line break: put a space there"}
	}
	if strings.Contains(s, "\t") {
		return &unroll.FieldError{Path: path, Msg: "holds a tab; put a space there"}
	}
	return checkLines(path, s, most, needed)
}

// lineBreaks are what starts a new line (Unicode Standard Annex 14, classes BK, CR, LF
// and NL).
const lineBreaks = "\n\r\v\f\u0085\u2028\u2029"

// checkLines checks a text that may have several lines.
func checkLines(path, s string, most int, needed bool) error {
	if needed && strings.TrimSpace(s) == "" {
		return &unroll.FieldError{Path: path, Msg: "must not be empty"}
	}
	if len(s) > most {
		return &unroll.FieldError{Path: path, Msg: fmt.Sprintf("at most %d bytes; it has %d", most, len(s))}
	}
	for _, c := range s {
		if unicode.IsControl(c) && c != '\n' && c != '\t' {
			return &unroll.FieldError{Path: path, Msg: fmt.Sprintf("holds the control character %U; remove it", c)}
		}
	}
	return nil
}

func (m Metal) check() error {
	if m.Alloy == OwnAlloy {
		if err := DensityRange.check("metal.density_g_cm3", m.DensityGCM3); err != nil {
			return err
		}
	} else {
		if _, ok := AlloyByKey(m.Alloy); !ok {
			return &unroll.FieldError{Path: "metal.alloy", Msg: fmt.Sprintf("%s is not in the table; use one of %s, or %q with density_g_cm3", unroll.Quote(m.Alloy), alloyKeys(), OwnAlloy)}
		}
		if m.DensityGCM3 != 0 {
			return &unroll.FieldError{Path: "metal.density_g_cm3", Msg: fmt.Sprintf("goes with alloy %q only; leave it out", OwnAlloy)}
		}
	}
	if err := PriceRange.check("metal.price_per_g", m.PricePerG); err != nil {
		return err
	}
	return checkText("metal.currency", m.Currency, 12, false)
}

func alloyKeys() string {
	var keys []string
	for _, a := range Alloys() {
		if a.Key != OwnAlloy {
			keys = append(keys, a.Key)
		}
	}
	return strings.Join(keys, ", ")
}
