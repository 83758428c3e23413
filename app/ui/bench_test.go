package ui

import (
	"fmt"
	"testing"

	"fretband/pattern"
	"fretband/pattern/check"
	"fretband/pattern/project"
	"fretband/unroll"

	"fyne.io/fyne/v2/theme"
)

// benchScene is a wide bangle with about n openings.
func benchScene(b *testing.B, n int) *scene {
	d, err := project.GalleryDesign(project.Gallery()[0])
	if err != nil {
		b.Fatal(err)
	}
	d.Reserves = nil
	d.Band = unroll.Band{Kind: unroll.Bangle, Inside: unroll.Inside{By: unroll.ByAxes, WidthMM: 70, HeightMM: 60},
		Thickness: unroll.Thickness{MM: 1}, WidthMM: 60, EndWidthMM: 60, Joint: unroll.Soldered, JointMM: 2, NeutralK: 0.5}
	d.Field = pattern.Field{Motif: "hexagons", BridgeMM: 0.2, RimMM: 1}
	d.Field.Rows = map[int]int{200: 8, 2000: 26, 20000: 60}[n]
	d.Field.Repeats = n / d.Field.Rows
	s, err := pattern.Lay(d)
	if err != nil {
		b.Fatal(err)
	}
	return newScene(1, s, &check.Report{Net: check.NetSection{}})
}

func benchFaces(b *testing.B) *faces {
	f, err := newFaces(theme.DefaultTextFont().Content())
	if err != nil {
		b.Fatal(err)
	}
	return f
}

// BenchmarkPaint is what one frame of the blank costs: when its picture is drawn
// anew (a drag of a slider, a pan), and when only the pointer moves.
func BenchmarkPaint(b *testing.B) {
	for _, n := range []int{200, 2000, 20000} {
		sc := benchScene(b, n)
		v := view{k: 1, frame: newFrame(1400, 390, 1)}
		v = v.fit(sc.sheet.Flat.Outline.Bounds())
		p := sheetPainter{faces: benchFaces(b)}
		b.Run(fmt.Sprintf("anew/%d", len(sc.sheet.Openings)), func(b *testing.B) {
			for b.Loop() {
				p.key = baseKey{}
				p.paint(v, sc, &lightDress, noMarks())
			}
		})
		b.Run(fmt.Sprintf("hover/%d", len(sc.sheet.Openings)), func(b *testing.B) {
			m := noMarks()
			m.pointer, m.px, m.py = true, 300, 100
			for i := 0; b.Loop(); i++ {
				m.hover = i % len(sc.sheet.Openings)
				p.paint(v, sc, &lightDress, m)
			}
		})
	}
}

// BenchmarkBent is what one picture of the bent band costs: with a new design,
// and when it is only turned.
func BenchmarkBent(b *testing.B) {
	for _, n := range []int{200, 2000, 20000} {
		sc := benchScene(b, n)
		v := &bentView{kit: &kit{dress: &lightDress}, yaw: startYaw, pitch: startPitch, near: 1, scene: sc}
		b.Run(fmt.Sprintf("anew/%d", len(sc.sheet.Openings)), func(b *testing.B) {
			for b.Loop() {
				v.model.version, v.key = 0, bentKey{}
				v.render(400, 415)
			}
		})
		b.Run(fmt.Sprintf("turned/%d", len(sc.sheet.Openings)), func(b *testing.B) {
			for b.Loop() {
				v.yaw += 0.01
				v.render(400, 415)
			}
		})
	}
}
