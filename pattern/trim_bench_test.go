package pattern

import (
	"math"
	"math/rand"
	"testing"

	"fretband/unroll/plane"
)

// strewn returns n openings of mixed shapes on a ground, on a lattice of the given
// pitch, turned and moved a little: at a pitch of 3 none is near another, at 2 most
// are.
func strewn(n int, pitch float64) ([]plane.Loop, plane.Region) {
	rng := rand.New(rand.NewSource(int64(n)))
	rows := int(math.Sqrt(float64(n) / 4))
	var loops []plane.Loop
	for i := range n {
		at := plane.Pt(float64(i/rows)*pitch, float64(i%rows)*pitch)
		at = at.Add(plane.Pt(0.2*rng.Float64(), 0.2*rng.Float64()))
		loops = append(loops, strewnShape(rng, 1).Turn(2*math.Pi*rng.Float64()).Move(at))
	}
	b := plane.EmptyBox()
	for _, l := range loops {
		b = b.Union(l.Bounds())
	}
	return loops, plane.Region{plane.Rect(b.Grow(1))}
}

// strewnShape returns an opening about the origin that reaches size mm out.
func strewnShape(rng *rand.Rand, size float64) plane.Loop {
	var l plane.Loop
	switch rng.Intn(5) {
	case 0:
		l = plane.Circle(plane.Point{}, 1)
	case 1:
		l = plane.Polygon(plane.Pt(-0.7, -0.7), plane.Pt(0.7, -0.7), plane.Pt(0.7, 0.7), plane.Pt(-0.7, 0.7))
	case 2:
		l = plane.Polygon(plane.Pt(1, 0), plane.Pt(-0.5, 0.8), plane.Pt(-0.5, -0.8))
	case 3:
		l = plane.Loop{{Point: plane.Pt(-1, 0), Bulge: 0.5}, {Point: plane.Pt(1, 0), Bulge: 0.5}}
	default:
		l = plane.Loop{{Point: plane.Pt(-0.6, -0.4)}, {Point: plane.Pt(0.6, -0.4), Bulge: 1}, {Point: plane.Pt(0.6, 0.4)}, {Point: plane.Pt(-0.6, 0.4), Bulge: 1}}
	}
	return l.Scale(size)
}

func benchmarkTrim(b *testing.B, n int, pitch float64) {
	loops, ground := strewn(n, pitch)
	b.ReportAllocs()
	for b.Loop() {
		Trim(loops, ground, Rules{Bridge: 0.5, Smallest: 0.5})
	}
}

func BenchmarkTrim200Apart(b *testing.B)  { benchmarkTrim(b, 200, 3) }
func BenchmarkTrim200Near(b *testing.B)   { benchmarkTrim(b, 200, 2) }
func BenchmarkTrim2000Apart(b *testing.B) { benchmarkTrim(b, 2000, 3) }
func BenchmarkTrim2000Near(b *testing.B)  { benchmarkTrim(b, 2000, 2) }
