package view3d

import (
	"image"

	"fretband/pattern/mesh"
	"fretband/unroll/plane"
)

// Print is a picture on the flat that is laid over both faces of the band and round its
// edges. Where it is clear the metal shows.
type Print struct {
	Img   *image.RGBA
	Min   plane.Point // of its lower left corner, mm
	PerMM float64     // pixels
	// Pale mixes it half into the metal.
	Pale bool
}

// at returns the colour at a position on the flat and how much it covers, of 256.
func (p *Print) at(q plane.Point) (c, share uint32) {
	x := int((q.X - p.Min.X) * p.PerMM)
	y := p.Img.Rect.Dy() - 1 - int((q.Y-p.Min.Y)*p.PerMM)
	if x < 0 || y < 0 || x >= p.Img.Rect.Dx() || y >= p.Img.Rect.Dy() {
		return 0, 0
	}
	k := p.Img.Pix[y*p.Img.Stride+4*x:][:4:4]
	if k[3] < 128 {
		return 0, 0
	}
	share = 256
	if p.Pale {
		share = 102 // as on the blank
	}
	return uint32(k[0]) | uint32(k[1])<<8 | uint32(k[2])<<16, share
}

// printed lays the print over the colour of a triangle at a position of the picture of all positions.
// The light on the metal still tells its shape, but weakly, so that shades can be told.
func (v *View) printed(t *mesh.Triangle, x, y float32, metal uint32) uint32 {
	wa, wb, wc := v.weights(t.V, x, y)
	q, _ := v.scene.mesh.FlatAt(*t, wa, wb, wc)
	c, share := v.look.Print.at(q)
	if share == 0 {
		return metal
	}
	l := v.look.Metal
	bright := float32(brightness(metal)) / float32(max(brightness(packed(l)), 1))
	k := uint32(256 * min(0.62+0.38*bright, 1.08))
	lit := func(s uint) uint32 { return min((c>>s&255)*k>>8, 255) << s }
	return mixed(metal, lit(0)|lit(8)|lit(16), share)
}

// brightness is that of a colour by the weights of ITU-R BT.601, of 255.
func brightness(c uint32) uint32 { return ((c&255)*77 + (c>>8&255)*150 + (c>>16&255)*29) >> 8 }
