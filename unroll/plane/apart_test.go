package plane

import (
	"math"
	"math/rand"
	"testing"
)

// shapes are openings as they are laid anyhow: triangles, circles, ovals of
// arcs, stars.
func anyShape(rng *rand.Rand) Region {
	size := 1 + 2*rng.Float64()
	at := Pt(8*rng.Float64(), 8*rng.Float64())
	var l Loop
	switch rng.Intn(4) {
	case 0:
		l = Circle(Point{}, size)
	case 1:
		l = Polygon(Pt(-size, -size), Pt(size, -size), Pt(0, size))
	case 2:
		l = Loop{{Pt(-size, 0), 0.4}, {Pt(size, 0), 0.4}}
	case 3:
		for i := range 8 {
			r := size
			if i%2 == 1 {
				r *= 0.5
			}
			a := 2 * math.Pi * float64(i) / 8
			l = append(l, Vertex{Pt(r*math.Cos(a), r*math.Sin(a)), 0})
		}
	}
	return Region{l.Turn(2 * math.Pi * rng.Float64()).Move(at)}
}

func TestRegionsKeptApartKeepTheGapAndStayWithinThemselves(t *testing.T) {
	rng := rand.New(rand.NewSource(5))
	touched := 0
	for round := range 60 {
		var rs []Region
		for range 2 + rng.Intn(4) {
			rs = append(rs, anyShape(rng))
		}
		gap := 0.2 + rng.Float64()
		out := Apart(rs, gap, 0)
		for i := range out {
			more, err := Not(out[i], rs[i])
			if err != nil || more.Area() > 1e-6 {
				t.Errorf("round %d: region %d grew by %g mm² (%v)", round, i, more.Area(), err)
			}
			if out[i].Area() < rs[i].Area()-1e-9 {
				touched++
			}
			for j := range i {
				if len(out[i]) == 0 || len(out[j]) == 0 {
					continue
				}
				if out[i].Contains(out[j][0][0].Point) || out[j].Contains(out[i][0][0].Point) {
					t.Errorf("round %d: %d and %d still overlap", round, i, j)
				}
				for _, l := range out[i] {
					if d := NearestRegion(l, out[j]).D; d < gap-1e-6 {
						t.Errorf("round %d: %d and %d are %.7f apart, want %.7f", round, i, j, d, gap)
					}
				}
			}
		}
	}
	if touched < 100 {
		t.Errorf("only %d regions were trimmed", touched)
	}
}

func TestTwoThatAreNotMostlyOneGiveTheSame(t *testing.T) {
	const gap = 0.8
	for _, c := range []struct {
		name string
		a    Loop
		want float64 // what is left of each, mm²; below 0: only that both are equal
	}{
		// Two squares of 4 mm whose edges overlap by 1: each gives (1 + gap)/2
		// along 4 mm; with the edges 0.3 apart, (gap - 0.3)/2.
		{"squares that overlap by 1", Rect(Box{Pt(-3.5, -2), Pt(0.5, 2)}), 16 - 4*0.9},
		{"squares 0.3 apart", Rect(Box{Pt(-4.15, -2), Pt(-0.15, 2)}), 16 - 4*0.25},
		{"tip to tip", Polygon(Pt(-4, -2), Pt(-0.1, 0), Pt(-4, 2)), -1},
		{"circles that overlap", Circle(Pt(-1.5, 0), 2), -1},
		{"a tip in an edge", Polygon(Pt(-4, -1), Pt(0.3, 0.7), Pt(-4, 2)), -1},
	} {
		t.Run(c.name, func(t *testing.T) {
			out := Apart([]Region{{c.a}, {c.a.MirrorX()}}, gap, 0)
			a, b := out[0].Area(), out[1].Area()
			if math.Abs(a-b) > 2*FitTolerance*gap {
				t.Errorf("left %.5f and %.5f mm²", a, b)
			}
			if c.want >= 0 && math.Abs(a-c.want) > 4*FitTolerance {
				t.Errorf("left %.5f mm², want %.5f", a, c.want)
			}
			// As little as needed: the gap is no wider than the fit's tolerance.
			if d := NearestRegion(out[0][0], out[1]).D; d < gap-1e-7 || d > gap+2*FitTolerance {
				t.Errorf("%.5f apart, want %.5f", d, gap)
			}
			if a < 0.2*c.a.Area() {
				t.Errorf("only %.3f of %.3f mm² left", a, c.a.Area())
			}
		})
	}
}

func TestRegionsFarEnoughApartAreNotTouched(t *testing.T) {
	a, b := Region{Circle(Pt(0, 0), 1)}, Region{Circle(Pt(3, 0), 1)}
	out := Apart([]Region{a, b}, 1-1e-9, 0)
	if &out[0][0][0] != &a[0][0] || &out[1][0][0] != &b[0][0] {
		t.Error("regions that keep the gap came back changed")
	}
}

