package ui

import (
	"image"
	"image/color"
	"testing"

	"fretband/app"
	"fretband/export/picture"
	"fretband/pattern/project"
	"fretband/pattern/strength"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
	"github.com/stretchr/testify/require"
)

// shaded counts the pixels of the blank that show a shade of stress.
func shaded(w *Window) (n int) {
	shades := map[color.NRGBA]bool{}
	for i := range picture.StressShades {
		shades[picture.StressShade(i)] = true
	}
	img := w.win.Canvas().Capture()
	at, size := fyne.CurrentApp().Driver().AbsolutePositionForObject(w.blank), w.blank.Size()
	for y := int(at.Y); y < int(at.Y+size.Height); y++ {
		for x := int(at.X); x < int(at.X+size.Width); x++ {
			if shades[color.NRGBAModel.Convert(img.At(x, y)).(color.NRGBA)] {
				n++
			}
		}
	}
	return n
}

// changedOn counts the pixels of the bent band that are not as they were.
func changedOn(w *Window, was image.Image) (n int) {
	now := w.win.Canvas().Capture()
	at, size := fyne.CurrentApp().Driver().AbsolutePositionForObject(w.bent), w.bent.Size()
	for y := int(at.Y); y < int(at.Y+size.Height); y++ {
		for x := int(at.X); x < int(at.X+size.Width); x++ {
			if now.At(x, y) != was.At(x, y) {
				n++
			}
		}
	}
	return n
}

// muchShaded is what the shades of a cuff cover at least, pixels.
const muchShaded = 20000

func TestStressIsShownOverTheBlankAndPaledWhileItIsOld(t *testing.T) {
	w, rest := waiting(t)
	require.NotNil(t, w.ed.Scene.Report.Strength, "the figures are solved at rest though nobody watches")
	key := func(k fyne.KeyName) { w.typed(&fyne.KeyEvent{Name: k}) }
	require.False(t, w.blankPane.Case.Visible() && w.ed.Stress.Shown)
	open := w.ed.Scene.Report.Strength.Cases[0]
	require.Equal(t, strength.Open, open.Case)
	require.Zero(t, shaded(w))
	bare := w.win.Canvas().Capture()

	key(fyne.KeyY)
	require.Greater(t, changedOn(w, bare), 5000, "and on the bent band")
	require.Len(t, w.blankPane.Case.Options, len(w.ed.Scene.Report.Strength.Cases))
	require.Contains(t, w.blankPane.Words.Text, "where the first whole bridge yields.")
	require.Greater(t, shaded(w), muchShaded)
	at := w.blank.PositionOf(open.BridgeAt)
	w.blank.MouseMoved(&desktop.MouseEvent{PointEvent: fyne.PointEvent{Position: at}})
	require.Regexp(t, `^\d+ MPa, (9\d|10\d|11\d) % of proof$`, w.status.over.Text, "there a whole bridge yields")
	w.blank.MouseOut()

	// Another case.
	w.blankPane.Case.SetSelected("Rolled on over its side")
	require.Equal(t, strength.Push, w.ed.Stress.Map.Case.Case)
	w.blankPane.Case.SetSelected("The ends pulled straight apart")

	// A newer design: what is old is paled, and says nothing of itself.
	w.ed.Slide(w.controls.RowsOf["rules.bridge_mm"].Number, 1.25)
	require.Contains(t, w.blankPane.Words.Text, "before this change")
	require.Zero(t, shaded(w))
	at = w.blank.PositionOf(open.BridgeAt)
	w.blank.MouseMoved(&desktop.MouseEvent{PointEvent: fyne.PointEvent{Position: at}})
	require.NotContains(t, w.status.over.Text, "MPa")
	w.blank.MouseOut()
	rest()
	require.True(t, w.ed.Stress.Fresh(w.ed.Scene.Sheet))
	require.Greater(t, shaded(w), muchShaded)

	key(fyne.KeyY)
	require.Zero(t, shaded(w))

	// Another document has nothing to show yet.
	key(fyne.KeyY)
	d, err := project.GalleryDesign("mooring-ring")
	require.NoError(t, err)
	w.files.Use(app.NewDocument(d))
	require.True(t, w.ed.Stress.Map == nil)
	require.Equal(t, "Solving...", w.blankPane.Words.Text)
	rest()
	require.Equal(t, strength.Squeeze, w.ed.Stress.Map.Case.Case)
}
