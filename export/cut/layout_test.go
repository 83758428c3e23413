package cut

import (
	"bytes"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"fretband/export"
	"fretband/export/sample"
	"fretband/unroll/plane"
)

// What is shown before the hand-over is what the cut file then holds, as it is read back.
func TestTheLayoutShownIsThatOfTheCutFile(t *testing.T) {
	s, r := sample.Cuff()
	for name, o := range map[string]export.Options{
		"three":    {Copies: 3},
		"on stock": {Copies: 4, StockW: 300, StockH: 120, GapMM: 2, LeadMM: 1, Tabs: 3},
		"turned":   {Copies: 2, StockW: 90, StockH: 150},
	} {
		l, err := LayOut(s, r, o)
		require.NoError(t, err, name)
		require.Len(t, l.Parts, o.Copies, name)
		require.Len(t, l.Openings, o.Copies*len(s.Openings), name)
		taken := 0.0
		for i, hole := range l.Openings {
			part := l.Parts[i/len(s.Openings)]
			require.True(t, part.Contains(hole.Centroid()), "%s: opening %d lies in its part", name, i)
			taken += math.Abs(hole.Area())
		}
		require.InEpsilon(t, float64(o.Copies)*r.CutArea, taken, 1e-6, name)
		var b bytes.Buffer
		require.NoError(t, writeDXF(&b, s, r, o), name)
		file, err := readDXFBack(b.Bytes(), o)
		require.NoError(t, err, name)
		var runs []readBack
		for _, line := range file.lines {
			if line.as != forOutline {
				continue
			}
			if o.LeadMM > 0 {
				line.lead = 1
			}
			if n := len(runs); n == 0 || len(runs[n-1].lines) > o.Tabs {
				runs = append(runs, readBack{})
			}
			one := &runs[len(runs)-1]
			one.lines = append(one.lines, line)
		}
		require.Len(t, runs, o.Copies, name)
		for i, one := range runs {
			got, want := plane.EmptyBox(), l.Parts[i].Bounds()
			for _, line := range one.lines {
				got = got.Union(line.cut().Bounds())
			}
			assert.InDelta(t, 0, got.Min.Dist(want.Min), 1e-6, name)
			assert.InDelta(t, 0, got.Max.Dist(want.Max), 1e-6, name)
			assert.True(t, want.Min.X >= 0 && want.Max.X <= l.W && want.Min.Y >= 0 && want.Max.Y <= l.H, name)
		}
	}
	_, err := LayOut(s, r, export.Options{Copies: 9, StockW: 130, StockH: 40})
	var room *RoomError
	require.ErrorAs(t, err, &room)
	assert.Equal(t, 1, room.Fit)
}
