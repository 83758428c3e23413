package strength

import (
	"math"
	"testing"

	"fretband/unroll"
	"fretband/unroll/plane"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// A round band is the same all round, however wide it is and however coarse its mesh.
// A narrow ring that is pushed from within and held opposite opens as when it is pulled there
// over its whole width; how a wide one gives is the same wherever the push falls in the mesh,
// and however coarse that is.
func TestAPushIsTheSameOnAnyMesh(t *testing.T) {
	pushed := func(wide, size float64, at ...plane.Point) (out []float64) {
		s := roundBand(t, unroll.Bangle, 52, 1, wide, size)
		var cases []Case
		for _, p := range at {
			c, err := s.Pushed(p)
			require.NoError(t, err)
			cases = append(cases, c)
		}
		rs, err := s.Solve(t.Context(), cases...)
		require.NoError(t, err)
		for _, r := range rs {
			out = append(out, r.PerN)
		}
		return out
	}
	// The thin ring of S. Timoshenko, Strength of Materials, part II.
	beam := (math.Pi/4 - 2/math.Pi) * math.Pow(26.5, 3) / (75000 * 3.0 / 12)
	assert.InEpsilon(t, beam, pushed(3, 1, plane.Pt(7, 0))[0], 0.03)
	var at []plane.Point
	for i := range 12 {
		at = append(at, plane.Pt(-83+14.3*float64(i), 4-0.7*float64(i)))
	}
	fine := pushed(20, 0.7, at...)
	for _, size := range []float64{1, 1.5, 2} {
		for i, v := range pushed(20, size, at...) {
			assert.InEpsilon(t, fine[i], v, 0.02, "%g mm, at %v", size, at[i])
		}
	}
}

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
