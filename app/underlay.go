package app

import (
	"bytes"
	"encoding/binary"
	"fmt"
	"image"
	"image/draw"
	_ "image/jpeg" // the pictures that can be traced
	_ "image/png"
	"math"
	"path/filepath"

	"fretband/pattern"
)

// Limits of a picture to trace: far above a photograph of a sketch.
const (
	mostPictureBytes  = 60 << 20
	mostPicturePixels = 80e6
)

// Under is the picture to trace as it was read from the disk.
type Under struct {
	Image *image.RGBA
	// WideMM is how wide the picture says that it is, 0 if it does not.
	WideMM float64
	Err    error
	path   string
	halves []*image.RGBA // half as wide and high, a quarter, and so on
}

// Reduced returns the picture halved n times, so that it can be drawn small without its lines
// breaking up.
func (u *Under) Reduced(n int) *image.RGBA {
	img := u.Image
	for i := range n {
		if img.Rect.Dx() < 2 || img.Rect.Dy() < 2 {
			break
		}
		if i == len(u.halves) {
			u.halves = append(u.halves, halved(img))
		}
		img = u.halves[i]
	}
	return img
}

// halved returns a picture of which each point is the mean of four.
func halved(img *image.RGBA) *image.RGBA {
	w, h := img.Rect.Dx()/2, img.Rect.Dy()/2
	out := image.NewRGBA(image.Rect(0, 0, w, h))
	for y := range h {
		a, b := img.Pix[2*y*img.Stride:], img.Pix[(2*y+1)*img.Stride:]
		for x := range 4 * w {
			k := 8*(x/4) + x%4
			out.Pix[y*out.Stride+x] = uint8((int(a[k]) + int(a[k+4]) + int(b[k]) + int(b[k+4]) + 2) / 4)
		}
	}
	return out
}

// readUnder reads a picture. Its error says what it is not.
func readUnder(path string) *Under {
	u := &Under{path: path}
	data, err := readUpTo(path, mostPictureBytes+1)
	if err != nil {
		u.Err = err
		return u
	}
	name := filepath.Base(path)
	c, _, err := image.DecodeConfig(bytes.NewReader(data))
	switch {
	case len(data) > mostPictureBytes:
		u.Err = fmt.Errorf("%s has more than %d MB", name, mostPictureBytes>>20)
	case err != nil:
		u.Err = fmt.Errorf("%s is no PNG or JPEG picture", name)
	case float64(c.Width)*float64(c.Height) > mostPicturePixels:
		u.Err = fmt.Errorf("%s has %d x %d points; at most %.0f million are read", name, c.Width, c.Height, mostPicturePixels/1e6)
	}
	if u.Err != nil {
		return u
	}
	img, _, err := image.Decode(bytes.NewReader(data))
	if err != nil {
		u.Err = fmt.Errorf("%s can't be read: %w", name, err)
		return u
	}
	// On white: what is clear in a sketch is paper.
	u.Image = image.NewRGBA(image.Rect(0, 0, img.Bounds().Dx(), img.Bounds().Dy()))
	draw.Draw(u.Image, u.Image.Rect, image.White, image.Point{}, draw.Src)
	draw.Draw(u.Image, u.Image.Rect, img, img.Bounds().Min, draw.Over)
	if per := pointsPerMM(data); per > 0 {
		u.WideMM = float64(u.Image.Rect.Dx()) / per
	}
	return u
}

// pointsPerMM returns how many points a picture says that it has to the millimetre, 0 if it
// says nothing, or what programs write that know nothing: 72 or 96 to the inch. PNG has it in
// the chunk pHYs (ISO/IEC 15948, 11.3.5.3), JPEG in the segment of JFIF (ITU-T T.871, 10.1).
func pointsPerMM(data []byte) float64 {
	per := 0.0
	switch {
	case bytes.HasPrefix(data, []byte("\x89PNG\r\n\x1a\n")):
		for at := 8; at+12 <= len(data); {
			n := int(binary.BigEndian.Uint32(data[at:]))
			kind := string(data[at+4 : at+8])
			if kind == "IDAT" || n < 0 || at+12+n > len(data) {
				break
			}
			if kind == "pHYs" && n == 9 && data[at+16] == 1 {
				per = float64(binary.BigEndian.Uint32(data[at+8:])) / 1000
			}
			at += 12 + n
		}
	case len(data) > 18 && data[0] == 0xFF && data[1] == 0xD8 && data[2] == 0xFF && data[3] == 0xE0 && string(data[6:10]) == "JFIF":
		x := float64(binary.BigEndian.Uint16(data[14:]))
		switch data[13] {
		case 1:
			per = x / 25.4
		case 2:
			per = x / 10
		}
	}
	for _, idle := range []float64{72, 96} {
		if math.Abs(per*25.4-idle) < 0.5 {
			return 0
		}
	}
	return per
}

