package plane

import (
	"cmp"
	"math"
	"slices"

	"fretband/unroll/cores"
)

// Necks returns the positions where the metal around an opening is narrow between
// two parts of the opening's own edge: every local minimum of the metal's width
// under limit, mm, narrowest first. The loop may run either way; the metal is
// outside of it.
//
// A neck is a pair of points of the edge such that the way between them leaves
// the edge square on the metal's side at both ends (within the cone of normals
// at a corner that points into the metal), gets no shorter when either end moves
// a little, and no edge enters the disc over it. There a disc that slips along
// the metal is squeezed most, the way being its diameter; the least neck is the
// thinnest bridge within one opening. A tongue of metal whose head is too small
// for the disc has no neck. Where the width stays the same along a
// stretch (parallel lines, arcs about one centre) the middle of the stretch
// stands for all of it. Edges that touch or cross are a neck of width 0.
//
// The narrow places of the opening itself are those of Region{l} if l runs
// counter-clockwise, see [Region.Necks].
//
// Degenerate loops give no panic, and no necks at edges without length. Cost: pairs
// of edges nearer to each other than limit and than the metal between them is wide,
// each against the edges near, all found by a grid: a few microseconds an edge.
func (l Loop) Necks(limit float64) []Gap {
	l = l.CCW()
	var buf [smallLoop]seg
	if isConvex(appendSegs(buf[:0], l)) {
		return nil // before lists are made
	}
	return gaps(necks(Region{l}, limit))
}

// Neck is a narrow place between two loops of a region, or between two parts of one:
// its end A lies on loop I and B on loop J.
type Neck struct {
	I, J int
	Gap
}

func gaps(ns []Neck) []Gap {
	if len(ns) == 0 {
		return nil
	}
	gs := make([]Gap, len(ns))
	for i, n := range ns {
		gs[i] = n.Gap
	}
	return gs
}

// Necks returns the narrow places of the region itself, its inside being the
// metal: every local minimum under limit of its width between any two parts of
// its edges, of one loop or of two. See [Loop.Necks].
func (r Region) Necks(limit float64) []Gap { return gaps(r.NecksBetween(limit)) }

// NecksBetween is Necks, and tells between which loops they lie.
func (r Region) NecksBetween(limit float64) []Neck {
	m := make(Region, len(r))
	for i, l := range r {
		m[i] = l.Reverse()
	}
	return necks(m, limit)
}

// brim is an edge with metal on its right, and the corner at its start.
type brim struct {
	seg
	prev, next int32
	loop       int32 // of the region
	convex     bool  // is that loop: its edges all face away from each other
	// in and out are the right normals at the corner, of the edge that arrives
	// and of this one. corner says that they open into the metal.
	in, out Point
	corner  bool
}

// parallelSine is the sine of the angle under which two directions count as one
// when necks are looked for.
const parallelSine = 1e-9

// brims returns the edges of a region with metal on their right.
func brims(r Region) []brim {
	var bs []brim
	var buf [smallLoop]seg
	for n, l := range r {
		k, convex := len(bs), isConvex(appendSegs(buf[:0], l))
		for i := range l {
			if e := l.Edge(i); e.A != e.B {
				bs = append(bs, brim{seg: newSeg(e), loop: int32(n), convex: convex})
			}
		}
		for i := k; i < len(bs); i++ {
			b := &bs[i]
			b.prev, b.next = int32(i-1), int32(i+1)
			if i == k {
				b.prev = int32(len(bs) - 1)
			}
			if i == len(bs)-1 {
				b.next = int32(k)
			}
		}
	}
	for i := range bs {
		b := &bs[i]
		_, b.in = bs[b.prev].rightNormals()
		b.out, _ = b.rightNormals()
		b.corner = b.in.Cross(b.out) > parallelSine || b.in.Dot(b.out) < -1+1e-12
	}
	return bs
}

