package view3d

import "math"

// wristShare is how much of the wrist's colour covers what is behind it, of 256.
const wristShare = 150

// wristPanel is a flat piece of the wrist.
type wristPanel struct {
	at     [3]corner
	bright uint8
}

// wristLines returns the panels of the wrist that face the eye: an oval tube
// some way past the band's edges, with its ends closed.
func (v *View) wristLines() []wristPanel {
	s := v.scene
	if !v.look.Wrist || s.wrist[0] <= 0 || s.wrist[1] <= 0 {
		return nil
	}
	const n = 96
	half := s.breadth/2 + min(0.55*(s.wrist[0]+s.wrist[1]), 0.9*s.radius)
	var panels []wristPanel
	add := func(n vec, p ...vec) {
		u := v.eye.turn(n)
		c := [3]corner{}
		for i := range c {
			c[i].x, c[i].y, c[i].near = v.eye.place(p[i])
		}
		if (c[1].x-c[0].x)*(c[2].y-c[0].y)-(c[2].x-c[0].x)*(c[1].y-c[0].y) >= 0 {
			return
		}
		l := 0.62 + 0.38*max(0, -0.40*u.x+0.58*u.y+0.71*u.z)
		panels = append(panels, wristPanel{c, uint8(l * 255)})
	}
	z0, z1 := s.middle.z-half, s.middle.z+half
	at := func(i int, z float32) vec {
		sin, cos := math.Sincos(2 * math.Pi * float64(i) / n)
		return vec{s.wrist[0] * float32(cos), s.wrist[1] * float32(sin), z}
	}
	for i := range n {
		a, b, c, d := at(i, z0), at(i+1, z0), at(i+1, z1), at(i, z1)
		sin, cos := math.Sincos(math.Pi * float64(2*i+1) / n)
		m := vec{float32(cos) / s.wrist[0], float32(sin) / s.wrist[1], 0}
		k := 1 / float32(math.Hypot(float64(m.x), float64(m.y)))
		m.x, m.y = m.x*k, m.y*k
		add(m, a, b, c)
		add(m, a, c, d)
		add(vec{0, 0, 1}, vec{0, 0, z1}, d, c)
		add(vec{0, 0, -1}, vec{0, 0, z0}, b, a)
	}
	return panels
}

// fillWrist notes where the wrist is nearer than the band.
func (v *View) fillWrist(panels []wristPanel, y0, y1 int) {
	for i := range panels {
		p := &panels[i]
		a, b, c := p.at[0], p.at[1], p.at[2]
		inv := 1 / ((b.x-a.x)*(c.y-a.y) - (c.x-a.x)*(b.y-a.y))
		zx := ((b.near-a.near)*(c.y-a.y) - (c.near-a.near)*(b.y-a.y)) * inv
		zy := ((c.near-a.near)*(b.x-a.x) - (b.near-a.near)*(c.x-a.x)) * inv
		v.rows(a, b, c, y0, y1, func(y, x0, x1 int) {
			z := a.near + zx*(float32(x0)+0.5-a.x) + zy*(float32(y)+0.5-a.y)
			for k := y*v.w + x0; k < y*v.w+x1; k++ {
				if z > v.near[k] {
					v.ghost[k] = p.bright
				}
				z += zx
			}
		})
	}
}
