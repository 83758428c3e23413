package plane

import (
	"math"
	"slices"
	"sync"
)

// clipEdge is an edge of a loop, at its position among the loop's edges.
type clipEdge struct {
	seg
	loop, index, of int32
}

// before reports whether f follows e along a loop.
func (e *clipEdge) before(f *clipEdge) bool {
	return e.loop == f.loop && f.index == (e.index+1)%e.of && e.B == f.A
}

// cleanCrossing is a point in which edge a of the loop and edge b of the region
// cross, at these fractions; in says that the loop enters the region there.
type cleanCrossing struct {
	p      Point
	a, b   int32
	fa, fb float64
	in     bool
	alongB int32 // place in the order along the region's edges
	done   bool
}

// clipper is the short way of [And] and [Not] for one loop against a region. It
// looks only at those of the region's edges that come near the loop. If all
// crossings are clean, that is at an angle and far, in Snaps, from every vertex,
// from every other edge and from each other, and nothing touches, then the
// network that [overlay] would build has no node but vertices and crossings, and
// what runs inside what is told by how the edges cross: nothing need be merged,
// counted or searched. Anything else it leaves to overlay. The answers of both
// are the same to the last bit.
type clipper struct {
	a, b   []clipEdge
	cross  []cleanCrossing // in their order along the loop
	alongB []int32         // and along the region's edges
	path   Loop
	row    Loop
}

// clippersBefore spares clipping to ask for its memory anew. Nothing is read from
// it that was not written in the same clipping.
var clippersBefore = sync.Pool{New: func() any { return new(clipper) }}

// clip returns a and b, or a but not b, and whether the short way leads there.
func clip(a Loop, b Region, o op) (Region, bool) {
	if len(a) > manyEdges {
		return nil, false
	}
	c := clippersBefore.Get().(*clipper)
	r, ok := c.clip(a, b, o)
	clippersBefore.Put(c)
	return r, ok
}

func (c *clipper) clip(a Loop, b Region, o op) (Region, bool) {
	box, ok := c.layLoop(a)
	if !ok || !c.layRegion(b, box) || !apart(c.a) || !apart(c.b) || !c.meet() || !c.alternate() {
		return nil, false
	}
	if l, r := c.woundBy(c.a[0].Edge, c.a, nil); l != 1 || r != 0 {
		return nil, false
	}
	return c.gather(a, b, o)
}

// layLoop makes the edges of the loop ready and returns the box round them.
func (c *clipper) layLoop(l Loop) (Box, bool) {
	box := EmptyBox()
	c.a = c.a[:0]
	for i := range l {
		e := l.Edge(i)
		if !(math.Abs(e.Bulge) <= 1) || e.A == e.B || len(c.a) == manyEdges {
			return box, false
		}
		c.a = append(c.a, clipEdge{loop: -1, index: int32(i), of: int32(len(l))})
		s := &c.a[i]
		s.set(&e)
		box.take(&s.box)
	}
	return box, len(l) > 1 && within(box)
}

// layRegion makes the edges ready that come near the box.
func (c *clipper) layRegion(r Region, box Box) bool {
	box = box.Grow(apartness)
	c.b = c.b[:0]
	for k, l := range r {
		for i := range l {
			e := l.Edge(i)
			if !(math.Abs(e.A.X) <= MaxCoord && math.Abs(e.A.Y) <= MaxCoord && math.Abs(e.Bulge) <= math.MaxFloat64) {
				return false
			}
			x0, x1, y0, y1 := e.A.X, e.B.X, e.A.Y, e.B.Y
			if x0 > x1 {
				x0, x1 = x1, x0
			}
			if y0 > y1 {
				y0, y1 = y1, y0
			}
			if e.Bulge != 0 {
				// No farther out than its sagitta.
				h := math.Abs(e.Bulge) / 2 * (x1 - x0 + y1 - y0)
				x0, x1, y0, y1 = x0-h, x1+h, y0-h, y1+h
				if !within(Box{Point{x0, y0}, Point{x1, y1}}) {
					return false
				}
			}
			if x0 > box.Max.X || x1 < box.Min.X || y0 > box.Max.Y || y1 < box.Min.Y {
				continue
			}
			if math.Abs(e.Bulge) > 1 || len(c.b) == manyEdges {
				return false
			}
			n := len(c.b)
			c.b = append(c.b, clipEdge{loop: int32(k), index: int32(i), of: int32(len(l))})
			s := &c.b[n].seg
			s.set(&e)
			if !s.box.Meets(box) {
				c.b = c.b[:n]
			}
		}
	}
	return true
}

// woundBy returns the winding numbers left and right of the edge's middle of the
// edges and the region, of which the edge itself is one.
func (c *clipper) woundBy(own Edge, es []clipEdge, r Region) (left, right int32) {
	p := own.Mid()
	n := 0
	for i := range es {
		if es[i].Edge != own {
			n += es[i].winding(p)
		}
	}
	for _, l := range r {
		for i := range l {
			e := l.Edge(i)
			if e.Bulge == 0 && (e.A.Y <= p.Y) == (e.B.Y <= p.Y) {
				continue
			}
			if e != own {
				n += e.winding(p)
			}
		}
	}
	left, right = own.ownWinding(p)
	return left + int32(n), right + int32(n)
}

