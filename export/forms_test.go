package export

import (
	"bytes"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"fretband/pattern"
	"fretband/pattern/check"
	"fretband/unroll"
)

// shapes are the forms of band, to be combined with kinds and ways of making.
func shapes() map[string]func(b *unroll.Band) {
	return map[string]func(b *unroll.Band){
		"oval":           func(b *unroll.Band) { b.Inside.HeightMM = 48 },
		"straight sides": func(b *unroll.Band) { b.Inside.By, b.Inside.HeightMM = unroll.BySides, 48 },
		"profile": func(b *unroll.Band) {
			b.Inside = unroll.Inside{By: unroll.ByProfile, Profile: []unroll.Piece{{LengthMM: 20}, {RadiusMM: 10, AngleDeg: 90}, {RadiusMM: 30, AngleDeg: 180}, {RadiusMM: 10, AngleDeg: 90}, {LengthMM: 20}}}
		},
		"tapered": func(b *unroll.Band) { b.EndWidthMM = 14 },
		"waved":   func(b *unroll.Band) { b.TopEdge = []unroll.EdgePoint{{At: -0.6}, {At: 0.1, OutMM: 3}, {At: 0.7}} },
		"flared":  func(b *unroll.Band) { b.FlareDeg = 12 },
		"domed":   func(b *unroll.Band) { b.Dome, b.DomeRadiusMM, b.DomeFlat = unroll.Outward, 30, unroll.EqualArea },
		"hollow":  func(b *unroll.Band) { b.Dome, b.DomeRadiusMM, b.DomeFlat = unroll.Hollow, 30, unroll.Conformal },
	}
}

// formOf is a band of the form, open or closed, made in the way that is named.
func formOf(t *testing.T, kind, form, making, drawn string, k float64) (*pattern.Sheet, *check.Report) {
	t.Helper()
	b := unroll.Band{
		Kind: kind, Inside: unroll.Inside{By: unroll.ByAxes, WidthMM: 60, HeightMM: 60}, Thickness: unroll.Thickness{MM: 1.5},
		WidthMM: 20, EndWidthMM: 20, NeutralK: k, Making: making, Drawn: drawn,
	}
	if kind == unroll.Cuff {
		b.GapMM, b.EndCornerMM = 25, 3
	} else {
		b.Joint, b.JointMM = unroll.Soldered, 4
	}
	shapes()[form](&b)
	s, err := pattern.Lay(pattern.Design{
		Name: form, Band: b, Metal: pattern.Metal{Alloy: "sterling-925"},
		Rules:  pattern.DesignRules{BridgeMM: 1.2, RimMM: 1.5, CornerMM: 0.3, SmallestMM: 0.8},
		Fields: []pattern.Field{{Motif: "diamonds", Rows: 2, Repeats: 16, Stagger: 0.5}},
	})
	require.NoError(t, err, form)
	r := check.Run(s)
	require.Greater(t, r.Openings, 20, form)
	return s, r
}

// A closed band is closed whatever its blank looks like: that of a flared one is
// a sector whose ends meet by turning.
func TestWordsGoByTheKindOfBandNotByItsBlank(t *testing.T) {
	for form := range shapes() {
		for _, kind := range []string{unroll.Cuff, unroll.Bangle, unroll.Ring} {
			s, r := formOf(t, kind, form, "", "", 0.5)
			all := strings.Join(noteLines(s, r, Options{}, 1000), "\n")
			if kind == unroll.Cuff {
				assert.Contains(t, ends(s), "open cuff, gap 25 mm", form)
				assert.Equal(t, "end; bends away from you", endLabel(s), form)
				assert.NotContains(t, all, "closed", form)
				continue
			}
			assert.Contains(t, ends(s), "closed band: the two ends meet and are joined; the last 2 mm at each end stay solid", form)
			assert.Equal(t, "joint; bends away from you", endLabel(s), form)
			assert.NotContains(t, all, "open cuff", form)
			assert.Contains(t, all, "closed", form)
			assert.NotContains(t, all, "gap ", form)
		}
	}
	s, _ := formOf(t, unroll.Bangle, "flared", "", "", 0.5)
	assert.Equal(t, "closed flared bangle", kind(s))
	s, _ = formOf(t, unroll.Cuff, "domed", "", "", 0.5)
	assert.Equal(t, "open domed cuff", kind(s))
}

