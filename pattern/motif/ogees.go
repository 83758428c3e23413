package motif

import (
	"math"

	"fretband/unroll/plane"
)

var ogees = Motif{
	Key:       "ogees",
	Title:     "Ogees",
	What:      "A net of onion shapes, two rows to the row, round in the belly and hollow towards both points. Without swell they are diamonds.",
	Usual:     Proportions{0.75, 1.6, 0},
	Interlock: true,
	Numbers:   []Number{{"swell", "swell", "of fullest", 0.85, 0, 1}},
	Cells: func(f Frame) Tiling {
		var t Tiling
		a, h := f.Pitch(), f.H/float64(f.Rows)
		// A side is two arcs, one outwards, one inwards, that run into each other
		// half way: turned by half a turn it is itself, so that neighbours share
		// it. The fullest stands upright at belly and point, or, where the net is
		// wider than high, runs level in the middle.
		b := math.Tan(f.Number("swell") * math.Min(math.Atan2(a, h), math.Atan2(h, a)) / 2)
		onion := t.add(plane.Loop{
			{Point: plane.Pt(0, -h/2), Bulge: -b}, {Point: plane.Pt(a/4, -h/4), Bulge: b},
			{Point: plane.Pt(a/2, 0), Bulge: b}, {Point: plane.Pt(a/4, h/4), Bulge: -b},
			{Point: plane.Pt(0, h/2), Bulge: -b}, {Point: plane.Pt(-a/4, h/4), Bulge: b},
			{Point: plane.Pt(-a/2, 0), Bulge: b}, {Point: plane.Pt(-a/4, -h/4), Bulge: -b},
		})
		// As with diamonds, rows are half a height apart.
		for r := -2 * f.Over; r <= 2*(f.Rows+f.Over); r++ {
			t.row(f, onion, r, f.H/2-float64(r)*h/2, 0.5*float64(1-r&1))
		}
		return t
	},
}
