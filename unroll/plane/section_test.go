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
		const n = 4000
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

// Closed forms, on lines that pass through corners and along upright sides: there the
// span is that of a line a hair further left. Lines as fine and as coarse as may be.
func TestSpansOfManyLinesAreThoseOfEach(t *testing.T) {
	left := func(x float64) float64 { return math.Nextafter(x, math.Inf(-1)) }
	for _, c := range []struct {
		what string
		l    Loop
		want func(x float64) float64
	}{
		{"diamond", Polygon(Pt(-4, 0), Pt(0, -4), Pt(4, 0), Pt(0, 4)), func(x float64) float64 { return math.Max(0, 8-2*math.Abs(x)) }},
		{"upright sides", Rect(Box{Pt(-2, -1), Pt(3, 1.5)}), func(x float64) float64 {
			if x = left(x); x < -2 || x > 3 {
				return 0
			}
			return 2.5
		}},
		{"circle", Circle(Pt(0, 7), 3), func(x float64) float64 { return 2 * math.Sqrt(math.Max(0, 9-x*x)) }},
		{"half a disc above, run the other way", Loop{{Pt(-3, 1), -1}, {Pt(3, 1), 0}}, func(x float64) float64 { return -math.Sqrt(math.Max(0, 9-x*x)) }},
		{"half a disc to the left", Loop{{Pt(0, 3), 1}, {Pt(0, -3), 0}}, func(x float64) float64 {
			if x = left(x); x > 0 {
				return 0
			}
			return 2 * math.Sqrt(math.Max(0, 9-x*x))
		}},
		{"half a disc to the right", Loop{{Pt(0, -3), 1}, {Pt(0, 3), 0}}, func(x float64) float64 {
			if x = left(x); x < 0 {
				return 0
			}
			return 2 * math.Sqrt(math.Max(0, 9-x*x))
		}},
		{"circle with a round hole", nil, nil},
	} {
		for _, by := range [][2]float64{{-5, 0.25}, {-5, 1}, {-5, 2.5}, {-5.1, 0.25}, {-5.3, 2.4}} {
			x0, step := by[0], by[1]
			out := make([]float64, int(11/step))
			if c.l == nil {
				Circle(Pt(0, 0), 4).AddSpans(out, x0, step, 3)
				Circle(Pt(1, 0), 2).Reverse().AddSpans(out, x0, step, 3)
			} else {
				c.l.AddSpans(out, x0, step, 3)
			}
			for i, got := range out {
				x := x0 + float64(i)*step
				want := 0.0
				if c.want != nil {
					want = c.want(x)
				} else {
					want = 2*math.Sqrt(math.Max(0, 16-x*x)) - 2*math.Sqrt(math.Max(0, 4-(x-1)*(x-1)))
				}
				nearly(t, c.what, got, 3*want, 1e-6)
			}
		}
	}
}
