package export

import (
	"bytes"
	"encoding/json"
	"encoding/xml"
	"fmt"
	"math"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"fretband/pattern"
	"fretband/pattern/check"
	"fretband/unroll"
	"fretband/unroll/plane"
)

// markedSheet is a real sheet with each kind of mark, laid as the program does.
func markedSheet(t *testing.T) (*pattern.Sheet, *check.Report) {
	d := pattern.Design{
		Name: "Marked cuff",
		Band: unroll.Band{
			Kind: unroll.Bangle, Joint: unroll.Seamless, Inside: unroll.Inside{By: unroll.ByCircumference, CircumferenceMM: 190, Ratio: 1},
			Thickness: unroll.Thickness{MM: 1}, WidthMM: 24, EndWidthMM: 24, NeutralK: 0.5,
		},
		Metal:  pattern.Metal{Alloy: "sterling-925"},
		Rules:  pattern.DesignRules{BridgeMM: 1, RimMM: 1.5, CornerMM: 0.2, SmallestMM: 0.8},
		Fields: []pattern.Field{{Motif: "squares", Rows: 2, Repeats: 16}},
		Reserves: []pattern.Reserve{
			{Shape: pattern.OvalShape, XMM: -60, WidthMM: 6, HeightMM: 4, TurnDeg: 30, Count: 3, SpacingMM: 12, MarginMM: 1, Note: "stone seat"},
		},
		Marks: []pattern.Mark{
			{Kind: pattern.LineMark, XMM: 20, LengthMM: 8, TurnDeg: 30, KeepMM: 0.5},
			{Kind: pattern.PathMark, XMM: 96, Path: "M-5 0A5 5 0 0 1 5 0", KeepMM: 0.5}, // over the seam
			{Kind: pattern.TextMark, XMM: 50, Text: "Gull <925>", HeightMM: 2, KeepMM: 1},
		},
	}
	s, err := pattern.Lay(d)
	require.NoError(t, err)
	return s, check.Run(s)
}

func markedFile(t *testing.T, key string, s *pattern.Sheet, r *check.Report) string {
	for _, f := range Formats() {
		if f.Key == key {
			var b bytes.Buffer
			require.NoError(t, f.Write(&b, s, r, Options{}))
			return b.String()
		}
	}
	t.Fatal(key)
	return ""
}

func TestTheSVGHoldsMarksInAGroupOfTheirOwn(t *testing.T) {
	s, r := markedSheet(t)
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
	require.NoError(t, xml.Unmarshal([]byte(markedFile(t, "svg", s, r)), &doc))
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
	s, r := markedSheet(t)
	length := map[string]float64{}
	open := map[string]int{}
	rows := strings.Split(strings.ReplaceAll(markedFile(t, "dxf", s, r), "\r", ""), "\n")
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
	require.InDelta(t, r.MarkLength, length["ENGRAVE_NOT_CUT"], 1e-6)
	require.InDelta(t, r.OpenLength, length["OPENINGS"], 1e-6)
	require.Zero(t, open["OPENINGS"]+open["OUTLINE"], "what is cut is closed")
	require.Equal(t, 3, open["ENGRAVE_NOT_CUT"], "a line, and an arc in two")
	require.Len(t, length, 3)

	plain, pr := sample()
	require.NotContains(t, markedFile(t, "dxf", plain, pr), "ENGRAVE", "without marks there is no such layer")
}

func TestMarksAreInNoFigureOfCutting(t *testing.T) {
	s, r := markedSheet(t)
	bare := s.Design
	bare.Marks = nil
	for _, m := range s.Design.Marks {
		m.KeepMM = -1
		bare.Marks = append(bare.Marks, m)
	}
	through, err := pattern.Lay(bare)
	require.NoError(t, err)
	bare.Marks = nil
	without, err := pattern.Lay(bare)
	require.NoError(t, err)
	a, b := check.Run(through), check.Run(without)
	require.Equal(t, b.CutLength, a.CutLength)
	require.Equal(t, b.Openings, a.Openings)

	var out struct {
		Marks  int     `json:"marks"`
		Length float64 `json:"marks_length_mm"`
	}
	var buf bytes.Buffer
	require.NoError(t, ReportJSON(&buf, s, r))
	require.NoError(t, json.Unmarshal(buf.Bytes(), &out))
	require.Equal(t, 3, out.Marks)
	require.Greater(t, out.Length, 8+5*math.Pi)
	buf.Reset()
	require.NoError(t, ReportText(&buf, s, r))
	require.Contains(t, buf.String(), fmt.Sprintf("3 marks, %.1f mm of line: not cut", r.MarkLength))

	var facts []string
	for _, f := range Facts(s, r, Options{}) {
		facts = append(facts, f.String())
	}
	all := strings.Join(facts, "\n")
	require.Contains(t, all, "engrave, do not cut")
	require.Contains(t, all, `Lettering: "Gull <925>", capitals 2 mm`)
	require.Contains(t, all, "stone seat, 3 in a row (each oval")
}

// What a person reads of a reserve.
func TestReservesAreToldWithShapeSizeTurnAndRow(t *testing.T) {
	for want, r := range map[string]pattern.Reserve{
		"circle 4 mm across at x 1, y 2":                                                   {Shape: pattern.CircleShape, XMM: 1, YMM: 2, WidthMM: 4, TurnDeg: 20},
		"seat, oval 6 x 4 mm turned 30 degrees at x 1, y 2":                                {Shape: pattern.OvalShape, XMM: 1, YMM: 2, WidthMM: 6, HeightMM: 4, TurnDeg: 30, Note: "seat"},
		"drawn shape at x 0, y 0":                                                          {Shape: pattern.PathShape},
		"5 in a row (each circle 3 mm across), 8 mm from middle to middle, about x 0, y 0": {Shape: pattern.CircleShape, WidthMM: 3, Count: 5, SpacingMM: 8},
		"5 in a row (each circle 3 mm across), spread evenly, about x 0, y 0":              {Shape: pattern.CircleShape, WidthMM: 3, Count: 5},
	} {
		require.Equal(t, want, keptText(r))
	}
}
