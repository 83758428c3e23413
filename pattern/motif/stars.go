package motif

import (
	"math"

	"fretband/unroll/plane"
)

var crosses = Motif{
	Key:       "crosses",
	Title:     "Stars and crosses",
	What:      "Strapwork of eight-pointed stars and crosses. The hollow is how far out the notches of a star lie: 0.765 makes it two squares laid over each other.",
	Usual:     Proportions{1, 2.4, 0},
	Interlock: true,
	Numbers:   []Number{{"hollow", "hollow", "of points", 0.765366864730, 0.45, 0.9}}, // cos 45° / cos 22.5°
	Cells: func(f Frame) Tiling {
		var t Tiling
		a, h := f.Pitch(), f.H/float64(f.Rows)
		// Stars whose points reach half a pitch touch their neighbours; four of
		// them leave a cross. Stretched to the repeat and the row.
		ring := star(8, 0.5, f.Number("hollow"))
		whole := t.add(stretched(ring, a, h))
		var cross plane.Loop
		for i := range 4 {
			// A star is at each corner. What of it faces the cross runs
			// clockwise, from one of its four upright and level points to the next.
			corner := plane.Pt(-0.5, -0.5)
			for range i {
				corner = plane.Pt(-corner.Y, corner.X)
			}
			for j := 4; j > 0; j-- {
				v := ring[(4*i+j)%16]
				cross = append(cross, plane.Vertex{Point: v.Point.Add(corner)})
			}
		}
		between := t.add(stretched(cross, a, h))
		// As with diamonds: rows of stars and of crosses half a height apart.
		for r := -2 * f.Over; r <= 2*(f.Rows+f.Over); r++ {
			y := f.H/2 - float64(r)*h/2
			if r&1 == 1 {
				t.row(f, whole, r, y, 0)
			} else {
				t.row(f, between, r, y, 0.5)
			}
		}
		return t
	},
}

var hexastars = Motif{
	Key:       "hexastars",
	Title:     "Stars and hexagons",
	What:      "Strapwork of six-pointed stars and hexagons. The hollow is how far out the notches of a star lie: 0.577 makes it two triangles laid over each other.",
	Usual:     Proportions{1.2, 1.8, 0},
	Interlock: true,
	Numbers:   []Number{{"hollow", "hollow", "of points", 0.577350269190, 0.4, 0.8}}, // 1 / sqrt 3
	Cells: func(f Frame) Tiling {
		var t Tiling
		a, v := f.Pitch(), f.H/float64(f.Rows)
		// Stars of a pitch of 1 are in rows sqrt(3)/2 apart; two points lie
		// on the row, two above and two below reach half way to the next row.
		tall := math.Sqrt(3) / 2
		ring := star(6, 0.5, f.Number("hollow"))
		whole := t.add(stretched(ring, a, v/tall))
		// Three stars leave a hexagon, once pointing up and once down: two are
		// on the row below it, the third above; its vertices about its middle.
		var hex plane.Loop
		for _, s := range []struct {
			x, y  float64 // the star, from the hexagon's middle
			first int     // of the three vertices of the star that it shares
		}{{-0.5, -tall / 3, 0}, {0.5, -tall / 3, 4}, {0, 2 * tall / 3, 8}} {
			// Clockwise; the last is the next star's first.
			for j := 2; j >= 1; j-- {
				hex = append(hex, plane.Vertex{Point: ring[(s.first+j)%12].Point.Add(plane.Pt(s.x, s.y))})
			}
		}
		above := t.add(stretched(hex, a, v/tall))
		below := t.add(stretched(hex, a, v/tall).MirrorY())
		for r := -1 - f.Over; r <= f.Rows+f.Over; r++ {
			y, shift := f.H/2-(float64(r)+0.5)*v, 0.5*float64(r&1)
			if r >= -f.Over && r < f.Rows+f.Over {
				t.row(f, whole, r, y, shift)
			}
			if r >= -f.Over {
				t.row(f, above, r, y+v/3, shift+0.5)
			}
			if r < f.Rows+f.Over {
				t.row(f, below, r, y-v/3, shift+0.5)
			}
		}
		return t
	},
}

// star returns a star of n points at the radius r, the first to the right, with
// notches at hollow times r between them.
func star(n int, r, hollow float64) plane.Loop {
	var l plane.Loop
	for i := range 2 * n {
		d := r
		if i%2 == 1 {
			d = r * hollow
		}
		sin, cos := math.Sincos(math.Pi * float64(i) / float64(n))
		l = append(l, plane.Vertex{Point: plane.Pt(d*cos, d*sin)})
	}
	return l
}

// stretched returns a loop of straight lines scaled by w along and h across.
func stretched(l plane.Loop, w, h float64) plane.Loop {
	out := make(plane.Loop, len(l))
	for i, v := range l {
		out[i].Point = plane.Pt(v.X*w, v.Y*h)
	}
	return out
}
