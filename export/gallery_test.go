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

func TestPilotMarksAndNumbersStandClearOfTheLine(t *testing.T) {
	width := func(text string, h float64) float64 { return 0.8 * h * float64(len(text)) }
	for name, s := range laid(t) {
		ms := marks(s, width)
		require.Len(t, ms, len(s.Openings), name)
		numbered := 0
		for i, m := range ms {
			o := s.Openings[i]
			require.Equal(t, o.Number, m.number)
			require.True(t, o.Loop.Contains(m.pilot), "%s: pilot of opening %d", name, o.Number)
			assert.InDelta(t, m.room, o.Loop.Nearest(m.pilot).D, 1e-6)
			// Every opening admits a circle of the smallest diameter asked for.
			assert.GreaterOrEqual(t, m.room, s.Design.Rules.SmallestMM/2-2*roomTolerance, "%s: opening %d", name, o.Number)
			if !m.numbered {
				continue
			}
			numbered++
			w := width("0", m.height) / 2
			for _, dx := range []float64{-w, w} {
				p := m.at
				p.X += dx
				assert.True(t, o.Loop.Contains(p), "%s: number of opening %d", name, o.Number)
				assert.GreaterOrEqual(t, o.Loop.Nearest(p).D, numberClear-1e-9)
			}
		}
		if numbered < len(ms) {
			assert.NotEmpty(t, rowLabels(ms), name)
		}
	}
}
