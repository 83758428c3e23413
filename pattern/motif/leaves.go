package motif

import (
	"math"

	"fretband/unroll/plane"
)

var leaves = Motif{
	Key:   "leaves",
	Title: "Leaves",
	What:  "A pair of leaves at every repeat, as large as fits: upright at a lean of 0, the slimmer the more they lean. Sprays at stagger 0, a net of leaves at 0.5.",
	Usual: Proportions{1.15, 1.3, 0},
	Numbers: []Number{
		{"lean", "lean", "of corner to corner", 0.55, 0, 0.9},
		{"width", "width", "of fullest", 1, 0.2, 1},
	},
	Cells: func(f Frame) Tiling {
		var t Tiling
		a, h := f.Pitch()/2, f.H/float64(f.Rows)
		lean := f.Number("lean") * math.Atan2(a, h)
		// Of all leaves that lean so, the one that fills the box of half a pitch
		// by a row; fuller than this (ours) it would be no leaf but a coin.
		const fullest = 0.7
		slim := largest(fullest, func(slim float64) bool {
			b := lens(1, slim).Turn(-lean).Bounds()
			return b.W()*h <= b.H()*a
		})
		leaf := lens(1, math.Max(slim, 1e-3)).Turn(-lean)
		b := leaf.Bounds()
		size := math.Min(a/b.W(), h/b.H())
		leaf = lens(size, size*math.Max(slim, 1e-3)*f.Number("width")).Turn(-lean)
		right := t.add(leaf)
		left := t.add(leaf.MirrorX())
		for r := -f.Over; r < f.Rows+f.Over; r++ {
			y := f.H/2 - (float64(r)+0.5)*h
			t.row(f, right, r, y, f.odd(r)+0.25)
			t.row(f, left, r, y, f.odd(r)-0.25)
		}
		return t
	},
}

// lens returns the upright lens of two arcs, length by width, about the origin.
func lens(length, width float64) plane.Loop {
	b := width / length // of an arc that rises by half the width
	return plane.Loop{{Point: plane.Pt(0, -length/2), Bulge: b}, {Point: plane.Pt(0, length/2), Bulge: b}}
}
