package check

import (
	"fmt"
	"testing"

	"fretband/pattern"
	"fretband/unroll"
)

// bigDesign is a tapering cuff with about n openings and a hallmark area.
func bigDesign(n int) pattern.Design {
	rows := map[int]int{200: 4, 2000: 10, 20000: 30}[n]
	return pattern.Design{
		Name: "bench",
		Band: unroll.Band{
			Kind: unroll.Cuff, Inside: unroll.Inside{By: unroll.ByAxes, WidthMM: 62, HeightMM: 50}, GapMM: 28,
			Thickness: unroll.Thickness{MM: 1.2}, WidthMM: 60, EndWidthMM: 50, EndCornerMM: 6, NeutralK: 0.5,
		},
		Metal:    pattern.Metal{Alloy: "sterling-925"},
		Rules:    pattern.DesignRules{BridgeMM: 0.2, RimMM: 2, CornerMM: 0.05, SmallestMM: 0.1},
		Fields:   []pattern.Field{{Motif: "triangles", Rows: rows, Repeats: n / rows / 2, Stagger: 0.5}},
		Reserves: []pattern.Reserve{{Shape: pattern.RectangleShape, XMM: 20, WidthMM: 6, HeightMM: 4, MarginMM: 1}},
	}
}

// BenchmarkCompute is what happens on each change of a number: lay and check.
func BenchmarkCompute(b *testing.B) {
	for _, n := range []int{200, 2000, 20000} {
		b.Run(fmt.Sprint(n), func(b *testing.B) {
			d := bigDesign(n)
			var openings int
			for range b.N {
				_, r, err := Lay(d)
				if err != nil {
					b.Fatal(err)
				}
				openings = r.Openings
			}
			b.ReportMetric(float64(openings), "openings")
		})
	}
}

// The stages of BenchmarkCompute.
func BenchmarkStages(b *testing.B) {
	for _, n := range []int{200, 2000, 20000} {
		d := bigDesign(n)
		s, err := pattern.Lay(d)
		if err != nil {
			b.Fatal(err)
		}
		stage := func(name string, f func()) {
			b.Run(fmt.Sprintf("%s/%d", name, n), func(b *testing.B) {
				for range b.N {
					f()
				}
			})
		}
		stage("unroll", func() { _, _ = unroll.Unroll(d.Band) })
		stage("lay", func() { _, _ = pattern.Lay(d) })
		stage("bridges", func() { Bridges(s) })
		stage("net-section", func() { netSection(s) })
		stage("check", func() { Run(s) })
	}
}
