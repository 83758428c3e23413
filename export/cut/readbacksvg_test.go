package cut

import (
	"fmt"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// SVG 1.1, F.6.5: the small arc between two places turns through 2 asin(half the chord /
// radius), clockwise on the sheet with the sweep flag set; F.6.6: a radius shorter than
// half the chord would be scaled up by a reader, so it is refused.
func TestArcsOfPathDataAreReadByTheirRadius(t *testing.T) {
	for _, half := range []float64{0.01, 0.5, 3, 40} {
		for _, radius := range []float64{half, 1.0001 * half, 2 * half, 50 * half} {
			for flag, sign := range []float64{1, -1} {
				d := fmt.Sprintf("M%v 1A%v %v 0 0 %d %v 1", -half, radius, radius, flag, half)
				es, closed, err := readPathData(d)
				require.NoError(t, err, d)
				require.Len(t, es, 1)
				assert.False(t, closed)
				assert.InDelta(t, sign*2*math.Asin(half/radius), es[0].Sweep(), 1e-6, d)
				assert.Equal(t, -1.0, es[0].A.Y, "y is turned up")
			}
		}
		_, _, err := readPathData(fmt.Sprintf("M%v 1A%v %v 0 0 1 %v 1", -half, 0.999*half, 0.999*half, half))
		assert.ErrorContains(t, err, "does not reach", "half a chord of %v", half)
	}
}
