package unroll

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func bandWith(ps []Piece) Band {
	return Band{Kind: Bangle, Inside: Inside{By: ByProfile, Profile: ps}, Thickness: Thickness{MM: 1}, WidthMM: 10, EndWidthMM: 10,
		Joint: Seamless, NeutralK: 0.5}
}

func TestAnOvalOfFourArcsHasTheEllipsesAxesAndCircumference(t *testing.T) {
	for _, o := range []Oval{{30, 24}, {24, 30}, {30, 30}, {40, 12}, {31, 30.9}} {
		d := DrawPieces(PiecesOf(o))
		require.True(t, d.Closes(), "%v: %v", o, d)
		assert.InDelta(t, 2*o.A, d.Box.W(), 2e-3, "%v", o)
		assert.InDelta(t, 2*o.B, d.Box.H(), 2e-3, "%v", o)
		assert.InDelta(t, o.Circumference(), d.Length, 2e-3, "%v", o)
		_, err := Unroll(bandWith(PiecesOf(o)))
		assert.NoError(t, err, "%v", o)
	}
	// Two half circles and two runs: 2 (60-48) + 48 pi.
	d := DrawPieces(PiecesOfSides(60, 48))
	require.True(t, d.Closes())
	assert.InDelta(t, 24+48*math.Pi, d.Length, 1e-3)
}

func TestPiecesThatMissAreClosedByALittle(t *testing.T) {
	ps := PiecesOf(Oval{30, 24})
	ps[2].RadiusMM += 1.5
	ps[1].AngleDeg -= 4
	require.False(t, DrawPieces(ps).Closes())
	_, err := Unroll(bandWith(ps))
	require.Error(t, err)
	out, most, err := ClosePieces(ps)
	require.NoError(t, err)
	assert.Less(t, most, 8.0)
	assert.True(t, DrawPieces(out).Closes(), "%v", DrawPieces(out))
	_, err = Unroll(bandWith(out))
	assert.NoError(t, err)
	// What closes already stays.
	again, most, err := ClosePieces(PiecesOfSides(60, 48))
	require.NoError(t, err)
	assert.Equal(t, PiecesOfSides(60, 48), again)
	assert.Less(t, most, 1e-6)
	// What is no profile at all is said to be none.
	for _, bad := range [][]Piece{nil, {{LengthMM: 3}}, {{LengthMM: 3}, {LengthMM: 4}}, {{RadiusMM: 10, AngleDeg: 200}, {LengthMM: 90}}} {
		_, _, err := ClosePieces(bad)
		assert.Error(t, err, "%v", bad)
	}
}

func TestADomesRiseAndRadiusSayTheSame(t *testing.T) {
	// A chord's sagitta: r - r cos(half angle), half angle = 15/20 rad.
	assert.InDelta(t, 20*(1-math.Cos(0.75)), DomeRise(30, 20), 1e-12)
	for _, r := range []float64{18, 20, 55, 900} {
		assert.InDelta(t, r, DomeRadius(30, DomeRise(30, r)), 1e-6*r)
	}
}
