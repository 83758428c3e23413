// Package pen draws an outline of lines and arcs by its points, and changes one that is
// drawn: what a hand does with it. It knows nothing of bands; what comes out is a closed loop
// that can be cut, or the reason why it can't.
package pen

import (
	"errors"
	"math"
	"slices"

	"fretband/pattern/own"
	"fretband/unroll/plane"
)

// flat is how far an arc must bulge out of its chord, as a share of it, to be an arc: less
// is a line that a hand meant to be straight. Ours.
const flat = 0.02

// mostBulge keeps an arc short of a full circle, whose ends would be one point.
const mostBulge = 12

// Through returns the bulge of the arc from a to b that runs through p, 0 for a straight
// line: if p lies on it or nearly so, or not between the ends.
func Through(a, b, p plane.Point) float64 {
	u, v := p.Sub(a), b.Sub(p)
	// The angle between the two chords is half of what the arc turns by.
	turn := math.Atan2(u.Cross(v), u.Dot(v))
	bulge := math.Tan(turn / 2)
	chord := a.Dist(b)
	switch off := math.Abs(bulge) * chord / 2; {
	case chord < plane.Snap || u.Len() < plane.Snap || v.Len() < plane.Snap:
		return 0
	case off < flat*chord:
		return 0
	}
	return math.Max(-mostBulge, math.Min(bulge, mostBulge))
}

// Drawing is an outline while it is drawn: points, each with the bulge of the edge that
// leaves it. That of an open one's last point does not count.
type Drawing struct {
	Line   plane.Loop
	Closed bool
}

// Edges returns its lines and arcs in order.
func (d Drawing) Edges() plane.Chain {
	var es plane.Chain
	for i := range d.Line {
		if i < len(d.Line)-1 || d.Closed {
			es = append(es, d.Line.Edge(i))
		}
	}
	return es
}

// Add draws a line on to a point.
func (d Drawing) Add(p plane.Point) Drawing {
	d.Line = append(slices.Clone(d.Line), plane.Vertex{Point: p})
	return d
}

// Back takes the last point away, or opens what was closed.
func (d Drawing) Back() Drawing {
	if d.Closed || len(d.Line) == 0 {
		d.Closed = false
		return d
	}
	d.Line = slices.Clone(d.Line[:len(d.Line)-1])
	if n := len(d.Line); n > 0 {
		d.Line[n-1].Bulge = 0
	}
	return d
}

// Bend has edge i run through a point, as an arc or straight.
func (d Drawing) Bend(i int, p plane.Point) Drawing {
	d.Line = slices.Clone(d.Line)
	e := d.Line.Edge(i)
	d.Line[i].Bulge = Through(e.A, e.B, p)
	return d
}

// Move puts point i elsewhere; the arcs at it keep how far they turn.
func (d Drawing) Move(i int, to plane.Point) Drawing {
	d.Line = slices.Clone(d.Line)
	d.Line[i].Point = to
	return d
}

// Insert puts a new point on edge i, where it is nearest to p, and returns its index. The
// outline stays what it was.
func (d Drawing) Insert(i int, p plane.Point) (Drawing, int) {
	e := d.Line.Edge(i)
	t, q := e.Nearest(p)
	if t <= 0 || t >= 1 {
		t, q = 0.5, e.Mid()
	}
	d.Line = slices.Insert(slices.Clone(d.Line), i+1, plane.Vertex{Point: q, Bulge: e.Part(t, 1).Bulge})
	d.Line[i].Bulge = e.Part(0, t).Bulge
	return d, i + 1
}

// Remove takes point i away, if a closed outline keeps two at least: a circle has no fewer.
func (d Drawing) Remove(i int) Drawing {
	if len(d.Line) <= 2 {
		return d
	}
	d.Line = slices.Delete(slices.Clone(d.Line), i, i+1)
	if j := i - 1; j >= 0 {
		d.Line[j].Bulge = 0
	} else if d.Closed {
		d.Line[len(d.Line)-1].Bulge = 0
	}
	return d
}

// Close closes the outline by a line from its last point to its first.
func (d Drawing) Close() Drawing {
	d.Closed = true
	return d
}

// Loop returns the closed outline, run counter-clockwise, or says why it can't be cut.
func (d Drawing) Loop() (plane.Loop, error) {
	l := make(plane.Loop, 0, len(d.Line))
	for i, v := range d.Line { // two clicks at one position are one point
		if next := d.Line[(i+1)%len(d.Line)]; v.Dist(next.Point) > plane.Snap {
			l = append(l, v)
		}
	}
	if len(l) < 2 || len(l) == 2 && l[0].Bulge == 0 && l[1].Bulge == 0 {
		return nil, errors.New("an opening has three points at least, or an arc")
	}
	if err := own.Check(l); err != nil {
		return nil, err
	}
	return l.CCW(), nil
}

// Of returns the drawing of a loop.
func Of(l plane.Loop) Drawing { return Drawing{slices.Clone(l), true} }
