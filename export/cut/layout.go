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
	// Openings are those of all parts, clockwise; none where there are more than a small
	// picture can show ([mostShown]).
	Openings []plane.Loop
}

// mostShown is how many openings a picture of the sheet shows: with more, each is smaller than
// a pixel of it.
const mostShown = 6000

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
	corner := plane.Pt(-sheet.Min.X, -sheet.Min.Y)
	shown := len(copies)*len(s.Openings) <= mostShown
	for _, c := range copies {
		l.Parts = append(l.Parts, c.loop(s.Flat.Outline.CCW()).Move(corner))
		for i := range s.Openings {
			if shown {
				l.Openings = append(l.Openings, c.loop(s.Openings[i].Loop.CCW().Reverse()).Move(corner))
			}
		}
	}
	return l, nil
}
