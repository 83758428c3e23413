package motif

import (
	"math"

	"fretband/unroll/plane"
)

var ellipses = Motif{
	Key:   "ellipses",
	Title: "Ellipses",
	What:  "Rows of ellipses, stretched to the pitch and the rows so that each touches all its neighbours, in square (stagger 0) or nested (0.5) order.",
	Usual: Proportions{0.75, 1, 0.5},
	Numbers: []Number{
		{"length", "length", "of largest", 1, 0.1, 1},
		{"height", "height", "of largest", 1, 0.1, 1},
	},
	Cells: func(f Frame) Tiling {
		var t Tiling
		// Stretched until the ellipses are circles of one pitch, a staggered row
		// stands sqrt(1 - stagger^2) pitches from the next.
		step := math.Sqrt(1 - f.Stagger*f.Stagger)
		h := f.H / (1 + float64(f.Rows-1)*step)
		e := t.add(Ellipse(f.Pitch()/2*f.Number("length"), h/2*f.Number("height")))
		for r := -f.Over; r < f.Rows+f.Over; r++ {
			t.row(f, e, r, (float64(f.Rows-1)/2-float64(r))*h*step, f.odd(r))
		}
		return t
	},
}

// Ellipse returns arcs within the ellipse of half-axes a and b about the origin,
// nowhere farther from it than twice the tolerance of fitting.
func Ellipse(a, b float64) plane.Loop {
	// Its least radius is that at the ends of the longer axis.
	tightest := math.Min(a, b) * math.Min(a, b) / math.Max(a, b)
	quarter := fitWithin(func(t float64) (plane.Point, plane.Point) {
		sin, cos := math.Sincos(t)
		return plane.Pt(a*cos, b*sin), plane.Pt(-a*sin, b*cos)
	}, 0, math.Pi/2, math.Min(plane.FitTolerance, tightest/4))
	quarter[0].A.Y = 0
	quarter[len(quarter)-1].B.X = 0
	var right []plane.Edge
	for i := len(quarter) - 1; i >= 0; i-- {
		e := quarter[i]
		right = append(right, plane.Edge{A: plane.Pt(e.B.X, -e.B.Y), B: plane.Pt(e.A.X, -e.A.Y), Bulge: e.Bulge})
	}
	return symmetric(append(right, quarter...))
}
