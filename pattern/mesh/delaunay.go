package mesh

import (
	"errors"
	"slices"
)

// delaunay is a triangulation of one cell. Points are inserted one by one and
// edges turned until no circle round a triangle holds another point (C. Lawson,
// 1977); the edges of the metal are then brought in by turning the edges that
// cross them (S. W. Sloan, "A fast algorithm for generating constrained Delaunay
// triangulations", Computers & Structures 47, 1993). On which side of a line a
// point lies is decided in whole numbers, exactly; whether a circle holds a
// point only shapes the triangles, and is answered yes only when that is sure.
type delaunay struct {
	at   []point
	id   []int32 // the number of each point among the wires'
	tri  []tri
	of   []int32 // a triangle at each point
	last int32
	todo []int32
	keep []bool
	lid  []int32 // the hole that a triangle lies in, plus 1
	edge [][3]uint8
	ring [][2]int32
	next [][2]int32
}

// tri is a triangle, counter-clockwise; n[i] is the neighbour opposite v[i], -1
// for none.
type tri struct{ v, n [3]int32 }

// What lies along an edge of a triangle.
const (
	open    = 0
	metal   = 1 // an edge of the metal, which is on this triangle's side
	noMetal = 2 // the same, with the metal on the other side
)

var errCross = errors.New("edges of the metal touch or cross one another")

// reset starts with the rectangle of a cell, its corners counter-clockwise from
// the lower left.
func (d *delaunay) reset(w, h0, h1 int64, corners [4]int32) {
	d.at = append(d.at[:0], point{0, h0}, point{w, h0}, point{w, h1}, point{0, h1})
	d.id = append(d.id[:0], corners[:]...)
	d.tri = append(d.tri[:0], tri{[3]int32{0, 1, 2}, [3]int32{-1, 1, -1}}, tri{[3]int32{0, 2, 3}, [3]int32{-1, -1, 0}})
	d.of = append(d.of[:0], 0, 0, 0, 1)
	d.last = 0
}

func (d *delaunay) turn(a, b int32, p point) int64 { return turn(d.at[a], d.at[b], p) }

// insert adds a point within the rectangle and returns its place in at.
func (d *delaunay) insert(p point, id int32) (int32, error) {
	t := d.last
	var on int // corner opposite the edge that p lies on
	var zeros int
	for steps := 0; ; steps++ {
		if steps > len(d.tri)+8 {
			return 0, errCross // can't be: the walk ends in a Delaunay triangulation
		}
		on, zeros = -1, 0
		moved := false
		for k := range 3 {
			i := (k + steps) % 3
			s := d.turn(d.tri[t].v[(i+1)%3], d.tri[t].v[(i+2)%3], p)
			if s < 0 {
				t = d.tri[t].n[i]
				moved = true
				break
			}
			if s == 0 {
				on, zeros = i, zeros+1
			}
		}
		if t < 0 {
			return 0, errors.New("a point lies outside its cell")
		}
		if !moved {
			break
		}
	}
	if zeros >= 2 {
		for _, v := range d.tri[t].v {
			if d.at[v] == p {
				return v, nil
			}
		}
	}
	v := int32(len(d.at))
	d.at = append(d.at, p)
	d.id = append(d.id, id)
	d.of = append(d.of, t)
	if zeros == 0 {
		d.splitFace(t, v)
	} else {
		d.splitEdge(t, on, v)
	}
	for len(d.todo) > 0 {
		t := d.todo[len(d.todo)-1]
		d.todo = d.todo[:len(d.todo)-1]
		i := d.cornerOf(t, v)
		u := d.tri[t].n[i]
		if u < 0 {
			continue
		}
		j := d.facing(u, t)
		a := d.tri[t].v
		if d.inCircle(a[0], a[1], a[2], d.tri[u].v[j]) {
			d.flip(t, i, u, j)
			d.todo = append(d.todo, t, u)
		}
	}
	d.last = d.of[v]
	return v, nil
}

func (d *delaunay) cornerOf(t, v int32) int {
	switch v {
	case d.tri[t].v[0]:
		return 0
	case d.tri[t].v[1]:
		return 1
	}
	return 2
}

// facing returns the corner of u that is opposite its neighbour t.
func (d *delaunay) facing(u, t int32) int {
	switch t {
	case d.tri[u].n[0]:
		return 0
	case d.tri[u].n[1]:
		return 1
	}
	return 2
}

func (d *delaunay) set(t int32, v, n [3]int32) {
	d.tri[t] = tri{v, n}
	for _, p := range v {
		d.of[p] = t
	}
}

func (d *delaunay) relink(t, from, to int32) {
	if t >= 0 {
		d.tri[t].n[d.facing(t, from)] = to
	}
}

