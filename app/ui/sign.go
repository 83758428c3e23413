package ui

import (
	"image"
	"image/color"

	"fretband/export/paint"
	"fretband/pattern/check"
)

// drawSign draws the shape that stands for a severity, so that it can be told
// without its colour: a diamond for a breach, a triangle for a caution, a ring
// for a note. The picture is n pixels square.
func drawSign(s check.Severity, n int, c color.NRGBA) *image.RGBA {
	img := image.NewRGBA(image.Rect(0, 0, n, n))
	f := paint.NewFill(n, n)
	w := float64(n)
	switch s {
	case check.Breach:
		f.Polygon(w/2, w*0.04, w*0.96, w/2, w/2, w*0.96, w*0.04, w/2)
	case check.Caution:
		f.Polygon(w/2, w*0.08, w*0.97, w*0.92, w*0.03, w*0.92)
	default:
		f.Ring(w/2, w/2, w*0.36, w*0.16)
	}
	f.Draw(img, c)
	return img
}

// drawAcceptedSign draws the same shapes hollow, for what is let stand: ground is what
// lies under them.
func drawAcceptedSign(s check.Severity, n int, c, ground color.NRGBA) *image.RGBA {
	img := drawSign(s, n, c)
	f := paint.NewFill(n, n)
	w := float64(n)
	switch s {
	case check.Breach:
		f.Polygon(w/2, w*0.24, w*0.76, w/2, w/2, w*0.76, w*0.24, w/2)
	case check.Caution:
		f.Polygon(w/2, w*0.34, w*0.75, w*0.79, w*0.25, w*0.79)
	default:
		return img
	}
	f.Draw(img, ground)
	return img
}

// severityWord is the word that goes with the shape.
func severityWord(s check.Severity) string {
	switch s {
	case check.Breach:
		return "Breach"
	case check.Caution:
		return "Caution"
	}
	return "Note"
}
