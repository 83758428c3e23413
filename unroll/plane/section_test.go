package plane

import (
	"math"
	"math/rand"
	"testing"
)

// The integral of the spans over x is the area (Cavalieri's principle).
func TestSpansOfALoopAddUpToItsArea(t *testing.T) {
	rng := rand.New(rand.NewSource(7))
	loops := []Loop{
		Circle(Pt(0.3, 0.2), 2),
		Rect(Box{Pt(-1, -2), Pt(3, 4)}),
		{{Pt(0, 0), 0.5}, {Pt(4, 0), -0.3}, {Pt(5, 3), 1}, {Pt(1, 4), 0}},
		{{Pt(0, 0), 2}, {Pt(4, 0), 0.2}, {Pt(2, 3), 0}},
	}
	for range 20 {
		var l Loop
		for i := range 7 {
			a := 2 * math.Pi * float64(i) / 7
			l = append(l, Vertex{Pt(math.Cos(a), math.Sin(a)).Mul(2 + rng.Float64()), rng.Float64()*0.5 - 0.2})
		}
		loops = append(loops, l)
	}
	for k, l := range loops {
		b := l.Bounds()
		const n = 20000
		var sum float64
		for i := range n {
			sum += l.SpanAt(b.Min.X + (float64(i)+0.5)/n*b.W())
		}
		sum *= b.W() / n
		if got, want := sum, math.Abs(l.Area()); math.Abs(got-want) > 1e-3*want {
			t.Errorf("loop %d: spans add up to %.6f, area is %.6f", k, got, want)
		}
	}
}
