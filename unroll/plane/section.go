package plane

import "math"

// SpanAt returns how much of the upright line at x lies inside the loop, mm,
// counted by winding number. Where the line touches the loop's edge, the span is
// that of a line a hair further left.
func (l Loop) SpanAt(x float64) float64 {
	var out [1]float64
	l.AddSpans(out[:], x, 1, 1)
	return out[0]
}

// AddSpans adds to out[i] the span of the upright line at x0 + i*step, times k.
// The span of a line is the sum of the heights at which the loop's edge crosses
// it, up and down by turns: heights of edges that run left count positive, those
// of edges that run right negative, so nothing need be sorted. Cost is that of
// the edges plus the crossings.
func (l Loop) AddSpans(out []float64, x0, step, k float64) {
	for i := range l {
		e := l.Edge(i)
		if e.Bulge == 0 {
			e.addSpans(out, x0, step, k, Point{}, 0)
			continue
		}
		// A small arc mostly lies between two lines. It reaches beyond its ends by
		// at most its sagitta, or its radius if it is more than half a turn.
		beyond := math.Abs(e.Bulge) / 2 * e.Chord()
		if math.Abs(e.Bulge) > 1 {
			beyond = 2 * e.Radius()
		}
		lo, hi := math.Min(e.A.X, e.B.X)-beyond, math.Max(e.A.X, e.B.X)+beyond
		if math.Floor((hi-x0)/step) < math.Ceil((lo-x0)/step) {
			continue
		}
		c, r := e.Centre(), e.Radius()
		if r > flatRadius {
			e.addSpans(out, x0, step, k, Point{}, 0)
			continue
		}
		// Between the points where it turns back, an arc crosses at most once.
		var cuts [4]float64
		ts := append(cuts[:0], 0)
		if math.Abs(c.X-e.A.X) < r || math.Abs(c.X-e.B.X) < r {
			for _, u := range [2]Point{{1, 0}, {-1, 0}} {
				if t, ok := e.fractionFacing(u); ok && t > 0 && t < 1 {
					ts = append(ts, t)
				}
			}
		}
		if len(ts) == 1 { // it does not turn back
			e.addSpans(out, x0, step, k, c, r)
			continue
		}
		if len(ts) == 3 && ts[1] > ts[2] {
			ts[1], ts[2] = ts[2], ts[1]
		}
		ts = append(ts, 1)
		for j := 0; j+1 < len(ts); j++ {
			e.Part(ts[j], ts[j+1]).addSpans(out, x0, step, k, c, r)
		}
	}
}

// flatRadius is the radius, mm, beyond which an arc is treated as its chord: over
// 100 mm it then rises by a hundred-thousandth of a millimetre.
const flatRadius = 1e8

// addSpans is AddSpans for one edge that nowhere turns back: a line (r = 0) or
// part of the circle about c.
func (e Edge) addSpans(out []float64, x0, step, k float64, c Point, r float64) {
	lo, hi := e.A.X, e.B.X
	if lo == hi {
		return
	}
	if lo < hi {
		k = -k
	} else {
		lo, hi = hi, lo
	}
	// Lines with lo < x <= hi, so that each passage through a corner counts once.
	first := int(math.Ceil(math.Max((lo-x0)/step-1, 0)))
	last := int(math.Min((hi-x0)/step+1, float64(len(out)-1)))
	if r == 0 {
		slope := (e.B.Y - e.A.Y) / (e.B.X - e.A.X)
		for i := first; i <= last; i++ {
			if x := x0 + float64(i)*step; x > lo && x <= hi {
				out[i] += k * (e.A.Y + slope*(x-e.A.X))
			}
		}
		return
	}
	below := e.Mid().Y < c.Y
	for i := first; i <= last; i++ {
		x := x0 + float64(i)*step
		if x <= lo || x > hi {
			continue
		}
		dy := math.Sqrt(math.Max(0, r*r-(x-c.X)*(x-c.X)))
		if below {
			dy = -dy
		}
		out[i] += k * (c.Y + dy)
	}
}
