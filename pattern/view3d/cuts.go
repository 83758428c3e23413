package view3d

import (
	"math"

	"fretband/unroll"
)

// Section is a way of cutting the band open, by a plane that can be moved along its
// normal.
type Section struct {
	Name   string
	Normal unroll.Point3 // of length 1
	View   string        // name of the standard view that looks at it squarely
}

// Sections returns the ways of cutting the band open.
func Sections() []Section {
	return []Section{
		{"Through front and back", unroll.Point3{X: 1}, "Left"},
		{"Through both sides", unroll.Point3{Y: 1}, "Front"},
		{"All round", unroll.Point3{Z: 1}, "Above"},
	}
}

// Seen reports whether the cut can be looked into from there: it is not seen
// nearly along its plane.
func (c Section) Seen(eye Camera) bool { return math.Abs(float64(c.towards(eye))) > 0.2 }

func (c Section) towards(eye Camera) float32 {
	e := (&Scene{radius: 1}).eye(eye, 1, 1)
	return dot(e.toEye, vecOf(c.Normal))
}

// Plane returns the plane of the cut at the offset, mm, that takes away what lies
// towards the eye.
func (c Section) Plane(at float64, eye Camera) *Plane {
	if c.towards(eye) < 0 {
		n := c.Normal
		return &Plane{Normal: unroll.Point3{X: -n.X, Y: -n.Y, Z: -n.Z}, Offset: -at}
	}
	return &Plane{Normal: c.Normal, Offset: at}
}

// Extent returns how far the band reaches along a direction, mm.
func (s *Scene) Extent(n unroll.Point3) (lo, hi float64) {
	d := vecOf(n)
	a, b := float32(math.Inf(1)), float32(math.Inf(-1))
	for _, p := range s.at {
		v := dot(d, p)
		a, b = min(a, v), max(b, v)
	}
	return float64(a), float64(b)
}