func (d *delaunay) splitFace(t, p int32) {
	v, n := d.tri[t].v, d.tri[t].n
	t1 := int32(len(d.tri))
	t2 := t1 + 1
	d.tri = append(d.tri, tri{}, tri{})
	d.relink(n[0], t, t1)
	d.relink(n[1], t, t2)
	d.set(t, [3]int32{v[0], v[1], p}, [3]int32{t1, t2, n[2]})
	d.set(t1, [3]int32{v[1], v[2], p}, [3]int32{t2, t, n[0]})
	d.set(t2, [3]int32{v[2], v[0], p}, [3]int32{t, t1, n[1]})
	d.todo = append(d.todo, t, t1, t2)
}

// splitEdge puts p on the edge of t that is opposite its corner i.
func (d *delaunay) splitEdge(t int32, i int, p int32) {
	v, n := d.tri[t].v, d.tri[t].n
	o, a, b := v[i], v[(i+1)%3], v[(i+2)%3]
	u, across, beside := n[i], n[(i+1)%3], n[(i+2)%3]
	t1 := int32(len(d.tri))
	u1 := int32(-1)
	d.tri = append(d.tri, tri{})
	if u >= 0 {
		u1 = t1 + 1
		d.tri = append(d.tri, tri{})
	}
	d.relink(across, t, t1)
	if u >= 0 {
		j := d.facing(u, t)
		q, m := d.tri[u].v[j], d.tri[u].n
		aq, qb := m[(j+1)%3], m[(j+2)%3]
		d.relink(qb, u, u1)
		d.set(u, [3]int32{q, p, a}, [3]int32{t, aq, u1})
		d.set(u1, [3]int32{q, b, p}, [3]int32{t1, u, qb})
		d.todo = append(d.todo, u, u1)
	}
	d.set(t, [3]int32{o, a, p}, [3]int32{u, t1, beside})
	d.set(t1, [3]int32{o, p, b}, [3]int32{u1, across, t})
	d.todo = append(d.todo, t, t1)
}

// flip turns the edge between t and u, which are opposite each other's corners
// i and j.
func (d *delaunay) flip(t int32, i int, u int32, j int) {
	v, n := d.tri[t].v, d.tri[t].n
	w, m := d.tri[u].v, d.tri[u].n
	p, a, b, q := v[i], v[(i+1)%3], v[(i+2)%3], w[j]
	bp, pa := n[(i+1)%3], n[(i+2)%3]
	aq, qb := m[(j+1)%3], m[(j+2)%3]
	d.relink(bp, t, u)
	d.relink(aq, u, t)
	d.set(t, [3]int32{p, a, q}, [3]int32{aq, u, pa})
	d.set(u, [3]int32{p, q, b}, [3]int32{qb, bp, t})
}

// inCircle reports whether e lies surely within the circle through a, b and c.
func (d *delaunay) inCircle(a, b, c, e int32) bool {
	o := d.at[e]
	f := func(i int32) (x, y, l float64) {
		x, y = float64(d.at[i].x-o.x), float64(d.at[i].y-o.y)
		return x, y, x*x + y*y
	}
	ax, ay, al := f(a)
	bx, by, bl := f(b)
	cx, cy, cl := f(c)
	p, q, r := bx*cy-by*cx, cx*ay-cy*ax, ax*by-ay*bx
	det := al*p + bl*q + cl*r
	// The bound of J. R. Shewchuk (1997), (10 + 96 e) e with e = 2^-53, rounded
	// up; there is no point in turning an edge for less.
	size := al*(mag(bx*cy)+mag(by*cx)) + bl*(mag(cx*ay)+mag(cy*ax)) + cl*(mag(ax*by)+mag(ay*bx))
	return det > 1e-12*size
}

func mag(x float64) float64 {
	if x < 0 {
		return -x
	}
	return x
}

// edgeFrom returns the triangle that has the edge from a to b on its boundary,
// and the corner opposite; -1 if there is none.
func (d *delaunay) edgeFrom(a, b int32) (int32, int) {
	t := d.of[a]
	start := t
	for turned := false; ; {
		i := d.cornerOf(t, a)
		if d.tri[t].v[(i+1)%3] == b {
			return t, (i + 2) % 3
		}
		var next int32
		if !turned {
			next = d.tri[t].n[(i+1)%3] // counter-clockwise about a
			if next == start {
				return -1, 0
			}
			if next < 0 {
				turned = true
				t = start
				i = d.cornerOf(t, a)
			}
		}
		if turned {
			next = d.tri[t].n[(i+2)%3]
			if next < 0 || next == start {
				return -1, 0
			}
		}
		t = next
	}
}

