package unroll

import (
	"math"
	"math/rand"
	"testing"

	"github.com/stretchr/testify/assert"

	"fretband/unroll/plane"
)

// The way on the flat of a place that goes along and across, against differences.
func TestWaysOnAFlattenedConeAreThoseOfDifferences(t *testing.T) {
	rng := rand.New(rand.NewSource(3))
	for range 200 {
		c := newCone((rng.Float64()-0.5)*1.5, 8+30*rng.Float64())
		x, v := 40*rng.Float64()-20, 10*rng.Float64()-5
		dx, dv := 2*rng.Float64()-1, 2*rng.Float64()-1
		p, way := c.placeWay(x, v, dx, dv)
		const h = 1e-5
		want := c.place(x+h*dx, v+h*dv).Sub(c.place(x-h*dx, v-h*dv)).Mul(1 / (2 * h))
		assert.InDelta(t, 0, want.Dist(way), 1e-6)
		back, on := c.where(p)
		assert.InDelta(t, 0, plane.Pt(back, on).Dist(plane.Pt(x, v)), 1e-9)
	}
}

// Round its normal a cone is bent to r / cos of its half-angle, r the radius there: least
// at the narrow edge, w/2 sin nearer to the axis than the middle.
func TestAFlaredBandBendsMostAtItsNarrowEdge(t *testing.T) {
	for _, flare := range []float64{-30, -4, 4, 30} {
		f := unroll(t, with(cuff(60, 60, 25, 1), func(b *Band) { b.FlareDeg, b.WidthMM, b.EndWidthMM = flare, 24, 24 }))
		sin, cos := math.Sincos(math.Abs(flare) * math.Pi / 180)
		assert.InEpsilon(t, (30-12*sin)/cos, f.LeastRadius(), 1e-6, "%g degrees", flare)
	}
}

// A bow is drawn as few edges as turn a quarter at most, all alike, on its circle.
func TestBowsAreDrawnInQuarterTurnsAtMost(t *testing.T) {
	for _, c := range []struct {
		k, turn float64
		want    int
	}{{0.1, 0.3, 1}, {0.1, math.Pi / 2, 1}, {-0.1, 1.6, 2}, {0.04, math.Pi, 2}, {2, 3.2, 3}, {-0.02, 5, 4}, {0, 0, 1}} {
		w := bow{from: plane.Pt(1, 2), heading: 0.4, length: 7, k: c.k}
		if c.k != 0 {
			w.length = c.turn / math.Abs(c.k)
		}
		es := w.edges(0.5)
		assert.Len(t, es, c.want, "%+v", c)
		length := 0.0
		for _, e := range es {
			length += e.Len()
		}
		assert.InEpsilon(t, w.length*(1+0.5*c.k), length, 1e-9, "%+v", c)
	}
}
