package motif

import (
	"math"

	"fretband/unroll/plane"
)

var lancets = Motif{
	Key:     "lancets",
	Title:   "Lancet arches",
	What:    "Arcades of pointed windows, and the spandrels above them. The rise is the height of the arch: 0.5 is round, 0.866 equilateral, more is a lancet.",
	Usual:   Proportions{0.6, 1.5, 0},
	Numbers: []Number{{"rise", "rise", "of width", 1.1, 0.5, 2.5}},
	Cells: func(f Frame) Tiling {
		var t Tiling
		a, h := f.Pitch(), f.H/float64(f.Rows)
		rise := math.Min(f.Number("rise")*a, 0.9*h)
		// The arcs leave their legs upright; where the row is too low for that,
		// they meet level at the top.
		b := math.Tan(math.Min(math.Atan2(a/2, rise), math.Atan2(rise, a/2)) / 2)
		spring := h/2 - rise
		window := t.add(plane.Loop{
			{Point: plane.Pt(-a/2, -h/2)}, {Point: plane.Pt(a/2, -h/2)},
			{Point: plane.Pt(a/2, spring), Bulge: b}, {Point: plane.Pt(0, h/2), Bulge: b}, {Point: plane.Pt(-a/2, spring)},
		})
		spandrel := t.add(plane.Loop{
			{Point: plane.Pt(0, spring), Bulge: -b}, {Point: plane.Pt(a/2, h/2)}, {Point: plane.Pt(-a/2, h/2), Bulge: -b},
		})
		for r := -f.Over; r < f.Rows+f.Over; r++ {
			y := f.H/2 - (float64(r)+0.5)*h
			t.row(f, window, r, y, f.odd(r))
			t.row(f, spandrel, r, y, f.odd(r)+0.5)
		}
		return t
	},
}