// No file can be taken for the drawing of another face, and none says that a
// band cast as formed is bent.
func TestEveryFileNamesTheSurfaceThatItShows(t *testing.T) {
	for _, c := range []struct{ making, drawn, cut, stl string }{
		{"", "", "length taken on the neutral surface", "flat sheet"},
		{unroll.Formed, unroll.InnerFace, "drawn on the inner face", "inner face"},
		{unroll.Formed, unroll.MiddleFace, "drawn on the middle face", "middle face"},
		{unroll.Formed, "", "drawn on the middle face", "middle face"},
		{unroll.Formed, unroll.OuterFace, "drawn on the outer face", "outer face"},
	} {
		s, r := formOf(t, unroll.Cuff, "flared", c.making, c.drawn, 0.5)
		flat := func(write func(b *bytes.Buffer) error) string {
			var b bytes.Buffer
			require.NoError(t, write(&b))
			return strings.Join(strings.Fields(b.String()), " ")
		}
		for name, text := range map[string]string{
			"svg": flat(func(b *bytes.Buffer) error { return writeSVG(b, s, r, Options{}) }),
			"dxf": strings.Join(noteLines(s, r, Options{}, 1000), " "),
			"3mf": flat(func(b *bytes.Buffer) error { m, err := model3MF(s, r, Options{}); b.Write(m); return err }),
			"pdf": func() string {
				p, err := newTemplate(s, r, Options{})
				require.NoError(t, err)
				var all []string
				for _, n := range p.paragraphs() {
					all = append(all, n.text)
				}
				return strings.Join(all, " ")
			}(),
		} {
			assert.Contains(t, text, c.cut, name)
			if c.making == unroll.Formed {
				assert.NotContains(t, text, "bend the ends", name)
				assert.Contains(t, text, "mm² outside; thinnest bridge", name)
			}
		}
		if c.making == unroll.Formed && c.stl == "middle face" { // which is where K has it
			s, _ := formOf(t, unroll.Cuff, "oval", c.making, c.drawn, 0.4)
			assert.Contains(t, drawn(s), "drawn on the surface at 0.4 of the thickness over the inner face")
		}
		stl := flat(func(b *bytes.Buffer) error { return writeSTL(b, s, r, Options{}) })
		assert.Contains(t, stl[:80], c.stl)
		assert.LessOrEqual(t, len(stlHead(s)), 80)
	}
}

// Every form, made in every way, read back by the formats' own layout: closed,
// oriented, and of the weight in the report within 0.1 % (the divergence theorem).
func TestTheSolidOfEveryFormWeighsWhatTheReportSays(t *testing.T) {
	for form := range shapes() {
		for i, c := range []struct {
			making, drawn string
			k             float64
		}{{"", "", 0.5}, {"", "", 0.35}, {unroll.Formed, unroll.InnerFace, 0.5}, {unroll.Formed, "", 0.42}, {unroll.Formed, unroll.OuterFace, 0.5}} {
			band := []string{unroll.Cuff, unroll.Bangle}[i%2]
			s, r := formOf(t, band, form, c.making, c.drawn, c.k)
			var b bytes.Buffer
			require.NoError(t, writeSTL(&b, s, r, Options{}), "%s %v", form, c)
			corners, tris := readSTL(t, b.Bytes())
			assert.InEpsilon(t, r.Left/r.Density*1000, closed(t, corners, tris), 1e-3, "%s %v", form, c)
		}
	}
}
