package mesh

import (
	"math"

	"fretband/pattern"
	"fretband/pattern/added"
	"fretband/unroll"
	"fretband/unroll/plane"
)

// Forms are the added parts of a sheet as plain forms, to be looked at: each closed or nearly so,
// standing on the outer face. They are no part of the band's surface, and no solid is written
// of them.
type Forms struct {
	Vertices  []unroll.Point3
	Flat      []plane.Point // where each vertex stands on the blank
	Normals   []unroll.Point3
	Triangles []Triangle // of the kinds [PartMetal] and [Stone]
}

// formSteps is into how many pieces round things are divided.
const formSteps = 12

// Added returns the added parts on the bent band as it has moved.
func Added(s *pattern.Sheet, how Moving) *Forms {
	f := &Forms{}
	for _, set := range s.Added {
		a := s.Design.Added[set.Added]
		for _, w := range set.Wires {
			f.wire(s.Flat, how, a, w)
		}
		for _, seat := range set.Seats {
			g := newGround(s.Flat, how, seat)
			switch a.Kind {
			case pattern.StonePart:
				f.stone(g, a)
			case pattern.BeadsPart:
				f.bead(g, set.SizeMM/2)
			default:
				f.part(g, seat)
			}
		}
	}
	return f
}

// ground is the plane that touches the outer face where a part sits: parts are stiff, and do not
// bend with the band.
type ground struct {
	flat     plane.Point
	at       unroll.Point3
	x, y, up unroll.Point3 // unit vectors; x along the part's length
	under    float64       // how deep a part goes down into the metal, so that no gap shows
}

func newGround(f unroll.Flat, how Moving, seat pattern.Seat) ground {
	const h = 1e-3 // mm: a step for directions
	on := func(p plane.Point) unroll.Point3 { return OnFace(f, p, how) }
	way := plane.Pt(h, 0).Turn(seat.Rotation)
	g := ground{flat: seat.At, at: on(seat.At)}
	g.x = unitOf(sub(on(seat.At.Add(way)), g.at))
	y := sub(on(seat.At.Add(way.Left())), g.at)
	g.up = unitOf(cross(g.x, y))
	if out := sub(f.Bend(seat.At, f.Thickness+1), f.Bend(seat.At, f.Thickness)); dot(out, g.up) < 0 {
		g.up = scale(g.up, -1)
	}
	g.y = unitOf(sub(y, scale(g.x, dot(y, g.x))))
	g.under = 0.8 * f.Thickness
	return g
}

// point returns the position that is x and y along the part and h above the metal.
func (g ground) point(p plane.Point, h float64) unroll.Point3 {
	return add(g.at, add(add(scale(g.x, p.X), scale(g.y, p.Y)), scale(g.up, h)))
}

// hoop is a closed line of a form; all rings of one form have as many points.
type hoop struct {
	at   []unroll.Point3
	flat []plane.Point
}

func (g ground) hoop(ps []plane.Point, share, h float64) hoop {
	var r hoop
	for _, p := range ps {
		r.at, r.flat = append(r.at, g.point(p.Mul(share), h)), append(r.flat, g.flat)
	}
	return r
}

