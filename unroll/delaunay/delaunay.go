package delaunay

import (
	"errors"
	"slices"
)

// Triangulation is a triangulation that is being made. Points are inserted one by one
// and edges turned until no circle round a triangle holds another point (C. Lawson,
// 1977); given edges are then brought in by turning the edges that cross them (S. W.
// Sloan, "A fast algorithm for generating constrained Delaunay triangulations",
// Computers & Structures 47, 1993). On which side of a line a point lies is decided
// in whole numbers, exactly; whether a circle holds a point only shapes the
// triangles, and is answered yes only when that is sure.
//
// The zero value is ready for [Triangulation.Rectangle] or [Triangulation.Round],
// which begin anew with the memory of what was before.
type Triangulation struct {
	At   []Point
	Tri  []Triangle
	Kept []bool  // of each triangle, once [Triangulation.Mark] has found it inside
	Hole []int32 // of each triangle: the hole that it lies in, plus 1

	shift uint    // see Round
	of    []int32 // a triangle at each point
	last  int32
	todo  []int32
	edge  [][3]uint8
	ring  [][2]int32
	next  [][2]int32
}

// Point is a place on the grid.
type Point struct{ X, Y int64 }

// Triangle has its corners V counter-clockwise; N[i] is the neighbour opposite V[i],
// -1 for none.
type Triangle struct{ V, N [3]int32 }

// What lies along an edge of a triangle.
const (
	open    = 0
	inside  = 1 // an edge with the inside on this triangle's side
	outside = 2 // the same, with the inside on the other side
)

// ErrCross says that edges do not lie apart.
var ErrCross = errors.New("edges of the metal touch or cross one another")

// Rectangle begins with a rectangle from 0, h0 to w, h1, whose corners are the points
// 0 to 3, counter-clockwise from the lower left.
func (d *Triangulation) Rectangle(w, h0, h1 int64) {
	d.At = append(d.At[:0], Point{0, h0}, Point{w, h0}, Point{w, h1}, Point{0, h1})
	d.Tri = append(d.Tri[:0], Triangle{[3]int32{0, 1, 2}, [3]int32{-1, 1, -1}}, Triangle{[3]int32{0, 2, 3}, [3]int32{-1, -1, 0}})
	d.of = append(d.of[:0], 0, 0, 0, 1)
	d.last, d.shift, d.todo = 0, 0, d.todo[:0]
}

// Round begins with a strip that closes to a ring: x and x + 2^bits are one place. It
// reaches from y0 to y1 and has so many points along each of its edges, 0 to columns-1
// along the lower and as many more along the upper one. Edges and circles must stay
// under a quarter of the way round: it is for the caller to put points that densely.
func (d *Triangulation) Round(bits uint, y0, y1 int64, columns int) {
	n := int32(columns)
	d.At, d.Tri, d.of = d.At[:0], d.Tri[:0], d.of[:0]
	for _, y := range [2]int64{y0, y1} {
		for i := range int64(n) {
			d.At = append(d.At, Point{i << bits / int64(n), y})
			d.of = append(d.of, int32(2*i))
		}
	}
	for i := range n {
		j, before, after := (i+1)%n, (2*i+2*n-1)%(2*n), (2*i+2)%(2*n)
		d.Tri = append(d.Tri,
			Triangle{[3]int32{i, j, n + i}, [3]int32{2*i + 1, before, -1}},
			Triangle{[3]int32{j, n + j, n + i}, [3]int32{-1, 2 * i, after}})
	}
	d.last, d.shift, d.todo = 0, 64-bits, d.todo[:0]
}

// From says that the next point to be inserted is near the point v.
func (d *Triangulation) From(v int32) { d.last = d.of[v] }

