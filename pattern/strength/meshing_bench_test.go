package strength_test

import (
	"context"
	"fmt"
	"testing"

	"fretband/pattern"
	"fretband/unroll"

	"github.com/stretchr/testify/require"
)

// BenchmarkMesh is what has to be waited for before a strength can be computed.
func BenchmarkMesh(b *testing.B) {
	for _, n := range []int{100, 500, 2000} {
		rows := map[int]int{100: 4, 500: 8, 2000: 10}[n]
		s, err := pattern.Lay(pattern.Design{
			Name: "bench",
			Band: unroll.Band{
				Kind: unroll.Cuff, Inside: unroll.Inside{By: unroll.ByAxes, WidthMM: 62, HeightMM: 50}, GapMM: 28,
				Thickness: unroll.Thickness{MM: 1.2}, WidthMM: 40, EndWidthMM: 32, EndCornerMM: 6, NeutralK: 0.5,
			},
			Metal:  pattern.Metal{Alloy: "sterling-925"},
			Fields: []pattern.Field{{Motif: "triangles", Rows: rows, Repeats: n / rows / 2, Stagger: 0.5}},
			Rules:  map[bool]pattern.DesignRules{true: {BridgeMM: 0.8, RimMM: 2, CornerMM: 0.2, SmallestMM: 0.4}, false: {BridgeMM: 0.3, RimMM: 1.5, CornerMM: 0.1, SmallestMM: 0.2}}[n < 1000],
		})
		require.NoError(b, err)
		for how, f := range fineness() {
			b.Run(fmt.Sprintf("%s/%d", how, n), func(b *testing.B) {
				nodes := 0
				for b.Loop() {
					m, err := metalOf(s).Mesh(context.Background(), f)
					require.NoError(b, err)
					nodes = len(m.At)
				}
				b.ReportMetric(float64(nodes), "nodes")
				b.ReportMetric(float64(len(s.Openings)), "openings")
			})
		}
	}
}
