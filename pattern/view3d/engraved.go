package view3d

import (
	"fretband/pattern/mesh"
)

// engravedChain is a line on a face.
type engravedChain struct {
	at   []vec
	face mesh.Kind
}

// Engrave returns the scene with lines drawn on its faces. They are seen where their face
// is, not through it nor over an opening.
func (s *Scene) Engrave(lines []mesh.EngravedLine) *Scene {
	t := *s
	t.engraved = make([]engravedChain, len(lines))
	for i, l := range lines {
		t.engraved[i].face = l.Face
		for _, p := range l.At {
			t.engraved[i].at = append(t.engraved[i].at, vecOf(p))
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
		for i := 1; i < len(l.at); i++ {
			ax, ay, an := v.eye.place(l.at[i-1])
			bx, by, bn := v.eye.place(l.at[i])
			v.engraveLine(corner{ax, ay, an}, corner{bx, by, bn}, l.face)
		}
	}
}

// engraveLine marks a line where its face is what is seen there.
func (v *View) engraveLine(a, b corner, face mesh.Kind) {
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
			if id > 0 && v.scene.tri[id-1].Kind == face && near >= v.near[i]*0.994 && near <= v.near[i]*1.006 {
				v.mark[i] = engravedLine
			}
		}
	}
}
