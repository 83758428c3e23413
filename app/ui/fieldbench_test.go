package ui

import (
	"bytes"
	"testing"

	"fretband/app"
	"fretband/pattern"
	"fretband/pattern/project"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"
)

// BenchmarkEdit is what the window itself does for one move of a slider, before
// the design is laid anew in the background.
func BenchmarkEdit(b *testing.B) {
	d, err := project.GalleryDesign("harbour-cuff")
	if err != nil {
		b.Fatal(err)
	}
	a := test.NewApp()
	defer a.Quit()
	now := func(f func()) { f() }
	w := NewWindow(Options{App: a, Log: app.NewLog(&bytes.Buffer{}), Dir: b.TempDir(), Settings: app.DefaultSettings(),
		Document: app.NewDocument(d), Size: fyne.NewSize(1400, 900), Go: now, Post: now, Quiet: true})
	w.laying.Computer.Go = func(func()) {} // nothing is laid
	n := app.Numbers(pattern.RulesGroup)[0]
	for i := 0; b.Loop(); i++ {
		w.ed.Slide(n, 1+float64(i%10)/20)
	}
}

// BenchmarkResult is what the window does with a finished design of about 2,000
// openings, apart from drawing it.
func BenchmarkResult(b *testing.B) {
	d, err := project.GalleryDesign("harbour-cuff")
	if err != nil {
		b.Fatal(err)
	}
	d.Reserves = nil
	d.Rules = pattern.DesignRules{BridgeMM: 0.3, RimMM: 1.2}
	d.Fields = []pattern.Field{{Motif: "hexagons", Rows: 12, Repeats: 170}}
	a := test.NewApp()
	defer a.Quit()
	now := func(f func()) { f() }
	w := NewWindow(Options{App: a, Log: app.NewLog(&bytes.Buffer{}), Dir: b.TempDir(), Settings: app.DefaultSettings(),
		Document: app.NewDocument(d), Size: fyne.NewSize(1400, 900), Go: now, Post: now, Quiet: true})
	w.bender.Go = func(func()) {}
	r := app.Result{Design: d, Sheet: w.ed.Scene.Sheet, Report: w.ed.Scene.Report}
	for b.Loop() {
		w.computed(r)
	}
}
