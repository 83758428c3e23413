package unroll

import (
	"math"
	"math/big"
	"strconv"
	"testing"

	"fretband/unroll/plane"

	"github.com/stretchr/testify/assert"
	"gonum.org/v1/gonum/integrate/quad"
)

// bruteSolid integrates the map itself over a rectangle of band coordinates, its
// volume element from differences of Bend: the slow, obvious way.
func bruteSolid(f Flat, x0, x1, v0, v1 float64, n int) Solid {
	const h = 2e-4
	var s Solid
	gauss := func(lo, hi float64, n int) (x, w []float64) {
		x, w = make([]float64, n), make([]float64, n)
		quad.Legendre{}.FixedLocations(x, w, lo, hi)
		return x, w
	}
	cuts := []float64{x0, x1}
	if f.LeastRadius() < 5 { // a tight oval
		for i := 1.0; i < 8; i++ {
			cuts = append(cuts, x0+(x1-x0)*i/8)
		}
	}
	for _, b := range f.way.breaks() {
		for _, k := range []float64{-1, 0, 1} {
			if c := b + k*f.way.around(); c > x0 && c < x1 {
				cuts = append(cuts, c)
			}
		}
	}
	sortAll(cuts)
	vs, vw := gauss(v0, v1, n)
	ds, dw := gauss(0, f.Thickness, 4)
	for c := range cuts[1:] {
		xs, xw := gauss(cuts[c], cuts[c+1], n)
		for i, x := range xs {
			for j, v := range vs {
				for k, d := range ds {
					at := func(dx, dv, dd float64) Point3 { return f.Bend(f.Place(x+dx, v+dv), d+dd) }
					p := at(0, 0, 0)
					ex, ev, ed := diff(at(h, 0, 0), at(-h, 0, 0)), diff(at(0, h, 0), at(0, -h, 0)), diff(at(0, 0, h), at(0, 0, -h))
					det := ex.X*(ev.Y*ed.Z-ev.Z*ed.Y) - ex.Y*(ev.X*ed.Z-ev.Z*ed.X) + ex.Z*(ev.X*ed.Y-ev.Y*ed.X)
					dv := det / (8 * h * h * h) * xw[i] * vw[j] * dw[k]
					s = s.Add(Solid{1, p}, dv)
				}
			}
		}
	}
	return s
}

// Abramowitz & Stegun, table 25.4: n places at the zeros of the Legendre polynomial, with
// the weights 2 / ((1 - x^2) P'(x)^2) (eq. 25.4.29), which integrate polynomials up to the
// degree 2n - 1 exactly. They are reckoned here in 200 bits and held to every digit.
func TestPlacesOfQuadratureAreTheZerosOfLegendrePolynomials(t *testing.T) {
	for _, share := range []float64{0.1, 0.5, 1} {
		nodes, weights := legendre(share)
		n := len(nodes)
		for i, x := range nodes {
			z, w := legendreZero(n, x)
			assert.Equal(t, z.Text('f', 15), strconv.FormatFloat(x, 'f', 15, 64), "place %d of %d", i, n)
			assert.Equal(t, w.Text('f', 15), strconv.FormatFloat(weights[i], 'f', 15, 64), "weight %d of %d", i, n)
		}
		assert.IsIncreasing(t, nodes)
		for degree := range 2 * n {
			sum, want := 0.0, 0.0
			for i, x := range nodes {
				sum += weights[i] * math.Pow(x, float64(degree))
			}
			if degree%2 == 0 {
				want = 2 / float64(degree+1)
			}
			assert.InDelta(t, want, sum, 1e-14, "%d places, degree %d", n, degree)
		}
	}
	for share, n := range map[float64]int{0.1999: 3, 0.2: 5, 0.7999: 5, 0.8: 10} {
		nodes, _ := legendre(share)
		assert.Len(t, nodes, n, "%v of the smooth length", share)
	}
}

