package pattern

import (
	"fmt"
	"strings"

	"fretband/pattern/own"
	"fretband/unroll"
)

// checkPieces refuses paths that are too long together, before any of them is read.
func (d *Design) checkPieces() error {
	pieces := 0
	for i := range table {
		e := &table[i]
		if !e.Data {
			continue
		}
		list := byPath[strings.TrimSuffix(e.list(), "[]")][0]
		for k := range list.Count(d, At{}) {
			if pieces += own.Pieces(*e.Text(d, At{k})); pieces > MaxPieces {
				return &unroll.FieldError{Path: e.PathAt(At{k}), Msg: fmt.Sprintf("all paths of the design together have %d or more lines and curves; at most %d are read: draw them with fewer points", pieces, MaxPieces)}
			}
		}
	}
	return nil
}
