package export

import (
	"container/heap"
	"math"

	"fretband/unroll/plane"
)

// room returns the centre and radius of the largest circle inside a loop, to
// within tol: where a pilot hole has most metal to spare round it. Of a loop
// without inside the radius is 0.
//
// Squares are halved, the one that may hold the farthest point first, until none
// left can hold a point farther by tol (branch and bound on a quadtree; the
// bound is the distance at the middle plus half the diagonal, for distance can
// grow no faster than one walks).
func room(l plane.Loop, tol float64) (plane.Point, float64) {
	b := l.Bounds()
	if len(l) == 0 || b.Empty() {
		return plane.Point{}, 0
	}
	side := math.Max(math.Min(b.W(), b.H()), tol)
	cell := func(c plane.Point, half float64) square {
		d := l.Nearest(c).D
		if !l.Contains(c) {
			d = -d
		}
		return square{c, half, d, d + half*math.Sqrt2}
	}
	var q squares
	h := side / 2
	for y := b.Min.Y; y < b.Max.Y; y += side {
		for x := b.Min.X; x < b.Max.X; x += side {
			heap.Push(&q, cell(plane.Pt(x+h, y+h), h))
		}
	}
	best := cell(l.Centroid(), 0)
	for len(q) > 0 {
		s := heap.Pop(&q).(square)
		if s.most <= best.d+tol {
			break
		}
		if s.d > best.d {
			best = s
		}
		h := s.half / 2
		for _, v := range [4]plane.Point{{X: -h, Y: -h}, {X: h, Y: -h}, {X: -h, Y: h}, {X: h, Y: h}} {
			if n := cell(s.c.Add(v), h); n.most > best.d+tol {
				heap.Push(&q, n)
			}
		}
	}
	return best.c, math.Max(best.d, 0)
}

// square is a part of the plane in question: its middle, half its side, the
// distance at the middle (negative outside) and the most that it can hold.
type square struct {
	c             plane.Point
	half, d, most float64
}

// squares is a heap, most promising first; ties go to the left and lower one,
// so that the result does not hang on the order of pushes.
type squares []square

func (q squares) Len() int { return len(q) }
func (q squares) Less(i, j int) bool {
	a, b := q[i], q[j]
	switch {
	case a.most != b.most:
		return a.most > b.most
	case a.c.Y != b.c.Y:
		return a.c.Y < b.c.Y
	}
	return a.c.X < b.c.X
}
func (q squares) Swap(i, j int) { q[i], q[j] = q[j], q[i] }
func (q *squares) Push(x any)   { *q = append(*q, x.(square)) }
func (q *squares) Pop() any {
	old := *q
	s := old[len(old)-1]
	*q = old[:len(old)-1]
	return s
}
