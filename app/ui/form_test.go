package ui

import (
	"image"
	"math"
	"path/filepath"
	"strings"
	"testing"

	"fretband/app"
	"fretband/app/ui/kit"
	"fretband/pattern"
	"fretband/pattern/project"
	"fretband/unroll"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/test"
	"github.com/stretchr/testify/require"
)

// buttonIn returns the n-th visible button of that text in a container.
func buttonIn(t *testing.T, box fyne.CanvasObject, text string, n int) *kit.Button {
	t.Helper()
	var found []*kit.Button
	var walk func(o fyne.CanvasObject)
	walk = func(o fyne.CanvasObject) {
		if !o.Visible() {
			return
		}
		if b, ok := o.(*kit.Button); ok && b.Text == text {
			found = append(found, b)
		}
		if c, ok := o.(*fyne.Container); ok {
			for _, x := range c.Objects {
				walk(x)
			}
		}
	}
	walk(box)
	require.Greater(t, len(found), n, text)
	return found[n]
}

func choiceOf(t *testing.T, cs []app.Choice, path string) app.Choice {
	t.Helper()
	for _, c := range cs {
		if c.Path == path {
			return c
		}
	}
	t.Fatal("no choice is called", path)
	return app.Choice{}
}

func TestAnEdgeIsDrawnByPointsTypedAndDragged(t *testing.T) {
	w, log := usual(t)
	w.turnTo(formPage)
	form := w.controls.pages[formPage].box
	require.Empty(t, w.blank.marks.handles)
	test.Tap(buttonIn(t, form, "Add a point", 0))
	require.Empty(t, w.problem)
	require.Len(t, w.now().Band.TopEdge, 3)
	require.Len(t, w.blank.marks.handles, 3)
	keepPicture(t, "edges", w.win.Canvas().Capture)

	// Typed.
	typeInto(w, w.controls.rowsOf["band.top_edge[1].out_mm"].entry, "2.5")
	require.Equal(t, 2.5, w.now().Band.TopEdge[1].OutMM)
	typeInto(w, w.controls.rowsOf["band.top_edge[1].out_mm"].entry, "99")
	require.Contains(t, w.controls.problem.Text, "Top edge, point 2, out")
	w.escape()
	w.escape()

	// Dragged: the point follows the hand, and all of it is one step.
	before := w.now()
	h := w.blank.marks.handles[1]
	s := w.blank.v.frame.scale
	from := fyne.NewPos(float32(w.blank.v.x(h.at.X)/s), float32(w.blank.v.y(h.at.Y)/s))
	w.blank.MouseMoved(&desktop.MouseEvent{PointEvent: fyne.PointEvent{Position: from}})
	require.Equal(t, 1, w.blank.marks.overHandle)
	w.blank.MouseDown(&desktop.MouseEvent{PointEvent: fyne.PointEvent{Position: from}, Button: desktop.MouseButtonPrimary})
	to := from
	for range 10 {
		to = to.AddXY(2, -1)
		w.blank.Dragged(&fyne.DragEvent{PointEvent: fyne.PointEvent{Position: to}, Dragged: fyne.NewDelta(2, -1)})
	}
	w.blank.MouseUp(&desktop.MouseEvent{Button: desktop.MouseButtonPrimary})
	require.Empty(t, w.problem)
	now := w.blank.marks.handles[1].at
	require.InDelta(t, float64(to.X)*s, w.blank.v.x(now.X), 2.5)
	require.InDelta(t, float64(to.Y)*s, w.blank.v.y(now.Y), 2.5)
	require.NotEqual(t, before.Band.TopEdge[1], w.now().Band.TopEdge[1])
	require.Contains(t, log.String(), "edit field=band.top_edge[1]")
	w.undo()
	require.True(t, app.Equal(before, w.now()))

	// Removed, one by one, until the edge is plain again.
	for len(w.now().Band.TopEdge) > 0 {
		test.Tap(buttonIn(t, form, "\u00d7", 0))
		require.Empty(t, w.problem)
	}
	require.Empty(t, w.blank.marks.handles)
	// On another page the points are not in the way.
	test.Tap(buttonIn(t, form, "Add a point", 1))
	require.Len(t, w.now().Band.BottomEdge, 3)
	require.Len(t, w.blank.marks.handles, 3)
	w.turnTo(patternPage)
	for _, h := range w.blank.marks.handles { // the pattern's own may stand there
		require.NotContains(t, h.name, app.BottomEdge.Path())
	}
}

