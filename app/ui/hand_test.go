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
func placeOn(w *Window, p plane.Point) fyne.Position { return w.blank.PositionOf(p) }

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
func slowly(w *Window) { w.blank.MouseOut() }

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
	for _, p := range w.ed.Picked {
		is = append(is, p.Opening)
	}
	return is
}

// central returns the opening nearest to the middle of the blank, with room on all
// sides.
func central(w *Window) int {
	best := 0
	for i, o := range w.ed.Scene.Sheet.Openings {
		if o.Box.Centre().Len() < w.ed.Scene.Sheet.Openings[best].Box.Centre().Len() {
			best = i
		}
	}
	return best
}

func TestOpeningsArePickedByClicksAndSweeps(t *testing.T) {
	w, log := usual(t)
	clickOn(w, at(w, 10), 0)
	require.Equal(t, []int{10}, picked(w))
	require.NotEqual(t, app.HandPage, w.ed.Page, "a plain click turns no page")
	clickOn(w, at(w, 12), fyne.KeyModifierShift)
	require.Equal(t, []int{10, 12}, picked(w))
	require.Equal(t, app.HandPage, w.ed.Page)
	require.Contains(t, part[*kit.Passage](t, w, "hand:text").Text, "2 openings")
	keepPicture(t, "hand-picked", w.win.Canvas().Capture)
	slowly(w)
	clickOn(w, at(w, 10), fyne.KeyModifierShift)
	require.Equal(t, []int{12}, picked(w))
	require.Contains(t, part[*kit.Passage](t, w, "hand:text").Text, "Opening 13:")
	slowly(w)
	// Two clicks: the row; three: the field.
	o := w.ed.Scene.Sheet.Openings
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
	require.Nil(t, w.blank.Overlay.Hand.Sweep)
	test.Tap(part[*kit.Button](t, w, "hand:All"))
	require.Len(t, picked(w), len(o))
}

func TestWhatIsPickedIsLeftSolidAndOpenedAgain(t *testing.T) {
	w, log := usual(t)
	n := w.ed.Scene.Report.Openings
	was := w.ed.Now()
	clickOn(w, at(w, 10), 0)
	clickOn(w, at(w, 11), fyne.KeyModifierShift)
	test.Tap(part[*kit.Button](t, w, "hand:Leave-solid"))
	require.Equal(t, n-2, w.ed.Scene.Report.Openings)
	require.Contains(t, log.String(), "edit field=edits")
	require.Len(t, w.ed.Picked, 2)
	require.Contains(t, part[*kit.Passage](t, w, "hand:text").Text, "2 places that are left solid")
	require.Nil(t, part[*kit.Button](t, w, "hand:1"))
	require.Contains(t, part[*kit.Button](t, w, "hand:0").Text, "left solid, 2 places")
	keepPicture(t, "hand-solid", w.win.Canvas().Capture)
	w.escape()
	// A solid cell is picked by a click, and opened.
	slowly(w)
	clickOn(w, placeOn(w, w.ed.Scene.Sheet.Solid[0].At), 0)
	require.Equal(t, 0, w.ed.Picked[0].Solid)
	w.typed(&fyne.KeyEvent{Name: fyne.KeyU})
	require.Equal(t, n-1, w.ed.Scene.Report.Openings)
	w.undo()
	w.undo()
	require.True(t, app.Equal(was, w.ed.Now()))
	require.False(t, w.ed.Doc.CanUndo())
	// Delete does the same as the button.
	slowly(w)
	clickOn(w, at(w, 30), 0)
	w.typed(&fyne.KeyEvent{Name: fyne.KeyDelete})
	require.Equal(t, n-1, w.ed.Scene.Report.Openings)
}

