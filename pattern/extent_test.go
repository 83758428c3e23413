package pattern

import (
	"math"
	"math/rand"
	"testing"

	"github.com/stretchr/testify/assert"

	"fretband/unroll/plane"
)

// Whatever is asked for, a whole number of repeats, turned and scaled as told, is once round
// the band; and of all such numbers, tried one by one, none is nearer to what was asked.
func TestARotatedOrderClosesWithTheNearestWholeRepeats(t *testing.T) {
	rng := rand.New(rand.NewSource(4))
	for range 200 {
		round, pitch, rise, asked := 60+100*rng.Float64(), 3+20*rng.Float64(), 3+20*rng.Float64(), 7*rng.Float64()-3.5
		if rng.Intn(4) == 0 {
			pitch, rise = 3*round, 2*round*(1+rng.Float64()) // repeats longer than the band
		}
		closed, size := closing(round, pitch, rise, asked)
		aim := plane.Pt(round, 0).Turn(-asked)
		v := plane.Pt(round/size, 0).Turn(-closed) // what comes round, before it is turned
		p, q := v.X/pitch, v.Y/rise
		assert.InDelta(t, math.Round(p), p, 1e-9)
		assert.InDelta(t, math.Round(q), q, 1e-9)
		assert.LessOrEqual(t, math.Abs(closed-asked), math.Pi+1e-9)
		for i := -60; i <= 60; i++ {
			for j := -60; j <= 60; j++ {
				if w := plane.Pt(float64(i)*pitch, float64(j)*rise); i != 0 || j != 0 {
					if v.Dist(aim) > w.Dist(aim)+1e-9 {
						t.Errorf("%g %g %g %g: %v is nearer to %v than %v", round, pitch, rise, asked, w, aim, v)
					}
				}
			}
		}
	}
}
