package strength

import (
	"math"
	"testing"

	"fretband/unroll"
	"fretband/unroll/plane"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func size(p unroll.Point3) float64 { return vec(p).length() }

// narrowRing is a thin narrow ring of 60 mm, squeezed at its front and back.
func narrowRing(t *testing.T) (*Study, *Result) {
	s := roundBand(t, unroll.Bangle, 60, 0.8, 2, 0)
	c, err := s.Squeezed(0)
	require.NoError(t, err)
	rs, err := s.Solve(t.Context(), c)
	require.NoError(t, err)
	return s, rs[0]
}

// A thin ring squeezed by F grows shorter between the forces by 0.1488 F r³/(E I), which is
// pi/4 - 2/pi, and wider across by 0.1366, 2/pi - 1/2. W. C. Young and R. G. Budynas, Roark's Formulas for
// Stress and Strain, 7th ed., table 9.2, case 1. Half of each is at either side, once the
// ring's motion as a whole is taken out.
func TestASqueezedRingBendsAllRoundAsRoarkSays(t *testing.T) {
	s, r := narrowRing(t)
	b := s.Bending(r, s.Spread(r))
	l := s.metal.Flat.Length
	radius := l / (2 * math.Pi)
	unit := math.Pow(radius, 3) / (75000 * 2 * math.Pow(0.8, 3) / 12) // F r³ / (E I)
	for _, place := range []struct{ x, want float64 }{
		{0, -(math.Pi/4 - 2/math.Pi) / 2}, {l / 2, -(math.Pi/4 - 2/math.Pi) / 2},
		{l / 4, (2/math.Pi - 0.5) / 2}, {-l / 4, (2/math.Pi - 0.5) / 2},
	} {
		move, turn := b.At(plane.Pt(place.x, 0))
		_, n, _ := s.metal.Flat.Station(place.x)
		assert.InEpsilon(t, place.want*unit, move.X*n.X+move.Y*n.Y, 0.02, "outwards at %g", place.x)
		assert.InDelta(t, 0, -move.X*n.Y+move.Y*n.X, 0.001*unit, "along")
		assert.InDelta(t, 0, move.Z, 0.001*unit)
		assert.Less(t, size(turn), 0.01*b.MostTurn, "nothing turns there")
	}
	assert.InEpsilon(t, (math.Pi/4-2/math.Pi)/2*unit, b.Most, 0.02)
	assert.InEpsilon(t, 2*radius, b.Size, 1e-3)
}

// A band that only moves as a whole does not bend, and what it bends by is the same wherever
// the supports of the solve stand.
func TestAMotionAsAWholeIsNoBending(t *testing.T) {
	s, r := narrowRing(t)
	spread := s.Spread(r)
	was := s.Bending(r, spread)
	moved, still := *r, *r
	moved.Move, still.Move = make([][6]float64, len(r.Move)), make([][6]float64, len(r.Move))
	along, about := vector{3, -2, 0.7}, vector{0.2, -0.1, 0.4}
	for i, p := range s.mesh.At {
		whole := along.plus(about.cross(vec(p)))
		for k := range 3 {
			still.Move[i][k], still.Move[i][3+k] = whole[k], about[k]
			moved.Move[i][k], moved.Move[i][3+k] = r.Move[i][k]+whole[k], r.Move[i][3+k]+about[k]
		}
	}
	none := s.Bending(&still, spread)
	assert.Less(t, none.Most, 1e-9)
	assert.Less(t, none.MostTurn, 1e-9)
	now := s.Bending(&moved, spread)
	for i := range spread.At {
		require.Less(t, now.move[i].less(was.move[i]).length(), 1e-9)
		require.Less(t, now.turn[i].less(was.turn[i]).length(), 1e-9)
	}
	// Beside the metal, as the nearest does.
	edge, _ := was.At(plane.Pt(5, 1))
	beside, _ := was.At(plane.Pt(5, 30))
	assert.InDelta(t, 0, vec(edge).less(vec(beside)).length(), 1e-9)
}
