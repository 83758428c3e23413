package ui

import (
	"strings"
	"testing"

	"fretband/app"
	"fretband/app/ui/kit"
	"fretband/pattern"
	"fretband/unroll/plane"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/test"
	"github.com/stretchr/testify/require"
)

// placeOn returns where a place of the blank is on the widget.
func placeOn(w *Window, p plane.Point) fyne.Position {
	s := w.blank.v.frame.scale
	return fyne.NewPos(float32(w.blank.v.x(p.X)/s), float32(w.blank.v.y(p.Y)/s))
}

func press(w *Window, at fyne.Position, mod fyne.KeyModifier) {
	w.blank.MouseDown(&desktop.MouseEvent{PointEvent: fyne.PointEvent{Position: at}, Button: desktop.MouseButtonPrimary, Modifier: mod})
}

func release(w *Window, at fyne.Position) {
	w.blank.MouseUp(&desktop.MouseEvent{PointEvent: fyne.PointEvent{Position: at}, Button: desktop.MouseButtonPrimary})
}

func clickOn(w *Window, at fyne.Position, mod fyne.KeyModifier) {
	press(w, at, mod)
	release(w, at)
}

// slowly forgets the last click, so that the next is not the second of two.
func slowly(w *Window) { w.blank.clicks, w.blank.clickPos = 0, fyne.NewPos(-99, -99) }

func dragOn(w *Window, from, to fyne.Position, mod fyne.KeyModifier) {
	const steps = 8
	press(w, from, mod)
	d := fyne.NewDelta((to.X-from.X)/steps, (to.Y-from.Y)/steps)
	for i := range steps {
		p := from.AddXY(d.DX*float32(i+1), d.DY*float32(i+1))
		w.blank.Dragged(&fyne.DragEvent{PointEvent: fyne.PointEvent{Position: p}, Dragged: d})
	}
	release(w, to)
	w.blank.DragEnd()
}

func picked(w *Window) []int {
	var is []int
	for _, p := range w.blank.marks.picked {
		is = append(is, p.Opening)
	}
	return is
}

// central returns the opening nearest to the middle of the blank, with room on all
// sides.
func central(w *Window) int {
	best := 0
	for i, o := range w.scene.sheet.Openings {
		if o.Box.Centre().Len() < w.scene.sheet.Openings[best].Box.Centre().Len() {
			best = i
		}
	}
	return best
}

func TestOpeningsArePickedByClicksAndSweeps(t *testing.T) {
	w, log := usual(t)
	clickOn(w, at(w, 10), 0)
	require.Equal(t, []int{10}, picked(w))
	require.NotEqual(t, handPageAt, w.controls.open, "a plain click turns no page")
	clickOn(w, at(w, 12), fyne.KeyModifierShift)
	require.Equal(t, []int{10, 12}, picked(w))
	require.Equal(t, handPageAt, w.controls.open)
	require.Contains(t, w.controls.hand.what.Text, "2 openings")
	keepPicture(t, "hand-picked", w.win.Canvas().Capture)
	slowly(w)
	clickOn(w, at(w, 10), fyne.KeyModifierShift)
	require.Equal(t, []int{12}, picked(w))
	require.Contains(t, w.controls.hand.what.Text, "Opening 13:")
	slowly(w)
	// Two clicks: the row; three: the field.
	o := w.scene.sheet.Openings
	clickOn(w, at(w, 10), 0)
	clickOn(w, at(w, 10), 0)
	for _, i := range picked(w) {
		require.Equal(t, o[10].Row, o[i].Row)
	}
	require.Greater(t, len(picked(w)), 5)
	clickOn(w, at(w, 10), 0)
	require.Len(t, picked(w), len(o))
	w.escape()
	require.Empty(t, picked(w))
	slowly(w)
	// A sweep, and one more with shift.
	box := o[3].Box.Union(o[5].Box).Grow(0.3)
	dragOn(w, placeOn(w, box.Min), placeOn(w, box.Max), 0)
	require.GreaterOrEqual(t, len(picked(w)), 3)
	n := len(picked(w))
	box = o[20].Box.Grow(0.2)
	dragOn(w, placeOn(w, box.Min), placeOn(w, box.Max), fyne.KeyModifierShift)
	require.Greater(t, len(picked(w)), n)
	require.Contains(t, picked(w), 20)
	require.Contains(t, log.String(), "picked count=")
	require.Nil(t, w.blank.marks.hand.sweep)
	test.Tap(w.controls.hand.all)
	require.Len(t, picked(w), len(o))
}

