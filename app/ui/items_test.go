package ui

import (
	"testing"

	"fretband/app"
	"fretband/app/ui/kit"
	"fretband/app/ui/pages"
	"fretband/pattern"
	"fretband/unroll"
	"fretband/unroll/plane"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
	"github.com/stretchr/testify/require"
)

// seats is a cuff with a row of five stone seats, an oval and three marks.
func seats(t *testing.T, dress string) *Window {
	d := pattern.Begin(unroll.Cuff)
	d.Reserves = []pattern.Reserve{
		{Shape: pattern.CircleShape, WidthMM: 4, Count: 5, SpacingMM: 9, MarginMM: 1, Note: "stone seat"},
		{Shape: pattern.OvalShape, XMM: 50, WidthMM: 18, HeightMM: 8, RotationDeg: 10, MarginMM: 1, Note: "signature"},
	}
	d.Engravings = []pattern.Engraving{
		{Kind: pattern.TextEngraving, XMM: 50, Text: "Gull 925", HeightMM: 2.2, RotationDeg: 10},
		{Kind: pattern.LineEngraving, XMM: -45, YMM: 6, LengthMM: 20, MarginMM: -1},
		{Kind: pattern.PathEngraving, XMM: -45, YMM: -3, Path: "M-8 0C-4 -4 4 4 8 0", MarginMM: 0.5},
	}
	w, _ := openOn(t, app.NewDocument(d), fyne.NewSize(1400, 900), dress)
	require.Empty(t, w.ed.Problem)
	w.win.Canvas().Capture()
	return w
}

// dragFrom drags from a place by so many mm, in steps, and returns what stood beside
// the hand.
func dragFrom(w *Window, from plane.Point, dx, dy float64) string {
	at := placeOn(w, from)
	w.blank.MouseMoved(&desktop.MouseEvent{PointEvent: fyne.PointEvent{Position: at}})
	w.blank.MouseDown(&desktop.MouseEvent{PointEvent: fyne.PointEvent{Position: at}, Button: desktop.MouseButtonPrimary})
	told := ""
	for i := range 6 {
		k := float64(i+1) / 6
		w.blank.Dragged(&fyne.DragEvent{PointEvent: fyne.PointEvent{Position: placeOn(w, from.Add(plane.Pt(dx*k, dy*k)))}})
		told = w.blank.Overlay.Beside
	}
	w.blank.DragEnd()
	w.blank.MouseUp(&desktop.MouseEvent{Button: desktop.MouseButtonPrimary})
	return told
}

func click(w *Window, at plane.Point) {
	p := fyne.PointEvent{Position: placeOn(w, at)}
	w.blank.MouseDown(&desktop.MouseEvent{PointEvent: p, Button: desktop.MouseButtonPrimary})
	w.blank.MouseUp(&desktop.MouseEvent{PointEvent: p, Button: desktop.MouseButtonPrimary})
}

func handleNamed(t *testing.T, w *Window, name string) plane.Point {
	t.Helper()
	for _, h := range w.blank.Overlay.Handles {
		if h.Name == name {
			return h.At
		}
	}
	t.Fatalf("no handle %s among %d", name, len(w.blank.Overlay.Handles))
	return plane.Point{}
}

