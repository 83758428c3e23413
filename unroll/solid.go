package unroll

import (
	"math"
	"sort"

	"fretband/unroll/plane"
)

// Solid is the metal over an area of the flat once the band has its
// form: all depths from the inner to the outer face, with walls along the normal.
type Solid struct {
	Volume float64 // mm^3
	// Moment is the first moment of the volume, mm^4: divided by Volume it is the
	// centre of gravity, in the coordinates of [Flat.Bend].
	Moment Point3
}

// Add returns both together, s + k t.
func (s Solid) Add(t Solid, k float64) Solid {
	return Solid{s.Volume + k*t.Volume, Point3{s.Moment.X + k*t.Moment.X, s.Moment.Y + k*t.Moment.Y, s.Moment.Z + k*t.Moment.Z}}
}

// A volume on the flat is an integral over its area: at a height h over the
// drawn surface, an area dA of it has become (1 + k1 h) (1 + k2 h) dA, k1 and k2
// the curvatures of the surface there (J. Steiner's formula for parallel
// surfaces). By Green's theorem an integral of g over the inside of a loop is
// that of -G dx round it, G the integral of g across the band from the middle
// line; G is a closed form for every band here. What is left is one integral
// along each edge: a closed form too where the curvature is constant in pieces
// (lines and arcs of the course), else Gauss-Legendre quadrature, whose error is
// far under 1e-9 of the whole.

// Volume returns the volume, mm^3, of the metal on the inside of a loop of the
// flat, walls along the normal, as [Solid] has it.
func (f Flat) Volume(l plane.Loop) float64 {
	a, b := -f.Neutral, f.Thickness-f.Neutral
	if f.cone == nil && f.dome == nil {
		return f.cylinderIntegral(l, b-a, (b*b-a*a)/2)
	}
	w := f.newWeights()
	return f.around(l, func(x, v float64) [4]float64 { return [4]float64{f.volumeTo(&w, x, v)} })[0]
}

// AreaAt returns the area, mm^2, that the inside of a loop of the flat has on the
// band at the given depth: on the inner face at 0, on the outer one at Thickness.
func (f Flat) AreaAt(l plane.Loop, depth float64) float64 {
	h := depth - f.Neutral
	switch {
	case f.cone != nil:
		c := f.cone
		return f.around(l, func(_, v float64) [4]float64 {
			return [4]float64{v * (1 + (v*c.sin/2+h*c.cos)/c.r)}
		})[0]
	case f.dome != nil:
		d := f.dome
		s := d.r + h
		return f.around(l, func(x, v float64) [4]float64 {
			k, t := f.bentBy(x), d.rise(v)
			return [4]float64{s / d.r * (t*(1-k*d.r) + k*s*d.r*math.Sin(t/d.r))}
		})[0]
	}
	return f.cylinderIntegral(l, 1, h)
}

// Solid returns volume and moment of the metal on the inside of a loop.
func (f Flat) Solid(l plane.Loop) Solid {
	w := f.newWeights()
	g := f.around(l, func(x, v float64) [4]float64 { return f.solidTo(&w, x, v) })
	return Solid{g[0], Point3{g[1], g[2], g[3]}}
}

// drawn returns the position of the drawn surface at x on the middle line, its
// normal and its curvature along the band.
func (f *Flat) drawn(x float64) (p, n plane.Point, k float64) {
	p, n, k = f.course().station(x)
	return p.Add(n.Mul(f.Neutral)), n, k / (1 + k*f.Neutral)
}

// bentBy returns the curvature of the drawn surface along the band at x.
func (f *Flat) bentBy(x float64) float64 {
	k := f.course().curvature(x)
	return k / (1 + k*f.Neutral)
}

// weights are the integrals over the height that all positions share.
type weights struct {
	a, b       float64 // heights of the inner and outer face
	m0, m1, m2 float64 // of h^n
	s1, s2, s3 float64 // of (r + h)^n, r the radius of a dome
}

func (f *Flat) newWeights() weights {
	w := weights{a: -f.Neutral, b: f.Thickness - f.Neutral}
	w.m0 = w.b - w.a
	w.m1 = (w.b*w.b - w.a*w.a) / 2
	w.m2 = (w.b*w.b*w.b - w.a*w.a*w.a) / 3
	if d := f.dome; d != nil {
		// About the middle of the sheet, where odd powers cancel.
		c, h := d.r+(w.a+w.b)/2, w.m0
		w.s1 = c * h
		w.s2 = c*c*h + h*h*h/12
		w.s3 = c*c*c*h + c*h*h*h/4
	}
	return w
}

// volumeTo returns the volume a mm of length at x has between the middle line
// and v.
func (f *Flat) volumeTo(w *weights, x, v float64) float64 {
	if c := f.cone; c != nil {
		// The integral of (r + v sin + h cos)/r.
		return v * (w.m0 + (w.m0*v*c.sin/2+w.m1*c.cos)/c.r)
	}
	k := f.bentBy(x)
	if d := f.dome; d != nil {
		t := d.rise(v)
		return w.s1*t/d.r + k*(w.s2*math.Sin(t/d.r)-w.s1*t)
	}
	return v * (w.m0 + k*w.m1)
}

