package app

import (
	"fmt"
	"testing"

	"fretband/pattern"
	"fretband/pattern/motif"
	"fretband/pattern/own"
	"fretband/pattern/project"
	"fretband/unroll"
	"fretband/unroll/plane"

	"github.com/stretchr/testify/require"
)

// dropPath is a shape of our own: a drop.
const dropPath = "M0 -4 C2 -1 3 0 3 2 C3 4 1.5 5 0 5 C-1.5 5 -3 4 -3 2 C-3 0 -2 -1 0 -4 Z"

// manyFields is a band with a field of every kind of area, graded and counted in
// both ways.
func manyFields(t *testing.T) pattern.Design {
	t.Helper()
	d := gallery(t)
	d.Reserves = nil
	curve := []pattern.Grade{{At: -1, Size: 0.6}, {At: 0.25, Size: 1.2}, {At: 1, Size: 0.5}}
	d.Fields = []pattern.Field{
		{Motif: "circles", Rows: 3, Repeats: 3, Stagger: 0.5, Area: pattern.Area{Shape: pattern.CircleShape, XMM: 0, WidthMM: 16}},
		{Motif: "lattice", Rows: 2, Repeats: 4, Area: pattern.Area{Shape: pattern.OvalShape, XMM: 25, WidthMM: 18, HeightMM: 12, RotationDeg: 20}, Edge: pattern.EdgeWhole},
		{Motif: "squares", Rows: 3, PitchMM: 4, Area: pattern.Area{Shape: pattern.RectangleShape, XMM: -25, WidthMM: 16, HeightMM: 10}, Phase: 0.2, RotationDeg: 30},
		{Motif: "hexagons", Rows: 3, Repeats: 5, Area: pattern.Area{Shape: pattern.RunShape, FromMM: -60, ToMM: -38}, Mirror: pattern.MirrorBoth, GradeAcross: curve},
		{Motif: motif.OwnKey, Path: dropPath, Rows: 2, Repeats: 4, Area: pattern.Area{Shape: pattern.PathShape, XMM: 48, Path: "M-9 -6 L9 -6 L9 6 L-9 6 Z", WidthMM: 18, HeightMM: 12}},
		{Motif: "leaves", Rows: 1, Repeats: 20, Area: pattern.Area{Shape: pattern.StripShape, FromMM: -8, ToMM: 8}, GradeAlong: curve, GradeBridge: 0.5, BridgeMM: 2, BridgeAlong: curve},
		{Name: "ground", Motif: "diamonds", Rows: 4, Repeats: 30},
	}
	require.NoError(t, d.Check())
	return d
}

func TestEveryNumberOfEveryFieldReadsWritesAndHasAName(t *testing.T) {
	d := manyFields(t)
	seen := 0
	for i := range d.Fields {
		for _, n := range fieldNumbers(d, i) {
			if !n.Shown(d) {
				continue
			}
			seen++
			require.NotEmpty(t, n.Tip, n.Path)
			v := n.Get(d)
			require.True(t, v >= n.Min && v <= n.Max, "%s: %g", n.Path, v)
			e := Clone(d)
			require.NoError(t, n.Put(&e, n.Text(d)), n.Path)
			require.InDelta(t, v, n.Get(e), 0.006, n.Path)
			for _, steps := range []float64{1, -1} {
				e := Clone(d)
				n.Slide(&e, n.Get(e)+steps*n.Step)
				require.NoError(t, e.Check(), n.Path)
			}
			require.Error(t, n.Put(&e, FormatNumber(n.Max*2+1, 6)), n.Path)
			got, ok := NumberAt(d, n.Path)
			require.True(t, ok, n.Path)
			require.Equal(t, n.Title, got.Title, n.Path)
			require.Contains(t, TitleOf(d, n.Path), fmt.Sprintf("Field %d (", i+1))
		}
		for _, c := range append(Choices(pattern.ArrangeGroup, i), ChoiceOf("fields[].motif", i), ChoiceOf("fields[].area.shape", i), GradeChoice(AlongCurve, i), GradeChoice(AcrossCurve, i)) {
			if !shown(c.Shown, d) {
				continue
			}
			require.Contains(t, TitleOf(d, c.Path), fmt.Sprintf("Field %d (", i+1), c.Path)
			is := c.Get(d)
			found := false
			for _, o := range c.Options(d) {
				found = found || o.Key == is
				e := Clone(d)
				c.Set(&e, o.Key)
				require.NoError(t, e.Check(), "%s %s", c.Path, o.Key)
				require.Equal(t, o.Key, c.Get(e), "%s %s", c.Path, o.Key)
				if o.Key == is {
					require.True(t, Equal(d, e), "%s: choosing what is chosen changes nothing", c.Path)
				}
			}
			require.True(t, found, "%s has no option %q", c.Path, is)
		}
	}
	require.Greater(t, seen, 60)
}

