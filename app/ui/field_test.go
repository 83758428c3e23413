package ui

import (
	"fmt"
	"os"
	"path/filepath"
	"testing"

	"fretband/app"
	"fretband/app/ui/kit"
	"fretband/app/ui/pages"
	"fretband/pattern"
	"fretband/pattern/motif"
	"fretband/pattern/project"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/test"
	"github.com/stretchr/testify/require"
)

// leaf is a shape of one's own.
const leaf = "M0 -5 C3 -4 4 -1 2 5 C1 3.5 -0.5 3 -2 3.2 C-4 0 -3 -3.5 0 -5 Z"

func TestTheMotifIsChosenFromPictures(t *testing.T) {
	w, log := usual(t)
	pages.Shapes{Desk: w.desk}.ChooseMotif(0)
	keepPicture(t, "motif-chooser", w.win.Canvas().Capture)
	d := w.kit.Dialogs.Top()
	require.Equal(t, "Motif", d.Title)
	for _, f := range d.Fields {
		if f.Name == "motif:hexagons" {
			f.Object.(fyne.Tappable).Tapped(nil)
		}
	}
	require.Empty(t, w.kit.Dialogs.Open)
	require.Equal(t, "hexagons", w.ed.Now().Fields[0].Motif)
	require.Contains(t, log.String(), "edit field=fields[0].motif old=triangles new=hexagons")
}

// threeFields is a band of three: a run of hexagons, a medallion of circles, and
// leaves that grow smaller to the ends on what is left. A made-up design.
func threeFields(t *testing.T) pattern.Design {
	t.Helper()
	d, err := project.GalleryDesign("harbour-cuff")
	require.NoError(t, err)
	d.Name, d.Reserves = "Three fields", nil
	d.Rules.BridgeMM, d.Rules.RimMM, d.Rules.SmallestMM = 0.9, 1.8, 1
	d.Fields = []pattern.Field{
		{Name: "medallion", Motif: "circles", Rows: 5, Repeats: 4, Stagger: 0.5, Edge: pattern.EdgeWhole, Area: pattern.Area{Shape: pattern.CircleShape, WidthMM: 24}},
		{Motif: "hexagons", Rows: 5, Repeats: 9, Area: pattern.Area{Shape: pattern.RunShape, FromMM: 18, ToMM: 60}},
		{Motif: "leaves", Rows: 3, Repeats: 22, GradeAlong: []pattern.Grade{{At: -1, Size: 0.5}, {At: 0, Size: 1}, {At: 1, Size: 0.5}}},
	}
	require.NoError(t, d.Check())
	return d
}

func TestAPageOfThreeFields(t *testing.T) {
	for _, dress := range []string{"light", "dark"} {
		for _, size := range []fyne.Size{{Width: 1400, Height: 900}, {Width: 1100, Height: 700}} {
			w, _ := openOn(t, app.NewDocument(threeFields(t)), size, dress)
			require.Nil(t, part[*kit.Button](t, w, "fields:3"))
			for i := range 3 {
				require.NotEqual(t, "0", part[*kit.Label](t, w, fmt.Sprintf("fields:%d:openings", i)).Text)
				test.Tap(part[*kit.Button](t, w, fmt.Sprintf("fields:%d", i)))
				require.Equal(t, i, w.ed.Field)
				require.Contains(t, w.controls.RowsOf, fmt.Sprintf("fields[%d].rows", i))
				require.NotContains(t, w.controls.RowsOf, fmt.Sprintf("fields[%d].rows", (i+1)%3))
			}
			keepPicture(t, fmt.Sprintf("three-%s-%g", dress, size.Width), w.win.Canvas().Capture)
			for _, fold := range []string{"shape", "place", "arrangement", "sizes"} {
				test.Tap(part[fyne.Tappable](t, w, "fold:"+fold))
			}
			w.win.Canvas().Capture()
			s := w.controls.Pages[app.PatternPage].Scroll
			s.ScrollToBottom()
			keepPicture(t, fmt.Sprintf("three-open-%s-%g", dress, size.Width), w.win.Canvas().Capture)
		}
	}
}

