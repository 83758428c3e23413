package motif

import (
	"math"

	"fretband/unroll/plane"
)

var sails = Motif{
	Key:     "sails",
	Title:   "Sails",
	What:    "Our own: a pair of bellied sails at every mast and the sky between one boat and the next. Without belly they are right-angled triangles.",
	Usual:   Proportions{0.85, 2, 0},
	Numbers: []Number{{"belly", "belly", "of fullest", 0.6, 0, 1}},
	Cells: func(f Frame) Tiling {
		var t Tiling
		a, h := f.Pitch(), f.H/float64(f.Rows)
		// The leech runs from the end of the foot to the masthead. It may turn
		// until it leaves the foot upright or meets the mast level: beyond that
		// it would reach into the next boat or the next row.
		turn := math.Min(math.Atan2(a/2, h), math.Atan2(h, a/2))
		b := math.Tan(f.Number("belly") * turn / 2) // sweep is twice the turn
		foot, head := plane.Pt(a/2, -h/2), plane.Pt(0, h/2)
		sail := plane.Loop{{Point: plane.Pt(0, -h/2)}, {Point: foot, Bulge: b}, {Point: head}}
		right := t.add(sail)
		left := t.add(sail.MirrorX())
		// The sky is about the middle between two masts.
		sky := t.add(plane.Loop{
			{Point: plane.Pt(0, -h/2), Bulge: -b}, // up the next boat's left leech
			{Point: plane.Pt(a/2, h/2)},
			{Point: plane.Pt(-a/2, h/2), Bulge: -b}, // down this boat's right leech
		})
		for r := -f.Over; r < f.Rows+f.Over; r++ {
			y := f.H/2 - (float64(r)+0.5)*h
			t.row(f, right, r, y, f.odd(r))
			t.row(f, left, r, y, f.odd(r))
			t.row(f, sky, r, y, f.odd(r)+0.5)
		}
		return t
	},
}
