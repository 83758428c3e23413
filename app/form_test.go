package app

import (
	"encoding/json"
	"path/filepath"
	"reflect"
	"strings"
	"testing"

	"fretband/pattern"
	"fretband/pattern/project"
	"fretband/unroll"

	"github.com/stretchr/testify/require"
)

// forms are bands of every form that the design file knows.
func forms(t *testing.T) map[string]pattern.Design {
	out := map[string]pattern.Design{}
	add := func(name, from string, change func(b *unroll.Band)) {
		d, err := project.GalleryDesign(from)
		require.NoError(t, err)
		d.Reserves = nil
		change(&d.Band)
		require.NoError(t, d.Check(), name)
		out[name] = d
	}
	const cuffs, bangles = "harbour-cuff", "tide-bangle"
	round := unroll.Inside{By: unroll.ByCircumference, CircumferenceMM: 195, Ratio: 1}
	add("sides", cuffs, func(b *unroll.Band) { b.Inside = unroll.Inside{By: unroll.BySides, WidthMM: 60, HeightMM: 46} })
	add("profile", cuffs, func(b *unroll.Band) {
		b.Inside = unroll.Inside{By: unroll.ByProfile, Profile: unroll.PiecesOf(unroll.Oval{A: 31, B: 25})}
	})
	add("edges", bangles, func(b *unroll.Band) {
		b.Inside = unroll.Inside{By: unroll.ByEdges, TopMM: 210, BottomMM: 190}
		b.EndWidthMM = b.WidthMM
		b.SwellLengthMM = 0
	})
	add("flared cuff", cuffs, func(b *unroll.Band) { b.Inside, b.FlareDeg = round, 8 })
	add("share", cuffs, func(b *unroll.Band) { b.GapMM, b.GapShare = 0, 0.15 })
	add("point", cuffs, func(b *unroll.Band) {
		b.EndShape, b.EndCornerMM, b.EndLengthMM, b.EndRadiusMM = unroll.PointEnd, 0, 25, 2
	})
	add("drawn edges", cuffs, func(b *unroll.Band) {
		b.TopEdge = []unroll.EdgePoint{{At: -1}, {At: 0.2, OutMM: 3}, {At: 1, OutMM: -1}}
		b.BottomEdge = []unroll.EdgePoint{{At: 0, OutMM: 2}}
	})
	for _, flat := range []string{unroll.ArcLength, unroll.Conformal, unroll.EqualArea} {
		add("domed "+flat, bangles, func(b *unroll.Band) { b.Dome, b.DomeRadiusMM, b.DomeFlat = unroll.Outward, 60, flat })
	}
	add("hollow formed", bangles, func(b *unroll.Band) {
		b.Dome, b.DomeRiseMM, b.DomeFlat, b.Making, b.Drawn = unroll.Hollow, 1, unroll.EqualArea, unroll.Formed, unroll.OuterFace
	})
	// And those that the tests of all rooms read.
	files, err := filepath.Glob(filepath.Join("..", "testdata", "forms", "*.json"))
	require.NoError(t, err)
	require.NotEmpty(t, files)
	for _, f := range files {
		d, err := project.ReadFile(f)
		require.NoError(t, err, f)
		out[filepath.Base(f)] = d
	}
	return out
}

func TestFromEveryFormEveryChoiceLeadsToABandThatCanBeMade(t *testing.T) {
	for name, d := range forms(t) {
		for _, c := range append(Choices(pattern.BandGroup), Choices(pattern.FormGroup)...) {
			if !shown(c.Shown, d) {
				continue
			}
			for _, o := range c.Options(d) {
				e := Clone(d)
				c.Set(&e, o.Key)
				require.Equal(t, o.Key, c.Get(e), "%s: %s", name, c.Path)
				require.NoError(t, e.Check(), "%s: %s %s", name, c.Path, o.Key)
				c.Set(&e, c.Get(d))
				require.NoError(t, e.Check(), "%s: back from %s %s", name, c.Path, o.Key)
			}
		}
		for _, n := range allNumbers(d) {
			if shown(n.Shown, d) {
				v := n.Get(d)
				require.True(t, v >= n.Min && v <= n.Max, "%s %s: %g", name, n.Path, v)
			}
		}
	}
}

// TestEveryFieldOfABandCanBeEdited holds the controls to the design file: each
// of a band's fields, by its name there, has a number or a choice that writes it.
func TestEveryFieldOfABandCanBeEdited(t *testing.T) {
	written := map[string]bool{}
	note := func(before, after pattern.Design) {
		a, b := flatJSON(t, before.Band), flatJSON(t, after.Band)
		for k, v := range b {
			if !reflect.DeepEqual(a[k], v) {
				written[k] = true
			}
		}
	}
	for name, d := range forms(t) {
		require.NotNil(t, Choices(pattern.BandGroup), name)
		for _, c := range append(Choices(pattern.BandGroup), Choices(pattern.FormGroup)...) {
			for _, o := range c.Options(d) {
				e := Clone(d)
				c.Set(&e, o.Key)
				note(d, e)
			}
		}
		ns := append(Numbers(pattern.BandGroup), Numbers(pattern.FormGroup)...)
		for i := range d.Band.Inside.Profile {
			ns = append(ns, Numbers(pattern.ProfileGroup, i)...)
		}
		for _, e := range Edges() {
			for i := range e.Points(d) {
				ns = append(ns, e.Numbers(i)...)
			}
		}
		for _, n := range ns {
			if shown(n.Shown, d) {
				e := Clone(d)
				n.Slide(&e, n.Get(e)+n.Step)
				note(d, e)
				e = Clone(d)
				n.Slide(&e, n.Get(e)-n.Step)
				note(d, e)
			}
		}
		for _, typed := range []string{"18 ga", "18 swg", "1.5"} {
			e := Clone(d)
			n, _ := NumberAt(d, "band.thickness.mm")
			require.NoError(t, n.Put(&e, typed))
			note(d, e)
		}
	}
	for k := range fieldsOf(reflect.TypeOf(unroll.Band{}), "") {
		require.True(t, written[k], "nothing in the controls writes band.%s", k)
	}
}

