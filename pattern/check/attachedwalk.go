package check

import (
	"math"

	"fretband/unroll/plane"
)

// walk is the way along a loop's edge from its first corner once round, with the metal
// under it.
type walk struct {
	loop  plane.Loop
	ready *plane.Ready
	far   []float64 // how far along each corner lies; last the whole way
	metal []float64 // under the way from the first corner to each, mm^2; nil until asked for
}

func newWalk(l plane.Loop, ready *plane.Ready) *walk {
	w := &walk{loop: l, ready: ready, far: make([]float64, len(l)+1)}
	for i := range l {
		w.far[i+1] = w.far[i] + l.Edge(i).Len()
	}
	return w
}

// under returns the metal under the way to the position nearest to p, and on to p.
func (w *walk) under(m *metalUnder, p plane.Point) float64 {
	if w.metal == nil {
		w.metal = make([]float64, len(w.loop))
		for i := 1; i < len(w.loop); i++ {
			w.metal[i] = w.metal[i-1] + m.beneath(w.loop.Edge(i-1).Flatten(chordError))
		}
	}
	edge, part, _ := w.ready.Nearest(p)
	rest := []plane.Point{w.loop[edge].Point}
	if part > 0 {
		rest = w.loop.Edge(edge).Part(0, part).Flatten(chordError)
	}
	return w.metal[edge] + m.beneath(append(rest, p))
}

// halfWay returns the position half way between those nearest to p and q, the shorter way.
func (w *walk) halfWay(p, q plane.Point) plane.Point {
	whole, s, t := w.far[len(w.loop)], w.along(p), w.along(q)
	mid := (s + t) / 2
	if math.Abs(s-t) > whole/2 {
		mid += whole / 2
	}
	return course{w.loop.Edges(), w.far[1:]}.at(mid)
}

// along returns how far along the position nearest to p lies.
func (w *walk) along(p plane.Point) float64 {
	edge, part, _ := w.ready.Nearest(p)
	return w.far[edge] + part*(w.far[edge+1]-w.far[edge])
}
