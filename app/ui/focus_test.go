package ui

import (
	"fmt"
	"image"
	"testing"

	"fretband/app"
	"fretband/app/ui/kit"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/test"
	"github.com/stretchr/testify/require"
)

// untouchable returns what a hand can tap in a tree of objects and the keyboard can't reach.
func untouchable(o fyne.CanvasObject) (all []string) {
	if !o.Visible() {
		return nil
	}
	switch x := o.(type) {
	case *fyne.Container:
		for _, c := range x.Objects {
			all = append(all, untouchable(c)...)
		}
	case *container.Scroll:
		return untouchable(x.Content)
	case *kit.Entry, *kit.ChoiceBox:
		return nil
	case fyne.Widget:
		_, tapped := o.(fyne.Tappable)
		if _, ok := o.(fyne.Focusable); tapped && !ok {
			all = append(all, fmt.Sprintf("%T", o))
		}
		for _, c := range test.WidgetRenderer(x).Objects() {
			all = append(all, untouchable(c)...)
		}
	}
	return all
}

// differing counts the pixels in which two pictures differ, in a part of them.
func differing(a, b image.Image, r rect) int {
	n := 0
	for y := int(r.y0); y < int(r.y1); y++ {
		for x := int(r.x0); x < int(r.x1); x++ {
			if a.At(x, y) != b.At(x, y) {
				n++
			}
		}
	}
	return n
}

// All that can be tapped can be reached by Tab, and shows that it has the keyboard.
func TestTheFocusReachesAllAndIsSeen(t *testing.T) {
	const dress = "light" // the dark one paints the same with other colours
	w, _ := openTest(t, "harbour-cuff", fyne.NewSize(1400, 1300), dress)
	tried := map[fyne.Focusable]bool{} // on an earlier page
	c := w.win.Canvas()
	require.Empty(t, untouchable(c.Content()))
	for p := app.BandPage; p <= app.HandPage; p++ {
		w.showTab(p)
		c.Unfocus()
		bare := c.Capture()
		seen := map[fyne.Focusable]bool{}
		for {
			test.FocusNext(c)
			f := c.Focused()
			if f == nil || seen[f] {
				break
			}
			seen[f] = true
			if tried[f] {
				continue
			}
			tried[f] = true
			o := f.(fyne.CanvasObject)
			at := fyne.CurrentApp().Driver().AbsolutePositionForObject(o)
			r := rect{at.X - 6, at.Y - 4, at.X + o.Size().Width + 6, at.Y + o.Size().Height + 4}.in(rect{0, 0, 1400, 1300})
			require.Greater(t, differing(bare, c.Capture(), r), 8, "%s, page %d: %T at %v shows no focus", dress, p, f, at)
		}
		require.Greater(t, len(seen), 20)
	}
}
