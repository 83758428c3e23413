package solid

import (
	"bytes"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"fretband/export"
	"fretband/export/sample"
	"fretband/pattern"
	"fretband/unroll"
)

// Every form, made in every way, read back by the formats' own layout: closed,
// oriented, and of the weight in the report within 0.1 % (the divergence theorem).
func TestTheSolidOfEveryFormWeighsWhatTheReportSays(t *testing.T) {
	sample.EachForm(t, func(name string, d pattern.Design) {
		for _, c := range []struct {
			making, drawn string
			k             float64
		}{{"", "", 0.5}, {"", "", 0.35}, {unroll.Formed, unroll.InnerFace, 0.5}} {
			d.Band.Making, d.Band.Drawn, d.Band.NeutralK = c.making, c.drawn, c.k
			s, r := sample.Measured(t, d)
			var b bytes.Buffer
			require.NoError(t, WriteSTL(&b, s, r, export.Options{}), "%s %v", name, c)
			corners, tris := readSTL(t, b.Bytes())
			assert.InEpsilon(t, r.Left/r.Density*1000, closed(t, corners, tris), 1e-3, "%s %v", name, c)
		}
	})
}

// No solid can be treated as that of another face.
func TestASolidNamesTheSurfaceThatItsDrawingShows(t *testing.T) {
	for _, c := range sample.Faces {
		s, r := c.Sheet(t)
		m, err := model3MF(s, r, export.Options{})
		require.NoError(t, err)
		c.Named(t, string(m))
		var b bytes.Buffer
		require.NoError(t, WriteSTL(&b, s, r, export.Options{}))
		assert.Contains(t, b.String()[:80], c.Short)
		assert.LessOrEqual(t, len(stlHead(s)), 80)
	}
}
