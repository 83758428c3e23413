package check

import (
	"cmp"
	"math"
	"slices"

	"fretband/unroll/plane"
)

// edgeIndex finds edges by position. Long edges are known by the boxes round pieces of
// them, so that what is far from the edge itself is not near its box.
type edgeIndex struct {
	edges  []plane.Edge
	pieces []edgePiece // by the left ends of their boxes
	widest float64
	found  []int
	last   []int // for each edge: the last question that found it
	asked  int
}

type edgePiece struct {
	box  plane.Box
	edge int
}

func newEdgeIndex(edges []plane.Edge) *edgeIndex {
	const long, most = 2, 256 // mm; pieces of one edge
	x := &edgeIndex{edges: edges, last: make([]int, len(edges)), pieces: make([]edgePiece, 0, len(edges))}
	for i, e := range edges {
		n := 1
		if l := e.Len(); l > long {
			n = int(math.Min(most, math.Ceil(l/long)))
		}
		for k := range n {
			p := e
			if n > 1 {
				p = e.Part(float64(k)/float64(n), float64(k+1)/float64(n))
			}
			b := p.Bounds().Grow(plane.Snap)
			x.pieces = append(x.pieces, edgePiece{b, i})
			x.widest = math.Max(x.widest, b.W())
		}
	}
	slices.SortStableFunc(x.pieces, func(a, b edgePiece) int { return cmp.Compare(a.box.Min.X, b.box.Min.X) })
	return x
}

// near returns the indexes of the edges that may reach into the box, increasing. The
// next question overwrites the answer.
func (x *edgeIndex) near(b plane.Box) []int {
	x.asked++
	x.found = x.found[:0]
	left := b.Min.X - x.widest
	start, _ := slices.BinarySearchFunc(x.pieces, left, func(p edgePiece, left float64) int { return cmp.Compare(p.box.Min.X, left) })
	for _, p := range x.pieces[start:] {
		if p.box.Min.X > b.Max.X {
			break
		}
		if x.last[p.edge] != x.asked && p.box.Meets(b) {
			x.last[p.edge] = x.asked
			x.found = append(x.found, p.edge)
		}
	}
	slices.Sort(x.found)
	return x.found
}
