package cut

import (
	"fmt"
	"math"
	"strings"
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

// A path that a cut file does not hold is refused, and so is what SVG reads in another way
// than as a line and arcs of circles: an arc of no radius, which is a line there (SVG 1.1,
// F.6.2), of two radii, turned, of more than half a turn, or with a flag other than 0 and 1.
func TestPathDataThatNoCutFileHoldsAreRefused(t *testing.T) {
	for _, d := range []string{
		"L1 1", "m0 0", "M0", "M0 0 1 1", "M0 0M1 1", "M0 0L1", "M0 0L1 1 2", "M0 0Q1 1 2 2", "M0 0l1 1", "M0 0H1",
		"M0 0L1 x", "M0 0L1 NaN", "M0 0L1 Inf", "M0 0L1  1", "M0 0L1 1Z1", "M0 0L1 1L2 0ZL3 3", "M0 0L1 1L2 0ZZ",
		"M0 0A0 0 0 0 1 0 0", "M0 0A0 0 0 0 1 1e-10 0", "M0 0A-1 -1 0 0 1 1 0", "M0 0A1 2 0 0 1 1 0", "M0 0A1 1 30 0 1 1 0",
		"M0 0A1 1 0 1 1 1 0", "M0 0A1 1 0 0 2 1 0", "M0 0A1 1 0 0 -1 1 0", "M0 0A1 1 0 0 1 1", "M0 0A1 1 0 0 1 1 0 0",
	} {
		_, _, err := readPathData(d)
		assert.Error(t, err, d)
	}
	for d, edges := range map[string]int{"M0 0L3 0": 1, "M0 0L3 0L3 4Z": 3, "M0 0L3 0L3 4L0 0Z": 3, "M0 0A1 1 0 0 1 2 0Z": 2} {
		es, closed, err := readPathData(d)
		require.NoError(t, err, d)
		assert.Equal(t, strings.HasSuffix(d, "Z"), closed, d)
		require.Len(t, es, edges, d)
		for i, e := range es[1:] {
			assert.Equal(t, es[i].B, e.A, d)
		}
		assert.True(t, !closed || es[edges-1].B == es[0].A, d)
	}
}
