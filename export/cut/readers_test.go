package cut

import (
	"encoding/xml"
	"io"
	"math"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"fretband/export"
	"fretband/unroll/plane"
)

// The readers here know the formats from their published descriptions, and
// nothing of the code that writes.

// readLoop is a closed line found in a file.
type readLoop struct {
	name string // layer, or group and id
	loop plane.Loop
}

// readSVG returns the paths of an SVG file as loops, y turned up again.
func readSVG(t *testing.T, r io.Reader) []readLoop {
	t.Helper()
	var loops []readLoop
	var groups []string
	ids := map[string]bool{}
	d := xml.NewDecoder(r)
	for {
		tok, err := d.Token()
		if err == io.EOF {
			return loops
		}
		require.NoError(t, err)
		switch e := tok.(type) {
		case xml.StartElement:
			at := map[string]string{}
			for _, a := range e.Attr {
				at[a.Name.Local] = a.Value
			}
			if id := at["id"]; id != "" {
				require.False(t, ids[id], "id %s stands twice", id)
				ids[id] = true
			}
			switch e.Name.Local {
			case "g":
				groups = append(groups, at["id"])
			case "path":
				if groups[len(groups)-1] != export.GroupEngraved { // not cut; see engrave_test.go
					loops = append(loops, readLoop{groups[len(groups)-1] + "/" + at["id"], readPath(t, at["d"])})
				}
			}
		case xml.EndElement:
			if e.Name.Local == "g" {
				groups = groups[:len(groups)-1]
			}
		}
	}
}

// readPath reads absolute M, L, A and Z (SVG 1.1, 8.3 and, for the way from ends
// and radius to an arc, F.6.5 and F.6.6).
func readPath(t *testing.T, d string) plane.Loop {
	t.Helper()
	var l plane.Loop
	var start plane.Point
	for len(d) > 0 {
		end := 1 + strings.IndexAny(d[1:], "MLAZ")
		if end == 0 {
			end = len(d)
		}
		var n []float64
		for _, f := range strings.Fields(d[1:end]) {
			v, err := strconv.ParseFloat(f, 64)
			require.NoError(t, err)
			n = append(n, v)
		}
		switch d[0] {
		case 'M':
			require.Empty(t, l, "a second M in one path")
			require.Len(t, n, 2)
			start = plane.Pt(n[0], -n[1])
			l = plane.Loop{{Point: start}}
		case 'L':
			require.Len(t, n, 2)
			l = append(l, plane.Vertex{Point: plane.Pt(n[0], -n[1])})
		case 'A':
			require.Len(t, n, 7)
			require.Equal(t, n[0], n[1], "not a circle")
			last := &l[len(l)-1]
			end := plane.Pt(n[5], -n[6])
			half := last.Dist(end) / 2
			sweep := math.Pi
			if n[0] > half*(1+1e-12) {
				sweep = 2 * math.Asin(half/n[0])
			}
			if n[3] == 1 {
				sweep = 2*math.Pi - sweep
			}
			if n[4] == 1 { // positive angle with y down is clockwise with y up
				sweep = -sweep
			}
			last.Bulge = math.Tan(sweep / 4)
			l = append(l, plane.Vertex{Point: end})
		case 'Z':
			if l[len(l)-1].Point == start {
				l = l[:len(l)-1]
			}
			require.Equal(t, end, len(d), "something follows Z")
		default:
			t.Fatalf("path data %q", d)
		}
		d = d[end:]
	}
	return l
}

// pair is a group of a DXF file.
type pair struct {
	code  int
	value string
}

func readPairs(t *testing.T, r io.Reader) []pair {
	t.Helper()
	b, err := io.ReadAll(r)
	require.NoError(t, err)
	lines := strings.Split(strings.TrimSuffix(string(b), "\n"), "\n")
	require.Zero(t, len(lines)%2, "a group code without a value")
	var ps []pair
	for i := 0; i < len(lines); i += 2 {
		c, err := strconv.Atoi(strings.TrimSpace(lines[i]))
		require.NoError(t, err)
		ps = append(ps, pair{c, lines[i+1]})
	}
	return ps
}

// readDXF returns the polylines of a DXF file as loops: LWPOLYLINE, or POLYLINE with
// the VERTEX entities that follow it.
func readDXF(t *testing.T, r io.Reader) []readLoop {
	t.Helper()
	var loops []readLoop
	var in, light, vertex bool
	for _, p := range readPairs(t, r) {
		if p.code == 8 && in && p.value == export.LayerEngraved { // not cut; see engrave_test.go
			if !vertex {
				loops = loops[:len(loops)-1]
			}
			in = false
		}
		if p.code == 0 {
			light, vertex = false, p.value == "VERTEX"
			switch p.value {
			case "LWPOLYLINE", "POLYLINE":
				in, light = true, p.value == "LWPOLYLINE"
				loops = append(loops, readLoop{})
			case "VERTEX":
				if in {
					l := &loops[len(loops)-1]
					l.loop = append(l.loop, plane.Vertex{})
				}
			default:
				in = false
			}
			continue
		}
		if !in {
			continue
		}
		l := &loops[len(loops)-1]
		v, _ := strconv.ParseFloat(p.value, 64)
		switch p.code {
		case 8:
			require.True(t, !vertex || l.name == p.value, "a vertex on another layer")
			l.name = p.value
		case 70:
			require.Equal(t, "1", p.value, "the line is not closed")
		case 62, 6:
			t.Fatalf("group %d: colour and line type belong to the layer", p.code)
		case 10:
			if vertex {
				l.loop[len(l.loop)-1].X = v
			} else if light {
				l.loop = append(l.loop, plane.Vertex{Point: plane.Pt(v, 0)})
			}
		case 20:
			if light || vertex {
				l.loop[len(l.loop)-1].Y = v
			}
		case 42:
			l.loop[len(l.loop)-1].Bulge = v
		}
	}
	return loops
}
