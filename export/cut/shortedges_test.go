package cut

import (
	"bytes"
	"errors"
	"fmt"
	"math"
	"math/rand"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"fretband/export"
	"fretband/pattern"
	"fretband/pattern/check"
	"fretband/pattern/motif"
	"fretband/pattern/project"
	"fretband/unroll"
)

// inChords is a circle of 20 mm as programs without arcs write it.
func inChords(n int) string {
	var b strings.Builder
	for i := range n {
		t := 2 * math.Pi * float64(i) / float64(n)
		fmt.Fprintf(&b, "%c%.6f %.6f", "ML"[min(i, 1)], 10*math.Cos(t), 10*math.Sin(t))
	}
	return b.String() + "Z"
}

// Designs whose cut files once did not read back as the report counts, since edges too
// short to be cut were taken out of the files alone.
func TestDesignsWithShortEdgesCanBeMade(t *testing.T) {
	cuff, err := project.GalleryDesign("harbour-cuff")
	require.NoError(t, err)
	with := func(r pattern.Reserve, margin float64) pattern.Design {
		d := cuff
		r.MarginMM = margin
		d.Reserves = append(append([]pattern.Reserve{}, d.Reserves...), r)
		return d
	}
	designs := map[string]pattern.Design{}
	for _, deg := range []float64{10, 33} {
		for _, margin := range []float64{0, 0.0005, 0.001, 0.002} {
			turned := pattern.Reserve{Shape: pattern.RectangleShape, XMM: 20, YMM: 1, WidthMM: 8, HeightMM: 4, RotationDeg: deg}
			designs[fmt.Sprintf("a rectangle turned by %g, margin %g", deg, margin)] = with(turned, margin)
			path := pattern.Reserve{Shape: pattern.PathShape, XMM: -15, YMM: 1, RotationDeg: deg, Path: "M-6 -3L6 -3L6 0L0 0L0 3L-6 3Z"}
			designs[fmt.Sprintf("a path turned by %g, margin %g", deg, margin)] = with(path, margin)
		}
	}
	for _, corner := range []float64{0.1, 0.03, 0.001} {
		d := cuff
		d.Rules.CornerMM = corner
		d.Fields = []pattern.Field{{Motif: motif.OwnKey, Path: inChords(360), Rows: 2, Repeats: 9}}
		designs[fmt.Sprintf("a circle in chords, corners of %g", corner)] = d
	}
	for name, d := range designs {
		s, err := pattern.Lay(d)
		require.NoError(t, err, name)
		require.Greater(t, len(s.Openings), 10, name)
		r := check.Run(s)
		for _, o := range []export.Options{{}, {LeadMM: 0.5, Tabs: 2, Copies: 2}, {Curves: export.Chords, ChordMM: export.MinChordMM}} {
			require.NoError(t, madeAndReadBack(s, r, o), "%s: %+v", name, o)
		}
	}
}

func TestNoKerfIsRefusedForAShortEdge(t *testing.T) {
	for _, name := range project.Gallery() {
		d, err := project.GalleryDesign(name)
		require.NoError(t, err)
		s, err := pattern.Lay(d)
		require.NoError(t, err)
		r := check.Run(s)
		for i := range 20 {
			o := export.Options{KerfMM: 0.002 + 0.0134*float64(i)}
			err := madeAndReadBack(s, r, o)
			var ours *unroll.ProgramError
			require.False(t, errors.As(err, &ours), "%s, kerf %g: %v", name, o.KerfMM, err)
		}
	}
}

