package motif

import (
	"math"

	"fretband/unroll/plane"
)

var lattice = Motif{
	Key:        "lattice",
	Title:      "Crossing bars",
	What:       "Slanting bars that cross at a given angle, tied by lengthwise bars between the rows (none with one row).",
	Usual:      Proportions{0.9, 1, 0},
	Interlock:  true,
	OverInRows: true,
	Numbers:    []Number{{"angle_deg", "slant", "°", 55, 15, 80}},
	Cells: func(f Frame) Tiling {
		var t Tiling
		a := f.Pitch()
		h := a / 2 * math.Tan(f.Number("angle_deg")*math.Pi/180) // half a mesh's height
		row := f.H / float64(f.Rows)
		t.Rise = 2 * h
		if f.Over > 0 && f.Rows > 1 {
			// Turned, a row holds a whole number of meshes, so that the rows
			// are the same again.
			n := math.Max(1, math.Round(row/h))
			h = row / n
			t.Rise = 2 * row
		}
		// Meshes are half a height apart, mirrored about the middle line.
		n := int(math.Ceil((f.H/2 + float64(f.Over)*row) / h))
		for j := n; j >= -n; j-- {
			y := float64(j) * h
			shift := 0.0
			if j&1 != 0 {
				shift = 0.5
			}
			mesh := plane.Polygon(plane.Pt(-a/2, 0), plane.Pt(0, -h), plane.Pt(a/2, 0), plane.Pt(0, h))
			first, last := -f.Over, f.Rows-1+f.Over
			if f.Rows == 1 {
				first, last = 0, 0 // no ties
			}
			for r := first; r <= last; r++ {
				top := f.H/2 - float64(r)*row
				lo, hi := top-row-y, top-y // the row, seen from the mesh
				if r == first {
					hi = math.Inf(1) // the rim cuts the outer rows
				}
				if r == last {
					lo = math.Inf(-1)
				}
				if cell := between(mesh, lo, hi); len(cell) > 2 {
					t.row(f, t.add(cell), r, y, shift)
				}
			}
		}
		return t
	},
}

// between returns the part of a convex polygon with lo <= y <= hi.
func between(l plane.Loop, lo, hi float64) plane.Loop {
	keep := func(l plane.Loop, sign, limit float64) plane.Loop {
		var out plane.Loop
		for i := range l {
			e := l.Edge(i)
			a, b := sign*e.A.Y-limit, sign*e.B.Y-limit // <= 0 is kept
			if a <= 0 {
				out = append(out, plane.Vertex{Point: e.A})
			}
			if a < 0 && b > 0 || a > 0 && b < 0 {
				out = append(out, plane.Vertex{Point: e.At(a / (a - b))})
			}
		}
		return out
	}
	if !math.IsInf(hi, 0) {
		l = keep(l, 1, hi)
	}
	if !math.IsInf(lo, 0) {
		l = keep(l, -1, -lo)
	}
	if l = l.Tidy(); l.Area() < touch {
		return nil
	}
	return l
}
