package strength

import (
	"math"
	"testing"

	"fretband/unroll"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// A round band is the same all round, however wide it is and however coarse its mesh.
func TestARoundBandIsAsStiffInAllDirections(t *testing.T) {
	for _, wide := range []float64{6, 40} {
		s := roundBand(t, unroll.Bangle, 52, 0.57, wide, 2)
		f := s.metal.Flat
		var cases []Case
		for i := range 15 {
			c, err := s.Squeezed(s.home(f.Length * float64(i) / 29))
			require.NoError(t, err)
			cases = append(cases, c)
		}
		rs, err := s.Solve(t.Context(), cases...)
		require.NoError(t, err)
		// By the middle radius: S. Timoshenko, Strength of Materials, part II, thin rings; a
		// band wide beside its thickness can't curve across, and is stiffer by 1 - nu².
		radius := f.Length / (2 * math.Pi)
		beam := (math.Pi/4 - 2/math.Pi) * math.Pow(radius, 3) / (75000 * wide * math.Pow(0.57, 3) / 12)
		for i, r := range rs {
			assert.InEpsilon(t, rs[0].PerN, r.PerN, 0.005, "%g mm wide, direction %d", wide, i)
			assert.Greater(t, r.PerN, 0.98*(1-0.37*0.37)*beam)
			assert.Less(t, r.PerN, 1.02*beam)
		}
	}
}
