package plane

import (
	"math"
	"slices"
)

// network is a set of edges cut at every position where they meet. It is the
// common ground of offsets and of and, or, not, xor: both cut everything, decide
// for each piece whether it belongs to the result, and stitch what stays.
//
// Ends and meeting points nearer to each other than tol become one node, and a
// node nearer to an edge than tol cuts it. Pieces that run between the same
// nodes through the same middle are one piece, which counts how often each of
// two operands runs along it, forwards less backwards; a piece that runs as
// often back as forth is none. Pieces that follow each other through nodes where
// nothing else ends form a chain: whatever is decided of one holds for all.
type network struct {
	tol   float64
	segs  []seg
	split int // the first segs are of operand 0, those from split on of 1

	nodes  []Point
	head   []int32 // hash of cells of the plane: first node
	next   []int32 // next node of the same hash
	ends   [][2]int32
	cuts   []cut
	pieces []piece
	// The pieces that end at node i are at[first[i]:first[i+1]].
	first, at []int32
	chains    []int32 // the longest piece of each chain

	slab []int32 // from which the lists above are cut
	used int     // how much of it is
	// Scratch of overlay.
	placed []indexed
	around []sides
	boxes  []Box
	keep   []int8
}

// again makes a network that was used before ready for other segs. It keeps its
// memory.
func (w *network) again(tol float64, segs []seg, split int) {
	w.tol, w.segs, w.split, w.used = tol, segs, split, 0
}

// room returns the list emptied, with space for n.
func room[T any](l []T, n int) []T { return slices.Grow(l[:0], n) }

// cut is a node on a seg at the fraction f.
type cut struct {
	seg, node int32
	f         float64
}

// piece is a stretch of an edge between two nodes.
type piece struct {
	edge     Edge
	from, to int32
	seg      int32
	f0, f1   float64 // of the seg
	count    [2]int32
	chain    int32
	flip     bool // runs against the chain's longest piece
}

// manyEdges is the number from which sorting pays for itself.
const manyEdges = 40

// ints returns a list of n zeros, cut from one slab to spare allocations.
func (w *network) ints(n int) []int32 {
	if len(w.slab)-w.used < n {
		w.slab, w.used = make([]int32, max(n, 32*len(w.segs)+64)), 0
	}
	l := w.slab[w.used : w.used+n : w.used+n]
	w.used += n
	clear(l)
	return l
}

// indexed is the position of something in a list, and where it begins.
type indexed struct {
	x float64
	i int32
}

// leftToRight returns 0 to n-1 in the order of x, equal ones in their own, or nil
// if there are too few for an order to pay.
func (w *network) leftToRight(n int, x func(i int32) float64) []int32 {
	if n <= manyEdges {
		return nil
	}
	w.placed = room(w.placed, n)
	for i := range int32(n) {
		w.placed = append(w.placed, indexed{x(i), i})
	}
	slices.SortFunc(w.placed, func(a, b indexed) int {
		if a.x < b.x {
			return -1
		} else if a.x > b.x {
			return 1
		}
		return int(a.i - b.i)
	})
	order := w.ints(n)
	for k, p := range w.placed {
		order[k] = p.i
	}
	return order
}

// cutAll cuts the segs and finds pieces and chains.
func (w *network) cutAll() {
	n := len(w.segs)
	size := 16
	for size < 3*n {
		size *= 2
	}
	w.head = w.ints(size)
	for i := range w.head {
		w.head[i] = -1
	}
	w.nodes = room(w.nodes, 2*n)
	w.next = w.ints(2 * n)[:0]
	w.ends = room(w.ends, n)[:n]
	for i := range w.segs {
		s := &w.segs[i]
		if i > 0 && w.segs[i-1].B == s.A {
			w.ends[i][0] = w.ends[i-1][1]
		} else {
			w.ends[i][0] = w.node(s.A)
		}
		w.ends[i][1] = w.node(s.B)
	}
	w.cuts = room(w.cuts, 2*n)
	w.cutAtMeetings()
	w.cutAtNodes()
	w.makePieces()
	w.link()
}

// cell is the width of the hash's cells in tolerances: wide, so that most
// points lie well inside one.
const cell = 16

