package plane

import "math"

// Point is a position on the plane, or the vector to it, mm.
type Point struct {
	X, Y float64
}

// Pt is short for Point{x, y}.
func Pt(x, y float64) Point { return Point{x, y} }

// Add returns p + q.
func (p Point) Add(q Point) Point { return Point{p.X + q.X, p.Y + q.Y} }

// Sub returns p - q.
func (p Point) Sub(q Point) Point { return Point{p.X - q.X, p.Y - q.Y} }

// Mul returns p scaled by k.
func (p Point) Mul(k float64) Point { return Point{p.X * k, p.Y * k} }

// Dot returns the scalar product.
func (p Point) Dot(q Point) float64 { return p.X*q.X + p.Y*q.Y }

// Cross returns the z component of the vector product: positive when q lies to
// the left of p.
func (p Point) Cross(q Point) float64 { return p.X*q.Y - p.Y*q.X }

// Len returns the length of the vector.
func (p Point) Len() float64 { return math.Sqrt(p.X*p.X + p.Y*p.Y) }

// Dist returns the distance from p to q.
func (p Point) Dist(q Point) float64 { return math.Sqrt(dist2(p, q)) }

// Left returns p turned by a quarter turn counter-clockwise.
func (p Point) Left() Point { return Point{-p.Y, p.X} }

// Unit returns p scaled to length 1, or the zero vector if p is zero.
func (p Point) Unit() Point {
	l := p.Len()
	if l == 0 {
		return Point{}
	}
	return Point{p.X / l, p.Y / l}
}

// Turn returns p turned by angle about the origin, counter-clockwise.
func (p Point) Turn(angle float64) Point {
	s, c := math.Sincos(angle)
	return Point{c*p.X - s*p.Y, s*p.X + c*p.Y}
}

// Mid returns the point half way between p and q.
func (p Point) Mid(q Point) Point { return Point{(p.X + q.X) / 2, (p.Y + q.Y) / 2} }

// Finite reports whether both coordinates are numbers, neither infinite nor NaN.
func (p Point) Finite() bool {
	return !math.IsNaN(p.X) && !math.IsNaN(p.Y) && !math.IsInf(p.X, 0) && !math.IsInf(p.Y, 0)
}

// angle returns the angle from p to q, -pi to pi.
func (p Point) angle(q Point) float64 { return math.Atan2(p.Cross(q), p.Dot(q)) }
