package motif

import (
	"math"

	"fretband/unroll/plane"
)

var chevrons = Motif{
	Key:       "chevrons",
	Title:     "Chevrons",
	What:      "Zigzag strips, tied by upright bars at the foot of every zigzag in one row and at its head in the next. The peak is the height of the zigzag.",
	Usual:     Proportions{1.5, 1.1, 0},
	Interlock: true,
	Numbers:   []Number{{"peak", "peak", "of row", 0.9, 0.1, 3}},
	Cells: func(f Frame) Tiling {
		a := f.Pitch()
		v := f.H / (float64(f.Rows) + f.Number("peak")) // from row to row
		p := f.Number("peak") * v
		up := plane.Polygon(
			plane.Pt(-a/2, -p/2-v/2), plane.Pt(0, p/2-v/2), plane.Pt(a/2, -p/2-v/2),
			plane.Pt(a/2, -p/2+v/2), plane.Pt(0, p/2+v/2), plane.Pt(-a/2, -p/2+v/2))
		return strips(f, up, v, p)
	},
}

// strips places a strip of height v, whose edges swing by p about it, in all rows
// that reach into the frame, and cuts it at the foot of each swing in one row, at
// its head in the next: there the strip is the same loop upside down.
func strips(f Frame, up plane.Loop, v, p float64) Tiling {
	var t Tiling
	shapes := [2]int{t.add(up), t.add(up.MirrorY())}
	over := int(math.Ceil(p/v - 1e-9)) // rows of which the rim leaves a part
	for r := -over - f.Over; r < f.Rows+over+f.Over; r++ {
		odd := r & 1
		t.row(f, shapes[odd], r, f.H/2-p/2-(float64(r)+0.5)*v, 0.5*float64(odd))
	}
	return t
}
