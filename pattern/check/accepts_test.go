package check

import (
	"testing"

	"fretband/pattern"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestWhatIsLetStandStandsBelowWhatIsOpenAndBreaksNoRule(t *testing.T) {
	d := benchCuff()
	d.Band.EndCornerMM = 0
	d.Reserves = []pattern.Reserve{{Shape: pattern.CircleShape, XMM: 10, YMM: 15, WidthMM: 6, MarginMM: 1}}
	run := func() *Report {
		s, err := pattern.Lay(d)
		require.NoError(t, err)
		return All(s)
	}
	r := run()
	require.True(t, r.Breached())
	f, ok := worst(r, "reserve")
	require.True(t, ok)
	at := func(dx float64) pattern.Spot { return pattern.Spot{XMM: f.At[0].X + dx, YMM: f.At[0].Y} }

	d.Accepted = []pattern.Accepted{{Finding: "reserve", At: at(2.1), Reason: "far off"}}
	assert.True(t, run().Breached(), "of another place")
	d.Accepted = []pattern.Accepted{{Finding: "reserve", At: at(1.9), Reason: "the bezel is soldered on"}}
	r = run()
	assert.False(t, r.Breached())
	f, _ = worst(r, "reserve")
	assert.Equal(t, "the bezel is soldered on", f.Accepted)
	assert.False(t, f.Open())
	seen := false
	for _, x := range r.Findings {
		if x.Accepted != "" {
			seen = true
			continue
		}
		if seen {
			assert.Equal(t, Note, x.Severity, "%s is open and stands below what is accepted", x.Kind)
		}
	}
	require.True(t, seen)
}

func TestFallingToPiecesCantBeLetStand(t *testing.T) {
	d := benchCuff()
	d.Accepted = []pattern.Accepted{{Finding: "pieces", Reason: "never mind"}}
	s, err := pattern.Lay(d)
	require.NoError(t, err)
	fs := []Finding{{Kind: KindPieces, Severity: Breach}, {Kind: KindGap, Severity: Caution}}
	accept(d, fs)
	assert.Empty(t, fs[0].Accepted)
	r := Run(s)
	r.Findings = fs
	assert.True(t, r.Breached())
}
