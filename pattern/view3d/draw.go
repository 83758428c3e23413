package view3d

import (
	"image"
	"image/color"

	"fretband/pattern/mesh"
	"fretband/unroll/cores"
)

// View draws pictures and keeps what can be used again: its buffers, and what
// the last picture showed, for [View.Pick]. The zero View is ready. One goroutine
// at a time.
type View struct {
	fine   int // positions to the side of a pixel: 2, or 1 for a rough picture
	w, h   int // of the picture, times fine
	near   []float32
	id     []int32 // triangle + 1, negative if seen from its inside; 0 for none
	ghost  []veil  // the wrist
	mark   []uint8
	placed []corner
	turned []vec
	beyond []float32 // signed distance to the section, times nearness

	metal color.NRGBA
	tones [5]*tone // by mesh.Kind

	scene *Scene
	eye   eye
	look  Look
	ruler Ruler
}

// stoneColour is that of all stones: a plain blue, like no metal.
var stoneColour = color.NRGBA{96, 132, 176, 255}

// corner is a corner on the picture of all positions.
type corner struct{ x, y, near float32 }

// Draw draws the scene into an image of w x h, which is img if it has that size,
// and returns it. A nil scene gives the bare ground.
func (v *View) Draw(img *image.RGBA, w, h int, s *Scene, c Camera, l Look) *image.RGBA {
	w, h = max(w, 0), max(h, 0)
	if img == nil || img.Rect != image.Rect(0, 0, w, h) {
		img = image.NewRGBA(image.Rect(0, 0, w, h))
	}
	v.scene, v.look, v.ruler = s, l, Ruler{}
	v.fine = 2
	if l.Rough {
		v.fine = 1
	}
	v.resize(v.fine*w, v.fine*h)
	if s == nil || w == 0 || h == 0 {
		v.scene = nil
		for i := 0; i < len(img.Pix); i += 4 {
			img.Pix[i], img.Pix[i+1], img.Pix[i+2], img.Pix[i+3] = l.Ground.R, l.Ground.G, l.Ground.B, 255
		}
		return img
	}
	if v.tones[0] == nil || v.metal != l.Metal {
		v.metal = l.Metal
		v.tones = [5]*tone{
			mesh.Inner: toneOf(l.Metal, 0.60, 0.55), // less light gets inside
			mesh.Outer: toneOf(l.Metal, 1, 0.72),
			mesh.Wall:  toneOf(l.Metal, 0.74, 0.45), // sawn, not polished
			// As bright as the face, so that a border reads as one with the band.
			mesh.PartMetal: toneOf(l.Metal, 1, 0.72),
			mesh.Stone:     toneOf(stoneColour, 1, 0.9),
		}
	}
	v.eye = s.eye(c, float64(v.w), float64(v.h))
	v.turnAll()
	lines := v.wristLines()
	section := l.Section != nil
	v.inBands(v.fine, func(y0, y1 int) {
		v.clear(y0, y1)
		for i := range s.tri {
			v.fill(i, y0, y1, section)
		}
		v.fillWrist(lines, y0, y1)
	})
	v.drawEngraved()
	v.drawRest()
	if l.Hover > 0 {
		v.hoverOpening(int32(l.Hover))
	}
	v.inBands(1, func(y0, y1 int) {
		if v.fine == 1 {
			v.resolveRough(img, y0, y1)
		} else {
			v.resolve(img, y0, y1)
		}
	})
	if l.Ruler {
		v.ruler = s.ruler(c, w, h)
		v.ruler.draw(img, l.Ink)
	}
	return img
}

func (v *View) resize(w, h int) {
	v.w, v.h = w, h
	n := w * h
	if cap(v.near) < n {
		v.near, v.id = make([]float32, n), make([]int32, n)
		v.ghost, v.mark = make([]veil, n), make([]uint8, n)
	}
	v.near, v.id, v.ghost, v.mark = v.near[:n], v.id[:n], v.ghost[:n], v.mark[:n]
}

// inBands does f for bands of rows of the picture on all cores; fine is the
// rows of the buffer to a row of the picture.
func (v *View) inBands(fine int, f func(y0, y1 int)) {
	h := v.h / v.fine
	cores.Runs(h, 16, func(_, from, to int) { f(from*fine, to*fine) })
}

func (v *View) clear(y0, y1 int) {
	a, b := y0*v.w, y1*v.w
	clear(v.near[a:b])
	clear(v.id[a:b])
	clear(v.ghost[a:b])
	clear(v.mark[a:b])
}

// turnAll turns all corners and normals to the eye.
func (v *View) turnAll() {
	s := v.scene
	v.placed = sized(v.placed, len(s.at))
	v.turned = sized(v.turned, len(s.normal))
	p := v.look.Section
	var n vec
	if p != nil {
		v.beyond = sized(v.beyond, len(s.at))
		n = vecOf(p.Normal)
	}
	e := v.eye
	cores.Runs(len(s.at), 1, func(_, from, to int) {
		for i := from; i < to; i++ {
			x, y, near := e.place(s.at[i])
			v.placed[i] = corner{x, y, near}
			if p != nil {
				f := near
				if e.far == 0 {
					f = 1
				}
				v.beyond[i] = (dot(n, s.at[i]) - float32(p.Offset)) * f
			}
		}
	})
	cores.Runs(len(s.normal), 1, func(_, from, to int) {
		for i := from; i < to; i++ {
			v.turned[i] = e.turn(s.normal[i])
		}
	})
}

