package own

import (
	"math/rand"
	"testing"

	"fretband/unroll/plane"

	"github.com/stretchr/testify/require"
	"github.com/tdewolff/canvas"
)

func TestWhatIsWrittenIsReadBackInItsPlace(t *testing.T) {
	rnd := rand.New(rand.NewSource(5))
	for range 200 {
		l := plane.Rect(plane.Box{Min: plane.Pt(-3+rnd.Float64(), 1), Max: plane.Pt(4, 6+rnd.Float64())}).Outset(0.2 + rnd.Float64())[0].
			Turn(rnd.Float64() * 6).Move(plane.Pt(rnd.NormFloat64()*30, rnd.NormFloat64()*30))
		d := Data(l)
		got, err := Outline(d)
		require.NoError(t, err, d)
		require.Len(t, got, len(l))
		for i, v := range got {
			require.InDelta(t, l[i].X, v.X, 1e-12)
			require.InDelta(t, l[i].Y, v.Y, 1e-12)
			require.InDelta(t, l[i].Bulge, v.Bulge, 1e-9)
		}
		// An independent reader of path data has y down as well.
		p, err := canvas.ParseSVGPath(d)
		require.NoError(t, err)
		b, c := got.Bounds(), p.Bounds()
		require.InDelta(t, b.Min.Y, -c.Y1, 1e-6)
		require.InDelta(t, b.Max.X, c.X1, 1e-6)
	}
}

func TestStrokesMayBeOpenAndCross(t *testing.T) {
	s, err := Strokes("M0 0L10 0M5 -5A5 5 0 0 1 5 5ZM0 0L4 4")
	require.NoError(t, err)
	require.Len(t, s, 3)
	require.False(t, s[0].Closed)
	require.Len(t, s[0].Edges(), 1)
	require.True(t, s[1].Closed)
	require.Len(t, s[1].Edges(), 2)
	require.InDelta(t, -4, s[2].Edges()[0].B.Y, 1e-12)
	for _, bad := range []string{"", "M0 0", "hello", "M0 0L1e7 0"} {
		_, err := Strokes(bad)
		require.Error(t, err, bad)
	}
	for _, bad := range []string{"M0 0L10 0L10 10", "M0 0L9 0L9 9ZM20 0L30 0L30 9Z", "M0 0L10 10L10 0L0 12Z"} {
		_, err := Outline(bad)
		require.Error(t, err, bad)
	}
}
