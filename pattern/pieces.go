package pattern

import (
	"fmt"

	"fretband/pattern/own"
	"fretband/unroll"
)

// checkPieces refuses paths that are too long together, before any of them is read.
func (d Design) checkPieces() error {
	pieces := 0
	add := func(data, path string, i int) error {
		if pieces += own.Pieces(data); pieces <= MaxPieces {
			return nil
		}
		return &unroll.FieldError{Path: fmt.Sprintf(path, i), Msg: fmt.Sprintf("all paths of the design together have %d or more lines and curves; at most %d are read: draw them with fewer points", pieces, MaxPieces)}
	}
	for i, f := range d.Fields {
		if err := firstOf(add(f.Path, "fields[%d].path", i), add(f.Area.Path, "fields[%d].area.path", i)); err != nil {
			return err
		}
	}
	for i, r := range d.Reserves {
		if err := add(r.Path, "reserves[%d].path", i); err != nil {
			return err
		}
	}
	for i, m := range d.Marks {
		if err := add(m.Path, "marks[%d].path", i); err != nil {
			return err
		}
	}
	for i, e := range d.Edits {
		if err := add(e.Path, "edits[%d].path", i); err != nil {
			return err
		}
	}
	return nil
}