// legendreZero brings x to the zero of the Legendre polynomial of degree n that is near it,
// by Newton's steps, and returns the weight of that zero too.
func legendreZero(n int, x float64) (zero, weight *big.Float) {
	num := func(v float64) *big.Float { return new(big.Float).SetPrec(200).SetFloat64(v) }
	mul := func(a, b *big.Float) *big.Float { return num(0).Mul(a, b) }
	sub := func(a, b *big.Float) *big.Float { return num(0).Sub(a, b) }
	quo := func(a, b *big.Float) *big.Float { return num(0).Quo(a, b) }
	z := num(x)
	var slope, rest *big.Float // P' and 1 - x^2
	for range 8 {
		p0, p1 := num(1), z
		for k := 2; k <= n; k++ { // Bonnet: k P(k) = (2k - 1) x P(k-1) - (k - 1) P(k-2)
			p0, p1 = p1, quo(sub(mul(num(float64(2*k-1)), mul(z, p1)), mul(num(float64(k-1)), p0)), num(float64(k)))
		}
		rest = sub(num(1), mul(z, z))
		slope = quo(mul(num(float64(n)), sub(p0, mul(z, p1))), rest)
		z = sub(z, quo(p1, slope))
	}
	return z, quo(num(2), mul(rest, mul(slope, slope)))
}

func sortAll(xs []float64) {
	for i := range xs {
		for j := range i {
			if xs[i] < xs[j] {
				xs[i], xs[j] = xs[j], xs[i]
			}
		}
	}
}

func diff(p, q Point3) Point3 { return Point3{p.X - q.X, p.Y - q.Y, p.Z - q.Z} }

// patch is a loop round band coordinates x0..x1, v0..v1: on a flared band two of
// its sides are arcs.
func patch(f Flat, x0, x1, v0, v1 float64) plane.Loop {
	if f.cone == nil {
		return plane.Rect(plane.Box{Min: plane.Pt(x0, v0), Max: plane.Pt(x1, v1)})
	}
	b := math.Tan((x1 - x0) / f.cone.apex / 4)
	return plane.Loop{{Point: f.Place(x0, v0), Bulge: -b}, {Point: f.Place(x1, v0)}, {Point: f.Place(x1, v1), Bulge: b}, {Point: f.Place(x0, v1)}}
}

func TestVolumesAgainstIntegrationOfTheMap(t *testing.T) {
	for name, b := range everyForm() {
		f := unroll(t, b)
		for _, r := range [][4]float64{{-0.3, 0.11, -0.4, 0.45}, {0.1, 0.16, 0.2, 0.31}, {-0.5, 0.5, -0.5, 0.5}} {
			x0, x1, v0, v1 := r[0]*f.Length, r[1]*f.Length, r[2]*f.Width, r[3]*f.Width
			l := patch(f, x0, x1, v0, v1)
			want := bruteSolid(f, x0, x1, v0, v1, 24)
			got := f.Solid(l)
			assert.InEpsilon(t, want.Volume, got.Volume, 2e-7, name)
			assert.InEpsilon(t, got.Volume, f.Volume(l), 1e-10, name)
			size := want.Volume * (f.Oval.A + f.Oval.B)
			assert.InDelta(t, 0, math.Abs(want.Moment.X-got.Moment.X)/size, 2e-7, name)
			assert.InDelta(t, 0, math.Abs(want.Moment.Y-got.Moment.Y)/size, 2e-7, name)
			assert.InDelta(t, 0, math.Abs(want.Moment.Z-got.Moment.Z)/size, 2e-7, name)
			// A face's area is the derivative of the volume by the depth: the volume
			// is the integral of the area.
			sum := quad.Fixed(func(d float64) float64 { return f.AreaAt(l, d) }, 0, f.Thickness, 4, quad.Legendre{}, 0)
			assert.InEpsilon(t, f.Volume(l), sum, 1e-10, name)
		}
	}
}

