package view3d

import (
	"fretband/pattern/mesh"
	"image"
	"image/color"
)

// resolve gives each pixel of rows y0 to y1 the mean of its four positions.
func (v *View) resolve(img *image.RGBA, y0, y1 int) {
	ground := packed(v.look.Ground)
	for y := y0; y < y1; y++ {
		out := img.Pix[y*img.Stride : y*img.Stride+2*v.w]
		top := 2 * y * v.w
		for x := range v.w / 2 {
			at := [4]int{top + 2*x, top + 2*x + 1, top + v.w + 2*x, top + v.w + 2*x + 1}
			ids := [4]int32{v.id[at[0]], v.id[at[1]], v.id[at[2]], v.id[at[3]]}
			p := out[4*x : 4*x+4 : 4*x+4]
			marks := v.mark[at[0]] | v.mark[at[1]] | v.mark[at[2]] | v.mark[at[3]]
			ghosts := v.ghost[at[0]].share | v.ghost[at[1]].share | v.ghost[at[2]].share | v.ghost[at[3]].share
			if marks|ghosts == 0 && v.alike(ids) {
				c := ground
				if ids[0] != 0 {
					c = v.colour(ids[0], float32(2*x)+1, float32(2*y)+1, x, y)
				}
				p[0], p[1], p[2], p[3] = uint8(c), uint8(c>>8), uint8(c>>16), 255
				continue
			}
			var sum [3]uint32
			var last int32
			c := ground
			for k, i := range at {
				if k == 0 || ids[k] != last {
					last = ids[k]
					c = ground
					if last != 0 {
						c = v.colour(last, float32(2*x+(k&1))+0.5, float32(2*y+(k>>1))+0.5, x, y)
					}
				}
				q := v.overlaid(c, i)
				sum[0] += q & 255
				sum[1] += q >> 8 & 255
				sum[2] += q >> 16 & 255
			}
			p[0], p[1], p[2], p[3] = uint8((sum[0]+2)/4), uint8((sum[1]+2)/4), uint8((sum[2]+2)/4), 255
		}
	}
}

// resolveRough gives each pixel of rows y0 to y1 its one position.
func (v *View) resolveRough(img *image.RGBA, y0, y1 int) {
	ground := packed(v.look.Ground)
	for y := y0; y < y1; y++ {
		out := img.Pix[y*img.Stride:]
		for x, id := range v.id[y*v.w : (y+1)*v.w] {
			c := ground
			if id != 0 {
				c = v.colour(id, float32(x)+0.5, float32(y)+0.5, x, y)
			}
			if i := y*v.w + x; v.mark[i]|v.ghost[i].share != 0 {
				c = v.overlaid(c, i)
			}
			p := out[4*x : 4*x+4 : 4*x+4]
			p[0], p[1], p[2], p[3] = uint8(c), uint8(c>>8), uint8(c>>16), 255
		}
	}
}

// overlaid returns the colour of a position with what lies over the metal there.
func (v *View) overlaid(c uint32, i int) uint32 {
	l := &v.look
	if g := v.ghost[i]; g.share != 0 {
		c = mixed(c, lit(l.Skin, g.bright), uint32(g.share))
	}
	switch v.mark[i] {
	case hovered:
		c = mixed(c, packed(l.Hovered), 230)
	case engravedLine:
		c = mixed(c, 0, 150) // a groove lies in its own shadow
	case restLine:
		c = mixed(c, packed(l.Ink), 180)
	}
	return c
}

// alike reports whether the four positions have one colour: they show the same
// triangle, or the same smooth face.
func (v *View) alike(ids [4]int32) bool {
	if ids[0] == ids[1] && ids[0] == ids[2] && ids[0] == ids[3] {
		return true
	}
	lo, hi := min(ids[0], ids[1], ids[2], ids[3]), max(ids[0], ids[1], ids[2], ids[3])
	n := v.scene.inner
	return lo > 0 && hi <= n || lo > n && hi <= 2*n
}

func packed(c color.NRGBA) uint32 { return uint32(c.R) | uint32(c.G)<<8 | uint32(c.B)<<16 }

// mixed returns a with the share k/256 of b.
func mixed(a, b, k uint32) uint32 {
	m := func(s uint) uint32 { return ((a>>s&255)*(256-k) + (b>>s&255)*k) >> 8 }
	return m(0) | m(8)<<8 | m(16)<<16
}

func lit(c color.NRGBA, bright uint8) uint32 {
	m := func(x uint8) uint32 { return uint32(x) * uint32(bright) / 255 }
	return m(c.R) | m(c.G)<<8 | m(c.B)<<16
}

// colour returns the colour of a triangle at a position of the picture of all positions,
// within pixel px, py.
func (v *View) colour(id int32, x, y float32, px, py int) uint32 {
	if id < 0 { // cut open by the section: hatched, as on a drawing, in a colour that no metal has
		c := mixed(packed(v.look.Metal), packed(v.look.Hovered), 200)
		if (px+py)%5 < 2 {
			return mixed(c, 0xffffff, 150)
		}
		return c
	}
	t := &v.scene.tri[id-1]
	a, b, c := v.placed[t.V[0]], v.placed[t.V[1]], v.placed[t.V[2]]
	u := v.turned[t.N[0]]
	if t.N[1] != t.N[0] || t.N[2] != t.N[0] {
		k := 1 / ((b.x-a.x)*(c.y-a.y) - (c.x-a.x)*(b.y-a.y))
		// A place beside a thin triangle takes its edge's.
		wb := limited(((x-a.x)*(c.y-a.y) - (c.x-a.x)*(y-a.y)) * k)
		wc := limited(((b.x-a.x)*(y-a.y) - (x-a.x)*(b.y-a.y)) * k)
		if wb+wc > 1 {
			s := 1 / (wb + wc)
			wb, wc = wb*s, wc*s
		}
		wa := 1 - wb - wc
		m, n := v.turned[t.N[1]], v.turned[t.N[2]]
		u = vec{wa*u.x + wb*m.x + wc*n.x, wa*u.y + wb*m.y + wc*n.y, wa*u.z + wb*m.z + wc*n.z}
	}
	var out uint32
	if v.look.Smooth {
		out = v.tones[t.Kind].between(u)
	} else {
		out = v.tones[t.Kind].at(u)
	}
	if v.look.Print != nil && t.Kind < mesh.PartMetal {
		out = v.printed(t, x, y, out)
	}
	if t.Opening > 0 && int(t.Opening) == v.look.Hover {
		out = mixed(out, packed(v.look.Hovered), 150)
	}
	return out
}

func limited(x float32) float32 { return max(0, min(1, x)) }
