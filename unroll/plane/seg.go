package plane

import (
	"math"
	"slices"
)

// seg is an edge made ready for questions: lines and arcs in one form, without
// a centre, so that an arc of 10^9 mm radius keeps as many digits as one of 1.
//
// With m the middle of the edge, t the unit direction of travel there, n its
// left normal, k the signed curvature and q = p - m, the edge lies on
//
//	f(p) = n.q - k/2 |q|^2 = 0
//
// f is positive on the left, and the signed distance from the whole line or
// circle is 2f / (1 + sqrt(1 - 2kf)).
type seg struct {
	Edge
	m, t Point
	k    float64
	// span is half the length of a line; for an arc the cotangent of half its
	// sweep, which decides whether a direction points into the sweep.
	span float64
	box  Box
}

// lineBulge is the bulge under which an arc is treated as its chord. The
// greatest distance between them is bulge*chord/2, so 5e-8 mm, half of Snap, at
// a chord of MaxCoord.
const lineBulge = 1e-12

func newSeg(e Edge) seg {
	var s seg
	s.set(&e)
	return s
}

// set makes the edge ready in place.
func (s *seg) set(e *Edge) {
	s.Edge = *e
	s.m = Point{(e.A.X + e.B.X) / 2, (e.A.Y + e.B.Y) / 2}
	d := Point{e.B.X - e.A.X, e.B.Y - e.A.Y}
	c := math.Sqrt(d.X*d.X + d.Y*d.Y)
	s.t = Point{1, 0} // of an edge without length any direction serves
	if c > 0 {
		s.t = Point{d.X / c, d.Y / c}
	}
	s.box = Box{e.A, e.A}
	if e.B.X < e.A.X {
		s.box.Min.X = e.B.X
	} else {
		s.box.Max.X = e.B.X
	}
	if e.B.Y < e.A.Y {
		s.box.Min.Y = e.B.Y
	} else {
		s.box.Max.Y = e.B.Y
	}
	b := e.Bulge
	if (b < lineBulge && b > -lineBulge) || c == 0 {
		s.Bulge, s.k = 0, 0
		s.span = c / 2
		return
	}
	q := 1 + b*b
	s.m.X += d.Y * b / 2
	s.m.Y -= d.X * b / 2
	s.k = 4 * b / (c * q)
	s.span = (1 - b*b) / (2 * math.Abs(b))
	// Beyond the box of its ends the arc reaches out where it faces an axis: by
	// r (1 - o.u) from its middle, o the outward direction there.
	o := Point{s.t.Y, -s.t.X}
	r := 1 / s.k
	if b < 0 {
		o, r = Point{-o.X, -o.Y}, -r
	}
	if o.X >= s.span*math.Abs(o.Y) {
		s.box.Max.X = math.Max(s.box.Max.X, s.m.X+r*((1-o.X)*(1-o.X)+o.Y*o.Y)/2)
	}
	if -o.X >= s.span*math.Abs(o.Y) {
		s.box.Min.X = math.Min(s.box.Min.X, s.m.X-r*((1+o.X)*(1+o.X)+o.Y*o.Y)/2)
	}
	if o.Y >= s.span*math.Abs(o.X) {
		s.box.Max.Y = math.Max(s.box.Max.Y, s.m.Y+r*((1-o.Y)*(1-o.Y)+o.X*o.X)/2)
	}
	if -o.Y >= s.span*math.Abs(o.X) {
		s.box.Min.Y = math.Min(s.box.Min.Y, s.m.Y-r*((1+o.Y)*(1+o.Y)+o.X*o.X)/2)
	}
}

func appendSegs(dst []seg, l Loop) []seg {
	n := len(dst)
	dst = slices.Grow(dst, len(l))[:n+len(l)]
	for i := range l {
		e := l.Edge(i)
		dst[n+i].set(&e)
	}
	return dst
}

// local returns q = p - m along (u) and left of (v) the direction at the middle.
func (s *seg) local(p Point) (u, v float64) {
	x, y := p.X-s.m.X, p.Y-s.m.Y
	return x*s.t.X + y*s.t.Y, y*s.t.X - x*s.t.Y
}

