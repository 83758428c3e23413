package ui

import (
	"math"
	"testing"

	"fretband/app"
	"fretband/app/ui/kit"
	"fretband/pattern"
	"fretband/unroll"
	"fretband/unroll/plane"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/test"
	"github.com/stretchr/testify/require"
)

// plainCuff is a window on a cuff without a pattern, with the pen in the hand.
func plainCuff(t *testing.T) *Window {
	t.Helper()
	d := pattern.Begin(unroll.Cuff)
	d.Fields = nil
	w, _ := openOn(t, app.NewDocument(d), fyne.NewSize(1400, 900), "light")
	w.win.Canvas().Capture()
	w.ed.TakeTool(app.PenTool)
	return w
}

func hover(w *Window, p plane.Point) {
	w.blank.MouseMoved(&desktop.MouseEvent{PointEvent: fyne.PointEvent{Position: placeOn(w, p)}})
}

func penAt(w *Window, ps ...plane.Point) {
	for _, p := range ps {
		hover(w, p)
		clickOn(w, placeOn(w, p), 0)
	}
}

func TestAnOpeningIsDrawnByItsPointsAndArcs(t *testing.T) {
	w := plainCuff(t)
	penAt(w, plane.Pt(20, -4), plane.Pt(30, -4))
	// The line to the third point is pulled into an arc.
	dragOn(w, placeOn(w, plane.Pt(30, 4)), placeOn(w, plane.Pt(34, 0)), 0)
	penAt(w, plane.Pt(20, 4))
	hover(w, plane.Pt(20.1, -3.9))
	require.Contains(t, w.blank.Overlay.Beside, "closes")
	keepPicture(t, "pen-open", w.win.Canvas().Capture)
	penAt(w, plane.Pt(20.1, -3.9))
	require.Len(t, w.ed.Now().Edits, 1)
	require.Empty(t, w.ed.Tool)
	require.Len(t, w.ed.Scene.Sheet.Openings, 1)
	r, corner := 4.0, w.ed.Now().Rules.CornerMM
	want := 10*8 + math.Pi*r*r/2
	require.InDelta(t, want, w.ed.Scene.Sheet.Openings[0].Loop.Area(), 4*corner*corner+0.05)
	b := w.ed.Scene.Sheet.Openings[0].Box
	require.InDelta(t, 20, b.Min.X, 0.01)
	require.InDelta(t, 34, b.Max.X, 0.02)
	require.Contains(t, part[*kit.Passage](t, w, "hand:text").Text, "The rules take", "its corners")
	// A point is dragged, an edge bent and a point taken away again; each is one step.
	was := w.ed.Now()
	h := handleNamed(t, w, "point:0")
	dragOn(w, placeOn(w, h), placeOn(w, h.Add(plane.Pt(-4, 0))), 0)
	area := w.ed.Scene.Sheet.Openings[0].Loop.Area()
	require.InDelta(t, want+4*8/2, area, 1)
	w.undo()
	require.True(t, app.Equal(was, w.ed.Now()))
	w.ed.PickEdit(0)
	h = handleNamed(t, w, "bend:0")
	dragOn(w, placeOn(w, h), placeOn(w, h.Add(plane.Pt(0, -3))), 0)
	require.Greater(t, w.ed.Scene.Sheet.Openings[0].Loop.Area(), want+15)
	keepPicture(t, "pen-bent", w.win.Canvas().Capture)
	n := len(w.blank.Overlay.Handles)
	h = handleNamed(t, w, "bend:2")
	dragOn(w, placeOn(w, h), placeOn(w, h.Add(plane.Pt(0, 3))), fyne.KeyModifierShift)
	require.Len(t, w.blank.Overlay.Handles, n+2, "with Shift there is one point more")
	// What crosses itself changes nothing and says why.
	was = w.ed.Now()
	h = handleNamed(t, w, "point:0")
	press(w, placeOn(w, h), 0)
	w.blank.Dragged(&fyne.DragEvent{PointEvent: fyne.PointEvent{Position: placeOn(w, plane.Pt(60, 2))}})
	require.True(t, app.Equal(was, w.ed.Now()))
	require.NotEmpty(t, w.blank.Overlay.Beside)
	w.escape()
	release(w, placeOn(w, h))
}

