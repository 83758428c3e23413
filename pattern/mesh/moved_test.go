package mesh

import (
	"math"
	"testing"

	"fretband/unroll"
	"fretband/unroll/plane"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// bulge has a band move outwards, farther the farther up and in waves round it, and its
// directions turn as the surface does then: by central differences.
func bulge(f unroll.Flat) Moving {
	thick := f.Thickness
	out := func(p plane.Point) unroll.Point3 { return unitOf(sub(f.Bend(p, thick), f.Bend(p, 0))) }
	move := func(p plane.Point) unroll.Point3 {
		return scale(out(p), 0.2*p.Y+0.012*f.Length*math.Sin(6*math.Pi*p.X/f.Length))
	}
	return func(p plane.Point) (unroll.Point3, unroll.Point3) {
		const h = 1e-4
		var turn unroll.Point3
		for _, d := range []plane.Point{{X: h}, {Y: h}} {
			way := unitOf(sub(f.Bend(p.Add(d), thick/2), f.Bend(p.Sub(d), thick/2)))
			slope := dot(sub(move(p.Add(d)), move(p.Sub(d))), out(p)) / (2 * h)
			turn = add(turn, scale(cross(way, out(p)), slope))
		}
		return move(p), turn
	}
}

// astray is the share of the surface's area at whose corners its directions are more than
// 8 degrees from those of its triangles.
func astray(m *Mesh) float64 {
	wrong, all := 0.0, 0.0
	for _, t := range m.Triangles {
		a := m.Vertices[t.V[0]]
		out := cross(sub(m.Vertices[t.V[1]], a), sub(m.Vertices[t.V[2]], a))
		for _, n := range t.N {
			all += length(out)
			if dot(unitOf(out), m.Normals[n]) < 0.99 {
				wrong += length(out)
			}
		}
	}
	return wrong / all
}

func TestAMovedBandStaysClosedAndItsDirectionsLookOutOfIt(t *testing.T) {
	for _, name := range []string{"cuff triangles", "soldered bangle circles", "seamless bangle waves", "ring circles", "harbour-cuff"} {
		s := sheets(t)[name]
		still := build(t, s, 0.01)
		m := still.Moved(bulge(s.Flat))
		require.NoError(t, m.Check(), name)
		away := 0.0
		for i, v := range m.Vertices {
			away = math.Max(away, length(sub(v, still.Vertices[i])))
		}
		require.Greater(t, away, 0.012*s.Flat.Length, name)
		// As they were it is the chords of round openings: they are shaded as circles are.
		assert.Less(t, astray(m), astray(still)+0.01, name)
		turned := *m
		turned.Normals = still.Normals
		assert.Greater(t, astray(&turned), astray(still)+0.05, "%s: they do turn", name)
		assert.Equal(t, still.Flat, m.Flat, name)
	}
}

func TestMetalThatStandsStillIsTheSame(t *testing.T) {
	s := sheets(t)["harbour-cuff"]
	m := build(t, s, 0.02)
	require.Same(t, m, m.Moved(nil))
	none := m.Moved(func(plane.Point) (a, b unroll.Point3) { return a, b })
	for i := range m.Vertices {
		require.InDelta(t, 0, length(sub(m.Vertices[i], none.Vertices[i])), 1e-12)
	}
	for _, p := range []plane.Point{{X: 3, Y: 2}, {X: -20, Y: -4}} {
		by := unroll.Point3{X: 1, Y: -2, Z: 3}
		moved := OnFace(s.Flat, p, func(plane.Point) (unroll.Point3, unroll.Point3) { return by, unroll.Point3{} })
		require.InDelta(t, 0, length(sub(sub(moved, by), OnFace(s.Flat, p, nil))), 1e-12)
	}
}
