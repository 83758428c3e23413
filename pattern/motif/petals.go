package motif

import (
	"math"

	"fretband/unroll/plane"
)

var petals = Motif{
	Key:       "petals",
	Title:     "Petals",
	What:      "A net of petals that meet in fours, and the hollow-sided diamonds between them: the pattern of overlapping circles where the pitch equals the row.",
	Usual:     Proportions{1, 2.4, 0},
	Interlock: true,
	Numbers:   []Number{{"full", "fullness", "of fullest", 1, 0.1, 1}},
	Cells: func(f Frame) Tiling {
		var t Tiling
		a, h := f.Pitch(), f.H/float64(f.Rows)
		// Petals are on the sides of diamonds. At their tips the fullest fill
		// the sharper angle between two sides: an arc turns by that angle.
		b := math.Tan(f.Number("full") * math.Min(math.Atan2(h, a), math.Atan2(a, h)) / 2)
		petal := plane.Loop{{Point: plane.Pt(-a/4, -h/4), Bulge: b}, {Point: plane.Pt(a/4, h/4), Bulge: b}}
		rising := t.add(petal)
		falling := t.add(petal.MirrorX())
		star := t.add(plane.Loop{
			{Point: plane.Pt(-a/2, 0), Bulge: -b}, {Point: plane.Pt(0, -h/2), Bulge: -b},
			{Point: plane.Pt(a/2, 0), Bulge: -b}, {Point: plane.Pt(0, h/2), Bulge: -b},
		})
		// As with diamonds, rows are half a height apart.
		for r := -2 * f.Over; r <= 2*(f.Rows+f.Over); r++ {
			y, shift := f.H/2-float64(r)*h/2, 0.5*float64(1-r&1)
			t.row(f, star, r, y, shift)
			if r < 2*(f.Rows+f.Over) {
				// The sides below this row's stars.
				t.row(f, rising, r, y-h/4, shift+0.25)
				t.row(f, falling, r, y-h/4, shift-0.25)
			}
		}
		return t
	},
}