func necks(r Region, limit float64) []Neck {
	bs := brims(r)
	f := neckFinder{bs: bs, limit: limit}
	if len(bs) <= manyEdges {
		for i := range bs {
			for j := i + 1; j < len(bs); j++ {
				f.near(int32(i), int32(j))
			}
		}
		return f.distinct()
	}
	// The two edges of a neck have boxes, grown by half of the longest neck each may
	// have, that meet, and so share a cell: that of the lower left corner of what they
	// share. That of the edge nearest to any neck's middle holds the middle.
	boxes := make([]Box, len(bs))
	room := newClearance(bs, limit)
	f.most = make([]float64, len(bs))
	for i := range bs {
		f.most[i] = room.longestNeck(i, bs[i].box, limit)
		boxes[i] = bs[i].box.Grow(f.most[i] / 2)
	}
	f.grid = newGrid(boxes)
	cells := f.grid.nx * f.grid.ny
	parts := make([]neckFinder, cores.Count(cells, fewCells))
	cores.Runs(cells, fewCells, func(run, from, to int) {
		g := f
		for c := from; c < to; c++ {
			in := f.grid.items[f.grid.first[c]:f.grid.first[c+1]]
			for k, i := range in {
				for _, j := range in[k+1:] {
					x, y := f.grid.cell(Point{max(boxes[i].Min.X, boxes[j].Min.X), max(boxes[i].Min.Y, boxes[j].Min.Y)})
					if y*f.grid.nx+x == c {
						g.near(i, j)
					}
				}
			}
		}
		parts[run] = g
	})
	for _, g := range parts {
		f.found = append(f.found, g.found...)
	}
	return f.distinct()
}

// fewCells are not worth a core of their own.
const fewCells = 500

type neckFinder struct {
	bs    []brim
	grid  grid      // over the edges' boxes grown by half of their most; empty for few edges
	most  []float64 // of each edge: bounds the length of its necks; nil for few edges
	limit float64
	found []Neck
}

// near looks for necks between two edges if they are near enough, i < j.
func (f *neckFinder) near(i, j int32) {
	limit := f.limit
	if f.most != nil {
		limit = min(f.most[i], f.most[j])
	}
	a, b := &f.bs[i], &f.bs[j]
	if (a.loop != b.loop || !a.convex) && boxDist2(&a.box, &b.box) < limit*limit {
		f.pair(i, j)
	}
}

// pair looks for necks between two edges and the corners at their starts.
func (f *neckFinder) pair(i, j int32) {
	a, b := &f.bs[i], &f.bs[j]
	if a.next != j && b.next != i {
		if p, ok := crossing(&a.seg, &b.seg); ok {
			f.found = append(f.found, Neck{int(a.loop), int(b.loop), Gap{p, p, 0}})
			return
		}
	}
	f.edges(a, b)
	if a.corner && a.prev != j {
		f.cornerEdge(a, b)
	}
	if b.corner && b.prev != i {
		f.cornerEdge(b, a)
	}
	if a.corner && b.corner {
		if d := b.A.Sub(a.A); a.opens(d) && b.opens(d.Mul(-1)) {
			f.add(a, b, a.A, b.A)
		}
	}
}

// opens reports whether d points from the corner at the start strictly between
// the normals there.
func (b *brim) opens(d Point) bool {
	tol := parallelSine * d.Len()
	return b.in.Cross(d) > tol && d.Cross(b.out) > tol
}

// edgewise is the sine of the angle by which a way may leave an edge beyond its end
// and still count as leaving it at its end: a neck just where two edges join must
// not fall between them by rounding. Found from both it still counts once.
const edgewise = 1e-7

// hasFoot reports whether the foot of p on the whole line or circle lies on the
// edge, or beyond its end by no more than rounding.
func (b *brim) hasFoot(p Point) bool {
	if b.holdsFoot(p) {
		return true
	}
	f := b.foot(p)
	return dist2(f, b.A) <= Snap*Snap || dist2(f, b.B) <= Snap*Snap
}

