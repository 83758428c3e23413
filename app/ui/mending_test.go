package ui

import (
	"image"
	"testing"

	"fretband/app"
	"fretband/app/ui/kit"
	"fretband/pattern"
	"fretband/pattern/check"
	"fretband/pattern/project"

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
	d.Rules.RimMM = 0.8
	d.Rules.Process, d.Rules.BridgeMM = "saw", 0.9
	w, _ := openOn(t, app.NewDocument(d), fyne.NewSize(1400, 900), dress)
	w.deepen()
	return w
}

// rowOf returns the row of a check's first finding.
func rowOf(t *testing.T, w *Window, key string) *findingRow {
	t.Helper()
	w.deepen()
	for _, r := range w.findings.list.rows {
		if r.f.Kind.Key == key {
			return r
		}
	}
	t.Fatalf("no finding %q", key)
	return nil
}

// has reports whether there is a finding of a check, once the hand has rested.
func has(w *Window, key string) bool {
	w.deepen()
	for _, f := range w.findings.found {
		if f.Kind.Key == key {
			return true
		}
	}
	return false
}

func rowsOf(w *Window, key string, least check.Severity) (rows []*findingRow) {
	for _, r := range w.findings.list.rows {
		if r.f.Kind.Key == key && r.f.Severity >= least {
			rows = append(rows, r)
		}
	}
	return rows
}

func TestAFindingIsMendedWithOneClickAndOneUndo(t *testing.T) {
	w := faulty(t, "light")
	keepPicture(t, "findings-light", func() image.Image { return w.win.Canvas().Capture() })
	was := w.doc.Now()
	r := rowOf(t, w, "process-bridges")
	b := r.buttonTitled("Widen the bridge to 1.2 mm")
	require.NotNil(t, b, "offered without a click, since it is open")
	require.True(t, b.Size().Width > 100 && b.Position().Y > 20 && b.Position().Y+b.Size().Height < r.Size().Height, "it stands in its row")
	test.Tap(b)
	require.False(t, has(w, "process-bridges"))
	want := was
	want.Rules.BridgeMM = 1.2
	require.True(t, app.Equal(want, w.doc.Now()), "nothing else is changed")
	w.undo()
	require.True(t, app.Equal(was, w.doc.Now()))
	require.True(t, has(w, "process-bridges"))

	// Of a note the ways of mending come once it is chosen.
	r = rowOf(t, w, "rim")
	require.Empty(t, r.buttons)
	r.Tapped(nil)
	require.NotNil(t, r.buttonTitled("Set the rim to 0.9 mm"))
	require.Nil(t, r.buttonTitled("Let it stand\u2026"), "a note asks for nothing")
	require.Contains(t, r.said[1].Text, "bridge too")
}

func TestAWayOfMendingThatIsNoLongerOfThisDesignIsLetGo(t *testing.T) {
	w := faulty(t, "light")
	r := rowOf(t, w, "ends")
	f := r.f
	typeInto(w, w.controls.rowsOf["rules.rim_mm"].entry, "3")
	was := w.doc.Now()
	old := f.Fixes[0]
	w.result.Design.Name = "another"
	w.mend(f, old)
	require.True(t, app.Equal(was, w.doc.Now()))
}

func TestAFindingIsLetStandWithAReasonAndOpenedAgain(t *testing.T) {
	w := faulty(t, "dark")
	r := rowOf(t, w, "ends")
	require.Nil(t, r.buttonTitled("Let it stand\u2026"), "not before it is chosen")
	r.Tapped(nil)
	test.Tap(r.buttonTitled("Let it stand\u2026"))
	d := w.dialogs.Top()
	require.Equal(t, "Let it stand", d.Title)
	require.True(t, w.dialogs.Enter())
	require.Same(t, d, w.dialogs.Top(), "without a reason it asks again")
	keepPicture(t, "let-it-stand", func() image.Image { return w.win.Canvas().Capture() })
	test.Type(d.Fields[0].Object.(*kit.Entry), "a bezel covers them")
	require.True(t, w.dialogs.Enter())
	require.Empty(t, w.dialogs.Open)
	require.Equal(t, []string{"a bezel covers them"}, reasons(w.doc.Now()))
	r = rowOf(t, w, "ends")
	require.Equal(t, "Let stand: a bezel covers them", r.said[2].Text)
	require.Contains(t, w.findings.head.Text, "1 let stand")
	for _, x := range w.findings.list.rows[:r.index] {
		require.True(t, x.f.Open(), "it stands below what is open")
	}
	require.Nil(t, r.buttonTitled("Round the corners by 2 mm"))
	keepPicture(t, "findings-dark", func() image.Image { return w.win.Canvas().Capture() })
	if !r.chosen() {
		r.Tapped(nil)
	}
	test.Tap(r.buttonTitled("No longer let it stand"))
	require.Empty(t, w.doc.Now().Accepted)
	require.NotContains(t, w.findings.head.Text, "let stand")
	w.undo()
	require.Len(t, w.doc.Now().Accepted, 1)
	w.undo()
	require.Empty(t, w.doc.Now().Accepted)
}

