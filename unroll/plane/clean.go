package plane

import (
	"math"
	"slices"
)

// apartness is how far, mm, all that does not meet must keep apart for crossings
// to be clean: eight times what overlays take for one place.
const apartness = 8 * Snap

// cleanSine is the sine of the least angle of a clean crossing.
const cleanSine = 1e-3

// apart reports whether edges meet nowhere but neighbours in their common vertex,
// and nothing else comes near.
func apart(es []clipEdge) bool {
	for i := range es {
		a := &es[i]
		if dist2(a.A, a.B) <= apartness*apartness {
			return false
		}
		for j := i + 1; j < len(es); j++ {
			b := &es[j]
			if boxDist2(&a.box, &b.box) > apartness*apartness {
				continue
			}
			ab, ba := a.before(b), b.before(a)
			if !ab && !ba {
				g := Gap{D: apartness}
				if nearerSegs(&a.seg, &b.seg, &g); g.D < apartness {
					return false
				}
				continue
			}
			if !ab && (nearer(&b.seg, a.B, apartness) || nearer(&a.seg, b.A, apartness)) {
				return false
			}
			if !ba && (nearer(&b.seg, a.A, apartness) || nearer(&a.seg, b.B, apartness)) {
				return false
			}
			p, n := meets(&a.seg, &b.seg, Snap)
			for _, q := range p[:n] {
				const most = Snap * Snap / 4
				if !(ab && dist2(q, a.B) < most || ba && dist2(q, a.A) < most) {
					return false
				}
			}
		}
	}
	return true
}

// meet finds the crossings of loop and region, and reports whether all are clean.
func (c *clipper) meet() bool {
	c.cross = c.cross[:0]
	for i := range c.a {
		a := &c.a[i].seg
		for j := range c.b {
			b := &c.b[j].seg
			if boxDist2(&a.box, &b.box) > apartness*apartness {
				continue
			}
			if nearer(b, a.A, apartness) || nearer(a, b.A, apartness) {
				return false
			}
			p, n := meets(a, b, Snap)
			// Between two crossings of the same edges there must be something, too.
			if n == 2 && !(dist2(p[0], p[1]) > apartness*apartness && b.dist(a.At((a.frac(p[0])+a.frac(p[1]))/2)) > apartness) {
				return false
			}
			for _, q := range p[:n] {
				sine := b.along(q).Cross(a.along(q))
				if !(math.Abs(sine) > cleanSine) || len(c.cross) == manyEdges {
					return false
				}
				c.cross = append(c.cross, cleanCrossing{p: q, a: int32(i), b: int32(j), fa: a.frac(q), fb: b.frac(q), in: sine > 0})
			}
		}
	}
	for k := range c.cross {
		x := &c.cross[k]
		for i := range c.a {
			if int32(i) != x.a && nearer(&c.a[i].seg, x.p, apartness) {
				return false
			}
		}
		for j := range c.b {
			if int32(j) != x.b && nearer(&c.b[j].seg, x.p, apartness) {
				return false
			}
		}
	}
	return true
}

// along returns the direction of the edge at a point of it.
func (s *seg) along(p Point) Point {
	if s.k == 0 {
		return s.t
	}
	u, v := s.local(p)
	g, h := 1-s.k*v, s.k*u
	return Point{s.t.X*g - s.t.Y*h, s.t.Y*g + s.t.X*h}
}

// alternate sorts the crossings along both sides, and reports whether each edge
// enters and leaves by turns, and the region's loops are ones that the loop can
// be in: left of them once, right of them not.
func (c *clipper) alternate() bool {
	n := len(c.cross)
	if n%2 != 0 {
		return false
	}
	slices.SortFunc(c.cross, func(x, y cleanCrossing) int {
		if x.a != y.a {
			return int(x.a - y.a)
		}
		if x.fa < y.fa {
			return -1
		}
		return 1
	})
	c.alongB = c.alongB[:0]
	for i := range c.cross {
		if i > 0 && c.cross[i].in == c.cross[i-1].in {
			return false
		}
		c.alongB = append(c.alongB, int32(i))
	}
	slices.SortFunc(c.alongB, func(i, j int32) int {
		x, y := &c.cross[i], &c.cross[j]
		if x.b != y.b {
			return int(x.b - y.b)
		}
		if x.fb < y.fb {
			return -1
		}
		return 1
	})
	for k, i := range c.alongB {
		x := &c.cross[i]
		x.alongB = int32(k)
		next := &c.cross[c.afterB(int32(k), 1)]
		if next.in == x.in {
			return false
		}
	}
	return true
}

// afterB returns the crossing that follows (step 1) or precedes (-1) the k-th
// along its loop of the region.
func (c *clipper) afterB(k, step int32) int32 {
	loop := func(k int32) int32 { return c.b[c.cross[c.alongB[k]].b].loop }
	n := int32(len(c.alongB))
	if j := k + step; j >= 0 && j < n && loop(j) == loop(k) {
		return c.alongB[j]
	}
	// Round to the loop's other end.
	j := k
	for j-step >= 0 && j-step < n && loop(j-step) == loop(k) {
		j -= step
	}
	return c.alongB[j]
}
