package plane

import "math"

// Gap is the shortest way between two things: its end on the first, its end on
// the second and its length, mm.
type Gap struct {
	A, B Point
	D    float64
}

// Swap returns the same gap seen from the other side.
func (g Gap) Swap() Gap { return Gap{g.B, g.A, g.D} }

// Mid returns the middle of the gap.
func (g Gap) Mid() Point { return g.A.Mid(g.B) }

// noGap is farther than any gap.
func noGap() Gap { return Gap{D: math.Inf(1)} }

// Nearest returns the point of the edge nearest to p and its fraction of the
// edge's length. Of several equally near it returns one.
func (e Edge) Nearest(p Point) (t float64, q Point) {
	s := newSeg(e)
	return s.nearest(p)
}

// Dist returns the distance from the edge to p.
func (e Edge) Dist(p Point) float64 {
	s := newSeg(e)
	return s.dist(p)
}

// NearestEdges returns the shortest gap between two edges: length 0 where they
// cross or touch.
//
// Exact: the shortest way either starts at an end of one of the edges, or is
// square to both, which for an arc means that it lies on the line through the
// centre square to the line or through both centres. All candidates are tried.
func NearestEdges(a, b Edge) Gap {
	sa, sb := newSeg(a), newSeg(b)
	return nearestSegs(&sa, &sb)
}

func nearestSegs(a, b *seg) Gap {
	g := noGap()
	nearerSegs(a, b, &g)
	return g
}

// nearerSegs puts the shortest gap of a and b into g if it is shorter.
func nearerSegs(a, b *seg, g *Gap) {
	if p, ok := crossing(a, b); ok {
		*g = Gap{p, p, 0}
		return
	}
	nearerEnd(a.A, b, g, false)
	nearerEnd(a.B, b, g, false)
	nearerEnd(b.A, a, g, true)
	nearerEnd(b.B, a, g, true)
	if a.k == 0 && b.k == 0 {
		return
	}
	w, _ := axis(a, b)
	if w == (Point{}) {
		return
	}
	// A point of an arc at which its normal is along w, then its foot on the
	// other edge: square to both if the foot is.
	for range 2 {
		if a.k != 0 {
			if p, ok := a.towards(w); ok {
				nearerEnd(p, b, g, false)
			}
		}
		if b.k != 0 {
			if p, ok := b.towards(w); ok {
				nearerEnd(p, a, g, true)
			}
		}
		w = Point{-w.X, -w.Y}
	}
}

// nearerEnd puts the gap from p to s into g if it is shorter, turned round if p
// is on the second edge.
func nearerEnd(p Point, s *seg, g *Gap, swap bool) {
	d := s.dist(p)
	if d >= g.D {
		return
	}
	q := s.B
	if s.holdsFoot(p) {
		q = s.foot(p)
	} else if dist2(p, s.A) <= dist2(p, s.B) {
		q = s.A
	}
	if swap {
		*g = Gap{q, p, d}
		return
	}
	*g = Gap{p, q, d}
}

// smallLoop is the number of edges up to which a loop's edges are made ready on
// the stack.
const smallLoop = 24

// Nearest returns the shortest gap between the edges of two loops, A on a and B
// on b: length 0 if they cross or touch. Whether one lies inside the other does
// not matter. If a loop has no vertices, the length is +Inf.
//
// Exact, see [NearestEdges]; pairs of edges whose boxes are farther apart than
// the best gap so far are skipped.
func Nearest(a, b Loop) Gap {
	var ba, bb [smallLoop]seg
	return nearestLists(appendSegs(ba[:0], a), appendSegs(bb[:0], b), math.Inf(1))
}

// nearestLists returns the shortest gap under limit between two lists of edges,
// or noGap.
func nearestLists(sa, sb []seg, limit float64) Gap {
	ba, bb := EmptyBox(), EmptyBox()
	for i := range sa {
		ba.take(&sa[i].box)
	}
	for i := range sb {
		bb.take(&sb[i].box)
	}
	return nearestSegLists(sa, sb, &ba, &bb, limit)
}

