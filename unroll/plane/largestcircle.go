package plane

import (
	"container/heap"
	"math"
)

// LargestCircle returns the centre and radius of the largest circle inside the loop, to
// within tol: where a pilot hole has most metal to spare round it. Of a loop without
// inside the radius is 0.
//
// Squares are halved, the one that may hold the farthest point first, until none
// left can hold a point farther by tol (branch and bound on a quadtree; the
// bound is the distance at the middle plus half the diagonal, for distance can
// grow no faster than one walks).
func (l Loop) LargestCircle(tol float64) (Point, float64) {
	b := l.Bounds()
	if len(l) == 0 || b.Empty() {
		return Point{}, 0
	}
	side := math.Max(math.Min(b.W(), b.H()), tol)
	cell := func(c Point, half float64) quad {
		d := l.Nearest(c).D
		if !l.Contains(c) {
			d = -d
		}
		return quad{c, half, d, d + half*math.Sqrt2}
	}
	var q quads
	h := side / 2
	for y := b.Min.Y; y < b.Max.Y; y += side {
		for x := b.Min.X; x < b.Max.X; x += side {
			heap.Push(&q, cell(Pt(x+h, y+h), h))
		}
	}
	best := cell(l.Centroid(), 0)
	for len(q) > 0 {
		s := heap.Pop(&q).(quad)
		if s.most <= best.d+tol {
			break
		}
		if s.d > best.d {
			best = s
		}
		h := s.half / 2
		for _, v := range [4]Point{{X: -h, Y: -h}, {X: h, Y: -h}, {X: -h, Y: h}, {X: h, Y: h}} {
			if n := cell(s.c.Add(v), h); n.most > best.d+tol {
				heap.Push(&q, n)
			}
		}
	}
	return best.c, math.Max(best.d, 0)
}

// quad is a square part of the plane in question: its middle, half its side, the
// distance at the middle (negative outside) and the most that it can hold.
type quad struct {
	c             Point
	half, d, most float64
}

// quads is a heap, most promising first; ties go to the left and lower one,
// so that the result does not hang on the order of pushes.
type quads []quad

func (q quads) Len() int { return len(q) }
func (q quads) Less(i, j int) bool {
	a, b := q[i], q[j]
	switch {
	case a.most != b.most:
		return a.most > b.most
	case a.c.Y != b.c.Y:
		return a.c.Y < b.c.Y
	}
	return a.c.X < b.c.X
}
func (q quads) Swap(i, j int) { q[i], q[j] = q[j], q[i] }
func (q *quads) Push(x any)   { *q = append(*q, x.(quad)) }
func (q *quads) Pop() any {
	old := *q
	s := old[len(old)-1]
	*q = old[:len(old)-1]
	return s
}
