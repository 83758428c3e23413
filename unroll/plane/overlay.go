package plane

import (
	"fmt"
	"math"
	"slices"
	"sync"
)

// And returns what is in both regions.
//
// The same holds for [And], [Or], [Not] and [Xor]. Lines stay lines and arcs
// arcs. The regions may share edges, touch at points or in tangents, have arcs
// on the same circle, lie in each other's holes. What is nearer together than
// [Snap] counts as one, so bits thinner than that vanish or appear. The result
// is a region as [Region] says: loops are simple and do not cross; two that
// touch at a point stay two. The same input gives the same output; loops that
// meet nothing are passed on as they are and share their memory with the input.
//
// Edges are cut at all crossings, stretches that run along each other are merged
// and counted, and each piece is kept if the result is on one side of it only;
// what is on its sides is told by winding numbers, counted along a ray from the
// piece's middle with a rule that has no special case at vertices (D. Sunday,
// "Inclusion of a point in a polygon"; with arcs as chord and segment).
//
// An error means that the result could not be trusted: pieces did not close to
// loops, or the area of a region cut into pieces was not that of the region,
// with any of several snap distances. Regions that are not ones ([Region]) may
// cause it.
//
// Cost: n log n for edges spread out evenly. And, Not of one loop that crosses a
// region's edges cleanly cost a look at each edge and the work at those near it.
func And(a, b Region) (Region, error) { return overlay(a, b, opAnd) }

// Or returns what is in either region. See [And].
func Or(a, b Region) (Region, error) { return overlay(a, b, opOr) }

// Not returns what is in a but not in b. See [And].
func Not(a, b Region) (Region, error) { return overlay(a, b, opNot) }

// Xor returns what is in one of the regions only. See [And].
func Xor(a, b Region) (Region, error) { return overlay(a, b, opXor) }

// Merge returns the union of loops that may overlap, cross each other or
// themselves in any way: all points round which they wind a positive number of
// times in all. Errors as for [And].
func Merge(ls []Loop) (Region, error) {
	k := newLaid()
	defer k.done()
	if err := k.add("loop", ls); err != nil {
		return nil, err
	}
	all := make([]int32, len(ls))
	for i := range all {
		all[i] = int32(i)
	}
	var out Region
	for _, g := range k.groups(all) {
		r, err := k.overlay(g, len(ls), opOr, false)
		if err != nil {
			return nil, err
		}
		out = append(out, r...)
	}
	return out, nil
}

type op int

const (
	opAnd op = iota
	opOr
	opNot
	opXor
)

func (o op) in(a, b bool) bool {
	switch o {
	case opAnd:
		return a && b
	case opOr:
		return a || b
	case opNot:
		return a && !b
	}
	return a != b
}

// laid is the loops of one or two operands with their edges and boxes, and the
// memory to lay one over the other.
type laid struct {
	loops []Loop
	segs  []seg
	first []int32 // loop i has segs[first[i]:first[i+1]]
	boxes []Box   // grown by Snap
	some  []seg   // those of a group of loops
	net   network
}

// laidBefore spares overlays to ask for their memory anew. Nothing is read from
// it that was not written in the same overlay.
var laidBefore = sync.Pool{New: func() any { return new(laid) }}

func newLaid() *laid {
	k := laidBefore.Get().(*laid)
	k.segs, k.first, k.boxes = k.segs[:0], append(k.first[:0], 0), k.boxes[:0]
	return k
}

// done gives the memory back.
func (k *laid) done() {
	clear(k.loops)
	k.loops = k.loops[:0]
	laidBefore.Put(k)
}

// add appends loops. It refuses those that are not finite or reach out of
// MaxCoord.
func (k *laid) add(what string, ls []Loop) error {
	n := 0
	for _, l := range ls {
		n += len(l)
	}
	k.segs = slices.Grow(k.segs, n)
	for i, l := range ls {
		at := len(k.segs)
		k.segs = appendHalves(k.segs, l)
		b := EmptyBox()
		for j := at; j < len(k.segs); j++ {
			b = b.Union(k.segs[j].box)
		}
		if len(k.segs) > at && !within(b) {
			return fmt.Errorf("%s %d reaches from (%g, %g) to (%g, %g): must be finite and within %g mm", what, i, b.Min.X, b.Min.Y, b.Max.X, b.Max.Y, MaxCoord)
		}
		for j, v := range l {
			if math.IsNaN(v.Bulge) || math.IsInf(v.Bulge, 0) {
				return fmt.Errorf("%s %d, vertex %d at (%g, %g): bulge %g must be finite", what, i, j, v.X, v.Y, v.Bulge)
			}
		}
		k.loops = append(k.loops, l)
		k.first = append(k.first, int32(len(k.segs)))
		k.boxes = append(k.boxes, b.Grow(Snap))
	}
	return nil
}

