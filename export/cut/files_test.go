package cut

import (
	"bytes"
	"flag"
	"fmt"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"fretband/export"
	"fretband/export/sample"
	"fretband/pattern"
	"fretband/pattern/check"
	"fretband/unroll"
	"fretband/unroll/plane"
)

var refresh = flag.Bool("refresh", false, "write the golden files anew; read the difference before accepting it")

func written(t *testing.T, key string, o export.Options) []byte {
	t.Helper()
	s, r := sample.Cuff()
	return fileOf(t, key, s, r, o)
}

func TestCutFilesAreAsAccepted(t *testing.T) {
	s, _ := sample.Cuff()
	number := export.ContentNumber(s.Design) // which changes with the format of the design file
	require.Len(t, number, 8)
	for _, c := range []struct {
		key, file string
		o         export.Options
	}{
		{"svg", "sample.svg", export.Options{}},
		{"dxf", "sample.dxf", export.Options{}},
		{"dxf", "sample-r12.dxf", export.Options{Curves: export.ArcsR12}},
	} {
		got := bytes.ReplaceAll(written(t, c.key, c.o), []byte(number), []byte("00000000"))
		path := filepath.Join("testdata", c.file)
		if *refresh {
			require.NoError(t, os.MkdirAll("testdata", 0o777))
			require.NoError(t, os.WriteFile(path, got, 0o666))
		}
		want, err := os.ReadFile(path)
		require.NoError(t, err)
		if !bytes.Equal(want, got) {
			t.Error(path + firstDifference(string(want), string(got)))
		}
	}
}

// firstDifference tells the first line in which two texts differ.
func firstDifference(want, got string) string {
	w, g := strings.Split(want, "\n"), strings.Split(got, "\n")
	for i := 0; i < len(w) && i < len(g); i++ {
		if w[i] != g[i] {
			return fmt.Sprintf(":%d: accepted %.200q, written %.200q", i+1, w[i], g[i])
		}
	}
	return fmt.Sprintf(": accepted %d lines, written %d, alike as far as both go", len(w), len(g))
}

func TestLoopsReadBackHaveTheAreasOfTheReport(t *testing.T) {
	s, r := sample.Cuff()
	svg := readSVG(t, bytes.NewReader(written(t, "svg", export.Options{})))
	dxf := readDXF(t, bytes.NewReader(written(t, "dxf", export.Options{})))
	for name, loops := range map[string][]readLoop{"svg": svg, "dxf": dxf} {
		require.Len(t, loops, 7, name)
		var open float64
		for i, l := range loops[:6] {
			assert.True(t, strings.HasPrefix(strings.ToLower(l.name), "openings"), "%s %d: %s", name, i, l.name)
			assert.InEpsilon(t, -s.Openings[i].Loop.Area(), l.loop.Area(), 1e-9, "%s: %s", name, l.name)
			open -= l.loop.Area() // they run clockwise
		}
		assert.InEpsilon(t, r.CutArea, open, 1e-9, name)
		out := loops[6]
		assert.True(t, strings.HasPrefix(strings.ToLower(out.name), "outline"), "%s: %s", name, out.name)
		assert.InEpsilon(t, r.BlankArea, out.loop.Area(), 1e-9, name)
		var length float64
		for _, l := range loops {
			length += l.loop.Len()
		}
		assert.InEpsilon(t, r.CutLength, length, 1e-9, name)
	}
	// Closed forms: TRADE-FACTS 16, cases 16 and 14, printed to 1e-8.
	assert.InDelta(t, -15.07481733, dxf[3].loop.Area(), 1e-8)
	assert.InDelta(t, -19.14159265, svg[4].loop.Area(), 1e-8)
}

func TestDXFHasOneHandleEachAndAllOwnersExist(t *testing.T) {
	seen := map[string]bool{"0": true}
	var owners []string
	pairs := readPairs(t, bytes.NewReader(written(t, "dxf", export.Options{})))
	header := true
	for _, p := range pairs {
		if p.code == 0 && p.value == "ENDSEC" {
			header = false
		}
		switch {
		case header:
		case p.code == 5 || p.code == 105:
			require.False(t, seen[p.value], "handle %s stands twice", p.value)
			seen[p.value] = true
		case p.code == 330 || p.code == 340 || p.code == 350 || p.code == 390:
			owners = append(owners, p.value)
		}
		for _, b := range []byte(p.value) {
			require.Less(t, b, byte(0x7f), "not seven-bit: %s", p.value)
		}
	}
	for _, o := range owners {
		assert.True(t, seen[o], "no object has handle %s", o)
	}
	var part bool
	for _, p := range pairs {
		part = part || p.code == dxfComment && strings.HasPrefix(p.value, "Part: Gull <Rock> cuff & \\U+00E9, open cuff")
	}
	assert.True(t, part, "no comment names the part")
}

