package pattern

import (
	"fmt"
	"strings"

	"fretband/pattern/motif"
	"fretband/pattern/own"
	"fretband/unroll"
)

// What the values of a field have to be together.

// motif returns the field's motif, or why it has none.
func (f Field) motif() (motif.Motif, error) {
	if f.Motif == motif.OwnKey {
		if f.Path == "" {
			return motif.Motif{}, fmt.Errorf("is missing; the motif %q needs the path data of its shape", motif.OwnKey)
		}
		l, err := own.Outline(f.Path)
		if err != nil {
			return motif.Motif{}, err
		}
		m, err := motif.Own(l, f.LeftHalf == LeftMirrored)
		return m.Wider(f.WiderAlongMM, f.WiderAcrossMM), err
	}
	m, ok := motif.ByKey(f.Motif)
	if !ok {
		var keys []string
		for _, m := range motif.All() {
			keys = append(keys, m.Key)
		}
		return m, fmt.Errorf("%s is not a motif; use one of %s, %s", unroll.Quote(f.Motif), strings.Join(keys, ", "), motif.OwnKey)
	}
	return m.Wider(f.WiderAlongMM, f.WiderAcrossMM), nil
}

// motifKnown asks for a motif of the table, or for the user's own with its shape, and
// checks the motif's own numbers by the motif's own table of them.
func motifKnown(d *Design, at At) error {
	f := &d.Fields[at[0]]
	m, err := f.motif()
	if err != nil {
		field := "motif"
		if f.Motif == motif.OwnKey {
			field = "path"
		}
		return &unroll.FieldError{Path: fmt.Sprintf("fields[%d].%s", at[0], field), Msg: err.Error()}
	}
	path := fmt.Sprintf("fields[%d].numbers", at[0])
	known := 0
	for _, n := range m.Numbers {
		if v, ok := f.Numbers[n.Key]; ok {
			known++
			e := Entry{Range: Range{n.Min, n.Max}}
			if msg := e.wrongNumber(v, "a number", d, at); msg != "" {
				return &unroll.FieldError{Path: path + "." + n.Key, Msg: msg}
			}
		}
	}
	if known == len(f.Numbers) {
		return nil
	}
	var keys []string
	for _, n := range m.Numbers {
		keys = append(keys, n.Key)
	}
	msg := fmt.Sprintf("%s has the numbers %s; another is given", m.Key, strings.Join(keys, ", "))
	if len(keys) == 0 {
		msg = fmt.Sprintf("%s has no numbers of its own; leave the list empty", m.Key)
	}
	return &unroll.FieldError{Path: path, Msg: msg}
}

// countedOnce asks for a number of repeats or a pitch, not both.
func countedOnce(d *Design, at At) error {
	if f := &d.Fields[at[0]]; f.PitchMM != 0 && f.Repeats != 0 {
		return &unroll.FieldError{Path: fmt.Sprintf("fields[%d].pitch_mm", at[0]), Msg: "a field has a pitch or a number of repeats; leave one of them out"}
	}
	return nil
}

// cells bounds the cells of a field.
func cells(d *Design, at At) error {
	if n := d.Fields[at[0]].Rows * d.Fields[at[0]].Repeats; n > MaxCells {
		return &unroll.FieldError{Path: fmt.Sprintf("fields[%d].repeats", at[0]), Msg: fmt.Sprintf("rows times repeats must be at most %d; it is %d", MaxCells, n)}
	}
	return nil
}

// allCells bounds the cells of all fields together.
func allCells(d *Design, _ At) error {
	n := 0
	for i, f := range d.Fields {
		if n += f.Rows * f.Repeats; n > MaxCells {
			return &unroll.FieldError{Path: fmt.Sprintf("fields[%d].repeats", i), Msg: fmt.Sprintf("rows times repeats must be at most %d, all fields together; it is %d", MaxCells, n)}
		}
	}
	return nil
}

// stretchOrder asks that a run or a strip ends beyond where it begins.
func stretchOrder(d *Design, at At) error {
	if a := &d.Fields[at[0]].Area; (a.Shape == RunShape || a.Shape == StripShape) && a.ToMM <= a.FromMM {
		return &unroll.FieldError{Path: fmt.Sprintf("fields[%d].area.to_mm", at[0]), Msg: fmt.Sprintf("must be more than from_mm, %g; it is %g", a.FromMM, a.ToMM)}
	}
	return nil
}

// gradeOrder asks that the points of a curve run from left to right. The curve may be
// one of each part of a list.
func gradeOrder(path string) func(*Design, At) error {
	_, point := kept(path)
	last := strings.Count(path, "[]") - 1
	return func(d *Design, at At) error {
		before := at
		if before[last]--; at[last] == 0 || point(d, at).Float() > point(d, before).Float() {
			return nil
		}
		return &unroll.FieldError{Path: pathAt(path, at), Msg: fmt.Sprintf("must be more than the one before it (%g); it is %g", point(d, before).Float(), point(d, at).Float())}
	}
}

// Interlocks reports whether the field's motif fits together in one way only, so that its
// stagger does nothing.
func (f Field) Interlocks() bool {
	m, ok := motif.ByKey(f.Motif)
	return ok && m.Interlock
}
