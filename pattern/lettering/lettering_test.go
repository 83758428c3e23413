package lettering

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
	"golang.org/x/image/font"
	"golang.org/x/image/font/gofont/goregular"
	"golang.org/x/image/font/opentype"
	"golang.org/x/image/math/fixed"

	"fretband/unroll/plane"
)

func TestCapitalsHaveTheHeightAskedFor(t *testing.T) {
	for _, h := range []float64{0.3, 1, 2.5, 40} {
		for _, r := range []string{"H", "E", "IT"} {
			l, err := Outlines(r, h, plane.FitTolerance)
			require.NoError(t, err)
			require.InDelta(t, 0, l.Box.Min.Y, 1e-12)
			require.InDelta(t, h, l.Box.Max.Y, 1e-12)
			require.InDelta(t, 0, l.Box.Min.X, 1e-12)
		}
	}
}

func TestEveryLetterIsMadeOfLoops(t *testing.T) {
	f, err := open()
	require.NoError(t, err)
	n := 0
	for r := rune('!'); r < 0x2200; r++ {
		if _, err := f.glyph(r); err != nil {
			continue
		}
		l, err := Outlines("H"+string(r), 2, plane.FitTolerance)
		require.NoError(t, err, "%q", r)
		for _, o := range l.Loops {
			require.NotZero(t, o.Area(), "%q", r)
			if r < 0x180 { // some outlines of others, as of kappa, touch themselves
				require.NoError(t, o.Check(), "%q", r)
			}
		}
		n++
	}
	require.Greater(t, n, 500)
}

// The outlines against the font as golang.org/x/image's rasterizer fills it: the ink
// of each letter is the area of its loops, outer ones less inner ones.
func TestOutlinesHoldTheInkThatTheFontHas(t *testing.T) {
	f, err := opentype.Parse(goregular.TTF)
	require.NoError(t, err)
	const size = 400.0
	fc, err := opentype.NewFace(f, &opentype.FaceOptions{Size: size, DPI: 72, Hinting: font.HintingNone})
	require.NoError(t, err)
	capital := -bounds(t, fc, 'H').Min.Y
	for _, r := range "AaBgoQR8&@éßλЖ" {
		l, err := Outlines(string(r), float64(capital)/64, 1e-3)
		require.NoError(t, err)
		area := 0.0
		for _, o := range l.Loops {
			area += o.Area()
		}
		_, mask, at, _, ok := fc.Glyph(fixed.Point26_6{}, r)
		require.True(t, ok)
		ink := 0.0
		b := mask.Bounds()
		for y := at.Y; y < b.Max.Y; y++ {
			for x := at.X; x < b.Max.X; x++ {
				_, _, _, a := mask.At(x, y).RGBA()
				ink += float64(a) / 0xffff
			}
		}
		require.InEpsilon(t, ink, math.Abs(area), 0.004, "%q", r)
	}
	// And lines of text are as wide as the font sets them.
	text := "Harbour AVE 925"
	l, err := Outlines(text, float64(capital)/64, 1e-3)
	require.NoError(t, err)
	box, _ := font.BoundString(fc, text)
	require.InDelta(t, float64(box.Max.X-box.Min.X)/64, l.Box.W(), 0.3)
	require.InDelta(t, float64(box.Max.Y-box.Min.Y)/64, l.Box.H(), 0.3)
}

func bounds(t *testing.T, fc font.Face, r rune) fixed.Rectangle26_6 {
	b, _, ok := fc.GlyphBounds(r)
	require.True(t, ok)
	return b
}

func TestCurvesAreFollowedWithinTheTolerance(t *testing.T) {
	ps := []plane.Point{{X: 0, Y: 0}, {X: 3, Y: 9}, {X: 11, Y: 1}}
	es := bezier(1e-3, ps...)
	for i := range 501 {
		u := float64(i) / 500
		p := ps[0].Mul((1 - u) * (1 - u)).Add(ps[1].Mul(2 * u * (1 - u))).Add(ps[2].Mul(u * u))
		d := math.Inf(1)
		for _, e := range es {
			d = math.Min(d, e.Dist(p))
		}
		require.Less(t, d, 1e-3)
	}
}

func TestAMissingLetterIsNamed(t *testing.T) {
	for _, text := range []string{"Ring 金", "a\u0600"} {
		_, err := Outlines(text, 2, 1e-3)
		require.Error(t, err)
		require.Equal(t, err.Error(), Check(text).Error())
		require.Contains(t, err.Error(), "has no outline for '")
	}
	_, err := Outlines("  ", 2, 1e-3)
	require.ErrorContains(t, err, "no letter that can be seen")
	require.NoError(t, Check("Sterling 925 · Öß"))
}

func TestTheSameTextGivesTheSameOutlines(t *testing.T) {
	a, err := Outlines("Gull & Son", 1.8, 1e-3)
	require.NoError(t, err)
	b, err := Outlines("Gull & Son", 1.8, 1e-3)
	require.NoError(t, err)
	require.Equal(t, a, b)
}

func BenchmarkOutlines(b *testing.B) {
	for range b.N {
		if _, err := Outlines("Harbour 925", 2, plane.FitTolerance); err != nil {
			b.Fatal(err)
		}
	}
}