func TestADrawingIsGivenUpTakenBackAndMirrored(t *testing.T) {
	w := plainCuff(t)
	penAt(w, plane.Pt(20, 0), plane.Pt(26, 0), plane.Pt(26, 5))
	w.blank.TypedKey(&fyne.KeyEvent{Name: fyne.KeyBackspace})
	penAt(w, plane.Pt(23, 6))
	w.escape()
	require.Equal(t, app.PenTool, w.ed.Tool, "first the drawing is given up, then the pen")
	require.Empty(t, w.ed.Now().Edits)
	w.escape()
	require.Empty(t, w.ed.Tool)
	w.ed.TakeTool(app.PenTool)
	mirror := w.ed.HandMirror()
	d := w.ed.Now()
	mirror.Set(&d, pattern.MirrorBoth)
	penAt(w, plane.Pt(20, 2), plane.Pt(26, 2), plane.Pt(23, 7))
	hover(w, plane.Pt(20, 6))
	require.Len(t, w.blank.Overlay.Hand.Draft(), 4, "seen four times")
	w.blank.TypedKey(&fyne.KeyEvent{Name: fyne.KeyReturn})
	require.Len(t, w.ed.Scene.Sheet.Openings, 4)
	// A point of one is moved: so are those of its mirror images.
	h := handleNamed(t, w, "point:0")
	dragOn(w, placeOn(w, h), placeOn(w, h.Add(plane.Pt(-3, 0))), 0)
	areas := map[int]bool{}
	for _, o := range w.ed.Scene.Sheet.Openings {
		areas[int(math.Round(o.Loop.Area()*1000))] = true
	}
	require.Len(t, areas, 1)
}

func TestTheRulesTakeLiveFromWhatIsDrawnOverTheRim(t *testing.T) {
	w := plainCuff(t)
	top := w.ed.Scene.Sheet.Ground.Bounds().Max.Y
	penAt(w, plane.Pt(3, 5), plane.Pt(9, 5), plane.Pt(9, top+2))
	hover(w, plane.Pt(3, top+2))
	require.Contains(t, w.blank.Overlay.Beside, "the rules take")
	keepPicture(t, "pen-over-the-rim", w.win.Canvas().Capture)
}

func TestAnyOpeningBecomesADrawingAndAMotif(t *testing.T) {
	w, _ := usual(t)
	i := central(w)
	o := w.ed.Scene.Sheet.Openings[i]
	clickOn(w, at(w, i), 0)
	w.showTab(app.HandPage)
	n := len(w.ed.Scene.Sheet.Openings)
	test.Tap(part[*kit.Button](t, w, "hand:Draw-on"))
	require.Len(t, w.ed.Scene.Sheet.Openings, n)
	found := false
	for _, q := range w.ed.Scene.Sheet.Openings {
		found = found || q.Field < 0 && math.Abs(q.Loop.Area()-o.Loop.Area()) < 0.01 && q.Loop.Centroid().Dist(o.Loop.Centroid()) < 0.01
	}
	require.True(t, found, "the same outline, drawn")
	handleNamed(t, w, "point:0")
	w.undo()
	require.Empty(t, w.ed.Now().Edits)
	clickOn(w, at(w, i), 0)
	test.Tap(part[*kit.Button](t, w, "hand:As-a-motif"))
	require.Equal(t, "own", w.ed.Now().Fields[0].Motif)
	require.NotEmpty(t, w.ed.Scene.Sheet.Openings)
	require.Empty(t, w.ed.Problem)
}

// Two clicks draw a tie as a drag does; in between it follows the hand, and Esc forgets it.
func TestATieIsDrawnByTwoClicks(t *testing.T) {
	w, _ := usual(t)
	o := w.ed.Scene.Sheet.Openings[central(w)].Box
	from, to := plane.Pt(o.Centre().X-0.3, o.Max.Y+0.8), plane.Pt(o.Centre().X+0.3, o.Min.Y-0.8)
	dragged := func() pattern.Design {
		w.ed.TakeTool(app.TieTool)
		dragOn(w, placeOn(w, from), placeOn(w, to), 0)
		d := w.ed.Now()
		w.undo()
		return d
	}()
	require.Len(t, dragged.Edits, 1)
	w.ed.TakeTool(app.TieTool)
	penAt(w, from)
	require.Empty(t, w.ed.Now().Edits)
	hover(w, o.Centre())
	w.escape()
	require.Equal(t, app.TieTool, w.ed.Tool)
	hover(w, to)
	require.Empty(t, w.blank.Overlay.Beside, "it has been forgotten")
	penAt(w, from)
	hover(w, to)
	require.Contains(t, w.blank.Overlay.Beside, "tie ")
	penAt(w, to)
	require.Len(t, w.ed.Now().Edits, 1)
	require.Equal(t, pattern.Tie, w.ed.Now().Edits[0].Do)
	require.InDelta(t, dragged.Edits[0].SpanYMM, w.ed.Now().Edits[0].SpanYMM, 0.2)
}
