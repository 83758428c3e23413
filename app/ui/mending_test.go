package ui

import (
	"image"
	"testing"

	"fretband/app"
	"fretband/app/ui/kit"
	"fretband/app/ui/pages"
	"fretband/pattern"
	"fretband/pattern/project"
	"fretband/unroll/plane"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"
	"github.com/stretchr/testify/require"
)

// faulty is a window on a gallery design with some faults.
func faulty(t *testing.T, dress string) *Window {
	t.Helper()
	d, err := project.GalleryDesign("harbour-cuff")
	require.NoError(t, err)
	d.Band.EndCornerMM = 0
	d.Rules.RimMM = 0.7
	d.Rules.Process, d.Rules.BridgeMM = "saw", 0.8
	w, _ := openOn(t, app.NewDocument(d), fyne.NewSize(1400, 900), dress)
	w.laying.Deepen()
	return w
}

// rowOf returns the row of a check's first finding.
func rowOf(t *testing.T, w *Window, key string) *pages.FindingRow {
	t.Helper()
	w.laying.Deepen()
	for _, r := range w.findings.List.Rows {
		if r.Finding.Kind.Key == key {
			return r
		}
	}
	t.Fatalf("no finding %q", key)
	return nil
}

// has reports whether there is a finding of a check, once the hand has rested.
func has(w *Window, key string) bool {
	w.laying.Deepen()
	for _, f := range w.findings.Found {
		if f.Kind.Key == key {
			return true
		}
	}
	return false
}

func TestAFindingIsMendedWithOneClickAndOneUndo(t *testing.T) {
	w := faulty(t, "light")
	keepPicture(t, "findings-light", func() image.Image { return w.win.Canvas().Capture() })
	was := w.ed.Now()
	r := rowOf(t, w, "process-bridges")
	b := r.ButtonTitled("Widen the bridge to 1.2 mm")
	require.NotNil(t, b, "offered without a click, since it is open")
	require.True(t, b.Size().Width > 100 && b.Position().Y > 0 && b.Position().Y+b.Size().Height < r.Size().Height, "it stands in its row")
	require.True(t, b.Position().X+b.Size().Width <= r.Size().Width, "and ends there")
	test.Tap(b)
	require.False(t, has(w, "process-bridges"))
	want := was
	want.Rules.BridgeMM = 1.2
	require.True(t, app.Equal(want, w.ed.Now()), "nothing else is changed")
	w.undo()
	require.True(t, app.Equal(was, w.ed.Now()))
	require.True(t, has(w, "process-bridges"))

	// Of a note the ways of mending come once it is chosen.
	r = rowOf(t, w, "rim")
	require.Empty(t, r.Buttons)
	r.Tapped(nil)
	require.NotNil(t, r.ButtonTitled("Set the rim to 0.8 mm"))
	require.Nil(t, r.ButtonTitled("Accept\u2026"), "a note asks for nothing")
	require.Contains(t, r.Said[1].Text, "bridge too")
}

// A finding is one line until it is clicked, and again when it is clicked once more; in the
// line, no words run into each other.
func TestAFindingIsOneLineOpenedByAClick(t *testing.T) {
	w := faulty(t, "light")
	for _, size := range []fyne.Size{{Width: 1400, Height: 870}, {Width: 1100, Height: 670}} {
		w.win.Resize(size)
		w.win.Canvas().Capture()
		for _, r := range w.findings.List.Rows {
			closed := r.Size().Height
			require.Less(t, closed, float32(36), r.Finding.Kind.Key)
			require.LessOrEqual(t, len(r.Buttons), 1)
			word := fyne.MeasureText(r.Line(), 12, fyne.TextStyle{Bold: true}).Width + 34
			if len(r.Buttons) == 1 {
				require.LessOrEqual(t, word, r.Buttons[0].Position().X, r.Finding.Kind.Key)
			}
			if r.Value.Text != "" {
				require.LessOrEqual(t, word, r.Size().Width-14-fyne.MeasureText(r.Value.Text, 12, fyne.TextStyle{}).Width, r.Finding.Kind.Key)
			}
			test.Tap(r)
			require.True(t, r.Chosen())
			require.Greater(t, r.Size().Height, 2*closed)
			require.Equal(t, r.Finding.What, r.Said[0].Text)
			test.Tap(r)
			require.False(t, r.Chosen())
			require.Equal(t, closed, r.Size().Height)
		}
	}
}

