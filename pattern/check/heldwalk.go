package check

import (
	"math"

	"fretband/unroll/plane"
)

// walk is the way along a loop's edge from its first corner once round, in chords,
// with the metal under it.
type walk struct {
	loop   plane.Loop
	chords []plane.Point // the first corner again at the end
	corner []int         // of the loop: its place among the chords
	metal  []float64     // under the way from the first corner to each, mm^2
}

func newWalk(l plane.Loop, c *columns) *walk {
	w := &walk{loop: l, chords: []plane.Point{l[0].Point}, metal: []float64{0}}
	for i := range l {
		from := len(w.chords) - 1
		w.corner = append(w.corner, from)
		w.chords = append(w.chords, l.Edge(i).Flatten(chordError)[1:]...)
		w.metal = append(w.metal, w.metal[i]+c.beneath(w.chords[from:]))
	}
	return w
}

// upTo returns the edge on which the walk ends at the place nearest to p, and the
// chords of that edge as far as there, and p.
func (w *walk) upTo(p plane.Point) (edge int, rest []plane.Point) {
	best, part := math.Inf(1), 0.0
	for i := range w.loop {
		e := w.loop.Edge(i)
		if t, q := e.Nearest(p); q.Dist(p) < best {
			best, edge, part = q.Dist(p), i, t
		}
	}
	rest = []plane.Point{w.loop[edge].Point}
	if part > 0 {
		rest = w.loop.Edge(edge).Part(0, part).Flatten(chordError)
	}
	return edge, append(rest, p)
}

// under returns the metal under that way.
func (w *walk) under(c *columns, p plane.Point) float64 {
	edge, rest := w.upTo(p)
	return w.metal[edge] + c.beneath(rest)
}
