package ui

import (
	"testing"

	"fretband/app"
	"fretband/app/ui/kit"
	"fretband/unroll/plane"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/test"
	"github.com/stretchr/testify/require"
)

// The second button offers what can be done there, and so do the keys for what is selected.
func TestTheBlankOffersWhatCanBeDoneThere(t *testing.T) {
	w, log := usual(t)
	right := func(p fyne.Position) {
		e := &desktop.MouseEvent{PointEvent: fyne.PointEvent{Position: p}, Button: desktop.MouseButtonSecondary}
		w.blank.MouseDown(e)
		w.blank.MouseUp(e)
	}
	right(at(w, 40))
	require.NotNil(t, w.win.Canvas().Overlays().Top())
	require.Contains(t, log.String(), "offered x_mm=")
	require.Equal(t, []int{40}, picked(w))
	w.win.Canvas().Overlays().Remove(w.win.Canvas().Overlays().Top())
	// By keys: a step, then the menu, then one of the same actions.
	w.win.Canvas().Focus(w.blank)
	w.blank.TypedKey(&fyne.KeyEvent{Name: fyne.KeyRight})
	require.Len(t, picked(w), 1)
	require.NotEqual(t, 40, picked(w)[0])
	w.blank.TypedKey(&fyne.KeyEvent{Name: fyne.KeyF10})
	require.NotNil(t, w.win.Canvas().Overlays().Top())
	w.win.Canvas().Overlays().Remove(w.win.Canvas().Overlays().Top())
	n := len(w.ed.Scene.Sheet.Openings)
	w.blank.TypedKey(&fyne.KeyEvent{Name: fyne.KeyReturn}) // its row
	many := len(picked(w))
	require.Greater(t, many, 5)
	w.blank.TypedKey(&fyne.KeyEvent{Name: fyne.KeyL})
	require.Len(t, w.ed.Scene.Sheet.Openings, n-many)
	w.undo()
	require.Len(t, w.ed.Scene.Sheet.Openings, n)
}

// With nothing picked the arrows move the drawing and Enter picks what is in the middle.
func TestEnterPicksWhatIsInTheMiddle(t *testing.T) {
	w, _ := usual(t)
	w.typed(&fyne.KeyEvent{Name: fyne.KeyReturn})
	require.Len(t, picked(w), 1)
	middle := w.ed.Scene.Sheet.Openings[picked(w)[0]].Box.Centre()
	require.Less(t, middle.Dist(plane.Point{}), 8.0)
	// A long way to the right, and it is still in sight.
	for range 60 {
		w.blank.TypedKey(&fyne.KeyEvent{Name: fyne.KeyRight})
	}
	p := placeOn(w, w.ed.Scene.Sheet.Openings[picked(w)[0]].Box.Centre())
	require.True(t, p.X > 0 && p.X < w.blank.Size().Width)
	require.Greater(t, w.ed.Scene.Sheet.Openings[picked(w)[0]].Box.Centre().X, 40.0)
}

// While an entry or anything else on a page has the focus, bare letters change nothing.
func TestBareLettersDoNothingOnAPage(t *testing.T) {
	w, log := usual(t)
	c := w.win.Canvas()
	for p := app.BandPage; p <= app.HandPage; p++ {
		w.showTab(p)
		c.Unfocus()
		seen := map[fyne.Focusable]bool{}
		for range 60 {
			test.FocusNext(c)
			f := c.Focused()
			if f == nil || seen[f] {
				break
			}
			seen[f] = true
			if f == fyne.Focusable(w.blank) || f == fyne.Focusable(w.bent) {
				continue // there the letters are meant
			}
			was, dress, page := w.ed.Now(), w.settings.Theme, w.ed.Page
			if e, ok := f.(*kit.Entry); ok && e.Disabled() {
				continue
			}
			log.Reset()
			for l := 'a'; l <= 'z'; l++ {
				f.TypedKey(&fyne.KeyEvent{Name: fyne.KeyName(string(l - 32))})
			}
			require.True(t, app.Equal(was, w.ed.Now()))
			require.Equal(t, dress, w.settings.Theme)
			require.Equal(t, page, w.ed.Page)
			require.Empty(t, w.kit.Dialogs.Open)
			require.NotContains(t, log.String(), "tool shape")
			require.NotContains(t, log.String(), "stress shown")
		}
		require.Greater(t, len(seen), 10, "page %d", p)
	}
}

// The wheel over an entry that has no focus scrolls the page.
func TestTheWheelScrollsThePageOverEveryEntry(t *testing.T) {
	w, _ := usual(t)
	w.win.Resize(fyne.NewSize(1400, 650))
	for p := app.BandPage; p <= app.HandPage; p++ {
		w.showTab(p)
		w.win.Canvas().Unfocus()
		var entries []*kit.Entry
		var look func(o fyne.CanvasObject)
		look = func(o fyne.CanvasObject) {
			switch x := o.(type) {
			case *kit.Entry:
				entries = append(entries, x)
			case *fyne.Container:
				for _, c := range x.Objects {
					if c.Visible() {
						look(c)
					}
				}
			}
		}
		scroll := w.controls.Pages[p].Scroll
		look(scroll.Content)
		if scroll.Content.MinSize().Height <= scroll.Size().Height {
			continue
		}
		for _, e := range entries {
			was := w.ed.Now()
			scroll.ScrollToTop()
			e.Scrolled(&fyne.ScrollEvent{Scrolled: fyne.NewDelta(0, -20)})
			require.Positive(t, scroll.Offset.Y, "page %d, an entry with %q", p, e.Text)
			require.True(t, app.Equal(was, w.ed.Now()))
		}
	}
}
