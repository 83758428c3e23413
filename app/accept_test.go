package app

import (
	"strings"
	"testing"

	"fretband/pattern"
	"fretband/pattern/check"
	"fretband/unroll/plane"

	"github.com/stretchr/testify/require"
)

func TestAFindingIsLetStandForAReasonAndTakenUpAgain(t *testing.T) {
	var d pattern.Design
	here := check.Finding{Kind: check.KindEnds, At: []plane.Point{{X: 10, Y: 2}, {X: -10, Y: 2}}}
	there := check.Finding{Kind: check.KindEnds, At: []plane.Point{{X: 30, Y: 2}}}
	whole := check.Finding{Kind: check.KindGap}
	require.ErrorContains(t, Accept(&d, here, "  \n "), "1 to 400 letters")
	require.ErrorContains(t, Accept(&d, here, strings.Repeat("x", 401)), "1 to 400 letters")
	require.Empty(t, d.Accepted)
	require.NoError(t, Accept(&d, here, " filed\nby hand "))
	require.NoError(t, Accept(&d, there, "a collar covers it"))
	require.NoError(t, Accept(&d, whole, "a child's"))
	require.Equal(t, []pattern.Accepted{
		{Finding: "ends", At: pattern.Spot{XMM: 10, YMM: 2}, Reason: "filed by hand"},
		{Finding: "ends", At: pattern.Spot{XMM: 30, YMM: 2}, Reason: "a collar covers it"},
		{Finding: "gap", Reason: "a child's"},
	}, d.Accepted)
	was := d
	require.NoError(t, Accept(&d, here, "better"))
	require.Len(t, d.Accepted, 3, "one reason, the newer")
	require.Equal(t, "filed by hand", was.Accepted[0].Reason, "the older design keeps its own")
	TakeUp(&d, here)
	TakeUp(&d, whole)
	require.Equal(t, "a collar covers it", d.Accepted[0].Reason)
	require.Len(t, d.Accepted, 1)
	for len(d.Accepted) < pattern.MaxAccepted {
		d.Accepted = append(d.Accepted, pattern.Accepted{Finding: "other", Reason: "x"})
	}
	require.ErrorContains(t, Accept(&d, whole, "one more"), "already")
	require.NoError(t, Accept(&d, there, "in its own place"), "it takes the place of the older reason")
}
