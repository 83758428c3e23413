package unroll

import (
	"math"

	"fretband/unroll/plane"
)

// Slices stand for a loop that is placed many times: a few sections across the
// band with weights such that an integral over the loop's inside, of anything
// that changes along the band as slowly as a band bends, is a sum over them.
// They are worked out once for a shape.
type Slices struct {
	box  plane.Box
	x    []float64 // places along the band
	w, u []float64 // weights of 1 and of y
}

// Slices returns the loop as slices. ok is false where they would not hold: on
// flared and domed bands, and for a loop that reaches too far round the band.
//
// The function to be integrated is replaced by the polynomial through its values
// at Chebyshev's places (n = 5 or 9); the error goes as the n-th power of a
// quarter of the loop's half length over the band's least radius.
func (f Flat) Slices(l plane.Loop) (s Slices, ok bool) {
	if f.cone != nil || f.dome != nil {
		return s, false
	}
	s.box = l.Bounds()
	half := s.box.W() / 2
	n := 5
	switch share := half / f.course().leastRadius(); {
	case !(share < 0.6):
		return s, false
	case share > 0.15:
		n = 9
	}
	mid := s.box.Centre().X
	for j := range n {
		s.x = append(s.x, mid+half*math.Cos(math.Pi*(float64(j)+0.5)/float64(n)))
	}
	s.w, s.u = make([]float64, n), make([]float64, n)
	nodes, weights := gauss10[0], gauss10[1]
	for i := range l {
		e := l.Edge(i)
		long := e.Len()
		for m, z := range nodes {
			t := (1 + z) / 2
			p := e.At(t)
			dx := e.Tangent(t).X * long / 2 * weights[m]
			for j := range n {
				// Lagrange's polynomial that is 1 at position j.
				g := -p.Y * dx
				for k := range n {
					if k != j {
						g *= (p.X - s.x[k]) / (s.x[j] - s.x[k])
					}
				}
				s.w[j] += g
				s.u[j] += g * p.Y / 2
			}
		}
	}
	return s, true
}

// SolidAt returns what [Flat.Solid] returns for the loop moved by at. ok is
// false where the curvature of the band jumps within it.
func (f Flat) SolidAt(s Slices, at plane.Point) (out Solid, ok bool) {
	whole := f.course().around()
	for _, b := range f.course().breaks() {
		lo := s.box.Min.X + at.X
		if b += whole * math.Ceil((lo-b)/whole); b < s.box.Max.X+at.X {
			return out, false
		}
	}
	w := f.newWeights()
	for j, x := range s.x {
		p, n, k := f.drawn(x + at.X)
		d, o := w.m0+k*w.m1, w.m1+k*w.m2
		out.Volume += d * s.w[j]
		out.Moment.X += (d*p.X + o*n.X) * s.w[j]
		out.Moment.Y += (d*p.Y + o*n.Y) * s.w[j]
		out.Moment.Z += d * (s.u[j] + at.Y*s.w[j])
	}
	return out, true
}

// LengthAt returns about how long the straight line of the flat from a to b is on
// the bent band at the given depth: its parts along and across the band stretched
// as they are half way. Over a bridge's width the band hardly changes, so the
// error is a small part of the difference.
func (f Flat) LengthAt(a, b plane.Point, depth float64) float64 {
	if f.Wraps() {
		b.X -= f.Period * math.Round((b.X-a.X)/f.Period)
	}
	m := a.Mid(b)
	x, v := f.Where(m)
	u := f.along(x, v, 0).Unit()
	along, across := f.Stretch(m, depth)
	d := b.Sub(a)
	return math.Hypot(d.Dot(u)*along, d.Cross(u)*across)
}