// solidTo returns volume and moments a mm of length at x has between the middle
// line and v.
func (f *Flat) solidTo(w *weights, x, v float64) [4]float64 {
	if c := f.cone; c != nil {
		// With R = r + v sin + h cos the radius, a volume R/r dx dv dh is at
		// R from the axis and at v cos - h sin along it. Two places of Gauss and
		// Legendre each way are exact for these squares.
		var g [4]float64
		sin, cos := math.Sincos(x / c.r)
		const root = 0.5773502691896257
		for _, i := range [2]float64{-root, root} {
			for _, j := range [2]float64{-root, root} {
				u := v / 2 * (1 + i)
				h := (w.a+w.b)/2 + w.m0/2*j
				r := c.r + u*c.sin + h*c.cos
				dv := v / 2 * w.m0 / 2 * r / c.r
				g[0] += dv
				g[1] -= dv * r * sin
				g[2] += dv * r * cos
				g[3] += dv * (u*c.cos - h*c.sin)
			}
		}
		return g
	}
	p, n, k := f.drawn(x)
	vol, out, z := v*(w.m0+k*w.m1), v*(w.m1+k*w.m2), v*v/2*(w.m0+k*w.m1)
	if d := f.dome; d != nil {
		// s = r + h, q = s cos(t/r) - r how far out from the middle line; the
		// integrals over t of s/r (1 + k q) {1, q, s sin(t/r)}.
		t := d.rise(v)
		sin, cos := math.Sincos(t / d.r)
		q1 := w.s2*sin - w.s1*t
		q2 := d.r*t*w.s1 - 2*d.r*sin*w.s2 + (t/d.r+sin*cos)/2*w.s3
		vol = w.s1*t/d.r + k*q1
		out = q1 + k*q2
		z = (1-k*d.r)*w.s2*(1-cos) + k*w.s3*sin*sin/2
	}
	return [4]float64{vol, p.X*vol + n.X*out, p.Y*vol + n.Y*out, z}
}

// around returns the integral of -g dx round the loop.
func (f *Flat) around(l plane.Loop, g func(x, v float64) [4]float64) (sum [4]float64) {
	smooth := f.smooth()
	for i := range l {
		f.parts(l.Edge(i), func(e plane.Edge) {
			long := e.Len()
			sweep := e.Sweep()
			n := max(1, int(math.Ceil(math.Max(long/smooth, math.Abs(sweep)/(math.Pi/2)))))
			turn := 4. / 3 * math.Abs(sweep)
			if long < smooth/20 { // a rounded corner: a small part of the whole
				turn = math.Abs(sweep) / 4
			}
			nodes, weights := legendre(math.Max(long/smooth, turn) / float64(n))
			at := pacer(e, sweep)
			for j := range n {
				for m, z := range nodes {
					t := (float64(j) + (1+z)/2) / float64(n)
					p, d := at(t)
					d = d.Mul(long / float64(2*n) * weights[m])
					x, v, dx := p.X, p.Y, d.X
					if c := f.cone; c != nil {
						x, v = c.where(p)
						// d(angle) of the way about the apex, times the apex's distance.
						y := p.Y + c.apex
						dx = c.apex * (y*d.X - p.X*d.Y) / (p.X*p.X + y*y)
					}
					for i, y := range g(x, v) {
						sum[i] -= y * dx
					}
				}
			}
		})
	}
	return sum
}

// pacer returns the position and the unit direction at fractions of an edge, as
// [plane.Edge.At] and [plane.Edge.Tangent] do, with what they share worked out
// once.
func pacer(e plane.Edge, sweep float64) func(t float64) (p, d plane.Point) {
	chord := e.B.Sub(e.A)
	dir := chord.Unit()
	switch {
	case e.Bulge == 0:
		return func(t float64) (p, d plane.Point) { return e.A.Add(chord.Mul(t)), dir }
	case math.Abs(e.Bulge) <= 1:
		k := 1 / math.Sin(sweep/2)
		return func(t float64) (p, d plane.Point) {
			// By the inscribed angle: the chord to the position makes half the angle of what is
			// left of the sweep off the whole chord.
			s, c := math.Sincos(sweep * t / 2)
			sin, cos := math.Sincos(sweep * (1 - t) / 2)
			to := plane.Pt(chord.X*cos+chord.Y*sin, chord.Y*cos-chord.X*sin)
			// The direction there is that of the chord to it, turned by as much as
			// that chord is off the first tangent.
			u := plane.Pt(dir.X*cos+dir.Y*sin, dir.Y*cos-dir.X*sin)
			return e.A.Add(to.Mul(s * k)), plane.Pt(u.X*c-u.Y*s, u.X*s+u.Y*c)
		}
	}
	return func(t float64) (p, d plane.Point) { return e.At(t), e.Tangent(t) }
}

// smooth is a length over which the band turns by half a radian at most.
func (f *Flat) smooth() float64 {
	r := f.course().leastRadius() / 2
	if f.cone != nil {
		r = f.LeastRadius() / 2
	}
	if f.dome != nil {
		r = math.Min(r, math.Abs(f.dome.r)/2)
	}
	return math.Max(r, 0.5)
}

