package export

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"fretband/unroll/plane"
)

func TestShortEdgesGoWithoutMovingTheLine(t *testing.T) {
	const d = 0.0005
	slot := plane.Loop{{Point: plane.Pt(18, -1)}, {Point: plane.Pt(26, -1), Bulge: 1}, {Point: plane.Pt(26, 1)}, {Point: plane.Pt(18, 1), Bulge: 1}}
	// The slot with its first half turn in two arcs, the second of them d long.
	part := 1 - d/math.Pi
	arc := slot.Edge(1)
	a, b := arc.Part(0, part), arc.Part(part, 1)
	cut := plane.Loop{slot[0], {Point: a.A, Bulge: a.Bulge}, {Point: b.A, Bulge: b.Bulge}, slot[2], slot[3]}
	for name, c := range map[string]struct {
		loop  plane.Loop
		edges int
		area  float64 // mm², by hand
	}{
		"an arc in two":            {cut, 4, 16 + math.Pi},
		"the same, turned round":   {cut.Reverse(), 4, -16 - math.Pi},
		"a corner cut off":         {plane.Polygon(plane.Pt(0, 0), plane.Pt(4-d, 0), plane.Pt(4, d), plane.Pt(4, 3), plane.Pt(0, 3)), 4, 12},
		"a line in two":            {plane.Polygon(plane.Pt(0, 0), plane.Pt(2, 0), plane.Pt(2+d, 0), plane.Pt(4, 0), plane.Pt(4, 3), plane.Pt(0, 3)), 4, 12},
		"two short ones in a row":  {plane.Polygon(plane.Pt(0, 0), plane.Pt(4-d, 0), plane.Pt(4-d/3, d/3), plane.Pt(4, d), plane.Pt(4, 3), plane.Pt(0, 3)), 4, 12},
		"none":                     {slot, 4, 16 + math.Pi},
		"the first and last point": {plane.Polygon(plane.Pt(0, 0), plane.Pt(4, 0), plane.Pt(4, 3), plane.Pt(0, 3), plane.Pt(0, d)), 4, 12},
	} {
		got := withoutShort(c.loop)
		require.LessOrEqual(t, len(got), c.edges+1, name)
		assert.InDelta(t, c.area, got.Area(), 2e-6, name)
		require.NoError(t, got.Check(), name)
		for i := range got {
			assert.GreaterOrEqual(t, got.Edge(i).Len(), tipEdge-1e-12, name)
			for _, at := range []float64{0, 0.25, 0.5, 0.75} {
				assert.LessOrEqual(t, c.loop.Nearest(got.Edge(i).At(at)).D, shortEdge, name)
			}
		}
		if name == "an arc in two" || name == "the same, turned round" {
			assert.Len(t, got, 4, name)
			assert.InDelta(t, c.area, got.Area(), 1e-12, name)
		}
	}
	// A sharp tip of an opening (1 in 20) whose end is cut off 0.001 mm long does not
	// grow: neighbours that ran on would meet 0.02 mm farther out.
	tip := plane.Polygon(plane.Pt(0, 0), plane.Pt(4, -0.2), plane.Pt(4, 0.2), plane.Pt(0.02, 0.001))
	tip[0].Point = plane.Pt(0.02, 0)
	got := withoutShort(tip)
	require.NoError(t, got.Check())
	for i := range got {
		assert.GreaterOrEqual(t, got.Edge(i).Len(), tipEdge-1e-12)
		assert.GreaterOrEqual(t, got[i].X, 0.02-cornerMove)
	}
	assert.InDelta(t, tip.Area(), got.Area(), 1e-4)
	// Nothing to do costs nothing and changes nothing.
	assert.Equal(t, slot, withoutShort(slot))
	lens := plane.Circle(plane.Pt(0, 0), d/4)
	assert.Equal(t, lens, withoutShort(lens))
}