// take grows the box to hold another.
func (b *Box) take(o *Box) {
	b.Min.X, b.Min.Y = min(b.Min.X, o.Min.X), min(b.Min.Y, o.Min.Y)
	b.Max.X, b.Max.Y = max(b.Max.X, o.Max.X), max(b.Max.Y, o.Max.Y)
}

// nearestSegLists is nearestLists given the boxes round both.
func nearestSegLists(sa, sb []seg, ba, bb *Box, limit float64) Gap {
	g := Gap{D: limit}
	lim := limit * limit
	// Those of the second list that come near the first at all.
	var buf [2 * smallLoop]int32
	facing := buf[:0]
	for j := range sb {
		if boxDist2(&sb[j].box, ba) < lim {
			facing = append(facing, int32(j))
		}
	}
	for i := range sa {
		a := &sa[i]
		if boxDist2(&a.box, bb) >= lim {
			continue
		}
		for _, j := range facing {
			b := &sb[j]
			if boxDist2(&a.box, &b.box) >= lim || a.beside(b, g.D) || b.beside(a, g.D) {
				continue
			}
			nearerSegs(a, b, &g)
			lim = g.D * g.D
		}
	}
	if g.D >= limit {
		return noGap()
	}
	return g
}

// beside reports whether b lies wholly on one side of a, at least d from it (to
// twelve digits) by a's normal alone: a box along a, where upright ones say
// little.
func (a *seg) beside(b *seg, d float64) bool {
	_, v0 := a.local(b.A)
	_, v1 := a.local(b.B)
	if v0 > v1 {
		v0, v1 = v1, v0
	}
	// Arcs reach out as far as their sagitta.
	lo, hi := 0.0, 0.0
	if a.k > 0 {
		hi = a.sagitta()
	} else if a.k < 0 {
		lo = -a.sagitta()
	}
	if b.k != 0 {
		h := b.sagitta()
		v0, v1 = v0-h, v1+h
	}
	if d <= Snap {
		return false // it may touch, which is 0 to the last digit
	}
	d -= d * 1e-12 // so that an arc which continues the nearest line is beside, too
	return v0-hi >= d || lo-v1 >= d
}

// sagitta returns how far an arc reaches from its chord.
func (s *seg) sagitta() float64 {
	b := s.Bulge
	return math.Abs(2 * b * b / (s.k * (1 + b*b)))
}

// boxDist2 is the square of Box.Dist, for the inner loops.
func boxDist2(a, b *Box) float64 {
	var dx, dy float64
	if a.Min.X > b.Max.X {
		dx = a.Min.X - b.Max.X
	} else if b.Min.X > a.Max.X {
		dx = b.Min.X - a.Max.X
	}
	if a.Min.Y > b.Max.Y {
		dy = a.Min.Y - b.Max.Y
	} else if b.Min.Y > a.Max.Y {
		dy = b.Min.Y - a.Max.Y
	}
	return dx*dx + dy*dy
}

// Nearest returns the shortest gap from p (its A) to the edge of the loop (its
// B).
func (l Loop) Nearest(p Point) Gap {
	g := noGap()
	for i := range l {
		s := newSeg(l.Edge(i))
		if s.box.Dist(Box{p, p}) >= g.D {
			continue
		}
		if d := s.dist(p); d < g.D {
			_, q := s.nearest(p)
			g = Gap{p, q, d}
		}
	}
	return g
}

// Nearest returns the shortest gap from p (its A) to the edge of the region
// (its B).
func (r Region) Nearest(p Point) Gap {
	g := noGap()
	for _, l := range r {
		if h := l.Nearest(p); h.D < g.D {
			g = h
		}
	}
	return g
}

// NearestRegion returns the shortest gap between the edge of a loop (A) and the
// edges of a region (B).
func NearestRegion(a Loop, r Region) Gap {
	var ba, bb [smallLoop]seg
	sa := appendSegs(ba[:0], a)
	g := noGap()
	for _, l := range r {
		if h := nearestLists(sa, appendSegs(bb[:0], l), g.D); h.D < g.D {
			g = h
		}
	}
	return g
}