// Trim takes away the triangles that are not inside. Along an edge of the inside there
// is then no neighbour.
func (d *Triangulation) Trim() {
	number := make([]int32, len(d.Tri))
	n := int32(0)
	for t, kept := range d.Kept {
		number[t] = -1
		if kept {
			number[t] = n
			n++
		}
	}
	for t, kept := range d.Kept {
		if !kept {
			continue
		}
		tri := d.Tri[t]
		for i, u := range tri.N {
			if u >= 0 {
				tri.N[i] = number[u]
			}
			if d.edge[t][i] != open {
				tri.N[i] = -1
			}
			d.of[tri.V[i]] = number[t]
		}
		d.Tri[number[t]] = tri
	}
	d.Tri = d.Tri[:n]
	d.Kept, d.Hole, d.edge = d.Kept[:0], d.Hole[:0], d.edge[:0]
	d.last = 0
}

// Turn is twice the area of the triangle a b c, positive counter-clockwise.
func Turn(a, b, c Point) int64 { return (b.X-a.X)*(c.Y-a.Y) - (b.Y-a.Y)*(c.X-a.X) }

// turn is Turn of two corners and a point, the short way round.
func (d *Triangulation) turn(a, b int32, p Point) int64 {
	o, q := d.At[a], d.At[b]
	return d.round(q.X-o.X)*(p.Y-o.Y) - (q.Y-o.Y)*d.round(p.X-o.X)
}

// round returns a difference of two X the short way round.
func (d *Triangulation) round(x int64) int64 { return x << (d.shift & 63) >> (d.shift & 63) }

// Insert adds a point and returns its place in At: that of the point which is there
// already, if there is one. The triangulation must be without edges still.
func (d *Triangulation) Insert(p Point) (int32, error) {
	t := d.last
	var on int // corner opposite the edge that p lies on
	var zeros int
	for steps := 0; ; steps++ {
		if steps > len(d.Tri)+8 {
			return 0, ErrCross // can't be: the walk ends in a Delaunay triangulation
		}
		on, zeros = -1, 0
		moved := false
		for k := range 3 {
			i := (k + steps) % 3
			s := d.turn(d.Tri[t].V[(i+1)%3], d.Tri[t].V[(i+2)%3], p)
			if s < 0 {
				t = d.Tri[t].N[i]
				moved = true
				break
			}
			if s == 0 {
				on, zeros = i, zeros+1
			}
		}
		if t < 0 {
			return 0, errors.New("a point lies outside its frame")
		}
		if !moved {
			break
		}
	}
	if zeros >= 2 {
		for _, v := range d.Tri[t].V {
			if d.At[v] == p {
				return v, nil
			}
		}
	}
	v := int32(len(d.At))
	d.At = append(d.At, p)
	d.of = append(d.of, t)
	if zeros == 0 {
		d.splitFace(t, v)
	} else {
		d.splitEdge(t, on, v)
	}
	d.settle(v)
	d.last = d.of[v]
	return v, nil
}

// settle turns edges opposite the new point v until no circle holds another point.
func (d *Triangulation) settle(v int32) {
	for len(d.todo) > 0 {
		t := d.todo[len(d.todo)-1]
		d.todo = d.todo[:len(d.todo)-1]
		i := d.cornerOf(t, v)
		u := d.Tri[t].N[i]
		if u < 0 {
			continue
		}
		j := d.facing(u, t)
		a := d.Tri[t].V
		if d.inCircle(a[0], a[1], a[2], d.Tri[u].V[j]) {
			d.flip(t, i, u, j)
			d.todo = append(d.todo, t, u)
		}
	}
}

func (d *Triangulation) cornerOf(t, v int32) int {
	switch v {
	case d.Tri[t].V[0]:
		return 0
	case d.Tri[t].V[1]:
		return 1
	}
	return 2
}

// facing returns the corner of u that is opposite its neighbour t.
func (d *Triangulation) facing(u, t int32) int {
	switch t {
	case d.Tri[u].N[0]:
		return 0
	case d.Tri[u].N[1]:
		return 1
	}
	return 2
}

func (d *Triangulation) set(t int32, v, n [3]int32) {
	d.Tri[t] = Triangle{v, n}
	for _, p := range v {
		d.of[p] = t
	}
}

func (d *Triangulation) relink(t, from, to int32) {
	if t >= 0 {
		d.Tri[t].N[d.facing(t, from)] = to
	}
}

