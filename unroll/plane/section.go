package plane

import (
	"math"
	"sort"
)

// SpanAt returns how much of the upright line at x lies inside the loop, mm.
// Where the line touches the loop's edge from inside or outside, the span is
// that of a line very near it. Cost is linear in the edges.
func (l Loop) SpanAt(x float64) float64 {
	var buf [16]float64
	ys := buf[:0]
	for i := range l {
		ys = l.Edge(i).crossX(x, ys)
	}
	sort.Float64s(ys)
	var s float64
	for i := 0; i+1 < len(ys); i += 2 {
		s += ys[i+1] - ys[i]
	}
	return s
}

// crossX appends the heights at which the edge crosses the upright line at x.
// Ends count as lying to the right of the line when they are on it, so that
// each passage through a corner counts once.
func (e Edge) crossX(x float64, ys []float64) []float64 {
	if e.Bulge == 0 {
		if (e.A.X < x) != (e.B.X < x) {
			t := (x - e.A.X) / (e.B.X - e.A.X)
			ys = append(ys, e.A.Y+t*(e.B.Y-e.A.Y))
		}
		return ys
	}
	// Between the points where it turns back, an arc crosses at most once.
	c, r := e.Centre(), e.Radius()
	var cuts [4]float64
	ts := append(cuts[:0], 0)
	for _, u := range [2]Point{{1, 0}, {-1, 0}} {
		if t, ok := e.fractionFacing(u); ok && t > 0 && t < 1 {
			ts = append(ts, t)
		}
	}
	if len(ts) == 3 && ts[1] > ts[2] {
		ts[1], ts[2] = ts[2], ts[1]
	}
	ts = append(ts, 1)
	for i := 0; i+1 < len(ts); i++ {
		p := e.Part(ts[i], ts[i+1])
		if (p.A.X < x) == (p.B.X < x) {
			continue
		}
		dy := sqrtPos(r*r - (x-c.X)*(x-c.X))
		if p.Mid().Y < c.Y {
			dy = -dy
		}
		if r > 1e6 {
			// A nearly straight arc: the chord is nearer the truth than a centre
			// so far off.
			t := (x - p.A.X) / (p.B.X - p.A.X)
			ys = append(ys, p.A.Y+t*(p.B.Y-p.A.Y))
			continue
		}
		ys = append(ys, c.Y+dy)
	}
	return ys
}

// sqrtPos is the square root, 0 for what rounding made negative.
func sqrtPos(x float64) float64 {
	if x <= 0 {
		return 0
	}
	return math.Sqrt(x)
}