func reasons(d pattern.Design) (all []string) {
	for _, a := range d.Accepted {
		all = append(all, a.Reason)
	}
	return all
}

func TestAClickOnAFindingMarksItsPlaceOnBlankAndBentBand(t *testing.T) {
	w := faulty(t, "light")
	w.win.Canvas().Capture()
	for _, name := range []string{"thinnest-bridge", "weakest-way-across"} {
		w.bent.Reset()
		w.bent.Camera.Yaw += 3
		r := rowOf(t, w, name)
		r.Tapped(nil)
		require.Equal(t, r.f.At, w.blank.marks.places)
		require.NotEmpty(t, w.bent.Ringed)
	}
	keepPicture(t, "finding-bent", func() image.Image { return w.win.Canvas().Capture() })
	w.escape()
	require.Nil(t, w.blank.marks.places)
	require.Empty(t, w.bent.Ringed)
	require.Equal(t, -1, w.findings.selected)

	// The marks of a chosen finding follow the design.
	rowOf(t, w, "thinnest-bridge").Tapped(nil)
	was := w.blank.marks.places[0]
	w.slide(w.controls.rowsOf["rules.bridge_mm"].n, 2)
	require.Equal(t, "thinnest-bridge", w.findings.found[w.findings.selected].Kind.Key)
	require.NotEqual(t, was, w.blank.marks.places[0])
	require.Equal(t, w.scene.report.Thinnest.A, w.blank.marks.places[0])
}

func near8(a uint32, b uint8) bool {
	d := int(a>>8) - int(b)
	return d < 40 && d > -40
}

func TestWhatIsLetStandHasAHollowSign(t *testing.T) {
	d := kit.DressNamed("light")
	for _, s := range []check.Severity{check.Caution, check.Breach} {
		c := d.Severity(s)
		r, _, _, _ := drawSign(s, 33, c).At(16, 20).RGBA()
		require.True(t, near8(r, c.R), s)
		r, _, _, _ = drawAcceptedSign(s, 33, c, d.Panel).At(16, 20).RGBA()
		require.True(t, near8(r, d.Panel.R), s)
	}
}

func TestTheProcessTellsItsUsualLimitsAndChangesNoRule(t *testing.T) {
	w, _ := usual(t)
	f := w.controls.fields
	require.Empty(t, f.usual.Text)
	was := w.doc.Now()
	w.pickOption(app.ChoiceOf("rules.process"), "etch")
	// 1.2 mm: web 1.0 and hole 1.1 times the sheet, inner radius the sheet's.
	require.Equal(t, "Usual for 1.2 mm: bridge 1.2, corner 1.2, smallest 1.32 mm.", f.usual.Text)
	require.Contains(t, f.usual.Tip, "metaletching.com")
	require.True(t, f.usual.Visible())
	was.Rules.Process = "etch"
	require.True(t, app.Equal(was, w.doc.Now()))
	require.True(t, has(w, "sharp-corner"))
	for _, r := range w.figures.rows {
		if r.name.Text == "Saw blade" || r.name.Text == "Pilot drill" {
			require.False(t, r.box.Visible(), "no saw comes near it")
		}
	}
	keepPicture(t, "process", func() image.Image { return w.win.Canvas().Capture() })
	w.pickOption(app.ChoiceOf("rules.process"), "")
	require.False(t, f.usual.Visible())
	require.False(t, has(w, "corner-and-process"))
	require.Empty(t, rowsOf(w, "sharp-corner", check.Caution))
}

func TestTheMakersOwnRatesGiveTheTime(t *testing.T) {
	w, _ := usual(t)
	row := func(name string) *figureRow {
		for _, r := range w.figures.rows {
			if r.name.Text == name {
				return r
			}
		}
		t.Fatal(name)
		return nil
	}
	require.False(t, row("Cutting takes").box.Visible(), "no rate, no time")
	w.turnTo(metalPage)
	typeInto(w, w.controls.rowsOf["work.cut_mm_min"].entry, "20")
	typeInto(w, w.controls.rowsOf["work.blade_mm"].entry, "500")
	r := w.result.Report
	require.InDelta(t, r.CutLength/20, r.Making.Minutes(), 1e-9)
	require.True(t, row("Cutting takes").box.Visible())
	require.NotEmpty(t, row("Blades").value.Text)
	keepPicture(t, "bench", func() image.Image { return w.win.Canvas().Capture() })
}

func TestTheFilesAreForTheDesignsProcess(t *testing.T) {
	w := faulty(t, "light")
	w.settings.HandOver.Process = "laser"
	w.handOver()
	d := w.dialogs.Top()
	require.NotNil(t, d)
	keepPicture(t, "handover-process", func() image.Image { return w.win.Canvas().Capture() })
	dir := t.TempDir()
	for _, f := range d.Fields {
		if f.Name == "folder" {
			f.Object.(*kit.Entry).SetText(dir)
		}
	}
	require.True(t, w.dialogs.Enter())
	require.Equal(t, "saw", w.settings.HandOver.Process)
}
