package kit

import (
	"image"
	"image/color"

	"fretband/export/paint"
	"fretband/unroll/plane"

	"fyne.io/fyne/v2/canvas"
)

// Picture is a small picture that is drawn anew whenever what it shows or the dress changes.
type Picture struct {
	*canvas.Raster
	paint.Fill
	Img   *image.RGBA
	W, H  float64 // device pixels
	Scale float64 // device pixels to the toolkit's
	Dress *Dress
}

// Picture returns a picture that draw draws.
func (k *Kit) Picture(draw func(p *Picture)) *Picture {
	p := &Picture{}
	p.Raster = canvas.NewRaster(func(w, h int) image.Image {
		if p.Img == nil || p.Img.Rect.Dx() != w || p.Img.Rect.Dy() != h {
			p.Img = image.NewRGBA(image.Rect(0, 0, w, h))
		}
		p.W, p.H, p.Scale, p.Dress = float64(w), float64(h), 1, k.Dress
		if wide := p.Size().Width; wide > 0 {
			p.Scale = p.W / float64(wide)
		}
		p.Fill.Reset(w, h)
		draw(p)
		return p.Img
	})
	OnDress(k, p.Raster, func(r *canvas.Raster, _ *Dress) { r.Refresh() })
	return p
}

// Ground paints all of it.
func (p *Picture) Ground(c color.NRGBA) { paint.Box(p.Img, 0, 0, int(p.W), int(p.H), c) }

// Draw paints what has been added.
func (p *Picture) Draw(c color.NRGBA) { p.Fill.Draw(p.Img, c) }

// Loop adds a closed line; at says where its points are on the picture.
func (p *Picture) Loop(pts []plane.Point, at func(plane.Point) (x, y float64)) {
	xy := make([]float64, 0, 2*len(pts))
	for _, q := range pts {
		x, y := at(q)
		xy = append(xy, x, y)
	}
	p.Polygon(xy...)
}
