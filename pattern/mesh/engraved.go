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

// Engraved returns the engraved lines of a sheet on the outer face of the bent band as it
// has moved, each as a chain of points, mm.
func Engraved(s *pattern.Sheet, how Moving) [][]unroll.Point3 {
	var lines [][]unroll.Point3
	for _, m := range s.Engravings {
		for _, st := range m.Strokes {
			var l []unroll.Point3
			for i, e := range st.Edges() {
				n := max(1, int(math.Ceil(e.Len()/engravedStep)), int(math.Ceil(math.Abs(e.Sweep())/0.4)))
				for k := range n + 1 {
					if i > 0 && k == 0 {
						continue
					}
					l = append(l, OnFace(s.Flat, e.At(float64(k)/float64(n)), how))
				}
			}
			lines = append(lines, l)
		}
	}
	return lines
}

// OnFace returns where a position of the blank is on the outer face of the bent band as it
// has moved, mm.
func OnFace(f unroll.Flat, p plane.Point, how Moving) unroll.Point3 {
	outer := f.Bend(p, f.Thickness)
	if how == nil {
		return outer
	}
	move, turn := how(p)
	_, outer = carried(f.Bend(p, 0), outer, move, turn)
	return outer
}