// groups returns the given loops in groups whose boxes meet.
func (k *laid) groups(which []int32) [][]int32 {
	if len(which) == 2 && k.boxes[which[0]].Meets(k.boxes[which[1]]) {
		return [][]int32{which}
	}
	boxes := make([]Box, len(which))
	for i, j := range which {
		boxes[i] = k.boxes[j]
	}
	gs := meetingGroups(boxes)
	for _, g := range gs {
		for i := range g {
			g[i] = which[g[i]]
		}
	}
	return gs
}

func overlay(a, b Region, o op) (Region, error) {
	if len(a) == 1 && (o == opAnd || o == opNot) {
		if r, ok := clip(a[0], b, o); ok {
			return r, nil
		}
	}
	return overlayAny(a, b, o)
}

// overlayAny is overlay without the short way of [clipper].
func overlayAny(a, b Region, o op) (Region, error) {
	k := newLaid()
	defer k.done()
	if err := k.add("first region, loop", a); err != nil {
		return nil, err
	}
	if err := k.add("second region, loop", b); err != nil {
		return nil, err
	}
	// What is away from the other region altogether may need no look.
	boxA, boxB := EmptyBox(), EmptyBox()
	for i, x := range k.boxes {
		if i < len(a) {
			boxA = boxA.Union(x)
		} else {
			boxB = boxB.Union(x)
		}
	}
	which := make([]int32, 0, len(k.boxes))
	for i, x := range k.boxes {
		switch {
		case i < len(a) && o == opAnd && !x.Meets(boxB):
		case i >= len(a) && (o == opAnd || o == opNot) && !x.Meets(boxA):
		default:
			which = append(which, int32(i))
		}
	}
	var out Region
	for _, g := range k.groups(which) {
		na := 0
		for _, i := range g {
			if int(i) < len(a) {
				na++
			}
		}
		if na > 0 && na < len(g) {
			r, err := k.overlay(g, len(a), o, true)
			if err != nil {
				return nil, err
			}
			out = append(out, r...)
			continue
		}
		if o.in(na > 0, na == 0) {
			for _, i := range g {
				out = append(out, k.loops[i])
			}
		}
	}
	return out, nil
}

// overlaySnaps are the snap distances tried, in units of Snap.
var overlaySnaps = [...]float64{1, 3.1, 0.37, 11, 0.1}

// overlay is the overlay of loops that may all have to do with each other, those
// before split of the first region, the others of the second. proper says that
// these are regions, not heaps of loops, so that their areas are known
// beforehand.
func (k *laid) overlay(group []int32, split int, o op, proper bool) (Region, error) {
	segs, at := k.segs, k.first[split]
	var area [2]float64
	if len(group) < len(k.loops) {
		n := 0
		for _, i := range group {
			n += int(k.first[i+1] - k.first[i])
		}
		segs, at = room(k.some, n), 0
		for _, i := range group {
			segs = append(segs, k.segs[k.first[i]:k.first[i+1]]...)
			if int(i) < split {
				at = int32(len(segs))
			}
		}
		k.some = segs
	}
	if proper {
		for _, i := range group {
			if int(i) < split {
				area[0] += k.loops[i].Area()
			} else {
				area[1] += k.loops[i].Area()
			}
		}
	}
	var why string
	for _, s := range overlaySnaps {
		w := &k.net
		w.again(Snap*s, segs, int(at))
		w.cutAll()
		r, bad := w.overlay(area, o, proper)
		if bad == "" {
			return r, nil
		}
		if why == "" {
			why = bad
		}
	}
	return nil, fmt.Errorf("overlay near (%.6g, %.6g): %s, with all of %d snap distances", segs[0].A.X, segs[0].A.Y, why, len(overlaySnaps))
}