// gather puts the result together, in the order in which overlay would.
func (c *clipper) gather(a Loop, b Region, o op) (Region, bool) {
	// Every loop of the region that has to do with this one must be one.
	for j := range c.b {
		if e := &c.b[j]; j == 0 || e.loop != c.b[j-1].loop {
			if l, r := c.woundBy(b[e.loop].Edge(int(e.index)), nil, b); l != 1 || r != 0 {
				return nil, false
			}
		}
	}
	var out Region
	if len(c.cross) == 0 {
		n := 0
		for _, l := range b {
			n += l.Winding(c.a[0].Mid())
		}
		switch {
		case n < 0 || n > 1:
			return nil, false
		case n == 1 && o == opAnd:
			c.path = c.path[:0]
			for i := range c.a {
				c.path = append(c.path, Vertex{c.a[i].A, c.a[i].Bulge})
			}
			out = c.emit(out)
		case n == 0 && o == opNot:
			// Whether the edge is passed on as it is hangs on boxes.
			return nil, false
		}
	}
	// Runs of the loop that belong to the result begin where it enters (and) or
	// leaves (not) the region, or at its start.
	starts := o == opAnd
	for i := -1; i < len(c.cross); i++ {
		if i < 0 && (len(c.cross) == 0 || c.cross[0].in == starts) {
			continue
		}
		if i >= 0 && (c.cross[i].in != starts || c.cross[i].done) {
			continue
		}
		if !c.follow(i, o) {
			return nil, false
		}
		out = c.emit(out)
	}
	// Loops of the region inside the loop.
	for j, k := 0, 0; j < len(c.b); j = k {
		for k = j + 1; k < len(c.b) && c.b[k].loop == c.b[j].loop; k++ {
		}
		if k-j == int(c.b[j].of) && c.within(j, k) {
			c.path = c.path[:0]
			for i := j; i < k; i++ {
				if o == opAnd {
					c.path = append(c.path, Vertex{c.b[i].A, c.b[i].Bulge})
					continue
				}
				// Backwards, the first edge first.
				e := &c.b[j]
				if i > j {
					e = &c.b[k+j-i]
				}
				c.path = append(c.path, Vertex{e.B, -e.Bulge})
			}
			out = c.emit(out)
		}
	}
	return out, true
}

// within reports whether the region's loop of the edges j to k lies inside the
// loop.
func (c *clipper) within(j, k int) bool {
	for i := range c.cross {
		if b := int(c.cross[i].b); b >= j && b < k {
			return false
		}
	}
	n := 0
	p := c.b[j].Mid()
	for i := range c.a {
		n += c.a[i].winding(p)
	}
	return n != 0
}

// emit appends the path as a loop, unless it is a sliver.
func (c *clipper) emit(out Region) Region {
	if c.row = believed(c.row, c.path, Snap); len(c.row) > 0 {
		return append(out, slices.Clone(c.row))
	}
	return out
}

// follow puts the edge of the result together that begins along the loop at
// crossing first, or at the loop's own start if that is -1.
func (c *clipper) follow(first int, o op) bool {
	step := int32(1)
	if o == opNot {
		step = -1
	}
	c.path = c.path[:0]
	i := first
	for range len(c.cross) + 1 {
		if i < 0 {
			c.runA(0, 0, c.a[0].A, &c.cross[0])
		} else {
			x := &c.cross[i]
			x.done = true
			if i == len(c.cross)-1 {
				// On to the loop's start: only what began there comes back to it.
				c.runA(x.a, x.fa, x.p, nil)
				return first < 0
			}
			c.runA(x.a, x.fa, x.p, &c.cross[i+1])
		}
		x := &c.cross[i+1]
		i = int(c.afterB(x.alongB, step))
		if !c.runB(x, &c.cross[i], step) {
			return false
		}
		if i == first {
			return true
		}
	}
	return false
}

// runA follows the loop from the point p, at the fraction f of its edge i, to a
// crossing, or to the loop's start if that is nil.
func (c *clipper) runA(i int32, f float64, p Point, to *cleanCrossing) {
	for ; int(i) < len(c.a); i++ {
		s := &c.a[i].seg
		if f == 0 {
			p = s.A
		}
		if to != nil && to.a == i {
			c.path = append(c.path, Vertex{p, s.partBulge(f, to.fa)})
			return
		}
		c.path = append(c.path, Vertex{p, s.partBulge(f, 1)})
		f = 0
	}
}

// runB follows the region's edge from one crossing to the next, forwards (step 1)
// or back (-1), and reports whether all edges between are there.
func (c *clipper) runB(x, y *cleanCrossing, step int32) bool {
	j, p := x.b, x.p
	f0, f1 := x.fb, 1.0
	if step < 0 {
		f0, f1 = 0, x.fb
	}
	for range len(c.b) + 1 {
		s := &c.b[j]
		if j == y.b && f0 <= y.fb && y.fb <= f1 {
			if step > 0 {
				c.path = append(c.path, Vertex{p, s.partBulge(f0, y.fb)})
			} else {
				c.path = append(c.path, Vertex{p, -s.partBulge(y.fb, f1)})
			}
			return true
		}
		k := j + step
		if k < 0 || int(k) >= len(c.b) || c.b[k].loop != s.loop {
			// Round to the loop's other end.
			for k = j; k-step >= 0 && int(k-step) < len(c.b) && c.b[k-step].loop == s.loop; k -= step {
			}
		}
		t := &c.b[k]
		if step > 0 {
			c.path = append(c.path, Vertex{p, s.partBulge(f0, f1)})
			if !s.before(t) {
				return false
			}
			p = t.A
		} else {
			c.path = append(c.path, Vertex{p, -s.partBulge(f0, f1)})
			if !t.before(s) {
				return false
			}
			p = t.B
		}
		j, f0, f1 = k, 0, 1
	}
	return false
}
