package pdf

import (
	"image"

	"github.com/tdewolff/canvas"

	"fretband/unroll/plane"
)

// Image draws a picture w mm wide with its lower left corner at p. It is kept without
// loss.
func (d *Doc) Image(img image.Image, p plane.Point, w float64) {
	if img.Bounds().Empty() || w <= 0 {
		return
	}
	k := w / float64(img.Bounds().Dx())
	d.out.RenderImage(img, canvas.Identity.Translate(p.X, p.Y).Scale(k, k))
}