// edges looks for ways square to both edges.
func (f *neckFinder) edges(a, b *brim) {
	if a.k == 0 && b.k == 0 {
		f.parallelLines(a, b)
		return
	}
	w, _ := axis(&a.seg, &b.seg)
	l := w.Len()
	if a.k != 0 && b.k != 0 && l <= math.Abs(a.k*b.k)*concentric {
		f.concentricArcs(a, b)
		return
	}
	if l == 0 {
		return
	}
	for _, sa := range [2]float64{1, -1} {
		p, ok := a.squareTo(w.Mul(sa))
		if !ok {
			continue
		}
		for _, sb := range [2]float64{1, -1} {
			q, ok := b.squareTo(w.Mul(sb))
			if !ok {
				continue
			}
			if b.k == 0 {
				// A line has no place of its own: it is the foot of p.
				if !b.hasFoot(p) {
					continue
				}
				q = b.foot(p)
			}
			if a.k == 0 {
				if !a.hasFoot(q) {
					continue
				}
				p = a.foot(q)
			}
			f.square(a, b, p, q)
			if b.k == 0 {
				break
			}
		}
		if a.k == 0 {
			break
		}
	}
}

// squareTo returns the point of an arc at which its normal is along w; for a line
// any point, and true.
func (b *brim) squareTo(w Point) (Point, bool) {
	if b.k == 0 {
		return b.m, true
	}
	if p, ok := b.towards(w); ok {
		return p, true
	}
	// Beyond an end by no more than rounding.
	l := edgewise * w.Len()
	for _, end := range [2]Point{b.A, b.B} {
		u, v := b.local(end)
		n := Point{-b.k * u, 1 - b.k*v} // the left normal there, along t and n
		if g, h := w.Dot(b.t), b.t.Cross(w); math.Abs(n.Cross(Point{g, h})) <= l && -n.Dot(Point{g, h}) > 0 {
			return end, true
		}
	}
	return Point{}, false
}

// square adds the way from p on a to q on b, known to be square to both, if it
// leaves both into the metal and is a local minimum.
func (f *neckFinder) square(a, b *brim, p, q Point) {
	v := q.Sub(p)
	d := v.Len()
	if d <= Snap || d >= f.limit {
		return
	}
	u := v.Mul(1 / d)
	if a.leftNormal(p).Dot(u) > -0.999 || b.leftNormal(q).Dot(u) < 0.999 {
		return
	}
	// With x along the edges, the way from (x1, c1 x1^2/2) to (x2, d + c2 x2^2/2)
	// has the length d + (c2 x2^2 - c1 x1^2)/2 + (x2 - x1)^2/(2d) + ...: least at 0
	// if that form is positive (half) definite. The metal is on the right, so an
	// edge of positive curvature bends away from the other.
	c1, c2 := -a.k, b.k
	const slack = 1e-9
	if 1/d-c1 < -slack || (c2-c1)/d-c1*c2 < -slack*(1+math.Abs(c1)+math.Abs(c2))/d {
		return
	}
	f.add(a, b, p, q)
}

// parallelLines adds the middle of the stretch in which two parallel lines face
// each other.
func (f *neckFinder) parallelLines(a, b *brim) {
	if a.t.Dot(b.t) > -0.5 || math.Abs(a.t.Cross(b.t)) > parallelSine {
		return
	}
	// Places along a, from its middle.
	u0, v := a.local(b.B)
	u1, _ := a.local(b.A)
	lo, hi := math.Max(-a.span, math.Min(u0, u1)), math.Min(a.span, math.Max(u0, u1))
	if v >= 0 || hi < lo-Snap { // on the left is the opening
		return
	}
	p := a.m.Add(a.t.Mul((lo + hi) / 2))
	_, q := b.nearest(p)
	f.add(a, b, p, q)
}

