package cut

import (
	"bytes"
	"io"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"fretband/export"
	"fretband/export/sample"
	"fretband/pattern/check"
)

func TestCutFilesOfTheGalleryGiveTheFiguresOfTheReport(t *testing.T) {
	over := 0
	for name, s := range sample.Gallery(t) {
		r := check.Run(s)
		if export.OverEnds(s) {
			over++
		}
		for key, read := range map[string]func(*testing.T, io.Reader) []readLoop{"svg": readSVG, "dxf": readDXF} {
			loops := read(t, bytes.NewReader(fileOf(t, key, s, r, export.Options{})))
			require.Len(t, loops, r.Openings+1, name)
			var open, length float64
			for _, l := range loops[:r.Openings] {
				open -= l.loop.Area() // they run clockwise
				length += l.loop.Len()
			}
			assert.InEpsilon(t, r.CutArea, open, 1e-9, "%s %s", name, key)
			assert.InEpsilon(t, r.OpenLength, length, 1e-9, "%s %s", name, key)
			assert.InEpsilon(t, r.BlankArea, loops[r.Openings].loop.Area(), 1e-9, "%s %s", name, key)
		}
	}
	assert.Positive(t, over, "no design has openings over the seam")
}