func TestErrorsOfFieldsAreNamedInWords(t *testing.T) {
	d := manyFields(t)
	for want, spoil := range map[string]func(*pattern.Design){
		"Field 3 (Squares), pitch":                        func(d *pattern.Design) { d.Fields[2].PitchMM = 5000 },
		"Field 4 (Hexagons), size across, point 2, size":  func(d *pattern.Design) { d.Fields[3].GradeAcross[1].Size = 90 },
		"Field 1 (Circles), diameter":                     func(d *pattern.Design) { d.Fields[0].Area.WidthMM = 0 },
		"Field 5 (Your own), your own shape":              func(d *pattern.Design) { d.Fields[4].Path = "" },
		"Field 7 (ground), repeats":                       func(d *pattern.Design) { d.Fields[6].Repeats = 0 },
		"Field 6 (Leaves), own bridge":                    func(d *pattern.Design) { d.Fields[5].BridgeMM = 50 },
		"Field 4 (Hexagons), size across, point 3, place": func(d *pattern.Design) { d.Fields[3].GradeAcross[2].At = -0.5 },
	} {
		e := Clone(d)
		spoil(&e)
		err := e.Check()
		require.Error(t, err, want)
		path, _, _ := cut(err.Error(), ": ")
		require.Equal(t, want, TitleOf(e, path), path)
	}
	one := gallery(t)
	require.Equal(t, "Rows", TitleOf(one, "fields[0].rows"), "alone on the band it needs no number")
}

func cut(s, sep string) (before, after string, ok bool) {
	for i := 0; i+len(sep) <= len(s); i++ {
		if s[i:i+len(sep)] == sep {
			return s[:i], s[i+len(sep):], true
		}
	}
	return s, "", false
}

func TestCountingByPitchAndBackKeepsTheLook(t *testing.T) {
	for _, name := range project.Gallery() {
		for _, a := range []pattern.Area{{}, {Shape: pattern.RunShape, FromMM: -20, ToMM: 11}, {Shape: pattern.StripShape, FromMM: -2, ToMM: 3}, {Shape: pattern.OvalShape, WidthMM: 30, HeightMM: 5}} {
			d, err := project.GalleryDesign(name)
			require.NoError(t, err)
			d.Edits, d.Reserves = nil, nil
			d.Fields[0].Area = a
			d.Fields[0].Follow = ""
			c := ChoiceOf("fields[].count", 0)
			for _, repeats := range []int{7, 31} {
				d.Fields[0].Repeats, d.Fields[0].PitchMM = repeats, 0
				before, err := pattern.Lay(d)
				require.NoError(t, err)
				e := Clone(d)
				c.Set(&e, "pitch")
				require.NoError(t, e.Check())
				require.Equal(t, repeats, d.Fields[0].Repeats, "the design that was copied stays")
				after, err := pattern.Lay(e)
				require.NoError(t, err)
				require.Equal(t, before.Layout(0).Repeats, after.Layout(0).Repeats, "%s %s", name, a.Shape)
				require.InDelta(t, before.Layout(0).PitchMM, after.Layout(0).PitchMM, 2e-4)
				c.Set(&e, "repeats")
				require.True(t, Equal(d, e), "%s %s: %d", name, a.Shape, e.Fields[0].Repeats)
			}
		}
	}
}

