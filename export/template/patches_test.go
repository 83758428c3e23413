package template

import (
	"bytes"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"fretband/export"
	"fretband/export/pdf"
	"fretband/export/sample"
	"fretband/unroll"
)

// A patch is as large as its opening on the outside of the band, and says where that lies:
// on a round plain band by closed forms, on domed and flared ones by the area, which the
// band integrates without knowing of patches.
func TestPatchesAreTrueToTheOutsideOfTheBand(t *testing.T) {
	for _, name := range []string{"round-bangle", "domed-cuff", "flared-cuff"} {
		d := sample.Form(t, name)
		d.Band.Making = unroll.Formed
		s, _ := sample.Measured(t, d)
		f := s.Flat
		ps := patchesOf(s)
		require.Len(t, ps, len(s.Openings))
		for i, p := range ps {
			require.Equal(t, i+1, p.number, name)
			for _, o := range s.Openings {
				if o.Number != p.number {
					continue
				}
				want := f.AreaAt(o.Loop, f.Thickness+wrapPaper/2)
				assert.InDelta(t, 1, p.loop.Area()/want, 3e-3, "%s, opening %d", name, p.number)
				if name == "round-bangle" {
					c := o.Loop.Bounds().Centre()
					assert.InDelta(t, math.Remainder(360*c.X/f.Length, 360), math.Remainder(p.round, 360), 0.01)
					assert.InDelta(t, c.Y+f.Width/2, p.up, 1e-6)
				}
			}
		}
	}
}

func TestPatchesAreWrittenForABandThatNoStripLiesOn(t *testing.T) {
	d := sample.Form(t, "domed-cuff")
	d.Band.Making = unroll.Formed
	s, r := sample.Measured(t, d)
	o := export.Options{For: export.Bench}
	require.True(t, export.MarkedOut(s, o))
	var b bytes.Buffer
	require.NoError(t, WritePatches(&b, s, r, o))
	require.NoError(t, pdf.Check(b.Bytes()))
	var told bool
	for _, f := range export.PartFacts(s, r, o) {
		told = told || f.Label == "Marking out"
	}
	require.True(t, told, "the job sheet says so")
}
