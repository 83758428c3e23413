package motif

import (
	"math"

	"fretband/unroll/plane"
)

var trefoils = Motif{
	Key:   "trefoils",
	Title: "Trefoils",
	What:  "Three-lobed leaves, upright and upside down by turns, as large as fits. At a spread of 1 each lobe's circle runs through the middles of the two others.",
	Usual: Proportions{1, 2, 0.5},
	Numbers: []Number{
		{"spread", "spread", "of lobe's radius", 1.5, 0.6, 1.8},
		{"size", "size", "of largest", 1, 0.2, 1},
	},
	Cells: func(f Frame) Tiling {
		var t Tiling
		a, h := f.Pitch(), f.H/float64(f.Rows)
		// Upright ones are on the lower edge of their row, the others hang from
		// the upper one: where there is height to spare they can be larger.
		up := foil(3, f.Number("spread"))
		b := up.Bounds()
		up = up.Move(plane.Pt(0, -b.Min.Y))
		lobes := middles(3, f.Number("spread"), -b.Min.Y)
		r := largest(h/b.H(), func(r float64) bool {
			for _, p := range lobes {
				for _, q := range lobes {
					beside := plane.Pt(q.X*r+a/2, h-q.Y*r)
					next := plane.Pt(q.X*r+a, q.Y*r)
					if p := p.Mul(r); p.Dist(beside) < 2*r || p.Dist(next) < 2*r {
						return false
					}
				}
			}
			return true
		})
		// A smaller one shrinks about its own middle.
		size := f.Number("size")
		up = up.Scale(r * size).Move(plane.Pt(0, (1-size)*b.H()*r/2-h/2))
		upright := t.add(up)
		turned := t.add(up.MirrorY())
		for r := -f.Over; r < f.Rows+f.Over; r++ {
			y := f.H/2 - (float64(r)+0.5)*h
			t.row(f, upright, r, y, f.odd(r))
			t.row(f, turned, r, y, f.odd(r)+0.5)
		}
		return t
	},
}

var quatrefoils = Motif{
	Key:   "quatrefoils",
	Title: "Quatrefoils",
	What:  "Four-lobed leaves as large as fits, with round eyes between them. At a spread of 1.414 the lobes are half circles on the sides of a square.",
	Usual: Proportions{1, 1.5, 0},
	Numbers: []Number{
		{"spread", "spread", "of lobe's radius", math.Sqrt2, 0.6, 1.8},
		{"size", "size", "of largest", 1, 0.2, 1},
		{"eye", "eye", "of largest", 1, 0, 1},
	},
	Cells: func(f Frame) Tiling {
		var t Tiling
		a, h := f.Pitch(), f.H/float64(f.Rows)
		one := foil(4, f.Number("spread"))
		lobes := middles(4, f.Number("spread"), 0)
		size := math.Min(a, h) / one.Bounds().H() * f.Number("size")
		leaf := t.add(one.Scale(size))
		for r := -f.Over; r < f.Rows+f.Over; r++ {
			t.row(f, leaf, r, f.H/2-(float64(r)+0.5)*h, f.odd(r))
		}
		// An eye is on the edge of each row, midway between two of its
		// leaves, and has the room that the lobes of this row and the next leave.
		// It shrinks to nothing as the rows are staggered.
		room := func(shift float64) float64 {
			d := math.Min(a, h) / 2
			for _, p := range lobes {
				for c := -2.0; c <= 2; c++ {
					d = math.Min(d, p.Mul(size).Dist(plane.Pt((c+0.5)*a, -h/2))-size)
					d = math.Min(d, p.Mul(size).Dist(plane.Pt((c+0.5+shift)*a, h/2))-size)
				}
			}
			return d * f.Number("eye")
		}
		for r := -f.Over; r <= f.Rows+f.Over; r++ {
			shift := f.Stagger
			if r == -f.Over || r == f.Rows+f.Over {
				shift = 0 // there is no other row beyond the rim
			}
			if d := room(shift); d > touch {
				t.row(f, t.add(plane.Circle(plane.Point{}, d)), r, f.H/2-float64(r)*h, f.odd(max(r-1, -f.Over))+0.5)
			}
		}
		return t
	},
}

// middles returns the middles of the lobes of a foil of n lobes of radius 1,
// neighbours spread apart, one lobe above, moved up by dy.
func middles(n int, spread, dy float64) []plane.Point {
	m := spread / (2 * math.Sin(math.Pi/float64(n)))
	var ps []plane.Point
	for i := range n {
		sin, cos := math.Sincos(math.Pi/2 + 2*math.Pi*float64(i)/float64(n))
		ps = append(ps, plane.Pt(m*cos, m*sin+dy))
	}
	return ps
}

// foil returns the outline of such lobes about the origin. Lobes that leave a gap
// in the middle have it filled.
func foil(n int, spread float64) plane.Loop {
	half := math.Pi / float64(n)
	sin, cos := math.Sincos(half)
	m := spread / (2 * sin)
	// Two lobes meet on the line between them, this far out.
	out := m*cos + math.Sqrt(1-spread*spread/4)
	bulge := math.Tan(math.Atan2(out*sin, out*cos-m) / 2)
	var l plane.Loop
	for i := range n {
		s, c := math.Sincos(math.Pi/2 - half + 2*half*float64(i))
		l = append(l, plane.Vertex{Point: plane.Pt(out*c, out*s), Bulge: bulge})
	}
	return l
}
