package view3d

import (
	"math"

	"fretband/unroll"
)

// Cut is a way of cutting the band open, by a plane that can be moved along its
// normal.
type Cut struct {
	Name   string
	Normal unroll.Point3 // of length 1
	View   string        // name of the standard view that looks at it squarely
}

// Cuts returns the ways of cutting the band open.
func Cuts() []Cut {
	return []Cut{
		{"Through front and back", unroll.Point3{X: 1}, "Left"},
		{"Through both sides", unroll.Point3{Y: 1}, "Front"},
		{"All round", unroll.Point3{Z: 1}, "Above"},
	}
}

// Seen reports whether the cut can be looked into from there: it is not seen
// nearly along its plane.
func (c Cut) Seen(eye Camera) bool { return math.Abs(float64(c.towards(eye))) > 0.2 }

func (c Cut) towards(eye Camera) float32 {
	e := (&Scene{radius: 1}).eye(eye, 1, 1)
	return dot(e.toEye, vecOf(c.Normal))
}

// Plane returns the plane of the cut at the offset, mm, that takes away what lies
// towards the eye.
func (c Cut) Plane(at float64, eye Camera) *Plane {
	if c.towards(eye) < 0 {
		n := c.Normal
		return &Plane{Normal: unroll.Point3{X: -n.X, Y: -n.Y, Z: -n.Z}, Offset: -at}
	}
	return &Plane{Normal: c.Normal, Offset: at}
}

// Reach returns how far the band reaches along a direction, mm.
func (s *Scene) Reach(n unroll.Point3) (lo, hi float64) {
	d := vecOf(n)
	a, b := float32(math.Inf(1)), float32(math.Inf(-1))
	for _, p := range s.at {
		v := dot(d, p)
		a, b = min(a, v), max(b, v)
	}
	return float64(a), float64(b)
}
