package check

import (
	"fretband/pattern"
	"fretband/unroll/plane"
)

// pieces counts the parts that the metal falls into once the openings are cut:
// the outer loops of the blank less the openings. Openings that keep clear of
// each other and of the edge leave the metal in one piece, so the exact
// subtraction is made only where the narrowest bridge has no width.
func pieces(s *pattern.Sheet, thinnest Bridge) int {
	if thinnest.None() || thinnest.Width > plane.Snap {
		return 1
	}
	metal := plane.Region{s.Flat.Outline}
	for i := range s.Openings {
		rest, err := plane.Not(metal, plane.Region{s.Openings[i].Loop})
		if err != nil {
			return 2 // what can't be shown to hold together is refused
		}
		metal = rest
	}
	n := 0
	for _, l := range metal {
		if l.Area() > plane.Snap {
			n++
		}
	}
	return n
}
