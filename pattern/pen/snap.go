package pen

import (
	"math"

	"fretband/unroll/plane"
)

// Catch is what a hand's position is drawn to.
type Catch int

// What may catch it, the strongest first.
const (
	Free   Catch = iota
	First        // the first point of the drawing: it closes there
	Point        // a point of the drawing or of an opening beside it
	Middle       // a middle line of the blank, or the crossing of both
	Beside       // a bridge from the edge of an opening beside it
	Half         // half a bridge from it: the middle line of a bridge
	Grid
)

// Snaps is what a position may be drawn to.
type Snaps struct {
	Reach float64 // mm: how near it must be
	Grid  float64 // mm between the lines of a grid; 0 for none
	// Middle lines, where the blank has them: x = 0 and y = MidY.
	MidX, MidYs bool
	MidY        float64
	First       *plane.Point  // of an open drawing that may be closed
	Points      []plane.Point // of the drawing
	Openings    []plane.Loop  // those that lie near
	Bridge      float64       // the least metal between openings
}

// At returns the position that p is drawn to, and by what.
func (s Snaps) At(p plane.Point) (plane.Point, Catch) {
	if s.First != nil && p.Dist(*s.First) <= s.Reach {
		return *s.First, First
	}
	best, found := p, s.Reach
	take := func(q plane.Point) bool {
		if d := p.Dist(q); d <= found {
			best, found = q, d
			return true
		}
		return false
	}
	caught := false
	for _, q := range s.Points {
		caught = take(q) || caught
	}
	for _, l := range s.Openings {
		for _, v := range l {
			caught = take(v.Point) || caught
		}
	}
	if caught {
		return best, Point
	}
	onX, onY := s.MidX && math.Abs(p.X) <= s.Reach, s.MidYs && math.Abs(p.Y-s.MidY) <= s.Reach
	if onX || onY {
		q := s.onGrid(p)
		if onX {
			q.X = 0
		}
		if onY {
			q.Y = s.MidY
		}
		return q, Middle
	}
	which := Free
	for _, l := range s.Openings {
		if l.Contains(p) {
			continue
		}
		edge := l.Nearest(p).B
		for _, x := range [2]struct {
			d float64
			c Catch
		}{{s.Bridge, Beside}, {s.Bridge / 2, Half}} {
			if off := edge.Dist(p); off > plane.Snap && take(edge.Add(p.Sub(edge).Mul(x.d/off))) {
				which = x.c
			}
		}
	}
	if which != Free {
		return best, which
	}
	if s.Grid > 0 {
		return s.onGrid(p), Grid
	}
	return p, Free
}

func (s Snaps) onGrid(p plane.Point) plane.Point {
	if s.Grid <= 0 {
		return p
	}
	return plane.Pt(round(p.X, s.Grid), round(p.Y, s.Grid))
}

// round rounds to whole steps, without the noise of a product.
func round(v, step float64) float64 { return math.Round(math.Round(v/step)*step*1e6) / 1e6 }

// GridFor returns the step of a grid whose lines are at least so far apart, mm.
func GridFor(least float64) float64 {
	for _, g := range []float64{0.05, 0.1, 0.25, 0.5, 1, 2} {
		if g >= least {
			return g
		}
	}
	return 5
}