func TestAReserveOfARowIsPickedMovedAndSizedByHand(t *testing.T) {
	w := seats(t, "light")
	click(w, plane.Pt(18, 0)) // the last of the five
	require.Equal(t, app.Item{Index: 0}, w.ed.Item)
	require.Equal(t, 0, w.controls.Reserves.Selected())
	told := dragFrom(w, plane.Pt(18, 0), -6, 2)
	require.InDelta(t, -6, w.ed.Now().Reserves[0].XMM, 0.05)
	require.InDelta(t, 2, w.ed.Now().Reserves[0].YMM, 0.05)
	require.Regexp(t, `x -6\.0\d  y (1\.9\d|2\.0\d) mm|x -5\.9\d  y (1\.9\d|2\.0\d) mm`, told)
	require.Empty(t, w.blank.Overlay.Beside, "the numbers go when the hand lets go")

	told = dragFrom(w, handleNamed(t, w, "reserves[0].size"), 1, 0)
	require.InDelta(t, 6, w.ed.Now().Reserves[0].WidthMM, 0.11)
	require.Contains(t, told, "\u2300 6")
	w.undo()
	require.Equal(t, 4.0, w.ed.Now().Reserves[0].WidthMM, "a drag is one step")

	w.ed.Select(app.Item{Index: 1})
	was := w.ed.Now().Reserves[1]
	corner := handleNamed(t, w, "reserves[1].size")
	out := plane.Pt(2, 1).Turn(was.RotationDeg * 3.14159265 / 180)
	told = dragFrom(w, corner, out.X, out.Y)
	require.InDelta(t, was.WidthMM+4, w.ed.Now().Reserves[1].WidthMM, 0.11)
	require.InDelta(t, was.HeightMM+2, w.ed.Now().Reserves[1].HeightMM, 0.11)
	require.Contains(t, told, "22.0 x 10.0 mm  10\u00b0")
	told = dragFrom(w, handleNamed(t, w, "reserves[1].turn"), 0, 8)
	require.Greater(t, w.ed.Now().Reserves[1].RotationDeg, 20.0)
	require.Contains(t, told, "\u00b0")
	keepPicture(t, "items-oval", w.win.Canvas().Capture)
}

func TestMarksArePickedMovedSizedAndTurnedByHand(t *testing.T) {
	w := seats(t, "dark")
	require.Equal(t, app.Item{Kind: app.EngravingItem, Index: 0}, w.ed.Scene.ItemAt(plane.Pt(50, 0), 0.3), "a text is taken anywhere in its box, over a reserve")
	require.Equal(t, app.Item{Kind: app.EngravingItem, Index: 1}, w.ed.Scene.ItemAt(plane.Pt(-50, 6.2), 0.3))
	require.Equal(t, app.NoItem, w.ed.Scene.ItemAt(plane.Pt(-50, 6.4), 0.3))
	w.blank.MouseMoved(&desktop.MouseEvent{PointEvent: fyne.PointEvent{Position: placeOn(w, plane.Pt(50, 0))}})
	require.Equal(t, "mark 1  \u201cGull 925\u201d 2.2 mm", w.status.over.Text)
	w.blank.MouseMoved(&desktop.MouseEvent{PointEvent: fyne.PointEvent{Position: placeOn(w, plane.Pt(0, 0))}})
	require.Equal(t, "reserve 1  stone seat, 5 in a row, circle 4 mm", w.status.over.Text)
	w.blank.MouseOut()
	require.Empty(t, w.status.over.Text)
	click(w, plane.Pt(-48, 6))
	require.Equal(t, app.Item{Kind: app.EngravingItem, Index: 1}, w.ed.Item)
	require.Equal(t, 1, w.controls.Engraving.Selected())
	require.Equal(t, -1, w.controls.Reserves.Selected())
	require.Empty(t, w.ed.Picked, "a mark lies over the openings under it")

	dragFrom(w, handleNamed(t, w, "marks[1].end"), 0, 4)
	m := w.ed.Now().Engravings[1]
	require.InDelta(t, 22, m.RotationDeg, 1)
	require.InDelta(t, 2*10.77, m.LengthMM, 0.2) // the root of 10^2 + 4^2

	dragFrom(w, plane.Pt(50, 0), -4, 1)
	require.InDelta(t, 46, w.ed.Now().Engravings[0].XMM, 0.05)
	require.Equal(t, 50.0, w.ed.Now().Reserves[1].XMM, "the reserve under it stays")
	high := w.ed.Now().Engravings[0].HeightMM
	c := plane.Pt(w.ed.Now().Engravings[0].XMM, w.ed.Now().Engravings[0].YMM)
	corner := handleNamed(t, w, "marks[0].size")
	far := corner.Sub(c)
	dragFrom(w, corner, far.X/2, far.Y/2)
	require.InDelta(t, 1.5*high, w.ed.Now().Engravings[0].HeightMM, 0.11)
	keepPicture(t, "items-text", w.win.Canvas().Capture)

	w.ed.Select(app.Item{Kind: app.EngravingItem, Index: 2})
	require.Len(t, w.blank.Overlay.Handles, 1, "drawn lines can be turned; their size is that of the drawing")
	dragFrom(w, handleNamed(t, w, "marks[2].turn"), 0, 5)
	require.Greater(t, w.ed.Now().Engravings[2].RotationDeg, 5.0)
}