func TestWhatIsPickedIsLeftSolidAndOpenedAgain(t *testing.T) {
	w, log := usual(t)
	n := w.result.Report.Openings
	was := w.now()
	clickOn(w, at(w, 10), 0)
	clickOn(w, at(w, 11), fyne.KeyModifierShift)
	test.Tap(w.controls.hand.solid)
	require.Equal(t, n-2, w.result.Report.Openings)
	require.Contains(t, log.String(), "edit field=edits")
	require.Len(t, w.blank.marks.picked, 2)
	require.Contains(t, w.controls.hand.what.Text, "2 places that are left solid")
	require.Len(t, w.controls.hand.lines, 1)
	require.Contains(t, w.controls.hand.lines[0].Text, "left solid, 2 places")
	keepPicture(t, "hand-solid", w.win.Canvas().Capture)
	w.escape()
	// A solid cell is picked by a click, and opened.
	slowly(w)
	clickOn(w, placeOn(w, w.scene.sheet.Solid[0].At), 0)
	require.Equal(t, 0, w.blank.marks.picked[0].Solid)
	w.typed(&fyne.KeyEvent{Name: fyne.KeyU})
	require.Equal(t, n-1, w.result.Report.Openings)
	w.undo()
	w.undo()
	require.True(t, app.Equal(was, w.now()))
	require.False(t, w.doc.CanUndo())
	// Delete does the same as the button.
	slowly(w)
	clickOn(w, at(w, 30), 0)
	w.typed(&fyne.KeyEvent{Name: fyne.KeyDelete})
	require.Equal(t, n-1, w.result.Report.Openings)
}

func TestAPickedOpeningIsDraggedTurnedAndScaled(t *testing.T) {
	w, _ := usual(t)
	was := w.now()
	from := at(w, central(w))
	clickOn(w, from, 0)
	to := from.AddXY(14, -9)
	dragOn(w, from, to, 0)
	e := w.now().Edits
	require.Len(t, e, 1)
	k := w.blank.v.k
	require.InDelta(t, 14/k, e[0].MoveXMM, 0.02)
	require.InDelta(t, 9/k, e[0].MoveYMM, 0.02)
	require.Len(t, picked(w), 1)
	require.Equal(t, 0, w.scene.sheet.Openings[picked(w)[0]].Edit)
	require.Empty(t, w.blank.marks.hand.ghosts)
	require.GreaterOrEqual(t, w.result.Report.Thinnest.Width, w.result.Report.Rule-1e-5)
	keepPicture(t, "hand-moved", w.win.Canvas().Capture)

	handleNamed := func(name string) fyne.Position {
		for _, h := range w.blank.marks.handles {
			if h.name == name {
				return placeOn(w, h.at)
			}
		}
		t.Fatal("no handle", name)
		return fyne.Position{}
	}
	c := w.scene.sheet.Openings[picked(w)[0]].Loop.Centroid()
	turn := handleNamed("turn")
	mid := placeOn(w, c)
	r := mid.Y - turn.Y
	dragOn(w, turn, fyne.NewPos(mid.X+r, mid.Y), 0) // from the top to the right: a quarter, clockwise
	require.InDelta(t, -90, w.now().Edits[0].TurnDeg, 1)
	scale := handleNamed("scale")
	c = w.scene.sheet.Openings[picked(w)[0]].Loop.Centroid()
	mid = placeOn(w, c)
	dragOn(w, scale, fyne.NewPos(mid.X+(scale.X-mid.X)*0.6, mid.Y+(scale.Y-mid.Y)*0.6), 0)
	require.InDelta(t, 0.6, w.now().Edits[0].Scale, 0.03)
	require.Len(t, w.now().Edits, 1, "one edit that grows")
	for range 3 {
		w.undo()
	}
	require.True(t, app.Equal(was, w.now()), "each drag is one step")
}