func TestAPickedOpeningIsDraggedTurnedAndScaled(t *testing.T) {
	w, _ := usual(t)
	was := w.ed.Now()
	from := at(w, central(w))
	clickOn(w, from, 0)
	to := from.AddXY(14, -9)
	dragOn(w, from, to, 0)
	e := w.ed.Now().Edits
	require.Len(t, e, 1)
	k := w.blank.Zoom()
	require.InDelta(t, 14/k, e[0].MoveXMM, 0.02)
	require.InDelta(t, 9/k, e[0].MoveYMM, 0.02)
	require.Len(t, picked(w), 1)
	require.Equal(t, 0, w.ed.Scene.Sheet.Openings[picked(w)[0]].Edit)
	require.Empty(t, w.blank.Overlay.Hand.Ghosts)
	require.GreaterOrEqual(t, w.ed.Scene.Report.Thinnest.Width, w.ed.Scene.Report.Rule-1e-5)
	keepPicture(t, "hand-moved", w.win.Canvas().Capture)

	handleNamed := func(name string) fyne.Position {
		for _, h := range w.blank.Overlay.Handles {
			if h.Name == name {
				return placeOn(w, h.At)
			}
		}
		t.Fatal("no handle", name)
		return fyne.Position{}
	}
	c := w.ed.Scene.Sheet.Openings[picked(w)[0]].Loop.Centroid()
	turn := handleNamed("turn")
	mid := placeOn(w, c)
	r := mid.Y - turn.Y
	dragOn(w, turn, fyne.NewPos(mid.X+r, mid.Y), 0) // from the top to the right: a quarter, clockwise
	require.InDelta(t, -90, w.ed.Now().Edits[0].RotationDeg, 1)
	scale := handleNamed("scale")
	c = w.ed.Scene.Sheet.Openings[picked(w)[0]].Loop.Centroid()
	mid = placeOn(w, c)
	dragOn(w, scale, fyne.NewPos(mid.X+(scale.X-mid.X)*0.6, mid.Y+(scale.Y-mid.Y)*0.6), 0)
	require.InDelta(t, 0.6, w.ed.Now().Edits[0].Scale, 0.03)
	require.Len(t, w.ed.Now().Edits, 1, "one edit that grows")
	for range 3 {
		w.undo()
	}
	require.True(t, app.Equal(was, w.ed.Now()), "each drag is one step")
}

func TestArrowKeysNudgeWhatIsPicked(t *testing.T) {
	w, _ := usual(t)
	centre := w.blank.PointAt(fyne.Position{})
	clickOn(w, at(w, central(w)), 0)
	w.move(plane.Pt(1, 0), false)
	w.move(plane.Pt(1, 0), false)
	w.move(plane.Pt(0, 1), false)
	require.Equal(t, 0.2, w.ed.Now().Edits[0].MoveXMM)
	require.Equal(t, 0.1, w.ed.Now().Edits[0].MoveYMM)
	require.Equal(t, centre, w.blank.PointAt(fyne.Position{}))
	w.undo()
	require.Empty(t, w.ed.Now().Edits, "nudges in a row are one step")
	w.escape()
	w.blank.TypedKey(&fyne.KeyEvent{Name: fyne.KeyRight})
	require.NotEqual(t, centre, w.blank.PointAt(fyne.Position{}), "with nothing picked the drawing moves")
}

func TestNumbersAndShapesOfWhatIsPicked(t *testing.T) {
	w, _ := usual(t)
	clickOn(w, at(w, central(w)), 0)
	w.showTab(app.HandPage)
	typeInto(w, w.controls.RowsOf["edits.picked.turn_deg"].Entry, "15")
	typeInto(w, w.controls.RowsOf["edits.picked.scale"].Entry, "80")
	require.Equal(t, 15.0, w.ed.Now().Edits[0].RotationDeg)
	require.Equal(t, 0.8, w.ed.Now().Edits[0].Scale)
	w.ed.Choose(w.ed.HandShape(), pattern.CircleShape)
	require.Equal(t, pattern.Replace, w.ed.Now().Edits[0].Do)
	typeInto(w, w.controls.RowsOf["edits.picked.diameter"].Entry, "2.5")
	require.Equal(t, 2.5, w.ed.Now().Edits[0].WidthMM)
	w.ed.Choose(w.ed.HandMirror(), pattern.MirrorAlong)
	require.Equal(t, pattern.MirrorAlong, w.ed.Now().Edits[0].Mirror)
	require.Empty(t, w.ed.Problem)
	keepPicture(t, "hand-numbers", w.win.Canvas().Capture)
	test.Tap(part[*kit.Button](t, w, "hand:Back-to-the-pattern"))
	require.Empty(t, w.ed.Now().Edits)
	require.Empty(t, w.ed.Problem)
}

