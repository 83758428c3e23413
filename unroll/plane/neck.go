package plane

import (
	"cmp"
	"math"
	"slices"
)

// Necks returns the places where the metal around an opening is narrow between
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
// Degenerate loops give no panic, and no necks at edges without length. Cost:
// pairs of edges nearer to each other than limit, each against the edges near.
func (l Loop) Necks(limit float64) []Gap {
	l = l.CCW()
	var buf [smallLoop]seg
	if isConvex(appendSegs(buf[:0], l)) {
		return nil // all of it faces away from itself
	}
	return necks(Region{l}, limit)
}

// Necks returns the narrow places of the region itself, its inside being the
// metal: every local minimum under limit of its width between any two parts of
// its edges, of one loop or of two. See [Loop.Necks].
func (r Region) Necks(limit float64) []Gap {
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
	// in and out are the right normals at the corner, of the edge that arrives
	// and of this one. corner tells that they open into the metal.
	in, out Point
	corner  bool
}

// parallelSine is the sine of the angle under which two directions count as one
// when necks are looked for.
const parallelSine = 1e-9

func necks(r Region, limit float64) []Gap {
	var bs []brim
	for _, l := range r {
		k := len(bs)
		for i := range l {
			if e := l.Edge(i); e.A != e.B {
				bs = append(bs, brim{seg: newSeg(e)})
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
	order := make([]int32, len(bs))
	for i := range order {
		order[i] = int32(i)
	}
	slices.SortFunc(order, func(a, b int32) int {
		if c := cmp.Compare(bs[a].box.Min.X, bs[b].box.Min.X); c != 0 {
			return c
		}
		return int(a - b)
	})
	f := neckFinder{bs: bs, order: order, limit: limit}
	lim2 := limit * limit
	for i, x := range order {
		a := &bs[x]
		for _, y := range order[i+1:] {
			b := &bs[y]
			if b.box.Min.X > a.box.Max.X+limit {
				break
			}
			if boxDist2(&a.box, &b.box) < lim2 {
				f.pair(min(x, y), max(x, y))
			}
		}
	}
	return f.distinct()
}

type neckFinder struct {
	bs    []brim
	order []int32 // by the left side of the box
	limit float64
	found []Gap
}

// pair looks for necks between two edges and the corners at their starts.
func (f *neckFinder) pair(i, j int32) {
	a, b := &f.bs[i], &f.bs[j]
	if a.next != j && b.next != i {
		if p, ok := crossing(&a.seg, &b.seg); ok {
			f.found = append(f.found, Gap{p, p, 0})
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
			f.add(a.A, b.A)
		}
	}
}

// opens reports whether d points from the corner at the start strictly between
// the normals there.
func (b *brim) opens(d Point) bool {
	tol := parallelSine * d.Len()
	return b.in.Cross(d) > tol && d.Cross(b.out) > tol
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
				if !b.holdsFoot(p) {
					continue
				}
				q = b.foot(p)
			}
			if a.k == 0 {
				if !a.holdsFoot(q) {
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
	return b.towards(w)
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
	na := a.Tangent(a.frac(p)).Left().Mul(-1)
	nb := b.Tangent(b.frac(q)).Left().Mul(-1)
	if na.Dot(u) < 0.999 || nb.Dot(u) > -0.999 {
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
	f.add(p, q)
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
	lo, hi := math.Max(-a.reach, math.Min(u0, u1)), math.Min(a.reach, math.Max(u0, u1))
	if v >= 0 || hi < lo { // on the left is the opening
		return
	}
	p := a.m.Add(a.t.Mul((lo + hi) / 2))
	_, q := b.nearest(p)
	f.add(p, q)
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
	f.add(p, q)
}

// cornerEdge looks for the way from the corner at a's start square onto b.
func (f *neckFinder) cornerEdge(a, b *brim) {
	if !b.holdsFoot(a.A) {
		return
	}
	q := b.foot(a.A)
	v := q.Sub(a.A)
	d := v.Len()
	if d <= Snap || d >= f.limit || !a.opens(v) {
		return
	}
	if nb := b.Tangent(b.frac(q)).Left().Mul(-1); nb.Dot(v) > 0 {
		return
	}
	if 1/d+b.k < 0 {
		return // beyond b's centre: farthest, not nearest
	}
	f.add(a.A, q)
}

// add notes the way from p to q if the disc over it is empty.
func (f *neckFinder) add(p, q Point) {
	d := p.Dist(q)
	if d >= f.limit {
		return
	}
	m, r := p.Mid(q), d/2-2*Snap
	if r > 0 {
		// Edges by the left side of their boxes: none that begins right of the disc.
		n, _ := slices.BinarySearchFunc(f.order, m.X+r, func(i int32, x float64) int {
			return cmp.Compare(f.bs[i].box.Min.X, x)
		})
		for _, i := range f.order[:n] {
			b := &f.bs[i].seg
			if b.box.Max.X >= m.X-r && b.box.Min.Y <= m.Y+r && b.box.Max.Y >= m.Y-r && b.dist(m) < r {
				return
			}
		}
	}
	f.found = append(f.found, Gap{p, q, d})
}

// distinct returns the necks found, each once, narrowest first.
func (f *neckFinder) distinct() []Gap {
	slices.SortStableFunc(f.found, func(g, h Gap) int {
		return cmp.Or(cmp.Compare(g.D, h.D), cmp.Compare(g.A.X, h.A.X), cmp.Compare(g.A.Y, h.A.Y))
	})
	const same = 10 * Snap
	var out []Gap
next:
	for _, g := range f.found {
		for k := len(out) - 1; k >= 0 && out[k].D >= g.D-same; k-- {
			h := out[k]
			if (g.A.Dist(h.A) <= same && g.B.Dist(h.B) <= same) || (g.A.Dist(h.B) <= same && g.B.Dist(h.A) <= same) {
				continue next
			}
		}
		out = append(out, g)
	}
	return out
}
