package pattern

import (
	"fmt"
	"math"
	"strings"

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
)

// MaxCells is the greatest number of rows times repeats: some hundred thousand
// openings are more than a bench cuts in a lifetime.
const MaxCells = 30000

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
	if err := checkText("note", d.Note, 2000, false); err != nil {
		return err
	}
	if err := d.Band.Check(); err != nil {
		return err
	}
	if err := d.Metal.check(); err != nil {
		return err
	}
	if err := d.Field.check(); err != nil {
		return err
	}
	if len(d.Reserves) > 200 {
		return &unroll.FieldError{Path: "reserves", Msg: fmt.Sprintf("at most 200 reserves; there are %d", len(d.Reserves))}
	}
	for i, r := range d.Reserves {
		if err := r.check(fmt.Sprintf("reserves[%d]", i)); err != nil {
			return err
		}
	}
	return nil
}

func checkText(path, s string, most int, needed bool) error {
	if needed && strings.TrimSpace(s) == "" {
		return &unroll.FieldError{Path: path, Msg: "must not be empty"}
	}
	if len(s) > most {
		return &unroll.FieldError{Path: path, Msg: fmt.Sprintf("at most %d bytes; it has %d", most, len(s))}
	}
	for _, c := range s {
		if c < ' ' && c != '\n' && c != '\t' {
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
			return &unroll.FieldError{Path: "metal.alloy", Msg: fmt.Sprintf("%q is not in the table; use one of %s, or %q with density_g_cm3", m.Alloy, alloyKeys(), OwnAlloy)}
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

func (f Field) check() error {
	m, ok := MotifByKey(f.Motif)
	if !ok {
		var keys []string
		for _, m := range Motifs() {
			keys = append(keys, m.Key)
		}
		return &unroll.FieldError{Path: "field.motif", Msg: fmt.Sprintf("%q is not a motif; use one of %s", f.Motif, strings.Join(keys, ", "))}
	}
	for _, c := range []struct {
		path string
		r    Range
		v    float64
	}{
		{"field.rows", RowsRange, float64(f.Rows)},
		{"field.repeats", RepeatsRange, float64(f.Repeats)},
		{"field.stagger", StaggerRange, f.Stagger},
		{"field.bridge_mm", BridgeRange, f.BridgeMM},
		{"field.rim_mm", RimRange, f.RimMM},
		{"field.corner_mm", CornerRange, f.CornerMM},
		{"field.smallest_mm", SmallestRange, f.SmallestMM},
	} {
		if err := c.r.check(c.path, c.v); err != nil {
			return err
		}
	}
	if n := f.Rows * f.Repeats; n > MaxCells {
		return &unroll.FieldError{Path: "field.repeats", Msg: fmt.Sprintf("rows times repeats must be at most %d; it is %d", MaxCells, n)}
	}
	switch f.Follow {
	case "", FollowClip, FollowWidth:
	default:
		return &unroll.FieldError{Path: "field.follow", Msg: fmt.Sprintf("must be %q (cut by the rim) or %q (cells scale with the width); it is %q", FollowClip, FollowWidth, f.Follow)}
	}
	known := 0
	for _, n := range m.Numbers {
		if v, ok := f.Numbers[n.Key]; ok {
			known++
			if err := (Range{n.Min, n.Max, false}).check("field.numbers."+n.Key, v); err != nil {
				return err
			}
		}
	}
	if known < len(f.Numbers) {
		var keys []string
		for _, n := range m.Numbers {
			keys = append(keys, n.Key)
		}
		msg := fmt.Sprintf("%s has the numbers %s; another is given", m.Key, strings.Join(keys, ", "))
		if len(keys) == 0 {
			msg = fmt.Sprintf("%s has no numbers of its own; leave the list empty", m.Key)
		}
		return &unroll.FieldError{Path: "field.numbers", Msg: msg}
	}
	return nil
}

func (r Reserve) check(path string) error {
	switch r.Shape {
	case CircleReserve:
		if r.HeightMM != 0 {
			return &unroll.FieldError{Path: path + ".height_mm", Msg: "a circle has only width_mm, its diameter; leave the height out"}
		}
	case RectangleReserve:
		if err := SizeRange.check(path+".height_mm", r.HeightMM); err != nil {
			return err
		}
	default:
		return &unroll.FieldError{Path: path + ".shape", Msg: fmt.Sprintf("%q is not a shape of reserve; use %q or %q", r.Shape, CircleReserve, RectangleReserve)}
	}
	for _, c := range []struct {
		field string
		r     Range
		v     float64
	}{
		{".x_mm", PlaceRange, r.XMM}, {".y_mm", PlaceRange, r.YMM},
		{".width_mm", SizeRange, r.WidthMM}, {".margin_mm", MarginRange, r.MarginMM},
	} {
		if err := c.r.check(path+c.field, c.v); err != nil {
			return err
		}
	}
	return checkText(path+".note", r.Note, 200, false)
}
