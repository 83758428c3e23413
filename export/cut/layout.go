package cut

import (
	"fretband/export"
	"fretband/pattern"
	"fretband/pattern/check"
	"fretband/unroll/plane"
)

// Layout is how the parts will lie on the sheet of metal: the outlines, mm, from the
// sheet's lower left corner. They are the finished edges, placed
// with room for kerf, gap, margin and lead-ins.
type Layout struct {
	W, H  float64
	Parts []plane.Loop
}

// LayOut places the parts as the cut files will have them, from the outline alone where
// that is enough, so that it may be asked for while numbers are typed.
//
// Errors: options out of range, [RoomError], [KerfError], tabs without room.
func LayOut(s *pattern.Sheet, r *check.Report, o export.Options) (Layout, error) {
	if err := o.Check(); err != nil {
		return Layout{}, err
	}
	if err := checkForm(s, o); err != nil {
		return Layout{}, err
	}
	sheet, copies, err := laidOut(s, r, o)
	if err != nil {
		return Layout{}, err
	}
	l := Layout{W: sheet.W(), H: sheet.H()}
	for _, c := range copies {
		l.Parts = append(l.Parts, c.loop(s.Flat.Outline.CCW()).Move(plane.Pt(-sheet.Min.X, -sheet.Min.Y)))
	}
	return l, nil
}
