package view3d

import (
	"math"

	"fretband/unroll"
)

// Camera is where the band is seen from.
type Camera struct {
	// Yaw turns the band about its axis, which stands upright; Pitch leans it
	// towards the eye. Radians. At 0, 0 one looks at the front of the band.
	Yaw, Pitch float64
	// Zoom is 1 where the ball round the band just fills the picture.
	Zoom float64
	// PanX and PanY move the band right and up, mm.
	PanX, PanY float64
	// Lens is the eye's distance in radii of the band; 0 is a parallel view,
	// true to scale.
	Lens float64
}

// Limits of the camera.
const (
	minZoom, maxZoom = 0.2, 60
	defaultLens      = 6.5 // about as a portrait lens sees it
	// turnPerPixel is half a turn for 350 pixels.
	turnPerPixel = math.Pi / 350
)

// Standard is a named place to look from.
type Standard struct {
	Name string
	Camera
}

// Views returns the standard views, in the order in which a person reads them.
// Those along an axis are parallel, so that they can be measured. Left and right
// are as one sees them from the front.
func Views() []Standard {
	return []Standard{
		{"Three-quarter", Camera{Yaw: 0.62, Pitch: 0.46, Zoom: 1, Lens: defaultLens}},
		{"Front", Camera{Zoom: 1}},
		{"Back", Camera{Yaw: math.Pi, Zoom: 1}},
		{"Left", Camera{Yaw: math.Pi / 2, Zoom: 1}},
		{"Right", Camera{Yaw: -math.Pi / 2, Zoom: 1}},
		{"Above", Camera{Pitch: math.Pi / 2, Zoom: 1}},
		{"Below", Camera{Pitch: -math.Pi / 2, Zoom: 1}},
	}
}

// Orbit turns the band by a drag of dx, dy pixels.
func (c Camera) Orbit(dx, dy float64) Camera {
	c.Yaw = math.Remainder(c.Yaw+dx*turnPerPixel, 2*math.Pi)
	c.Pitch = math.Max(-math.Pi/2, math.Min(math.Pi/2, c.Pitch+dy*turnPerPixel))
	return c
}

// Shift moves the band by a drag of dx, dy pixels in a picture of w x h.
func (s *Scene) Shift(c Camera, dx, dy float64, w, h int) Camera {
	k := s.perMM(c, w, h)
	c.PanX += dx / k
	c.PanY -= dy / k
	return c
}

// Near brings the band nearer by the factor f; the position at pixel x, y stays.
func (s *Scene) Near(c Camera, f, x, y float64, w, h int) Camera {
	before := s.perMM(c, w, h)
	c.Zoom = math.Max(minZoom, math.Min(maxZoom, c.Zoom*f))
	after := s.perMM(c, w, h)
	c.PanX += (x - float64(w)/2) * (1/after - 1/before)
	c.PanY -= (y - float64(h)/2) * (1/after - 1/before)
	return c
}

// margin is the share of the picture that [Scene.Fit] fills.
const margin = 0.86

// Fit returns the camera moved and zoomed so that the band, as it is turned,
// fills a picture of w x h.
func (s *Scene) Fit(c Camera, w, h int) Camera {
	c.Zoom, c.PanX, c.PanY = 1, 0, 0
	if w < 1 || h < 1 || len(s.at) == 0 {
		return c
	}
	for range 2 { // the second time from nearly the right place
		e := s.eye(c, float64(w), float64(h))
		x0, y0 := float32(math.Inf(1)), float32(math.Inf(1))
		x1, y1 := -x0, -y0
		for of := s; of != nil; of = of.rest {
			for _, p := range of.at {
				x, y, _ := e.place(p)
				x0, x1, y0, y1 = min(x0, x), max(x1, x), min(y0, y), max(y1, y)
			}
		}
		k := s.perMM(c, w, h)
		c.PanX -= float64((x0+x1)/2-float32(w)/2) / k
		c.PanY += float64((y0+y1)/2-float32(h)/2) / k
		c.Zoom *= margin * math.Min(float64(w)/float64(x1-x0), float64(h)/float64(y1-y0))
		c.Zoom = math.Max(minZoom, math.Min(maxZoom, c.Zoom))
	}
	return c
}

// AsLarge returns the camera zoomed so that a millimetre of the band takes as many pixels as
// it did in the picture of another scene.
func (s *Scene) AsLarge(c Camera, as *Scene) Camera {
	c.Zoom = math.Max(minZoom, math.Min(maxZoom, c.Zoom*float64(s.radius/as.radius)))
	return c
}

// perMM returns how many pixels a millimetre takes in the plane through the
// band's middle that faces the eye.
func (s *Scene) perMM(c Camera, w, h int) float64 {
	return c.Zoom * 0.5 * math.Max(1, math.Min(float64(w), float64(h))) / float64(s.radius)
}

// eye is a camera worked out for one picture.
type eye struct {
	right, up, toEye vec
	middle           vec
	k, ox, oy        float32
	far              float32 // distance of the eye; 0 for a parallel view
	radius           float32
}

func (s *Scene) eye(c Camera, w, h float64) eye {
	sy, cy := math.Sincos(c.Yaw)
	sp, cp := math.Sincos(c.Pitch)
	k := c.Zoom * 0.5 * math.Max(1, math.Min(w, h)) / float64(s.radius)
	e := eye{
		right:  vec{float32(-cy), float32(sy), 0},
		up:     vec{float32(-sy * sp), float32(-cy * sp), float32(cp)},
		toEye:  vec{float32(sy * cp), float32(cy * cp), float32(sp)},
		middle: s.middle, radius: s.radius,
		k: float32(k), ox: float32(w/2 + k*c.PanX), oy: float32(h/2 - k*c.PanY),
	}
	if c.Lens > 0 {
		e.far = float32(math.Max(c.Lens, 1.5)) * s.radius
	}
	return e
}

func dot(a, b vec) float32 { return a.x*b.x + a.y*b.y + a.z*b.z }

// turn returns a direction in the picture's space.
func (e *eye) turn(d vec) vec { return vec{dot(e.right, d), dot(e.up, d), dot(e.toEye, d)} }

// place returns the pixel of a position and its nearness, which is larger the
// nearer it is, and a plane's is a linear function of the pixel.
func (e *eye) place(p vec) (x, y, near float32) {
	d := vec{p.x - e.middle.x, p.y - e.middle.y, p.z - e.middle.z}
	u, v, z := dot(e.right, d), dot(e.up, d), dot(e.toEye, d)
	if e.far == 0 {
		return e.ox + e.k*u, e.oy - e.k*v, 2 + z/e.radius
	}
	f := e.far / max(e.far-z, e.far*1e-3)
	return e.ox + e.k*u*f, e.oy - e.k*v*f, f
}

// Project returns the pixel at which the position p of the bent band appears in a
// picture of w x h.
func (s *Scene) Project(c Camera, p unroll.Point3, w, h int) (x, y float64) {
	e := s.eye(c, float64(w), float64(h))
	a, b, _ := e.place(vecOf(p))
	return float64(a), float64(b)
}
