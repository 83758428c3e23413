package plane

import "math"

// Flatten returns the corners of a polygon that follows the loop: vertices as
// they are, and along each arc equal chords that stay within tol, mm, of it
// (the sagitta of a chord over the angle s is r (1 - cos(s/2))). An arc gets at
// least one chord per quarter turn. tol must be positive.
func (l Loop) Flatten(tol float64) []Point {
	pts := make([]Point, 0, 2*len(l))
	for i := range l {
		pts = l.Edge(i).appendFlat(pts, tol)
	}
	return pts
}

// Flatten returns the points of a chain of chords within tol of the edge, both
// ends included.
func (e Edge) Flatten(tol float64) []Point {
	return append(e.appendFlat(nil, tol), e.B)
}

// maxChords bounds the points of one arc, whatever tolerance is asked for.
const maxChords = 1 << 16

func (e Edge) appendFlat(pts []Point, tol float64) []Point {
	pts = append(pts, e.A)
	if e.Bulge == 0 || e.A == e.B {
		return pts
	}
	s := math.Abs(e.Sweep())
	step := math.Pi / 2
	if x := 1 - tol/e.Radius(); x > math.Cos(step/2) {
		// acos(1-y) loses digits for small y: 2 asin(sqrt(y/2)) does not.
		step = 4 * math.Asin(math.Sqrt(math.Max(0, tol/e.Radius()/2)))
	}
	n := maxChords
	if f := math.Ceil(s/step - 1e-9); f < maxChords {
		n = int(f)
	}
	for i := 1; i < n; i++ {
		pts = append(pts, e.At(float64(i)/float64(n)))
	}
	return pts
}
