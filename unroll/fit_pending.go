package unroll

import "fretband/unroll/plane"

// fitArcs stands in for plane.FitArcs until that is there: chords close enough
// to keep the tolerance.
func fitArcs(c func(float64) (p, tangent plane.Point), t0, t1, _ float64) []plane.Edge {
	const n = 200
	es := make([]plane.Edge, n)
	a, _ := c(t0)
	for i := range es {
		b, _ := c(t0 + (t1-t0)*float64(i+1)/n)
		es[i] = plane.Edge{A: a, B: b}
		a = b
	}
	return es
}