// node returns the node at p, a new one if none is within tol.
func (w *network) node(p Point) int32 {
	t := w.tol
	k := 1 / (cell * t)
	x0, x1 := int64(math.Floor((p.X-t)*k)), int64(math.Floor((p.X+t)*k))
	y0, y1 := int64(math.Floor((p.Y-t)*k)), int64(math.Floor((p.Y+t)*k))
	for x := x0; x <= x1; x++ {
		for y := y0; y <= y1; y++ {
			for i := w.head[w.hash(x, y)]; i >= 0; i = w.next[i] {
				if dist2(w.nodes[i], p) <= t*t {
					return i
				}
			}
		}
	}
	i := int32(len(w.nodes))
	h := w.hash(int64(math.Floor(p.X*k)), int64(math.Floor(p.Y*k)))
	w.nodes = append(w.nodes, p)
	w.next = append(w.next, w.head[h])
	w.head[h] = i
	return i
}

func (w *network) hash(x, y int64) uint64 {
	h := uint64(x)*0x9e3779b97f4a7c15 ^ uint64(y)*0xc2b2ae3d27d4eb4f
	return (h ^ h>>29) & uint64(len(w.head)-1)
}

func (w *network) cutAtMeetings() {
	n := len(w.segs)
	order := w.leftToRight(n, func(i int32) float64 { return w.segs[i].box.Min.X })
	for i := range n {
		ia := int32(i)
		if order != nil {
			ia = order[i]
		}
		a := &w.segs[ia]
		box := a.box.Grow(w.tol)
		for j := i + 1; j < n; j++ {
			ib := int32(j)
			if order != nil {
				ib = order[j]
			}
			b := &w.segs[ib]
			if b.box.Min.X > box.Max.X {
				if order != nil {
					break
				}
				continue
			}
			if b.box.Min.Y > box.Max.Y || box.Min.Y > b.box.Max.Y || box.Min.X > b.box.Max.X {
				continue
			}
			// In the order of the edges, whatever that of looking at them, for the last
			// bit of the point.
			lo, hi := ia, ib
			if lo > hi {
				lo, hi = hi, lo
			}
			p, m := meets(&w.segs[lo], &w.segs[hi], w.tol)
			for _, q := range p[:m] {
				if !q.Finite() {
					continue
				}
				k := w.node(q)
				w.addCut(lo, k)
				w.addCut(hi, k)
			}
		}
	}
}

// addCut notes that node k cuts seg i, unless it is one of its ends.
func (w *network) addCut(i, k int32) {
	if k != w.ends[i][0] && k != w.ends[i][1] {
		w.cuts = append(w.cuts, cut{i, k, w.segs[i].frac(w.nodes[k])})
	}
}

// cutAtNodes cuts edges at nodes that lie on them without being found as
// meeting points: ends of other edges, edges along each other, and meeting
// points of two edges on a third one. A cut found twice does no harm.
func (w *network) cutAtNodes() {
	m := len(w.nodes)
	byX := w.leftToRight(m, func(i int32) float64 { return w.nodes[i].X })
	for i := range w.segs {
		s := &w.segs[i]
		lo, hi := s.box.Min, s.box.Max
		lo.X, lo.Y, hi.X, hi.Y = lo.X-w.tol, lo.Y-w.tol, hi.X+w.tol, hi.Y+w.tol
		j := 0
		if byX != nil {
			// The first node not left of the box.
			a, b := 0, m
			for a < b {
				if h := (a + b) / 2; w.nodes[byX[h]].X < lo.X {
					a = h + 1
				} else {
					b = h
				}
			}
			j = a
		}
		for ; j < m; j++ {
			k := int32(j)
			if byX != nil {
				k = byX[j]
			}
			p := w.nodes[k]
			if p.X > hi.X {
				if byX != nil {
					break
				}
				continue
			}
			if p.X < lo.X || p.Y < lo.Y || p.Y > hi.Y {
				continue
			}
			if s.dist(p) <= w.tol {
				w.addCut(int32(i), k)
			}
		}
	}
}