// A round opening, cut in parts by the places where a straight side begins.
func TestVolumesOfRoundOpeningsOverABreak(t *testing.T) {
	f := unroll(t, with(cuff(60, 44, 25, 2), func(b *Band) { b.Inside.By = BySides; b.Making, b.Drawn = Formed, InnerFace }))
	// Drawn on the inner face: over the straight run a prism, over the half circle
	// (1 + t/2R) times it. The run ends at x = 8; a circle about there has half
	// its area on either side.
	c := plane.Circle(plane.Pt(8, 3), 2)
	want := 2 * math.Pi * 4 * (1 + (1 + 2.0/(2*22))) / 2
	assert.InDelta(t, want, f.Volume(c), 1e-12)
	assert.InDelta(t, want, f.Solid(c).Volume, 1e-6)
	assert.InDelta(t, math.Pi*4, f.AreaAt(c, 0), 1e-12)
	assert.InDelta(t, math.Pi*4*(1+(1+2.0/22))/2, f.AreaAt(c, 2), 1e-12)
}

// Where the drawing is half way, or the blank is bent there, volume is area
// times thickness for every band that is not domed (J. Steiner).
func TestHalfWayVolumeIsAreaTimesThickness(t *testing.T) {
	for name, b := range everyForm() {
		f := unroll(t, b)
		if f.dome != nil || math.Abs(f.Neutral-f.Thickness/2) > 1e-12 {
			continue
		}
		assert.InEpsilon(t, f.Outline.Area()*f.Thickness, f.Volume(f.Outline), 1e-9, name)
	}
}

// A closed round band is a tube: pi (R2^2 - R1^2) w, whichever face is drawn; and
// a formed flared one a frustum's shell (T. Pappus: the section times the way of
// its centre).
func TestVolumesOfTubesAndShells(t *testing.T) {
	for _, drawn := range []string{InnerFace, MiddleFace, OuterFace} {
		b := closed(Bangle, 60, 60, 2)
		b.Making, b.Drawn = Formed, drawn
		f := unroll(t, b)
		assert.InDelta(t, math.Pi*(32*32-30*30)*8, f.Volume(f.Outline), 1e-9, drawn)
		assert.InDelta(t, 2*math.Pi*30*8, f.AreaAt(f.Outline, 0), 1e-9, drawn)
		assert.InDelta(t, 2*math.Pi*32*8, f.AreaAt(f.Outline, 2), 1e-9, drawn)
		b.FlareDeg = 20
		f = unroll(t, b)
		centre := 30 + math.Cos(20*math.Pi/180) // half the thickness out along the normal
		assert.InDelta(t, 2*math.Pi*centre*8*2, f.Volume(f.Outline), 1e-6, drawn)
	}
}

// Archimedes: a zone of a sphere has the area 2 pi R h; R 40, h 30 from -10 to
// 20 would not be symmetric, so here the zone -15 to 15 of the same h. And the
// barrel of meridian 100, equator 30, half width 10: 3748.977703 (closed form
// 2 pi (2 w (r0 - rho) + 2 rho^2 sin(w/rho))).
func TestAreasOfZonesAndBarrels(t *testing.T) {
	half := 40 * math.Asin(15.0/40)
	for _, flat := range []string{ArcLength, Conformal, EqualArea} {
		b := closed(Bangle, 80-1, 80-1, 1)
		b.WidthMM, b.EndWidthMM = 2*half, 2*half
		b.Dome, b.DomeRadiusMM, b.DomeFlat = Outward, 40, flat
		f := unroll(t, b)
		assert.InDelta(t, 7539.822369, f.AreaAt(f.Outline, f.Neutral), 1e-5, flat)
		if flat == EqualArea {
			assert.InDelta(t, 7539.822369, f.Outline.Area(), 1e-5)
		}
		// The shell between two spheres: (2/3) pi (R2^3 - R1^3) times the zone's
		// share of the height, as every radius is cut by the same cone.
		assert.InDelta(t, 4*math.Pi/3*(math.Pow(40.5, 3)-math.Pow(39.5, 3))*15/40, f.Volume(f.Outline), 1e-6)

		b = closed(Bangle, 60-1, 60-1, 1)
		b.WidthMM, b.EndWidthMM = 20, 20
		b.Dome, b.DomeRadiusMM, b.DomeFlat = Outward, 100, flat
		f = unroll(t, b)
		assert.InDelta(t, 3748.977703, f.AreaAt(f.Outline, f.Neutral), 1e-5, flat)
		_, v := f.EdgesAt(0)
		edge := f.Bend(plane.Pt(0, v), f.Neutral)
		assert.InDelta(t, 185.356584, 2*math.Pi*edge.Y, 1e-6)
	}
}

