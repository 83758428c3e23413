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

// A slanting profile that misses its start is closed in the least way: each piece's change
// goes as its way along one direction, and nothing is left open.
func TestASlantingProfileIsClosedWhereverItMisses(t *testing.T) {
	for _, off := range []float64{0, 0.02, -0.04} {
		var list []bow
		for i, turn := range []float64{40, 140, 40, 140} {
			length := []float64{50, 12, 50, 12}[i]
			if i == 0 {
				length += off
			}
			list = append(list, bow{length: length}, bow{length: 3 * turn * math.Pi / 180, k: 1 / 3.0})
		}
		was := append([]bow(nil), list...)
		changed := closeBows(list)
		b := newBows(list, 0)
		last := b.list[len(b.list)-1]
		assert.InDelta(t, 0, last.inner(last.length).Dist(b.list[0].from), 1e-12)
		most := 0.0
		for i, w := range list {
			most = math.Max(most, math.Abs(w.length-was[i].length))
			assert.InEpsilon(t, was[i].length*was[i].k+1, w.length*w.k+1, 1e-12, "angles stay")
		}
		assert.LessOrEqual(t, changed, math.Abs(off)+1e-12)
		assert.LessOrEqual(t, most, math.Abs(off)+1e-12)
		if off != 0 {
			assert.Greater(t, most, math.Abs(off)/10)
		}
	}
}
