package unroll

import (
	"math"
	"math/rand/v2"
	"testing"

	"fretband/unroll/plane"

	"github.com/stretchr/testify/assert"
	"gonum.org/v1/gonum/integrate/quad"
)

func TestBlankLengthsAgreeWithThePublishedOnes(t *testing.T) {
	for _, c := range []struct {
		band      Band
		want, tol float64
		source    string
	}{
		{closed(Ring, 18.4, 18.4, 1), 60.947, 1e-3, "N. L. T. Hamilton, ring blank sizing: (ID + t) pi, with true pi"},
		{closed(Ring, 18.4, 18.4, 1), 61, 0.1, "the same, as printed"},
		{closed(Bangle, 60, 40, 1.3), 158.6543958929 + math.Pi*1.3, 1e-9, "Orchid 44408 oval, and inside circumference + 3.14 t (Orchid 49084)"},
		{closed(Bangle, 58, 45, 1.2), 166.2069084236, 1e-8, "J. Steiner: P + 2 pi d; the parallel curve by 400,000 chords"},
	} {
		assert.InDelta(t, c.want, unroll(t, c.band).Length, c.tol, c.source)
	}
}

// Steiner's formula for the whole, and gonum's quadrature of the parallel
// curve's own speed for the part that a cuff leaves.
func TestLengthIsTakenOnTheParallelCurveOfTheOval(t *testing.T) {
	for name, b := range forms() {
		f := unroll(t, b)
		whole := f.Oval.Circumference() + 2*math.Pi*f.Neutral
		assert.InDelta(t, whole, f.Length+f.GapNeutral, 1e-10, name)

		// The gap's half angle, by bisection on quadrature of the inner face.
		end := math.Pi
		if b.GapMM > 0 {
			lo, hi := 0.0, math.Pi
			for range 60 {
				end = (lo + hi) / 2
				if quad.Fixed(f.Oval.speed, end, math.Pi, 300, quad.Legendre{}, 0) > b.GapMM/2 {
					lo = end
				} else {
					hi = end
				}
			}
		}
		parallel := func(u float64) float64 {
			const h = 1e-5
			p, n := f.Oval.at(u - h)
			q, m := f.Oval.at(u + h)
			return p.Add(n.Mul(f.Neutral)).Dist(q.Add(m.Mul(f.Neutral))) / (2 * h)
		}
		assert.InDelta(t, f.Length/2, quad.Fixed(parallel, 0, end, 300, quad.Legendre{}, 0), 1e-6, name)
	}
}

func TestBendAndUnbendAreInverse(t *testing.T) {
	rnd := rand.New(rand.NewPCG(1, 2))
	for name, b := range everyForm() {
		f := unroll(t, b)
		for range 1000 {
			x, v := (rnd.Float64()-0.5)*f.Length, (rnd.Float64()-0.5)*f.Width
			p := f.Place(x, v)
			x2, v2 := f.Where(p)
			assert.InDelta(t, x, x2, 1e-9, name)
			assert.InDelta(t, v, v2, 1e-9, name)
			d := rnd.Float64() * f.Thickness
			q, e := f.Unbend(f.Bend(p, d))
			assert.InDelta(t, 0, q.Dist(p), 1e-9, "%s %v", name, p)
			assert.InDelta(t, d, e, 1e-9, name)
		}
	}
}

func TestNothingIsStretchedOnTheNeutralSurface(t *testing.T) {
	const h = 1e-4
	for name, b := range forms() {
		f := unroll(t, b)
		for i := range 400 {
			x := (float64(i)/400 - 0.5) * (f.Length - 2*h)
			p := f.Bend(plane.Pt(x-h, 0), f.Neutral)
			q := f.Bend(plane.Pt(x+h, 0), f.Neutral)
			assert.InDelta(t, 1, math.Hypot(p.X-q.X, p.Y-q.Y)/(2*h), 1e-6, "%s at %v", name, x)
			// The outer face is longer by curvature x depth, seen from the neutral one.
			_, _, k := f.Station(x)
			p, q = f.Bend(plane.Pt(x-h, 0), f.Thickness), f.Bend(plane.Pt(x+h, 0), f.Thickness)
			want := (1 + k*f.Thickness) / (1 + k*f.Neutral)
			assert.InDelta(t, want, math.Hypot(p.X-q.X, p.Y-q.Y)/(2*h), 1e-6, "%s at %v", name, x)
		}
	}
}

// The table of the inverse against bisection on the arc length itself.
func TestStationsAreWhereTheLengthSaysTheyAre(t *testing.T) {
	rnd := rand.New(rand.NewPCG(3, 4))
	for name, b := range forms() {
		l := unroll(t, b).way.(*neutralLine)
		for range 300 {
			x := rnd.Float64() * l.quarter
			assert.InDelta(t, x, l.length(l.quarterU(x)), 1e-10, name)
		}
	}
}

func TestAFullLengthComesBackToTheSamePlace(t *testing.T) {
	f := unroll(t, closed(Bangle, 62, 54, 1.5))
	p, q := f.Bend(plane.Pt(11, 2), 0.3), f.Bend(plane.Pt(11+3*f.Period, 2), 0.3)
	assert.InDelta(t, 0, math.Hypot(p.X-q.X, p.Y-q.Y), 1e-9)
	back := f.Bend(plane.Pt(f.Length/2, 0), 0)
	assert.InDelta(t, 0, math.Hypot(back.X, back.Y+27), 1e-9, "the joint is at the back")
	front := f.Bend(plane.Pt(0, 3), 0)
	assert.Equal(t, Point3{0, 27, 3}, front)
}

