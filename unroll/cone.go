package unroll

import (
	"fmt"
	"math"

	"fretband/unroll/plane"
)

// cone is what makes a band flared: a part of a circular cone. Unrolled it is a
// sector of a ring: with edge radii r1 < r2 and the slant L between them the
// sector's radii are r1 L/(r2-r1) and that plus L, its angle 2 pi (r2-r1)/L for
// the whole way round (any handbook's frustum of a cone).
//
// All radii are those of the surface that keeps its length.
type cone struct {
	half     float64 // half-angle, radians; positive if the top is wider
	sin, cos float64
	r        float64 // radius at the middle of the width
	apex     float64 // distance on the flat from the middle line to the apex, r/sin: negative if the apex lies above
}

func newCone(half, r float64) *cone {
	s, c := math.Sincos(half)
	return &cone{half: half, sin: s, cos: c, r: r, apex: r / s}
}

// place returns the point of the flat at the length x along the middle line and
// the slant distance v from it.
func (c *cone) place(x, v float64) plane.Point {
	p, _ := c.placeWay(x, v, 0, 0)
	return p
}

// placeWay returns also the way on the flat of a position that goes by dx and dv.
func (c *cone) placeWay(x, v, dx, dv float64) (p, way plane.Point) {
	s, co := math.Sincos(x / c.apex)
	// (apex + v) cos - apex, without the loss of digits of a far apex: 1 - cos is
	// sin^2/(1 + cos).
	less := 1 - co
	if co > 0 {
		less = s * s / (1 + co)
	}
	k := (1 + v/c.apex) * dx
	return plane.Pt((c.apex+v)*s, v*co-c.apex*less), plane.Pt(k*co+dv*s, dv*co-k*s)
}

// where is the inverse of place.
func (c *cone) where(p plane.Point) (x, v float64) {
	k := math.Copysign(1, c.apex)
	y := p.Y + c.apex
	d := k * math.Hypot(p.X, y) // signed distance from the apex
	// d - apex, without the loss of digits.
	v = (p.X*p.X + p.Y*(p.Y+2*c.apex)) / (d + c.apex)
	return math.Atan2(k*p.X, k*y) * c.apex, v
}

// bend returns the position on the band at the height q over the drawn surface.
func (c *cone) bend(x, v, q float64) Point3 {
	s, co := math.Sincos(x / c.r)
	r := c.r + v*c.sin + q*c.cos
	return Point3{-r * s, r * co, v*c.cos - q*c.sin}
}

func (c *cone) unbend(p Point3) (x, v, q float64) {
	dr := math.Hypot(p.X, p.Y) - c.r
	return math.Atan2(-p.X, p.Y) * c.r, dr*c.sin + p.Z*c.cos, dr*c.cos - p.Z*c.sin
}

// coneOf makes the cone of the band, if it is flared.
func (m *measures) coneOf() (*cone, error) {
	b := m.band
	half, path := b.FlareDeg*math.Pi/180, "band.flare_deg"
	if m.flare != 0 {
		half, path = m.flare, "band.inside.top_circumference_mm"
	}
	if half == 0 {
		return nil, nil
	}
	if !(math.Abs(half) >= 1e-4 && math.Abs(half) <= MaxFlare*math.Pi/180+1e-12) {
		return nil, &FieldError{path, fmt.Sprintf("the band's half-angle must be from 0.01 to %v degrees either way (0 for a band that is not flared); it is %s", MaxFlare, short(half*180/math.Pi))}
	}
	if m.bows != nil || m.oval.A != m.oval.B {
		return nil, &FieldError{path, fmt.Sprintf("a flared band must be round inside; this one is %s x %s mm (give the inside by circumference and ratio 1, or by equal axes)", short(2*m.oval.A), short(2*m.oval.B))}
	}
	if b.Dome != "" {
		return nil, &FieldError{"band.dome", "a band is either flared or domed here; remove dome, or set the flare to 0"}
	}
	if b.Kind != Cuff && b.Joint == Seamless {
		return nil, &FieldError{"band.joint", "must be \"soldered\" for a flared band: on the flat its ends meet by turning about the apex, so openings are not run over them"}
	}
	return newCone(half, m.oval.A+m.depth()*math.Cos(half)), nil
}

// checkCone reports a cone whose narrow edge would be too tight.
func (m *measures) checkCone(c *cone, bottom, top float64) error {
	inner := math.Min(bottom*c.sin, top*c.sin) + m.oval.A
	if inner < MinInside/2 {
		return &FieldError{"band.flare_deg", fmt.Sprintf("leaves an inner radius of %.2f mm at the narrow edge; at least %v mm is needed: flare less, or make the band narrower", inner, MinInside/2.0)}
	}
	return nil
}
