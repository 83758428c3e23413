package view3d

import "math"

// wristShare is how much of the wrist's colour covers what is behind it, at
// most, of 256.
const wristShare = 120

// wristPanel is a flat piece of the wrist.
type wristPanel struct {
	at     [3]corner
	share  [3]float32 // how much it covers at its corners
	bright [3]float32
}

// wristLines returns the panels of the wrist that face the eye: an oval tube
// that fades out on both sides of the band. Seen along its axis it is a disc.
func (v *View) wristLines() []wristPanel {
	s := v.scene
	if !v.look.Wrist || s.wrist[0] <= 0 || s.wrist[1] <= 0 {
		return nil
	}
	const n = 128
	var panels []wristPanel
	bright := func(n vec) float32 {
		u := v.eye.turn(n)
		return 255 * (0.52 + 0.48*max(0, -0.40*u.x+0.45*u.y+0.80*u.z))
	}
	add := func(bright, share [3]float32, p ...vec) {
		c := [3]corner{}
		for i := range c {
			c[i].x, c[i].y, c[i].near = v.eye.place(p[i])
		}
		if (c[1].x-c[0].x)*(c[2].y-c[0].y)-(c[2].x-c[0].x)*(c[1].y-c[0].y) >= 0 {
			return
		}
		panels = append(panels, wristPanel{c, share, bright})
	}
	at := func(i int, z float32) vec {
		sin, cos := math.Sincos(2 * math.Pi * float64(i) / n)
		return vec{s.wrist[0] * float32(cos), s.wrist[1] * float32(sin), z}
	}
	out := func(i int) vec {
		sin, cos := math.Sincos(2 * math.Pi * float64(i) / n)
		x, y := float32(cos)/s.wrist[0], float32(sin)/s.wrist[1]
		k := 1 / float32(math.Hypot(float64(x), float64(y)))
		return vec{x * k, y * k, 0}
	}
	inside, past := s.breadth/2, 0.5*(s.wrist[0]+s.wrist[1])
	// From end to end: the positions, and how much the wrist covers there.
	zs := [6]float32{-inside - past, -inside - past*0.6, -inside - past*0.2, inside + past*0.2, inside + past*0.6, inside + past}
	shares := [6]float32{0, wristShare * 0.4, wristShare, wristShare, wristShare * 0.4, 0}
	lengthwise := abs32(v.eye.toEye.z)
	for i := range n {
		l, r := bright(out(i)), bright(out(i+1))
		for j := range len(zs) - 1 {
			z0, z1 := s.middle.z+zs[j], s.middle.z+zs[j+1]
			a, b, c, d := at(i, z0), at(i+1, z0), at(i+1, z1), at(i, z1)
			p, q := shares[j], shares[j+1]
			add([3]float32{l, r, r}, [3]float32{p, p, q}, a, b, c)
			add([3]float32{l, r, l}, [3]float32{p, q, q}, a, c, d)
		}
		if k := wristShare * (lengthwise - 0.9) * 10; k > 0 {
			up, down := s.middle.z+inside, s.middle.z-inside
			l := bright(vec{0, 0, v.eye.toEye.z})
			add([3]float32{l, l, l}, [3]float32{k, k, k}, vec{0, 0, up}, at(i, up), at(i+1, up))
			add([3]float32{l, l, l}, [3]float32{k, k, k}, vec{0, 0, down}, at(i+1, down), at(i, down))
		}
	}
	return panels
}

// veil is what the wrist does to a position: how bright it is and how much it
// covers.
type veil struct{ bright, share uint8 }

// fillWrist notes where the wrist is nearer than the band.
func (v *View) fillWrist(panels []wristPanel, y0, y1 int) {
	for i := range panels {
		p := &panels[i]
		a, b, c := p.at[0], p.at[1], p.at[2]
		inv := 1 / ((b.x-a.x)*(c.y-a.y) - (c.x-a.x)*(b.y-a.y))
		plane := func(fa, fb, fc float32) (dx, dy float32) {
			return ((fb-fa)*(c.y-a.y) - (fc-fa)*(b.y-a.y)) * inv, ((fc-fa)*(b.x-a.x) - (fb-fa)*(c.x-a.x)) * inv
		}
		zx, zy := plane(a.near, b.near, c.near)
		sx, sy := plane(p.share[0], p.share[1], p.share[2])
		bx, by := plane(p.bright[0], p.bright[1], p.bright[2])
		v.rows(a, b, c, y0, y1, func(y, x0, x1 int) {
			ox, oy := float32(x0)+0.5-a.x, float32(y)+0.5-a.y
			z, share, bright := a.near+zx*ox+zy*oy, p.share[0]+sx*ox+sy*oy, p.bright[0]+bx*ox+by*oy
			for k := y*v.w + x0; k < y*v.w+x1; k++ {
				if z > v.near[k] {
					v.ghost[k] = veil{uint8(max(0, min(255, bright))), uint8(max(0, min(255, share)))}
				}
				z += zx
				share += sx
				bright += bx
			}
		})
	}
}
