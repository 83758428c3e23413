package view3d

import (
	"fretband/pattern/mesh"
	"fretband/unroll"
)

// Engrave returns the scene with lines drawn on its outer face: chains of positions on
// it, mm. They are seen where that face is, not through it nor over an opening.
func (s *Scene) Engrave(lines [][]unroll.Point3) *Scene {
	t := *s
	t.engraved = make([][]vec, len(lines))
	for i, l := range lines {
		for _, p := range l {
			t.engraved[i] = append(t.engraved[i], vecOf(p))
		}
	}
	return &t
}

// What is on the picture besides the band: [View.mark].
const (
	hovered = 1 + iota
	engravedLine
	restLine
)

func (v *View) drawEngraved() {
	for _, l := range v.scene.engraved {
		for i := 1; i < len(l); i++ {
			ax, ay, an := v.eye.place(l[i-1])
			bx, by, bn := v.eye.place(l[i])
			v.engraveLine(corner{ax, ay, an}, corner{bx, by, bn})
		}
	}
}

// engraveLine marks a line where the outer face is what is seen there.
func (v *View) engraveLine(a, b corner) {
	if !v.onPicture(a) && !v.onPicture(b) {
		return
	}
	n := int(max(abs32(b.x-a.x), abs32(b.y-a.y))) + 1
	for k := range n + 1 {
		f := float32(k) / float32(n)
		x, y := int(a.x+(b.x-a.x)*f), int(a.y+(b.y-a.y)*f)
		near := a.near + (b.near-a.near)*f
		for d := range v.fine * v.fine { // a pixel wide
			px, py := x+d&1, y+d>>1
			if px < 0 || py < 0 || px >= v.w || py >= v.h {
				continue
			}
			i := py*v.w + px
			id := v.id[i]
			if id > 0 && v.scene.tri[id-1].Kind == mesh.Outer && near >= v.near[i]*0.994 && near <= v.near[i]*1.006 {
				v.mark[i] = engravedLine
			}
		}
	}
}