func TestArrowKeysMoveWhatIsSelectedAndDeleteRemovesIt(t *testing.T) {
	w := seats(t, "light")
	k := w.blank.PointAt(fyne.Position{})
	w.ed.Select(app.Item{Kind: app.EngravingItem, Index: 2})
	for range 3 {
		w.blank.TypedKey(&fyne.KeyEvent{Name: fyne.KeyRight})
	}
	w.blank.TypedKey(&fyne.KeyEvent{Name: fyne.KeyDown})
	require.InDelta(t, -44.7, w.ed.Now().Engravings[2].XMM, 1e-9)
	require.InDelta(t, -3.1, w.ed.Now().Engravings[2].YMM, 1e-9)
	require.Equal(t, k, w.blank.PointAt(fyne.Position{}), "the drawing stays")
	w.typed(&fyne.KeyEvent{Name: fyne.KeyDelete})
	require.Len(t, w.ed.Now().Engravings, 2)
	require.Equal(t, app.NoItem, w.ed.Item)
	w.blank.TypedKey(&fyne.KeyEvent{Name: fyne.KeyRight})
	require.NotEqual(t, k, w.blank.PointAt(fyne.Position{}), "with nothing selected they move the drawing")
	w.undo()
	require.Len(t, w.ed.Now().Engravings, 3)
	w.ed.Select(app.Item{Index: 1})
	w.escape()
	require.Equal(t, app.NoItem, w.ed.Item)
	require.Equal(t, -1, w.controls.Reserves.Selected())
}