func TestFieldsAreAddedMovedAndRemovedOnThePage(t *testing.T) {
	w, _ := usual(t)
	onlyLaying(w)
	tap := func(name string) { test.Tap(part[*kit.Button](t, w, "fields:"+name)) }
	tap("Add")
	require.Len(t, w.ed.Now().Fields, 2)
	require.Equal(t, 0, w.ed.Field)
	require.Equal(t, pattern.RunShape, w.ed.Now().Fields[0].Area.Shape)
	require.Contains(t, part[*kit.Button](t, w, "fields:0").Text, "run")
	require.NotEqual(t, "0", part[*kit.Label](t, w, "fields:0:openings").Text)
	require.NotEqual(t, "0", part[*kit.Label](t, w, "fields:1:openings").Text)
	keepPicture(t, "field-added", w.win.Canvas().Capture)
	tap("Down")
	require.Equal(t, 1, w.ed.Field)
	require.Equal(t, "0", part[*kit.Label](t, w, "fields:1:openings").Text, "it yields to the one that covers the band")
	require.Contains(t, part[*kit.Passage](t, w, "fields:text").Text, "has the right of way")
	keepPicture(t, "field-yields", w.win.Canvas().Capture)
	tap("Up")
	tap("Copy")
	require.Equal(t, 1, w.ed.Field)
	for range 3 {
		tap("Remove")
	}
	require.Empty(t, w.ed.Now().Fields)
	require.Empty(t, w.ed.Problem)
	require.Empty(t, w.ed.Scene.Sheet.Openings)
	require.True(t, part[fyne.CanvasObject](t, w, "fields:none").Visible())
	keepPicture(t, "field-none", w.win.Canvas().Capture)
	for range 7 {
		w.undo()
	}
	require.Len(t, w.ed.Now().Fields, 1)
	require.False(t, w.ed.Doc.CanUndo())
	require.Equal(t, "103", part[*kit.Label](t, w, "fields:0:openings").Text)
}

func TestAClickOnAnOpeningSelectsItsField(t *testing.T) {
	w, _ := openOn(t, app.NewDocument(threeFields(t)), fyne.NewSize(1400, 900), "light")
	for i, o := range w.ed.Scene.Sheet.Openings {
		if o.Field == 1 {
			w.ed.PickOne(i, app.NoItem)
			break
		}
	}
	require.Equal(t, 1, w.ed.Field)
}

func TestTheCurvesPointsAreDragged(t *testing.T) {
	w, _ := openOn(t, app.NewDocument(threeFields(t)), fyne.NewSize(1400, 900), "light")
	onlyLaying(w)
	p := w.controls.Fields
	w.ed.SelectField(2)
	test.Tap(part[fyne.Tappable](t, w, "fold:sizes"))
	w.win.Canvas().Capture()
	var g *pages.GradeEditor
	for _, r := range p.Rows {
		if e, ok := r.(*pages.GradeEditor); ok && e.Curve == app.AlongCurve {
			g = e
		}
	}
	c := g.Draw
	x, y := c.PointAt(0, 1, float64(c.Size().Width), float64(c.Size().Height), pages.CurveRoom)
	at := fyne.NewPos(float32(x), float32(y))
	c.MouseDown(&desktop.MouseEvent{PointEvent: fyne.PointEvent{Position: at}, Button: desktop.MouseButtonPrimary})
	require.Equal(t, 1, c.Held)
	for range 4 {
		at = at.AddXY(8, 5)
		c.Dragged(&fyne.DragEvent{PointEvent: fyne.PointEvent{Position: at}})
	}
	c.DragEnd()
	moved := w.ed.Now().Fields[2].GradeAlong[1]
	require.Greater(t, moved.At, 0.1)
	require.Less(t, moved.Size, 0.9)
	require.Equal(t, moved, w.ed.Scene.Sheet.Design.Fields[2].GradeAlong[1])
	w.undo()
	require.Equal(t, pattern.Grade{At: 0, Size: 1}, w.ed.Now().Fields[2].GradeAlong[1], "a drag is one step")
	require.False(t, w.ed.Doc.CanUndo())
}

