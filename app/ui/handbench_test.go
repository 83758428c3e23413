package ui

import (
	"bytes"
	"fmt"
	"testing"

	"fretband/app"
	"fretband/unroll/plane"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"
)

// BenchmarkDragByHand is what one move of the hand costs the window while it drags
// some of 2000 openings: the change of the design, the page, and the picture. What is
// computed meanwhile runs in the background and is not counted.
func BenchmarkDragByHand(b *testing.B) {
	sc := benchScene(b, 2000)
	d := sc.sheet.Design
	a := test.NewApp()
	defer a.Quit()
	now := func(f func()) { f() }
	w, err := NewWindow(Options{App: a, Log: app.NewLog(&bytes.Buffer{}), Dir: b.TempDir(), Settings: app.DefaultSettings(), Document: app.NewDocument(d),
		Size: fyne.NewSize(1400, 900), Go: now, Post: now, Quiet: true})
	if err != nil {
		b.Fatal(err)
	}
	defer w.win.Close()
	w.turnTo(handPageAt)
	w.computer.Go = func(func()) {}
	for _, n := range []int{1, 100, 2000} {
		var picks []app.Picked
		for i := range min(n, len(w.scene.sheet.Openings)) {
			picks = append(picks, app.Pick(w.scene.sheet, i))
		}
		w.pickThese(picks)
		at := w.scene.sheet.Openings[0].Place()
		h := w.grabPicked(at, 0)
		b.Run(fmt.Sprint(n), func(b *testing.B) {
			for i := 0; b.Loop(); i++ {
				h.move(at.Add(plane.Pt(0.01*float64(i%100), 0)))
				w.blank.render(1400, 390)
			}
		})
		b.Run(fmt.Sprintf("found-anew/%d", n), func(b *testing.B) {
			for b.Loop() {
				w.refind()
				w.showPicked()
			}
		})
		w.seal()
	}
}
