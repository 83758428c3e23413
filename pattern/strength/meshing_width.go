package strength

import (
	"math"

	"fretband/unroll/plane"
)

const (
	// acrossSize is the size over the width that makes one element across: three need
	// steps of half the width, between which a row of points comes to stand.
	acrossSize = 1.3
	// leastNeck is the width, mm, under which metal is none: the openings themselves
	// are no truer ([plane.FitTolerance]).
	leastNeck = plane.FitTolerance
	// tip is how far from the tip of a spike, mm along both edges, it may be as thin.
	tip = 50 * leastNeck
	// Edges face each other if both run across the way between them, but for 30
	// degrees where one is a side and 10 where both are corners: as cosines.
	sideFaces, cornerFaces = 0.5, 0.17
)

// widths measures the metal between the rough rings, and makes their sizes small enough
// for so many elements across each bridge, and not much larger than those of what is
// near.
//
// In a Delaunay triangulation of points along the edges a triangle across a bridge has a
// side on one of its edges and the third corner on the other: its height is the width of
// the metal there. Between two corners that face each other it is the length of the side
// that joins them.
func (w *meshing) widths(rings []ring) error {
	d, g := &w.d, w.grid
	if p, ok := w.apart(); ok {
		return &MetalError{p, ErrPieces}
	}
	size := make([]float64, len(d.At))
	before, after := make([]int32, len(d.At)), make([]int32, len(d.At))
	on, from := make([]*ring, len(d.At)), make([]float64, len(d.At))
	for i := range size {
		size[i], before[i], after[i] = w.Size, -1, -1
	}
	for i := range rings {
		r := &rings[i]
		n := len(r.id)
		for k, v := range r.id {
			on[v], from[v] = r, r.from[k]
			size[v], before[v], after[v] = r.size[k], r.id[(k+n-1)%n], r.id[(k+1)%n]
		}
	}
	// faces reports whether the metal's edges at v run across the way u, of length 1: by
	// no less than the angle of this cosine.
	faces := func(v int32, u plane.Point, cos float64) bool {
		a, b := g.way(d.At[v], d.At[before[v]]).Unit(), g.way(d.At[v], d.At[after[v]]).Unit()
		return a.Dot(u) <= cos && b.Dot(u) <= cos
	}
	narrow := func(width float64, vs ...int32) {
		for _, v := range vs {
			most := acrossSize * math.Max(width, leastNeck) / float64(w.Across) / w.finer(g.off(d.At[v]))
			size[v] = math.Min(size[v], most)
		}
	}
	// neck reports whether the metal between a and b is none: where it is no wider at
	// the tip of a spike, between two edges that meet there, nothing is wrong.
	neck := func(a, b int32, width float64) bool {
		if width >= leastNeck || on[a] != on[b] {
			return width < leastNeck
		}
		apart, whole := math.Abs(from[a]-from[b]), on[a].from[len(on[a].at)]
		return math.Min(apart, whole-apart) > tip
	}
	for t := range d.Tri {
		tri := &d.Tri[t]
		for i, u := range tri.N {
			c, a, b := tri.V[i], tri.V[(i+1)%3], tri.V[(i+2)%3]
			if before[a] < 0 || before[b] < 0 {
				continue
			}
			ab := g.way(d.At[a], d.At[b])
			long := ab.Len()
			switch {
			case u < 0: // a b is an edge
				if before[c] < 0 {
					continue
				}
				ac := g.way(d.At[a], d.At[c])
				if f := ac.Dot(ab) / (long * long); f < -0.1 || f > 1.1 {
					continue
				}
				down := ab.Left().Mul(-1 / long)
				if !faces(c, down, sideFaces) {
					continue
				}
				width := ab.Cross(ac) / long * g.mm(d.At[c])
				if neck(a, c, width) && neck(b, c, width) {
					return &MetalError{g.off(d.At[c]), ErrTouch}
				}
				narrow(width, a, b, c)
			case a < b || u > int32(t): // once for each
				way := ab.Mul(1 / long)
				if !faces(a, way, cornerFaces) || !faces(b, way.Mul(-1), cornerFaces) {
					continue
				}
				width := long * g.mm(d.At[a])
				if neck(a, b, width) {
					return &MetalError{g.off(d.At[a]), ErrTouch}
				}
				narrow(width, a, b)
			}
		}
	}
	w.level(size)
	for _, r := range rings {
		for k, v := range r.id {
			r.size[k] = size[v]
		}
	}
	return nil
}

// level lowers sizes until none is more than grade a mm over that of a neighbour.
func (w *meshing) level(size []float64) {
	d, g := &w.d, w.grid
	for changed, rounds := true, 0; changed && rounds < 100; rounds++ {
		changed = false
		for k := range d.Tri {
			t := k
			if rounds%2 == 1 {
				t = len(d.Tri) - 1 - k
			}
			v := &d.Tri[t].V
			for i := range 3 {
				a, b := v[i], v[(i+1)%3]
				if size[a] > size[b] {
					a, b = b, a
				}
				if size[b] <= size[a]*(1+1e-6) {
					continue
				}
				if most := size[a] + grade*g.way(d.At[a], d.At[b]).Len()*g.mm(d.At[a]); size[b] > most*(1+1e-9) {
					size[b] = most
					changed = true
				}
			}
		}
	}
}

// apart returns a place of the smallest piece, if the metal is in several.
func (w *meshing) apart() (plane.Point, bool) {
	d := &w.d
	piece := make([]int32, len(d.Tri))
	var count []int
	var todo []int32
	for t := range d.Tri {
		if piece[t] != 0 {
			continue
		}
		count = append(count, 0)
		n := int32(len(count))
		piece[t] = n
		todo = append(todo[:0], int32(t))
		for len(todo) > 0 {
			t := todo[len(todo)-1]
			todo = todo[:len(todo)-1]
			count[n-1]++
			for _, u := range d.Tri[t].N {
				if u >= 0 && piece[u] == 0 {
					piece[u] = n
					todo = append(todo, u)
				}
			}
		}
	}
	if len(count) == 1 {
		return plane.Point{}, false
	}
	least := 0
	for i, n := range count {
		if n < count[least] {
			least = i
		}
	}
	for t, n := range piece {
		if int(n) == least+1 {
			return w.grid.off(d.At[d.Tri[t].V[0]]), true
		}
	}
	return plane.Point{}, false
}
