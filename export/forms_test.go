package export

import (
	"bytes"
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"fretband/pattern"
	"fretband/pattern/check"
	"fretband/pattern/project"
	"fretband/testdata"
	"fretband/unroll"
)

// eachForm calls do with a design of every form.
func eachForm(t *testing.T, do func(name string, d pattern.Design)) {
	t.Helper()
	for _, e := range testdata.Forms() {
		d, err := project.Read(bytes.NewReader(e.JSON))
		require.NoError(t, err, e.Name)
		do(e.Name, d)
	}
}

// measured lays and measures a design.
func measured(t *testing.T, d pattern.Design) (*pattern.Sheet, *check.Report) {
	t.Helper()
	s, err := pattern.Lay(d)
	require.NoError(t, err, d.Name)
	r := check.Run(s)
	require.Greater(t, r.Openings, 20, d.Name)
	return s, r
}

// form returns the design of the form of that name.
func form(t *testing.T, name string) (found pattern.Design) {
	t.Helper()
	eachForm(t, func(n string, d pattern.Design) {
		if n == name {
			found = d
		}
	})
	require.NotEmpty(t, found.Name, name)
	return found
}

// A closed band is closed whatever its blank looks like: that of a flared one is
// a sector whose ends meet by turning.
func TestWordsGoByTheKindOfBandNotByItsBlank(t *testing.T) {
	eachForm(t, func(name string, d pattern.Design) {
		s, r := measured(t, d)
		all := strings.Join(noteLines(s, r, Options{}, 1000), "\n")
		switch {
		case d.Band.Kind == unroll.Cuff:
			assert.Contains(t, ends(s), "open cuff, gap 25 mm", name)
			assert.Equal(t, "end; bends away from you", endLabel(s), name)
			assert.NotContains(t, all, "closed", name)
			return
		case d.Band.Joint == unroll.Seamless:
			assert.Contains(t, ends(s), "seamless band: both ends of the drawing are one place", name)
			assert.Equal(t, "both ends are one place", endLabel(s), name)
		default:
			assert.Contains(t, ends(s), fmt.Sprintf("closed band: the two ends meet and are joined; the last %g mm at each end stay solid", d.Band.JointMM/2), name)
			assert.Equal(t, "joint; bends away from you", endLabel(s), name)
		}
		assert.NotContains(t, all, "open ", name)
		assert.Contains(t, all, "closed", name)
		assert.NotContains(t, all, "gap ", name)
	})
	for name, want := range map[string]string{"flared-bangle": "closed flared bangle", "domed-cuff": "open domed cuff", "ring": "closed ring"} {
		s, _ := measured(t, form(t, name))
		assert.Equal(t, want, kind(s))
	}
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
		d := form(t, "flared-cuff")
		d.Band.Making, d.Band.Drawn = c.making, c.drawn
		s, r := measured(t, d)
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
			d.Band.NeutralK = 0.4
			s, _ := measured(t, d)
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
	eachForm(t, func(name string, d pattern.Design) {
		for _, c := range []struct {
			making, drawn string
			k             float64
		}{{"", "", 0.5}, {"", "", 0.35}, {unroll.Formed, unroll.InnerFace, 0.5}} {
			d.Band.Making, d.Band.Drawn, d.Band.NeutralK = c.making, c.drawn, c.k
			s, r := measured(t, d)
			var b bytes.Buffer
			require.NoError(t, writeSTL(&b, s, r, Options{}), "%s %v", name, c)
			corners, tris := readSTL(t, b.Bytes())
			assert.InEpsilon(t, r.Left/r.Density*1000, closed(t, corners, tris), 1e-3, "%s %v", name, c)
		}
	})
}
