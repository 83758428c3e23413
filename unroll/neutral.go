package unroll

import "math"

// neutralLine is the neutral surface seen along the band's axis: the parallel
// curve of the inner oval at depth d, traversed by its length S from the top.
//
//	S(u) = arc(u) + d turn(u)
//
// It is never changed after it is made, so flats may share it.
type neutralLine struct {
	oval    Oval
	d       float64
	quarter float64 // S at u = pi/2, a quarter of the whole
	// The inverse u(S) at neutralNodes+1 evenly spaced S from 0 to quarter, with
	// its first and second derivative.
	step float64
	node []neutralNode
}

type neutralNode struct{ u, du, ddu float64 }

// neutralNodes is chosen for the error of quintic Hermite interpolation,
// (h/r)^6/46080 in u: with the tightest oval allowed (r = 5 mm, h = 0.3 mm)
// 1e-12, so better than 1e-10 mm.
const neutralNodes = 256

func newNeutralLine(o Oval, d float64) *neutralLine {
	l := &neutralLine{oval: o, d: d}
	l.quarter = l.length(math.Pi / 2)
	l.step = l.quarter / neutralNodes
	l.node = make([]neutralNode, neutralNodes+1)
	l.node[0] = l.nodeAt(0)
	for i := 1; i < neutralNodes; i++ {
		p := l.node[i-1]
		u := p.u + l.step*(p.du+l.step/2*p.ddu)
		target := float64(i) * l.step
		for range 8 {
			du := (target - l.length(u)) * l.nodeAt(u).du
			u += du
			if math.Abs(du) < 1e-14 {
				break
			}
		}
		l.node[i] = l.nodeAt(u)
	}
	l.node[neutralNodes] = l.nodeAt(math.Pi / 2)
	return l
}

// length returns S(u) for 0 <= u <= pi/2.
func (l *neutralLine) length(u float64) float64 { return l.oval.arc(u) + l.d*l.oval.turn(u) }

// nodeAt returns u and the derivatives of the inverse there, 1/s1 and -s2/s1^3,
// from those of S: s1 = g + d AB/g^2 and s2 = dg/du (1 - 2 d AB/g^3), where g is
// the speed of the oval and AB/g^2 that of its turning.
func (l *neutralLine) nodeAt(u float64) neutralNode {
	a, b := l.oval.A, l.oval.B
	s, c := math.Sincos(u)
	g := l.oval.speed(u)
	dg := (b*b - a*a) * s * c / g
	s1 := g + l.d*a*b/(g*g)
	s2 := dg * (1 - 2*l.d*a*b/(g*g*g))
	return neutralNode{u, 1 / s1, -s2 / (s1 * s1 * s1)}
}

// u returns the eccentric angle at the length x from the top, any finite x.
func (l *neutralLine) u(x float64) float64 {
	half := 2 * l.quarter
	k := math.Round(x / half)
	r := x - k*half // in -quarter to quarter
	return k*math.Pi + math.Copysign(l.quarterU(math.Abs(r)), r)
}

func (l *neutralLine) quarterU(x float64) float64 {
	f := x / l.step
	i := min(max(int(f), 0), neutralNodes-1)
	return hermite(l.node[i], l.node[i+1], l.step, f-float64(i))
}

// hermite returns the quintic Hermite polynomial between two nodes that are h
// apart, at the fraction t of the way, as a correction to p.u.
func hermite(p, q neutralNode, h, t float64) float64 {
	t2 := t * t
	t3 := t2 * t
	c := t3 * (10 + t*(6*t-15)) // share of q.u
	return p.u + (q.u-p.u)*c +
		h*(p.du*(t-t3*(6+t*(3*t-8)))+q.du*t3*(-4+t*(7-3*t))) +
		h*h/2*(p.ddu*t2*(1+t*(-3+t*(3-t)))+q.ddu*t3*(1+t*(t-2)))
}

// x returns the length from the top at u, -pi <= u <= pi.
func (l *neutralLine) x(u float64) float64 {
	k := math.Round(u / math.Pi)
	r := u - k*math.Pi
	return k*2*l.quarter + math.Copysign(l.length(math.Min(math.Abs(r), math.Pi/2)), r)
}

// innerEnd returns u at which the inner face has the length s from the top,
// 0 <= s <= half the circumference.
func (l *neutralLine) innerEnd(s float64) float64 {
	q := l.oval.arc(math.Pi / 2)
	if s > q {
		return math.Pi - l.innerEnd(2*q-s)
	}
	lo, hi := 0.0, math.Pi/2
	u := math.Pi / 2 * s / q
	for range 100 {
		e := l.oval.arc(u) - s
		if e > 0 {
			hi = u
		} else {
			lo = u
		}
		next := u - e/l.oval.speed(u)
		if next < lo || next > hi {
			next = (lo + hi) / 2
		}
		if math.Abs(next-u) < 1e-15 {
			return next
		}
		u = next
	}
	return u
}