func TestThePageEditsAllOfReservesAndMarks(t *testing.T) {
	w := seats(t, "light")
	entry := func(path, v string) {
		t.Helper()
		r := w.controls.RowsOf[path]
		require.NotNil(t, r, path)
		typeInto(w, r.Entry, v)
		w.win.Canvas().Unfocus()
		require.Empty(t, w.ed.Problem, path)
	}
	w.ed.Select(app.Item{Index: 1})
	entry("reserves[1].turn_deg", "-30")
	entry("reserves[1].height_mm", "6")
	require.NotContains(t, w.controls.RowsOf, "reserves[0].x_mm", "only what is selected has rows")
	entry("reserves[1].count", "3")
	require.Equal(t, 3, w.ed.Now().Reserves[1].Count)
	require.Greater(t, w.ed.Now().Reserves[1].SpacingMM, w.ed.Now().Reserves[1].WidthMM, "so that a row is seen as one")
	require.Len(t, w.ed.Scene.Sheet.Reserves, 5+3)
	entry("reserves[1].spacing_mm", "0")
	entry("reserves[1].count", "1")
	require.Zero(t, w.ed.Now().Reserves[1].Count)
	require.Len(t, w.ed.Scene.Sheet.Reserves, 5+1)

	for _, shape := range []string{pattern.RectangleShape, pattern.CircleShape, pattern.OvalShape} {
		w.ed.Choose(app.ChoiceOf("reserves[].shape", 1), shape)
		require.Empty(t, w.ed.Problem)
		require.Equal(t, shape, w.ed.Scene.Sheet.Design.Reserves[1].Shape)
	}
	w.ed.Choose(app.OwnReserve(1, "M-4 -3L4 -3L0 5Z", plane.Box{Min: plane.Pt(-4, -5), Max: plane.Pt(4, 3)}), pattern.PathShape)
	require.Empty(t, w.ed.Problem)
	require.Equal(t, 8.0, w.ed.Now().Reserves[1].HeightMM)
	keepPicture(t, "items-page", w.win.Canvas().Capture)
	w.ed.Choose(app.ChoiceOf("reserves[].shape", 1), pattern.CircleShape)
	require.Empty(t, w.ed.Problem, "no path is left behind")

	w.ed.CopyItem(app.Item{Index: 0})
	require.Len(t, w.ed.Now().Reserves, 3)
	require.Equal(t, app.Item{Index: 2}, w.ed.Item)

	for i, kind := range []string{pattern.LineEngraving, pattern.PathEngraving, pattern.TextEngraving} {
		w.ed.AddItem(app.EngravingItem, kind)
		require.Empty(t, w.ed.Problem)
		require.Equal(t, kind, w.ed.Now().Engravings[3+i].Kind)
		require.Equal(t, app.Item{Kind: app.EngravingItem, Index: 3 + i}, w.ed.Item)
	}
	entry("marks[5].height_mm", "1.8")
	w.ed.Choose(app.ChoiceOf("marks[].text", 5), "Mare")
	w.ed.Choose(app.ChoiceOf("marks[].keep_mm:by", 5), "through")
	require.Less(t, w.ed.Now().Engravings[5].MarginMM, 0.0)
	require.False(t, w.controls.RowsOf["marks[5].keep_mm"].Box.Visible())
	w.ed.Choose(app.ChoiceOf("marks[].keep_mm:by", 5), "away")
	require.True(t, w.controls.RowsOf["marks[5].keep_mm"].Box.Visible())
	w.ed.Choose(app.ChoiceOf("marks[].text", 5), "\u91d1")
	require.Contains(t, w.ed.Problem, "Text: the lettering has no outline for")
	w.undo()
	require.Empty(t, w.ed.Problem)
	w.ed.CopyItem(app.Item{Kind: app.EngravingItem, Index: 5})
	require.Equal(t, w.ed.Now().Engravings[5].Text, w.ed.Now().Engravings[6].Text)
	keepPicture(t, "items-marks", w.win.Canvas().Capture)
}

func TestLinesArePastedAndRefusedInWords(t *testing.T) {
	w := seats(t, "light")
	pages.Shapes{Desk: w.desk}.OfItem(app.Item{Kind: app.EngravingItem, Index: 2})
	q := w.kit.Dialogs.Top()
	e := q.Fields[0].Object.(*kit.Entry)
	e.SetText("M0 0 L")
	w.kit.Dialogs.Enter()
	require.NotNil(t, w.kit.Dialogs.Top(), "what can't be used is not taken")
	e.SetText("M-9 0L9 0M0 -4L0 4")
	keepPicture(t, "items-lines", w.win.Canvas().Capture)
	w.kit.Dialogs.Enter()
	require.Nil(t, w.kit.Dialogs.Top())
	require.Equal(t, "M-9 0L9 0M0 -4L0 4", w.ed.Now().Engravings[2].Path)
	require.Len(t, w.ed.Scene.Sheet.Engravings[2].Strokes, 2)

	pages.Shapes{Desk: w.desk}.OfItem(app.NoItem) // a new reserve of a drawn shape
	q = w.kit.Dialogs.Top()
	q.Fields[0].Object.(*kit.Entry).SetText("M-5 -3L5 -3L5 3L-5 3Z")
	w.kit.Dialogs.Enter()
	r := w.ed.Now().Reserves
	require.Equal(t, pattern.PathShape, r[len(r)-1].Shape)
	require.Equal(t, 10.0, r[len(r)-1].WidthMM)
	require.Empty(t, w.ed.Problem)
}