func TestASingleOpeningIsDrawn(t *testing.T) {
	w, log := usual(t)
	n := len(w.ed.Now().Edits)
	w.showTab(app.HandPage)
	test.Tap(part[*kit.Button](t, w, "hand:Oval"))
	require.Equal(t, pattern.OvalShape, w.ed.Tool)
	require.Contains(t, part[*kit.Passage](t, w, "hand:text").Text, "Drag a box")
	a, b := plane.Pt(-8, -3), plane.Pt(2, 4)
	dragOn(w, placeOn(w, a), placeOn(w, b), 0)
	e := w.ed.Now().Edits[n]
	require.Equal(t, pattern.Add, e.Do)
	require.InDelta(t, 10, e.WidthMM, 0.05)
	require.InDelta(t, 7, e.HeightMM, 0.05)
	require.InDelta(t, -3, e.At[0].XMM, 0.05)
	require.Empty(t, w.ed.Tool)
	require.Len(t, picked(w), 1)
	require.Contains(t, part[*kit.Passage](t, w, "hand:text").Text, "Drawn by hand")
	require.GreaterOrEqual(t, w.ed.Scene.Report.Thinnest.Width, w.ed.Scene.Report.Rule-1e-5)
	keepPicture(t, "hand-drawn", w.win.Canvas().Capture)
	// Its place can be typed.
	typeInto(w, w.controls.RowsOf["edits.picked.along"].Entry, "12")
	require.Equal(t, 12.0, w.ed.Now().Edits[n].At[0].XMM)
	require.Len(t, picked(w), 1)
	// And dragged: its place goes with it.
	c := w.ed.Scene.Sheet.Openings[picked(w)[0]].Loop.Centroid()
	from := placeOn(w, c)
	dragOn(w, from, from.AddXY(20, 0), 0)
	require.InDelta(t, 12+20/w.blank.Zoom(), w.ed.Now().Edits[n].At[0].XMM, 0.03)
	require.Len(t, picked(w), 1)
	// A click with the tool cuts one as large as the last.
	w.typed(&fyne.KeyEvent{Name: fyne.KeyE})
	slowly(w)
	clickOn(w, placeOn(w, plane.Pt(-40, 0)), 0)
	require.Len(t, w.ed.Now().Edits, n+2)
	require.Equal(t, w.ed.Now().Edits[n+1].WidthMM, e.WidthMM)
	w.typed(&fyne.KeyEvent{Name: fyne.KeyQ})
	w.escape()
	require.Empty(t, w.ed.Tool)
	require.Contains(t, log.String(), "tool shape=oval")
}

