package ui

import (
	"image"
	"image/png"
	"os"
	"path/filepath"
	"testing"

	"fretband/app"
	"fretband/unroll/plane"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"
	"github.com/stretchr/testify/require"
)

// A sketch lies on the blank at its true size: its dark half darkens the metal there, its
// white half leaves it as it is, and a hand moves it.
func TestAPictureToTraceLiesOnTheBlankAtItsSize(t *testing.T) {
	w := plainCuff(t)
	w.escape()
	path := filepath.Join(t.TempDir(), "sketch.png")
	img := image.NewGray(image.Rect(0, 0, 200, 100))
	for i := range img.Pix {
		if img.Pix[i] = 255; i%200 < 100 {
			img.Pix[i] = 20
		}
	}
	f, err := os.Create(path)
	require.NoError(t, err)
	require.NoError(t, png.Encode(f, img))
	require.NoError(t, f.Close())
	shade := func(x, y float64) uint32 {
		p := fyne.CurrentApp().Driver().AbsolutePositionForObject(w.blank).Add(placeOn(w, plane.Pt(x, y)))
		r, _, _, _ := w.win.Canvas().Capture().At(int(p.X), int(p.Y)).RGBA()
		return r >> 8
	}
	plain := shade(-5, 3)
	require.NoError(t, w.ed.LayUnder(path))
	width, ok := app.NumberAt(w.ed.Now(), "underlay.width_mm")
	require.True(t, ok)
	require.NoError(t, w.ed.Put(width, "20"))
	require.Less(t, shade(-5, 3), plain-40, "under the dark half")
	require.InDelta(t, plain, shade(5, 3), 2, "under the white half")
	require.InDelta(t, plain, shade(-11, 3), 2, "beside it")
	require.InDelta(t, plain, shade(-5, 6), 2, "above it")
	w.showTab(app.HandPage)
	test.Tap(part[fyne.Tappable](t, w, "fold:trace"))
	keepPicture(t, "underlay", w.win.Canvas().Capture)
	h := handleNamed(t, w, "underlay.place")
	dragOn(w, placeOn(w, h), placeOn(w, h.Add(plane.Pt(30, 0))), 0)
	require.InDelta(t, 30, w.ed.Now().Underlay.XMM, 0.2)
	require.Less(t, shade(25, 3), plain-40)
	require.InDelta(t, plain, shade(-5, 3), 2)
	w.undo()
	require.Zero(t, w.ed.Now().Underlay.XMM)
}
