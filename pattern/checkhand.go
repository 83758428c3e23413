package pattern

import (
	"fmt"

	"fretband/pattern/lettering"
	"fretband/pattern/own"
	"fretband/unroll"
)

// What the values of reserves, engraving and edits have to be together.

// allKept bounds the reserves, those of rows counted singly.
func allKept(d *Design, _ At) error {
	kept := 0
	for i, r := range d.Reserves {
		if kept += max(1, r.Count); kept > MaxKept {
			return &unroll.FieldError{Path: fmt.Sprintf("reserves[%d].count", i), Msg: fmt.Sprintf("at most %d reserves, those of rows counted singly; there are %d or more", MaxKept, kept)}
		}
	}
	return nil
}

// allPlaces bounds the places of all edits.
func allPlaces(d *Design, _ At) error {
	places := 0
	for i, e := range d.Edits {
		if places += len(e.At) * len(e.flips()); places > MaxPlaces {
			return &unroll.FieldError{Path: fmt.Sprintf("edits[%d].at", i), Msg: fmt.Sprintf("at most %d places of all edits together, with their mirror images; there are %d or more", MaxPlaces, places)}
		}
	}
	return nil
}

// markOneLine asks for a text that can be drawn as one line.
func markOneLine(d *Design, at At) error {
	m := &d.Engravings[at[0]]
	if m.Kind != TextEngraving {
		return nil
	}
	if err := lettering.Check(m.Text); err != nil {
		return &unroll.FieldError{Path: fmt.Sprintf("marks[%d].text", at[0]), Msg: err.Error()}
	}
	return nil
}

// markLines asks for path data that can be drawn.
func markLines(d *Design, at At) error {
	m := &d.Engravings[at[0]]
	if m.Kind != PathEngraving {
		return nil
	}
	if _, err := own.Strokes(m.Path); err != nil {
		return &unroll.FieldError{Path: fmt.Sprintf("marks[%d].path", at[0]), Msg: err.Error()}
	}
	return nil
}
