package ui

import (
	"image"
	"image/color"
	"testing"

	"fretband/app"
	"fretband/app/ui/kit"
	"fretband/export/picture"
	"fretband/pattern/project"
	"fretband/pattern/strength"
	"fretband/unroll/plane"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/test"
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
	require.Len(t, w.blankPane.Case.Options, len(w.ed.Scene.Report.Strength.Cases)+1, "and a push of one's own")
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

func TestTheBentBandIsDrawnUnderItsLoadOnRequest(t *testing.T) {
	w, rest := waiting(t)
	key := func(k fyne.KeyName) { w.typed(&fyne.KeyEvent{Name: k}) }
	offered := func() (b *kit.Button) {
		w.bentPane.Positions(func(name string, o fyne.CanvasObject) {
			if name == "bent:Under load" && o.Visible() {
				b = o.(*kit.Button)
			}
		})
		return b
	}
	key(fyne.KeyJ)
	require.Nil(t, offered(), "there is no load in sight")
	require.Nil(t, w.bent.Solid().Load)
	key(fyne.KeyY)
	require.NotNil(t, offered())
	require.Nil(t, w.bent.Solid().Load, "only on request")
	was := w.win.Canvas().Capture()
	test.Tap(offered())
	require.Same(t, w.ed.Stress.Map, w.bent.Solid().Load)
	require.Equal(t, "Bending drawn 2 times; thin lines: without load", w.bentPane.Drawn.Text)
	require.Greater(t, changedOn(w, was), 3000)

	// The load of another case, and of a newer design once that is solved.
	w.blankPane.Case.SetSelected("Rolled on over its side")
	require.Same(t, w.ed.Stress.Map, w.bent.Solid().Load)
	old := w.bent.Solid().Load
	w.ed.Slide(w.controls.RowsOf["rules.bridge_mm"].Number, 1.25)
	require.Same(t, old, w.bent.Solid().Load, "the band does not spring back meanwhile")
	rest()
	require.NotSame(t, old, w.bent.Solid().Load)
	require.Same(t, w.ed.Stress.Map, w.bent.Solid().Load)

	// A finding's place is ringed where it is drawn.
	ring := func() int {
		at := w.ed.Scene.Report.Thinnest
		w.bent.Ring(w.ed.Scene.Sheet.Flat, []plane.Point{at.A}, 0)
		return len(w.bent.Ringed)
	}
	require.Equal(t, 1, ring())
	loaded := w.bent.Ringed[0]
	test.Tap(offered())
	require.Nil(t, w.bent.Solid().Load)
	require.False(t, w.bentPane.Drawn.Visible())
	require.NotEqual(t, loaded, w.bent.Ringed[0])
	test.Tap(offered())
	require.Equal(t, loaded, w.bent.Ringed[0])
	key(fyne.KeyY)
	require.Nil(t, offered())
	require.Nil(t, w.bent.Solid().Load)

	// The load of a cuff is none for a ring that is opened meanwhile.
	key(fyne.KeyY)
	d, err := project.GalleryDesign("mooring-ring")
	require.NoError(t, err)
	w.files.Use(app.NewDocument(d))
	require.Nil(t, w.bent.Solid().Load)
	rest()
	require.Contains(t, w.bentPane.Drawn.Text, "0 times")
}

// A click pushes at the metal where the maker would, and the stress of that is shown, also
// after the design is changed, for as long as metal lies there.
func TestAPushOfOnesOwnIsSolvedAndShown(t *testing.T) {
	w, rest := waiting(t)
	click := func(p plane.Point) {
		at := w.blank.PositionOf(p)
		e := &desktop.MouseEvent{PointEvent: fyne.PointEvent{Position: at}, Button: desktop.MouseButtonPrimary}
		w.blank.MouseDown(e)
		w.blank.MouseUp(e)
	}
	w.typed(&fyne.KeyEvent{Name: fyne.KeyK})
	click(w.ed.Scene.Sheet.Openings[0].Position())
	require.Equal(t, app.PushTool, w.ed.Tool, "nothing is to be pushed in an opening")
	require.False(t, w.ed.Stress.Shown)

	onRim := func(x float64) plane.Point {
		_, top := w.ed.Flat().EdgesAt(x)
		return plane.Pt(x, top-0.7)
	}
	at := onRim(20)
	click(at)
	require.Empty(t, w.ed.Tool)
	require.True(t, w.ed.Stress.Shown)
	c := w.ed.Stress.Map.Case
	require.Equal(t, strength.PushedWhat, c.What)
	require.InDelta(t, 0, c.At[0].Dist(at), 0.2, "as near as a pixel is")
	require.Equal(t, app.PushedCase, w.ed.Stress.Chosen())
	first := c.PerN

	// From the middle of the band it gives less: chosen by the case's name this time.
	w.blankPane.Case.SetSelected("Push at a position...")
	require.Contains(t, w.blankPane.Words.Text, "Click on the metal")
	click(onRim(64))
	require.Greater(t, w.ed.Stress.Map.Case.PerN, 2*first, "near a free end")

	w.ed.Slide(w.controls.RowsOf["rules.bridge_mm"].Number, 1.25)
	rest()
	require.True(t, w.ed.Stress.Fresh(w.ed.Scene.Sheet))
	require.Equal(t, strength.PushedWhat, w.ed.Stress.Map.Case.What)

	// Where a design has no metal any more, its other cases are left.
	w.ed.Slide(w.controls.RowsOf["band.gap_mm"].Number, 50)
	rest()
	require.True(t, w.ed.Stress.Fresh(w.ed.Scene.Sheet))
	require.Equal(t, strength.Open, w.ed.Stress.Map.Case.Case)
}