func TestATieIsDrawnFromMetalToMetal(t *testing.T) {
	w, log := usual(t)
	was := w.ed.Now()
	n := w.ed.Scene.Report.Openings
	o := w.ed.Scene.Sheet.Openings[central(w)]
	c := o.Loop.Centroid()
	a, z := plane.Pt(c.X, o.Box.Min.Y-0.3), plane.Pt(c.X, o.Box.Max.Y+0.3)
	w.showTab(app.HandPage)
	test.Tap(part[*kit.Button](t, w, "hand:Tie"))
	require.Contains(t, part[*kit.Passage](t, w, "hand:text").Text, "from metal to metal")
	keepPicture(t, "hand-tie-tool", w.win.Canvas().Capture)
	press(w, placeOn(w, a), 0)
	w.blank.Dragged(&fyne.DragEvent{PointEvent: fyne.PointEvent{Position: placeOn(w, z)}, Dragged: fyne.NewDelta(0, -20)})
	require.Contains(t, w.blank.Overlay.Beside, "tie")
	keepPicture(t, "hand-tie-drawn", w.win.Canvas().Capture)
	release(w, placeOn(w, z))
	w.blank.DragEnd()
	require.Empty(t, w.ed.Tool)
	require.Equal(t, n+1, w.ed.Scene.Report.Openings, "it parts the opening")
	require.Len(t, w.ed.Picked, 1)
	require.Contains(t, part[*kit.Passage](t, w, "hand:text").Text, "A tie")
	require.Contains(t, part[*kit.Button](t, w, "hand:0").Text, "tie")
	// Drawn a little into the opening beyond, it ends on the metal all the same.
	w.undo()
	w.typed(&fyne.KeyEvent{Name: fyne.KeyI})
	dragOn(w, placeOn(w, plane.Pt(a.X, a.Y-3)), placeOn(w, plane.Pt(z.X, z.Y+2)), 0)
	e, p, ok := w.ed.PickedTie(w.ed.Now())
	require.True(t, ok)
	l := pattern.TieLine(w.ed.Flat(), e, p)
	require.Equal(t, -1, w.ed.Scene.OpeningAt(l.A))
	require.Equal(t, -1, w.ed.Scene.OpeningAt(l.B))
	require.Equal(t, n+1, w.ed.Scene.Report.Openings)
	// In the metal alone there is nothing to tie.
	w.typed(&fyne.KeyEvent{Name: fyne.KeyI})
	dragOn(w, placeOn(w, plane.Pt(-70, 4.4)), placeOn(w, plane.Pt(-69, 4.4)), 0)
	require.Len(t, w.ed.Now().Edits, 1)
	w.escape()
	require.Empty(t, w.ed.Tool)
	w.escape()
	slowly(w)
	clickOn(w, placeOn(w, c), 0)
	require.GreaterOrEqual(t, w.ed.Scene.Report.Thinnest.Width, w.ed.Scene.Report.Rule-1e-5)
	// A width, and a bow by its middle.
	typeInto(w, w.controls.RowsOf["edits.picked.tie_width_mm"].Entry, "1.8")
	require.Equal(t, 1.8, w.ed.Now().Edits[0].WidthMM)
	handleNamed := func(name string) fyne.Position {
		for _, h := range w.blank.Overlay.Handles {
			if h.Name == name {
				return placeOn(w, h.At)
			}
		}
		t.Fatal("no handle", name)
		return fyne.Position{}
	}
	mid := handleNamed("tie.bow")
	dragOn(w, mid, mid.AddXY(-12, 0), 0)
	require.InDelta(t, 12/w.blank.Zoom(), w.ed.Now().Edits[0].BowMM, 0.03, "to the left on the way up")
	end := handleNamed("tie.to")
	span := w.ed.Now().Edits[0].SpanXMM
	dragOn(w, end, end.AddXY(15, 0), 0)
	require.InDelta(t, span+15/w.blank.Zoom(), w.ed.Now().Edits[0].SpanXMM, 0.03)
	keepPicture(t, "hand-tie", w.win.Canvas().Capture)
	// Each was one step.
	for range 4 {
		w.undo()
	}
	require.True(t, app.Equal(was, w.ed.Now()))
	w.redo()
	// A click on it picks it, Delete takes it away.
	w.escape()
	slowly(w)
	clickOn(w, placeOn(w, c), 0)
	require.Len(t, w.ed.Picked, 1)
	require.Equal(t, 1, w.ed.Picked[0].Tie)
	require.Equal(t, app.HandPage, w.ed.Page)
	w.typed(&fyne.KeyEvent{Name: fyne.KeyDelete})
	require.Empty(t, w.ed.Now().Edits)
	// One click with the tool draws nothing: it begins a tie, which Esc forgets before the tool.
	w.typed(&fyne.KeyEvent{Name: fyne.KeyI})
	slowly(w)
	clickOn(w, placeOn(w, plane.Pt(-40, 0)), 0)
	require.Empty(t, w.ed.Now().Edits)
	w.escape()
	w.escape()
	require.Empty(t, w.ed.Tool)
	require.Contains(t, log.String(), "tool shape=tie")
}

