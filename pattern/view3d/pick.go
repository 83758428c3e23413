package view3d

import (
	"fretband/pattern/mesh"
	"fretband/unroll/plane"
)

// Hit is what is seen at a pixel.
type Hit struct {
	Kind mesh.Kind
	// Opening is the number of the opening whose wall it is, or that one looks
	// through if Through is set.
	Opening int
	Through bool
	// Flat is the position on the flat, and Depth under the inner face, mm.
	Flat    plane.Point
	Depth   float64
	Section bool // it is the inside of the metal, laid open by the section
}

// Pick says what the last picture shows at pixel x, y; false for the ground.
func (v *View) Pick(x, y int) (Hit, bool) {
	if v.scene == nil || x < 0 || y < 0 || v.fine*x >= v.w || v.fine*y >= v.h {
		return Hit{}, false
	}
	i := v.fine*y*v.w + v.fine*x
	id := v.id[i]
	px, py := float32(v.fine*x)+0.5, float32(v.fine*y)+0.5
	if h, near, ok := v.pickLid(px, py); ok && near > v.near[i] {
		return h, true
	}
	if id == 0 {
		return Hit{}, false
	}
	t := max(id, -id) - 1
	tri := &v.scene.tri[t]
	wa, wb, wc := v.weights(tri.V, px, py)
	h := Hit{Kind: tri.Kind, Opening: int(tri.Opening), Section: id < 0}
	if n := v.scene.corners(); int(tri.V[0]) >= n { // an added part: where it stands
		h.Flat, h.Depth = v.scene.flat[int(tri.V[0])-n], v.scene.mesh.Thickness
		return h, true
	}
	h.Flat, h.Depth = v.scene.mesh.FlatAt(*tri, wa, wb, wc)
	return h, true
}

// pickLid returns the opening whose outer end covers the position, the nearest of
// several, and how near it is.
func (v *View) pickLid(x, y float32) (h Hit, near float32, ok bool) {
	m := v.scene.mesh
	best := -1
	for i := range m.Lids {
		t := m.Lids[i].V
		a, b, c := v.placed[t[0]], v.placed[t[1]], v.placed[t[2]]
		p := (b.x-a.x)*(y-a.y) - (b.y-a.y)*(x-a.x)
		q := (c.x-b.x)*(y-b.y) - (c.y-b.y)*(x-b.x)
		r := (a.x-c.x)*(y-c.y) - (a.y-c.y)*(x-c.x)
		if (p < 0 || q < 0 || r < 0) && (p > 0 || q > 0 || r > 0) || p+q+r == 0 {
			continue
		}
		if v.look.Section != nil && v.beyond[t[0]] > 0 && v.beyond[t[1]] > 0 && v.beyond[t[2]] > 0 {
			continue
		}
		if z := (q*a.near + r*b.near + p*c.near) / (p + q + r); z > near {
			near, best = z, i
		}
	}
	if best < 0 {
		return Hit{}, 0, false
	}
	l := m.Lids[best]
	wa, wb, wc := v.weights(l.V, x, y)
	h = Hit{Kind: mesh.Outer, Opening: int(l.Opening), Through: true}
	h.Flat, h.Depth = m.FlatAt(l, wa, wb, wc)
	return h, near, true
}

// weights returns those of a triangle's corners at a position of the whole
// picture, true to the surface.
func (v *View) weights(t [3]int32, x, y float32) (wa, wb, wc float64) {
	a, b, c := v.placed[t[0]], v.placed[t[1]], v.placed[t[2]]
	k := 1 / ((b.x-a.x)*(c.y-a.y) - (c.x-a.x)*(b.y-a.y))
	p := limited(((x-a.x)*(c.y-a.y) - (c.x-a.x)*(y-a.y)) * k)
	q := limited(((b.x-a.x)*(y-a.y) - (x-a.x)*(b.y-a.y)) * k)
	if p+q > 1 {
		s := 1 / (p + q)
		p, q = p*s, q*s
	}
	wa, wb, wc = float64(1-p-q), float64(p), float64(q)
	if v.eye.far > 0 {
		// What is linear on the surface is, divided by its distance, linear on
		// the picture.
		wa, wb, wc = wa*float64(a.near), wb*float64(b.near), wc*float64(c.near)
		s := 1 / (wa + wb + wc)
		wa, wb, wc = wa*s, wb*s, wc*s
	}
	return wa, wb, wc
}