func TestAWayOfMendingThatIsNoLongerOfThisDesignIsLetGo(t *testing.T) {
	w := faulty(t, "light")
	r := rowOf(t, w, "ends")
	f := r.Finding
	typeInto(w, w.controls.RowsOf["rules.rim_mm"].Entry, "3")
	was := w.ed.Now()
	old := f.Fixes[0]
	w.ed.Scene.Sheet.Design.Name = "another"
	w.findings.Mend(f, old)
	require.True(t, app.Equal(was, w.ed.Now()))
}

func TestAFindingIsLetStandWithAReasonAndOpenedAgain(t *testing.T) {
	w := faulty(t, "dark")
	r := rowOf(t, w, "ends")
	require.Nil(t, r.ButtonTitled("Accept\u2026"), "not before it is chosen")
	r.Tapped(nil)
	test.Tap(r.ButtonTitled("Accept\u2026"))
	d := w.kit.Dialogs.Top()
	require.Equal(t, "Accept the finding", d.Title)
	require.True(t, w.kit.Dialogs.Enter())
	require.Same(t, d, w.kit.Dialogs.Top(), "without a reason it asks again")
	keepPicture(t, "let-it-stand", func() image.Image { return w.win.Canvas().Capture() })
	test.Type(d.Fields[0].Object.(*kit.Entry), "a bezel covers them")
	require.True(t, w.kit.Dialogs.Enter())
	require.Empty(t, w.kit.Dialogs.Open)
	require.Equal(t, []string{"a bezel covers them"}, reasons(w.ed.Now()))
	r = rowOf(t, w, "ends")
	require.Equal(t, "Accepted: a bezel covers them", r.Said[2].Text)
	require.Contains(t, w.findings.Head.Text, "1 accepted")
	for _, x := range w.findings.List.Rows[:r.Index] {
		require.True(t, x.Finding.Open(), "it stands below what is open")
	}
	require.Nil(t, r.ButtonTitled("Round the corners by 2 mm"))
	keepPicture(t, "findings-dark", func() image.Image { return w.win.Canvas().Capture() })
	if !r.Chosen() {
		r.Tapped(nil)
	}
	test.Tap(r.ButtonTitled("Take back"))
	require.Empty(t, w.ed.Now().Accepted)
	require.NotContains(t, w.findings.Head.Text, "accepted")
	w.undo()
	require.Len(t, w.ed.Now().Accepted, 1)
	w.undo()
	require.Empty(t, w.ed.Now().Accepted)
}

func reasons(d pattern.Design) (all []string) {
	for _, a := range d.Accepted {
		all = append(all, a.Reason)
	}
	return all
}

func TestAClickOnAFindingMarksItsPlaceOnBlankAndBentBand(t *testing.T) {
	w := faulty(t, "light")
	for _, name := range []string{"ends", "process-bridges"} {
		w.bent.Reset()
		w.bent.Camera.Yaw += 3
		r := rowOf(t, w, name)
		r.Tapped(nil)
		require.Equal(t, r.Finding.At, w.blank.Overlay.Rings)
		require.NotEmpty(t, w.bent.Ringed)
	}
	keepPicture(t, "finding-bent", func() image.Image { return w.win.Canvas().Capture() })
	w.escape()
	require.Nil(t, w.blank.Overlay.Rings)
	require.Empty(t, w.bent.Ringed)
	require.Equal(t, -1, w.findings.Selected)

	// The marks of a chosen finding follow the design.
	w.ed.Slide(w.controls.RowsOf["rules.bridge_mm"].Number, 0.5)
	rowOf(t, w, "thinnest-bridge").Tapped(nil)
	was := w.blank.Overlay.Rings[0]
	w.ed.Slide(w.controls.RowsOf["rules.bridge_mm"].Number, 0.6)
	require.Equal(t, "thinnest-bridge", w.findings.Found[w.findings.Selected].Kind.Key)
	require.NotEqual(t, was, w.blank.Overlay.Rings[0])
	require.Equal(t, w.ed.Scene.Report.Thinnest.A, w.blank.Overlay.Rings[0])
}

