package app

import (
	"bytes"
	"encoding/binary"
	"hash/crc32"
	"image"
	"image/color"
	"image/jpeg"
	"image/png"
	"os"
	"path/filepath"
	"testing"

	"fretband/pattern"
	"fretband/unroll"

	"github.com/stretchr/testify/require"
)

// sketch writes a picture of w by h points, black on the left half, that says how many points
// it has to the metre; 0 for none.
func sketch(t *testing.T, path string, w, h int, perMetre uint32) {
	t.Helper()
	img := image.NewGray(image.Rect(0, 0, w, h))
	for i := range img.Pix {
		if img.Pix[i] = 255; i%w < w/2 {
			img.Pix[i] = 0
		}
	}
	var b bytes.Buffer
	if filepath.Ext(path) == ".jpg" {
		require.NoError(t, jpeg.Encode(&b, img, nil))
	} else {
		require.NoError(t, png.Encode(&b, img))
	}
	data := b.Bytes()
	if perMetre > 0 { // the chunk after the first, as ISO/IEC 15948, 5.6, has it
		chunk := []byte("\x00\x00\x00\x09pHYs")
		chunk = binary.BigEndian.AppendUint32(chunk, perMetre)
		chunk = binary.BigEndian.AppendUint32(chunk, perMetre)
		chunk = append(chunk, 1)
		chunk = binary.BigEndian.AppendUint32(chunk, crc32.ChecksumIEEE(chunk[4:]))
		const head = 8 + 12 + 13
		data = append(append(append([]byte{}, data[:head]...), chunk...), data[head:]...)
	}
	require.NoError(t, os.MkdirAll(filepath.Dir(path), 0o755))
	require.NoError(t, os.WriteFile(path, data, 0o644))
}

func TestAPictureIsKeptByItsNameBesideTheDesign(t *testing.T) {
	dir := t.TempDir()
	path := filepath.Join(dir, "sketches", "wave.png")
	sketch(t, path, 600, 150, 10000) // 10 to the millimetre
	ed := NewEditor(NewDocument(pattern.Begin(unroll.Cuff)), NewLog(nil))
	require.Nil(t, ed.Under())
	require.NoError(t, ed.LayUnder(path))
	require.Equal(t, 60.0, ed.Now().Underlay.WidthMM, "as wide as it says")
	require.Equal(t, filepath.ToSlash(path), ed.Now().Underlay.File, "of a design that is in no file")
	require.NoError(t, ed.Doc.SaveAs(filepath.Join(dir, "cuff.json")))
	require.Equal(t, "sketches/wave.png", ed.Now().Underlay.File)
	require.False(t, ed.Doc.Dirty())
	require.NoError(t, ed.Under().Err)
	// Both are moved together.
	moved := filepath.Join(t.TempDir(), "moved")
	require.NoError(t, os.Rename(dir, moved))
	doc, err := Open(filepath.Join(moved, "cuff.json"))
	require.NoError(t, err)
	ed.Open(doc)
	require.NoError(t, ed.Under().Err)
	require.Equal(t, "wave.png", ed.UnderlayText())
	// Saved elsewhere, the way there is another.
	require.NoError(t, ed.Doc.SaveAs(filepath.Join(moved, "sketches", "cuff.json")))
	require.Equal(t, "wave.png", ed.Now().Underlay.File)
	// A picture that is gone is said, and taken away by one step.
	require.NoError(t, os.Remove(filepath.Join(moved, "sketches", "wave.png")))
	ed.under = nil
	require.Error(t, ed.Under().Err)
	require.Equal(t, "not found", ed.UnderlayText())
	ed.TakeUnderlay()
	require.Nil(t, ed.Under())
	require.True(t, ed.Doc.Undo())
}

func TestAPictureThatSaysNoSizeIsAsLongAsTheBlank(t *testing.T) {
	dir := t.TempDir()
	ed := NewEditor(NewDocument(pattern.Begin(unroll.Cuff)), NewLog(nil))
	for _, name := range []string{"plain.png", "photo.jpg"} {
		path := filepath.Join(dir, name)
		sketch(t, path, 64, 32, 0)
		require.NoError(t, ed.LayUnder(path))
		require.InDelta(t, bandBox(ed.Now()).W(), ed.Now().Underlay.WidthMM, 0.01)
	}
	sketch(t, filepath.Join(dir, "screen.png"), 64, 32, 2835) // 72 to the inch, which nobody chose
	require.NoError(t, ed.LayUnder(filepath.Join(dir, "screen.png")))
	require.InDelta(t, bandBox(ed.Now()).W(), ed.Now().Underlay.WidthMM, 0.01)
	// Drawn small, fine lines become grey and do not break up.
	img := image.NewRGBA(image.Rect(0, 0, 9, 9))
	for i := range img.Pix {
		if img.Pix[i] = 255; i/4%2 == 0 && i%4 < 3 {
			img.Pix[i] = 0
		}
	}
	u := Under{Image: img}
	require.Equal(t, image.Rect(0, 0, 4, 4), u.Reduced(1).Rect)
	require.Equal(t, color.RGBA{128, 128, 128, 255}, u.Reduced(1).At(1, 2))
	require.Equal(t, image.Rect(0, 0, 1, 1), u.Reduced(9).Rect)
	require.Same(t, img, u.Reduced(0))
	bad := filepath.Join(dir, "words.png")
	require.NoError(t, os.WriteFile(bad, []byte("no picture"), 0o644))
	was := ed.Now()
	require.ErrorContains(t, ed.LayUnder(bad), "no PNG or JPEG")
	require.Error(t, ed.LayUnder(filepath.Join(dir, "none.png")))
	require.True(t, Equal(was, ed.Now()))
	require.Equal(t, color.RGBA{0, 0, 0, 255}, ed.Under().Image.At(3, 3))
}