func BenchmarkVolume(b *testing.B) {
	f := unroll(b, with(cuff(60, 48, 25, 1.2), func(b *Band) { b.Making, b.Drawn = Formed, InnerFace }))
	l := plane.Polygon(plane.Pt(3, 1), plane.Pt(7, 1), plane.Pt(5, 4))
	for range b.N {
		f.Volume(l)
	}
}

func BenchmarkSolid(b *testing.B) {
	f := unroll(b, cuff(60, 48, 25, 1.2))
	l := plane.Polygon(plane.Pt(3, 1), plane.Pt(7, 1), plane.Pt(5, 4))
	for range b.N {
		f.Solid(l)
	}
}

func TestSlicesGiveTheSameSolids(t *testing.T) {
	tri := plane.Loop{{Point: plane.Pt(-2, -1.5), Bulge: 0.2}, {Point: plane.Pt(2, -1.2)}, {Point: plane.Pt(0.3, 2.5), Bulge: -0.1}}
	for name, b := range forms() {
		f := unroll(t, b)
		s, ok := f.Slices(tri)
		if !ok {
			continue
		}
		for _, x := range []float64{0, 7.3, -0.4 * f.Length, 0.499 * f.Length} {
			at := plane.Pt(x, 1.7)
			want := f.Solid(tri.Move(at))
			got, ok := f.SolidAt(s, at)
			assert.True(t, ok)
			assert.InEpsilon(t, want.Volume, got.Volume, 1e-6, name)
			size := 1e-6 * want.Volume * (f.Oval.A + f.Oval.B)
			assert.InDelta(t, want.Moment.X, got.Moment.X, size, name)
			assert.InDelta(t, want.Moment.Y, got.Moment.Y, size, name)
			assert.InDelta(t, want.Moment.Z, got.Moment.Z, size, name)
		}
	}
	f := unroll(t, with(cuff(60, 44, 25, 2), func(b *Band) { b.Inside.By = BySides }))
	s, ok := f.Slices(tri)
	assert.True(t, ok)
	_, ok = f.SolidAt(s, plane.Pt(8, 0))
	assert.False(t, ok, "the straight side ends there")
	_, ok = f.SolidAt(s, plane.Pt(0, 0))
	assert.True(t, ok)
}

// Half a ring: a thin one's centre of gravity lies 2 R/pi from the middle, a
// thick one's at 4/(3 pi) (R2^3 - R1^3)/(R2^2 - R1^2) (any handbook of mechanics:
// half circular line, half annulus).
func TestTheCentreOfGravityOfHalfARing(t *testing.T) {
	for _, c := range []struct{ inner, thick float64 }{{30, 0.2}, {30, 2}, {10, 6}} {
		f := unroll(t, closed(Bangle, 2*c.inner, 2*c.inner, c.thick))
		half := patch(f, -f.Length/4, f.Length/4, -4, 4)
		s := f.Solid(half)
		r1, r2 := c.inner, c.inner+c.thick
		assert.InDelta(t, 4/(3*math.Pi)*(r2*r2*r2-r1*r1*r1)/(r2*r2-r1*r1), s.Moment.Y/s.Volume, 1e-9)
		if c.thick == 0.2 {
			assert.InDelta(t, 2*30.1/math.Pi, s.Moment.Y/s.Volume, 1e-3)
		}
		assert.InDelta(t, 0, s.Moment.X/s.Volume, 1e-9)
		assert.InDelta(t, 0, s.Moment.Z/s.Volume, 1e-9)
	}
}