// concentricArcs adds the middle of the stretch in which two arcs about one
// centre face each other.
func (f *neckFinder) concentricArcs(a, b *brim) {
	ra, rb := 1/a.k, 1/b.k
	if (a.k > 0) == (b.k > 0) || math.Abs(math.Abs(ra)-math.Abs(rb)) <= Snap {
		return
	}
	// Metal on the right of both: outside of the inner, which turns left, and
	// inside of the outer.
	inner, outer := a, b
	if math.Abs(ra) > math.Abs(rb) {
		inner, outer = b, a
	}
	if inner.k < 0 {
		return
	}
	// Angles from the inner's middle at which the stretch begins and ends.
	off := func(p Point) float64 {
		return (inner.frac(p) - 0.5) * inner.Sweep()
	}
	m := off(outer.m)
	h := math.Abs(outer.Sweep()) / 2
	hi, lo := math.Min(inner.Sweep()/2, m+h), math.Max(-inner.Sweep()/2, m-h)
	if hi < lo {
		return
	}
	p := inner.At(math.Min(1, math.Max(0, 0.5+(lo+hi)/2/inner.Sweep())))
	_, q := outer.nearest(p)
	f.add(inner, outer, p, q)
}

// cornerEdge looks for the way from the corner at a's start square onto b.
func (f *neckFinder) cornerEdge(a, b *brim) {
	if !b.hasFoot(a.A) {
		return
	}
	q := b.foot(a.A)
	v := q.Sub(a.A)
	d := v.Len()
	if d <= Snap || d >= f.limit || !a.opens(v) {
		return
	}
	if b.leftNormal(q).Dot(v) < 0 {
		return
	}
	if 1/d+b.k < 0 {
		return // beyond b's centre: farthest, not nearest
	}
	f.add(a, b, a.A, q)
}

// add notes the way from p on a to q on b if the disc over it is empty.
func (f *neckFinder) add(a, b *brim, p, q Point) {
	d := p.Dist(q)
	if d >= f.limit {
		return
	}
	// The edge nearest to m is among those whose grown box holds it.
	if m, r := p.Mid(q), d/2-2*Snap; r > 0 {
		if f.grid.nx > 0 {
			for _, i := range f.grid.at(m) {
				if nearer(&f.bs[i].seg, m, r) {
					return
				}
			}
		} else {
			for i := range f.bs {
				if nearer(&f.bs[i].seg, m, r) {
					return
				}
			}
		}
	}
	f.found = append(f.found, Neck{int(a.loop), int(b.loop), Gap{p, q, d}})
}

// distinct returns the necks found, each once, narrowest first.
func (f *neckFinder) distinct() []Neck {
	if len(f.found) < 2 {
		return f.found
	}
	order := make([]int32, len(f.found))
	for i := range order {
		order[i] = int32(i)
	}
	slices.SortFunc(order, func(i, j int32) int {
		g, h := &f.found[i], &f.found[j]
		return cmp.Or(cmp.Compare(g.D, h.D), cmp.Compare(g.A.X, h.A.X), cmp.Compare(g.A.Y, h.A.Y), cmp.Compare(i, j))
	})
	// One neck may be found from two edges that meet at its end: its middle is the same.
	const same, cell = 10 * Snap, 1000 * Snap
	type key struct{ x, y int64 }
	at := func(p Point, off float64) key {
		return key{int64(math.Floor((p.X + off) / cell)), int64(math.Floor((p.Y + off) / cell))}
	}
	known := make(map[key][]int32, len(f.found))
	var out []Neck
next:
	for _, i := range order {
		g := &f.found[i]
		m := g.Mid()
		from, to := at(m, -same), at(m, same)
		for x := from.x; x <= to.x; x++ {
			for y := from.y; y <= to.y; y++ {
				for _, k := range known[key{x, y}] {
					h := &out[k]
					if (g.A.Dist(h.A) <= same && g.B.Dist(h.B) <= same) || (g.A.Dist(h.B) <= same && g.B.Dist(h.A) <= same) {
						continue next
					}
				}
			}
		}
		known[at(m, 0)] = append(known[at(m, 0)], int32(len(out)))
		out = append(out, *g)
	}
	return out
}
