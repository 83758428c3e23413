package motif

import "fretband/unroll/plane"

var triangles = Motif{
	Key:   "triangles",
	Title: "Triangles",
	What:  "Rows of triangles, point up and point down by turns. With a stagger of 0.5 the points of one row meet those of the next.",
	Usual: Proportions{1, 1.2, 0.5},
	Cells: func(f Frame) Tiling {
		var t Tiling
		a, h := f.Pitch(), f.H/float64(f.Rows)
		up := t.add(plane.Polygon(plane.Pt(-a/2, -h/2), plane.Pt(a/2, -h/2), plane.Pt(0, h/2)))
		down := t.add(plane.Polygon(plane.Pt(-a/2, h/2), plane.Pt(0, -h/2), plane.Pt(a/2, h/2)))
		for r := -f.Over; r < f.Rows+f.Over; r++ {
			y := f.H/2 - (float64(r)+0.5)*h
			t.row(f, up, r, y, f.odd(r))
			t.row(f, down, r, y, f.odd(r)+0.5)
		}
		return t
	},
}