func TestArrowKeysNudgeWhatIsPicked(t *testing.T) {
	w, _ := usual(t)
	centre := w.blank.v.centre
	clickOn(w, at(w, central(w)), 0)
	w.blank.TypedKey(&fyne.KeyEvent{Name: fyne.KeyRight})
	w.blank.TypedKey(&fyne.KeyEvent{Name: fyne.KeyRight})
	w.blank.TypedKey(&fyne.KeyEvent{Name: fyne.KeyUp})
	require.Equal(t, 0.2, w.now().Edits[0].MoveXMM)
	require.Equal(t, 0.1, w.now().Edits[0].MoveYMM)
	require.Equal(t, centre, w.blank.v.centre)
	w.undo()
	require.Empty(t, w.now().Edits, "nudges in a row are one step")
	w.escape()
	w.blank.TypedKey(&fyne.KeyEvent{Name: fyne.KeyRight})
	require.NotEqual(t, centre, w.blank.v.centre, "with nothing picked the drawing moves")
}

func TestNumbersAndShapesOfWhatIsPicked(t *testing.T) {
	w, _ := usual(t)
	clickOn(w, at(w, central(w)), 0)
	w.turnTo(handPageAt)
	typeInto(w, w.controls.rowsOf["edits.picked.turn_deg"].entry, "15")
	typeInto(w, w.controls.rowsOf["edits.picked.scale"].entry, "80")
	require.Equal(t, 15.0, w.now().Edits[0].TurnDeg)
	require.Equal(t, 0.8, w.now().Edits[0].Scale)
	w.pickOption(app.HandShape(w.controls.hand, func() *pattern.Sheet { return w.scene.sheet }), pattern.CircleShape)
	require.Equal(t, pattern.Replace, w.now().Edits[0].Do)
	typeInto(w, w.controls.rowsOf["edits.picked.diameter"].entry, "2.5")
	require.Equal(t, 2.5, w.now().Edits[0].WidthMM)
	w.pickOption(app.HandMirror(w.controls.hand), pattern.MirrorAlong)
	require.Equal(t, pattern.MirrorAlong, w.now().Edits[0].Mirror)
	require.Empty(t, w.problem)
	keepPicture(t, "hand-numbers", w.win.Canvas().Capture)
	test.Tap(w.controls.hand.undo)
	require.Empty(t, w.now().Edits)
	require.Empty(t, w.problem)
}

