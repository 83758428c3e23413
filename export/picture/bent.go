package picture

import (
	"image"
	"image/color"
	"math"

	"fretband/pattern"
	"fretband/pattern/mesh"
	"fretband/pattern/view3d"
)

// paperWhite is the ground of pictures.
var paperWhite = color.NRGBA{255, 255, 255, 255}

// Bent draws the bent band from the front at three quarters on white, w
// pixels wide and as high as the band then takes, at most h.
func Bent(s *pattern.Sheet, w, h int, metal color.NRGBA) (*image.RGBA, error) {
	m, err := mesh.Build(s, mesh.Options{Tolerance: pictureTolerance(s, w)})
	if err != nil {
		return nil, err
	}
	return portrait(view3d.NewScene(m).Engrave(mesh.Engraved(s, nil)).With(mesh.Added(s, nil)), view3d.Views()[0].Camera, view3d.Look{Metal: metal}, w, h), nil
}

// portrait draws a scene as large as the picture takes it, on white.
func portrait(scene *view3d.Scene, camera view3d.Camera, look view3d.Look, w, h int) *image.RGBA {
	look.Ground, look.Smooth = paperWhite, true
	camera = scene.Fit(camera, w, h)
	camera.Zoom *= 1.12 // nearer than in a window: nothing else is round it
	return trimmed(finer(scene, camera, look, w, h), w/50)
}

// pictureTolerance is half a pixel of a band that fills a picture w pixels wide, mm.
func pictureTolerance(s *pattern.Sheet, w int) float64 {
	across := s.Flat.Length / math.Pi
	return math.Min(math.Max(across/float64(w)/2, mesh.Solid), mesh.Screen)
}

// finer draws the scene four times, each a quarter of a pixel aside, and takes the
// mean: edges of sixteen steps instead of four.
func finer(scene *view3d.Scene, c view3d.Camera, look view3d.Look, w, h int) *image.RGBA {
	var v view3d.View
	var img *image.RGBA
	sum := make([]uint16, 4*w*h)
	for i := range 4 {
		aside := scene.Shift(c, 0.25*float64(i&1), 0.25*float64(i>>1), w, h)
		img = v.Draw(img, w, h, scene, aside, look)
		for k, p := range img.Pix {
			sum[k] += uint16(p)
		}
	}
	for k := range img.Pix {
		img.Pix[k] = uint8((sum[k] + 2) / 4)
	}
	return img
}

// trimmed returns the picture without the white rows above and below, but for a margin.
func trimmed(img *image.RGBA, margin int) *image.RGBA {
	white := func(y int) bool {
		for _, p := range img.Pix[y*img.Stride : y*img.Stride+4*img.Rect.Dx()] {
			if p != 255 {
				return false
			}
		}
		return true
	}
	y0, y1 := 0, img.Rect.Dy()
	for y0 < y1-1 && white(y0) {
		y0++
	}
	for y1 > y0+1 && white(y1-1) {
		y1--
	}
	y0, y1 = max(0, y0-margin), min(img.Rect.Dy(), y1+margin)
	out := image.NewRGBA(image.Rect(0, 0, img.Rect.Dx(), y1-y0))
	copy(out.Pix, img.Pix[y0*img.Stride:y1*img.Stride])
	return out
}
