package kit

import (
	"image"
	"image/color"
	"sync"

	"golang.org/x/image/font"
	"golang.org/x/image/font/opentype"
	"golang.org/x/image/math/fixed"
)

// face draws text of one size into a picture; the toolkit draws it only on the screen.
type face struct {
	face font.Face
}

// Faces makes faces of one font at the sizes asked for and keeps them.
type Faces struct {
	font   *opentype.Font
	mu     sync.Mutex
	cached map[int]*face
}

// newFaces reads a TrueType or OpenType font.
func newFaces(file []byte) (*Faces, error) {
	f, err := opentype.Parse(file)
	if err != nil {
		return nil, err
	}
	return &Faces{font: f, cached: map[int]*face{}}, nil
}

// Size returns the face whose letters are px pixels high, taken to a quarter of
// a pixel.
func (f *Faces) Size(px float64) *face {
	k := max(4, int(px*4+0.5))
	f.mu.Lock()
	defer f.mu.Unlock()
	if kept := f.cached[k]; kept != nil {
		return kept
	}
	// At 72 dots per inch a point is a pixel.
	made, err := opentype.NewFace(f.font, &opentype.FaceOptions{Size: float64(k) / 4, DPI: 72, Hinting: font.HintingVertical})
	if err != nil {
		panic(err) // only for options that make no sense
	}
	f.cached[k] = &face{made}
	return f.cached[k]
}

// Width returns how wide the text is, pixels.
func (f *face) Width(s string) float64 { return float64(font.MeasureString(f.face, s)) / 64 }

// Height returns the distance from the top of a capital to the base line.
func (f *face) Height() float64 {
	m := f.face.Metrics()
	if m.CapHeight > 0 {
		return float64(m.CapHeight) / 64
	}
	return float64(m.Ascent) / 64 * 0.75
}

// Anchors for [face.draw]: which part of the text is at the point.
const (
	AlignLeft   = 0.0
	AlignMiddle = 0.5
	AlignRight  = 1.0
)

// Draw writes s over dst with its base line at y; anchor says which part of its
// width is at x.
func (f *face) Draw(dst *image.RGBA, s string, x, y, anchor float64, c color.NRGBA) {
	x -= anchor * f.Width(s)
	d := font.Drawer{Dst: dst, Src: image.NewUniform(c), Face: f.face,
		Dot: fixed.Point26_6{X: fixed.Int26_6(x * 64), Y: fixed.Int26_6(y * 64)}}
	d.DrawString(s)
}
