package paint

import (
	"image"
	"image/color"
	"math"
	"math/rand"
	"testing"

	"github.com/stretchr/testify/require"
)

// shoelace is the exact area of a polygon, the independent answer that the
// summed shares must give.
func shoelace(xy []float64) float64 {
	var a float64
	n := len(xy) / 2
	for i := range n {
		j := (i + 1) % n
		a += xy[2*i]*xy[2*j+1] - xy[2*j]*xy[2*i+1]
	}
	return math.Abs(a) / 2
}

func covered(f *Fill) (sum float64) {
	f.Each(func(_, _ int, s float32) { sum += float64(s) })
	return
}

func TestTheSharesAddUpToTheArea(t *testing.T) {
	rng := rand.New(rand.NewSource(7))
	f := NewFill(120, 90)
	for i := range 300 {
		xy := make([]float64, 6)
		for k := range xy {
			xy[k] = 2 + rng.Float64()*86
		}
		f.Polygon(xy...)
		require.InDelta(t, shoelace(xy), covered(f), 0.35, "triangle %d %v", i, xy)
	}
}

func TestACircleHasItsArea(t *testing.T) {
	f := NewFill(100, 100)
	f.Disc(50.3, 49.7, 30)
	n := float64(max(12, int(4*math.Sqrt(30)*2)))
	want := n / 2 * 30 * 30 * math.Sin(2*math.Pi/n) // inscribed polygon
	require.InDelta(t, want, covered(f), 0.5)
}

func TestAHoleIsTakenOut(t *testing.T) {
	f := NewFill(50, 50)
	f.Polygon(5, 5, 45, 5, 45, 45, 5, 45)
	f.Polygon(10, 10, 10, 20, 20, 20, 20, 10)
	require.InDelta(t, 1600-100, covered(f), 1e-3)
}

func TestAHoleThatSticksOutLeavesNothingThere(t *testing.T) {
	f := NewFill(50, 50)
	f.Outer = true
	f.Polygon(5, 5, 5, 45, 25, 45, 25, 5)     // counter-clockwise as seen
	f.Polygon(20, 10, 40, 10, 40, 20, 20, 20) // clockwise
	require.InDelta(t, 800-50, covered(f), 1e-3)
}

func TestHalfAPixelIsHalfCovered(t *testing.T) {
	f := NewFill(4, 4)
	f.Rect(1, 1, 2.5, 2)
	got := map[[2]int]float32{}
	f.Each(func(x, y int, s float32) { got[[2]int{x, y}] = s })
	require.Len(t, got, 2)
	require.InDelta(t, 1, got[[2]int{1, 1}], 1e-6)
	require.InDelta(t, 0.5, got[[2]int{2, 1}], 1e-6)
}

func TestWhatLiesOutsideIsClippedNotSmeared(t *testing.T) {
	// Random triangles far larger than the picture against the same triangles
	// clipped by hand (Sutherland-Hodgman).
	rng := rand.New(rand.NewSource(11))
	f := NewFill(60, 40)
	for i := range 300 {
		xy := make([]float64, 6)
		for k := range xy {
			xy[k] = -80 + rng.Float64()*220
		}
		f.Polygon(xy...)
		require.InDelta(t, shoelace(clipBox(xy, 60, 40)), covered(f), 0.5, "triangle %d %v", i, xy)
	}
}

func clipBox(xy []float64, w, h float64) []float64 {
	for _, c := range [4]struct{ a, b, d float64 }{{1, 0, 0}, {-1, 0, w}, {0, 1, 0}, {0, -1, h}} {
		in := func(i int) float64 { return c.a*xy[2*i] + c.b*xy[2*i+1] + c.d }
		var out []float64
		n := len(xy) / 2
		for i := range n {
			j := (i + 1) % n
			u, v := in(i), in(j)
			if u >= 0 {
				out = append(out, xy[2*i], xy[2*i+1])
			}
			if (u >= 0) != (v >= 0) {
				t := u / (u - v)
				out = append(out, xy[2*i]+t*(xy[2*j]-xy[2*i]), xy[2*i+1]+t*(xy[2*j+1]-xy[2*i+1]))
			}
		}
		xy = out
	}
	return xy
}

