package solid

import (
	"archive/zip"
	"bytes"
	"encoding/binary"
	"encoding/xml"
	"io"
	"math"
	"strconv"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"fretband/export"
	"fretband/pattern"
	"fretband/pattern/check"
	"fretband/pattern/project"
)

// bent is a design of the gallery, laid and measured: a solid needs a real band.
func bent(t *testing.T) (*pattern.Sheet, *check.Report) {
	t.Helper()
	d, err := project.GalleryDesign("harbour-cuff")
	require.NoError(t, err)
	d.Name = "Gull <Rock> & é"
	s, err := pattern.Lay(d)
	require.NoError(t, err)
	return s, check.Run(s)
}

// writers are those of the formats.
var writers = map[string]func(io.Writer, *pattern.Sheet, *check.Report, export.Options) error{"stl": WriteSTL, "3mf": Write3MF}

func solidFile(t *testing.T, key string) []byte {
	t.Helper()
	s, r := bent(t)
	var b bytes.Buffer
	require.NoError(t, writers[key](&b, s, r, export.Options{}))
	return b.Bytes()
}

// readSTL reads by the format's own layout; corners are known by place.
func readSTL(t *testing.T, data []byte) (corners [][3]float64, tris [][3]int) {
	t.Helper()
	require.Greater(t, len(data), 84)
	require.NotEqual(t, "solid", string(data[:5]), "that would be the text form")
	n := int(binary.LittleEndian.Uint32(data[80:]))
	require.Len(t, data, 84+50*n)
	known := map[[3]float64]int{}
	for i := range n {
		rec := data[84+50*i:]
		num := func(k int) float64 { return float64(math.Float32frombits(binary.LittleEndian.Uint32(rec[4*k:]))) }
		var tri [3]int
		for k := range 3 {
			p := [3]float64{num(3 + 3*k), num(4 + 3*k), num(5 + 3*k)}
			at, ok := known[p]
			if !ok {
				at = len(corners)
				known[p] = at
				corners = append(corners, p)
			}
			tri[k] = at
		}
		tris = append(tris, tri)
	}
	return corners, tris
}

// read3MF reads by the core specification's element names.
func read3MF(t *testing.T, data []byte) (corners [][3]float64, tris [][3]int) {
	t.Helper()
	z, err := zip.NewReader(bytes.NewReader(data), int64(len(data)))
	require.NoError(t, err)
	var names []string
	var model struct {
		XMLName  xml.Name
		Unit     string `xml:"unit,attr"`
		Metadata []struct {
			Name string `xml:"name,attr"`
			Text string `xml:",chardata"`
		} `xml:"metadata"`
		Objects []struct {
			Vertices []struct {
				X float64 `xml:"x,attr"`
				Y float64 `xml:"y,attr"`
				Z float64 `xml:"z,attr"`
			} `xml:"mesh>vertices>vertex"`
			Triangles []struct {
				A int `xml:"v1,attr"`
				B int `xml:"v2,attr"`
				C int `xml:"v3,attr"`
			} `xml:"mesh>triangles>triangle"`
		} `xml:"resources>object"`
	}
	for _, f := range z.File {
		names = append(names, f.Name)
		assert.Zero(t, f.Flags&8, "sizes stand before the part")
		assert.Equal(t, 1980, f.Modified.Year())
		in, err := f.Open()
		require.NoError(t, err)
		text, err := io.ReadAll(in)
		require.NoError(t, err)
		if f.Name == "3D/3dmodel.model" {
			require.NoError(t, xml.Unmarshal(text, &model))
		}
	}
	require.Equal(t, []string{"[Content_Types].xml", "_rels/.rels", "3D/3dmodel.model"}, names)
	assert.Equal(t, "millimeter", model.Unit)
	assert.Equal(t, "http://schemas.microsoft.com/3dmanufacturing/core/2015/02", model.XMLName.Space)
	s, r := bent(t)
	require.Len(t, model.Metadata, 3)
	assert.Equal(t, s.Design.Name, model.Metadata[0].Text)
	for _, c := range export.Cautions(s, r, export.Options{}) {
		assert.Contains(t, model.Metadata[2].Text, c)
	}
	require.Len(t, model.Objects, 1)
	for _, v := range model.Objects[0].Vertices {
		corners = append(corners, [3]float64{v.X, v.Y, v.Z})
	}
	for _, v := range model.Objects[0].Triangles {
		tris = append(tris, [3]int{v.A, v.B, v.C})
	}
	return corners, tris
}

// closed counts each edge's two ways; the volume is the divergence theorem's.
func closed(t *testing.T, corners [][3]float64, tris [][3]int) (volume float64) {
	t.Helper()
	edges := map[[2]int]int{}
	for _, tr := range tris {
		a, b, c := corners[tr[0]], corners[tr[1]], corners[tr[2]]
		volume += (a[0]*(b[1]*c[2]-b[2]*c[1]) + a[1]*(b[2]*c[0]-b[0]*c[2]) + a[2]*(b[0]*c[1]-b[1]*c[0])) / 6
		for k := range 3 {
			edges[[2]int{tr[k], tr[(k+1)%3]}]++
		}
	}
	for e, n := range edges {
		if back := edges[[2]int{e[1], e[0]}]; n != 1 || back != 1 {
			t.Fatalf("edge %v is run along %d times, the other way %d", e, n, back)
		}
	}
	return volume
}

func TestSolidsReadBackAreClosedAndWeighWhatTheReportSays(t *testing.T) {
	_, r := bent(t)
	want := r.Left / r.Density * 1000 // mm^3
	c, tr := readSTL(t, solidFile(t, "stl"))
	assert.InEpsilon(t, want, closed(t, c, tr), 1e-3)
	c2, tr2 := read3MF(t, solidFile(t, "3mf"))
	assert.InEpsilon(t, want, closed(t, c2, tr2), 1e-3)
	assert.Len(t, c2, len(c), "both hold the same corners")
	assert.Len(t, tr2, len(tr))
	for i := range tr {
		for k := range 3 {
			require.Equal(t, c[tr[i][k]], asFloat32(c2[tr2[i][k]]))
		}
	}
}

func asFloat32(p [3]float64) [3]float64 {
	for k := range p {
		p[k] = float64(float32(p[k]))
	}
	return p
}

func TestSolidsAreTheSameBytesTwice(t *testing.T) {
	for _, key := range export.Solids() {
		assert.True(t, bytes.Equal(solidFile(t, key), solidFile(t, key)), key)
	}
}

func TestASolidInPiecesIsRefused(t *testing.T) {
	s, r := bent(t)
	broken := *r
	broken.Pieces = 2
	for _, write := range writers {
		assert.ErrorIs(t, write(io.Discard, s, &broken, export.Options{}), export.ErrPieces)
	}
}

// A name can't break out of the XML, and control characters can't get in.
func TestTheNameIsTextInThe3MF(t *testing.T) {
	s, r := bent(t)
	odd := *s
	odd.Design.Name = "<A> & \"B\"\x01"
	model, err := model3MF(&odd, r, export.Options{})
	require.NoError(t, err)
	var m struct {
		Metadata []string `xml:"metadata"`
	}
	require.NoError(t, xml.Unmarshal(model, &m))
	assert.Contains(t, m.Metadata[0], `<A> & "B"`)
}

func TestNumbersReadBackTheSame(t *testing.T) {
	for _, x := range []float32{0, 1, -31.234567, 1e-7, 123456.78, math.MaxFloat32} {
		got, err := strconv.ParseFloat(string(number(nil, x)), 32)
		require.NoError(t, err)
		assert.Equal(t, x, float32(got))
	}
}
