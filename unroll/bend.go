package unroll

import (
	"math"
	"sort"

	"fretband/unroll/plane"
)

// Point3 is a position on the bent band, mm: Z along the band's axis, the front at
// (0, B, 0). See the package comment.
type Point3 struct{ X, Y, Z float64 }

// Bend returns where the point p of the flat comes to lie on the bent band, at
// depth mm from the inner face (0) towards the outer one (Thickness).
//
// It is exact up to rounding (better than 1e-9 mm) for any x: past the ends of
// a blank the course of the band is simply followed further round. The faces are
// parallel, so every depth has the same position along the band.
func (f Flat) Bend(p plane.Point, depth float64) Point3 {
	if f.cone != nil {
		x, v := f.cone.where(p)
		return f.cone.bend(x, v, depth-f.Neutral)
	}
	q, n, _ := f.course().station(p.X)
	z := p.Y
	if f.dome != nil {
		t, _ := f.dome.raise(p.Y)
		depth, z = f.dome.bend(t, depth-f.Neutral)
		depth += f.Neutral
	}
	return Point3{q.X + depth*n.X, q.Y + depth*n.Y, z}
}

// Unbend is the inverse of [Flat.Bend]: the point of the flat and the depth of
// the position q. x lies within half a turn either way; in the gap of a cuff it is
// past the blank's end. Places deeper inside the band than its least inner
// radius have no single answer; what is returned for them is finite.
func (f Flat) Unbend(q Point3) (p plane.Point, depth float64) {
	if f.cone != nil {
		x, v, h := f.cone.unbend(q)
		return f.cone.place(x, v), h + f.Neutral
	}
	at := plane.Point{X: q.X, Y: q.Y}
	x := f.course().foot(at)
	foot, n, _ := f.course().station(x)
	depth = at.Sub(foot).Dot(n)
	if f.dome != nil {
		t, h := f.dome.unbend(depth-f.Neutral, q.Z)
		v, _ := f.dome.flatten(t)
		return plane.Point{X: x, Y: v}, h + f.Neutral
	}
	return plane.Point{X: x, Y: q.Z}, depth
}

// Station returns the cross-section of the bent band at x along its middle line:
// the point of the inner face there, the unit normal pointing out of the band,
// and the curvature of the inner face, 1/mm, all seen along the band's axis.
func (f Flat) Station(x float64) (inner, normal plane.Point, curvature float64) {
	return f.course().station(x)
}

// LeastRadius returns the smallest inner radius, mm, that the sheet is bent to.
func (f Flat) LeastRadius() float64 {
	r := f.course().leastRadius()
	if f.cone != nil {
		// A cone is bent round its normal: r/cos at the narrow edge.
		bottom, top := f.edge.widest()
		r = (r + math.Min(bottom*f.cone.sin, top*f.cone.sin)) / f.cone.cos
	}
	if d := f.dome; d != nil {
		inner := d.r - f.Neutral
		if d.r < 0 {
			inner = -d.r - (f.Thickness - f.Neutral)
		}
		r = math.Min(r, inner)
	}
	return r
}

// Place returns the point of the flat at the length x along the band's middle
// line and the distance v across from it, both on the blank. For all bands but
// flared ones that is (x, v) itself; on a flared one the middle line is an arc
// and v runs towards or away from its centre.
func (f Flat) Place(x, v float64) plane.Point {
	if f.cone != nil {
		return f.cone.place(x, v)
	}
	return plane.Pt(x, v)
}

// PlaceWay returns the point of [Flat.Place] and the way on the flat of one that
// goes by dx along the middle line and dv across it there.
func (f Flat) PlaceWay(x, v, dx, dv float64) (p, way plane.Point) {
	if f.cone == nil {
		return plane.Pt(x, v), plane.Pt(dx, dv)
	}
	return f.cone.placeWay(x, v, dx, dv)
}

// Placeable returns the lengths x and distances v that [Flat.Place] takes to positions
// of their own: the blank, and on a flared band half of the room there is past its
// ends and its narrow edge. What is placed from beyond that comes round the apex, or
// through it, and may come to lie on the blank again. On any other band all x and v
// have their own positions.
func (f Flat) Placeable() plane.Box {
	inf := math.Inf(1)
	all := plane.Box{Min: plane.Pt(-inf, -inf), Max: plane.Pt(inf, inf)}
	if f.cone == nil {
		return all
	}
	x := (f.Length/2 + math.Pi*math.Abs(f.cone.apex)) / 2
	all.Min.X, all.Max.X = -x, x
	bottom, top := f.Extent()
	if f.cone.apex > 0 {
		all.Min.Y = (bottom - f.cone.apex) / 2
	} else {
		all.Max.Y = (top - f.cone.apex) / 2
	}
	return all
}

