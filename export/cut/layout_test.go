package cut

import (
	"bytes"
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
		o.Tabs = 0 // with tabs the outline is read in pieces
		var b bytes.Buffer
		require.NoError(t, writeDXF(&b, s, r, o), name)
		file, err := readDXFBack(b.Bytes(), o)
		require.NoError(t, err, name)
		i := 0
		for _, line := range file.lines {
			if line.as != forOutline {
				continue
			}
			got, want := plane.EmptyBox(), l.Parts[i].Bounds()
			for _, e := range line.edges {
				got = got.Union(e.Bounds())
			}
			assert.InDelta(t, 0, got.Min.Dist(want.Min), 1e-6, name)
			assert.InDelta(t, 0, got.Max.Dist(want.Max), 1e-6, name)
			assert.True(t, want.Min.X >= 0 && want.Max.X <= l.W && want.Min.Y >= 0 && want.Max.Y <= l.H, name)
			i++
		}
		assert.Equal(t, o.Copies, i, name)
	}
	_, err := LayOut(s, r, export.Options{Copies: 9, StockW: 130, StockH: 40})
	var room *RoomError
	require.ErrorAs(t, err, &room)
	assert.Equal(t, 1, room.Fit)
}
