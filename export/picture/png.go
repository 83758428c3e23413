package picture

import (
	"bytes"
	"encoding/binary"
	"hash/crc32"
	"image"
	"image/color"
	"image/png"
	"io"
	"math"
	"slices"

	"fretband/export"
	"fretband/export/paint"
	"fretband/pattern"
	"fretband/pattern/check"
	"fretband/pattern/lettering"
	"fretband/unroll/plane"
)

// Measures of the client's picture, pixels: ours.
const (
	pngWide   = 1600
	pngHigh   = 1200 // of the bent band, at most
	pngFlat   = 900  // width of the flat pattern at most
	pngFlatH  = 200  // and its height
	pngMargin = 70
	pngLetter = 26 // height of the name's capitals
)

var pngInk = color.NRGBA{70, 68, 65, 255}

// WritePNG writes the picture for the client: the bent band, the flat pattern
// small beneath it, and the name.
func WritePNG(out io.Writer, s *pattern.Sheet, _ *check.Report, o export.Options) error {
	tone := toneOf(s.Design.Metal.Alloy)
	bent, err := Bent(s, pngWide, pngHigh, tone.polish)
	if err != nil {
		return err
	}
	name, nameW, nameH := namePlate(export.Title(s.Design), pngLetter, pngWide-2*pngMargin)
	b := s.Flat.Outline.Bounds()
	k := math.Min(pngFlat/b.W(), pngFlatH/b.H())
	flatH := int(math.Ceil(b.H()*k)) + 2
	high := pngMargin + bent.Rect.Dy() + flatH + pngMargin
	if name != nil {
		high += pngMargin/2 + nameH
	}
	img := image.NewRGBA(image.Rect(0, 0, pngWide, high))
	for i := range img.Pix {
		img.Pix[i] = 255
	}
	y := pngMargin / 2
	copy(img.Pix[y*img.Stride:], bent.Pix)
	y += bent.Rect.Dy() + pngMargin/2
	w := int(math.Ceil(b.W()*k)) + 2
	x := (pngWide - w) / 2
	paintOn(img, x, y, flatMetal(s, k, w, flatH), func(row int) color.NRGBA {
		return between(tone.light, tone.dark, 0.25+0.75*float64(row)/float64(flatH))
	})
	origin := plane.Pt(float64(x)+1-b.Min.X*k, float64(y)+1+b.Max.Y*k)
	paintEngraved(img, s, k, origin, tone.edge)
	paintAdded(img, s, k, origin, tone)
	if name != nil {
		y += flatH + pngMargin/2
		paintOn(img, (pngWide-nameW)/2, y, name, func(int) color.NRGBA { return pngInk })
	}
	var file bytes.Buffer
	if err := (&png.Encoder{CompressionLevel: png.DefaultCompression}).Encode(&file, img); err != nil {
		return err
	}
	_, err = out.Write(withPNGText(file.Bytes(), "Description", export.TagOf(s.Design, export.TagRoom)))
	return err
}

func between(a, b color.NRGBA, t float64) color.NRGBA {
	m := func(a, b uint8) uint8 { return uint8(math.Round(float64(a) + t*(float64(b)-float64(a)))) }
	return color.NRGBA{m(a.R, b.R), m(a.G, b.G), m(a.B, b.B), 255}
}

// tolerance is how far chords may lie from arcs, pixels.
const tolerance = 0.05

// add adds a loop in mm, y up, that is placed by to: pixels, y down.
func add(f *paint.Fill, l plane.Loop, k float64, to func(plane.Point) plane.Point) {
	pts := l.Flatten(tolerance / k)
	f.Through(len(pts), func(i int) (x, y float64) { p := to(pts[i]); return p.X, p.Y })
}

// paintOn lays a colour, which may differ by the row, over the picture where a fill with
// its corner at x and y covers it.
func paintOn(img *image.RGBA, x, y int, f *paint.Fill, colour func(row int) color.NRGBA) {
	f.Each(func(col, row int, share float32) {
		c := colour(row)
		p := img.Pix[img.PixOffset(x+col, y+row):]
		for k, v := range [3]uint8{c.R, c.G, c.B} {
			p[k] = uint8(float32(p[k]) + share*(float32(v)-float32(p[k])) + 0.5)
		}
	})
}

// flatMetal is the metal of the flat pattern at k pixels a millimetre.
func flatMetal(s *pattern.Sheet, k float64, w, h int) *paint.Fill {
	b := s.Flat.Outline.Bounds()
	to := func(p plane.Point) plane.Point { return plane.Pt(1+(p.X-b.Min.X)*k, 1+(b.Max.Y-p.Y)*k) }
	metal, open := paint.NewFill(w, h), paint.NewFill(w, h)
	add(metal, s.Flat.Outline, k, to)
	for _, opening := range s.Openings {
		for _, l := range s.Again(opening.Loop) {
			add(open, l.CCW(), k, to)
		}
	}
	metal.Less(open)
	return metal
}

func paintEngraved(img *image.RGBA, s *pattern.Sheet, k float64, origin plane.Point, ink color.NRGBA) {
	const half = 0.7 // pixels
	f := paint.NewFill(img.Rect.Dx(), img.Rect.Dy())
	for _, m := range s.Engravings {
		if m.Inside {
			continue // it is not seen from outside
		}
		for _, st := range m.Strokes {
			for _, e := range st.Edges() {
				pts := e.Flatten(tolerance / k)
				for i := 1; i < len(pts); i++ {
					a := plane.Pt(origin.X+pts[i-1].X*k, origin.Y-pts[i-1].Y*k)
					b := plane.Pt(origin.X+pts[i].X*k, origin.Y-pts[i].Y*k)
					n := b.Sub(a).Unit().Left().Mul(half)
					f.Polygon(a.X+n.X, a.Y+n.Y, b.X+n.X, b.Y+n.Y, b.X-n.X, b.Y-n.Y, a.X-n.X, a.Y-n.Y)
				}
			}
		}
	}
	paintOn(img, 0, 0, f, func(int) color.NRGBA { return ink })
}

// namePlate is a name in outlines, at most wide pixels wide, and its size; nil where there
// is none, or where the face lacks one of its letters.
func namePlate(name string, capital, wide float64) (f *paint.Fill, w, h int) {
	line, err := lettering.Outlines(name, capital, tolerance)
	if err != nil || len(line.Loops) == 0 {
		return nil, 0, 0
	}
	k := math.Min(1, wide/line.Box.W())
	w, h = int(line.Box.W()*k)+3, int(line.Box.H()*k)+3
	f = paint.NewFill(w, h)
	for _, l := range line.Loops {
		add(f, l, k, func(p plane.Point) plane.Point {
			return plane.Pt(1+(p.X-line.Box.Min.X)*k, 1+(line.Box.Max.Y-p.Y)*k)
		})
	}
	return f, w, h
}

// pngHead is how long a PNG file is up to the end of its header: signature and IHDR
// (PNG, third edition, sections 5.2 and 11.2.1).
const pngHead = 8 + 25

// withPNGText returns a PNG file with a text in ASCII behind its header (section
// 11.3.3.2).
func withPNGText(file []byte, keyword, text string) []byte {
	body := []byte("tEXt" + keyword + "\x00" + text)
	chunk := binary.BigEndian.AppendUint32(nil, uint32(len(body)-len("tEXt")))
	chunk = append(chunk, body...)
	chunk = binary.BigEndian.AppendUint32(chunk, crc32.ChecksumIEEE(body))
	return slices.Insert(file, pngHead, chunk...)
}
