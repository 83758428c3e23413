package main

import (
	"testing"

	"fretband/pattern"

	"github.com/stretchr/testify/require"
)

func TestABreachThatIsLetStandIsExitZeroAndSaidWithItsReason(t *testing.T) {
	off := func(d *pattern.Design) {
		d.Reserves = []pattern.Reserve{{Shape: pattern.CircleShape, YMM: 14, WidthMM: 8, MarginMM: 1, Note: "stone"}}
	}
	code, out, errs := call("report", galleryFile(t, "harbour-cuff", off))
	require.Equal(t, breach, code, errs)
	require.NotContains(t, out, "Accepted")
	path := galleryFile(t, "harbour-cuff", func(d *pattern.Design) {
		off(d)
		d.Accepted = []pattern.Accepted{{Finding: "reserve", At: pattern.Spot{YMM: 14}, Reason: "the bezel stands over the edge"}}
	})
	code, out, errs = call("report", path)
	require.Equal(t, fine, code, errs)
	require.Contains(t, out, "Accepted by the maker: the bezel stands over the edge")
	code, out, errs = call("make", "-out", t.TempDir(), path)
	require.Equal(t, fine, code, errs)
	require.Contains(t, out, "breach, accepted: ")
	require.Contains(t, out, "Reason: the bezel stands over the edge")
}
