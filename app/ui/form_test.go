package ui

import (
	"image"
	"math"
	"path/filepath"
	"strings"
	"testing"

	"fretband/app"
	"fretband/app/ui/kit"
	"fretband/app/ui/pages"
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
	w.showTab(app.FormPage)
	form := w.controls.Pages[app.FormPage].Box
	require.Empty(t, w.blank.Overlay.Handles)
	test.Tap(buttonIn(t, form, "Add a point", 0))
	require.Empty(t, w.ed.Problem)
	require.Len(t, w.ed.Now().Band.TopEdge, 3)
	require.Len(t, w.blank.Overlay.Handles, 3)
	keepPicture(t, "edges", w.win.Canvas().Capture)

	// Typed.
	typeInto(w, w.controls.RowsOf["band.top_edge[1].out_mm"].Entry, "2.5")
	require.Equal(t, 2.5, w.ed.Now().Band.TopEdge[1].OutMM)
	typeInto(w, w.controls.RowsOf["band.top_edge[1].out_mm"].Entry, "99")
	require.Contains(t, w.controls.Problem.Text, "Top edge, point 2, out")
	w.escape()
	w.escape()

	// Dragged: the point follows the hand, and all of it is one step.
	before := w.ed.Now()
	h := w.blank.Overlay.Handles[1]
	from := placeOn(w, h.At)
	w.blank.MouseMoved(&desktop.MouseEvent{PointEvent: fyne.PointEvent{Position: from}})
	require.Equal(t, 1, w.blank.Overlay.OverHandle)
	w.blank.MouseDown(&desktop.MouseEvent{PointEvent: fyne.PointEvent{Position: from}, Button: desktop.MouseButtonPrimary})
	to := from
	for range 10 {
		to = to.AddXY(2, -1)
		w.blank.Dragged(&fyne.DragEvent{PointEvent: fyne.PointEvent{Position: to}, Dragged: fyne.NewDelta(2, -1)})
	}
	w.blank.MouseUp(&desktop.MouseEvent{Button: desktop.MouseButtonPrimary})
	require.Empty(t, w.ed.Problem)
	now := w.blank.Overlay.Handles[1].At
	require.InDelta(t, to.X, placeOn(w, now).X, 2.5)
	require.InDelta(t, to.Y, placeOn(w, now).Y, 2.5)
	require.NotEqual(t, before.Band.TopEdge[1], w.ed.Now().Band.TopEdge[1])
	require.Contains(t, log.String(), "edit field=band.top_edge[1]")
	w.undo()
	require.True(t, app.Equal(before, w.ed.Now()))

	// Removed, one by one, until the edge is plain again.
	for len(w.ed.Now().Band.TopEdge) > 0 {
		test.Tap(buttonIn(t, form, "\u00d7", 0))
		require.Empty(t, w.ed.Problem)
	}
	require.Empty(t, w.blank.Overlay.Handles)
	// On another page the points are not in the way.
	test.Tap(buttonIn(t, form, "Add a point", 1))
	require.Len(t, w.ed.Now().Band.BottomEdge, 3)
	require.Len(t, w.blank.Overlay.Handles, 3)
	w.showTab(app.PatternPage)
	for _, h := range w.blank.Overlay.Handles { // the pattern's own may be there
		require.NotContains(t, h.Name, app.BottomEdge.Path())
	}
}

func TestAFreeProfileIsEditedAndClosed(t *testing.T) {
	w, _ := usual(t)
	w.showTab(app.BandPage)
	page := w.controls.Pages[app.BandPage].Box
	around := w.ed.Scene.Sheet.Flat.Inner
	w.ed.Choose(choiceOf(t, app.Choices(pattern.BandGroup), "band.inside.by"), unroll.ByProfile)
	require.Empty(t, w.ed.Problem)
	require.InDelta(t, around, w.ed.Scene.Sheet.Flat.Inner, 0.05, "it begins as the oval was")
	require.True(t, buttonIn(t, page, "Close it", 0).Off)
	keepPicture(t, "profile", w.win.Canvas().Capture)
	n := len(w.ed.Now().Band.Inside.Profile)

	// A radius of its own: it no longer closes, which is said; then it is closed.
	last := w.ed.Scene
	typeInto(w, w.controls.RowsOf["band.inside.profile[2].radius_mm"].Entry, "40")
	require.NotEmpty(t, w.ed.Problem)
	require.Same(t, last, w.ed.Scene)
	ed := w.controls.Profile
	require.Contains(t, ed.State.Text, "misses its start")
	keepPicture(t, "profile-open", w.win.Canvas().Capture)
	test.Tap(buttonIn(t, page, "Close it", 0))
	require.Empty(t, w.ed.Problem)
	require.NotSame(t, last, w.ed.Scene)
	require.Contains(t, ed.State.Text, "It closes.")

	// A piece more, and it is an arc.
	test.Tap(buttonIn(t, page, "+", 1))
	require.Len(t, w.ed.Now().Band.Inside.Profile, n+1)
	w.ed.Choose(app.ChoiceOf("band.inside.profile[]", 2), "arc")
	require.Contains(t, ed.State.Text, "not to 360")
	require.True(t, w.controls.RowsOf["band.inside.profile[2].angle_deg"].Box.Visible())
	require.False(t, w.controls.RowsOf["band.inside.profile[2].length_mm"].Box.Visible())
	test.Tap(buttonIn(t, page, "Close it", 0))
	require.Empty(t, w.ed.Problem)
	test.Tap(buttonIn(t, page, "\u00d7", 2))
	require.Len(t, w.ed.Now().Band.Inside.Profile, n)
	w.undo()
	require.Len(t, w.ed.Now().Band.Inside.Profile, n+1)
}

