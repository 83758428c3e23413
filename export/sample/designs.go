package sample

import (
	"bytes"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"fretband/pattern"
	"fretband/pattern/check"
	"fretband/pattern/project"
	"fretband/testdata"
	"fretband/unroll"
)

// EachForm calls do with a design of every form.
func EachForm(t testing.TB, do func(name string, d pattern.Design)) {
	t.Helper()
	for _, e := range testdata.Forms() {
		d, err := project.Read(bytes.NewReader(e.JSON))
		require.NoError(t, err, e.Name)
		do(e.Name, d)
	}
}

// Measured lays and measures a design.
func Measured(t testing.TB, d pattern.Design) (*pattern.Sheet, *check.Report) {
	t.Helper()
	s, err := pattern.Lay(d)
	require.NoError(t, err, d.Name)
	r := check.Run(s)
	require.Greater(t, r.Openings, 20, d.Name)
	return s, r
}

// Form returns the design of the form of that name.
func Form(t testing.TB, name string) (found pattern.Design) {
	t.Helper()
	EachForm(t, func(n string, d pattern.Design) {
		if n == name {
			found = d
		}
	})
	require.NotEmpty(t, found.Name, name)
	return found
}

// Gallery returns the gallery's designs, and one of them made seamless with openings
// over the seam.
func Gallery(t testing.TB) map[string]*pattern.Sheet {
	t.Helper()
	sheets := map[string]*pattern.Sheet{}
	for _, name := range project.Gallery() {
		d, err := project.GalleryDesign(name)
		require.NoError(t, err)
		sheets[name], err = pattern.Lay(d)
		require.NoError(t, err)
		if !d.Band.Open() && !d.Band.OnFinger() {
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

// Engraved is a real sheet with each kind of engraving, laid as the program does.
func Engraved(t testing.TB) (*pattern.Sheet, *check.Report) {
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
			{Shape: pattern.OvalShape, XMM: -60, WidthMM: 6, HeightMM: 4, RotationDeg: 30, Count: 3, SpacingMM: 12, MarginMM: 1, Note: "stone seat"},
		},
		Engravings: []pattern.Engraving{
			{Kind: pattern.LineEngraving, XMM: 20, LengthMM: 8, RotationDeg: 30, MarginMM: 0.5},
			{Kind: pattern.PathEngraving, XMM: 96, Path: "M-5 0A5 5 0 0 1 5 0", MarginMM: 0.5}, // over the seam
			{Kind: pattern.TextEngraving, XMM: 50, Text: "Gull <925>", HeightMM: 2, MarginMM: 1},
		},
	}
	s, err := pattern.Lay(d)
	require.NoError(t, err)
	return s, check.Run(s)
}

// Face is a way of making a band, and what files say of the surface that its drawing shows.
type Face struct{ Making, Drawn, Says, Short string }

// Faces are all of them.
var Faces = []Face{
	{"", "", "length taken on the neutral surface", "flat sheet"},
	{unroll.Formed, unroll.InnerFace, "drawn on the inner face", "inner face"},
	{unroll.Formed, unroll.MiddleFace, "drawn on the middle face", "middle face"},
	{unroll.Formed, "", "drawn on the middle face", "middle face"},
	{unroll.Formed, unroll.OuterFace, "drawn on the outer face", "outer face"},
}

// Sheet returns a band that is made so.
func (f Face) Sheet(t testing.TB) (*pattern.Sheet, *check.Report) {
	t.Helper()
	d := Form(t, "flared-cuff")
	d.Band.Making, d.Band.Drawn = f.Making, f.Drawn
	return Measured(t, d)
}

// Named checks that a text says what has to be said of the face, and nothing else.
func (f Face) Named(t testing.TB, text string) {
	t.Helper()
	text = strings.Join(strings.Fields(text), " ")
	require.Contains(t, text, f.Says)
	if f.Making == unroll.Formed {
		require.NotContains(t, text, "bend the ends")
		require.Contains(t, text, "mm² outside; thinnest bridge")
	}
}
