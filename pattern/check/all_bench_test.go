package check

import (
	"fmt"
	"testing"

	"fretband/pattern"
	"fretband/unroll"
)

// crossesBangle is a seamless bangle of 12 rows of 49 crosses, which have many corners.
func crossesBangle() pattern.Design {
	return pattern.Design{
		Name: "crosses",
		Band: unroll.Band{
			Kind: unroll.Bangle, Joint: unroll.Seamless, Inside: unroll.Inside{By: unroll.ByAxes, WidthMM: 62, HeightMM: 62},
			Thickness: unroll.Thickness{MM: 1.2}, WidthMM: 40, EndWidthMM: 40, NeutralK: 0.5,
		},
		Metal:  pattern.Metal{Alloy: "sterling-925"},
		Rules:  pattern.DesignRules{BridgeMM: 0.8, RimMM: 1, CornerMM: 0.1, SmallestMM: 0.3},
		Fields: []pattern.Field{{Motif: "crosses", Rows: 12, Repeats: 49}},
	}
}

// BenchmarkAll is what a report waits for.
func BenchmarkAll(b *testing.B) {
	run := func(name string, d pattern.Design) {
		b.Run(name, func(b *testing.B) {
			s, err := pattern.Lay(d)
			if err != nil {
				b.Fatal(err)
			}
			for range b.N {
				All(s)
			}
		})
	}
	for _, n := range []int{200, 2000, 20000} {
		run(fmt.Sprint(n), bigDesign(n))
	}
	run("crosses", crossesBangle())
}
