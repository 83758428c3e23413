package check

import (
	"math"
	"slices"

	"fretband/pattern"
	"fretband/unroll/plane"
)

// columns is the metal of a sheet in thin upright columns: how much lies under a
// height. On a band with a period the columns repeat.
type columns struct {
	x0, step float64
	bottom   []float64   // of the blank, at the middle of each column
	top      []float64   //
	cut      [][]float64 // heights at which openings begin and end there, by twos
	before   []float64   // metal left of each column, mm^2, one more than columns
	again    bool        // columns repeat
}

// columnCount is how many columns a blank has: on one of 160 mm they are 0.02 mm
// wide, and the metal of a piece of 100 mm^2 is right to some tenths of a percent.
const columnCount = 8192

// chordError is how far chords of edges may lie from their arcs where metal is
// weighed, mm.
const chordError = 1e-3

func newColumns(s *pattern.Sheet) *columns {
	box := s.Flat.Outline.Bounds()
	c := &columns{x0: box.Min.X, step: box.W() / columnCount, again: s.Flat.Period > 0}
	c.bottom, c.top = make([]float64, columnCount), make([]float64, columnCount)
	for i := range c.bottom {
		c.bottom[i], c.top[i] = math.Inf(1), math.Inf(-1)
	}
	c.cut = make([][]float64, columnCount)
	c.crossed(closed(s.Flat.Outline), func(k int, y, _ float64) {
		c.bottom[k], c.top[k] = math.Min(c.bottom[k], y), math.Max(c.top[k], y)
	})
	for i := range s.Openings {
		c.crossed(closed(s.Openings[i].Loop), func(k int, y, _ float64) { c.cut[k] = append(c.cut[k], y) })
	}
	c.before = make([]float64, columnCount+1)
	for k := range c.cut {
		slices.Sort(c.cut[k])
		c.before[k+1] = c.before[k] + c.step*math.Max(0, c.under(k, c.top[k]))
	}
	return c
}

// closed returns the corners of chords of a loop, the first once more at the end.
func closed(l plane.Loop) []plane.Point {
	pts := l.Flatten(chordError)
	return append(pts, pts[0])
}

// crossed calls do for each column whose middle a chain of chords crosses, with the
// height and 1 or -1 for the way, right or left. A point on a middle counts to the
// chord on its right, so that ways that go on cross each column alike.
func (c *columns) crossed(pts []plane.Point, do func(k int, y, way float64)) {
	for i := 1; i < len(pts); i++ {
		p, q, way := pts[i-1], pts[i], 1.0
		if p.X > q.X {
			p, q, way = q, p, -1
		}
		for k := math.Ceil((p.X-c.x0)/c.step - 0.5); ; k++ {
			x := c.x0 + (k+0.5)*c.step
			if x >= q.X {
				break
			}
			if x < p.X {
				continue // rounding
			}
			j := int(k)
			if c.again {
				j = (j%columnCount + columnCount) % columnCount
			} else if j < 0 || j >= columnCount {
				continue
			}
			do(j, p.Y+(q.Y-p.Y)*(x-p.X)/(q.X-p.X), way)
		}
	}
}

// under returns how much metal lies under a height in a column, mm.
func (c *columns) under(k int, y float64) float64 {
	m := y - c.bottom[k]
	if math.IsInf(m, 0) {
		return 0 // no blank there
	}
	cut := c.cut[k]
	for i := 0; i+1 < len(cut) && cut[i] < y; i += 2 {
		m -= math.Min(cut[i+1], y) - cut[i]
	}
	return m
}

// beneath returns the metal under a chain of chords, mm^2, counted positive where it
// runs to the right. Round a closed way it is the metal inside.
func (c *columns) beneath(pts []plane.Point) float64 {
	sum := 0.0
	c.crossed(pts, func(k int, y, way float64) { sum += way * c.under(k, y) })
	return sum * c.step
}

// metal returns all metal, mm^2.
func (c *columns) metal() float64 { return c.before[columnCount] }

// edge returns the metal under the blank's edge from its left end to p, which lies on
// it: none along the bottom, all along the top.
func (c *columns) edge(p plane.Point) float64 {
	at := (p.X - c.x0) / c.step
	k := min(max(int(at), 0), columnCount-1)
	if p.Y < (c.bottom[k]+c.top[k])/2 {
		return 0
	}
	f := min(max(at-float64(k), 0), 1)
	return c.before[k] + f*(c.before[k+1]-c.before[k])
}
