package unroll

import (
	"fmt"
	"math"

	"fretband/unroll/plane"
)

// shaped returns the edge of a blank of any form, counter-clockwise.
func (f Flat) shaped(b Band) (plane.Loop, error) {
	bottom, top := f.chain(false), f.chain(true)
	if len(bottom) == 0 || len(top) == 0 {
		return nil, &FieldError{"band.width_mm", "gives edges that can't be drawn"}
	}
	right := end{bottom: bottom, top: top, place: f.Length/2 - b.EndLengthMM, flat: &f}
	if err := right.shape(b); err != nil {
		return nil, err
	}
	left := end{bottom: mirrored(right.bottom), top: mirrored(right.top), place: f.Length/2 - b.EndLengthMM, flat: &f, left: true}
	if err := left.shape(b); err != nil {
		return nil, err
	}
	all := append([]plane.Edge(nil), mirrored(left.bottom)...)
	all = append(all, right.round...)
	rightTop := mirrored(left.top)
	for i := len(rightTop) - 1; i >= 0; i-- {
		all = append(all, rightTop[i].Reverse())
	}
	all = append(all, mirrored(left.round)...)
	var l plane.Loop
	for _, e := range all {
		if e.Chord() >= plane.Snap {
			l = append(l, plane.Vertex{Point: plane.Pt(e.A.X+0, e.A.Y+0), Bulge: e.Bulge + 0})
		}
	}
	if err := l.Check(); err != nil {
		return nil, &FieldError{"band", "these numbers give a blank that crosses itself: " + err.Error()}
	}
	return l, nil
}

// mirrored returns a chain mirrored left to right and run the other way, so that
// one from left to right stays so.
func mirrored(es []plane.Edge) []plane.Edge {
	out := make([]plane.Edge, len(es))
	for i, e := range es {
		out[len(es)-1-i] = plane.Edge{A: plane.Pt(-e.B.X, e.B.Y), B: plane.Pt(-e.A.X, e.A.Y), Bulge: e.Bulge}
	}
	return out
}

// end is the right end of a blank: two chains that run towards it, and, once
// shaped, what joins them from the bottom one to the top one.
type end struct {
	bottom, top []plane.Edge
	round       []plane.Edge
	place       float64 // x at which a point begins
	flat        *Flat
	left        bool // seen mirrored
}

func (e *end) shape(b Band) error {
	from, to := e.bottom[len(e.bottom)-1].B, e.top[len(e.top)-1].B
	switch {
	case b.EndShape == PointEnd:
		return e.point(from, to, b)
	case b.EndShape == RoundEnd:
		return e.corners(from, to, e.fullRound(from, to))
	case b.EndCornerMM != 0:
		r, l := b.EndCornerMM, from.Dist(to)
		if r > 0 && r <= l && touching(e.bottom, from, to, r)+touching(e.top, to, from, r) <= l {
			return e.corners(from, to, r)
		}
		most := e.fullRound(from, to)
		if !(r > 0 && r <= most+1e-9) {
			return &FieldError{"band.end_corner_mm", fmt.Sprintf("must be from 0 to what the end's width has room for, at most %.2f mm here; it is %s", most, short(r))}
		}
		return e.corners(from, to, most)
	}
	e.round = []plane.Edge{{A: from, B: to}}
	return nil
}

// touching returns how far from its corner, along the end's line, the middle of
// a disc of radius r is centred that touches the line and the chain.
func touching(chain []plane.Edge, from, to plane.Point, r float64) float64 {
	u := to.Sub(from).Unit()
	in := u.Left()
	if cross := chain[len(chain)-1].A.Sub(from).Dot(in); cross < 0 {
		in = in.Mul(-1)
	}
	// Only what lies near the end can be touched.
	near := chain
	for len(near) > 1 && near[0].Bounds().Dist(plane.Box{Min: from, Max: from}) > 2*from.Dist(to) {
		near = near[1:]
	}
	return root(0, from.Dist(to), func(s float64) float64 {
		return chainNearest(near, from.Add(u.Mul(s)).Add(in.Mul(r))).d - r
	})
}

// root returns where a rising function passes 0 between lo and hi, or the end
// nearer to that: regula falsi with the Illinois rule (M. Dowell and P. Jarratt,
// BIT 11, 1971).
func root(lo, hi float64, f func(float64) float64) float64 {
	a, b := f(lo), f(hi)
	if a >= 0 {
		return lo
	}
	if b <= 0 {
		return hi
	}
	side := 0
	for range 100 {
		x := (a*hi - b*lo) / (a - b)
		if !(x > lo && x < hi) {
			x = (lo + hi) / 2
		}
		y := f(x)
		switch {
		case y == 0:
			return x
		case y < 0:
			lo, a = x, y
			if side < 0 {
				b /= 2
			}
			side = -1
		default:
			hi, b = x, y
			if side > 0 {
				a /= 2
			}
			side = 1
		}
		if hi-lo <= 1e-14*(1+math.Abs(x)) || math.Abs(y) < 1e-14 {
			return x
		}
	}
	return (lo + hi) / 2
}

// fullRound returns the radius of the disc that touches the end and both edges.
func (e *end) fullRound(from, to plane.Point) float64 {
	l := from.Dist(to)
	return root(0, l, func(r float64) float64 {
		return touching(e.bottom, from, to, r) + touching(e.top, to, from, r) - l
	})
}

