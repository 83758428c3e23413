package blank

import (
	"fmt"
	"testing"

	"fretband/app"
	"fretband/app/ui/kit"
	"fretband/export/picture"
	"fretband/pattern"
	"fretband/pattern/check"
	"fretband/pattern/project"
	"fretband/unroll"
	"fretband/unroll/plane"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"
)

// benchScene is a wide bangle with about n openings.
func benchScene(b *testing.B, n int) *app.Scene {
	d, err := project.GalleryDesign(project.Gallery()[0])
	if err != nil {
		b.Fatal(err)
	}
	d.Reserves = nil
	d.Band = unroll.Band{Kind: unroll.Bangle, Inside: unroll.Inside{By: unroll.ByAxes, WidthMM: 70, HeightMM: 60},
		Thickness: unroll.Thickness{MM: 1}, WidthMM: 60, EndWidthMM: 60, Joint: unroll.Soldered, JointMM: 2, NeutralK: 0.5}
	d.Rules = pattern.DesignRules{BridgeMM: 0.2, RimMM: 1}
	d.Fields = []pattern.Field{{Motif: "hexagons"}}
	d.Fields[0].Rows = map[int]int{200: 8, 2000: 26, 20000: 60}[n]
	d.Fields[0].Repeats = n / d.Fields[0].Rows
	s, err := pattern.Lay(d)
	if err != nil {
		b.Fatal(err)
	}
	return app.NewScene(1, s, &check.Report{Net: check.NetSection{}})
}

// BenchmarkPaint is what one frame of the blank costs: when its picture is drawn
// anew (a drag of a slider, a pan), and when only the pointer moves.
func BenchmarkPaint(b *testing.B) {
	for _, n := range []int{200, 2000, 20000} {
		sc := benchScene(b, n)
		v := viewport{k: 1, frame: newFrame(1400, 390, 1)}
		v = v.fit(sc.Sheet.Flat.Outline.Bounds())
		p := sheetPainter{faces: kit.New("light").Faces}
		b.Run(fmt.Sprintf("anew/%d", len(sc.Sheet.Openings)), func(b *testing.B) {
			for b.Loop() {
				p.key = baseKey{}
				p.paint(v, sc, kit.DressNamed("light"), noOverlay())
			}
		})
		b.Run(fmt.Sprintf("hover/%d", len(sc.Sheet.Openings)), func(b *testing.B) {
			m := noOverlay()
			m.pointer, m.px, m.py = true, 300, 100
			for i := 0; b.Loop(); i++ {
				m.Hover = i % len(sc.Sheet.Openings)
				p.paint(v, sc, kit.DressNamed("light"), m)
			}
		})
	}
}

// BenchmarkStress is what a frame of the blank costs with stress over it: while a hand drags
// (the metal is new, the stress is not), and when the view is moved or stress arrives.
func BenchmarkStress(b *testing.B) {
	d, err := project.GalleryDesign("harbour-cuff")
	if err != nil {
		b.Fatal(err)
	}
	sc := sceneOf(b, d)
	f, err := check.StrengthOf(b.Context(), sc.Sheet, sc.Report, check.StrengthAsk{})
	if err != nil {
		b.Fatal(err)
	}
	m := noOverlay()
	m.stress = picture.NewStressMap(f, f.Cases[0], d.Temper().ProofMPa)
	v := viewport{k: 1, frame: newFrame(1400, 390, 1)}
	v = v.fit(sc.Sheet.Flat.Outline.Bounds())
	p := sheetPainter{faces: kit.New("light").Faces}
	b.Run("map", func(b *testing.B) {
		for b.Loop() {
			picture.NewStressMap(f, f.Cases[0], d.Temper().ProofMPa)
		}
	})
	for _, pale := range []bool{false, true} {
		m.pale = pale
		b.Run(fmt.Sprintf("dragged/pale=%t", pale), func(b *testing.B) {
			for b.Loop() {
				p.key = baseKey{}
				p.paint(v, sc, kit.DressNamed("light"), m)
			}
		})
	}
	b.Run("moved", func(b *testing.B) {
		for b.Loop() {
			v = v.pan(0.5, 0)
			p.paint(v, sc, kit.DressNamed("light"), m)
		}
	})
}

// BenchmarkDragByHand is what one move of the hand costs while it drags some of 2000
// openings: the change of the design and the picture. What is computed meanwhile runs in
// the background and is not counted.
func BenchmarkDragByHand(b *testing.B) {
	a := test.NewApp()
	defer a.Quit()
	sc := benchScene(b, 2000)
	ed := app.NewEditor(app.NewDocument(sc.Sheet.Design), nil)
	none := func(string) {}
	v := New(kit.New("light"), ed, Doors{Key: func(*fyne.KeyEvent) {}, Position: none, Over: none, Zoomed: none,
		Point: func(int) {}, TrueZoom: func() float64 { return 4 }, Moved: func() {}})
	v.Resize(fyne.NewSize(1400, 390))
	ed.SetScene(sc)
	v.SetScene(sc)
	for _, n := range []int{1, 100, 2000} {
		var picks []app.Picked
		for i := range min(n, len(sc.Sheet.Openings)) {
			picks = append(picks, app.Pick(sc.Sheet, i))
		}
		ed.Pick(picks)
		at := sc.Sheet.Openings[0].Position()
		h := v.grabPicked(at)
		b.Run(fmt.Sprint(n), func(b *testing.B) {
			for i := 0; b.Loop(); i++ {
				h.move(at.Add(plane.Pt(0.01*float64(i%100), 0)))
				v.render(1400, 390)
			}
		})
		b.Run(fmt.Sprintf("found-anew/%d", n), func(b *testing.B) {
			for b.Loop() {
				ed.SetScene(sc)
				v.ShowHandles()
			}
		})
		ed.Seal()
	}
}
