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
	"fyne.io/fyne/v2/widget"
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
	case *kit.Entry, *kit.ChoiceBox, *widget.List: // of a list the arrow keys reach the rows
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

// unseen gives the keyboard to all that Tab reaches, notes in tried what it has been, and
// returns how many there are and those that do not show it.
func unseen(c fyne.Canvas, size fyne.Size, tried map[fyne.Focusable]bool) (n int, none []string) {
	c.Unfocus()
	bare := c.Capture()
	seen := map[fyne.Focusable]bool{}
	for {
		test.FocusNext(c)
		f := c.Focused()
		if f == nil || seen[f] {
			return len(seen), none
		}
		seen[f] = true
		if tried[f] {
			continue
		}
		tried[f] = true
		o := f.(fyne.CanvasObject)
		at := fyne.CurrentApp().Driver().AbsolutePositionForObject(o)
		r := rect{at.X - 6, at.Y - 4, at.X + o.Size().Width + 6, at.Y + o.Size().Height + 4}.in(rect{0, 0, size.Width, size.Height})
		if differing(bare, c.Capture(), r) <= 8 {
			none = append(none, fmt.Sprintf("%T at %v", f, at))
		}
	}
}

// All that can be tapped can be reached by Tab, and shows that it has the keyboard.
func TestTheFocusReachesAllAndIsSeen(t *testing.T) {
	size := fyne.NewSize(1400, 1300)
	w, _ := openTest(t, "harbour-cuff", size, "light") // the dark dress paints the same with other colours
	tried := map[fyne.Focusable]bool{}                 // on an earlier page
	c := w.win.Canvas()
	require.Empty(t, untouchable(c.Content()))
	for p := app.BandPage; p <= app.HandPage; p++ {
		w.showTab(p)
		n, none := unseen(c, size, tried)
		require.Empty(t, none, "page %d: they show no focus", p)
		require.Greater(t, n, 20)
	}
	for name, open := range dialogsOf(w, "laser") {
		open()
		require.Empty(t, untouchable(w.kit.Dialogs.Top().Panel), name)
		n, none := unseen(c, size, tried)
		require.Empty(t, none, "%s: they show no focus", name)
		require.Positive(t, n, name)
		for w.kit.Dialogs.Escape() {
		}
	}
}