func TestTheRimIsGradedOnThePage(t *testing.T) {
	w, _ := openOn(t, app.NewDocument(threeFields(t)), fyne.NewSize(1400, 900), "light")
	onlyLaying(w)
	w.ed.Choose(app.GradeChoice(app.RimCurve, 0), "middle")
	require.Len(t, w.ed.Now().Rules.RimAlong, 3)
	require.Contains(t, w.controls.RowsOf, "rules.rim_along[2].size")
	keepPicture(t, "rim-graded", w.win.Canvas().Capture)
	c := w.controls.Fields.RimAlong.Draw
	x, y := c.PointAt(1, 0.6, float64(c.Size().Width), float64(c.Size().Height), pages.CurveRoom)
	at := fyne.NewPos(float32(x), float32(y))
	c.MouseDown(&desktop.MouseEvent{PointEvent: fyne.PointEvent{Position: at}, Button: desktop.MouseButtonPrimary})
	c.Dragged(&fyne.DragEvent{PointEvent: fyne.PointEvent{Position: at.AddXY(0, -8)}})
	c.DragEnd()
	require.Greater(t, w.ed.Scene.Sheet.Design.Rules.RimAlong[2].Size, 0.62)
	require.Equal(t, 1.0, w.ed.Now().Rules.RimAlong[2].At, "a point at an end stays there")
	w.undo()
	w.undo()
	require.Empty(t, w.ed.Now().Rules.RimAlong)
	require.NotContains(t, w.controls.RowsOf, "rules.rim_along[0].size")
}

func TestAShapeOfOnesOwnIsPastedAndRefusedInWords(t *testing.T) {
	w, _ := usual(t)
	pages.Shapes{Desk: w.desk}.OwnMotif(0)
	d := w.kit.Dialogs.Top()
	e := d.Fields[0].Object.(*kit.Entry)
	state := func() string { return shapeOf(d).Text }
	for bad, why := range map[string]string{
		"M0 0 L10 0 L10 10": "It can be used",
		"<svg fill='none' stroke='red'><path d='M0 0 L10 0 L10 10'/></svg>": "open",
		"M0 0 L10 10 L10 0 L0 10 Z":                                         "can't be cut out",
		"hello":                                                             "neither SVG path data",
		"M0 0 L0.01 0 L0.01 0.01 Z":                                         "only 0.01",
		"M0 0 L10 0 L10 10 Q":                                               "",
		"<svg><circle r='3'/></svg":                                         "",
		"M0 0 h9 v9 h-9 z M1 1 h1 v1z":                                      "It can be used",
	} {
		e.SetText(bad)
		require.Contains(t, state(), why, bad)
		if why != "It can be used" {
			require.Contains(t, state(), "This can't be used", bad)
			d.Main.Tapped(nil)
			require.Same(t, d, w.kit.Dialogs.Top(), "it stays open")
		}
	}
	e.SetText("M0 0 L10 0 L10 10")
	require.Contains(t, state(), "Curve 1 is open; it is read as closed", "what is assumed is told")
	e.SetText(leaf)
	keepPicture(t, "own-shape", w.win.Canvas().Capture)
	d.Main.Tapped(nil)
	require.Empty(t, w.kit.Dialogs.Open)
	require.Empty(t, w.ed.Problem)
	require.Equal(t, motif.OwnKey, w.ed.Now().Fields[0].Motif)
	require.NotEmpty(t, w.ed.Scene.Sheet.Openings)
	test.Tap(part[fyne.Tappable](t, w, "fold:shape"))
	keepPicture(t, "own-motif", w.win.Canvas().Capture)
}

