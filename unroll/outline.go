package unroll

import (
	"fmt"
	"math"

	"fretband/unroll/plane"
)

// outline returns the edge of the blank, counter-clockwise. For the plain forms,
// a constant width
// gives lines (and the arcs of the corners) exactly; the edges of a taper are
// fitted within [plane.FitTolerance]. It is symmetric to the last bit, left to
// right and top to bottom.
func (f Flat) outline(b Band) (plane.Loop, error) {
	corner, t := b.EndCornerMM, &f.edge.taper
	if b.EndShape != "" || f.cone != nil || t.length != t.whole || f.edge.top != nil || f.edge.bottom != nil || f.dome != nil {
		return f.shaped(b)
	}
	limit := math.Min(math.Min(t.mid, t.end)/2, f.Length/4)
	if !(corner >= 0 && corner <= limit) {
		return nil, &FieldError{"band.end_corner_mm", fmt.Sprintf("must be from 0 to half the end's width, at most %.2f mm here; it is %s", limit, short(corner))}
	}
	l := f.Length / 2
	if t.mid == t.end {
		h := t.mid / 2
		return fourfold([]plane.Edge{
			{A: plane.Pt(0, h), B: plane.Pt(l-corner, h)},
			{A: plane.Pt(l-corner, h), B: plane.Pt(l, h-corner), Bulge: -quarterBulge},
		}), nil
	}
	end := l
	var round []plane.Edge
	if corner > 0 {
		var err error
		if end, round, err = t.corner(corner); err != nil {
			return nil, err
		}
	}
	edge := func(x float64) (p, tangent plane.Point) {
		return plane.Pt(x, t.at(x)/2), plane.Pt(1, t.slope(x)/2)
	}
	// The edge turns the other way past a quarter of the length.
	turn := math.Min(l/2, end)
	right := plane.FitArcs(edge, 0, turn, plane.FitTolerance)
	if end > turn {
		right = append(right, plane.FitArcs(edge, turn, end, plane.FitTolerance)...)
	}
	return fourfold(append(right, round...)), nil
}

// quarterBulge is the bulge of a quarter circle, tan(pi/8).
const quarterBulge = math.Sqrt2 - 1

// corner rounds the upper right corner: it returns the x where the edge ends,
// and the arc of radius r from there to the blank's end. The arc touches both:
// its centre is r left of the end and r under the edge.
func (t *taper) corner(r float64) (x float64, arc []plane.Edge, err error) {
	l := t.length / 2
	normal := func(x float64) plane.Point { return plane.Pt(-t.slope(x)/2, 1).Unit() }
	// The foot x of the centre: x - r n(x) = l - r. The left side rises with x as
	// long as the edge is nowhere more sharply bent than the corner.
	lo, hi := plane.Halve(math.Max(l-2*r, 0), l, 200, func(x float64) bool { return x-r*normal(x).X < l-r })
	x = (lo + hi) / 2
	if bend := math.Abs(t.mid-t.end) * math.Pi * math.Pi / (t.length * t.length); t.end > t.mid && r*bend > 1 {
		return 0, nil, &FieldError{"band.end_corner_mm", fmt.Sprintf("must be at most %.2f mm where the ends flare so; it is %s", 1/bend, short(r))}
	}
	n := normal(x)
	from := plane.Pt(x, t.at(x)/2)
	to := plane.Pt(l, from.Y-r*n.Y)
	sweep := math.Atan2(n.Y, n.X)
	return x, []plane.Edge{{A: from, B: to, Bulge: -math.Tan(sweep / 4)}}, nil
}

// fourfold mirrors the edges that run from the top middle to the right end into
// a whole counter-clockwise outline, which begins where the bottom meets the left end.
// Edges of no length are left out, and the two halves of a straight side become one.
func fourfold(right []plane.Edge) plane.Loop {
	// Half of it, the bottom and the right end: the other half is the same, turned round.
	var half []plane.Edge
	for i := len(right) - 1; i >= 0; i-- { // from the left end to the middle
		e := right[i]
		half = append(half, plane.Edge{A: e.B.Mul(-1), B: e.A.Mul(-1), Bulge: -e.Bulge})
	}
	below := func(p plane.Point) plane.Point { return plane.Pt(p.X, -p.Y) }
	for _, e := range right {
		half = append(half, plane.Edge{A: below(e.A), B: below(e.B), Bulge: -e.Bulge})
	}
	end := right[len(right)-1].B
	half = append(half, plane.Edge{A: below(end), B: end})

	var l plane.Loop
	for _, side := range []float64{1, -1} {
		level := false
		for _, e := range half {
			if e.Chord() < plane.Snap {
				continue
			}
			was := level
			if level = e.IsLine() && e.A.Y == e.B.Y; was && level {
				continue // it goes on with the edge before
			}
			// Adding 0 turns the -0 of a mirrored coordinate into 0.
			l = append(l, plane.Vertex{Point: plane.Pt(side*e.A.X+0, side*e.A.Y+0), Bulge: e.Bulge + 0})
		}
	}
	return l
}