// randomShortEdges returns a design in which many edges come out short: reserves turned and
// of a path's shape beside openings, with hardly any margin, edits by hand, engraving.
func randomShortEdges(d pattern.Design, rng *rand.Rand) pattern.Design {
	pick := func(lo, hi float64) float64 { return lo + (hi-lo)*rng.Float64() }
	one := func(of ...string) string { return of[rng.Intn(len(of))] }
	d.Name, d.Reserves, d.Engravings = "short edges", nil, nil
	d.Band.WidthMM = pick(14, 30)
	if rng.Intn(3) == 0 {
		d.Band.Kind, d.Band.GapMM = unroll.Bangle, 0
		d.Band.EndWidthMM, d.Band.EndCornerMM = d.Band.WidthMM, 0
		if rng.Intn(2) == 0 {
			d.Band.Making = unroll.Formed
		}
	} else if d.Band.EndWidthMM, d.Band.EndCornerMM = d.Band.WidthMM*pick(0.5, 1), 0; rng.Intn(2) == 0 {
		d.Band.EndCornerMM = pick(0, 0.4) * d.Band.EndWidthMM
	}
	d.Rules.BridgeMM, d.Rules.RimMM = pick(0.4, 1.2), pick(0.4, 2)
	d.Rules.CornerMM = []float64{0, 0.002, pick(0, 0.05), pick(0.05, 0.4)}[rng.Intn(4)]
	d.Rules.SmallestMM = pick(0, 0.8)
	m := motif.All()[rng.Intn(len(motif.All()))]
	f := pattern.Field{Motif: m.Key, Rows: 1 + rng.Intn(3), Repeats: 8 + rng.Intn(12), RotationDeg: []float64{0, pick(-90, 90)}[rng.Intn(2)]}
	if m.Key == motif.OwnKey {
		f.Path = inChords(40 + rng.Intn(800))
	}
	d.Fields = []pattern.Field{f}
	for range rng.Intn(4) {
		r := pattern.Reserve{Shape: one(pattern.RectangleShape, pattern.OvalShape, pattern.PathShape), XMM: pick(-50, 50), YMM: pick(-6, 6), RotationDeg: pick(-180, 180),
			MarginMM: []float64{0, 0.0005, 0.002, pick(0, 0.01)}[rng.Intn(4)]}
		if r.Shape == pattern.PathShape {
			r.Path = "M-6 -3L6 -3L6 0L0 0A1 1 0 0 1 -1 1L-1 3L-6 3Z"
		} else {
			r.WidthMM, r.HeightMM = pick(1, 9), pick(1, 6)
		}
		d.Reserves = append(d.Reserves, r)
	}
	at := []pattern.Spot{{XMM: pick(-50, 50), YMM: pick(-6, 6)}}
	for range rng.Intn(3) {
		d.Edits = append(d.Edits, pattern.Edit{Do: pattern.Add, Shape: one(pattern.OvalShape, pattern.RectangleShape), At: at, WidthMM: pick(2, 6), HeightMM: pick(2, 6), RotationDeg: pick(-90, 90)})
		at = []pattern.Spot{{XMM: at[0].XMM + pick(-4, 4), YMM: at[0].YMM + pick(-3, 3)}}
	}
	for _, m := range []pattern.Engraving{
		{Kind: pattern.TextEngraving, Text: "Anna 8&@", HeightMM: pick(0.5, 3), XMM: pick(-60, 60), RotationDeg: pick(-90, 90)},
		{Kind: pattern.PathEngraving, Path: inChords(1900) + "M0 0L0.003 0.004L3 3L3 3.005", XMM: pick(-60, 60)},
		{Kind: pattern.LineEngraving, LengthMM: pick(2, 60), XMM: pick(-60, 60), RotationDeg: pick(-90, 90)},
	} {
		if m.MarginMM = pick(0, 0.01); rng.Intn(2) == 0 {
			m.MarginMM = -1
		}
		if rng.Intn(3) == 0 {
			d.Engravings = append(d.Engravings, m)
		}
	}
	return d
}