func sized[T any](s []T, n int) []T {
	if cap(s) < n {
		return make([]T, n)
	}
	return s[:n]
}

// fill fills triangle i where it is nearest, within rows y0 to y1.
func (v *View) fill(i, y0, y1 int, section bool) {
	t := &v.scene.tri[i].V
	a, b, c := v.placed[t[0]], v.placed[t[1]], v.placed[t[2]]
	det := (b.x-a.x)*(c.y-a.y) - (c.x-a.x)*(b.y-a.y)
	id := int32(i + 1)
	if !(det < 0) { // y runs down: this is its inside
		if !section || !(det > 0) {
			return
		}
		id = -id
	}
	if max(a.y, b.y, c.y) <= float32(y0) || min(a.y, b.y, c.y) >= float32(y1) {
		return
	}
	var da, db, dc float32
	if section {
		da, db, dc = v.beyond[t[0]], v.beyond[t[1]], v.beyond[t[2]]
		if da > 0 && db > 0 && dc > 0 {
			return
		}
		section = da > 0 || db > 0 || dc > 0
	}
	inv := 1 / det
	zx := ((b.near-a.near)*(c.y-a.y) - (c.near-a.near)*(b.y-a.y)) * inv
	zy := ((c.near-a.near)*(b.x-a.x) - (b.near-a.near)*(c.x-a.x)) * inv
	dx := ((db-da)*(c.y-a.y) - (dc-da)*(b.y-a.y)) * inv
	dy := ((dc-da)*(b.x-a.x) - (db-da)*(c.x-a.x)) * inv
	o := a
	if !section {
		// As rows does below, written out: this is where the time goes.
		e := newSpan(a, b, c)
		for y := max(y0, e.y0); y < min(y1, e.y1); y++ {
			x0, x1 := e.at(y, v.w)
			if x0 >= x1 {
				continue
			}
			z := o.near + zx*(float32(x0)+0.5-o.x) + zy*(float32(y)+0.5-o.y)
			near := v.near[y*v.w+x0 : y*v.w+x1]
			ids := v.id[y*v.w+x0:][:len(near)]
			for k, was := range near {
				if z > was {
					near[k], ids[k] = z, id
				}
				z += zx
			}
		}
		return
	}
	v.rows(a, b, c, y0, y1, func(y, x0, x1 int) {
		ox, oy := float32(x0)+0.5-o.x, float32(y)+0.5-o.y
		z, d := o.near+zx*ox+zy*oy, da+dx*ox+dy*oy
		for k := y*v.w + x0; k < y*v.w+x1; k++ {
			if d <= 0 && z > v.near[k] {
				v.near[k], v.id[k] = z, id
			}
			z += zx
			d += dx
		}
	})
}

// rows does f for the pixels of each row whose middles lie in the triangle.
func (v *View) rows(a, b, c corner, y0, y1 int, f func(y, x0, x1 int)) {
	e := newSpan(a, b, c)
	for y := max(y0, e.y0); y < min(y1, e.y1); y++ {
		if x0, x1 := e.at(y, v.w); x0 < x1 {
			f(y, x0, x1)
		}
	}
}

// span says which pixels of a row have their middles in a triangle. Two
// triangles that share an edge share no pixel and leave none out.
type span struct {
	y0, y1             int
	a, b               corner
	long, upper, lower float32 // dx/dy of the edges a-c, a-b, b-c, from the top
}

func newSpan(a, b, c corner) span {
	if a.y > b.y {
		a, b = b, a
	}
	if b.y > c.y {
		b, c = c, b
	}
	if a.y > b.y {
		a, b = b, a
	}
	return span{
		y0: above(a.y), y1: above(c.y), a: a, b: b,
		long: (c.x - a.x) / (c.y - a.y), upper: (b.x - a.x) / (b.y - a.y), lower: (c.x - b.x) / (c.y - b.y),
	}
}

func (e *span) at(y, w int) (x0, x1 int) {
	m := float32(y) + 0.5
	xa := e.a.x + e.long*(m-e.a.y)
	xb := e.b.x
	if m < e.b.y {
		xb = e.a.x + e.upper*(m-e.a.y)
	} else {
		xb += e.lower * (m - e.b.y)
	}
	if xa > xb {
		xa, xb = xb, xa
	}
	return max(0, above(xa)), min(w, above(xb))
}

// above returns the first pixel whose middle is not before x.
func above(x float32) int {
	const far = 1 << 24
	if !(x > -far) {
		return -far
	}
	if x > far {
		return far
	}
	x -= 0.5
	i := int(x)
	if float32(i) < x {
		i++
	}
	return i
}
