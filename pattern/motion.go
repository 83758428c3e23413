package pattern

import (
	"math"

	"fretband/unroll"
	"fretband/unroll/plane"
)

// motion carries things along the blank without changing their shape: on a flared
// one it turns them about the apex, on all others it moves them along.
type motion struct {
	rotation float64
	by       plane.Point
}

// onward returns the motion that carries what lies at x along the band to x + dx,
// at the same distance from the middle line.
func onward(f unroll.Flat, dx float64) motion {
	d := f.Along(dx, 0, 0)
	return motion{math.Atan2(d.Y, d.X), f.Place(dx, 0)}
}

func (m motion) loop(l plane.Loop) plane.Loop {
	if m.rotation != 0 {
		l = l.Turn(m.rotation)
	}
	return l.Move(m.by)
}

func (m motion) edge(e plane.Edge) plane.Edge {
	return plane.Edge{A: m.point(e.A), B: m.point(e.B), Bulge: e.Bulge}
}

func (m motion) point(p plane.Point) plane.Point {
	if m.rotation != 0 {
		p = p.Turn(m.rotation)
	}
	return p.Add(m.by)
}

// box returns a box round what lies in b once it is carried there.
func (m motion) box(b plane.Box) plane.Box {
	if m.rotation == 0 {
		return b.Move(m.by)
	}
	return m.loop(plane.Rect(b)).Bounds()
}

// back is the motion that undoes m.
func (m motion) back() motion {
	return motion{-m.rotation, m.by.Mul(-1).Turn(-m.rotation)}
}
