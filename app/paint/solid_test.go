package paint

import (
	"image"
	"image/color"
	"testing"

	"github.com/stretchr/testify/require"
)

func quad(s *Solid, x0, y0, x1, y1, z float32, tone *Ramp, m *Mask) {
	a, b := Corner{x0, y0, z, 0, 0, 1}, Corner{x1, y0, z, 10, 0, 1}
	c, d := Corner{x1, y1, z, 10, 10, 1}, Corner{x0, y1, z, 0, 10, 1}
	s.Triangle(a, b, c, tone, m)
	s.Triangle(a, c, d, tone, m)
}

func TestTheNearerHidesTheFartherAndAnOpeningDoesNot(t *testing.T) {
	red, blue := NewRamp(color.NRGBA{200, 0, 0, 255}), NewRamp(color.NRGBA{0, 0, 200, 255})
	f := NewFill(10, 10)
	f.Rect(0, 0, 10, 10)
	f.Polygon(3, 3, 3, 7, 7, 7, 7, 3) // a hole
	m := MaskOf(f)
	var s Solid
	s.Reset(20, 20, color.NRGBA{9, 9, 9, 255})
	quad(&s, 0, 0, 20, 20, 5, red, m)
	quad(&s, 5, 0, 20, 20, 1, blue, nil) // behind
	img := image.NewRGBA(image.Rect(0, 0, 20, 20))
	s.Draw(img)
	require.Equal(t, color.RGBA{200, 0, 0, 255}, img.RGBAAt(2, 2))
	require.Equal(t, color.RGBA{0, 0, 200, 255}, img.RGBAAt(10, 10), "through the opening")
	require.Equal(t, color.RGBA{200, 0, 0, 255}, img.RGBAAt(18, 10))
}

func TestTrianglesLeaveNoSeam(t *testing.T) {
	tone := NewRamp(color.NRGBA{200, 200, 200, 255})
	var s Solid
	s.Reset(40, 40, color.NRGBA{0, 0, 0, 255})
	// A fan of odd angles round one point covers the picture.
	corners := []Corner{{-3, -5, 0, 0, 0, 1}, {17.3, -9, 0, 0, 0, 1}, {47, -2, 0, 0, 0, 1}, {45, 21.7, 0, 0, 0, 1}, {51, 49, 0, 0, 0, 1}, {13.1, 44, 0, 0, 0, 1}, {-8, 43, 0, 0, 0, 1}}
	mid := Corner{19.37, 20.11, 0, 0, 0, 1}
	for i := range corners {
		s.Triangle(mid, corners[i], corners[(i+1)%len(corners)], tone, nil)
	}
	img := image.NewRGBA(image.Rect(0, 0, 40, 40))
	s.Draw(img)
	for y := range 40 {
		for x := range 40 {
			require.Equal(t, uint8(200), img.RGBAAt(x, y).R, "%d,%d", x, y)
		}
	}
}
