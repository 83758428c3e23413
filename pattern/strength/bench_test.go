package strength

import (
	"context"
	"fmt"
	"math"
	"testing"

	"github.com/stretchr/testify/require"
)

// piercedCuff is a cuff of 60 mm, bent over 300 degrees and 20 mm wide, with openings that
// leave bridges three cells wide.
func piercedCuff(cells int) *Mesh {
	ny := cells
	nx := int(math.Round(float64(ny) * 30.6 * 300 / 360 * 2 * math.Pi / 20))
	return weave{nx: nx, ny: ny, place: arc(30.6, math.Pi/6, 300*math.Pi/180, 20), thick: 1.2, cross: true,
		keep: func(i, j int) bool {
			const pitch, bridge = 9, 3
			if i < pitch || i >= nx-pitch || j < bridge || j >= ny-bridge {
				return true
			}
			i += j / pitch % 2 * pitch / 2
			return i%pitch < bridge || (j-bridge)%pitch >= pitch-bridge
		}}.mesh()
}

var sizes = []int{16, 33, 76} // about 10,000, 40,000 and 200,000 freedoms

func BenchmarkPlan(b *testing.B) {
	for _, n := range sizes {
		m := piercedCuff(n)
		b.Run(fmt.Sprint(6*len(m.At)), func(b *testing.B) {
			for b.Loop() {
				_, err := NewPlan(context.Background(), m)
				require.NoError(b, err)
			}
		})
	}
}

func BenchmarkFactor(b *testing.B) {
	for _, n := range sizes {
		m := piercedCuff(n)
		p, err := NewPlan(context.Background(), m)
		require.NoError(b, err)
		b.Run(fmt.Sprint(p.Freedoms()), func(b *testing.B) {
			for b.Loop() {
				_, err := p.Model(context.Background(), metal, Isostatic(m))
				require.NoError(b, err)
			}
			b.ReportMetric(float64(p.Freedoms()), "freedoms")
			b.ReportMetric(float64(p.Bytes())/1e6, "MB")
		})
	}
}

func BenchmarkSolve(b *testing.B) {
	for _, n := range sizes {
		m := piercedCuff(n)
		model, err := NewModel(context.Background(), m, metal, Isostatic(m))
		require.NoError(b, err)
		load := []Load{{Node: 0, Force: [3]float64{1}}}
		b.Run(fmt.Sprint(6*len(m.At)), func(b *testing.B) {
			for b.Loop() {
				_, err := model.Solve(context.Background(), load)
				require.NoError(b, err)
			}
		})
	}
}

func BenchmarkStresses(b *testing.B) {
	for _, n := range sizes {
		m := piercedCuff(n)
		model, err := NewModel(context.Background(), m, metal, Isostatic(m))
		require.NoError(b, err)
		answers, err := model.Solve(context.Background(), []Load{{Node: 0, Force: [3]float64{1}}})
		require.NoError(b, err)
		b.Run(fmt.Sprint(6*len(m.At)), func(b *testing.B) {
			for b.Loop() {
				answers[0].Stresses()
			}
		})
	}
}