func TestWhoLiesMostlyOverALargerOneYields(t *testing.T) {
	const gap = 0.5
	a, small := Region{Circle(Pt(0, 0), 2)}, Region{Circle(Pt(0.2, 0.1), 0.4)}
	for _, rs := range [][]Region{{a, small, a}, {small, a, a}, {a, a, small}} {
		left := 0.0
		for _, r := range Apart(rs, gap, 0) {
			left += r.Area()
		}
		if math.Abs(left-a.Area()) > 1e-9 {
			t.Errorf("of a circle, its copy and one within are left %.6f mm², want the circle's %.6f", left, a.Area())
		}
	}
	// One not quite on the other is none: both give alike, half a gap from the middle.
	out := Apart([]Region{a, a.Move(Pt(0.1, 0))}, gap, 0)
	// Circular segment of height h: r² acos(1 - h/r) - (r - h) sqrt(2rh - h²).
	h := 2 + 0.05 - gap/2
	want := 4*math.Acos(1-h/2) - (2-h)*math.Sqrt(4*h-h*h)
	for _, r := range out {
		if math.Abs(r.Area()-want) > 4*FitTolerance {
			t.Errorf("left %.5f mm², want the circle's segment of %.5f", r.Area(), want)
		}
	}
}

// Whatever their order, of the same regions comes the same, to the last bit; and of
// their mirror images come the mirror images, within the fit of the bisectors.
func TestWhatRegionsGiveDoesNotDependOnTheirOrder(t *testing.T) {
	rng := rand.New(rand.NewSource(7))
	for round := range 60 {
		var rs []Region
		for range 2 + rng.Intn(3) {
			r := anyShape(rng)
			rs = append(rs, r)
			switch rng.Intn(4) {
			case 0: // its mirror image, mostly over it or not
				at := r.Bounds().Centre().X + 0.7*rng.NormFloat64()
				rs = append(rs, mirrored(r, at))
			case 1:
				rs = append(rs, r)
			}
		}
		gap, period := 0.2+rng.Float64(), 0.0
		if rng.Intn(2) == 0 {
			period = 9
		}
		out := Apart(rs, gap, period)
		order := rng.Perm(len(rs))
		shuffled, flipped := make([]Region, len(rs)), make([]Region, len(rs))
		for k, i := range order {
			shuffled[k], flipped[k] = rs[i], mirrored(rs[i], 4)
		}
		var a, b, c float64
		again, images := Apart(shuffled, gap, period), Apart(flipped, gap, period)
		for k, i := range order {
			// Of copies another one may stay.
			if count(rs, rs[i]) == 1 && compareRegions(again[k], out[i]) != 0 {
				t.Errorf("round %d: region %d has %.6f mm² left, %.6f in another order", round, i, out[i].Area(), again[k].Area())
			}
			a, b, c = a+out[i].Area(), b+again[k].Area(), c+images[k].Area()
		}
		if math.Abs(a-b) > 1e-9 {
			t.Errorf("round %d: %.9f mm² are left, %.9f in another order", round, a, b)
		}
		if math.Abs(a-c) > 0.02 {
			t.Errorf("round %d: %.6f mm² are left, %.6f of the mirror images", round, a, c)
		}
	}
}

func mirrored(r Region, x float64) Region {
	var m Region
	for _, l := range r {
		m = append(m, l.Move(Pt(-x, 0)).MirrorX().Move(Pt(x, 0)))
	}
	return m
}

func count(rs []Region, r Region) int {
	n := 0
	for _, s := range rs {
		if compareRegions(r, s) == 0 {
			n++
		}
	}
	return n
}

// Over the seam two regions part as they would side by side, whichever comes first, and
// a region gives way to its own copy.
func TestRegionsPartOverTheSeamAsTheyWouldSideBySide(t *testing.T) {
	const period, gap = 10.0, 1.0
	a, b := square(2), square(2).Turn(0.2) // about half a millimetre apart, side by side
	beside := Apart([]Region{{a}, {b.Move(Pt(2.7, 0.3))}}, gap, 0)
	if beside[0].Area() > 4-0.1 || beside[1].Area() > 4-0.1 {
		t.Fatal("side by side neither gives way")
	}
	for _, turns := range []float64{-1, 1} {
		move := Pt(turns*period, 0)
		over := Apart([]Region{{a}, {b.Move(Pt(2.7, 0.3)).Move(move)}}, gap, period)
		nearly(t, "the first", over[0].Area(), beside[0].Area(), 1e-3)
		nearly(t, "the second", over[1].Area(), beside[1].Area(), 1e-3)
		other := Apart([]Region{{b.Move(Pt(2.7, 0.3)).Move(move)}, {a}}, gap, period)
		nearly(t, "the second, come first", other[0].Area(), beside[1].Area(), 1e-3)
		nearly(t, "the first, come second", other[1].Area(), beside[0].Area(), 1e-3)
		for _, out := range [][]Region{over, {other[1], other[0]}} {
			if d := NearestRegion(out[0][0].Move(move), out[1]).D; d < gap-1e-6 {
				t.Errorf("over the seam they are %.7f apart, want %v", d, gap)
			}
		}
	}
	// A strip 9.6 long meets its own copy 0.4 further on.
	strip := Rect(Box{Pt(-4.8, -1), Pt(4.8, 1)})
	own := Apart([]Region{{strip}}, gap, period)[0]
	nearly(t, "a strip and its copy", own.Bounds().W(), period-gap, 0.01)
}

func BenchmarkApartPair(b *testing.B) {
	rs := []Region{{Polygon(Pt(-4, -2), Pt(-0.1, 0), Pt(-4, 2))}, {Polygon(Pt(-4, -2), Pt(-0.1, 0), Pt(-4, 2)).MirrorX()}}
	for range b.N {
		Apart(rs, 0.8, 0)
	}
}
