package strength

import (
	"math"

	"fretband/unroll"
	"fretband/unroll/delaunay"
	"fretband/unroll/plane"
)

// grid is the plane that is triangulated, in whole numbers. It is the blank itself but
// for a flared band: there the length along the middle line runs on along x, and y keeps
// angles as they are on the blank. (Without that the two ends of a closed one would have
// to be turned onto each other; with it they meet by moving along, as all others do.)
type grid struct {
	flat   unroll.Flat
	closed bool
	apex   float64     // distance of the middle line from the apex, as in unroll; 0 if not flared
	unit   float64     // mm
	origin plane.Point // mm
	w, h   int64       // what the blank takes with a margin about it; w only if open
}

// turnBits is the number of bits of one time round a closed band: about a millionth of
// a mm. Bands that are wider than long then still have room.
const turnBits = 29

// columns is how many points along each edge a closed strip begins with.
const columns = 16

func (m Metal) gridOf() (*grid, error) {
	g := &grid{flat: m.Flat, closed: m.Flat.Closed(), apex: -m.Flat.Apex()}
	box := plane.EmptyBox()
	for i := range m.Flat.Outline {
		e := m.Flat.Outline.Edge(i)
		if g.apex == 0 {
			box = box.Union(e.Bounds())
			continue
		}
		for k := range 16 {
			box = box.Add(g.even(e.At(float64(k) / 16)))
		}
	}
	if box.Empty() || !(box.W() > 0 && box.H() > 0 && box.Min.Finite() && box.Max.Finite()) {
		return nil, &MetalError{Why: ErrNothing}
	}
	// What is between the places asked for is far less than the margin away.
	margin := 0.05 * math.Max(box.W(), box.H())
	g.origin = box.Min.Sub(plane.Pt(margin, margin))
	g.unit = (math.Max(box.W(), box.H()) + 2*margin) / (1 << turnBits)
	if g.closed {
		g.origin.X = -m.Flat.Length / 2
		g.unit = m.Flat.Length / (1 << turnBits)
	}
	g.w = int64(math.Ceil((box.W() + 2*margin) / g.unit))
	g.h = int64(math.Ceil((box.H() + 2*margin) / g.unit))
	return g, nil
}

// even is where a point of the blank stands on the grid's plane, mm.
func (g *grid) even(p plane.Point) plane.Point {
	if g.apex == 0 {
		return p
	}
	x, v := g.flat.Where(p)
	return plane.Pt(x, g.apex*math.Log1p(v/g.apex))
}

// on returns the place of the grid for a point of the blank, or of one past its ends.
func (g *grid) on(p plane.Point) delaunay.Point {
	q := g.even(p).Sub(g.origin)
	x, y := int64(math.Round(q.X/g.unit)), int64(math.Round(q.Y/g.unit))
	if g.closed {
		x &= 1<<turnBits - 1
	}
	return delaunay.Point{X: x, Y: y}
}

// off is the inverse of on: the point of the blank; at its left end for the joint.
func (g *grid) off(q delaunay.Point) plane.Point {
	p := plane.Pt(float64(q.X)*g.unit, float64(q.Y)*g.unit).Add(g.origin)
	if g.apex == 0 {
		return p
	}
	return g.flat.Place(p.X, g.apex*math.Expm1(p.Y/g.apex))
}

// mm is the length on the blank of a unit of the grid at q.
func (g *grid) mm(q delaunay.Point) float64 {
	if g.apex == 0 {
		return g.unit
	}
	return g.unit * math.Exp((float64(q.Y)*g.unit+g.origin.Y)/g.apex)
}

// way returns the way from one place to another, in units, the short way round.
func (g *grid) way(a, b delaunay.Point) plane.Point {
	x := b.X - a.X
	if g.closed {
		x = x << (64 - turnBits) >> (64 - turnBits)
	}
	return plane.Pt(float64(x), float64(b.Y-a.Y))
}