func TestASingleOpeningIsDrawn(t *testing.T) {
	w, log := usual(t)
	n := len(w.now().Edits)
	test.Tap(w.controls.hand.oval)
	require.Equal(t, pattern.OvalShape, w.blank.marks.hand.tool)
	require.Contains(t, w.controls.hand.what.Text, "Drag a box")
	a, b := plane.Pt(-8, -3), plane.Pt(2, 4)
	dragOn(w, placeOn(w, a), placeOn(w, b), 0)
	e := w.now().Edits[n]
	require.Equal(t, pattern.Add, e.Do)
	require.InDelta(t, 10, e.WidthMM, 0.05)
	require.InDelta(t, 7, e.HeightMM, 0.05)
	require.InDelta(t, -3, e.At[0].XMM, 0.05)
	require.Empty(t, w.blank.marks.hand.tool)
	require.Len(t, picked(w), 1)
	require.Contains(t, w.controls.hand.what.Text, "Drawn by hand")
	require.GreaterOrEqual(t, w.result.Report.Thinnest.Width, w.result.Report.Rule-1e-5)
	keepPicture(t, "hand-drawn", w.win.Canvas().Capture)
	// Its place can be typed.
	typeInto(w, w.controls.rowsOf["edits.picked.along"].entry, "12")
	require.Equal(t, 12.0, w.now().Edits[n].At[0].XMM)
	require.Len(t, picked(w), 1)
	// And dragged: its place goes with it.
	c := w.scene.sheet.Openings[picked(w)[0]].Loop.Centroid()
	from := placeOn(w, c)
	dragOn(w, from, from.AddXY(20, 0), 0)
	require.InDelta(t, 12+20/w.blank.v.k, w.now().Edits[n].At[0].XMM, 0.03)
	require.Len(t, picked(w), 1)
	// A click with the tool cuts one as large as the last.
	w.typed(&fyne.KeyEvent{Name: fyne.KeyE})
	slowly(w)
	clickOn(w, placeOn(w, plane.Pt(-40, 0)), 0)
	require.Len(t, w.now().Edits, n+2)
	require.Equal(t, w.now().Edits[n+1].WidthMM, e.WidthMM)
	w.typed(&fyne.KeyEvent{Name: fyne.KeyQ})
	w.escape()
	require.Empty(t, w.blank.marks.hand.tool)
	require.Contains(t, log.String(), "tool shape=oval")
}

func TestIdleEditsAreMarkedAndRemoved(t *testing.T) {
	w, _ := usual(t)
	highest := 0 // the first to find no room beside a wide rim
	for i, o := range w.scene.sheet.Openings {
		if o.Box.Max.Y > w.scene.sheet.Openings[highest].Box.Max.Y {
			highest = i
		}
	}
	clickOn(w, at(w, highest), 0)
	w.typed(&fyne.KeyEvent{Name: fyne.KeyL})
	w.turnTo(handPageAt)
	require.False(t, w.controls.hand.clear.Visible())
	w.turnTo(patternPage)
	typeInto(w, w.controls.rowsOf["rules.rim_mm"].entry, "9")
	w.turnTo(handPageAt)
	require.Empty(t, w.problem)
	require.NotEmpty(t, w.scene.sheet.Idle)
	require.True(t, strings.Contains(w.controls.hand.lines[0].Text, "idle"))
	require.True(t, w.controls.hand.clear.Visible())
	keepPicture(t, "hand-idle", w.win.Canvas().Capture)
	test.Tap(w.controls.hand.lines[0])
	require.Len(t, w.blank.marks.places, 1)
	test.Tap(w.controls.hand.clear)
	require.Empty(t, w.now().Edits)
	w.undo()
	require.Len(t, w.now().Edits, 1, "undo brings it back")
}

func TestThePickStaysWhileNumbersChange(t *testing.T) {
	w, _ := usual(t)
	clickOn(w, at(w, central(w)), 0)
	c := w.scene.sheet.Openings[central(w)].Place()
	row := w.controls.rowsOf["rules.bridge_mm"]
	slideTo(row.slider, 20, 32)
	require.Len(t, picked(w), 1)
	require.True(t, w.scene.sheet.Openings[picked(w)[0]].Loop.Contains(c))
	// The middle button moves the drawing, and picks nothing.
	centre := w.blank.v.centre
	w.blank.MouseDown(&desktop.MouseEvent{PointEvent: fyne.PointEvent{Position: at(w, 5)}, Button: desktop.MouseButtonTertiary})
	w.blank.Dragged(&fyne.DragEvent{PointEvent: fyne.PointEvent{Position: at(w, 5)}, Dragged: fyne.NewDelta(10, 0)})
	w.blank.MouseUp(&desktop.MouseEvent{Button: desktop.MouseButtonTertiary})
	require.NotEqual(t, centre, w.blank.v.centre)
	require.Len(t, picked(w), 1)
}

