package paint

import (
	"image"
	"image/color"
)

// Box paints the upright rectangle of whole pixels from (x0, y0) up to but not
// including (x1, y1): what needs no clean edges is not worth a fill.
func Box(dst *image.RGBA, x0, y0, x1, y1 int, c color.NRGBA) {
	b := dst.Bounds()
	x0, x1 = max(x0, 0), min(x1, b.Dx())
	y0, y1 = max(y0, 0), min(y1, b.Dy())
	if x0 >= x1 || y0 >= y1 {
		return
	}
	first := dst.Pix[y0*dst.Stride+4*x0 : y0*dst.Stride+4*x1]
	if c.A != 255 {
		for y := y0; y < y1; y++ {
			row := dst.Pix[y*dst.Stride+4*x0 : y*dst.Stride+4*x1]
			for i := 0; i < len(row); i += 4 {
				blend(row[i:i+4:i+4], c, 1)
			}
		}
		return
	}
	for i := 0; i < len(first); i += 4 {
		first[i], first[i+1], first[i+2], first[i+3] = c.R, c.G, c.B, 255
	}
	for y := y0 + 1; y < y1; y++ {
		copy(dst.Pix[y*dst.Stride+4*x0:], first)
	}
}
