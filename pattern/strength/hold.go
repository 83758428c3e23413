package strength

import (
	"math/bits"
)

// Isostatic returns supports that hold the mesh as a rigid body and no more: six freedoms
// at three nodes that stand well apart. Loads that balance each other cause no reaction
// there, so the metal bends as if it were free.
//
// The first node is held along all axes, the second across the line between them, the
// third across the plane of all three: each time along the axes of the world that stand
// closest.
func Isostatic(m *Mesh) []Fixed {
	far := func(measure func(v vector) float64) int {
		best, most := 0, -1.0
		for i, p := range m.At {
			if d := measure(vec(p)); d > most {
				best, most = i, d
			}
		}
		return best
	}
	middle := m.middle()
	i := far(func(v vector) float64 { return v.less(middle).length() })
	a := vec(m.At[i])
	j := far(func(v vector) float64 { return v.less(a).length() })
	line := vec(m.At[j]).less(a)
	k := far(func(v vector) float64 { return line.cross(v.less(a)).length() })
	across := line.cross(vec(m.At[k]).less(a))
	first, second, third := Fixed{Node: i}, Fixed{Node: j}, Fixed{Node: k}
	along, out := line.largest(), across.largest()
	for x := range 3 {
		first.Held[x], second.Held[x], third.Held[x] = true, x != along, x == out
	}
	return []Fixed{first, second, third}
}

// largest returns the axis along which a is longest.
func (a vector) largest() int {
	best := 0
	for k := range a {
		if a[k]*a[k] > a[best]*a[best] {
			best = k
		}
	}
	return best
}

// middle returns the mean of the nodes.
func (m *Mesh) middle() (sum vector) {
	for _, p := range m.At {
		sum = sum.plus(vec(p))
	}
	return sum.times(1 / float64(len(m.At)))
}

// checkHeld reports metal that hangs together by sides of triangles but holds fewer than
// six freedoms. Two such pieces that touch at a node are not joined: the node would have
// to carry what no metal carries.
func (m *Mesh) checkHeld(held []uint8) error {
	type side struct{ a, b int32 }
	root := make([]int32, len(m.Tri))
	for i := range root {
		root[i] = int32(i)
	}
	find := func(i int32) int32 {
		for root[i] != i {
			root[i] = root[root[i]]
			i = root[i]
		}
		return i
	}
	// Triangles by their lower node: sides that are alike stand in the same short list.
	first := make([]int32, len(m.At)+1)
	each := func(do func(i int32, s side)) {
		for i, t := range m.Tri {
			for k, v := range t {
				w := t[next[k]]
				do(int32(i), side{min(v, w), max(v, w)})
			}
		}
	}
	each(func(_ int32, s side) { first[s.a+1]++ })
	for i := range m.At {
		first[i+1] += first[i]
	}
	type entry struct{ b, tri int32 }
	list, fill := make([]entry, first[len(m.At)]), make([]int32, len(m.At))
	each(func(i int32, s side) {
		start := first[s.a]
		for _, e := range list[start : start+fill[s.a]] {
			if e.b == s.b {
				p, q := find(e.tri), find(i)
				root[max(p, q)] = min(p, q)
				return
			}
		}
		list[start+fill[s.a]] = entry{s.b, i}
		fill[s.a]++
	})
	// A piece's supports; a node that two pieces share holds both.
	sizes, takes := map[int32]int{}, map[int32]int{}
	type hold struct{ piece, node int32 }
	counted := map[hold]bool{}
	for i, t := range m.Tri {
		piece := find(int32(i))
		sizes[piece]++
		for _, v := range t {
			if held[v] != 0 && !counted[hold{piece, v}] {
				counted[hold{piece, v}] = true
				takes[piece] += bits.OnesCount8(held[v])
			}
		}
	}
	// The smallest piece is the one to name; of equal ones the first.
	worst := int32(-1)
	for i := range m.Tri {
		piece := int32(i)
		if sizes[piece] > 0 && takes[piece] < 6 && (worst < 0 || sizes[piece] < sizes[worst]) {
			worst = piece
		}
	}
	if worst < 0 {
		return nil
	}
	what := "a piece of metal is joined to the rest at one point or not at all"
	if len(sizes) == 1 {
		what = "the metal is not held; six freedoms must be"
	}
	v := m.Tri[worst][0]
	return &LooseError{Node: int(v), At: m.Flat[v], What: what}
}
