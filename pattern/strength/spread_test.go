package strength

import (
	"context"
	"math"
	"testing"

	"fretband/unroll"
	"fretband/unroll/plane"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// spreadOver is a square of 10 mm of nx by nx cells whose stress is as told at each corner.
func spreadOver(nx int, hole bool, stress func(p plane.Point) float64) *Spread {
	g := weave{nx: nx, ny: nx, cross: true, thick: 1, place: func(s, t float64) (unroll.Point3, plane.Point) {
		return unroll.Point3{X: 10 * s, Y: 10 * t}, plane.Pt(10*s, 10*t)
	}}
	if hole {
		g.keep = func(i, j int) bool { return i < nx/2 || i > nx/2+1 || j < nx/2 || j > nx/2+1 }
	}
	mesh := g.mesh()
	m := &Spread{At: mesh.Flat, Tri: mesh.Tri}
	for k := range mesh.Tri {
		m.Of = append(m.Of, int32(k))
	}
	for _, p := range m.At {
		m.Stress = append(m.Stress, stress(p))
	}
	m.neighbours()
	m.index = newSpreadIndex(m)
	return m
}

func areaOf(lines [][]plane.Point) (sum float64) {
	for _, l := range lines {
		for i, p := range l {
			sum += p.Cross(l[(i+1)%len(l)]) / 2
		}
	}
	return sum
}

// The areas are closed forms: of stress that grows evenly the part over a level is the
// rectangle beyond it, of stress that grows from the middle what a circle leaves.
func TestTheMetalOverAStressHasItsArea(t *testing.T) {
	even := spreadOver(20, false, func(p plane.Point) float64 { return p.X })
	for _, level := range []float64{-1, 0, 0.26, 3.3, 5, 9.99, 10.1} {
		want := 10 * (10 - math.Min(math.Max(level, 0), 10))
		assert.InDelta(t, want, areaOf(even.Over(level)), 1e-9, "over %g", level)
	}
	assert.Len(t, even.Over(3.3), 1, "one piece")
	round := spreadOver(100, false, func(p plane.Point) float64 { return p.Dist(plane.Pt(5, 5)) })
	assert.InDelta(t, 100-math.Pi*16, areaOf(round.Over(4)), 0.05)
	holed := spreadOver(20, true, func(p plane.Point) float64 { return p.X })
	assert.InDelta(t, 100-1, areaOf(holed.Over(-1)), 1e-9)
	assert.Len(t, holed.Over(-1), 2, "its edge and the hole's")
}

func TestTrianglesArePickedWithTheirOutlines(t *testing.T) {
	m := spreadOver(10, false, func(plane.Point) float64 { return 1 })
	keep := func(k int) bool { return k%7 == 0 || k > 150 }
	want := 0.0
	for k := range m.Tri {
		if keep(k) {
			want += 0.5
		}
	}
	assert.InDelta(t, want, areaOf(m.Outlines(keep)), 1e-9)
}

func TestStressIsToldAtEachPosition(t *testing.T) {
	m := spreadOver(20, true, func(p plane.Point) float64 { return 3*p.X - p.Y })
	for _, p := range []plane.Point{{X: 0, Y: 0}, {X: 1.234, Y: 7.89}, {X: 9.99, Y: 0.01}, {X: 10, Y: 10}, {X: 4.99, Y: 5.5}} {
		v, ok := m.StressAt(p, 0)
		require.True(t, ok, p)
		assert.InDelta(t, 3*p.X-p.Y, v, 1e-9, p)
	}
	_, ok := m.StressAt(plane.Pt(5.5, 5.5), 0.1)
	assert.False(t, ok, "there is a hole")
	v, ok := m.StressAt(plane.Pt(10.05, 3.1), 0.1)
	require.True(t, ok, "just beside the edge")
	assert.InDelta(t, 30-3.1, v, 1e-6)
	_, ok = m.StressAt(plane.Pt(-20, 3), 0.1)
	assert.False(t, ok)
}

// The spread of a closed band covers its blank from end to end, and the metal over the
// joint appears at both ends.
func TestTheSpreadOfAClosedBandCoversItsBlank(t *testing.T) {
	s := roundBand(t, unroll.Ring, 18, 1.2, 6, 0)
	f := s.metal.Flat
	c, err := s.Squeezed(1)
	require.NoError(t, err)
	rs, err := s.Solve(context.Background(), c)
	require.NoError(t, err)
	m := s.Spread(rs[0])
	for i := range 101 {
		x := f.Length * (float64(i)/100 - 0.5)
		for _, y := range []float64{-2.9, 0, 2.9} {
			_, ok := m.StressAt(plane.Pt(x, y), 0)
			assert.True(t, ok, "%g %g", x, y)
		}
	}
	left, _ := m.StressAt(plane.Pt(-f.Length/2, 0.7), 0)
	right, _ := m.StressAt(plane.Pt(f.Length/2, 0.7), 0)
	assert.InDelta(t, left, right, 1e-6)
	assert.GreaterOrEqual(t, areaOf(m.Over(0)), f.Outline.Area())
}
