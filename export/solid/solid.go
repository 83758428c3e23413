// Package solid writes the bent, pierced band as a closed solid at its finished size.
package solid

import (
	"fmt"

	"fretband/export"
	"fretband/pattern"
	"fretband/pattern/check"
	"fretband/pattern/mesh"
	"fretband/unroll"
)

// corner is a corner of a solid as both formats write it, mm.
type corner [3]float32

// solidOf returns the bent band's solid, its corners rounded to what the files
// hold, and proves that it is closed.
func solidOf(s *pattern.Sheet, r *check.Report) ([]corner, []mesh.Triangle, error) {
	if r.Pieces > 1 {
		return nil, nil, fmt.Errorf("%d pieces: %w", r.Pieces, export.ErrPieces)
	}
	if gap := s.Flat.GapInner; s.Design.Band.Open() && gap < check.LeastGap {
		return nil, nil, fmt.Errorf("the ends of the cuff touch, with a gap of %.3f mm, so that a solid of it would run into itself: give it a gap of %g mm at least, or make it a bangle", gap, check.LeastGap)
	}
	m, err := mesh.Build(s, mesh.Options{Tolerance: mesh.Solid})
	if err != nil {
		return nil, nil, unsound("%v", err)
	}
	if err := m.Check(); err != nil {
		return nil, nil, unsound("%v", err)
	}
	corners := make([]corner, len(m.Vertices))
	at := make(map[corner]int, len(m.Vertices))
	for i, v := range m.Vertices {
		corners[i] = cornerOf(v)
		// A reader of STL knows corners by their positions alone.
		if j, taken := at[corners[i]]; taken {
			return nil, nil, unsound("corners %d and %d fall together at %v once rounded", j, i, corners[i])
		}
		at[corners[i]] = i
	}
	return corners, m.Triangles, nil
}

func unsound(format string, a ...any) error {
	return &unroll.ProgramError{What: "the solid of the bent band: " + fmt.Sprintf(format, a...)}
}

func cornerOf(v unroll.Point3) corner {
	// Adding 0 makes 0 of -0.
	return corner{float32(v.X) + 0, float32(v.Y) + 0, float32(v.Z) + 0}
}
