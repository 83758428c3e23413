package unroll

import (
	"math"

	"fretband/unroll/plane"
)

// Point3 is a place on the bent band, mm: Z along the band's axis, the front at
// (0, B, 0). See the package comment.
type Point3 struct{ X, Y, Z float64 }

// Bend returns where the point p of the flat comes to lie on the bent band, at
// depth mm from the inner face (0) towards the outer one (Thickness).
//
// It is exact up to rounding (better than 1e-9 mm) for any x: past the ends of
// a blank the oval is simply followed further round. The faces are parallel, so
// every depth has the same place along the band.
func (f Flat) Bend(p plane.Point, depth float64) Point3 {
	q, n := f.Oval.at(f.neutral().u(p.X))
	return Point3{q.X + depth*n.X, q.Y + depth*n.Y, p.Y}
}

// Unbend is the inverse of [Flat.Bend]: the point of the flat and the depth of
// the place q. x lies within half a turn either way; in the gap of a cuff it is
// past the blank's end. Places deeper inside the band than its least inner
// radius have no single answer; what is returned for them is finite.
func (f Flat) Unbend(q Point3) (p plane.Point, depth float64) {
	at := plane.Point{X: q.X, Y: q.Y}
	u := f.Oval.nearest(at)
	foot, n := f.Oval.at(u)
	return plane.Point{X: f.neutral().x(u), Y: q.Z}, at.Sub(foot).Dot(n)
}

// Station returns the cross-section of the bent band at x: the point of the
// inner face, the unit normal pointing out of the band, and the curvature of the
// inner face, 1/mm.
func (f Flat) Station(x float64) (inner, normal plane.Point, curvature float64) {
	u := f.neutral().u(x)
	inner, normal = f.Oval.at(u)
	g := f.Oval.speed(u)
	return inner, normal, f.Oval.A * f.Oval.B / (g * g * g)
}

// LeastRadius returns the smallest inner radius, mm, that the sheet is bent to.
func (f Flat) LeastRadius() float64 { return f.Oval.LeastRadius() }

// EdgesAt returns the two edges of the blank at x, mm, before its corners are
// rounded. Past the ends of a closed band it goes on round; past those of a cuff
// it stays as it is at the end.
func (f Flat) EdgesAt(x float64) (bottom, top float64) {
	h := f.taper().at(x) / 2
	return -h, h
}

// neutral returns the neutral line, made anew for a Flat not from [Unroll].
func (f Flat) neutral() *neutralLine {
	if f.line != nil {
		return f.line
	}
	return newNeutralLine(f.Oval, f.Neutral)
}

func (f Flat) taper() taper {
	t := taper{mid: f.Width, end: f.Width, length: f.Length, open: f.Period == 0}
	if f.line != nil {
		t.mid, t.end = f.mid, f.end
	}
	return t
}

// taper is the width of a blank along it: a raised cosine, smooth everywhere and,
// on a closed band, smooth over the joint too.
type taper struct {
	mid, end, length float64
	open             bool
}

func (t taper) at(x float64) float64 {
	if t.mid == t.end {
		return t.mid
	}
	if t.open {
		x = math.Max(-t.length/2, math.Min(x, t.length/2))
	}
	return t.end + (t.mid-t.end)*(1+math.Cos(2*math.Pi*x/t.length))/2
}

// slope returns d(width)/dx within the blank.
func (t taper) slope(x float64) float64 {
	return -(t.mid - t.end) * math.Pi / t.length * math.Sin(2*math.Pi*x/t.length)
}
