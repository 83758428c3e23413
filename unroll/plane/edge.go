package plane

import "math"

// Edge is one side of a loop: the line or circular arc from A to B. Bulge is 0
// for a line, else tan(sweep/4), positive for a counter-clockwise arc.
type Edge struct {
	A, B  Point
	Bulge float64
}

// flatBulge is the bulge below which the closed forms of an arc lose more
// digits to cancellation than their series do.
const flatBulge = 1e-3

// IsLine reports whether the edge is a straight line.
func (e Edge) IsLine() bool { return e.Bulge == 0 }

// Sweep returns the signed angle through which an arc turns, 0 for a line.
func (e Edge) Sweep() float64 { return 4 * math.Atan(e.Bulge) }

// Chord returns the distance from A to B.
func (e Edge) Chord() float64 { return e.A.Dist(e.B) }

// Radius returns the arc's radius, +Inf for a line.
func (e Edge) Radius() float64 {
	if e.Bulge == 0 {
		return math.Inf(1)
	}
	b := math.Abs(e.Bulge)
	return e.Chord() * (1 + b*b) / (4 * b)
}

// Centre returns the arc's centre; for a line it is not defined (infinite).
func (e Edge) Centre() Point {
	k := (1 - e.Bulge*e.Bulge) / (4 * e.Bulge)
	return e.A.Mid(e.B).Add(e.B.Sub(e.A).Left().Mul(k))
}

// Len returns the length of the edge.
func (e Edge) Len() float64 {
	c := e.Chord()
	if e.Bulge == 0 {
		return c
	}
	b2 := e.Bulge * e.Bulge
	if math.Abs(e.Bulge) < flatBulge {
		// (1+b^2) atan(b)/b = 1 + 2b^2/3 - 2b^4/15 + ...
		return c * (1 + 2*b2/3 - 2*b2*b2/15)
	}
	return c * (1 + b2) * math.Atan(math.Abs(e.Bulge)) / math.Abs(e.Bulge)
}

// At returns the point at the fraction t of the edge's length, 0 at A, 1 at B.
func (e Edge) At(t float64) Point {
	switch {
	case t == 0:
		return e.A
	case t == 1:
		return e.B
	case e.Bulge == 0:
		return e.A.Add(e.B.Sub(e.A).Mul(t))
	case math.Abs(e.Bulge) <= 1:
		// The chord to the point, from the inscribed angle: no centre, so no
		// loss of digits for flat arcs.
		s := e.Sweep()
		return e.A.Add(e.B.Sub(e.A).Turn(-s * (1 - t) / 2).Mul(math.Sin(s*t/2) / math.Sin(s/2)))
	}
	c := e.Centre()
	return c.Add(e.A.Sub(c).Turn(e.Sweep() * t))
}

// Mid returns the point half way along the edge.
func (e Edge) Mid() Point {
	// The sagitta is bulge * chord / 2, to the right of the chord.
	return e.A.Mid(e.B).Sub(e.B.Sub(e.A).Left().Mul(e.Bulge / 2))
}

// Tangent returns the unit direction of travel at the fraction t, the zero
// vector if the edge has no length.
func (e Edge) Tangent(t float64) Point {
	d := e.B.Sub(e.A).Unit()
	if e.Bulge == 0 {
		return d
	}
	return d.Turn(e.Sweep() * (t - 0.5))
}

// Reverse returns the same edge run from B to A.
func (e Edge) Reverse() Edge { return Edge{e.B, e.A, -e.Bulge} }

// Part returns the piece of the edge from fraction t0 to t1, t0 < t1.
func (e Edge) Part(t0, t1 float64) Edge {
	p := Edge{A: e.At(t0), B: e.At(t1)}
	if e.Bulge != 0 {
		p.Bulge = math.Tan(math.Atan(e.Bulge) * (t1 - t0))
	}
	return p
}

// Bounds returns the smallest box round the edge.
func (e Edge) Bounds() Box {
	s := newSeg(e)
	return s.box
}

// fractionFacing returns the fraction at which the arc passes the point of its
// circle in direction u from the centre, and whether it does.
func (e Edge) fractionFacing(u Point) (float64, bool) {
	s := e.Sweep()
	m := e.Mid().Sub(e.A.Mid(e.B)) // from chord to arc: the middle's direction
	if m == (Point{}) {
		return 0, false
	}
	a := math.Atan2(m.Cross(u), m.Dot(u)) // -pi..pi from the arc's middle
	t := 0.5 + a/s
	return t, t >= 0 && t <= 1
}

// area2 returns twice the signed area between the edge and the origin, which
// summed over a loop is twice its area.
func (e Edge) area2() float64 {
	return e.A.Cross(e.B) + 2*e.Segment()
}

// Segment returns the signed area between the chord and the arc, positive for a
// counter-clockwise arc (R^2/2 (s - sin s)).
func (e Edge) Segment() float64 {
	b := e.Bulge
	if b == 0 {
		return 0
	}
	d := e.B.Sub(e.A)
	c2 := d.Dot(d)
	if math.Abs(b) < flatBulge {
		return c2 * b / 3 * (1 + b*b/5) // series of the line below to b^3
	}
	q := 1 + b*b
	sin := 4 * b * (1 - b*b) / (q * q) // of the sweep
	return c2 * q * q / (32 * b * b) * (e.Sweep() - sin)
}

// moment returns the first moments of the area swept from the origin: its
// integral of x and of y. Summed over a loop and divided by the loop's area
// they give the centroid.
func (e Edge) moment() Point {
	m := e.A.Add(e.B).Mul(e.A.Cross(e.B) / 6)
	if e.Bulge == 0 {
		return m
	}
	seg := e.Segment()
	if math.Abs(e.Bulge) < flatBulge {
		// A flat segment is a parabola's: its centroid is 2/5 of the sagitta
		// above the chord.
		chord := e.A.Mid(e.B)
		return m.Add(chord.Add(e.Mid().Sub(chord).Mul(0.4)).Mul(seg))
	}
	// About the centre the segment's first moment is chord^3/12 towards the
	// middle of the arc (2/3 R^3 sin^3(s/2)); its sign is the bulge's.
	c := e.Centre()
	u := e.Mid().Sub(e.A.Mid(e.B)).Unit()
	ch := e.Chord()
	k := ch * ch * ch / 12
	if e.Bulge < 0 {
		k = -k
	}
	return m.Add(c.Mul(seg)).Add(u.Mul(k))
}