func TestAFreeProfileIsEditedAndClosed(t *testing.T) {
	w, _ := usual(t)
	w.turnTo(bandPage)
	page := w.controls.pages[bandPage].box
	around := w.scene.sheet.Flat.Inner
	w.pickOption(choiceOf(t, app.Choices(pattern.BandGroup), "band.inside.by"), unroll.ByProfile)
	require.Empty(t, w.problem)
	require.InDelta(t, around, w.scene.sheet.Flat.Inner, 0.05, "it begins as the oval was")
	require.True(t, buttonIn(t, page, "Close it", 0).Off)
	keepPicture(t, "profile", w.win.Canvas().Capture)
	n := len(w.now().Band.Inside.Profile)

	// A radius of its own: it no longer closes, which is said; then it is closed.
	last := w.scene
	typeInto(w, w.controls.rowsOf["band.inside.profile[2].radius_mm"].entry, "40")
	require.NotEmpty(t, w.problem)
	require.Same(t, last, w.scene)
	ed := w.controls.profile
	require.Contains(t, ed.state.Text, "misses its start")
	keepPicture(t, "profile-open", w.win.Canvas().Capture)
	test.Tap(buttonIn(t, page, "Close it", 0))
	require.Empty(t, w.problem)
	require.NotSame(t, last, w.scene)
	require.Contains(t, ed.state.Text, "It closes.")

	// A piece more, and it is an arc.
	test.Tap(buttonIn(t, page, "+", 1))
	require.Len(t, w.now().Band.Inside.Profile, n+1)
	w.pickOption(app.ChoiceOf("band.inside.profile[]", 2), pattern.ArcPiece)
	require.Contains(t, ed.state.Text, "not to 360")
	require.True(t, w.controls.rowsOf["band.inside.profile[2].angle_deg"].box.Visible())
	require.False(t, w.controls.rowsOf["band.inside.profile[2].length_mm"].box.Visible())
	test.Tap(buttonIn(t, page, "Close it", 0))
	require.Empty(t, w.problem)
	test.Tap(buttonIn(t, page, "\u00d7", 2))
	require.Len(t, w.now().Band.Inside.Profile, n)
	w.undo()
	require.Len(t, w.now().Band.Inside.Profile, n+1)
}

func TestAFlaredBandIsGivenByItsTwoEdges(t *testing.T) {
	w, _ := openTest(t, "tide-bangle", fyne.NewSize(1400, 900), "light")
	w.turnTo(bandPage)
	w.pickOption(choiceOf(t, app.Choices(pattern.BandGroup), "band.inside.by"), unroll.ByEdges)
	require.Empty(t, w.problem)
	top := w.controls.rowsOf["band.inside.top_circumference_mm"]
	require.True(t, top.box.Visible())
	require.False(t, w.controls.rowsOf["band.end_width_mm"].box.Visible())
	typeInto(w, top.entry, app.FormatNumber(w.now().Band.Inside.TopMM+14, 2))
	require.Empty(t, w.problem)
	require.True(t, w.scene.sheet.Flat.Flared())
	require.True(t, strings.HasPrefix(top.entry.Text, app.FormatNumber(w.now().Band.Inside.TopMM, 2)))
	w.turnTo(formPage)
	require.False(t, w.controls.edges.box.Visible(), "its edges are circles")
}

func TestTheGapIsGivenByItsShare(t *testing.T) {
	w, _ := usual(t)
	w.turnTo(bandPage)
	gap := w.scene.sheet.Flat.GapInner
	w.pickOption(choiceOf(t, app.Choices(pattern.BandGroup), "band.gap"), "share")
	require.Empty(t, w.problem)
	require.InDelta(t, gap, w.scene.sheet.Flat.GapInner, 0.02)
	var share *numberRow
	for path, r := range w.controls.rowsOf {
		if path == "band.gap_share" {
			share = r
		}
	}
	require.True(t, share.box.Visible())
	require.False(t, w.controls.rowsOf["band.gap_mm"].box.Visible())
}

