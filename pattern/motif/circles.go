package motif

import (
	"math"

	"fretband/unroll/plane"
)

var circles = Motif{
	Key:     "circles",
	Title:   "Circles",
	What:    "Rows of round holes as large as the bridge allows, in square (stagger 0) or staggered (0.5) order.",
	Usual:   Proportions{1.15, 0.9, 0.5},
	Numbers: []Number{{"size", "size", "of largest", 1, 0.1, 1}},
	Cells: func(f Frame) Tiling {
		var t Tiling
		d, v := circleRows(f)
		disc := t.add(plane.Circle(plane.Point{}, d/2*f.Number("size")))
		for r := -f.Over; r < f.Rows+f.Over; r++ {
			t.row(f, disc, r, (float64(f.Rows-1)/2-float64(r))*v, f.odd(r))
		}
		return t
	},
}

// circleRows returns the greatest diameter of equal circles that touch neither
// each other nor, with their rows spread over the whole height, the frame's
// edges, and the distance of the rows: of a single one, that to a row beyond.
func circleRows(f Frame) (d, v float64) {
	a := f.Pitch()
	if f.Rows == 1 {
		return math.Min(a, f.H), f.H
	}
	n := float64(f.Rows - 1)
	// The nearest centres are along a row, in the next row, or two rows on. The
	// larger the circles, the closer the rows: the largest that still fit are
	// found by halving.
	room := func(d float64) float64 {
		v := (f.H - d) / n
		m := math.Min(a, math.Hypot(f.Stagger*a, v))
		if f.Rows > 2 || f.Over > 0 {
			m = math.Min(m, 2*v)
		}
		return m
	}
	lo, _ := plane.Halve(0, math.Min(a, f.H), 60, func(d float64) bool { return d <= room(d) })
	return lo, (f.H - lo) / n
}