func TestKerfMovesTheLinesByHalfOfItAndSaysSo(t *testing.T) {
	s, _ := sample.Cuff()
	const kerf = 0.1
	o := export.Options{KerfMM: kerf}
	svg := written(t, "svg", o)
	loops := readDXF(t, bytes.NewReader(written(t, "dxf", o)))
	require.Len(t, loops, 7)
	// Steiner: a parallel curve of a convex shape encloses P d more or less, and
	// pi d^2 (outwards; inwards of a circle too).
	const d = kerf / 2
	out := s.Flat.Outline
	assert.InDelta(t, out.Area()+out.Len()*d+math.Pi*d*d, loops[6].loop.Area(), 1e-7)
	assert.InDelta(t, -math.Pi*(5-d)*(5-d), loops[0].loop.Area(), 1e-7)
	assert.Contains(t, string(svg), "0.1 mm, already allowed for")
	assert.NotContains(t, string(svg), "the lines are the finished edge")
	assert.Contains(t, string(written(t, "svg", export.Options{})), "Kerf: none: the lines are the finished edge")
}

func TestKerfWiderThanAnOpeningIsRefusedByNumber(t *testing.T) {
	s, r := sample.Cuff()
	s.Openings[1].Loop = plane.Circle(plane.Pt(-30, 0), 0.4)
	var b bytes.Buffer
	err := writeDXF(&b, s, r, export.Options{KerfMM: 0.9})
	var k *KerfError
	require.ErrorAs(t, err, &k)
	assert.Equal(t, []int{2}, k.Openings)
	assert.Zero(t, b.Len())
	assert.Contains(t, k.Error(), "in some place, opening 2: set")
	k.Openings = []int{2, 3, 5, 7, 11, 13, 17, 19, 23, 29}
	assert.Contains(t, k.Error(), "in some place, openings 2, 3, 5, 7, 11, 13, 17, 19 and 2 more: set")
}

func TestOpeningsOverTheEndsOfASeamlessBandAreDrawnWhole(t *testing.T) {
	s, r := sample.Cuff()
	s.Design.Band = unroll.Band{Kind: unroll.Bangle, Joint: unroll.Seamless}
	s.Flat.Period, s.Flat.GapInner = 120, 0
	s.Flat.Outline = plane.Rect(plane.Box{Min: plane.Pt(-60, -12), Max: plane.Pt(60, 12)})
	s.Openings[0].Loop = plane.Circle(plane.Pt(-60, 0), 5)
	var b bytes.Buffer
	require.NoError(t, writeDXF(&b, s, r, export.Options{}))
	loops := readDXF(t, bytes.NewReader(b.Bytes()))
	assert.InEpsilon(t, -25*math.Pi, loops[0].loop.Area(), 1e-9)
	assert.Contains(t, b.String(), "Do not cut this from flat sheet")
	b.Reset()
	require.NoError(t, writeSVG(&b, s, r, export.Options{}))
	assert.InEpsilon(t, -25*math.Pi, readSVG(t, &b)[0].loop.Area(), 1e-9)
	// It is not cut at its ends: the kerf is allowed for at the edges only.
	out, err := cutOutline(s, 0.4)
	require.NoError(t, err)
	box := out.Bounds()
	assert.InDelta(t, 0, box.Min.Dist(plane.Pt(-60, -12.2))+box.Max.Dist(plane.Pt(60, 12.2)), 1e-9)
	assert.InDelta(t, 120*24.4, out.Area(), 1e-6)
}

func TestEveryFormatCarriesTheCautions(t *testing.T) {
	flat := func(b []byte) string {
		return strings.Join(strings.Fields(string(b)), " ")
	}
	for _, key := range []string{"svg", "dxf"} {
		got := flat(written(t, key, export.Options{}))
		for _, word := range []string{"class 4", "eye", "sharp", "free points", "nickel", "estimates", "Local rules"} {
			assert.Contains(t, got, word, key)
		}
	}
}

// No cut file can be treated as the drawing of another face, and none says that a band cast
// as formed is bent.
func TestACutFileNamesTheSurfaceThatItShows(t *testing.T) {
	for _, c := range sample.Faces {
		s, r := c.Sheet(t)
		c.Named(t, string(fileOf(t, "svg", s, r, export.Options{})))
		c.Named(t, strings.Join(fileWords(s, r, export.Options{}), " "))
	}
}

// A picture to trace from is in no cut file, byte for byte.
func TestAPictureToTraceIsInNoCutFile(t *testing.T) {
	d := pattern.Begin(unroll.Cuff)
	traced := d
	traced.Underlay = pattern.Underlay{File: "sketches/wave.png", WidthMM: 120, XMM: 3}
	for _, key := range []string{"svg", "dxf"} {
		var files [2][]byte
		for i, d := range []pattern.Design{d, traced} {
			s, r, err := check.Lay(d)
			require.NoError(t, err)
			files[i] = fileOf(t, key, s, r, export.Options{})
		}
		require.Equal(t, string(files[0]), string(files[1]))
		require.NotContains(t, string(files[1]), "sketches")
	}
}