// UnderlayPath returns where the picture to trace is, "" if there is none.
func (d *Document) UnderlayPath() string { return underlayFrom(d.Path, d.now.Underlay.File) }

// underlayFrom returns the path of a picture that a design file names.
func underlayFrom(design, file string) string {
	p := filepath.FromSlash(file)
	if p == "" || filepath.IsAbs(p) || design == "" {
		return p
	}
	return filepath.Join(filepath.Dir(design), p)
}

// underlayIn names a picture as the design file at a path does: from its folder on, if there
// is a way.
func underlayIn(design, picture string) string {
	if design == "" || picture == "" {
		return filepath.ToSlash(picture)
	}
	from, err := filepath.Abs(filepath.Dir(design))
	if err != nil {
		return filepath.ToSlash(picture)
	}
	to, err := filepath.Rel(from, picture)
	if err != nil {
		return filepath.ToSlash(picture)
	}
	return filepath.ToSlash(to)
}

// LayUnder lays a picture under the drawing: in the middle, as wide as it says that it is, or
// as the blank is long.
func (e *Editor) LayUnder(path string) error {
	path, err := filepath.Abs(path)
	if err != nil {
		return err
	}
	u := readUnder(path)
	if u.Err != nil {
		return u.Err
	}
	d := e.Now()
	was := d.Underlay
	d.Underlay = pattern.Underlay{File: underlayIn(e.Doc.Path, path), WidthMM: hundredths(bandBox(d).W())}
	if u.WideMM > 0 {
		d.Underlay.WidthMM = hundredths(u.WideMM)
	}
	d.Underlay.WidthMM = pattern.ByPath("underlay.width_mm")[0].Clamp(d.Underlay.WidthMM)
	if err := d.Check(); err != nil {
		return err
	}
	e.under = u
	e.Change("", "underlay", was.File, d.Underlay.File, d)
	return nil
}

// TakeUnderlay takes the picture to trace away.
func (e *Editor) TakeUnderlay() {
	d := e.Now()
	was := d.Underlay.File
	d.Underlay = pattern.Underlay{}
	e.Change("", "underlay", was, "", d)
}

// Under returns the picture to trace, read from the disk the first time; nil if there is none.
func (e *Editor) Under() *Under {
	path := e.Doc.UnderlayPath()
	if path == "" {
		return nil
	}
	if e.under == nil || e.under.path != path {
		e.under = readUnder(path)
		if e.under.Err != nil {
			e.Log.Event("error", "what", e.under.Err)
		}
	}
	return e.under
}

// HoldUnderlay returns a function with which a hand changes where the picture lies, from the
// design as it is now.
func (e *Editor) HoldUnderlay() func(what string, v ...float64) {
	was := e.Now()
	return func(what string, v ...float64) {
		d := Clone(was)
		u := &d.Underlay
		switch what {
		case "place":
			u.XMM, u.YMM = pattern.PositionRange.Clamp(hundredths(v[0])), pattern.PositionRange.Clamp(hundredths(v[1]))
		case "width":
			u.WidthMM = pattern.ByPath("underlay.width_mm")[0].Clamp(hundredths(v[0]))
		}
		e.Change("underlay."+what, "underlay."+what, "", fmt.Sprint(v), d)
	}
}

// UnderlayText names the picture to trace, or says what is wrong with it.
func (e *Editor) UnderlayText() string {
	u := e.Under()
	switch {
	case u == nil:
		return "none"
	case u.Err != nil:
		return "not found"
	}
	return filepath.Base(u.path)
}