// corners rounds both corners with arcs of radius r that touch the end's line
// and the edge.
func (e *end) corners(from, to plane.Point, r float64) error {
	u := to.Sub(from).Unit()
	in := u.Left()
	sb, st := touching(e.bottom, from, to, r), touching(e.top, to, from, r)
	cb, ct := from.Add(u.Mul(sb)).Add(in.Mul(r)), to.Sub(u.Mul(st)).Add(in.Mul(r))
	pb, pt := cb.Sub(in.Mul(r)), ct.Sub(in.Mul(r))
	if sb+st > from.Dist(to)-1e-6 { // full round: one place
		pb = pb.Mid(pt)
		pt = pb
	}
	e.bottom = cutAt(e.bottom, chainNearest(e.bottom, cb))
	e.top = cutAt(e.top, chainNearest(e.top, ct))
	e.round = []plane.Edge{
		arcAbout(cb, e.bottom[len(e.bottom)-1].B, pb),
		{A: pb, B: pt},
		arcAbout(ct, pt, e.top[len(e.top)-1].B),
	}
	return nil
}

// point draws the end to a blunt point: from the shoulders, [Band.EndLengthMM]
// before the end, two arcs run on without a corner and into a disc of
// [Band.EndRadiusMM] that touches the end in its middle, as a lancet arch is
// drawn. The arc from P with the inward normal n has its centre at P + R n; it
// touches the disc about D of radius r from within where
//
//	|P + R n - D| = R - r, so R = (r^2 - |P-D|^2) / (2 (n.(P-D) + r)).
func (e *end) point(from, to plane.Point, b Band) error {
	r := b.EndRadiusMM
	u := to.Sub(from).Unit()
	d := from.Mid(to).Add(u.Left().Mul(r))
	if width := from.Dist(to); !(r >= MinTip && r <= 0.49*width) {
		return &FieldError{"band.end_radius_mm", fmt.Sprintf("must be from %v mm (a sharper tip snags; common practice) to a little under half the end's width, %.2f mm; it is %s", MinTip, 0.49*width, short(r))}
	}
	if most := e.flat.Length / 3; !(b.EndLengthMM > r && b.EndLengthMM <= most) {
		return &FieldError{"band.end_length_mm", fmt.Sprintf("must be more than the tip's radius and at most a third of the blank, %.1f mm; it is %s", most, short(b.EndLengthMM))}
	}
	side := func(chain []plane.Edge, top bool) ([]plane.Edge, plane.Edge, error) {
		x := e.place
		if e.left {
			x = -x
		}
		lo, hi := e.flat.EdgesAt(x)
		v := lo
		if top {
			v = hi
		}
		p := e.flat.Place(x, v)
		if e.left {
			p.X = -p.X
		}
		cut := cutAt(chain, chainNearest(chain, p))
		last := cut[len(cut)-1]
		n := last.Tangent(1).Left()
		if top {
			n = n.Mul(-1)
		}
		w := last.B.Sub(d)
		rad := (r*r - w.Dot(w)) / (2 * (n.Dot(w) + r))
		c := last.B.Add(n.Mul(rad))
		if !(n.Dot(w)+r < 0 && rad > r) || d.Sub(c).Dot(last.Tangent(1)) <= 0 || d.Sub(c).Dot(n) > 0 {
			return nil, plane.Edge{}, &FieldError{"band.end_length_mm", fmt.Sprintf("is too short for a smooth point from this width to a tip of %s mm; it is %s: give a longer point or a larger tip", short(r), short(b.EndLengthMM))}
		}
		tip := d.Add(d.Sub(c).Unit().Mul(r))
		if top {
			return cut, arcAbout(c, tip, last.B), nil
		}
		return cut, arcAbout(c, last.B, tip), nil
	}
	bottom, below, err := side(e.bottom, false)
	if err != nil {
		return err
	}
	top, above, err := side(e.top, true)
	if err != nil {
		return err
	}
	e.bottom, e.top = bottom, top
	m := from.Mid(to)
	e.round = []plane.Edge{below, arcAbout(d, below.B, m), arcAbout(d, m, above.A), above}
	return nil
}

// MinTip is the least radius of a pointed end, mm: common practice rounds free
// points to 0.3 to 0.5 mm.
const MinTip = 0.3

// foot is a position on a chain.
type foot struct {
	i int     // edge
	t float64 // fraction of it
	d float64 // distance to what it was looked for
}

func chainNearest(chain []plane.Edge, p plane.Point) foot {
	best := foot{d: math.Inf(1)}
	for i, e := range chain {
		if t, q := e.Nearest(p); q.Dist(p) < best.d {
			best = foot{i, t, q.Dist(p)}
		}
	}
	return best
}

// cutAt returns the chain up to the foot.
func cutAt(chain []plane.Edge, f foot) []plane.Edge {
	out := append([]plane.Edge(nil), chain[:f.i]...)
	if f.t > 0 {
		out = append(out, chain[f.i].Part(0, f.t))
	}
	return out
}

// arcAbout returns the counter-clockwise arc about c from a to b, of less than a
// whole turn.
func arcAbout(c, a, b plane.Point) plane.Edge {
	v, w := a.Sub(c), b.Sub(c)
	s := math.Atan2(v.Cross(w), v.Dot(w))
	if s < -1e-9 {
		s += 2 * math.Pi
	}
	return plane.Edge{A: a, B: b, Bulge: math.Tan(math.Max(s, 0) / 4)}
}