func TestIdleEditsAreMarkedAndRemoved(t *testing.T) {
	w, _ := usual(t)
	highest := 0 // the first to find no room beside a wide rim
	for i, o := range w.ed.Scene.Sheet.Openings {
		if o.Box.Max.Y > w.ed.Scene.Sheet.Openings[highest].Box.Max.Y {
			highest = i
		}
	}
	clickOn(w, at(w, highest), 0)
	w.typed(&fyne.KeyEvent{Name: fyne.KeyL})
	w.showTab(app.HandPage)
	require.False(t, part[*kit.Button](t, w, "hand:Remove-idle").Visible())
	w.showTab(app.PatternPage)
	typeInto(w, w.controls.RowsOf["rules.rim_mm"].Entry, "9")
	w.showTab(app.HandPage)
	require.Empty(t, w.ed.Problem)
	require.NotEmpty(t, w.ed.Scene.Sheet.Idle)
	require.True(t, strings.Contains(part[*kit.Button](t, w, "hand:0").Text, "idle"))
	require.True(t, part[*kit.Button](t, w, "hand:Remove-idle").Visible())
	keepPicture(t, "hand-idle", w.win.Canvas().Capture)
	test.Tap(part[*kit.Button](t, w, "hand:0"))
	require.Len(t, w.blank.Overlay.Rings, 1)
	test.Tap(part[*kit.Button](t, w, "hand:Remove-idle"))
	require.Empty(t, w.ed.Now().Edits)
	w.undo()
	require.Len(t, w.ed.Now().Edits, 1, "undo brings it back")
}

func TestThePickStaysWhileNumbersChange(t *testing.T) {
	w, _ := usual(t)
	clickOn(w, at(w, central(w)), 0)
	c := w.ed.Scene.Sheet.Openings[central(w)].Position()
	row := w.controls.RowsOf["rules.bridge_mm"]
	slideTo(row.Slider, 20, 32)
	require.Len(t, picked(w), 1)
	require.True(t, w.ed.Scene.Sheet.Openings[picked(w)[0]].Loop.Contains(c))
	// The middle button moves the drawing, and picks nothing.
	centre := w.blank.PointAt(fyne.Position{})
	w.blank.MouseDown(&desktop.MouseEvent{PointEvent: fyne.PointEvent{Position: at(w, 5)}, Button: desktop.MouseButtonTertiary})
	w.blank.Dragged(&fyne.DragEvent{PointEvent: fyne.PointEvent{Position: at(w, 5)}, Dragged: fyne.NewDelta(10, 0)})
	w.blank.MouseUp(&desktop.MouseEvent{Button: desktop.MouseButtonTertiary})
	require.NotEqual(t, centre, w.blank.PointAt(fyne.Position{}))
	require.Len(t, picked(w), 1)
}

