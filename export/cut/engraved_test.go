package cut

import (
	"encoding/xml"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"fretband/export"
	"fretband/export/sample"
	"fretband/pattern"
	"fretband/pattern/check"
	"fretband/unroll/plane"
)

func TestTheSVGHoldsMarksInAGroupOfTheirOwn(t *testing.T) {
	s, r := sample.Engraved(t)
	var doc struct {
		Groups []struct {
			ID     string `xml:"id,attr"`
			Stroke string `xml:"stroke,attr"`
			Fill   string `xml:"fill,attr"`
			Paths  []struct {
				ID string `xml:"id,attr"`
				D  string `xml:"d,attr"`
			} `xml:"path"`
		} `xml:"g"`
	}
	require.NoError(t, xml.Unmarshal([]byte(string(fileOf(t, "svg", s, r, export.Options{}))), &doc))
	seen := map[string]int{}
	for _, g := range doc.Groups {
		seen[g.ID] = len(g.Paths)
		for _, p := range g.Paths {
			require.Equal(t, g.ID == "engrave-not-cut", strings.HasPrefix(p.ID, "mark-"), p.ID)
			if g.ID != "engrave-not-cut" {
				require.True(t, strings.HasSuffix(p.D, "Z"), "what is cut is closed")
			}
		}
		switch g.ID {
		case "openings", "outline":
			require.Equal(t, "#000000", g.Stroke)
		case "engrave-not-cut":
			require.Equal(t, "#808080", g.Stroke)
			require.Equal(t, "none", g.Fill)
		}
	}
	require.Equal(t, len(s.Openings), seen["openings"])
	require.Equal(t, 1, seen["outline"])
	// A line, an arc cut in two at the seam, and G u l l < 9 2 5 > with the inner
	// edge of the 9 (Go Regular).
	require.Equal(t, 1+2+10, seen["engrave-not-cut"])
	line := doc.Groups[0].Paths[0]
	require.Equal(t, "mark-1-1", line.ID)
	require.NotContains(t, line.D, "Z", "an open line stays open")
}

// The lengths of the lines as a reader of the DXF adds them up: LINE by its ends,
// LWPOLYLINE by chord and bulge.
func TestTheDXFHoldsMarksOnALayerOfTheirOwn(t *testing.T) {
	s, r := sample.Engraved(t)
	length := map[string]float64{}
	open := map[string]int{}
	rows := strings.Split(strings.ReplaceAll(string(fileOf(t, "dxf", s, r, export.Options{})), "\r", ""), "\n")
	kind, layer := "", ""
	var vs []plane.Vertex
	closed := false
	flush := func() {
		if len(vs) > 1 && layer != "" {
			n := len(vs)
			if !closed {
				n--
				open[layer]++
			}
			for i := range n {
				length[layer] += plane.Edge{A: vs[i].Point, B: vs[(i+1)%len(vs)].Point, Bulge: vs[i].Bulge}.Len()
			}
		}
		vs, closed, layer = nil, false, ""
	}
	for i := 0; i+1 < len(rows); i += 2 {
		code, v := strings.TrimSpace(rows[i]), rows[i+1]
		f, _ := strconv.ParseFloat(v, 64)
		switch code {
		case "0":
			flush()
			kind = v
		case "8":
			if kind == "LINE" || kind == "LWPOLYLINE" {
				layer = v
			}
		case "70":
			closed = kind == "LWPOLYLINE" && v == "1"
		case "10", "11":
			vs = append(vs, plane.Vertex{Point: plane.Pt(f, 0)})
		case "20", "21":
			if len(vs) > 0 {
				vs[len(vs)-1].Y = f
			}
		case "42":
			if len(vs) > 0 {
				vs[len(vs)-1].Bulge = f
			}
		}
		if kind != "LINE" && kind != "LWPOLYLINE" {
			vs = nil
		}
	}
	require.InDelta(t, r.EngravedLength, length["ENGRAVE_NOT_CUT"], 1e-6)
	require.InDelta(t, r.OpenLength, length["OPENINGS"], 1e-6)
	require.Zero(t, open["OPENINGS"]+open["OUTLINE"], "what is cut is closed")
	require.Equal(t, 3, open["ENGRAVE_NOT_CUT"], "a line, and an arc in two")
	require.Len(t, length, 3)

	plain, pr := sample.Cuff()
	require.NotContains(t, string(fileOf(t, "dxf", plain, pr, export.Options{})), "ENGRAVE", "without marks there is no such layer")
}

// What is engraved inside has a layer and a group of its own, in the file of one part and of
// several, and the words say that the part is turned over first.
func TestMarksInsideAreKeptApart(t *testing.T) {
	s, _ := sample.Engraved(t)
	d := s.Design
	d.Engravings[1].Side = pattern.InsideFace
	s, err := pattern.Lay(d)
	require.NoError(t, err)
	r := check.Run(s)
	for _, o := range []export.Options{{}, {Copies: 2}, {Curves: export.ArcsR12}, {Curves: export.Chords}} {
		svg, dxf := string(fileOf(t, "svg", s, r, o)), string(fileOf(t, "dxf", s, r, o))
		outside, inside, found := strings.Cut(svg, `<g id="engrave-inside-not-cut"`)
		require.True(t, found)
		inside, _, _ = strings.Cut(inside, "</g>")
		require.Contains(t, inside, "mark-2-")
		require.NotContains(t, inside, "mark-1-")
		require.NotContains(t, outside, "mark-2-")
		for _, layer := range []string{"\nENGRAVE_NOT_CUT", "\nENGRAVE_INSIDE_NOT_CUT"} {
			require.Greater(t, strings.Count(strings.ReplaceAll(dxf, "\r", ""), layer+"\n"), 1, layer)
		}
		for _, text := range []string{svg, dxf} {
			require.Contains(t, strings.Join(strings.Fields(strings.ReplaceAll(text, "999", "")), " "), "turn the part over left to right")
		}
	}
}