// fieldsOf lists the leaves of a type by their names in the design file.
func fieldsOf(t reflect.Type, at string) map[string]bool {
	out := map[string]bool{}
	for i := range t.NumField() {
		f := t.Field(i)
		name, _, _ := strings.Cut(f.Tag.Get("json"), ",")
		typ := f.Type
		if typ.Kind() == reflect.Slice {
			typ = typ.Elem()
		}
		if typ.Kind() == reflect.Struct {
			for k := range fieldsOf(typ, at+name+".") {
				out[k] = true
			}
			continue
		}
		out[at+name] = true
	}
	return out
}

// flatJSON returns the leaves of a band as written to a design file; those of a
// list's parts go by one name.
func flatJSON(t *testing.T, b unroll.Band) map[string][]any {
	raw, err := json.Marshal(b)
	require.NoError(t, err)
	var v any
	require.NoError(t, json.Unmarshal(raw, &v))
	out := map[string][]any{}
	var walk func(v any, at string)
	walk = func(v any, at string) {
		switch x := v.(type) {
		case map[string]any:
			for k, y := range x {
				walk(y, strings.TrimPrefix(at+"."+k, "."))
			}
		case []any:
			for _, y := range x {
				walk(y, at)
			}
		default:
			out[at] = append(out[at], x)
		}
	}
	walk(v, "")
	return out
}

func TestEdgePointsAreAddedMovedAndRemoved(t *testing.T) {
	for _, name := range []string{"harbour-cuff", "tide-bangle"} {
		d, err := project.GalleryDesign(name)
		require.NoError(t, err)
		d.Reserves = nil
		for _, e := range Edges() {
			before := Clone(d)
			require.Equal(t, 1, AddEdgePoint(&d, e))
			require.Len(t, e.Points(d), 3, "a first point comes with the ends")
			require.Empty(t, e.Points(before), "the design that was copied has not changed")
			require.NoError(t, d.Check(), name)
			for len(e.Points(d)) < unroll.MaxEdgePoints {
				require.GreaterOrEqual(t, AddEdgePoint(&d, e), 0)
			}
			require.NoError(t, d.Check(), name)
			require.Equal(t, -1, AddEdgePoint(&d, e), "no more than the core allows")
			for len(e.Points(d)) > 3 {
				RemoveEdgePoint(&d, e, 1)
			}
			// A point is held between its neighbours.
			MoveEdgePoint(&d, e, 1, 5, 1.23)
			require.InDelta(t, 0.99, e.Points(d)[1].At, 1e-9)
			require.InDelta(t, 1.25, e.Points(d)[1].OutMM, 1e-9)
			MoveEdgePoint(&d, e, 1, -0.2, 0.5)
			// The ends stay at the ends, and on a closed band at one height.
			MoveEdgePoint(&d, e, 0, 0.5, 0.3)
			require.Equal(t, -1.0, e.Points(d)[0].At)
			if !d.Band.Open() {
				require.Equal(t, 0.3, e.Points(d)[2].OutMM)
			}
			require.NoError(t, d.Check(), name)
		}
	}
}

func TestAProfileIsChangedPieceByPiece(t *testing.T) {
	d := forms(t)["profile"]
	n := len(d.Band.Inside.Profile)
	before := Clone(d)
	require.Equal(t, 2, AddPiece(&d, 1))
	require.Len(t, d.Band.Inside.Profile, n+1)
	require.True(t, Equal(before, forms(t)["profile"]))
	c := ChoiceOf("band.inside.profile[]", 2)
	require.Equal(t, "run", c.Get(d))
	c.Set(&d, "arc")
	require.Equal(t, "arc", c.Get(d))
	require.Error(t, d.Check(), "it turns too far now")
	_, err := CloseProfile(&d)
	require.NoError(t, err)
	require.NoError(t, d.Check())
	RemovePiece(&d, 2)
	require.Len(t, d.Band.Inside.Profile, n)
	_, err = CloseProfile(&d)
	require.NoError(t, err)
	require.NoError(t, d.Check())
}

func TestTheImperialGaugeGoesByItsOwnName(t *testing.T) {
	d := gallery(t)
	n, _ := NumberAt(d, "band.thickness.mm")
	require.NoError(t, n.Put(&d, "18 SWG"))
	require.Equal(t, unroll.Thickness{ImperialGauge: 18}, d.Band.Thickness)
	require.Equal(t, "18 swg", n.Text(d))
	require.InDelta(t, 1.2192, n.Get(d), 1e-9) // 0.048 inch, Machinery's Handbook
	require.NoError(t, n.Put(&d, n.Text(d)))
	require.Error(t, n.Put(&d, "2 swg"))
}
