package template

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"fretband/export"
	"fretband/export/sample"
	"fretband/unroll"
)

// A strip round a tube is pi times the diameter half way through the paper long, and what is
// drawn on it keeps its share of the way round.
func TestAStripRoundABandHasItsOutsideLength(t *testing.T) {
	d := sample.Form(t, "round-bangle")
	d.Band.Joint, d.Band.JointMM = unroll.Seamless, 0
	s, r := sample.Measured(t, d)
	tm, err := newTemplate(s, r, export.Options{For: "bench"})
	require.NoError(t, err)
	require.True(t, tm.lapped)
	long := math.Pi * (2*(s.Flat.Oval.A+s.Flat.Thickness) + wrapPaper)
	assert.InDelta(t, long, tm.sheet.Flat.Length, 1e-6)
	for i, o := range s.Openings {
		a, b := o.Loop.Bounds(), tm.sheet.Openings[i].Loop.Bounds()
		assert.InDelta(t, a.Centre().X/s.Flat.Length, b.Centre().X/long, 1e-4)
		assert.InDelta(t, a.W()/s.Flat.Length, b.W()/long, 1e-4)
		assert.InDelta(t, a.H(), b.H(), 0.01)
	}
	assert.GreaterOrEqual(t, tm.content.Max.X, long/2+wrapLap)
	assert.NotEqual(t, s.Flat.Length, tm.sheet.Flat.Length, "the flat part is another")
}

func TestNoStripIsMadeForABandThatPaperDoesNotLieOn(t *testing.T) {
	for _, name := range []string{"domed-cuff", "flared-cuff"} {
		d := sample.Form(t, name)
		d.Band.Making = unroll.Formed
		s, r := sample.Measured(t, d)
		_, err := newTemplate(s, r, export.Options{For: "bench"})
		assert.ErrorIs(t, err, ErrNoStrip, name)
		_, err = newTemplate(s, r, export.Options{})
		assert.NoError(t, err, name)
	}
}