// signed returns the distance of p from the whole line or circle, positive on
// the left of the edge.
func (s *seg) signed(p Point) float64 {
	u, v := s.local(p)
	if s.k == 0 {
		return v
	}
	f := v - s.k/2*(u*u+v*v)
	return 2 * f / (1 + math.Sqrt(math.Max(0, 1-2*s.k*f)))
}

// holdsFoot reports whether the foot of p on the whole line or circle lies on the
// edge, ends included.
func (s *seg) holdsFoot(p Point) bool {
	u, v := s.local(p)
	if s.k == 0 {
		return u <= s.span && u >= -s.span
	}
	return 1-s.k*v >= s.span*math.Abs(s.k*u)
}

// dist returns the distance from p to the edge.
func (s *seg) dist(p Point) float64 {
	u, v := s.local(p)
	if s.k == 0 {
		if u > s.span {
			u -= s.span
			return math.Sqrt(u*u + v*v)
		}
		if u < -s.span {
			u += s.span
			return math.Sqrt(u*u + v*v)
		}
		return math.Abs(v)
	}
	g, h := s.k*u, 1-s.k*v
	if h >= s.span*math.Abs(g) {
		return math.Abs(2*v-s.k*(u*u+v*v)) / (1 + math.Sqrt(g*g+h*h))
	}
	return math.Sqrt(math.Min(dist2(p, s.A), dist2(p, s.B)))
}

// leftNormal returns the unit left normal at a point of the edge.
func (s *seg) leftNormal(p Point) Point {
	g, h := 0.0, 1.0 // along t and n
	if s.k != 0 {
		u, v := s.local(p)
		g, h = -s.k*u, 1-s.k*v
		l := math.Sqrt(g*g + h*h)
		g, h = g/l, h/l
	}
	return Point{s.t.X*g - s.t.Y*h, s.t.Y*g + s.t.X*h}
}

// partBulge returns the bulge of the edge's part between two fractions.
func (s *seg) partBulge(f0, f1 float64) float64 {
	if s.k == 0 || !(f0 > 0 || f1 < 1) {
		return s.Bulge
	}
	return math.Tan(math.Atan(s.Bulge) * (f1 - f0))
}

func dist2(p, q Point) float64 {
	x, y := p.X-q.X, p.Y-q.Y
	return x*x + y*y
}

// frac returns the fraction of the edge at the foot of p on the whole line or
// circle; it may lie outside 0..1.
func (s *seg) frac(p Point) float64 {
	u, v := s.local(p)
	if s.k == 0 {
		if s.span == 0 {
			return 0
		}
		return 0.5 + u/(2*s.span)
	}
	return 0.5 + math.Atan2(s.k*u, 1-s.k*v)/s.Sweep()
}

// nearest returns the fraction and the position of the edge's point nearest to p.
func (s *seg) nearest(p Point) (float64, Point) {
	if s.holdsFoot(p) {
		t := math.Min(1, math.Max(0, s.frac(p)))
		return t, s.At(t)
	}
	if dist2(p, s.A) <= dist2(p, s.B) {
		return 0, s.A
	}
	return 1, s.B
}

// foot returns the point of the whole line or circle nearest to p.
func (s *seg) foot(p Point) Point {
	u, v := s.local(p)
	if s.k == 0 {
		return Point{s.m.X + s.t.X*u, s.m.Y + s.t.Y*u}
	}
	// Back along the gradient n - k q, of length sqrt(1 - 2kf).
	g, h := -s.k*u, 1-s.k*v
	rho := math.Sqrt(g*g + h*h)
	if rho == 0 {
		return s.m
	}
	d := (2*v - s.k*(u*u+v*v)) / ((1 + rho) * rho)
	g, h = g*d, h*d
	return Point{p.X - s.t.X*g + s.t.Y*h, p.Y - s.t.Y*g - s.t.X*h}
}

// towards returns the point of the arc at which its normal is parallel to w, on
// the side of its circle to which k*w points, and whether the arc has it.
func (s *seg) towards(w Point) (Point, bool) {
	g, h := w.X*s.t.X+w.Y*s.t.Y, w.X*s.t.Y-w.Y*s.t.X // along t and -n
	if h < s.span*math.Abs(g) {
		return Point{}, false
	}
	l := math.Sqrt(g*g + h*h)
	g, h = g/l, h/l
	v := 1 - h
	if h > 0 {
		v = g * g / (1 + h)
	}
	u := g / s.k
	v /= s.k
	return Point{s.m.X + s.t.X*u - s.t.Y*v, s.m.Y + s.t.Y*u + s.t.X*v}, true
}

