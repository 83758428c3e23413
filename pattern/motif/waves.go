package motif

import (
	"math"

	"fretband/unroll/plane"
)

// steepest is the bulge of the arcs of the steepest wave: its flanks rise at 60
// degrees, where a strip is half as wide as at its crest. Ours.
var steepest = math.Tan(math.Pi / 6)

var waves = Motif{
	Key:       "waves",
	Title:     "Waves",
	What:      "Wavy strips of one width all along, tied by bars at every trough in one row and at every crest in the next. The swing is the height of the wave, as far as its flanks rise at 60° at most.",
	Usual:     Proportions{4, 1.2, 0},
	Interlock: true,
	Numbers:   []Number{{"swing", "swing", "of row", 0.8, 0.05, 3}},
	Cells: func(f Frame) Tiling {
		a := f.Pitch()
		v := f.H / (float64(f.Rows) + f.Number("swing")) // from row to row
		p := f.Number("swing") * v
		if most := steepest * a / 2; p > most {
			p = most
			v = (f.H - p) / float64(f.Rows)
		}
		// A wave is two arcs a repeat, each half a repeat long and half the swing
		// high: they run into each other where it crosses its middle line.
		b := 2 * p / a
		half := math.Tan(math.Atan(b) / 2)
		up := plane.Loop{
			{Point: plane.Pt(-a/2, -p/2-v/2), Bulge: half}, {Point: plane.Pt(-a/4, -v/2), Bulge: -b},
			{Point: plane.Pt(a/4, -v/2), Bulge: half}, {Point: plane.Pt(a/2, -p/2-v/2)},
			{Point: plane.Pt(a/2, -p/2+v/2), Bulge: -half}, {Point: plane.Pt(a/4, v/2), Bulge: b},
			{Point: plane.Pt(-a/4, v/2), Bulge: -half}, {Point: plane.Pt(-a/2, -p/2+v/2)},
		}
		return strips(f, up, v, p)
	},
}