func TestTheGapOfACuffIsMeasuredInsideAndCentredAtTheBack(t *testing.T) {
	f := unroll(t, cuff(64, 64, 25, 1.2)) // round: the gap is a plain arc
	half := 25 / 2.0 / 32
	for _, side := range []float64{-1, 1} {
		end := f.Bend(plane.Pt(side*f.Length/2, 0), 0)
		assert.InDelta(t, -side*32*math.Sin(half), end.X, 1e-9)
		assert.InDelta(t, -32*math.Cos(half), end.Y, 1e-9)
	}
	assert.InDelta(t, 25*(1+0.6/32), f.GapNeutral, 1e-9)
	assert.Equal(t, 0.0, f.Period)
}

// Seen from outside, with the axis up: right, up and towards the eye are a
// right-handed set, as x, y and the depth are on the flat.
func TestThePieceIsNotMirrored(t *testing.T) {
	const h = 1e-4
	for name, b := range forms() {
		f := unroll(t, b)
		for _, x := range []float64{0, f.Length / 5, -f.Length / 3} {
			sub := func(p, q Point3) Point3 { return Point3{p.X - q.X, p.Y - q.Y, p.Z - q.Z} }
			o := f.Bend(plane.Pt(x, 0), 0)
			ex := sub(f.Bend(plane.Pt(x+h, 0), 0), o)
			ey := sub(f.Bend(plane.Pt(x, h), 0), o)
			ed := sub(f.Bend(plane.Pt(x, 0), h), o)
			det := ex.X*(ey.Y*ed.Z-ey.Z*ed.Y) - ex.Y*(ey.X*ed.Z-ey.Z*ed.X) + ex.Z*(ey.X*ed.Y-ey.Y*ed.X)
			assert.Greater(t, det/(h*h*h), 0.2, name)
			assert.Greater(t, ed.X*o.X+ed.Y*o.Y, 0.0, "the outer face lies outside")
		}
	}
}

func TestNeutralKPlacesTheNeutralSurface(t *testing.T) {
	a, b := closed(Ring, 17.2, 17.2, 1.4), closed(Ring, 17.2, 17.2, 1.4)
	b.NeutralK = 0.33
	assert.InDelta(t, 2*math.Pi*1.4*(0.5-0.33), unroll(t, a).Length-unroll(t, b).Length, 1e-10)
}

func TestEdgesFollowTheTaper(t *testing.T) {
	f := unroll(t, tapered(cuff(60, 48, 25, 1.2), 30, 22))
	for _, c := range []struct{ x, half float64 }{
		{0, 15}, {f.Length / 2, 11}, {-f.Length / 2, 11}, {f.Length / 4, 13}, {f.Length, 11},
	} {
		bottom, top := f.EdgesAt(c.x)
		assert.InDelta(t, c.half, top, 1e-12)
		assert.InDelta(t, -c.half, bottom, 1e-12)
	}
}

func TestAFlatMadeByHandStillBends(t *testing.T) {
	made := unroll(t, closed(Bangle, 62, 54, 1.5))
	byHand := Flat{Length: made.Length, Width: made.Width, Thickness: made.Thickness, Period: made.Period, Oval: made.Oval, Neutral: made.Neutral}
	p := plane.Pt(37, 1)
	assert.Equal(t, made.Bend(p, 0.2), byHand.Bend(p, 0.2))
	_, top := byHand.EdgesAt(3)
	assert.Equal(t, 4.0, top)
}

func BenchmarkBend(b *testing.B) {
	f := unroll(b, cuff(60, 48, 25, 1.2))
	for i := range b.N {
		f.Bend(plane.Pt(float64(i%140)-70, 1), 0.6)
	}
}

func BenchmarkUnbend(b *testing.B) {
	f := unroll(b, cuff(60, 48, 25, 1.2))
	q := f.Bend(plane.Pt(31, 1), 0.6)
	for range b.N {
		f.Unbend(q)
	}
}

func BenchmarkUnroll(b *testing.B) {
	band := tapered(cuff(60, 48, 25, 1.2), 30, 22)
	band.EndCornerMM = 6
	for range b.N {
		if _, err := Unroll(band); err != nil {
			b.Fatal(err)
		}
	}
}

// A ring of the inner radius R of sheet t, its neutral surface at d: the length
// 2 pi (R + d) times t is the area of the annulus R to R + t' (closed form).
func TestBentSheetKeepsTheVolumeOfTheAnnulus(t *testing.T) {
	for _, k := range []float64{0.3, 0.33, 0.5, 0.6} {
		b := closed(Ring, 17.2, 17.2, 1.4)
		b.NeutralK = k
		f, err := Unroll(b)
		assert.NoError(t, err)
		r := f.Oval.A
		got := f.ThicknessAt(plane.Pt(3, 1))
		assert.InDelta(t, f.Length*f.Thickness, math.Pi*((r+got)*(r+got)-r*r), 1e-9)
		if k == 0.5 {
			assert.InDelta(t, f.Thickness, got, 1e-12)
		}
	}
}
