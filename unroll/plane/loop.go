package plane

import "math"

// Vertex is a corner of a loop and the bulge of the edge that leaves it.
type Vertex struct {
	Point
	Bulge float64
}

// Loop is a closed curve of lines and arcs: edge i runs from vertex i to vertex
// i+1, the last one back to vertex 0. A full circle is two vertices of bulge 1.
type Loop []Vertex

// Polygon returns the loop of straight lines through the points.
func Polygon(pts ...Point) Loop {
	l := make(Loop, len(pts))
	for i, p := range pts {
		l[i].Point = p
	}
	return l
}

// Circle returns the counter-clockwise circle of radius r about c.
func Circle(c Point, r float64) Loop {
	return Loop{{Point{c.X + r, c.Y}, 1}, {Point{c.X - r, c.Y}, 1}}
}

// Rect returns the counter-clockwise rectangle b.
func Rect(b Box) Loop {
	return Polygon(b.Min, Point{b.Max.X, b.Min.Y}, b.Max, Point{b.Min.X, b.Max.Y})
}

// Edge returns edge i.
func (l Loop) Edge(i int) Edge {
	j := i + 1
	if j == len(l) {
		j = 0
	}
	return Edge{l[i].Point, l[j].Point, l[i].Bulge}
}

// Edges returns all edges in order.
func (l Loop) Edges() Chain {
	es := make(Chain, len(l))
	for i := range l {
		es[i] = l.Edge(i)
	}
	return es
}

// Area returns the signed area, mm^2: positive when the loop runs
// counter-clockwise. Exact up to rounding (shoelace and circular segments).
func (l Loop) Area() float64 {
	if len(l) == 0 {
		return 0
	}
	// About the first vertex, so that a small loop far out keeps its digits.
	o := l[0].Point
	var a float64
	for i := range l {
		a += l.Edge(i).move(Point{-o.X, -o.Y}).area2()
	}
	return a / 2
}

// Len returns the length of the loop, mm.
func (l Loop) Len() float64 {
	var s float64
	for i := range l {
		s += l.Edge(i).Len()
	}
	return s
}

// Centroid returns the centre of the enclosed area; of a loop without area, the
// middle of its bounds.
func (l Loop) Centroid() Point {
	if len(l) == 0 {
		return Point{}
	}
	o := l[0].Point
	var a float64
	var m Point
	for i := range l {
		e := l.Edge(i).move(Point{-o.X, -o.Y})
		a += e.area2() / 2
		m = m.Add(e.moment())
	}
	if a == 0 {
		return l.Bounds().Centre()
	}
	return o.Add(m.Mul(1 / a))
}

// Bounds returns the smallest box round the loop, [EmptyBox] for no vertices.
func (l Loop) Bounds() Box {
	b := EmptyBox()
	for i := range l {
		b = b.Union(l.Edge(i).Bounds())
	}
	return b
}

// Reverse returns the loop run the other way.
func (l Loop) Reverse() Loop {
	n := len(l)
	r := make(Loop, n)
	for i := range l {
		// Edge i of the result runs from vertex n-1-i back to vertex n-2-i.
		r[i] = Vertex{l[n-1-i].Point, -l[(2*n-2-i)%n].Bulge}
	}
	return r
}

// Winding returns how often the loop runs round p, counter-clockwise counted
// positive. For a point on the loop the answer is that of a point very near it.
func (l Loop) Winding(p Point) int {
	w := 0
	for i := range l {
		w += l.Edge(i).winding(p)
	}
	return w
}

// Contains reports whether p is inside the loop, whichever way it runs.
func (l Loop) Contains(p Point) bool { return l.Winding(p) != 0 }

// winding is the edge's share of the winding number of p: the crossing of the
// chord with the ray from p towards +x, and one turn if p lies between chord
// and arc. A point on the chord is taken to lie a hair to the right of it (+x),
// one level with a vertex a hair above: both tests then agree.
func (e Edge) winding(p Point) int {
	if e.A == e.B {
		return 0
	}
	side := side(e.A, e.B, p)
	w := 0
	if (e.A.Y <= p.Y) != (e.B.Y <= p.Y) {
		if e.A.Y <= p.Y && side > 0 {
			w = 1
		} else if e.A.Y > p.Y && side < 0 {
			w = -1
		}
	}
	if e.Bulge == 0 || (side > 0) == (e.Bulge > 0) {
		return w // not on the arc's side of the chord
	}
	if e.inSegment(p) {
		if e.Bulge > 0 {
			return w + 1
		}
		return w - 1
	}
	return w
}

// side says on which side of the line a->b the point lies: +1 left, -1 right,
// never 0 (see winding).
func side(a, b, p Point) int {
	d := b.Sub(a)
	c := d.Cross(p.Sub(a))
	if c == 0 {
		if d.Y != 0 {
			c = -d.Y
		} else {
			c = d.X
		}
	}
	if c > 0 {
		return 1
	}
	return -1
}

// inSegment reports whether p, already on the arc's side of the chord, lies
// inside the circle: the chord AB is seen from inside under a larger angle than
// from the arc (inscribed angle pi - sweep/2), which needs no centre.
func (e Edge) inSegment(p Point) bool {
	a, b := e.A.Sub(p), e.B.Sub(p)
	// By cotangents: cot(sweep/2) is (1 - bulge^2) / (2 bulge).
	k := math.Abs(e.Bulge)
	return 2*k*a.Dot(b)+(1-k*k)*math.Abs(a.Cross(b)) < 0
}

// Same reports whether o has the same vertices in the same order, from whichever it begins,
// each number within tol.
func (l Loop) Same(o Loop, tol float64) bool {
	if len(l) != len(o) {
		return false
	}
start:
	for s := range o {
		for i, v := range l {
			u := o[(s+i)%len(o)]
			if math.Abs(v.X-u.X) > tol || math.Abs(v.Y-u.Y) > tol || math.Abs(v.Bulge-u.Bulge) > tol {
				continue start
			}
		}
		return true
	}
	return false
}