// shapeOf finds the words under the question for a shape.
func shapeOf(d *kit.Dialog) *kit.Passage {
	var found *kit.Passage
	var walk func(o fyne.CanvasObject)
	walk = func(o fyne.CanvasObject) {
		switch x := o.(type) {
		case *kit.Passage:
			found = x
		case *fyne.Container:
			for _, c := range x.Objects {
				walk(c)
			}
		}
	}
	walk(d.Panel)
	return found
}

func TestAShapeOfOnesOwnIsReadFromFiles(t *testing.T) {
	w, _ := usual(t)
	dir := t.TempDir()
	svg, dxf := filepath.Join(dir, "drop.svg"), filepath.Join(dir, "box.DXF")
	require.NoError(t, os.WriteFile(svg, []byte(`<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 20 20"><ellipse cx="10" cy="10" rx="4" ry="8"/></svg>`), 0o600))
	require.NoError(t, os.WriteFile(dxf, []byte("0\nSECTION\n2\nENTITIES\n0\nLWPOLYLINE\n90\n4\n70\n1\n10\n0\n20\n0\n10\n12\n20\n0\n10\n12\n20\n8\n10\n0\n20\n8\n0\nENDSEC\n0\nEOF\n"), 0o600))
	require.NoError(t, os.WriteFile(filepath.Join(dir, "other.json"), []byte("{}"), 0o600))
	w.settings.Folder = dir
	pages.Shapes{Desk: w.desk}.OwnArea(0)
	d := w.kit.Dialogs.Top()
	d.Fields[1].Object.(*kit.Button).Tapped(nil)
	keepPicture(t, "own-file", w.win.Canvas().Capture)
	require.Contains(t, w.kit.Dialogs.Top().Title, "drawing")
	names := w.kit.Dialogs.Top().Fields[1].Object.(*kit.Entry)
	names.SetText("missing.svg")
	w.kit.Dialogs.Enter()
	names.SetText("box.DXF")
	w.kit.Dialogs.Enter()
	require.Same(t, d, w.kit.Dialogs.Top())
	require.Contains(t, shapeOf(d).Text, "box.DXF: It can be used: 4 lines and arcs, 12 x 8 mm.")
	d.Main.Tapped(nil)
	a := w.ed.Now().Fields[0].Area
	require.Equal(t, pattern.PathShape, a.Shape)
	require.Equal(t, 12.0, a.WidthMM)
	require.Empty(t, w.ed.Problem)
	keepPicture(t, "own-area", w.win.Canvas().Capture)
	pages.Shapes{Desk: w.desk}.OwnMotif(0)
	s := w.kit.Dialogs.Top()
	s.Fields[1].Object.(*kit.Button).Tapped(nil)
	w.kit.Dialogs.Top().Fields[1].Object.(*kit.Entry).SetText(svg)
	w.kit.Dialogs.Enter()
	s.Main.Tapped(nil)
	require.Equal(t, motif.OwnKey, w.ed.Now().Fields[0].Motif)
	require.Empty(t, w.ed.Problem)
}

// onlyLaying has the window lay and check designs, but neither bend them nor look
// deeper: what a drag needs, in a test done at every step.
func onlyLaying(w *Window) {
	w.bender.Go = func(func()) {}
	w.laying.Deepener.Go = func(func()) {}
}