// legendre returns places and weights of Gauss-Legendre quadrature (Abramowitz &
// Stegun, table 25.4) for a part of the given share of the smooth length, over
// which the band turns by half a radian, or of three quarters of a radian of its
// own sweep. The error of n positions over the angle h, h^(2n+1) (n!)^4/((2n+1)
// (2n)!^3) times the 2n-th derivative (eq. 25.4.30), stays under 1e-10 of the whole.
func legendre(share float64) (nodes, weights []float64) {
	switch {
	case share < 0.2:
		return gauss3[0][:], gauss3[1][:]
	case share < 0.8:
		return gauss5[0][:], gauss5[1][:]
	}
	return gauss10[0][:], gauss10[1][:]
}

var gauss3 = [2][3]float64{
	{-0.774596669241483, 0, 0.774596669241483},
	{0.555555555555556, 0.888888888888889, 0.555555555555556},
}

var gauss5 = [2][5]float64{
	{-0.906179845938664, -0.538469310105683, 0, 0.538469310105683, 0.906179845938664},
	{0.236926885056189, 0.478628670499366, 0.568888888888889, 0.478628670499366, 0.236926885056189},
}

var gauss10 = [2][10]float64{
	{-0.973906528517172, -0.865063366688985, -0.679409568299024, -0.433395394129247, -0.148874338981631,
		0.148874338981631, 0.433395394129247, 0.679409568299024, 0.865063366688985, 0.973906528517172},
	{0.066671344308688, 0.149451349150581, 0.219086362515982, 0.269266719309996, 0.295524224714753,
		0.295524224714753, 0.269266719309996, 0.219086362515982, 0.149451349150581, 0.066671344308688},
}

// cylinderIntegral returns the integral of a + b k over the inside of a loop, k
// the curvature of the drawn surface along the band.
func (f *Flat) cylinderIntegral(l plane.Loop, a, b float64) float64 {
	var constant bool
	switch w := f.course().(type) {
	case *bows:
		constant = true
	case *neutralLine:
		constant = w.oval.A == w.oval.B
	}
	// The sheet's own half way of a band is (exactly) free of the curvature.
	if math.Abs(b) < 1e-15 {
		return a * l.Area()
	}
	if !constant {
		return f.around(l, func(x, v float64) [4]float64 {
			return [4]float64{v * (a + b*f.bentBy(x))}
		})[0]
	}
	var sum float64
	for i := range l {
		f.parts(l.Edge(i), func(e plane.Edge) {
			sum += (a + b*f.bentBy(e.Mid().X)) * under(e)
		})
	}
	return sum
}

// under returns the integral of -y dx along an edge: what it adds to an area.
func under(e plane.Edge) float64 {
	area := -(e.A.Y + e.B.Y) / 2 * (e.B.X - e.A.X)
	b := e.Bulge
	c := e.Chord()
	switch {
	case b == 0:
	case math.Abs(b) < 1e-3:
		area += c * c * b / 3 * (1 + b*b/5) // series of the line below
	default:
		s, q := e.Sweep(), 1+b*b
		area += c * c * q * q / (32 * b * b) * (s - math.Sin(s))
	}
	return area
}

// parts calls do for the parts of an edge between the positions where the course's
// curvature jumps.
func (f *Flat) parts(e plane.Edge, do func(plane.Edge)) {
	breaks := f.course().breaks()
	if len(breaks) == 0 || f.cone != nil {
		do(e)
		return
	}
	box, whole := e.Bounds(), f.course().around()
	cuts := []float64{0}
	for _, b := range breaks {
		for b += whole * math.Ceil((box.Min.X-b)/whole); b < box.Max.X; b += whole {
			cuts = append(cuts, crossingsAt(e, b)...)
		}
	}
	if len(cuts) == 1 {
		do(e)
		return
	}
	cuts = append(cuts, 1)
	sort.Float64s(cuts)
	for i := range cuts[1:] {
		if cuts[i+1] > cuts[i] {
			do(e.Part(cuts[i], cuts[i+1]))
		}
	}
}

// crossingsAt returns the fractions at which an edge passes x.
func crossingsAt(e plane.Edge, x float64) (ts []float64) {
	stops := []float64{0, 1}
	if !e.IsLine() {
		// Where an arc turns back: its tangent, turning evenly, stands upright.
		a := e.Tangent(0)
		from := math.Atan2(a.Y, a.X)
		s := e.Sweep()
		for k := -3.0; k <= 3; k++ {
			if t := (math.Pi/2 + k*math.Pi - from) / s; t > 0 && t < 1 {
				stops = append(stops, t)
			}
		}
		sort.Float64s(stops)
	}
	for i := range stops[1:] {
		lo, hi := stops[i], stops[i+1]
		rising := 1.0
		if e.At(lo).X > e.At(hi).X {
			rising = -1
		}
		if (e.At(lo).X-x)*rising < 0 && (e.At(hi).X-x)*rising > 0 {
			ts = append(ts, root(lo, hi, func(t float64) float64 { return (e.At(t).X - x) * rising }))
		}
	}
	return ts
}