func TestAFieldIsAddedWhereItIsSeen(t *testing.T) {
	for _, name := range project.Gallery() {
		d, err := project.GalleryDesign(name)
		require.NoError(t, err)
		d.Edits = nil
		for range 4 {
			i := AddField(&d)
			require.NoError(t, d.Check())
			s, err := pattern.Lay(d)
			require.NoError(t, err)
			n := 0
			for _, o := range s.Openings {
				if o.Field == i {
					n++
				}
			}
			if len(d.Fields) == 2 { // later ones lie where that one does
				require.GreaterOrEqual(t, n, 2, name) // on the ring, whole ones beside the stone's seat
			}
		}
	}
	var d pattern.Design = gallery(t)
	d.Fields = nil
	require.Equal(t, 0, AddField(&d))
	require.Equal(t, "whole band", AreaText(d.Fields[0].Area), "an empty band is filled")
	require.Equal(t, 0, AddField(&d), "what has an area goes before what has none")
	for len(d.Fields) < pattern.MaxFields {
		require.GreaterOrEqual(t, AddField(&d), 0)
	}
	require.Equal(t, -1, AddField(&d))
	require.Equal(t, -1, CopyField(&d, 0))
}

func TestFieldsAreCopiedMovedAndRemoved(t *testing.T) {
	d := manyFields(t)
	was := Clone(d)
	for i := range was.Fields {
		e := Clone(d)
		at := CopyField(&e, i)
		if was.Fields[i].Area.Shape == "" {
			require.Equal(t, i, at, "it would yield to the one it was copied from")
		} else {
			require.Equal(t, i+1, at)
		}
		require.NoError(t, e.Check())
		require.Len(t, e.Fields, len(d.Fields)+1)
		require.Equal(t, was.Fields[i].Motif, e.Fields[at].Motif)
		require.NotEqual(t, e.Fields[i].Area, e.Fields[i+1].Area)
		RemoveField(&e, at)
		require.True(t, Equal(was, e))
		to := MoveField(&e, i, 1)
		require.Equal(t, min(i+1, len(d.Fields)-1), to)
		MoveField(&e, to, i-to)
		require.True(t, Equal(was, e))
	}
	require.True(t, Equal(was, d))
	for range was.Fields {
		RemoveField(&d, 0)
	}
	require.NoError(t, d.Check())
	s, err := pattern.Lay(d)
	require.NoError(t, err)
	require.Empty(t, s.Openings, "a band without fields is plain")
}

func TestAnAreasShapeStandsWhereTheOldOneStoodAndKeepsTheSizeOfOpenings(t *testing.T) {
	d := gallery(t)
	d.Reserves = nil
	pitch := func(d pattern.Design) (along, across float64) {
		s, err := pattern.Lay(d)
		require.NoError(t, err)
		l := s.Layout(0)
		return l.PitchMM, l.RowMM
	}
	p0, r0 := pitch(d)
	c := ChoiceOf("fields[].area.shape", 0)
	for _, shape := range []string{pattern.RunShape, pattern.RectangleShape, pattern.OvalShape, pattern.RunShape, ""} {
		c.Set(&d, shape)
		require.NoError(t, d.Check(), shape)
		p, r := pitch(d)
		require.InDelta(t, p0, p, 0.4*p0, shape)
		require.InDelta(t, r0, r, 0.5*r0, shape)
	}
	require.Equal(t, pattern.Area{}, d.Fields[0].Area)
	l, err := own.Path("M0 0 L20 0 L20 10 Z")
	require.NoError(t, err)
	SetAreaPath(&d, 0, own.Data(l.Loop), l.Loop.Bounds())
	require.NoError(t, d.Check())
	require.Equal(t, 20.0, d.Fields[0].Area.WidthMM)
	require.InDelta(t, 10, d.Fields[0].Area.HeightMM, 1e-9)
	require.InDelta(t, 0, boxOf(d, d.Fields[0].Area).Centre().Dist(plane.Point{}), 1e-9)
}

func TestGradePointsKeepTheirOrder(t *testing.T) {
	d := manyFields(t)
	for _, c := range append(Curves(), RimCurve) {
		for range pattern.MaxGrades {
			AddGrade(&d, c, 6)
			require.NoError(t, d.Check())
		}
		n := len(c.Points(d, 6))
		require.Equal(t, pattern.MaxGrades, n)
		require.Equal(t, -1, AddGrade(&d, c, 6))
		MoveGrade(&d, c, 6, 3, 7, 99)
		require.NoError(t, d.Check())
		require.Equal(t, pattern.GradeRange.Max, c.Points(d, 6)[3].Size)
		MoveGrade(&d, c, 6, 3, -7, -99)
		require.NoError(t, d.Check())
		for range n {
			RemoveGrade(&d, c, 6, 0)
			require.NoError(t, d.Check())
		}
		require.Empty(t, c.Points(d, 6))
	}
}

