package unroll

import (
	"math"
	"testing"

	"fretband/unroll/plane"

	"github.com/stretchr/testify/assert"
	"gonum.org/v1/gonum/integrate/quad"
)

func TestCircumferenceOfAnEllipseAgreesWithPublishedValues(t *testing.T) {
	for _, c := range []struct {
		a, b, want, tol float64
		source          string
	}{
		{10, 5, 48.442241102738, 1e-9, "Mathematica, printed in public test files"},
		{5, 10, 48.442241102738, 1e-9, "the same, axes exchanged"},
		{30, 20, 158.654, 1e-3, "L. Surpin, Ganoksin Orchid 44408: oval bangle 60 x 40 mm, \"better\" than the 157 of the mean circle"},
		{29, 22.5, 162.43699724101, 1e-10, "computed, 25 digits"},
		{30, 24, 170.17000733385, 1e-10, "computed, 25 digits"},
		{2, 1, 9.68844822054768, 1e-13, "computed, 25 digits"},
		{1, math.Sqrt(0.75), 4 * 1.4674622093394271, 1e-14, "Boost.Math TR1 test: E at modulus k = 0.5"},
		{1, math.Sqrt(0.5), 4 * 1.350643881047675, 1e-14, "mpmath documentation: E at parameter m = 0.5"},
		{7, 7, 2 * math.Pi * 7, 1e-13, "circle"},
	} {
		assert.InDelta(t, c.want, Oval{c.a, c.b}.Circumference(), c.tol, c.source)
	}
}

func TestArcOfAnEllipseAgreesWithPublishedValues(t *testing.T) {
	third := Oval{5, 10} // x = 5 cos t, y = 10 sin t with t = pi/2 - u
	assert.InDelta(t, 7.36358079139305, third.arc(2*math.Pi/5)-third.arc(math.Pi/10), 1e-9,
		"Mathematica, t from pi/10 to 2 pi/5")
	assert.InDelta(t, 9.0073890635296311, third.arc(2*math.Pi/5)-third.arc(0), 1e-9,
		"Mathematica, t from pi/10 to pi/2")
	for _, c := range []struct{ phi, k, want float64 }{
		{math.Pi / 8, 0.5, 0.3902387362837457},
		{math.Pi / 4, 0.25, 0.7809168245438629},
		{math.Pi / 4, 0.5, 0.7671959857111226},
		{math.Pi / 4, 0.75, 0.7432919634745029},
		{3 * math.Pi / 8, 0.5, 1.124570248666415},
		{math.Pi / 2, 0.75, 1.318472107994621},
	} {
		o := Oval{1, math.Sqrt(1 - c.k*c.k)}
		assert.InDelta(t, c.want, o.arc(c.phi), 1e-14, "Mathematica table of E(phi, k) in a public test")
	}
}

func TestArcIsTheIntegralOfItsSpeed(t *testing.T) {
	for _, o := range ovals {
		for _, u := range []float64{0.01, 0.4, 1, 1.5, math.Pi / 2} {
			want := quad.Fixed(o.speed, 0, u, 200, quad.Legendre{}, 0)
			assert.InDelta(t, want, o.arc(u), 1e-10, "%v to %v", o, u)
		}
	}
}

func TestOvalOfACircumferenceHasThatCircumferenceAndRatio(t *testing.T) {
	for _, ratio := range []float64{0.25, 0.5, 1, 1.25, 1.35, 2, 4} {
		o := OvalOf(170, ratio)
		assert.InDelta(t, 170, o.Circumference(), 1e-11)
		assert.InDelta(t, ratio, o.A/o.B, 1e-14)
	}
}

// The slow way: the greatest curvature found by walking round.
func TestLeastRadiusIsTheTightestPlace(t *testing.T) {
	for _, o := range ovals {
		least := math.Inf(1)
		for i := range 4000 {
			u := float64(i) * math.Pi / 2000
			g := o.speed(u)
			least = math.Min(least, g*g*g/(o.A*o.B))
		}
		assert.InDelta(t, least, o.LeastRadius(), 1e-9)
	}
}

// The slow way: the nearest of many points round the oval.
func TestNearestPointOfTheOval(t *testing.T) {
	for _, o := range ovals {
		for i := range 60 {
			at := plane.Pt(1.3*o.A*math.Cos(float64(i)), 1.3*o.B*math.Sin(float64(i)))
			foot, _ := o.at(o.nearest(at))
			least := math.Inf(1)
			for k := range 20000 {
				p, _ := o.at(float64(k) * math.Pi / 10000)
				least = math.Min(least, p.Dist(at))
			}
			assert.InDelta(t, least, foot.Dist(at), 1e-4)
			assert.LessOrEqual(t, foot.Dist(at), least+1e-12)
		}
		for _, p := range []plane.Point{{}, {X: o.A / 3}, {Y: -o.B / 3}, {X: 1e9, Y: -1e9}, {X: o.A}, {Y: -o.B}} {
			assert.False(t, math.IsNaN(o.nearest(p)), "%v %v", o, p)
		}
	}
}

var ovals = []Oval{{30, 24}, {24, 30}, {30, 20}, {8.6, 8.6}, {4, 4}, {75, 18.75}, {18.75, 75}, {29, 22.5}}
