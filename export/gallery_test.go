package export

import (
	"bytes"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"fretband/pattern"
	"fretband/pattern/check"
	"fretband/pattern/project"
	"fretband/unroll"
)

// laid returns the gallery's designs, and one of them made seamless with openings
// over the seam.
func laid(t *testing.T) map[string]*pattern.Sheet {
	t.Helper()
	sheets := map[string]*pattern.Sheet{}
	for _, name := range project.Gallery() {
		d, err := project.GalleryDesign(name)
		require.NoError(t, err)
		sheets[name], err = pattern.Lay(d)
		require.NoError(t, err)
		if d.Band.Kind == unroll.Bangle {
			d.Name += ", seamless"
			d.Band.Joint, d.Band.JointMM = unroll.Seamless, 0
			d.Fields[0].Motif, d.Fields[0].Numbers = "circles", nil
			d.Fields[0].Rows, d.Fields[0].Stagger = 2, 0.5
			sheets[name+"-seamless"], err = pattern.Lay(d)
			require.NoError(t, err)
		}
	}
	require.Greater(t, len(sheets), 3)
	return sheets
}

func TestCutFilesOfTheGalleryGiveTheFiguresOfTheReport(t *testing.T) {
	over := 0
	for name, s := range laid(t) {
		r := check.Run(s)
		if overEnds(s) {
			over++
		}
		for _, f := range Formats()[:2] {
			var b bytes.Buffer
			require.NoError(t, f.Write(&b, s, r, Options{}), name)
			read := readSVG
			if f.Key == "dxf" {
				read = readDXF
			}
			loops := read(t, &b)
			require.Len(t, loops, r.Openings+1, name)
			var open, length float64
			for _, l := range loops[:r.Openings] {
				open -= l.loop.Area() // they run clockwise
				length += l.loop.Len()
			}
			assert.InEpsilon(t, r.CutArea, open, 1e-9, "%s %s", name, f.Key)
			assert.InEpsilon(t, r.OpenLength, length, 1e-9, "%s %s", name, f.Key)
			assert.InEpsilon(t, r.BlankArea, loops[r.Openings].loop.Area(), 1e-9, "%s %s", name, f.Key)
		}
	}
	assert.Positive(t, over, "no design has openings over the seam")
}
