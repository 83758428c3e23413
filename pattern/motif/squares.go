package motif

import "fretband/unroll/plane"

var squares = Motif{
	Key:   "squares",
	Title: "Squares",
	What:  "A grid of squares: oblong where the pitch is not the height of a row.",
	Usual: Proportions{1, 1, 0},
	Cells: func(f Frame) Tiling {
		var t Tiling
		a, h := f.Pitch(), f.H/float64(f.Rows)
		square := t.add(box(a, h))
		for r := -f.Over; r < f.Rows+f.Over; r++ {
			t.row(f, square, r, f.H/2-(float64(r)+0.5)*h, f.odd(r))
		}
		return t
	},
}

// box returns the upright rectangle of that size about the origin.
func box(w, h float64) plane.Loop {
	return plane.Rect(plane.Box{Min: plane.Pt(-w/2, -h/2), Max: plane.Pt(w/2, h/2)})
}
