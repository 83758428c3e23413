package motif

import "fretband/unroll/plane"

var diamonds = Motif{
	Key:       "diamonds",
	Title:     "Diamonds",
	What:      "A net of diamonds, one repeat long and one row high; half diamonds fill the edges.",
	Usual:     Proportions{0.8, 1, 0},
	Interlock: true,
	Cells: func(f Frame) Tiling {
		var t Tiling
		a, h := f.Pitch(), f.H/float64(f.Rows)
		d := t.add(plane.Polygon(plane.Pt(-a/2, 0), plane.Pt(0, -h/2), plane.Pt(a/2, 0), plane.Pt(0, h/2)))
		// Rows are half a height apart: 2 Rows + 1 of them, the first and the
		// last cut in half by the rims.
		for r := -2 * f.Over; r <= 2*(f.Rows+f.Over); r++ {
			shift := 0.5
			if r&1 == 1 {
				shift = 0
			}
			t.row(f, d, r, f.H/2-float64(r)*h/2, shift)
		}
		return t
	},
}
