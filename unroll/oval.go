package unroll

import (
	"math"

	"fretband/unroll/plane"

	"gonum.org/v1/gonum/mathext"
)

// OvalOf returns the ellipse of the given circumference, mm, whose width is
// ratio times its height. It is exact: all ellipses of one ratio are alike, so
// their circumferences go as their axes.
func OvalOf(circumference, ratio float64) Oval {
	k := circumference / Oval{ratio, 1}.Circumference()
	return Oval{ratio * k, k}
}

// Circumference returns the length of the ellipse, mm: 4 A E(m), with the
// parameter m = 1 - (B/A)^2 and A the larger half axis (Abramowitz & Stegun,
// Handbook of Mathematical Functions, ch. 17).
func (o Oval) Circumference() float64 { return 4 * o.arc(math.Pi/2) }

// LeastRadius returns the smallest radius of curvature, mm, where the oval is
// tightest: at the ends of its longer axis.
func (o Oval) LeastRadius() float64 {
	if o.A >= o.B {
		return o.B * o.B / o.A
	}
	return o.A * o.A / o.B
}

// The oval is traversed by u, the eccentric angle counted from the top in the
// sense of the flat's x: the point (-A sin u, B cos u).

// at returns the point at u and the outward unit normal there.
func (o Oval) at(u float64) (p, n plane.Point) {
	s, c := math.Sincos(u)
	nx, ny := -o.B*s, o.A*c
	g := math.Sqrt(nx*nx + ny*ny)
	return plane.Point{X: -o.A * s, Y: o.B * c}, plane.Point{X: nx / g, Y: ny / g}
}

// speed returns ds/du at u.
func (o Oval) speed(u float64) float64 {
	s, c := math.Sincos(u)
	return math.Sqrt(o.A*o.A*c*c + o.B*o.B*s*s)
}

// arc returns the length of the ellipse from the top to u, 0 <= u <= pi/2.
func (o Oval) arc(u float64) float64 {
	if o.A >= o.B {
		return o.A * mathext.EllipticE(u, 1-o.B*o.B/(o.A*o.A))
	}
	// From the other axis: the parameter stays within 0 to 1.
	m := 1 - o.A*o.A/(o.B*o.B)
	return o.B * (mathext.EllipticE(math.Pi/2, m) - mathext.EllipticE(math.Pi/2-u, m))
}

// turn returns the angle through which the tangent turns from the top to u,
// 0 <= u <= pi/2.
func (o Oval) turn(u float64) float64 {
	s, c := math.Sincos(u)
	return math.Atan2(o.B*s, o.A*c)
}

// nearest returns u, -pi <= u <= pi, of the point of the ellipse next to p. For
// points no deeper under the ellipse than its least radius there is just one;
// for others the answer is some stationary point.
//
// It solves (A x/(t+A^2))^2 + (B y/(t+B^2))^2 = 1 for t in the first quadrant.
// The left side falls and is convex right of -min(A,B)^2, so Newton's method
// from a start left of the root walks up to it without a miss (D. Eberly,
// "Distance from a Point to an Ellipse", gives the equation and the bound).
func (o Oval) nearest(p plane.Point) float64 {
	x, y := math.Abs(p.X), math.Abs(p.Y)
	a2, b2 := o.A*o.A, o.B*o.B
	t := math.Max(o.A*x-a2, o.B*y-b2)
	for range 60 {
		da, db := t+a2, t+b2
		if da <= 0 || db <= 0 {
			break // the centre, or on an axis deep inside
		}
		ra, rb := o.A*x/da, o.B*y/db
		step := (ra*ra + rb*rb - 1) / (2 * (ra*ra/da + rb*rb/db))
		if !(step > 0) || t+step == t {
			break
		}
		t += step
	}
	// sin u : cos u = A x/(t+A^2) : B y/(t+B^2), times both denominators.
	return math.Atan2(-math.Copysign(o.A*x*math.Max(t+b2, 0), p.X), math.Copysign(o.B*y*math.Max(t+a2, 0), p.Y))
}
