package view3d

import (
	"image"
	"testing"

	"github.com/stretchr/testify/require"

	"fretband/pattern/mesh"
	"fretband/unroll"
	"fretband/unroll/plane"
)

// A line round the front is seen from the front, on metal only, and neither from
// behind nor from the inside.
func TestEngravedLinesLieOnTheOuterFaceAndNotOverOpenings(t *testing.T) {
	s := bangle(t)
	plain := sceneOf(t, s)
	y := s.Openings[0].Box.Centre().Y // through the middle of a row
	var l []unroll.Point3
	onMetal, n := 0, 0
	for x := -20.0; x <= 20; x += 0.1 {
		p := plane.Pt(x, y)
		l = append(l, s.Flat.Bend(p, s.Flat.Thickness))
		n++
		metal := true
		for _, o := range s.Openings {
			metal = metal && !o.Loop.Contains(p)
		}
		if metal {
			onMetal++
		}
	}
	cut := plain.Engrave([]mesh.EngravedLine{{At: l, Face: mesh.Outer}})
	marked := func(c Camera) (map[image.Point]bool, *View) {
		var v View
		v.Draw(nil, w, h, cut, plain.Fit(c, w, h), Light())
		at := map[image.Point]bool{}
		for i, m := range v.mark {
			if m == engravedLine {
				at[image.Pt(i%v.w, i/v.w)] = true
			}
		}
		return at, &v
	}
	front, v := marked(standard(t, "Front"))
	require.NotEmpty(t, front)
	lo, hi := v.w, 0
	for p := range front {
		require.Positive(t, v.id[p.Y*v.w+p.X], "a line is drawn where no metal is")
		lo, hi = min(lo, p.X), max(hi, p.X)
	}
	columns := map[int]bool{}
	for p := range front {
		columns[p.X] = true
	}
	require.InDelta(t, float64(onMetal)/float64(n), float64(len(columns))/float64(hi-lo+1), 0.1, "it is broken by the openings as the blank is")
	behind, _ := marked(standard(t, "Back"))
	require.Empty(t, behind)
	require.Empty(t, plain.engraved, "the scene that it was made of stays plain")
}