// TestTheStretchOfADomedBandIsMapped holds the map to the radii: where a round
// band's edges lie h inside its middle, of radius R, what is as long as the
// middle when flat is shorter by h/R when domed.
func TestTheStretchOfADomedBandIsMapped(t *testing.T) {
	d, err := project.GalleryDesign("tide-bangle")
	require.NoError(t, err)
	b := &d.Band
	b.Inside = unroll.Inside{By: unroll.ByCircumference, CircumferenceMM: 195, Ratio: 1}
	b.EndWidthMM, b.SwellLengthMM, b.TopEdge, b.BottomEdge = b.WidthMM, 0, nil, nil
	w, _ := openOn(t, app.NewDocument(d), fyne.NewSize(1400, 900), "light")
	w.win.Canvas().Capture()
	require.Empty(t, w.blank.painter.stretch.cells, "a band that unrolls truly has no stretch")
	b.Dome, b.DomeRiseMM, b.DomeFlat = unroll.Outward, 1, unroll.ArcLength
	w, _ = openOn(t, app.NewDocument(d), fyne.NewSize(1400, 900), "light")
	plain := w.win.Canvas().Capture()
	keepPicture(t, "stretch", func() image.Image { return plain })
	m := w.blank.painter.stretch
	h := unroll.DomeRise(b.WidthMM, unroll.DomeRadius(b.WidthMM, 1))
	want := -h / (195/(2*math.Pi) + b.Thickness.MM*b.NeutralK)
	low := float64(m.levels[0]) * m.step
	// The middle of the outermost cell; over so flat an arc it goes as the square.
	want *= math.Pow(1-1.0/stretchRows, 2)
	require.True(t, low <= want && want < low+m.step, "%g in %g", want, low)
	require.Equal(t, -1, m.levels[1], "nothing is longer")
	w.typed(&fyne.KeyEvent{Name: fyne.KeyS})
	require.NotEqual(t, plain, w.win.Canvas().Capture())
	w.typed(&fyne.KeyEvent{Name: fyne.KeyS})
	require.Equal(t, plain, w.win.Canvas().Capture())
}

func TestASizeIsTypedAndAnUnclearOneIsAskedAbout(t *testing.T) {
	w, _ := usual(t)
	w.turnTo(bandPage)
	w.pickOption(choiceOf(t, app.Choices(pattern.BandGroup), "band.kind"), unroll.Ring)
	w.pickOption(choiceOf(t, app.Choices(pattern.BandGroup), "band.inside.by"), unroll.BySize)
	w.pickOption(choiceOf(t, app.Choices(pattern.BandGroup), "band.inside.scale"), "us")
	var size *textRow
	for _, r := range w.controls.pages[bandPage].rows {
		if x, ok := r.(*textRow); ok {
			size = x
		}
	}
	require.True(t, size.box.Visible())
	typeInto(w, size.entry, "7 1/4")
	require.Equal(t, "7 1/4", w.now().Band.Inside.Size)
	require.Empty(t, w.problem)
	// Inner diameter 0.458 + 0.032 x 7.25 inch.
	require.InDelta(t, math.Pi*25.4*(0.458+0.032*7.25), w.scene.sheet.Flat.Inner, 1e-6)
	typeInto(w, size.entry, "17.5")
	require.Contains(t, w.controls.problem.Text, "inner diameter in mm?")
	require.Equal(t, "7 1/4", w.now().Band.Inside.Size)
	typeInto(w, size.entry, "N")
	require.Contains(t, w.controls.problem.Text, "which scale is meant?")
	size.entry.TypedKey(&fyne.KeyEvent{Name: fyne.KeyEscape})
	require.Empty(t, w.controls.problem.Text)
	require.Equal(t, "7 1/4", size.entry.Text)
}

func TestBandsOfEveryFormAreShownWhole(t *testing.T) {
	files, err := filepath.Glob(filepath.Join("..", "..", "testdata", "forms", "*.json"))
	require.NoError(t, err)
	require.NotEmpty(t, files)
	for i, f := range files {
		d, err := project.ReadFile(f)
		require.NoError(t, err, f)
		size, dress := fyne.NewSize(1400, 900), "light"
		if i%2 == 1 {
			size, dress = fyne.NewSize(1100, 700), "dark"
		}
		w, log := openOn(t, app.NewDocument(d), size, dress)
		require.Empty(t, w.problem, f)
		require.Contains(t, log.String(), "bent triangles=", f)
		w.turnTo(formPage)
		keepPicture(t, "form-"+filepath.Base(f), w.win.Canvas().Capture)
		v, b := w.blank.v, w.scene.sheet.Flat.Outline.Bounds()
		require.True(t, v.frame.inBlank(v.x(b.Min.X), v.y(b.Min.Y)) && v.frame.inBlank(v.x(b.Max.X), v.y(b.Max.Y)), f)
		for path, r := range w.controls.rowsOf {
			if w.controls.shows(r) && (r.n.Shown == nil || r.n.Shown(d)) {
				require.Equal(t, r.n.Text(d), r.entry.Text, "%s %s", f, path)
			}
		}
	}
}