// appendHalves appends the loop's edges, arcs of more than half a turn in two.
func appendHalves(dst []seg, l Loop) []seg {
	add := func(e Edge) {
		dst = append(dst, seg{})
		dst[len(dst)-1].set(&e)
	}
	for i := range l {
		e := l.Edge(i)
		switch {
		case e.A == e.B:
		case math.Abs(e.Bulge) > 1+1e-9:
			add(e.Part(0, 0.5))
			add(e.Part(0.5, 1))
		default:
			add(e)
		}
	}
	return dst
}

// sides holds the winding numbers of both operands left and right of a piece.
type sides struct {
	left, right [2]int32
}

// overlay returns the result, or what is wrong with it. given holds the areas of
// the regions.
func (w *network) overlay(given [2]float64, o op, proper bool) (Region, string) {
	r := w.newRays()
	around := room(w.around, len(w.chains))[:len(w.chains)]
	w.around = around
	for c, i := range w.chains {
		around[c] = r.sides(i)
	}
	keep := room(w.keep, len(w.pieces))[:len(w.pieces)]
	clear(keep)
	w.keep = keep
	var area [3]float64 // a, b, result
	var org Point       // near by, so that areas keep their digits
	if len(w.nodes) > 0 {
		org = w.nodes[0]
	}
	plain := [2]bool{true, true}
	length := 0.0
	for i := range w.pieces {
		p := &w.pieces[i]
		s := around[p.chain]
		if p.flip {
			s.left, s.right = s.right, s.left
		}
		var l, r [2]bool
		for k := range 2 {
			l[k], r[k] = s.left[k] > 0, s.right[k] > 0
			if s.left[k] < 0 || s.left[k] > 1 || s.right[k] < 0 || s.right[k] > 1 {
				plain[k] = false
			}
			if s.left[k]-s.right[k] != p.count[k] {
				return nil, "pieces in a row count differently"
			}
		}
		ar := p.edge.move(Point{-org.X, -org.Y}).area2() / 2
		length += p.edge.Len()
		for k := range 2 {
			if l[k] && !r[k] {
				area[k] += ar
			} else if r[k] && !l[k] {
				area[k] -= ar
			}
		}
		switch in, out := o.in(l[0], l[1]), o.in(r[0], r[1]); {
		case in && !out:
			keep[i] = 1
			area[2] += ar
		case out && !in:
			keep[i] = -1
			area[2] -= ar
		}
	}
	tol := 8*w.tol*length + 1e-12
	if proper {
		if math.Abs(area[0]-given[0]) > tol && plain[0] {
			return nil, "the pieces of the first region do not have its area"
		}
		if math.Abs(area[1]-given[1]) > tol && plain[1] {
			return nil, "the pieces of the second region do not have its area"
		}
	}
	out, closed := w.stitch(keep)
	if !closed {
		return nil, "pieces do not close to loops"
	}
	if math.Abs(out.Area()-area[2]) > tol {
		return nil, "the loops do not have the area of their pieces"
	}
	return out, ""
}

// rays counts winding numbers of the network's pieces.
type rays struct {
	w *network
	strips
	// turned says that the boxes are turned by a quarter, so that rays run across the
	// network where it is long: few pieces lie over each other there. A quarter turn is
	// exact, and winding numbers do not depend on it.
	turned bool
}

// edge returns piece i as the boxes are.
func (r *rays) edge(i int32) Edge {
	e := r.w.pieces[i].edge
	if r.turned {
		e.A, e.B = e.A.Left(), e.B.Left()
	}
	return e
}

func (w *network) newRays() *rays {
	boxes := room(w.boxes, len(w.pieces))[:len(w.pieces)]
	w.boxes = boxes
	for i := range w.pieces {
		p := &w.pieces[i]
		boxes[i] = Box{p.edge.A, p.edge.A}.Add(p.edge.B)
		if p.edge.Bulge != 0 {
			// No farther out than its sagitta.
			h := math.Abs(p.edge.Bulge) / 2 * p.edge.Chord()
			boxes[i] = boxes[i].Grow(h + w.tol)
		}
	}
	turned := len(boxes) > 2*manyEdges && crowded(boxes)
	if turned {
		for i, b := range boxes {
			boxes[i] = Box{Pt(-b.Max.Y, b.Min.X), Pt(-b.Min.Y, b.Max.X)}
		}
	}
	return &rays{w, newStrips(boxes, len(w.chains)), turned}
}