func TestAFillIsEmptyAfterItWasDrawn(t *testing.T) {
	f := NewFill(30, 30)
	img := image.NewRGBA(image.Rect(0, 0, 30, 30))
	f.Rect(-10, -10, 100, 100)
	f.Draw(img, color.NRGBA{200, 100, 50, 255})
	for y := range 30 {
		for x := range 30 {
			require.Equal(t, color.RGBA{200, 100, 50, 255}, img.RGBAAt(x, y))
		}
	}
	require.Zero(t, covered(f))
	for _, v := range f.sum {
		require.Zero(t, v)
	}
}

func TestOddNumbersDoNotPanic(t *testing.T) {
	f := NewFill(20, 20)
	for _, v := range []float64{math.NaN(), math.Inf(1), math.Inf(-1), 1e300, -1e300, 0, 20, 1e9} {
		for _, u := range []float64{math.NaN(), math.Inf(1), -1e300, 0, 20, 7.5} {
			f.Polygon(v, u, 10, 10, u, v)
			f.Line(v, u, u, v, 1)
			f.Dashes(0, 0, 5, u, 1, 2, 2)
		}
	}
	f.Each(func(x, y int, s float32) {
		require.True(t, x >= 0 && x < 20 && y >= 0 && y < 20 && s > 0 && s <= 1)
	})
	NewFill(0, 0).Rect(0, 0, 5, 5)
}

func BenchmarkFill(b *testing.B) {
	f := NewFill(1400, 300)
	img := image.NewRGBA(image.Rect(0, 0, 1400, 300))
	for b.Loop() {
		for k := range 2000 {
			f.Disc(float64(k%100)*14+7, float64(k/100)*14+7, 5)
		}
		f.Draw(img, color.NRGBA{1, 2, 3, 255})
	}
}

func TestABoxIsWhatAFillOfItIs(t *testing.T) {
	for _, c := range []color.NRGBA{{200, 100, 50, 255}, {10, 20, 30, 90}} {
		a, b := image.NewRGBA(image.Rect(0, 0, 20, 12)), image.NewRGBA(image.Rect(0, 0, 20, 12))
		for _, r := range [][4]int{{2, 3, 9, 7}, {-5, -5, 4, 50}, {15, 2, 90, 3}, {5, 5, 5, 9}, {9, 9, 3, 3}} {
			Box(a, r[0], r[1], r[2], r[3], c)
			if r[2] > r[0] {
				f := NewFill(20, 12)
				f.Rect(float64(r[0]), float64(r[1]), float64(r[2]), float64(r[3]))
				f.Draw(b, c)
			}
		}
		require.Equal(t, b.Pix, a.Pix)
	}
}

// The areas are closed forms: a disc, half of it past the picture's edges, and a disc with
// a square hole, which is taken away whichever way it runs.
func TestWhatAnotherFillCoversIsTakenAway(t *testing.T) {
	disc := func(x float64) *Fill {
		f := NewFill(100, 100)
		const n = 4000 // as good as round
		var xy []float64
		for i := range n {
			sin, cos := math.Sincos(2 * math.Pi * float64(i) / n)
			xy = append(xy, x+30.5*cos, 50.2+30.5*sin)
		}
		f.Polygon(xy...)
		return f
	}
	want := math.Pi * 30.5 * 30.5
	require.InDelta(t, want, covered(disc(50.3)), 0.05)
	require.InDelta(t, want/2, covered(disc(100)), 0.05)
	require.InDelta(t, want/2, covered(disc(0)), 0.05, "what lies left of the picture counts for its rows")
	ring, hole := disc(50.3), NewFill(100, 100)
	hole.Polygon(40.25, 40.5, 40.25, 60, 52.75, 60, 52.75, 40.5)
	ring.Less(hole)
	require.InDelta(t, want-12.5*19.5, covered(ring), 0.05)
	require.Zero(t, covered(hole), "it is empty")
	require.Zero(t, covered(ring))
}
