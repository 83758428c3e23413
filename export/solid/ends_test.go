package solid

import (
	"bytes"
	"testing"

	"github.com/stretchr/testify/require"

	"fretband/export"
	"fretband/pattern"
	"fretband/pattern/check"
	"fretband/pattern/mesh"
	"fretband/pattern/project"
)

// By CGAL (cmd/judge/cross.sh) the solid of a cuff whose straight ends meet crosses
// itself; with a gap of 0.001 mm those of the gallery and of all forms did not.
func TestNoSolidIsMadeOfACuffWhoseEndsTouch(t *testing.T) {
	require.Greater(t, check.LeastGap, 2*mesh.Solid)
	d, err := project.ReadFile("../../testdata/forms/sided-cuff.json")
	require.NoError(t, err)
	d.Band.GapShare = 0
	for _, gap := range []float64{0, 0.5 * check.LeastGap, 2 * check.LeastGap} {
		d.Band.GapMM = gap
		s, err := pattern.Lay(d)
		require.NoError(t, err)
		r := check.Run(s)
		touching := gap < check.LeastGap
		require.Equal(t, touching, r.Breached(), "the report says it first")
		for _, write := range writers {
			err := write(&bytes.Buffer{}, s, r, export.Options{})
			if touching {
				require.ErrorContains(t, err, "the ends of the cuff touch")
			} else {
				require.NoError(t, err)
			}
		}
	}
}