// No segment of a cut file is under 0.01 mm, whatever was designed and asked for. Files are
// read by readers that know nothing of the code that writes them.
func TestNoSegmentOfAFileIsTooShortToFollow(t *testing.T) {
	n := 120
	if testing.Short() {
		n = 40
	}
	cuff, err := project.GalleryDesign("harbour-cuff")
	require.NoError(t, err)
	made, segments := 0, 0
	for seed := range n {
		rng := rand.New(rand.NewSource(int64(seed)))
		d := randomShortEdges(cuff, rng)
		s, err := pattern.Lay(d)
		var field *unroll.FieldError
		if errors.As(err, &field) {
			continue
		}
		require.NoError(t, err, "seed %d", seed)
		r := check.Run(s)
		o := export.Options{For: export.LaserShop, Curves: export.AllCurves()[rng.Intn(3)]}
		o.KerfMM = []float64{0, 0.05, 0.2 * rng.Float64()}[rng.Intn(3)]
		o.LeadMM = []float64{0, 0.8}[rng.Intn(2)]
		o.Copies = 1 + rng.Intn(2)
		if !Tube(s, o) {
			o.Tabs = 3 * rng.Intn(2)
		}
		if o.Chord() > 0 {
			o.ChordMM = []float64{0, export.MinChordMM, 0.1}[rng.Intn(3)]
		}
		f, err := NewFiles(s, r, o)
		var kerf *KerfError
		if errors.Is(err, export.ErrPieces) || errors.As(err, &kerf) || errors.Is(err, ErrForm) {
			continue
		}
		require.NoError(t, err, "seed %d", seed)
		var svg, dxf bytes.Buffer
		require.NoError(t, errors.Join(f.WriteSVG(&svg), f.WriteDXF(&dxf)), "seed %d", seed)
		for _, err := range []error{f.CheckSVG(svg.Bytes()), f.CheckDXF(dxf.Bytes())} {
			require.NoError(t, err, "seed %d, %+v", seed, o)
		}
		for _, l := range segmentsOf(t, svg.Bytes(), dxf.Bytes()) {
			require.GreaterOrEqual(t, l, 0.01, "seed %d", seed)
			segments++
		}
		made++
	}
	t.Logf("%d designs, %d segments", made, segments)
	require.Greater(t, made, n/2)
}

// segmentsOf returns the chords of all segments of both files.
func segmentsOf(t *testing.T, svg, dxf []byte) []float64 {
	var out []float64
	for _, m := range regexp.MustCompile(` d="([^"]*)"`).FindAllSubmatch(svg, -1) {
		var last, first [2]string
		for _, c := range regexp.MustCompile(`([MLAZ])([^MLAZ]*)`).FindAllStringSubmatch(string(m[1]), -1) {
			n := strings.Fields(c[2])
			at := first
			if c[1] != "Z" {
				at = [2]string{n[len(n)-2], n[len(n)-1]}
			}
			if c[1] == "M" {
				first = at
			} else if at != last { // a close where the line has come back draws nothing
				out = append(out, math.Hypot(number(t, at[0])-number(t, last[0]), number(t, at[1])-number(t, last[1])))
			}
			last = at
		}
	}
	var line [][2]float64
	closed := false
	end := func() {
		for i := 1; i < len(line); i++ {
			out = append(out, math.Hypot(line[i][0]-line[i-1][0], line[i][1]-line[i-1][1]))
		}
		if n := len(line); closed && n > 1 {
			out = append(out, math.Hypot(line[0][0]-line[n-1][0], line[0][1]-line[n-1][1]))
		}
		line, closed = nil, false
	}
	rows := strings.Split(strings.ReplaceAll(string(dxf), "\r", ""), "\n")
	entity, x, in := "", 0.0, false
	for i := 0; i+1 < len(rows); i += 2 {
		code, value := strings.TrimSpace(rows[i]), strings.TrimSpace(rows[i+1])
		switch {
		case code == "2" && value == "ENTITIES":
			in = true
		case !in:
		case code == "0":
			if value != "VERTEX" && value != "SEQEND" {
				end()
			}
			entity = value
		case code == "70" && (entity == "LWPOLYLINE" || entity == "POLYLINE"):
			closed = int(number(t, value))&1 == 1
		case (code == "10" || code == "11") && (entity == "LWPOLYLINE" || entity == "VERTEX" || entity == "LINE"):
			x = number(t, value)
		case (code == "20" || code == "21") && (entity == "LWPOLYLINE" || entity == "VERTEX" || entity == "LINE"):
			line = append(line, [2]float64{x, number(t, value)})
		}
	}
	end()
	return out
}

func number(t *testing.T, s string) float64 {
	v, err := strconv.ParseFloat(s, 64)
	require.NoError(t, err)
	return v
}
