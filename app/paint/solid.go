package paint

import (
	"image"
	"image/color"
	"math"
	"runtime"
	"sync"
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
	w, h   int // doubled
	ground color.NRGBA
	pix    []uint8
	z      []float32
	list   []triangle
}

type triangle struct {
	a, b, c Corner
	tone    *Ramp
	mask    *Mask
}

// Reset starts a picture of w x h pixels on a ground.
func (s *Solid) Reset(w, h int, ground color.NRGBA) {
	s.w, s.h, s.ground = 2*w, 2*h, ground
	n := s.w * s.h
	if cap(s.z) < n {
		s.z, s.pix = make([]float32, n), make([]uint8, 4*n)
	}
	s.z, s.pix = s.z[:n], s.pix[:4*n]
	s.list = s.list[:0]
}

// Triangle adds a triangle, seen from either side. With a mask only what is
// metal is drawn, and what is not leaves the depth alone: one can see through.
func (s *Solid) Triangle(a, b, c Corner, tone *Ramp, mask *Mask) {
	s.list = append(s.list, triangle{a, b, c, tone, mask})
}

// Draw draws the triangles at the picture's real size into dst, in as many
// stripes at once as there are processors. What is drawn does not depend on how
// many.
func (s *Solid) Draw(dst *image.RGBA) {
	n := max(1, min(runtime.GOMAXPROCS(0), 8))
	var wait sync.WaitGroup
	rows := s.h / 2
	for i := range n {
		y0, y1 := rows*i/n, rows*(i+1)/n
		wait.Add(1)
		go func() {
			defer wait.Done()
			s.stripe(dst, y0, y1)
		}()
	}
	wait.Wait()
}

// stripe draws rows y0 to y1 of the picture.
func (s *Solid) stripe(dst *image.RGBA, y0, y1 int) {
	lo, hi := 2*y0, 2*y1 // of the doubled picture
	z := s.z[lo*s.w : hi*s.w]
	for i := range z {
		z[i] = float32(math.Inf(-1))
	}
	g := s.ground
	pix := s.pix[4*lo*s.w : 4*hi*s.w]
	for i := 0; i < len(pix); i += 4 {
		pix[i], pix[i+1], pix[i+2], pix[i+3] = g.R, g.G, g.B, 255
	}
	for i := range s.list {
		s.triangle(s.list[i], lo, hi)
	}
	s.halve(dst, y0, y1)
}

// triangle draws the part of a triangle in rows lo to hi of the doubled picture.
func (s *Solid) triangle(t triangle, lo, hi int) {
	a, b, c, tone, mask := t.a, t.b, t.c, t.tone, t.mask
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
	y0 := max(lo, int(math.Ceil(float64(a.Y-0.5))))
	y1 := min(hi-1, int(math.Ceil(float64(c.Y-0.5)))-1)
	if y0 > y1 {
		return
	}
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

// halve writes rows y0 to y1 of the picture at its real size.
func (s *Solid) halve(dst *image.RGBA, y0, y1 int) {
	for y := y0; y < y1; y++ {
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
