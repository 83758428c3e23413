package view3d

import "fretband/pattern/mesh"

// drawRest draws the edges of the band as it was before it moved, where nothing is nearer.
func (v *View) drawRest() {
	s := v.scene.rest
	if s == nil || v.look.Section != nil {
		return
	}
	n := int32(s.corners() / 2)
	at := func(i int32) corner {
		x, y, near := v.eye.place(s.at[i])
		return corner{x, y, near}
	}
	for _, t := range s.tri {
		if t.Kind != mesh.Wall || t.Opening != 0 {
			continue
		}
		// Of a wall's two triangles the one has the inner edge, the other the outer.
		for k := range 3 {
			if a, b := t.V[k], t.V[(k+1)%3]; (a < n) == (b < n) {
				v.line(at(a), at(b), restLine)
			}
		}
	}
}
