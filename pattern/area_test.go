package pattern

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"fretband/unroll"
)

// A run of a flared band is a part of a ring about the apex: angle (R² - r²)/2. It is the
// sum of its parts, and its ends are straight.
func TestARunOfAFlaredBandIsPartOfARing(t *testing.T) {
	for _, flare := range []float64{0, 12, -25} {
		b := openBand(24)
		b.FlareDeg = flare
		flat, err := unroll.Unroll(b)
		require.NoError(t, err)
		for _, run := range [][4]float64{{-30, 50, -9, 10}, {10, 11, 2, 3}, {-60, -20, -12, 0}} {
			x0, x1, v0, v1 := run[0], run[1], run[2], run[3]
			want := (x1 - x0) * (v1 - v0)
			if flare != 0 {
				r0, r1 := flat.Place(0, v0).Y-flat.Apex(), flat.Place(0, v1).Y-flat.Apex()
				angle := (x1 - x0) * flat.Along(0, 0, 0).Len() / math.Abs(flat.Apex())
				want = angle * math.Abs(r1*r1-r0*r0) / 2
			}
			l := stretch(flat, x0, x1, v0, v1)
			require.NoError(t, l.Check())
			assert.InEpsilon(t, want, l.Area(), 1e-9, "%g degrees, %v", flare, run)
			ends := 0
			for _, e := range l.Edges() {
				if e.IsLine() && math.Abs(e.Len()-(v1-v0)) < 1e-9 {
					ends++
				}
			}
			assert.GreaterOrEqual(t, ends, 2, "%g degrees, %v", flare, run)
		}
	}
}