// dragHandle drags a handle by so many mm, in steps, and reports what was told
// beside the hand.
func dragHandle(t *testing.T, w *Window, name string, dx, dy float64) string {
	t.Helper()
	for _, h := range w.blank.Overlay.Handles {
		if h.Name != name {
			continue
		}
		s, k := float32(w.win.Canvas().Scale()), w.blank.Zoom()
		at := placeOn(w, h.At)
		w.blank.MouseMoved(&desktop.MouseEvent{PointEvent: fyne.PointEvent{Position: at}})
		require.GreaterOrEqual(t, w.blank.Overlay.OverHandle, 0, name)
		w.blank.MouseDown(&desktop.MouseEvent{PointEvent: fyne.PointEvent{Position: at}, Button: desktop.MouseButtonPrimary})
		const steps = 4
		told := ""
		for range steps {
			at = at.AddXY(float32(dx*k)/s/steps, float32(-dy*k)/s/steps)
			w.blank.Dragged(&fyne.DragEvent{PointEvent: fyne.PointEvent{Position: at}})
			told = w.blank.Overlay.Beside
		}
		keepPicture(t, "handle-"+name, w.win.Canvas().Capture)
		w.blank.DragEnd()
		w.blank.MouseUp(&desktop.MouseEvent{Button: desktop.MouseButtonPrimary})
		return told
	}
	t.Fatalf("no handle %s", name)
	return ""
}

func TestAFieldsAreaAndTheRimAreTakenByHandles(t *testing.T) {
	w, _ := openOn(t, app.NewDocument(threeFields(t)), fyne.NewSize(1400, 900), "light")
	onlyLaying(w)
	w.win.Canvas().Capture()
	require.Empty(t, w.blank.Overlay.Area, "nothing was chosen")
	w.ed.SelectField(1)
	require.Len(t, w.blank.Overlay.Area, 1)
	before := w.ed.Now()
	told := dragHandle(t, w, "fields[1].area.to_mm", -10, 3)
	require.InDelta(t, 50, w.ed.Now().Fields[1].Area.ToMM, 0.15)
	require.Contains(t, told, "18 to ")
	require.Equal(t, 18.0, w.ed.Now().Fields[1].Area.FromMM)
	w.undo()
	require.True(t, app.Equal(before, w.ed.Now()), "a drag is one step")

	w.ed.SelectField(0)
	dragHandle(t, w, "fields[0].area.middle", -20, 2)
	a := w.ed.Now().Fields[0].Area
	require.InDelta(t, -20, a.XMM, 0.15)
	require.InDelta(t, 2, a.YMM, 0.15)
	told = dragHandle(t, w, "fields[0].area.size", 3, 0)
	require.InDelta(t, 30, w.ed.Now().Fields[0].Area.WidthMM, 0.2)
	require.Contains(t, told, " mm")

	w.ed.Choose(app.ChoiceOf("fields[].area.shape", 0), pattern.OvalShape)
	require.Len(t, w.blank.Overlay.Area, 1)
	dragHandle(t, w, "fields[0].area.size", 2, -4)
	a = w.ed.Now().Fields[0].Area
	require.InDelta(t, 4+30, a.WidthMM, 1)
	require.Less(t, a.HeightMM, 27.0)
	dragHandle(t, w, "fields[0].area.turn_deg", 0, 9)
	require.InDelta(t, 23, w.ed.Now().Fields[0].Area.RotationDeg, 4)
	require.Empty(t, w.ed.Problem)

	w.ed.Choose(app.ChoiceOf("fields[].area.shape", 0), pattern.StripShape)
	from := w.ed.Now().Fields[0].Area.FromMM
	dragHandle(t, w, "fields[0].area.from_mm", 0, 3)
	require.InDelta(t, from+3, w.ed.Now().Fields[0].Area.FromMM, 0.15)

	w.ed.SelectField(2)
	require.Empty(t, w.blank.Overlay.Area, "the whole band is not outlined")
	told = dragHandle(t, w, "rules.rim_mm", 0, -2)
	require.InDelta(t, 3.8, w.ed.Now().Rules.RimMM, 0.1)
	require.Contains(t, told, "rim 3.")
	w.ed.SelectField(1)
	require.NotEmpty(t, w.blank.Overlay.Area)
	w.escape()
	require.Empty(t, w.blank.Overlay.Area)
	require.Len(t, w.blank.Overlay.Handles, 1)
	w.ed.SelectField(1)
	w.showTab(app.BandPage)
	require.Empty(t, w.blank.Overlay.Handles)
	require.Empty(t, w.blank.Overlay.Area)
}
