package ui

import (
	"testing"

	"fretband/app"
	"fretband/app/ui/kit"

	"fyne.io/fyne/v2"
	"github.com/stretchr/testify/require"
)

// overlap reports whether two objects of one container share more than a border.
func overlap(a, b fyne.CanvasObject) bool {
	const border = kit.DividerSize / 2
	p, q, s, t := a.Position(), b.Position(), a.Size(), b.Size()
	return p.X+s.Width > q.X+border && q.X+t.Width > p.X+border && p.Y+s.Height > q.Y+border && q.Y+t.Height > p.Y+border
}

// Panes fill the window without lying over each other, whatever its size and theirs.
func TestPanesShareTheWindow(t *testing.T) {
	w, _ := usual(t)
	f := w.frame
	for _, size := range []fyne.Size{f.MinSize(nil), {Width: 960, Height: 500}, {Width: 1000, Height: 600}, {Width: 1366, Height: 700}, {Width: 1920, Height: 1000}, {Width: 3840, Height: 2100}} {
		for _, folded := range []bool{false, true} {
			for _, p := range []app.Panes{{}, {BentLarge: true}, {Upper: 0.99, Controls: 9999, Figures: 9999, Findings: 9999}, {Upper: 0.01, Controls: 1, Figures: 1, Findings: 1},
				{Controls: 500}, {Figures: 500}, {Findings: 500}, {Controls: 400, Figures: 400, Findings: 400}} {
				w.ed.Folded, w.settings.Panes = folded, p
				f.root.Resize(size)
				f.root.Refresh()
				panes := []fyne.CanvasObject{f.bar, f.blank, f.bent, f.controls, f.turns, f.figures, f.found, f.status}
				area := float32(0)
				for i, a := range panes {
					if !a.Visible() {
						continue
					}
					at, s := a.Position(), a.Size()
					require.GreaterOrEqual(t, at.X, float32(0))
					require.LessOrEqual(t, at.X+s.Width, size.Width+0.5, "pane %d at %v, %+v", i, size, p)
					require.LessOrEqual(t, at.Y+s.Height, size.Height+0.5, "pane %d at %v, %+v", i, size, p)
					require.GreaterOrEqual(t, s.Width, float32(leastMiddle-1), "pane %d at %v, %+v", i, size, p)
					area += s.Width * s.Height
					for _, b := range panes[i+1:] {
						require.False(t, b.Visible() && overlap(a, b), "panes %d at %v, %+v", i, size, p)
					}
				}
				require.InEpsilon(t, size.Width*size.Height, area, 0.01, "%v %+v", size, p)
				require.NotEqual(t, folded, f.controls.Visible())
			}
		}
	}
}

// A border follows the hand and the arrow keys, and its place is kept for the next start.
func TestBordersAreDraggedAndStay(t *testing.T) {
	w, _ := usual(t)
	f := w.frame
	for _, c := range []struct {
		d    *kit.Divider
		at   func() float32
		move fyne.Delta
	}{
		{f.level, func() float32 { return f.blank.Size().Height }, fyne.NewDelta(0, 40)},
		{f.upon[0], func() float32 { return f.controls.Size().Width }, fyne.NewDelta(40, 0)},
		{f.upon[1], func() float32 { return f.figures.Position().X }, fyne.NewDelta(-40, 0)},
		{f.upon[2], func() float32 { return f.found.Position().X }, fyne.NewDelta(30, 0)},
	} {
		was := c.at()
		for range 10 {
			c.d.Dragged(&fyne.DragEvent{Dragged: fyne.NewDelta(c.move.DX/10, c.move.DY/10)})
		}
		c.d.DragEnd()
		require.InDelta(t, was+c.move.DX+c.move.DY, c.at(), 1)
		kept, err := app.ReadSettings(w.files.Dir)
		require.NoError(t, err)
		require.Equal(t, w.settings.Panes, kept.Panes)
		require.NotZero(t, kept.Panes)
		// The arrow keys take it back, step by step.
		for range 20 {
			c.d.TypedKey(&fyne.KeyEvent{Name: fyne.KeyLeft})
			c.d.TypedKey(&fyne.KeyEvent{Name: fyne.KeyUp})
		}
		require.NotEqual(t, was+c.move.DX+c.move.DY, c.at())
		c.d.DoubleTapped(nil)
		require.InDelta(t, was, c.at(), 1)
	}
	require.Zero(t, w.settings.Panes)
}

// In a narrow window figures and findings take turns; what is gone to is shown.
func TestFindingsComeForwardWhenOneIsGoneTo(t *testing.T) {
	w, _ := usual(t)
	w.win.Resize(fyne.NewSize(1000, 650))
	f := w.frame
	require.True(t, f.figures.Visible())
	require.False(t, f.found.Visible())
	w.ed.Choose(app.ChoiceOf("rules.process"), "saw")
	typeInto(w, w.controls.RowsOf["rules.bridge_mm"].Entry, "0.3")
	require.NotEmpty(t, w.findings.Found)
	require.Contains(t, f.turn[1].Text, "Findings: ")
	w.findings.Next(1)
	require.True(t, f.found.Visible())
	require.False(t, f.figures.Visible())
}

// The bent band takes the large place and gives it back.
func TestTheBentBandTakesTheLargePlace(t *testing.T) {
	w, log := usual(t)
	large := w.blank.Size()
	w.typed(&fyne.KeyEvent{Name: fyne.KeyF8})
	require.Equal(t, large.Width, w.bentPane.Root.Size().Width)
	require.Less(t, w.blank.Size().Width, large.Width/2)
	require.True(t, w.settings.Panes.BentLarge)
	require.Contains(t, log.String(), "large bent=true")
	w.typed(&fyne.KeyEvent{Name: fyne.KeyF8})
	require.Equal(t, large, w.blank.Size())
}

// One key shows the band before it is pierced, and once more as it is.
func TestPlainAndPiercedAreComparedByOneKey(t *testing.T) {
	w, _ := usual(t)
	pierced := w.bent.Solid().Triangles
	at := w.bent.Camera
	w.typed(&fyne.KeyEvent{Name: fyne.KeyZ})
	require.True(t, w.bent.Solid().Plain)
	require.Less(t, w.bent.Solid().Triangles, pierced/4)
	require.Equal(t, "Plain, before it is pierced", w.bentPane.Drawn.Text)
	require.InDelta(t, at.Zoom, w.bent.Camera.Zoom, 0.02*at.Zoom, "nothing jumps")
	// An edit is followed all the same.
	require.NotEmpty(t, w.ed.Scene.Sheet.Openings)
	typeInto(w, w.controls.RowsOf["rules.rim_mm"].Entry, "3")
	require.True(t, w.bent.Solid().Plain)
	w.escape()
	w.escape()
	require.False(t, w.bent.Solid().Plain)
	require.Greater(t, w.bent.Solid().Triangles, pierced/2)
	require.Empty(t, w.bentPane.Drawn.Text)
}