func TestEscapeTakesADragBack(t *testing.T) {
	w, log := usual(t)
	was := w.ed.Now()
	i := central(w)
	from := at(w, i)
	clickOn(w, from, 0)
	press(w, from, 0)
	move := func(dx float32) {
		w.blank.Dragged(&fyne.DragEvent{PointEvent: fyne.PointEvent{Position: from.AddXY(dx, 0)}, Dragged: fyne.NewDelta(3, 0)})
	}
	move(5)
	move(8)
	require.Len(t, w.ed.Now().Edits, 1)
	centre := w.blank.PointAt(fyne.Position{})
	w.escape()
	require.True(t, app.Equal(was, w.ed.Now()))
	require.False(t, w.ed.Doc.CanUndo())
	require.Equal(t, []int{i}, picked(w))
	move(12) // the hand has not let go yet
	require.True(t, app.Equal(was, w.ed.Now()))
	require.Equal(t, centre, w.blank.PointAt(fyne.Position{}))
	release(w, from.AddXY(12, 0))
	w.blank.DragEnd()
	require.True(t, app.Equal(was, w.ed.Now()))
	require.Contains(t, log.String(), "given-up")
	// A sweep is given up as well.
	dragless := w.ed.Picked
	press(w, fyne.NewPos(60, 60), 0)
	w.blank.Dragged(&fyne.DragEvent{PointEvent: fyne.PointEvent{Position: fyne.NewPos(500, 200)}, Dragged: fyne.NewDelta(3, 0)})
	require.NotNil(t, w.blank.Overlay.Hand.Sweep)
	w.escape()
	require.Nil(t, w.blank.Overlay.Hand.Sweep)
	require.Equal(t, dragless, w.ed.Picked)
	release(w, fyne.NewPos(500, 200))
	// And a press after that is heard again.
	slowly(w)
	clickOn(w, at(w, 3), 0)
	require.Equal(t, []int{3}, picked(w))
}

func TestAnIdleEditIsMovedToWhereItWorks(t *testing.T) {
	w, _ := usual(t)
	d := w.ed.Now()
	d.Edits = []pattern.Edit{{Do: pattern.Add, Shape: pattern.CircleShape, WidthMM: 3, At: []pattern.Spot{{XMM: 0, YMM: 40}}}}
	w.ed.Change("", "edits", "", "", d)
	w.showTab(app.HandPage)
	require.Len(t, w.ed.Scene.Sheet.Idle, 1)
	test.Tap(part[*kit.Button](t, w, "hand:0"))
	require.Contains(t, part[*kit.Passage](t, w, "hand:text").Text, "not cut with the present numbers")
	row := w.controls.RowsOf["edits.picked.across"]
	require.True(t, row.Box.Visible())
	typeInto(w, row.Entry, "2")
	require.Empty(t, w.ed.Scene.Sheet.Idle)
	require.GreaterOrEqual(t, picked(w)[0], 0)
}

func TestAPickedOpeningBecomesAShapeOfOnesOwn(t *testing.T) {
	w, _ := usual(t)
	clickOn(w, at(w, central(w)), 0)
	w.showTab(app.HandPage)
	w.ed.Choose(w.ed.HandShape(), pattern.PathShape)
	require.Empty(t, w.ed.Problem)
	require.True(t, part[*kit.Button](t, w, "hand:outline").Visible())
	middle := w.ed.Scene.Sheet.Openings[picked(w)[0]].Box.Centre()
	test.Tap(part[*kit.Button](t, w, "hand:outline"))
	require.Equal(t, "An opening of your own", w.kit.Dialogs.Top().Title)
	e := w.kit.Dialogs.Top().Fields[0].Object.(*kit.Entry)
	e.SetText("M 10 10 L 13 10 L 13 12 L 10 12 Z")
	w.kit.Dialogs.Enter()
	require.Empty(t, w.kit.Dialogs.Open)
	require.Empty(t, w.ed.Problem)
	o := w.ed.Scene.Sheet.Openings[picked(w)[0]]
	require.InDelta(t, 3, o.Box.W(), 1e-3)
	require.InDelta(t, 2, o.Box.H(), 1e-3)
	require.InDelta(t, 0, o.Box.Centre().Dist(middle), 0.2, "wherever it stood in its drawing")
	typeInto(w, w.controls.RowsOf["edits.picked.height_mm"].Entry, "1.5")
	require.Equal(t, 1.5, w.ed.Now().Edits[0].HeightMM)
	keepPicture(t, "hand-outline", w.win.Canvas().Capture)
}
