package blank

import (
	"image"
	"math"

	"fretband/app"
	"fretband/app/ui/kit"
	"fretband/unroll/plane"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
)

// Thumb is a small picture of a laid blank, as wide as fits.
func Thumb(k *kit.Kit, s *app.Scene, w, h float32) fyne.CanvasObject {
	if s == nil {
		return kit.Sized(w, h)
	}
	p := &sheetPainter{faces: k.Faces, tone: kit.MetalOf(s.Sheet.Design.Metal.Alloy)}
	r := canvas.NewRaster(func(pw, ph int) image.Image {
		img := image.NewRGBA(image.Rect(0, 0, pw, ph))
		v := viewport{frame: frame{w: pw, h: ph, scale: float64(pw) / float64(w), right: float64(pw), bottom: float64(ph)}}
		b := s.Sheet.Flat.Outline.Bounds()
		v.centre = b.Centre()
		v.k = math.Min(float64(pw)/(b.W()+2), float64(ph)/(b.H()+2))
		p.target = img
		p.fill.Reset(pw, ph)
		p.box(0, 0, float64(pw), float64(ph), k.Dress.Panel)
		p.fill.Outer = true
		p.loopPath(v, s.Sheet.Flat.Outline.Flatten(0.2/v.k), plane.Point{}, false)
		p.eachOpening(v, s, func(_ int, pts []plane.Point, at plane.Point) { p.loopPath(v, pts, at, true) })
		p.draw(p.tone.Face)
		p.fill.Outer = false
		return img
	})
	return kit.Sized(w, h, r)
}
