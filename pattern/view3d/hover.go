package view3d

import (
	"image"
	"image/color"
	"math"

	"fretband/pattern/mesh"
)

// hoverOpening draws the edges of an opening on both faces where they are not
// hidden.
func (v *View) hoverOpening(number int32) {
	for i := range v.scene.tri {
		t := &v.scene.tri[i]
		if t.Kind != mesh.Wall || t.Opening != number {
			continue
		}
		// Of a wall's two triangles the one has the inner edge, the other the
		// outer (see mesh's order: both corners on the same face).
		n := int32(v.scene.corners() / 2)
		for k := range 3 {
			a, b := t.V[k], t.V[(k+1)%3]
			if (a < n) == (b < n) {
				v.keptLine(a, b)
			}
		}
	}
}

// keptLine marks as much of the edge between two corners as the section leaves.
func (v *View) keptLine(a, b int32) {
	p, q := v.placed[a], v.placed[b]
	if v.look.Section != nil {
		// How far a corner is beyond the plane is, as it is kept, linear on the picture.
		switch c, d := v.beyond[a], v.beyond[b]; {
		case c > 0 && d > 0:
			return
		case c > 0:
			p = p.towards(q, c/(c-d))
		case d > 0:
			q = q.towards(p, d/(d-c))
		}
	}
	v.line(p, q, hovered)
}

// towards returns the position a part of the way to another one.
func (c corner) towards(d corner, part float32) corner {
	return corner{c.x + (d.x-c.x)*part, c.y + (d.y-c.y)*part, c.near + (d.near-c.near)*part}
}

// line marks a line a picture's pixel wide where nothing is clearly nearer.
func (v *View) line(a, b corner, as uint8) {
	if v.look.Section != nil && !v.onPicture(a) && !v.onPicture(b) {
		return
	}
	n := int(max(abs32(b.x-a.x), abs32(b.y-a.y))) + 1
	if n > 1<<14 {
		return // far off the picture
	}
	for k := range n + 1 {
		f := float32(k) / float32(n)
		x, y := int(a.x+(b.x-a.x)*f), int(a.y+(b.y-a.y)*f)
		near := (a.near + (b.near-a.near)*f) * 1.004
		for dy := 1 - v.fine; dy < v.fine; dy++ {
			for dx := 1 - v.fine; dx < v.fine; dx++ {
				if px, py := x+dx, y+dy; px >= 0 && py >= 0 && px < v.w && py < v.h && near >= v.near[py*v.w+px] {
					v.mark[py*v.w+px] = as
				}
			}
		}
	}
}

func (v *View) onPicture(c corner) bool {
	return c.x >= 0 && c.y >= 0 && c.x < float32(v.w) && c.y < float32(v.h)
}

func abs32(x float32) float32 { return max(x, -x) }

// Ruler is the scale bar of a picture: a length that is true in the plane through
// the band's middle (everywhere in a parallel view). The zero Ruler is none.
type Ruler struct {
	MM     float64 // what the bar stands for: 1, 2 or 5 times a power of ten
	X0, X1 float64 // its ends, pixels
	Y      float64 // its foot
}

// Ruler returns the scale bar of the last picture, for the window to write its
// length beside.
func (v *View) Ruler() Ruler { return v.ruler }

func (s *Scene) ruler(c Camera, w, h int) Ruler {
	k := s.perMM(c, w, h)
	if w < 80 || h < 40 {
		return Ruler{}
	}
	most := math.Min(140, float64(w)*0.3) / k
	step := math.Pow(10, math.Floor(math.Log10(most)))
	for _, f := range []float64{5, 2} {
		if f*step <= most {
			step *= f
			break
		}
	}
	x := 14.0
	return Ruler{MM: step, X0: x, X1: x + step*k, Y: float64(h) - 12}
}

// draw draws a bar with a tick at each end and each fifth or half between.
func (r Ruler) draw(img *image.RGBA, ink color.NRGBA) {
	if r.MM == 0 {
		return
	}
	parts := 5
	if lead := r.MM / math.Pow(10, math.Floor(math.Log10(r.MM)+1e-9)); lead > 1.5 && lead < 3 {
		parts = 4
	}
	y := int(r.Y)
	for x := int(math.Round(r.X0)); x <= int(math.Round(r.X1)); x++ {
		put(img, x, y, ink)
	}
	for i := range parts + 1 {
		x := int(math.Round(r.X0 + (r.X1-r.X0)*float64(i)/float64(parts)))
		h := 3
		if i == 0 || i == parts {
			h = 6
		}
		for k := range h {
			put(img, x, y-k, ink)
		}
	}
}

func put(img *image.RGBA, x, y int, c color.NRGBA) {
	if (image.Point{X: x, Y: y}).In(img.Rect) {
		i := img.PixOffset(x, y)
		img.Pix[i], img.Pix[i+1], img.Pix[i+2], img.Pix[i+3] = c.R, c.G, c.B, 255
	}
}