func TestTheProcessTellsItsUsualLimitsAndChangesNoRule(t *testing.T) {
	w, _ := usual(t)
	f := w.controls.Fields
	require.Empty(t, f.Usual.Text)
	was := w.ed.Now()
	w.ed.Choose(app.ChoiceOf("rules.process"), "etch")
	// 1.2 mm: web 1.0 and hole 1.1 times the sheet, inner radius the sheet's.
	require.Equal(t, "Usual for 1.2 mm: bridge 1.2, corner 1.2, smallest 1.32 mm.", f.Usual.Text)
	require.Contains(t, f.Usual.Tip, "metaletching.com")
	require.True(t, f.Usual.Visible())
	was.Rules.Process = "etch"
	require.True(t, app.Equal(was, w.ed.Now()))
	require.True(t, has(w, "sharp-corner"))
	for _, r := range w.figures.Rows {
		if r.Name.Text == "Saw blade" || r.Name.Text == "Pilot drill" {
			require.False(t, r.Box.Visible(), "no saw comes near it")
		}
	}
	keepPicture(t, "process", func() image.Image { return w.win.Canvas().Capture() })
	w.ed.Choose(app.ChoiceOf("rules.process"), "")
	require.False(t, f.Usual.Visible())
	require.False(t, has(w, "sharp-corner"))
}

func TestAClickOnAFigureMarksItsPlaces(t *testing.T) {
	w := faulty(t, "light")
	rowOf(t, w, "ends").Tapped(nil)
	for _, r := range w.figures.Rows {
		if r.Name.Text != "Weakest across" {
			continue
		}
		r.Press.Tapped(nil)
		require.Equal(t, -1, w.findings.Selected, "one thing is marked at a time")
		at := func() (at []plane.Point) {
			for _, b := range w.ed.Scene.Report.Deep.WeakestPaths.Across.Bridges {
				at = append(at, b.A, b.B)
			}
			return at
		}
		require.Equal(t, at(), w.blank.Overlay.Rings)
		require.NotEmpty(t, w.bent.Ringed)
		was := at()
		w.ed.Slide(w.controls.RowsOf["rules.bridge_mm"].Number, 2)
		w.laying.Deepen()
		require.NotEqual(t, was, at())
		require.Equal(t, at(), w.blank.Overlay.Rings, "the marks follow the design")
		w.escape()
		require.Nil(t, w.blank.Overlay.Rings)
		w.ed.Slide(w.controls.RowsOf["rules.bridge_mm"].Number, 1.5)
		require.Nil(t, w.blank.Overlay.Rings)
		return
	}
	t.Fatal("there is no such figure")
}

func TestTheMakersOwnRatesGiveTheTime(t *testing.T) {
	w, _ := usual(t)
	row := func(name string) *pages.FigureRow {
		for _, r := range w.figures.Rows {
			if r.Name.Text == name {
				return r
			}
		}
		t.Fatal(name)
		return nil
	}
	require.False(t, row("Cutting takes").Box.Visible(), "no rate, no time")
	w.showTab(app.MetalPage)
	typeInto(w, w.controls.RowsOf["work.cut_mm_min"].Entry, "20")
	typeInto(w, w.controls.RowsOf["work.blade_mm"].Entry, "500")
	r := w.ed.Scene.Report
	require.InDelta(t, r.CutLength/20, r.Making.Minutes(), 1e-9)
	require.True(t, row("Cutting takes").Box.Visible())
	require.NotEmpty(t, row("Blades").Value.Text)
	keepPicture(t, "bench", func() image.Image { return w.win.Canvas().Capture() })
}

func TestTheFilesAreForTheDesignsProcess(t *testing.T) {
	w := faulty(t, "light")
	w.settings.HandOver.Process = "laser"
	w.handOver.Ask()
	d := w.kit.Dialogs.Top()
	require.NotNil(t, d)
	keepPicture(t, "handover-process", func() image.Image { return w.win.Canvas().Capture() })
	dir := t.TempDir()
	for _, f := range d.Fields {
		if f.Name == "folder" {
			f.Object.(*kit.Entry).SetText(dir)
		}
	}
	require.True(t, w.kit.Dialogs.Enter())
	require.Equal(t, "saw", w.settings.HandOver.Process)
}
