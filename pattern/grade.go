package pattern

import (
	"math"
	"slices"
	"sort"

	"fretband/unroll/plane"
)

// grading is the way that cells of growing and shrinking sizes are placed along a line:
// it maps where a cell would be if all were alike to where it is, both in
// shares from -1 to 1. The size asked for at a position is, but for one factor, the
// slope of the map there; the factor is the one with which the whole fills the
// line, so that grading neither adds nor loses cells.
//
// The map is a table run through by cubics that only rise (F. N. Fritsch and R. E.
// Carlson, "Monotone piecewise cubic interpolation", SIAM Journal on Numerical
// Analysis 17, 1980).
type grading struct {
	u, x, m []float64 // position without and with grading, and the slope there
	// even says that the line is its own mirror image: then the table holds the
	// half from 0 to 1.
	even bool
	// closed says that 1 is -1 again, one period on.
	closed bool
	lo, hi float64 // least and greatest slope
}

// gradingSteps is the length of the table: on a whole band a step is a fraction
// of a millimetre.
const gradingSteps = 1024

// newGrading returns nil if all cells are alike.
//
// Outside the first and the last point the size stays. On a closed line it runs
// from the last point over the seam to the first; where both ends are given, both
// have their mean. Mirrored, the half above 0 counts and is repeated below.
func newGrading(points []Grade, closed, mirrored bool) *grading {
	alike := true
	for _, p := range points {
		alike = alike && p.Size == points[0].Size
	}
	if alike {
		return nil
	}
	points = slices.Clone(points)
	even := mirrored
	even = even || evenPoints(points)
	if closed && !mirrored {
		points = roundAbout(oneSeam(points))
	}
	size := GradeCurve(points)
	g := &grading{even: even, closed: closed}
	from := -1.0
	if even {
		from = 0
	}
	// The position without grading is the integral of 1/size, by Simpson's rule.
	h := (1 - from) / gradingSteps
	sum, last := 0.0, size(from)
	g.u, g.x, g.m = append(g.u, 0), append(g.x, from), append(g.m, last)
	for i := 1; i <= gradingSteps; i++ {
		x := from + float64(i)*h
		next := size(x)
		sum += h / 6 * (1/last + 4/size(x-h/2) + 1/next)
		g.u, g.x, g.m = append(g.u, sum), append(g.x, x), append(g.m, next)
		last = next
	}
	k := (1 - from) / sum
	for i := range g.u {
		g.u[i] = from + k*g.u[i]
		g.m[i] /= k
	}
	g.u[gradingSteps], g.x[gradingSteps] = 1, 1
	// A cubic rises all along if its slopes are at most three times that of its
	// chord.
	for i := range g.m[1:] {
		most := 3 * (g.x[i+1] - g.x[i]) / (g.u[i+1] - g.u[i])
		g.m[i], g.m[i+1] = math.Min(g.m[i], most), math.Min(g.m[i+1], most)
	}
	if closed && !even {
		end := math.Min(g.m[0], g.m[gradingSteps])
		g.m[0], g.m[gradingSteps] = end, end
	}
	g.lo, g.hi = slices.Min(g.m), slices.Max(g.m)
	return g
}

// evenPoints reports whether the points are their own mirror image.
func evenPoints(points []Grade) bool {
	n := len(points)
	for i, p := range points {
		if q := points[n-1-i]; p.At != -q.At || p.Size != q.Size {
			return false
		}
	}
	return true
}

// oneSeam gives the points at both ends of a closed line, which are one position, their
// mean. It changes the list.
func oneSeam(points []Grade) []Grade {
	if n := len(points); points[0].At == -1 && points[n-1].At == 1 {
		mean := (points[0].Size + points[n-1].Size) / 2
		points[0].Size, points[n-1].Size = mean, mean
	}
	return points
}

// roundAbout repeats the points of a closed line, whose length is 2, before its
// beginning and after its end.
func roundAbout(points []Grade) []Grade {
	var out []Grade
	for _, on := range []float64{-2, 0, 2} {
		for _, p := range points {
			p.At += on
			if n := len(out); n > 0 && p.At <= out[n-1].At {
				continue // the end is the beginning
			}
			out = append(out, p)
		}
	}
	return out
}

// GradeCurve returns the size of cells at any position of a field, -1 to 1, as its
// points ask for it: the smooth curve through them that has no other highs and lows
// than theirs, level outside the first and the last. There must be a point; they
// run from left to right.
func GradeCurve(points []Grade) func(at float64) float64 {
	n := len(points)
	slope := make([]float64, n)
	for i := 1; i < n-1; i++ {
		a, b := points[i].At-points[i-1].At, points[i+1].At-points[i].At
		d, e := (points[i].Size-points[i-1].Size)/a, (points[i+1].Size-points[i].Size)/b
		if d*e > 0 {
			// The weighted harmonic mean of the chords' slopes (F. N. Fritsch and
			// J. Butland, "A method for constructing local monotone piecewise cubic
			// interpolants", SIAM Journal on Scientific and Statistical Computing 5,
			// 1984).
			slope[i] = 3 * (a + b) / ((2*b+a)/d + (b+2*a)/e)
		}
	}
	return func(at float64) float64 {
		i := sort.Search(n, func(i int) bool { return points[i].At > at }) - 1
		switch {
		case i < 0:
			return points[0].Size
		case i == n-1:
			return points[n-1].Size
		}
		p, q := points[i], points[i+1]
		size, _ := cubic(p.At, q.At, p.Size, q.Size, slope[i], slope[i+1], at)
		return size
	}
}

// cubic returns the value and the slope at x of the cubic from (x0, y0) to
// (x1, y1) with those slopes at its ends.
func cubic(x0, x1, y0, y1, m0, m1, x float64) (y, m float64) {
	h := x1 - x0
	t := (x - x0) / h
	d, a, b := y1-y0, m0*h, m1*h
	c2, c3 := 3*d-2*a-b, a+b-2*d
	return y0 + t*(a+t*(c2+t*c3)), (a + t*(2*c2+3*t*c3)) / h
}

// at returns where the position u comes to be, and the slope there.
func (g *grading) at(u float64) (x, slope float64) {
	periods, sign := 0.0, 1.0
	if g.closed {
		periods = 2 * math.Floor((u+1)/2)
		u -= periods
	}
	if g.even && u < 0 {
		u, sign = -u, -1
	}
	n := len(g.u) - 1
	switch i := sort.SearchFloat64s(g.u, u) - 1; {
	case i < 0:
		x, slope = g.x[0]+g.m[0]*(u-g.u[0]), g.m[0]
	case i >= n:
		x, slope = g.x[n]+g.m[n]*(u-g.u[n]), g.m[n]
	default:
		x, slope = cubic(g.u[i], g.u[i+1], g.x[i], g.x[i+1], g.m[i], g.m[i+1], u)
	}
	return sign*x + periods, slope
}

// from returns the position that comes to be at x.
func (g *grading) from(x float64) float64 {
	if end, slope := g.at(math.Copysign(1, x)); math.Abs(x) >= 1 {
		return math.Copysign(1, x) + (x-end)/slope
	}
	lo, hi := plane.Halve(-1, 1, 60, func(u float64) bool { at, _ := g.at(u); return at < x })
	return (lo + hi) / 2
}