// constrain makes the straight line from a to b an edge.
func (d *delaunay) constrain(a, b int32) error {
	if t, _ := d.edgeFrom(a, b); t >= 0 {
		return nil
	}
	if t, _ := d.edgeFrom(b, a); t >= 0 {
		return nil
	}
	// The edges crossed, from a on.
	d.ring = d.ring[:0]
	t, x, y := d.leaving(a, b)
	if t < 0 {
		return errCross
	}
	for {
		d.ring = append(d.ring, [2]int32{x, y})
		u := d.tri[t].n[d.opposite(t, x, y)]
		if u < 0 {
			return errCross
		}
		z := d.third(u, x, y)
		if z == b {
			break
		}
		switch s := d.turn(a, b, d.at[z]); {
		case s == 0:
			return errCross // another edge's point on this one
		case s < 0:
			x = z
		default:
			y = z
		}
		t = u
		if len(d.ring) > len(d.tri) {
			return errCross
		}
	}
	for tries := 16 * (len(d.ring) + 4) * (len(d.ring) + 4); len(d.ring) > 0; tries-- {
		if tries == 0 {
			return errCross
		}
		d.next = d.next[:0]
		for _, e := range d.ring {
			t, i := d.edgeFrom(e[0], e[1])
			if t < 0 {
				return errCross
			}
			u := d.tri[t].n[i]
			j := d.facing(u, t)
			p, q := d.tri[t].v[i], d.tri[u].v[j]
			// Only a convex pair can be turned.
			if d.turn(p, q, d.at[e[0]])*sign(d.turn(p, q, d.at[e[1]])) >= 0 {
				d.next = append(d.next, e)
				continue
			}
			d.flip(t, i, u, j)
			if p == a || p == b || q == a || q == b {
				continue
			}
			if sp, sq := d.turn(a, b, d.at[p]), d.turn(a, b, d.at[q]); sp*sign(sq) < 0 {
				d.next = append(d.next, [2]int32{p, q})
			}
		}
		d.ring, d.next = d.next, d.ring
	}
	return nil
}

func sign(x int64) int64 {
	switch {
	case x > 0:
		return 1
	case x < 0:
		return -1
	}
	return 0
}

// leaving returns the triangle at a through which the line to b leaves it, and
// the ends of the edge it crosses: x on the right of the line, y on the left.
func (d *delaunay) leaving(a, b int32) (t, x, y int32) {
	p := d.at[b]
	try := func(t int32) bool {
		i := d.cornerOf(t, a)
		x, y = d.tri[t].v[(i+1)%3], d.tri[t].v[(i+2)%3]
		return d.turn(a, x, p) > 0 && d.turn(a, y, p) < 0
	}
	start := d.of[a]
	for t = start; t >= 0; {
		if try(t) {
			return t, x, y
		}
		t = d.tri[t].n[(d.cornerOf(t, a)+1)%3]
		if t == start {
			return -1, 0, 0
		}
	}
	for t = start; t >= 0; t = d.tri[t].n[(d.cornerOf(t, a)+2)%3] {
		if try(t) {
			return t, x, y
		}
	}
	return -1, 0, 0
}

func (d *delaunay) third(t, x, y int32) int32 {
	for _, v := range d.tri[t].v {
		if v != x && v != y {
			return v
		}
	}
	return -1
}

func (d *delaunay) opposite(t, x, y int32) int {
	for i, v := range d.tri[t].v {
		if v != x && v != y {
			return i
		}
	}
	return 0
}

// metalOf marks the triangles of the metal, given its edges (all constrained):
// what is on the left of an edge, and all that is joined to it without crossing
// another. Without edges all is metal. Of the rest it marks what lies in a hole.
func (d *delaunay) metalOf(edges []bound) error {
	n := len(d.tri)
	d.keep = slices.Grow(d.keep[:0], n)[:n]
	d.lid = slices.Grow(d.lid[:0], n)[:n]
	d.edge = slices.Grow(d.edge[:0], n)[:n]
	for i := range n {
		d.keep[i], d.lid[i], d.edge[i] = len(edges) == 0, 0, [3]uint8{}
	}
	d.todo = d.todo[:0]
	for _, e := range edges {
		t, i := d.edgeFrom(e.a, e.b)
		if t < 0 || d.edge[t][i] != open {
			return errCross
		}
		d.edge[t][i] = metal
		if u := d.tri[t].n[i]; u >= 0 {
			d.edge[u][d.facing(u, t)] = noMetal
			d.lid[u] = e.hole + 1
		}
		if !d.keep[t] {
			d.keep[t] = true
			d.todo = append(d.todo, t)
		}
	}
	for len(d.todo) > 0 {
		t := d.todo[len(d.todo)-1]
		d.todo = d.todo[:len(d.todo)-1]
		for i, u := range d.tri[t].n {
			switch d.edge[t][i] {
			case noMetal:
				return errCross
			case open:
				if u >= 0 && !d.keep[u] {
					d.keep[u] = true
					d.todo = append(d.todo, u)
				}
			}
		}
	}
	for t, hole := range d.lid {
		if hole > 0 && !d.keep[t] {
			d.todo = append(d.todo, int32(t))
		}
	}
	for len(d.todo) > 0 {
		t := d.todo[len(d.todo)-1]
		d.todo = d.todo[:len(d.todo)-1]
		for i, u := range d.tri[t].n {
			if u >= 0 && d.edge[t][i] == open && d.lid[u] == 0 && !d.keep[u] {
				d.lid[u] = d.lid[t]
				d.todo = append(d.todo, u)
			}
		}
	}
	return nil
}

// bound is an edge of the metal, which is on its left; on its right is a hole,
// or -1: what is outside the outline.
type bound struct{ a, b, hole int32 }
