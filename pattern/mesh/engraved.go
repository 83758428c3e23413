package mesh

import (
	"math"

	"fretband/pattern"
	"fretband/unroll"
	"fretband/unroll/plane"
)

// engravedStep is the longest piece of an engraved line on the bent band, mm: over it a
// finger ring bends by a hundredth of a millimetre.
const engravedStep = 0.5

// EngravedLine is an engraved line of the bent band.
type EngravedLine struct {
	At   []unroll.Point3 // a chain of points, mm
	Face Kind            // [Outer] or [Inner]
}

// Engraved returns the engraved lines of a sheet on the bent band as it has moved.
func Engraved(s *pattern.Sheet, how Moving) []EngravedLine {
	var lines []EngravedLine
	for _, m := range s.Engravings {
		face, depth := Outer, s.Flat.Thickness
		if m.Inside {
			face, depth = Inner, 0
		}
		for _, st := range m.Strokes {
			var l []unroll.Point3
			for i, e := range st.Edges() {
				n := max(1, int(math.Ceil(e.Len()/engravedStep)), int(math.Ceil(math.Abs(e.Sweep())/0.4)))
				for k := range n + 1 {
					if i > 0 && k == 0 {
						continue
					}
					l = append(l, onFace(s.Flat, e.At(float64(k)/float64(n)), depth, how))
				}
			}
			lines = append(lines, EngravedLine{l, face})
		}
	}
	return lines
}

// OnFace returns where a position of the blank is on the outer face of the bent band as it
// has moved, mm.
func OnFace(f unroll.Flat, p plane.Point, how Moving) unroll.Point3 {
	return onFace(f, p, f.Thickness, how)
}

// onFace returns where a position is that lies so deep over the inner face.
func onFace(f unroll.Flat, p plane.Point, depth float64, how Moving) unroll.Point3 {
	at := f.Bend(p, depth)
	if how == nil {
		return at
	}
	move, turn := how(p)
	_, at = carried(f.Bend(p, 0), at, move, turn)
	return at
}
