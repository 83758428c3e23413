package mesh

import (
	"math"

	"fretband/pattern"
	"fretband/unroll"
)

// engravedStep is the longest piece of an engraved line on the bent band, mm: over it a
// finger ring bends by a hundredth of a millimetre.
const engravedStep = 0.5

// Engraved returns the engraved lines of a sheet on the outer face of the bent band, each
// as a chain of points, mm.
func Engraved(s *pattern.Sheet) [][]unroll.Point3 {
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
					l = append(l, s.Flat.Bend(e.At(float64(k)/float64(n)), s.Flat.Thickness))
				}
			}
			lines = append(lines, l)
		}
	}
	return lines
}
