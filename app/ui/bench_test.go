package ui

import (
	"fmt"
	"testing"

	"fretband/app/ui/kit"
	"fretband/pattern"
	"fretband/pattern/check"
	"fretband/pattern/project"
	"fretband/unroll"
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
	d.Rules = pattern.DesignRules{BridgeMM: 0.2, RimMM: 1}
	d.Fields = []pattern.Field{{Motif: "hexagons"}}
	d.Fields[0].Rows = map[int]int{200: 8, 2000: 26, 20000: 60}[n]
	d.Fields[0].Repeats = n / d.Fields[0].Rows
	s, err := pattern.Lay(d)
	if err != nil {
		b.Fatal(err)
	}
	return newScene(1, s, &check.Report{Net: check.NetSection{}})
}

// BenchmarkPaint is what one frame of the blank costs: when its picture is drawn
// anew (a drag of a slider, a pan), and when only the pointer moves.
func BenchmarkPaint(b *testing.B) {
	for _, n := range []int{200, 2000, 20000} {
		sc := benchScene(b, n)
		v := view{k: 1, frame: newFrame(1400, 390, 1)}
		v = v.fit(sc.sheet.Flat.Outline.Bounds())
		p := sheetPainter{faces: testKit(b).Faces}
		b.Run(fmt.Sprintf("anew/%d", len(sc.sheet.Openings)), func(b *testing.B) {
			for b.Loop() {
				p.key = baseKey{}
				p.paint(v, sc, kit.DressNamed("light"), noMarks())
			}
		})
		b.Run(fmt.Sprintf("hover/%d", len(sc.sheet.Openings)), func(b *testing.B) {
			m := noMarks()
			m.pointer, m.px, m.py = true, 300, 100
			for i := 0; b.Loop(); i++ {
				m.hover = i % len(sc.sheet.Openings)
				p.paint(v, sc, kit.DressNamed("light"), m)
			}
		})
	}
}
