package handover

import (
	"fmt"
	"testing"

	"fretband/export"
	"fretband/pattern"
	"fretband/pattern/check"
	"fretband/unroll"
)

// benchDesign is a tapering cuff with about n openings.
func benchDesign(n, rows int) pattern.Design {
	return pattern.Design{
		Name: "bench",
		Band: unroll.Band{
			Kind: unroll.Cuff, Inside: unroll.Inside{By: unroll.ByAxes, WidthMM: 62, HeightMM: 50}, GapMM: 28,
			Thickness: unroll.Thickness{MM: 1.2}, WidthMM: 60, EndWidthMM: 50, EndCornerMM: 6, NeutralK: 0.5,
		},
		Metal:  pattern.Metal{Alloy: "sterling-925"},
		Rules:  pattern.DesignRules{BridgeMM: 0.2, RimMM: 2, CornerMM: 0.05, SmallestMM: 0.1},
		Fields: []pattern.Field{{Motif: "triangles", Rows: rows, Repeats: n / rows / 2, Stagger: 0.5}},
	}
}

// size counts bytes.
type size int

func (n *size) Write(p []byte) (int, error) { *n += size(len(p)); return len(p), nil }

// BenchmarkWrite is what a user waits for after asking for the files, once the
// design is laid and checked: the time and the size of each file.
func BenchmarkWrite(b *testing.B) {
	for _, n := range []struct{ openings, rows int }{{200, 4}, {2000, 10}, {20000, 30}} {
		s, err := pattern.Lay(benchDesign(n.openings, n.rows))
		if err != nil {
			b.Fatal(err)
		}
		r := check.All(s)
		for _, f := range Formats() {
			b.Run(fmt.Sprintf("%s/%d", f.Key, n.openings), func(b *testing.B) {
				var bytes size
				for b.Loop() {
					bytes = 0
					if err := f.Write(&bytes, s, r, export.Options{LeadMM: 0.2}); err != nil {
						b.Fatal(err)
					}
				}
				b.ReportMetric(float64(bytes), "bytes")
			})
		}
	}
}

// BenchmarkHandOver is the whole hand-over to each receiver, files on the disk and
// read back.
func BenchmarkHandOver(b *testing.B) {
	s, err := pattern.Lay(benchDesign(20000, 30))
	if err != nil {
		b.Fatal(err)
	}
	r := check.All(s)
	for _, to := range export.Receivers() {
		b.Run(to.Key, func(b *testing.B) {
			dir := b.TempDir()
			for b.Loop() {
				if _, err := Write(dir, "bench", s, r, export.Options{}, to); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}
