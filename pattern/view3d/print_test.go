package view3d

import (
	"image"
	"image/color"
	"testing"

	"fretband/pattern/mesh"
	"fretband/unroll/plane"

	"github.com/stretchr/testify/require"
)

// stripes is red to the left of the middle of the flat, green to the right, and clear over
// its upper edge, 10 mm up.
func stripes() *Print {
	img := image.NewRGBA(image.Rect(0, 0, 2000, 200))
	for y := 20; y < 200; y++ {
		for x := range 2000 {
			c := color.RGBA{200, 0, 0, 255}
			if x >= 1000 {
				c = color.RGBA{0, 200, 0, 255}
			}
			img.SetRGBA(x, y, c)
		}
	}
	return &Print{Img: img, Min: plane.Pt(-100, -10), PerMM: 10}
}

func TestAPrintLiesWhereItIsOnTheFlat(t *testing.T) {
	sc := sceneOf(t, bangle(t))
	for _, pale := range []bool{false, true} {
		l := Light()
		l.Print = stripes()
		l.Print.Min.Y, l.Print.Pale = -12, pale // 2 mm of the upper edge show the metal
		var v, bare View
		for _, side := range []string{"Front", "Three-quarter"} {
			c := sc.Fit(standard(t, side), w, h)
			img, metal := v.Draw(nil, w, h, sc, c, l), bare.Draw(nil, w, h, sc, c, Light())
			seen, wrong := 0, 0
			for y := range h {
				for x := range w {
					hit, ok := v.Pick(x, y)
					if !ok || hit.Through || hit.Kind == mesh.Wall {
						continue
					}
					got, was := img.RGBAAt(x, y), metal.RGBAAt(x, y)
					red, green := int(got.R)-int(was.R), int(got.G)-int(was.G)
					const edge = 0.5
					switch q := hit.Flat; {
					case q.Y > 6-edge && q.Y < 6+edge || q.X > -edge && q.X < edge || q.X < -90 || q.X > 90:
						continue
					case q.Y > 6 && got == was, q.Y < 6 && q.X < 0 && red > green, q.Y < 6 && q.X > 0 && green > red:
					default:
						wrong++
					}
					seen++
				}
			}
			// Where the face is seen from its side, a pixel is wider than the edge left out.
			require.Less(t, float64(wrong), 0.02*float64(seen), side)
			require.Greater(t, seen, 1000, side)
		}
	}
}