// crowded reports whether a ray along x passes many more boxes than one along y.
func crowded(boxes []Box) bool {
	all, wide, high := EmptyBox(), 0.0, 0.0
	for _, b := range boxes {
		all = all.Union(b)
		wide, high = wide+b.W(), high+b.H()
	}
	return high*all.W() > 4*wide*all.H()
}

// strips lists boxes by strips of y, so that a ray along x looks only at those
// level with it.
type strips struct {
	boxes []Box
	y0, k float64
	first []int32 // strip i: items[first[i]:first[i+1]]; none if few are asked
	items []int32
}

// newStrips sorts the boxes into strips, unless the questions to come are too
// few to pay for it.
func newStrips(boxes []Box, questions int) strips {
	r := strips{boxes: boxes}
	if len(boxes) <= 2*manyEdges || questions < 8 {
		return r
	}
	lo, hi := math.Inf(1), math.Inf(-1)
	for _, b := range boxes {
		lo, hi = math.Min(lo, b.Min.Y), math.Max(hi, b.Max.Y)
	}
	if !(hi > lo) || math.IsInf(hi-lo, 0) {
		return r
	}
	rows := len(boxes) / 4
	r.y0, r.k = lo, float64(rows)/(hi-lo)
	r.first = make([]int32, rows+2)
	for _, b := range boxes {
		for y := r.row(b.Min.Y, rows); y <= r.row(b.Max.Y, rows); y++ {
			r.first[y+2]++
		}
	}
	for i := 1; i < len(r.first); i++ {
		r.first[i] += r.first[i-1]
	}
	r.items = make([]int32, r.first[rows+1])
	for i, b := range boxes {
		for y := r.row(b.Min.Y, rows); y <= r.row(b.Max.Y, rows); y++ {
			r.items[r.first[y+1]] = int32(i)
			r.first[y+1]++
		}
	}
	r.first = r.first[:rows+1]
	return r
}

func (r *strips) row(y float64, rows int) int {
	return min(max(int((y-r.y0)*r.k), 0), rows-1)
}

// level calls f with every box that a ray from p towards +x may cross.
func (r *strips) level(p Point, f func(i int32)) {
	one := func(i int32) {
		if b := &r.boxes[i]; p.Y >= b.Min.Y && p.Y <= b.Max.Y && p.X <= b.Max.X {
			f(i)
		}
	}
	if r.items == nil {
		for i := range r.boxes {
			one(int32(i))
		}
		return
	}
	row := r.row(p.Y, len(r.first)-1)
	for _, i := range r.items[r.first[row]:r.first[row+1]] {
		one(i)
	}
}

// sides returns the winding numbers on both sides of piece i: those of all other
// pieces at its middle, and its own share on either side.
func (r *rays) sides(i int32) sides {
	w := r.w
	own, edge := &w.pieces[i], r.edge(i)
	p := edge.Mid()
	var n [2]int32
	r.level(p, func(j int32) {
		if j == i {
			return
		}
		q := &w.pieces[j]
		if c := int32(r.edge(j).winding(p)); c != 0 {
			n[0] += c * q.count[0]
			n[1] += c * q.count[1]
		}
	})
	l, rt := edge.ownWinding(p)
	var s sides
	for k := range 2 {
		s.left[k] = n[k] + l*own.count[k]
		s.right[k] = n[k] + rt*own.count[k]
	}
	return s
}

// ownWinding returns the edge's share of the winding number of points very near
// its middle p, on its left and on its right, by the rules of winding.
func (e Edge) ownWinding(p Point) (left, right int32) {
	up := e.A.Y <= p.Y && e.B.Y > p.Y
	down := e.A.Y > p.Y && e.B.Y <= p.Y
	if e.Bulge != 0 {
		s := side(e.A, e.B, p)
		if (s > 0) != (e.Bulge > 0) { // the arc's middle is off its chord
			var c int32
			if up && s > 0 {
				c = 1
			} else if down && s < 0 {
				c = -1
			}
			if e.Bulge > 0 {
				return c + 1, c
			}
			return c, c - 1
		}
	}
	switch {
	case up:
		return 1, 0
	case down:
		return 0, -1
	case e.B.X >= e.A.X: // level, and p a hair above
		return 0, -1
	}
	return 1, 0
}