func (w *network) makePieces() {
	slices.SortFunc(w.cuts, func(a, b cut) int {
		switch {
		case a.seg != b.seg:
			return int(a.seg - b.seg)
		case a.f < b.f:
			return -1
		case a.f > b.f:
			return 1
		}
		return int(a.node - b.node)
	})
	w.pieces = room(w.pieces, len(w.segs)+len(w.cuts))
	// Pieces by their lower node, to find those that run along each other.
	first := w.ints(len(w.nodes))
	for i := range first {
		first[i] = -1
	}
	next := w.ints(cap(w.pieces))[:0]
	c := 0
	for i := range w.segs {
		s := &w.segs[i]
		p := piece{from: w.ends[i][0], seg: int32(i)}
		add := func(to int32, f float64) {
			if to == p.from {
				return
			}
			p.to, p.f1 = to, f
			p.edge = Edge{w.nodes[p.from], w.nodes[to], s.partBulge(p.f0, f)}
			next = w.addPiece(p, first, next)
			p.from, p.f0 = to, f
		}
		for ; c < len(w.cuts) && w.cuts[c].seg == int32(i); c++ {
			add(w.cuts[c].node, math.Max(p.f0, math.Min(1, w.cuts[c].f)))
		}
		add(w.ends[i][1], 1)
	}
	// What runs as often back as forth bounds nothing.
	k := 0
	for _, p := range w.pieces {
		if p.count != [2]int32{} {
			w.pieces[k] = p
			k++
		}
	}
	w.pieces = w.pieces[:k]
}

// addPiece adds p or counts it on the piece that runs along it.
func (w *network) addPiece(p piece, first, next []int32) []int32 {
	which := 0
	if int(p.seg) >= w.split {
		which = 1
	}
	lo := min(p.from, p.to)
	mid := p.edge.Mid()
	for i := first[lo]; i >= 0; i = next[i] {
		q := &w.pieces[i]
		if q.from == p.from && q.to == p.to && dist2(q.edge.Mid(), mid) <= 9*w.tol*w.tol {
			q.count[which]++
			return next
		}
		if q.from == p.to && q.to == p.from && dist2(q.edge.Mid(), mid) <= 9*w.tol*w.tol {
			q.count[which]--
			return next
		}
	}
	p.count[which] = 1
	next = append(next, first[lo])
	first[lo] = int32(len(w.pieces))
	w.pieces = append(w.pieces, p)
	return next
}

// link lists the pieces of each node and gathers the chains.
func (w *network) link() {
	n := len(w.nodes)
	w.first = w.ints(n + 2)
	for i := range w.pieces {
		p := &w.pieces[i]
		p.chain = -1
		w.first[p.from+2]++
		w.first[p.to+2]++
	}
	for i := 1; i < len(w.first); i++ {
		w.first[i] += w.first[i-1]
	}
	w.at = w.ints(2 * len(w.pieces))
	w.chains = w.ints(len(w.pieces))[:0]
	for i := range w.pieces {
		for _, k := range [2]int32{w.pieces[i].from, w.pieces[i].to} {
			w.at[w.first[k+1]] = int32(i)
			w.first[k+1]++
		}
	}
	w.first = w.first[:n+1]
	for i := range w.pieces {
		if w.pieces[i].chain >= 0 {
			continue
		}
		c := int32(len(w.chains))
		best := w.follow(int32(i), c, w.pieces[i].to, w.follow(int32(i), c, w.pieces[i].from, int32(i)))
		w.chains = append(w.chains, best)
	}
	// flip is told against the first piece so far: tell it against the longest.
	for i := range w.pieces {
		p := &w.pieces[i]
		if best := w.chains[p.chain]; int32(i) != best && w.pieces[best].flip {
			p.flip = !p.flip
		}
	}
	for _, b := range w.chains {
		w.pieces[b].flip = false
	}
}

// follow labels the pieces reached from piece i through its end at node k while
// nothing else ends there, and returns the longest of them and best.
func (w *network) follow(i, c, k, best int32) int32 {
	w.pieces[i].chain = c
	for {
		a := w.at[w.first[k]:w.first[k+1]]
		if len(a) != 2 {
			return best
		}
		j := a[0]
		if j == i {
			j = a[1]
		}
		p, q := &w.pieces[i], &w.pieces[j]
		if q.chain >= 0 {
			return best
		}
		q.chain = c
		q.flip = p.flip
		if (p.to == k) != (q.from == k) {
			q.flip = !q.flip
		}
		b := &w.pieces[best]
		if dist2(q.edge.A, q.edge.B) > dist2(b.edge.A, b.edge.B) {
			best = j
		}
		i = j
		if q.from == k {
			k = q.to
		} else {
			k = q.from
		}
	}
}