// axis returns k1 k2 (c1 - c2), the direction of the line through the centres
// of two arcs (of a line and an arc: the line's normal), and the constant h for
// which w.q + h = 0, q = p - a.m, is their radical line.
func axis(a, b *seg) (w Point, h float64) {
	d := b.m.Sub(a.m)
	na, nb := a.t.Left(), b.t.Left()
	kk := a.k * b.k
	w = Point{b.k*na.X - a.k*nb.X - kk*d.X, b.k*na.Y - a.k*nb.Y - kk*d.Y}
	return w, a.k * (nb.Dot(d) + b.k/2*d.Dot(d))
}

// meets returns up to two points at which the two edges cross or touch. Curves
// that come within tol of touching, or cross by less, touch once, half way.
// Edges on the same line or circle, or on circles within tol of each other all
// round, do not meet here: see [Crossings].
func meets(a, b *seg, tol float64) (p [2]Point, n int) {
	if a.k == 0 && b.k == 0 {
		den := a.t.Cross(b.t)
		if den == 0 {
			return p, 0
		}
		w := b.m.Sub(a.m)
		x := w.Cross(b.t) / den
		if math.Abs(x) > a.span {
			return p, 0
		}
		// Asked of the point itself: for lines nearly parallel its position along b
		// would come out otherwise by the quotient.
		p[0] = a.m.Add(a.t.Mul(x))
		if !b.holdsFoot(p[0]) {
			return p, 0
		}
		return p, 1
	}
	if a.k == 0 {
		a, b = b, a
	}
	var q0, d Point
	alike := false // two arcs about nearly one centre: their radical line is vague
	if b.k == 0 {
		q0, d = b.m.Sub(a.m), b.t
	} else {
		w, h := axis(a, b)
		l2 := w.Dot(w)
		kk := a.k * b.k * concentric
		if l2 <= kk*kk || math.Sqrt(l2)+math.Abs(math.Abs(a.k)-math.Abs(b.k)) <= math.Abs(a.k*b.k)*tol {
			return p, 0 // concentric, or one circle within tol
		}
		alike = l2 < kk*kk*1e12 // a thousandth of a mm
		q0 = w.Mul(-h / l2)
		d = w.Left().Mul(1 / math.Sqrt(l2))
	}
	// f(q0 + x d) = C + B x - A x^2
	na := a.t.Left()
	A := a.k / 2
	B := na.Dot(d) - a.k*q0.Dot(d)
	C := na.Dot(q0) - A*q0.Dot(q0)
	xm := B / (2 * A)
	pm := a.m.Add(q0).Add(d.Mul(xm))
	disc := B*B + 4*A*C
	// How far apart, or deep, the curves are on the line between their centres.
	if math.Abs(xm) < 1e12 {
		ga := na.Sub(pm.Sub(a.m).Mul(a.k))
		gb := b.t.Left().Sub(pm.Sub(b.m).Mul(b.k))
		sa, sb := a.signed(pm), b.signed(pm)
		if ga.Dot(gb) < 0 {
			sb = -sb
		}
		if math.Abs(sa-sb) <= tol {
			// Half way between the two curves.
			u := ga.Unit()
			pm = pm.Sub(u.Mul((sa + sb) / 2))
			if a.holdsFoot(pm) && b.holdsFoot(pm) {
				p[0], n = pm, 1
			}
			return p, n
		}
	}
	if disc < 0 {
		return p, 0
	}
	r := math.Sqrt(disc)
	if B < 0 {
		r = -r
	}
	q := (B + r) / 2
	if q == 0 {
		return p, 0
	}
	for _, x := range [2]float64{-C / q, q / A} {
		if math.Abs(x) > 1e12 {
			continue
		}
		at := a.m.Add(q0).Add(d.Mul(x))
		if alike {
			at = b.foot(a.foot(at))
		}
		if a.holdsFoot(at) && b.holdsFoot(at) {
			p[n] = at
			n++
		}
	}
	return p, n
}

// concentric is the distance, mm, between centres under which two arcs count as
// concentric: they then overlap or stay apart, but do not cross. A hundredth of
// Snap.
const concentric = 1e-9