func (d *Triangulation) splitFace(t, p int32) {
	v, n := d.Tri[t].V, d.Tri[t].N
	t1 := int32(len(d.Tri))
	t2 := t1 + 1
	d.Tri = append(d.Tri, Triangle{}, Triangle{})
	d.relink(n[0], t, t1)
	d.relink(n[1], t, t2)
	d.set(t, [3]int32{v[0], v[1], p}, [3]int32{t1, t2, n[2]})
	d.set(t1, [3]int32{v[1], v[2], p}, [3]int32{t2, t, n[0]})
	d.set(t2, [3]int32{v[2], v[0], p}, [3]int32{t, t1, n[1]})
	d.todo = append(d.todo, t, t1, t2)
}

// splitEdge puts p on the edge of t that is opposite its corner i.
func (d *Triangulation) splitEdge(t int32, i int, p int32) {
	v, n := d.Tri[t].V, d.Tri[t].N
	o, a, b := v[i], v[(i+1)%3], v[(i+2)%3]
	u, across, beside := n[i], n[(i+1)%3], n[(i+2)%3]
	t1 := int32(len(d.Tri))
	u1 := int32(-1)
	d.Tri = append(d.Tri, Triangle{})
	if u >= 0 {
		u1 = t1 + 1
		d.Tri = append(d.Tri, Triangle{})
	}
	d.relink(across, t, t1)
	if u >= 0 {
		j := d.facing(u, t)
		q, m := d.Tri[u].V[j], d.Tri[u].N
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
func (d *Triangulation) flip(t int32, i int, u int32, j int) {
	v, n := d.Tri[t].V, d.Tri[t].N
	w, m := d.Tri[u].V, d.Tri[u].N
	p, a, b, q := v[i], v[(i+1)%3], v[(i+2)%3], w[j]
	bp, pa := n[(i+1)%3], n[(i+2)%3]
	aq, qb := m[(j+1)%3], m[(j+2)%3]
	d.relink(bp, t, u)
	d.relink(aq, u, t)
	d.set(t, [3]int32{p, a, q}, [3]int32{aq, u, pa})
	d.set(u, [3]int32{p, q, b}, [3]int32{qb, bp, t})
}

// inCircle reports whether e lies surely within the circle through a, b and c.
func (d *Triangulation) inCircle(a, b, c, e int32) bool {
	o := d.At[e]
	f := func(i int32) (x, y, l float64) {
		x, y = float64(d.round(d.At[i].X-o.X)), float64(d.At[i].Y-o.Y)
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
func (d *Triangulation) edgeFrom(a, b int32) (int32, int) {
	t := d.of[a]
	start := t
	for turned := false; ; {
		i := d.cornerOf(t, a)
		if d.Tri[t].V[(i+1)%3] == b {
			return t, (i + 2) % 3
		}
		var next int32
		if !turned {
			next = d.Tri[t].N[(i+1)%3] // counter-clockwise about a
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
			next = d.Tri[t].N[(i+2)%3]
			if next < 0 || next == start {
				return -1, 0
			}
		}
		t = next
	}
}

// Constrain makes the straight line from a to b an edge.
func (d *Triangulation) Constrain(a, b int32) error {
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
		return ErrCross
	}
	for {
		d.ring = append(d.ring, [2]int32{x, y})
		u := d.Tri[t].N[d.opposite(t, x, y)]
		if u < 0 {
			return ErrCross
		}
		z := d.third(u, x, y)
		if z == b {
			break
		}
		switch s := d.turn(a, b, d.At[z]); {
		case s == 0:
			return ErrCross // another edge's point on this one
		case s < 0:
			x = z
		default:
			y = z
		}
		t = u
		if len(d.ring) > len(d.Tri) {
			return ErrCross
		}
	}
	for tries := 16 * (len(d.ring) + 4) * (len(d.ring) + 4); len(d.ring) > 0; tries-- {
		if tries == 0 {
			return ErrCross
		}
		d.next = d.next[:0]
		for _, e := range d.ring {
			t, i := d.edgeFrom(e[0], e[1])
			if t < 0 {
				return ErrCross
			}
			u := d.Tri[t].N[i]
			j := d.facing(u, t)
			p, q := d.Tri[t].V[i], d.Tri[u].V[j]
			// Only a convex pair can be turned.
			if d.turn(p, q, d.At[e[0]])*sign(d.turn(p, q, d.At[e[1]])) >= 0 {
				d.next = append(d.next, e)
				continue
			}
			d.flip(t, i, u, j)
			if p == a || p == b || q == a || q == b {
				continue
			}
			if sp, sq := d.turn(a, b, d.At[p]), d.turn(a, b, d.At[q]); sp*sign(sq) < 0 {
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
func (d *Triangulation) leaving(a, b int32) (t, x, y int32) {
	p := d.At[b]
	try := func(t int32) bool {
		i := d.cornerOf(t, a)
		x, y = d.Tri[t].V[(i+1)%3], d.Tri[t].V[(i+2)%3]
		return d.turn(a, x, p) > 0 && d.turn(a, y, p) < 0
	}
	start := d.of[a]
	for t = start; t >= 0; {
		if try(t) {
			return t, x, y
		}
		t = d.Tri[t].N[(d.cornerOf(t, a)+1)%3]
		if t == start {
			return -1, 0, 0
		}
	}
	for t = start; t >= 0; t = d.Tri[t].N[(d.cornerOf(t, a)+2)%3] {
		if try(t) {
			return t, x, y
		}
	}
	return -1, 0, 0
}

func (d *Triangulation) third(t, x, y int32) int32 {
	for _, v := range d.Tri[t].V {
		if v != x && v != y {
			return v
		}
	}
	return -1
}

func (d *Triangulation) opposite(t, x, y int32) int {
	for i, v := range d.Tri[t].V {
		if v != x && v != y {
			return i
		}
	}
	return 0
}

// Mark finds the triangles inside, given all edges (all constrained): what is on the
// left of an edge, and all that is joined to it without crossing another. Without edges
// all is inside. Of the rest it finds what lies in a hole.
func (d *Triangulation) Mark(edges []Edge) error {
	n := len(d.Tri)
	d.Kept = slices.Grow(d.Kept[:0], n)[:n]
	d.Hole = slices.Grow(d.Hole[:0], n)[:n]
	d.edge = slices.Grow(d.edge[:0], n)[:n]
	for i := range n {
		d.Kept[i], d.Hole[i], d.edge[i] = len(edges) == 0, 0, [3]uint8{}
	}
	d.todo = d.todo[:0]
	for _, e := range edges {
		t, i := d.edgeFrom(e.A, e.B)
		if t < 0 || d.edge[t][i] != open {
			return ErrCross
		}
		d.edge[t][i] = inside
		if u := d.Tri[t].N[i]; u >= 0 {
			d.edge[u][d.facing(u, t)] = outside
			d.Hole[u] = e.Hole + 1
		}
		if !d.Kept[t] {
			d.Kept[t] = true
			d.todo = append(d.todo, t)
		}
	}
	for len(d.todo) > 0 {
		t := d.todo[len(d.todo)-1]
		d.todo = d.todo[:len(d.todo)-1]
		for i, u := range d.Tri[t].N {
			switch d.edge[t][i] {
			case outside:
				return ErrCross
			case open:
				if u >= 0 && !d.Kept[u] {
					d.Kept[u] = true
					d.todo = append(d.todo, u)
				}
			}
		}
	}
	for t, hole := range d.Hole {
		if hole > 0 && !d.Kept[t] {
			d.todo = append(d.todo, int32(t))
		}
	}
	for len(d.todo) > 0 {
		t := d.todo[len(d.todo)-1]
		d.todo = d.todo[:len(d.todo)-1]
		for i, u := range d.Tri[t].N {
			if u >= 0 && d.edge[t][i] == open && d.Hole[u] == 0 && !d.Kept[u] {
				d.Hole[u] = d.Hole[t]
				d.todo = append(d.todo, u)
			}
		}
	}
	return nil
}

// Edge runs from the point A to B with the inside on its left; on its right is a hole,
// or -1: what is outside the outline.
type Edge struct{ A, B, Hole int32 }
