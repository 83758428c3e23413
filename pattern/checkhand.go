package pattern

import (
	"fmt"

	"fretband/pattern/lettering"
	"fretband/pattern/own"
	"fretband/unroll"
)

// What the values of reserves, engraving and edits have to be together.

// boundReserves bounds the reserves, those of rows counted singly.
func boundReserves(d *Design, _ At) error {
	n := 0
	for i, r := range d.Reserves {
		if n += max(1, r.Count); n > MaxReserved {
			return &unroll.FieldError{Path: fmt.Sprintf("reserves[%d].count", i), Msg: fmt.Sprintf("at most %d reserves, those of rows counted singly; there are %d or more", MaxReserved, n)}
		}
	}
	return nil
}

// boundEditPositions bounds the positions of all edits.
func boundEditPositions(d *Design, _ At) error {
	n := 0
	for i, e := range d.Edits {
		if n += len(e.At) * len(e.flips()); n > MaxEditPositions {
			return &unroll.FieldError{Path: fmt.Sprintf("edits[%d].at", i), Msg: fmt.Sprintf("at most %d places of all edits together, with their mirror images; there are %d or more", MaxEditPositions, n)}
		}
	}
	return nil
}

// textOnOneLine asks for a text that can be drawn as one line.
func textOnOneLine(d *Design, at At) error {
	m := &d.Engravings[at[0]]
	if m.Kind != TextEngraving {
		return nil
	}
	if err := lettering.Check(m.Text); err != nil {
		return &unroll.FieldError{Path: fmt.Sprintf("marks[%d].text", at[0]), Msg: err.Error()}
	}
	return nil
}

// engravedPath asks for path data that can be drawn.
func engravedPath(d *Design, at At) error {
	m := &d.Engravings[at[0]]
	if m.Kind != PathEngraving {
		return nil
	}
	if _, err := own.Strokes(m.Path); err != nil {
		return &unroll.FieldError{Path: fmt.Sprintf("marks[%d].path", at[0]), Msg: err.Error()}
	}
	return nil
}