// skin lays a surface over rings from the first to the last, which looks away from the inside;
// smooth has it shaded as a round one. An inside of nil has each face look away from the middle of
// its two rings.
func (f *Forms) skin(rings []hoop, kind Kind, smooth bool, inside *unroll.Point3, closed bool) {
	n := len(rings[0].at)
	first := int32(len(f.Vertices))
	for _, r := range rings {
		f.Vertices, f.Flat = append(f.Vertices, r.at...), append(f.Flat, r.flat...)
	}
	sums := make([]unroll.Point3, n*len(rings))
	from := len(f.Triangles)
	face := func(mid unroll.Point3, a, b, c int) {
		at := func(i int) unroll.Point3 { return f.Vertices[first+int32(i)] }
		m := cross(sub(at(b), at(a)), sub(at(c), at(a)))
		if length(m) < 1e-12 {
			return // where a hoop is a point
		}
		out := sub(scale(add(add(at(a), at(b)), at(c)), 1.0/3), mid)
		if dot(m, out) < 0 {
			b, c, m = c, b, scale(m, -1)
		}
		for _, i := range [3]int{a, b, c} {
			sums[i] = add(sums[i], m)
		}
		k := int32(len(f.Normals))
		f.Normals = append(f.Normals, unitOf(m))
		f.Triangles = append(f.Triangles, Triangle{V: [3]int32{first + int32(a), first + int32(b), first + int32(c)}, N: [3]int32{k, k, k}, Kind: kind})
	}
	for j := 1; j < len(rings); j++ {
		var mid unroll.Point3
		if inside != nil {
			mid = *inside
		} else {
			for _, r := range rings[j-1 : j+1] {
				for _, p := range r.at {
					mid = add(mid, scale(p, 1/float64(2*n)))
				}
			}
		}
		for i := range n {
			k := i + 1
			if k == n {
				if !closed {
					break
				}
				k = 0
			}
			a, b, c, d := (j-1)*n+i, (j-1)*n+k, j*n+k, j*n+i
			face(mid, a, b, c)
			face(mid, a, c, d)
		}
	}
	if !smooth {
		return
	}
	base := int32(len(f.Normals))
	for _, m := range sums {
		f.Normals = append(f.Normals, unitOf(m))
	}
	for i := from; i < len(f.Triangles); i++ {
		t := &f.Triangles[i]
		for k := range 3 {
			t.N[k] = base + t.V[k] - first
		}
	}
}

// stone is a dome on a low wall, or two cones, in its bezel if it has one.
func (f *Forms) stone(g ground, a pattern.Added) {
	c, _ := a.Stone()
	girdle := outlinePoints(c.Outline(a.WidthMM, a.HeightMM))
	// In a bezel the girdle is near the rim, which is rubbed over it.
	foot, rim, girdled := a.BaseMM, a.BaseMM+a.RiseMM, 0.75*a.DepthMM
	switch {
	case c.Domed:
	case a.Setting == pattern.Bezel:
		foot = rim - 0.1*a.RiseMM - girdled
	default: // let into the metal
		foot = -girdled / 2
	}
	top := foot + a.DepthMM
	low := g.point(plane.Point{}, foot-a.DepthMM)
	if c.Domed {
		wall := math.Max(foot+0.15*a.DepthMM, math.Min(rim, foot+0.8*a.DepthMM))
		rings := []hoop{g.hoop(girdle, 1, -g.under), g.hoop(girdle, 1, wall)}
		f.skin(rings, Stone, false, &low, true)
		rings = nil
		const steps = 5
		for i := range steps + 1 {
			sin, cos := math.Sincos(float64(i) / steps * math.Pi / 2)
			rings = append(rings, g.hoop(girdle, cos, wall+(top-wall)*sin))
		}
		f.skin(rings, Stone, true, &low, true)
	} else {
		// A table of six tenths over a crown of a quarter of the depth.
		high := foot + girdled
		f.skin([]hoop{g.hoop(girdle, 0.1, foot), g.hoop(girdle, 1, high)}, Stone, false, nil, true)
		mid := g.point(plane.Point{}, foot)
		f.skin([]hoop{g.hoop(girdle, 1, high), g.hoop(girdle, 0.6, top), g.hoop(girdle, 0, top)}, Stone, false, &mid, true)
	}
	if a.Setting != pattern.Bezel {
		return
	}
	outer := outset(girdle, a.WallMM)
	mid := g.point(plane.Point{}, -100) // all of the outside and the rim looks away from deep below
	axis := g.point(plane.Point{}, 0)
	in := rim
	if !c.Domed {
		in = foot + girdled
	}
	f.skin([]hoop{g.hoop(outer, 1, -g.under), g.hoop(outer, 1, rim)}, PartMetal, false, &axis, true)
	f.skin([]hoop{g.hoop(outer, 1, rim), g.hoop(girdle, 1, in)}, PartMetal, false, &mid, true)
}

