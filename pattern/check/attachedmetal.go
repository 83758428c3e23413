package check

import (
	"math"
	"slices"

	"fretband/pattern"
	"fretband/unroll/plane"
)

// columns is the metal of a sheet in thin upright columns: how much lies under a
// height. On a band that wraps the columns repeat.
type columns struct {
	x0, step float64
	bottom   []float64 // of the blank, at the middle of each column
	top      []float64 //
	first    []int     // of each column in cut, one more than columns
	cut      []float64 // heights at which openings begin and end there, by twos
	left     []float64 // metal under each of those heights, mm
	before   []float64 // metal left of each column, mm^2, one more than columns
	again    bool      // columns repeat
}

// columnCount is how many columns a blank has: on one of 160 mm they are 0.02 mm
// wide, and the metal of a piece of 100 mm^2 is right to some tenths of a percent.
const columnCount = 8192

// chordError is how far chords of edges may lie from their arcs where metal is
// weighed, mm.
const chordError = 1e-3

func newColumns(s *pattern.Sheet) *columns {
	box := s.Flat.Outline.Bounds()
	c := &columns{x0: box.Min.X, step: box.W() / columnCount, again: s.Flat.Wraps()}
	c.bottom, c.top = make([]float64, columnCount), make([]float64, columnCount)
	for i := range c.bottom {
		c.bottom[i], c.top[i] = math.Inf(1), math.Inf(-1)
	}
	c.crossed(closed(s.Flat.Outline), func(k int, y, _ float64) {
		c.bottom[k], c.top[k] = math.Min(c.bottom[k], y), math.Max(c.top[k], y)
	})
	c.first = make([]int, columnCount+1)
	type crossing struct {
		y float64
		k int32
	}
	room := 0
	for i := range s.Openings {
		room += 2 * (int(s.Openings[i].Box.W()/c.step) + 1)
	}
	all := make([]crossing, 0, room)
	for i := range s.Openings {
		c.crossed(closed(s.Openings[i].Loop), func(k int, y, _ float64) {
			all = append(all, crossing{y, int32(k)})
			c.first[k+1]++
		})
	}
	for k := range columnCount {
		c.first[k+1] += c.first[k]
	}
	c.cut, c.left = make([]float64, len(all)), make([]float64, len(all))
	next := slices.Clone(c.first)
	for _, x := range all {
		c.cut[next[x.k]] = x.y
		next[x.k]++
	}
	c.before = make([]float64, columnCount+1)
	for k := range columnCount {
		cut, left := c.cuts(k)
		slices.Sort(cut)
		below, metal := c.bottom[k], 0.0
		for i, y := range cut {
			if i%2 == 0 {
				metal += y - below
			}
			left[i], below = metal, y
		}
		c.before[k+1] = c.before[k] + c.step*math.Max(0, c.under(k, c.top[k]))
	}
	return c
}

// cuts returns the heights at which openings begin and end in a column, and the metal
// under each.
func (c *columns) cuts(k int) (cut, left []float64) {
	return c.cut[c.first[k]:c.first[k+1]], c.left[c.first[k]:c.first[k+1]]
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
	if math.IsInf(c.bottom[k], 0) {
		return 0 // no blank there
	}
	cut, left := c.cuts(k)
	i, above := 0, len(cut)
	for i < above {
		if mid := (i + above) / 2; cut[mid] < y {
			i = mid + 1
		} else {
			above = mid
		}
	}
	switch {
	case i == 0:
		return y - c.bottom[k]
	case i%2 == 0 || i == len(cut): // above an opening
		return left[i-1] + y - cut[i-1]
	default: // in one
		return left[i-1]
	}
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