func TestAnOwnMotifKeepsItsNumbersWhenItsShapeChanges(t *testing.T) {
	d := gallery(t)
	OwnMotif(0, dropPath).Set(&d, "")
	require.NoError(t, d.Check())
	n, ok := NumberAt(d, "fields[0].numbers.turn_deg")
	require.True(t, ok)
	require.NoError(t, n.Put(&d, "40"))
	OwnMotif(0, "M0 0 L3 0 L1 4 Z").Set(&d, "")
	require.NoError(t, d.Check())
	require.Equal(t, 40.0, d.Fields[0].Numbers["turn_deg"])
	ChoiceOf("fields[].motif", 0).Set(&d, "hexagons")
	require.NoError(t, d.Check())
	require.Empty(t, d.Fields[0].Path)
}

func TestAreasOfEveryShapeAreOutlinedOnEveryBand(t *testing.T) {
	for _, name := range project.Gallery() {
		d, err := project.GalleryDesign(name)
		require.NoError(t, err)
		d.Edits = nil
		for _, a := range []pattern.Area{
			{Shape: pattern.RunShape, FromMM: -9, ToMM: 6}, {Shape: pattern.StripShape, FromMM: -1, ToMM: 2}, {Shape: pattern.CircleShape, XMM: 3, WidthMM: 4},
			{Shape: pattern.OvalShape, XMM: 400, WidthMM: 5, HeightMM: 3, RotationDeg: 30}, {Shape: pattern.PathShape, Path: "M-2 -1 L2 -1 L0 2 Z"},
		} {
			d.Fields = []pattern.Field{{Motif: "circles", Rows: 2, Repeats: 9, Area: a}}
			s, err := pattern.Lay(d)
			require.NoError(t, err, name)
			out := s.AreaOutline(0)
			if a.XMM < 100 || s.Flat.Period > 0 {
				require.NotEmpty(t, out, "%s %s", name, a.Shape)
			} else {
				require.Empty(t, out, "it lies beyond the end")
			}
			box := s.Flat.Outline.Bounds().Grow(1e-6)
			for _, l := range out {
				b := l.Bounds()
				require.True(t, box.Contains(b.Min) && box.Contains(b.Max), "%s %s", name, a.Shape)
			}
		}
		d.Fields[0].Area = pattern.Area{}
		s, err := pattern.Lay(d)
		require.NoError(t, err)
		require.Empty(t, s.AreaOutline(0), "the whole band needs no outline")
	}
}

// A field that changes its motif, or its run, keeps the size of its cells.
func TestANewMotifOrRunKeepsTheSizeOfCells(t *testing.T) {
	for _, first := range motif.All() {
		usual := pattern.Begin(unroll.Cuff)
		d := pattern.BeginWith(usual.Band, pattern.Field{Motif: first.Key})
		area := d.CellArea(d.Fields[0])
		for _, m := range motif.All() {
			e := Clone(d)
			ChoiceOf("fields[].motif", 0).Set(&e, m.Key)
			f := e.Fields[0]
			require.Equal(t, m.Key, f.Motif)
			require.NoError(t, e.Check())
			if m.Key == "lattice" || first.Key == "lattice" {
				continue // one row of it is many meshes high
			}
			ratio := e.CellArea(f) / area
			require.True(t, ratio > 0.45 && ratio < 2.2, "%s to %s: %d x %d becomes %d x %d, cells %.2f times as large", first.Key, m.Key,
				d.Fields[0].Rows, d.Fields[0].Repeats, f.Rows, f.Repeats, ratio)
		}
	}
	// A run that is made longer, in one go or by steps, has more openings and not wider ones.
	d := pattern.Begin(unroll.Cuff)
	d.Fields[0].Area = pattern.Area{Shape: pattern.RunShape, FromMM: -20, ToMM: 20}
	d.Fields[0].Repeats = 5
	ed := NewEditor(NewDocument(d), NewLog(nil))
	to, ok := NumberAt(d, "fields[0].area.to_mm")
	require.True(t, ok)
	for range 80 { // as the arrow keys do
		ed.Step(to, 1)
	}
	require.Equal(t, 60.0, ed.Now().Fields[0].Area.ToMM)
	require.Equal(t, 10, ed.Now().Fields[0].Repeats)
	for range 80 {
		ed.Step(to, -1)
	}
	require.True(t, Equal(d, ed.Now()))
}