// bead is a ball that stands on the metal.
func (f *Forms) bead(g ground, r float64) {
	var circle []plane.Point
	for i := range formSteps {
		sin, cos := math.Sincos(2 * math.Pi * float64(i) / formSteps)
		circle = append(circle, plane.Pt(cos, sin))
	}
	var rings []hoop
	const steps = 6
	for i := range steps + 1 {
		sin, cos := math.Sincos(math.Pi * (float64(i)/steps - 0.5))
		rings = append(rings, g.hoop(circle, r*cos, r+r*sin))
	}
	mid := g.point(plane.Point{}, r)
	f.skin(rings, PartMetal, true, &mid, true)
}

// part is a low block over its seat.
func (f *Forms) part(g ground, seat pattern.Seat) {
	ps := outlinePoints(seat.Loop.Move(seat.At.Mul(-1)).Turn(-seat.Rotation))
	b := seat.Loop.Bounds()
	high := 0.3 * math.Min(b.W(), b.H())
	mid := g.point(plane.Point{}, 0)
	f.skin([]hoop{g.hoop(ps, 1, -g.under), g.hoop(ps, 1, high), g.hoop(ps, 0, high)}, PartMetal, false, &mid, true)
}

// wire sweeps the section along the way.
func (f *Forms) wire(flat unroll.Flat, how Moving, a pattern.Added, w pattern.Wire) {
	s, _ := added.SectionOf(a.Section)
	half, high := a.WidthMM/2, s.Height(a.WidthMM, a.HeightMM)
	var section []plane.Point // across, and above the metal
	switch s.Key {
	case "square":
		section = []plane.Point{plane.Pt(-half, 0), plane.Pt(-half, high), plane.Pt(half, high), plane.Pt(half, 0)}
	case "half-round":
		for i := range formSteps/2 + 1 {
			sin, cos := math.Sincos(math.Pi * float64(i) / (formSteps / 2))
			section = append(section, plane.Pt(-half*cos, high*sin))
		}
	default:
		for i := range formSteps {
			sin, cos := math.Sincos(2 * math.Pi * float64(i) / formSteps)
			section = append(section, plane.Pt(-half*cos, high/2+high/2*sin))
		}
	}
	n := len(w.Way) - 1
	var rings []hoop
	for i, p := range w.Way {
		before, after := w.Way[max(0, i-1)], w.Way[min(n, i+1)]
		left := after.Sub(before).Unit().Left()
		base := OnFace(flat, p, how)
		side := unitOf(sub(OnFace(flat, p.Add(left.Mul(1e-3)), how), base))
		way := sub(OnFace(flat, after, how), OnFace(flat, before, how))
		up := unitOf(cross(way, side))
		if out := sub(flat.Bend(p, flat.Thickness+1), flat.Bend(p, flat.Thickness)); dot(out, up) < 0 {
			up = scale(up, -1)
		}
		var r hoop
		for _, q := range section {
			r.at, r.flat = append(r.at, add(base, add(scale(side, q.X), scale(up, q.Y)))), append(r.flat, p)
		}
		rings = append(rings, r)
	}
	f.skin(rings, PartMetal, s.Key != "square", nil, true)
	if !flat.Closed() { // its two ends
		for _, r := range []hoop{rings[0], rings[n]} {
			var mid, in unroll.Point3
			for k, p := range r.at {
				mid = add(mid, scale(p, 1/float64(len(section))))
				in = add(in, scale(rings[n/2].at[k], 1/float64(len(section))))
			}
			end := hoop{flat: r.flat}
			for range r.at {
				end.at = append(end.at, mid)
			}
			f.skin([]hoop{r, end}, PartMetal, false, &in, true)
		}
	}
}

// outlinePoints are the points of a loop about its middle, counter-clockwise.
func outlinePoints(l plane.Loop) []plane.Point { return l.CCW().Flatten(Screen) }

// outset moves the points of a convex outline outwards.
func outset(ps []plane.Point, by float64) []plane.Point {
	n := len(ps)
	out := make([]plane.Point, n)
	for i, p := range ps {
		a, b := p.Sub(ps[(i+n-1)%n]).Unit().Left().Mul(-1), ps[(i+1)%n].Sub(p).Unit().Left().Mul(-1)
		m := a.Add(b)
		k := by / math.Max(0.35, (1+a.X*b.X+a.Y*b.Y)/2) / 2 // a mitre, of a point not endless
		out[i] = p.Add(m.Mul(k))
	}
	return out
}