func TestAFlaredBandIsGivenByItsTwoEdges(t *testing.T) {
	w, _ := openTest(t, "tide-bangle", fyne.NewSize(1400, 900), "light")
	w.showTab(app.BandPage)
	w.ed.Choose(choiceOf(t, app.Choices(pattern.BandGroup), "band.inside.by"), unroll.ByEdges)
	require.Empty(t, w.ed.Problem)
	top := w.controls.RowsOf["band.inside.top_circumference_mm"]
	require.True(t, top.Box.Visible())
	require.False(t, w.controls.RowsOf["band.end_width_mm"].Box.Visible())
	typeInto(w, top.Entry, app.FormatNumber(w.ed.Now().Band.Inside.TopMM+14, 2))
	require.Empty(t, w.ed.Problem)
	require.True(t, w.ed.Scene.Sheet.Flat.Flared())
	require.True(t, strings.HasPrefix(top.Entry.Text, app.FormatNumber(w.ed.Now().Band.Inside.TopMM, 2)))
	w.showTab(app.FormPage)
	require.False(t, w.controls.Edges.Box.Visible(), "its edges are circles")
}

func TestTheGapIsGivenByItsShare(t *testing.T) {
	w, _ := usual(t)
	w.showTab(app.BandPage)
	gap := w.ed.Scene.Sheet.Flat.GapInner
	w.ed.Choose(choiceOf(t, app.Choices(pattern.BandGroup), "band.gap"), "share")
	require.Empty(t, w.ed.Problem)
	require.InDelta(t, gap, w.ed.Scene.Sheet.Flat.GapInner, 0.02)
	var share *pages.NumberRow
	for path, r := range w.controls.RowsOf {
		if path == "band.gap_share" {
			share = r
		}
	}
	require.True(t, share.Box.Visible())
	require.False(t, w.controls.RowsOf["band.gap_mm"].Box.Visible())
}

func TestTheStretchOfADomedBandIsShownAndHidden(t *testing.T) {
	d, err := project.GalleryDesign("tide-bangle")
	require.NoError(t, err)
	b := &d.Band
	b.Inside = unroll.Inside{By: unroll.ByCircumference, CircumferenceMM: 195, Ratio: 1}
	b.EndWidthMM, b.SwellLengthMM, b.TopEdge, b.BottomEdge = b.WidthMM, 0, nil, nil
	b.Dome, b.DomeRiseMM, b.DomeFlat = unroll.Outward, 1, unroll.ArcLength
	w, _ := openOn(t, app.NewDocument(d), fyne.NewSize(1400, 900), "light")
	plain := w.win.Canvas().Capture()
	keepPicture(t, "stretch", func() image.Image { return plain })
	w.typed(&fyne.KeyEvent{Name: fyne.KeyS})
	require.NotEqual(t, plain, w.win.Canvas().Capture())
	w.typed(&fyne.KeyEvent{Name: fyne.KeyS})
	require.Equal(t, plain, w.win.Canvas().Capture())
}

func TestASizeIsTypedAndAnUnclearOneIsAskedAbout(t *testing.T) {
	w, _ := usual(t)
	w.showTab(app.BandPage)
	w.ed.Choose(choiceOf(t, app.Choices(pattern.BandGroup), "band.kind"), unroll.Ring)
	w.ed.Choose(choiceOf(t, app.Choices(pattern.BandGroup), "band.inside.by"), unroll.BySize)
	w.ed.Choose(choiceOf(t, app.Choices(pattern.BandGroup), "band.inside.scale"), "us")
	var size *pages.TextRow
	for _, r := range w.controls.Pages[app.BandPage].Rows {
		if x, ok := r.(*pages.TextRow); ok {
			size = x
		}
	}
	require.True(t, size.Box.Visible())
	typeInto(w, size.Entry, "7 1/4")
	require.Equal(t, "7 1/4", w.ed.Now().Band.Inside.Size)
	require.Empty(t, w.ed.Problem)
	// Inner diameter 0.458 + 0.032 x 7.25 inch.
	require.InDelta(t, math.Pi*25.4*(0.458+0.032*7.25), w.ed.Scene.Sheet.Flat.Inner, 1e-6)
	typeInto(w, size.Entry, "17.5")
	require.Contains(t, w.controls.Problem.Text, "inner diameter in mm?")
	require.Equal(t, "7 1/4", w.ed.Now().Band.Inside.Size)
	typeInto(w, size.Entry, "N")
	require.Contains(t, w.controls.Problem.Text, "which scale is meant?")
	size.Entry.TypedKey(&fyne.KeyEvent{Name: fyne.KeyEscape})
	require.Empty(t, w.controls.Problem.Text)
	require.Equal(t, "7 1/4", size.Entry.Text)
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
		require.Empty(t, w.ed.Problem, f)
		require.Contains(t, log.String(), "bent triangles=", f)
		w.showTab(app.FormPage)
		keepPicture(t, "form-"+filepath.Base(f), w.win.Canvas().Capture)
		b, in := w.ed.Scene.Sheet.Flat.Outline.Bounds(), w.blank.Size()
		for _, p := range []fyne.Position{placeOn(w, b.Min), placeOn(w, b.Max)} {
			require.True(t, p.X > 0 && p.Y > 0 && p.X < in.Width && p.Y < in.Height, f)
		}
		for path, r := range w.controls.RowsOf {
			if w.controls.Shows(r) && (r.Number.Shown == nil || r.Number.Shown(d)) {
				require.Equal(t, r.Number.Text(d), r.Entry.Text, "%s %s", f, path)
			}
		}
	}
}