func TestEscapeTakesADragBack(t *testing.T) {
	w, log := usual(t)
	was := w.now()
	i := central(w)
	from := at(w, i)
	clickOn(w, from, 0)
	press(w, from, 0)
	move := func(dx float32) {
		w.blank.Dragged(&fyne.DragEvent{PointEvent: fyne.PointEvent{Position: from.AddXY(dx, 0)}, Dragged: fyne.NewDelta(3, 0)})
	}
	move(5)
	move(8)
	require.Len(t, w.now().Edits, 1)
	centre := w.blank.v.centre
	w.escape()
	require.True(t, app.Equal(was, w.now()))
	require.False(t, w.doc.CanUndo())
	require.Equal(t, []int{i}, picked(w))
	move(12) // the hand has not let go yet
	require.True(t, app.Equal(was, w.now()))
	require.Equal(t, centre, w.blank.v.centre)
	release(w, from.AddXY(12, 0))
	w.blank.DragEnd()
	require.True(t, app.Equal(was, w.now()))
	require.Contains(t, log.String(), "given-up")
	// A sweep is given up as well.
	dragless := w.blank.marks.picked
	press(w, fyne.NewPos(60, 60), 0)
	w.blank.Dragged(&fyne.DragEvent{PointEvent: fyne.PointEvent{Position: fyne.NewPos(500, 200)}, Dragged: fyne.NewDelta(3, 0)})
	require.NotNil(t, w.blank.marks.hand.sweep)
	w.escape()
	require.Nil(t, w.blank.marks.hand.sweep)
	require.Equal(t, dragless, w.blank.marks.picked)
	release(w, fyne.NewPos(500, 200))
	// And a press after that is heard again.
	slowly(w)
	clickOn(w, at(w, 3), 0)
	require.Equal(t, []int{3}, picked(w))
}

func TestAnIdleEditIsMovedToWhereItWorks(t *testing.T) {
	w, _ := usual(t)
	d := w.now()
	d.Edits = []pattern.Edit{{Do: pattern.Add, Shape: pattern.CircleShape, WidthMM: 3, At: []pattern.Spot{{XMM: 0, YMM: 40}}}}
	w.change("", "edits", "", "", d)
	w.turnTo(handPageAt)
	require.Len(t, w.scene.sheet.Idle, 1)
	test.Tap(w.controls.hand.lines[0])
	require.Contains(t, w.controls.hand.what.Text, "not cut with the present numbers")
	row := w.controls.rowsOf["edits.picked.across"]
	require.True(t, row.box.Visible())
	typeInto(w, row.entry, "2")
	require.Empty(t, w.scene.sheet.Idle)
	require.GreaterOrEqual(t, picked(w)[0], 0)
}

func TestAPickedOpeningBecomesAShapeOfOnesOwn(t *testing.T) {
	w, _ := usual(t)
	clickOn(w, at(w, central(w)), 0)
	w.turnTo(handPageAt)
	page := w.controls.hand
	w.pickOption(app.HandShape(page, func() *pattern.Sheet { return w.scene.sheet }), pattern.PathShape)
	require.Empty(t, w.problem)
	require.True(t, page.outline.Visible())
	middle := w.scene.sheet.Openings[picked(w)[0]].Box.Centre()
	test.Tap(page.outline)
	require.Equal(t, "An opening of your own", w.dialogs.Top().Title)
	e := w.dialogs.Top().Fields[0].Object.(*kit.Entry)
	e.SetText("M 10 10 L 13 10 L 13 12 L 10 12 Z")
	w.dialogs.Enter()
	require.Empty(t, w.dialogs.Open)
	require.Empty(t, w.problem)
	o := w.scene.sheet.Openings[picked(w)[0]]
	require.InDelta(t, 3, o.Box.W(), 1e-3)
	require.InDelta(t, 2, o.Box.H(), 1e-3)
	require.InDelta(t, 0, o.Box.Centre().Dist(middle), 0.2, "wherever it stood in its drawing")
	typeInto(w, w.controls.rowsOf["edits.picked.height_mm"].entry, "1.5")
	require.Equal(t, 1.5, w.now().Edits[0].HeightMM)
	keepPicture(t, "hand-outline", w.win.Canvas().Capture)
}
