package ui

import (
	"image"
	"image/color"
	"sync"

	"golang.org/x/image/font"
	"golang.org/x/image/font/opentype"
	"golang.org/x/image/math/fixed"
)

// face draws text of one size.
type face struct {
	face font.Face
}

// faces makes faces of one font at the sizes asked for and keeps them.
type faces struct {
	font *opentype.Font
	mu   sync.Mutex
	kept map[int]*face
}

// newFaces reads a TrueType or OpenType font.
func newFaces(file []byte) (*faces, error) {
	f, err := opentype.Parse(file)
	if err != nil {
		return nil, err
	}
	return &faces{font: f, kept: map[int]*face{}}, nil
}

// size returns the face whose letters are px pixels high, taken to a quarter of
// a pixel.
func (f *faces) size(px float64) *face {
	k := max(4, int(px*4+0.5))
	f.mu.Lock()
	defer f.mu.Unlock()
	if kept := f.kept[k]; kept != nil {
		return kept
	}
	// At 72 dots per inch a point is a pixel.
	made, err := opentype.NewFace(f.font, &opentype.FaceOptions{Size: float64(k) / 4, DPI: 72, Hinting: font.HintingVertical})
	if err != nil {
		panic(err) // only for options that make no sense
	}
	f.kept[k] = &face{made}
	return f.kept[k]
}

// width returns how wide the text is, pixels.
func (f *face) width(s string) float64 { return float64(font.MeasureString(f.face, s)) / 64 }

// height returns the distance from the top of a capital to the base line.
func (f *face) height() float64 {
	m := f.face.Metrics()
	if m.CapHeight > 0 {
		return float64(m.CapHeight) / 64
	}
	return float64(m.Ascent) / 64 * 0.75
}

// Anchors for [face.draw]: which part of the text stands at the point.
const (
	alignLeft   = 0.0
	alignMiddle = 0.5
	alignRight  = 1.0
)

// draw writes s over dst with its base line at y; anchor says which part of its
// width stands at x.
func (f *face) draw(dst *image.RGBA, s string, x, y, anchor float64, c color.NRGBA) {
	x -= anchor * f.width(s)
	d := font.Drawer{Dst: dst, Src: image.NewUniform(c), Face: f.face,
		Dot: fixed.Point26_6{X: fixed.Int26_6(x * 64), Y: fixed.Int26_6(y * 64)}}
	d.DrawString(s)
}
