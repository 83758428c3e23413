package motif

import "fretband/unroll/plane"

var hexagons = Motif{
	Key:       "hexagons",
	Title:     "Hexagons",
	What:      "Honeycomb, stretched to the repeat. The peak is the part of the row's height taken by the slanting sides; a third makes regular hexagons when the pitch suits.",
	Usual:     Proportions{1.15, 1, 0},
	Interlock: true,
	Numbers:   []Number{{"peak", "peak", "of row", 1.0 / 3, 0.05, 0.95}},
	Cells: func(f Frame) Tiling {
		var t Tiling
		k := f.Number("peak")
		a := f.Pitch()
		v := f.H / (float64(f.Rows) + k) // from row to row
		p := k * v                       // height of a peak
		s := v - p                       // height of an upright side
		hex := t.add(plane.Polygon(
			plane.Pt(-a/2, -s/2), plane.Pt(0, -s/2-p), plane.Pt(a/2, -s/2),
			plane.Pt(a/2, s/2), plane.Pt(0, s/2+p), plane.Pt(-a/2, s/2)))
		// One row more above and below: what the rim leaves of them fills the
		// notches between the outer peaks.
		for r := -1 - f.Over; r <= f.Rows+f.Over; r++ {
			shift := 0.0
			if r&1 != 0 {
				shift = 0.5
			}
			t.row(f, hex, r, f.H/2-p-s/2-float64(r)*v, shift)
		}
		return t
	},
}
