package motif

import (
	"math"

	"fretband/unroll/plane"
)

var scallops = Motif{
	Key:       "scallops",
	Title:     "Scallops",
	What:      "Rows of scales, round above and pointed below, each seated between two of the row under it.",
	Usual:     Proportions{1.6, 0.8, 0},
	Interlock: true,
	Cells: func(f Frame) Tiling {
		var t Tiling
		a := f.Pitch()
		v := f.H / float64(f.Rows+1) // from row to row, if all is arc
		if v > a/2 {
			v = (f.H - a/2) / float64(f.Rows)
		}
		scale := t.add(scale(a, v))
		// A row more above and below, cut by the rims, fills the notches.
		for r := -1 - f.Over; r <= f.Rows+f.Over; r++ {
			shift := 0.0
			if r&1 != 0 {
				shift = 0.5
			}
			t.row(f, scale, r, f.H/2-float64(r+1)*v, shift)
		}
		return t
	},
}

// scale is a cell of width a whose row pitch is v, its origin in the middle of
// its widest line: an arc above, the arcs of its two lower neighbours below. An
// arc higher than half its chord would reach over its neighbours: then it is a
// half circle on upright sides.
func scale(a, v float64) plane.Loop {
	rise := math.Min(v, a/2)
	side := v - rise
	bulge := 2 * rise / a
	half := math.Tan(math.Atan(bulge) / 2) // of half the arc
	l := plane.Loop{{Point: plane.Pt(0, -rise), Bulge: -half}, {Point: plane.Pt(a/2, 0)}}
	if side > 0 {
		l = append(l, plane.Vertex{Point: plane.Pt(a/2, side)})
	}
	l[len(l)-1].Bulge = bulge
	if side > 0 {
		l = append(l, plane.Vertex{Point: plane.Pt(-a/2, side)})
	}
	return append(l, plane.Vertex{Point: plane.Pt(-a/2, 0), Bulge: -half})
}
