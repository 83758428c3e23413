package paint

import (
	"image"
	"image/color"
	"math"
)

// Mask is how much of each cell of a sheet is metal, 0 to 255, row by row.
type Mask struct {
	W, H int
	Pix  []uint8
}

// MaskOf turns what the fill holds into a mask and empties the fill.
func MaskOf(f *Fill) *Mask {
	m := &Mask{W: f.w, H: f.h, Pix: make([]uint8, f.w*f.h)}
	f.Each(func(x, y int, a float32) { m.Pix[y*m.W+x] = uint8(a*255 + 0.5) })
	return m
}

// at returns the metal at (u, v), in cells, between the four middles round it;
// over the edge of the sheet it is that of the edge.
func (m *Mask) at(u, v float32) float32 {
	u -= 0.5
	v -= 0.5
	fu, fv := float32(math.Floor(float64(u))), float32(math.Floor(float64(v)))
	x0, y0 := int(fu), int(fv)
	u -= fu
	v -= fv
	x1, y1 := x0+1, y0+1
	x0, x1 = max(0, min(m.W-1, x0)), max(0, min(m.W-1, x1))
	y0, y1 = max(0, min(m.H-1, y0)), max(0, min(m.H-1, y1))
	a, b := float32(m.Pix[y0*m.W+x0]), float32(m.Pix[y0*m.W+x1])
	c, d := float32(m.Pix[y1*m.W+x0]), float32(m.Pix[y1*m.W+x1])
	return (a*(1-u)+b*u)*(1-v) + (c*(1-u)+d*u)*v
}

// Corner is a corner of a triangle: its place on the picture (Z larger is
// nearer), its place on the mask, and its brightness, 1 being the tone itself.
type Corner struct{ X, Y, Z, U, V, Light float32 }

// Ramp is a tone from black over itself (brightness 1) to white (2).
type Ramp [513][3]uint8

// NewRamp returns the ramp of a tone. The highlight is rolled off, not clipped.
func NewRamp(c color.NRGBA) *Ramp {
	var r Ramp
	for i := range r {
		l := float64(i) / 256
		k := [3]float64{float64(c.R), float64(c.G), float64(c.B)}
		for j := range k {
			v := k[j] * math.Pow(math.Min(l, 1), 1.15)
			if l > 1 {
				v += (255 - v) * (1 - math.Exp(-1.6*(l-1)))
			}
			r[i][j] = uint8(math.Max(0, math.Min(255, v)) + 0.5)
		}
	}
	return &r
}

// Solid is a picture of triangles with a depth to each pixel. It is drawn at
// twice the size and halved, for clean edges.
type Solid struct {
	w, h int // doubled
	pix  []uint8
	z    []float32
}

// Reset starts a picture of w x h pixels on a ground.
func (s *Solid) Reset(w, h int, ground color.NRGBA) {
	s.w, s.h = 2*w, 2*h
	n := s.w * s.h
	if cap(s.z) < n {
		s.z, s.pix = make([]float32, n), make([]uint8, 4*n)
	}
	s.z, s.pix = s.z[:n], s.pix[:4*n]
	for i := range s.z {
		s.z[i] = float32(math.Inf(-1))
	}
	for i := 0; i < len(s.pix); i += 4 {
		s.pix[i], s.pix[i+1], s.pix[i+2], s.pix[i+3] = ground.R, ground.G, ground.B, 255
	}
}

// Triangle draws a triangle from either side. With a mask only what is metal is
// drawn, and what is not leaves the depth alone: one can see through.
func (s *Solid) Triangle(a, b, c Corner, tone *Ramp, mask *Mask) {
	for _, p := range [3]*Corner{&a, &b, &c} {
		p.X *= 2
		p.Y *= 2
	}
	if a.Y > b.Y {
		a, b = b, a
	}
	if b.Y > c.Y {
		b, c = c, b
	}
	if a.Y > b.Y {
		a, b = b, a
	}
	det := (b.X-a.X)*(c.Y-a.Y) - (c.X-a.X)*(b.Y-a.Y)
	if det == 0 || det != det {
		return
	}
	// Every attribute is a plane over the picture.
	grad := func(fa, fb, fc float32) (dx, dy float32) {
		dx = ((fb-fa)*(c.Y-a.Y) - (fc-fa)*(b.Y-a.Y)) / det
		dy = ((fc-fa)*(b.X-a.X) - (fb-fa)*(c.X-a.X)) / det
		return
	}
	zx, zy := grad(a.Z, b.Z, c.Z)
	lx, ly := grad(a.Light, b.Light, c.Light)
	ux, uy := grad(a.U, b.U, c.U)
	vx, vy := grad(a.V, b.V, c.V)
	y0 := max(0, int(math.Ceil(float64(a.Y-0.5))))
	y1 := min(s.h-1, int(math.Ceil(float64(c.Y-0.5)))-1)
	for y := y0; y <= y1; y++ {
		yc := float32(y) + 0.5
		xa := a.X + (c.X-a.X)*(yc-a.Y)/(c.Y-a.Y)
		var xb float32
		if yc < b.Y {
			xb = a.X + (b.X-a.X)*(yc-a.Y)/(b.Y-a.Y)
		} else if c.Y > b.Y {
			xb = b.X + (c.X-b.X)*(yc-b.Y)/(c.Y-b.Y)
		} else {
			xb = b.X
		}
		if xa > xb {
			xa, xb = xb, xa
		}
		x0 := max(0, int(math.Ceil(float64(xa-0.5))))
		x1 := min(s.w-1, int(math.Ceil(float64(xb-0.5)))-1)
		ox, oy := float32(x0)+0.5-a.X, yc-a.Y
		z := a.Z + zx*ox + zy*oy
		l := a.Light + lx*ox + ly*oy
		u := a.U + ux*ox + uy*oy
		v := a.V + vx*ox + vy*oy
		i := y*s.w + x0
		for x := x0; x <= x1; x++ {
			if z > s.z[i] && (mask == nil || mask.at(u, v) >= 127.5) {
				s.z[i] = z
				t := &tone[max(0, min(512, int(l*256)))]
				p := s.pix[4*i : 4*i+3 : 4*i+3]
				p[0], p[1], p[2] = t[0], t[1], t[2]
			}
			z += zx
			l += lx
			u += ux
			v += vx
			i++
		}
	}
}

// Halve writes the picture at its real size into dst.
func (s *Solid) Halve(dst *image.RGBA) {
	for y := range s.h / 2 {
		r0 := s.pix[8*y*s.w : 8*y*s.w+4*s.w]
		r1 := s.pix[8*y*s.w+4*s.w : 8*y*s.w+8*s.w]
		out := dst.Pix[y*dst.Stride : y*dst.Stride+2*s.w]
		for x := range s.w / 2 {
			for k := range 3 {
				i := 8*x + k
				out[4*x+k] = uint8((uint32(r0[i]) + uint32(r0[i+4]) + uint32(r1[i]) + uint32(r1[i+4]) + 2) / 4)
			}
			out[4*x+3] = 255
		}
	}
}