// Carried returns where p comes to lie when it is carried along and across the band.
// On a flared one it goes no farther than there are places for it, and over the joint
// of a closed one it comes in again at the other end.
func (f Flat) Carried(p plane.Point, along, across float64) plane.Point {
	x, v := f.Where(p)
	x, v = x+along, v+across
	if f.cone != nil && f.JointStrip > 0 {
		x -= f.Length * math.Round(x/f.Length)
	}
	q := f.Placeable().Nearest(plane.Pt(x, v))
	return f.Place(q.X, q.Y)
}

// Where is the inverse of [Flat.Place].
func (f Flat) Where(p plane.Point) (x, v float64) {
	if f.cone != nil {
		return f.cone.where(p)
	}
	return p.X, p.Y
}

// along returns the direction on the flat of a line that runs by slope (dv/dx)
// against the middle line at x, v.
func (f Flat) along(x, v, slope float64) plane.Point {
	_, way := f.PlaceWay(x, v, 1, slope)
	return way
}

// Along returns the direction, not of unit length, in which the image under
// [Flat.Place] of a line through (x, v) with the slope dv/dx leaves.
func (f Flat) Along(x, v, slope float64) plane.Point { return f.along(x, v, slope) }

// EdgesAt returns the two edges of the blank at x, mm from the middle line (v of
// [Flat.Place]), before its ends are shaped. Past the ends of a closed band it
// goes on round; past those of a cuff it stays as it is at the end.
func (f Flat) EdgesAt(x float64) (bottom, top float64) {
	bottom, top, _, _ = f.EdgeSlopes(x)
	return bottom, top
}

// EdgeSlopes returns the two edges as [Flat.EdgesAt] does, and their slopes.
func (f Flat) EdgeSlopes(x float64) (bottom, top, bottomSlope, topSlope float64) {
	if f.edge == nil {
		return -f.Width / 2, f.Width / 2, 0, 0
	}
	return f.edge.at(x)
}

// Stretch returns how many times longer a short line of the blank at p is on the
// bent band at the given depth: one lying along the band and one lying across
// it. Their product is how much larger an area becomes.
//
// At the depth Neutral both are 1 for every band but a domed one, whose section
// is curved two ways: there they say what the flattening costs, with the true
// curvature of the band at that position.
func (f Flat) Stretch(p plane.Point, depth float64) (along, across float64) {
	h := depth - f.Neutral
	if f.cone != nil {
		_, v := f.cone.where(p)
		return 1 + h*f.cone.cos/(f.cone.r+v*f.cone.sin), 1
	}
	_, _, k := f.course().station(p.X)
	k /= 1 + k*f.Neutral // of the middle line on the drawn surface
	if f.dome == nil {
		return 1 + k*h, 1
	}
	t, slope := f.dome.raise(p.Y)
	out, _ := f.dome.bend(t, h)
	return 1 + k*out, (1 + h/f.dome.r) / slope
}

// Flared reports whether the band is a part of a cone, and Domed whether its
// section is an arc across the width.
func (f Flat) Flared() bool { return f.cone != nil }

// Domed reports whether the band's section is an arc across its width.
func (f Flat) Domed() bool { return f.dome != nil }

// Mirrored reports whether the blank is the same left and right, and the same
// above and below, of its middle (a flared one is never the same above and
// below).
func (f Flat) Mirrored() (leftRight, aboveBelow bool) {
	if f.edge == nil {
		return true, f.cone == nil
	}
	leftRight, aboveBelow = f.edge.likeThemselves()
	return leftRight, aboveBelow && f.cone == nil
}

// course returns the way round, made anew for a Flat not from [Unroll].
func (f *Flat) course() course {
	if f.way != nil {
		return f.way
	}
	return newNeutralLine(f.Oval, f.Neutral)
}

// Extent returns how far the edges of the blank lie below and above the middle
// line at most, mm across the band.
func (f Flat) Extent() (bottom, top float64) {
	if f.edge == nil {
		return -f.Width / 2, f.Width / 2
	}
	return f.edge.widest()
}

// Level reports whether the edges keep their distance from the middle line all
// along.
func (f Flat) Level() bool { return f.edge == nil || f.edge.constant() }

// Breaks returns the positions along the blank, within its ends and in order, where
// the band's curvature jumps: where a straight run begins or ends, or an arc of
// another radius.
func (f Flat) Breaks() []float64 {
	var xs []float64
	around := f.course().around()
	for _, x := range f.course().breaks() {
		if x = math.Remainder(x, around); math.Abs(x) < f.Length/2 {
			xs = append(xs, x)
		}
	}
	sort.Float64s(xs)
	return xs
}

// Apex returns the middle of the arcs that the blank of a flared band follows,
// (0, y) on the flat; y is 0 for any other band.
func (f Flat) Apex() float64 {
	if f.cone == nil {
		return 0
	}
	return -f.cone.apex
}
