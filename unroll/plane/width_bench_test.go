package plane

import "testing"

// sieve returns a plate with n openings of eight arcs on a lattice, 0.8 mm of metal
// between two where they are nearest.
func sieve(n int) Region {
	rows := 20
	var r Region
	all := EmptyBox()
	for i := range n {
		l := petal().Move(Pt(float64(i/rows)*3.1, float64(i%rows)*6.8))
		all = all.Union(l.Bounds())
		r = append(r, l.Reverse())
	}
	return append(Region{Rect(all.Grow(0.8))}, r...)
}

func BenchmarkNecks2000(b *testing.B) {
	r := sieve(2000)
	b.ReportAllocs()
	for b.Loop() {
		if n := r.Necks(1); len(n) == 0 {
			b.Fatal("no necks")
		}
	}
}

func BenchmarkWidthAt2000(b *testing.B) {
	r := sieve(2000)
	p := r.Necks(1)[100].Mid()
	b.ReportAllocs()
	for b.Loop() {
		if _, err := r.WidthAt(p, 5); err != nil {
			b.Fatal(err)
		}
	}
}
