package pattern

import (
	"math"

	"fretband/unroll"
	"fretband/unroll/plane"
)

// Reserved is one area kept solid: a reserve, or one of its row.
type Reserved struct {
	Loop     plane.Loop
	Reserve  int         // its index in the design
	At       plane.Point // its middle, of a path its origin
	Rotation float64     // of its shape, radians; on a flared band those of a row turn with the band
}

// row returns the motions that carry the reserve to the positions of its row. They
// are SpacingMM apart, from middle to middle along the band; on a flared one that
// is along the arc on which they are. A spacing of 0 gives each an even share of
// the length: on a closed band they are evenly round. There all come to be on
// the blank, since one period on is the same position.
func (r Reserve) row(d Design, f unroll.Flat) []motion {
	n := max(1, r.Count)
	x, v := f.Where(plane.Pt(r.XMM, r.YMM))
	step := r.step(f)
	ms := make([]motion, n)
	for i := range ms {
		dx := (float64(i) - float64(n-1)/2) * step
		if !d.Band.Open() {
			dx -= f.Length * math.Round((x+dx)/f.Length)
		} else if to := f.Placeable().Nearest(plane.Pt(x+dx, v)); dx != 0 && to.X != x+dx {
			dx = to.X - x // off the blank, and not round the apex on it again
		}
		if dx != 0 {
			ms[i] = onward(f, dx)
		}
	}
	return ms
}

// step returns how far two of the row are apart along the middle line of the band, mm.
func (r Reserve) step(f unroll.Flat) float64 {
	if k := r.stretch(f); r.SpacingMM > 0 && k > 0 {
		return r.SpacingMM / k
	}
	return f.Length / float64(max(1, r.Count))
}

// stretch returns how far something runs at the reserve's height while it runs by 1 along
// the middle line.
func (r Reserve) stretch(f unroll.Flat) float64 {
	_, v := f.Where(plane.Pt(r.XMM, r.YMM))
	return f.Along(0, v, 0).Len()
}

// Spacing returns how far two of the row are apart, from middle to middle, mm.
func (r Reserve) Spacing(f unroll.Flat) float64 { return r.step(f) * r.stretch(f) }

// ownLoop returns the reserve's own shape at its position, nowhere inside the true one:
// arcs fitted to an oval follow the parallel curve half the tolerance outside of
// it, so that the margin is truly kept.
func (r Reserve) ownLoop() (plane.Loop, error) {
	c, rotation := plane.Pt(r.XMM, r.YMM), r.RotationDeg*math.Pi/180
	if r.Shape != OvalShape {
		return r.outline().loop(c)
	}
	return roundOval(r.WidthMM/2, r.HeightMM/2).Turn(rotation).Move(c), nil
}

// roundOval returns the ellipse of half axes a and b as arcs that lie outside of it
// by at most [plane.FitTolerance].
func roundOval(a, b float64) plane.Loop {
	if a == b {
		return plane.Circle(plane.Point{}, a)
	}
	ellipse := plane.Curve(func(t float64) (plane.Point, plane.Point) {
		sin, cos := math.Sincos(t)
		return plane.Pt(a*cos, b*sin), plane.Pt(-a*sin, b*cos)
	})
	curve := ellipse.Inward(-plane.FitTolerance / 2)
	var l plane.Loop
	for _, q := range [4]float64{0, 1, 2, 3} {
		l = append(l, plane.FitArcs(curve, q*math.Pi/2, (q+1)*math.Pi/2, plane.FitTolerance/2).Loop()...)
	}
	return l
}

// margin returns the distance that openings keep from the loop of a reserve: the
// one asked for, or more where the reserve with its margin is itself narrower than
// the bridge rule, since it may be between two openings. Curves of a path may lie
// [plane.FitTolerance] outside of their arcs.
func (r Reserve) margin(l plane.Loop, bridge float64) float64 {
	m := r.MarginMM
	if r.Shape == PathShape {
		m += plane.FitTolerance
	}
	if 2*m >= bridge {
		return m
	}
	return math.Max(m, (bridge-r.narrowest(l, bridge))/2)
}

// narrowest returns the reserve's least width, looked for up to most: of a path,
// the diameter of the largest circle inside.
func (r Reserve) narrowest(l plane.Loop, most float64) float64 {
	switch r.Shape {
	case CircleShape:
		return r.WidthMM
	case OvalShape, RectangleShape:
		return math.Min(r.WidthMM, r.HeightMM)
	}
	lo, hi := 0.0, most
	if len(l.Inset(hi/2)) > 0 {
		return hi
	}
	for hi-lo > plane.FitTolerance {
		if mid := (lo + hi) / 2; len(l.Inset(mid/2)) > 0 {
			lo = mid
		} else {
			hi = mid
		}
	}
	return lo
}
