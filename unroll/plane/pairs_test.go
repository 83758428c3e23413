package plane

import (
	"math"
	"math/rand/v2"
	"testing"
)

// scattered returns loops in rough rows, some overlapping.
func scattered(r *rand.Rand, n int) []Loop {
	var ls []Loop
	side := int(math.Ceil(math.Sqrt(float64(n))))
	for i := range n {
		l := star(r, 3+r.IntN(6), true).Scale(0.1 + 0.2*r.Float64())
		ls = append(ls, l.Move(Pt(2*float64(i%side)+r.NormFloat64()/2, 2*float64(i/side)+r.NormFloat64()/2)))
	}
	return ls
}

func TestPairsAreThoseOfAllAgainstAll(t *testing.T) {
	r := seeded(t)
	for range 20 {
		ls := scattered(r, 2+r.IntN(60))
		ls = append(ls, nil, square(30)) // nothing, and one round everything
		d := r.Float64()
		var want []Pair
		for i := range ls {
			for j := i + 1; j < len(ls); j++ {
				g := Nearest(ls[i], ls[j])
				if g.D < d {
					want = append(want, Pair{i, j, g})
				}
			}
		}
		got := Pairs(ls, d)
		if len(got) != len(want) {
			t.Fatalf("%d pairs under %g, want %d", len(got), d, len(want))
		}
		for i := range got {
			if got[i].I != want[i].I || got[i].J != want[i].J || math.Abs(got[i].D-want[i].D) > 1e-12 {
				t.Fatalf("pair %d: %v, want %v", i, got[i], want[i])
			}
		}
	}
}

// rows returns n rounded triangles, up and down, in rows with bridges of 0.8.
func rows(n int) []Loop {
	up := Region{equilateral(6)}.Open(0.5)[0].Inset(0.4)[0]
	up = up.Move(Pt(-3, -math.Sqrt(3)))
	down := up.Turn(math.Pi)
	h := 6 * math.Sqrt(3) / 2
	var ls []Loop
	per := int(math.Sqrt(float64(n) * 5))
	for i := range n {
		x, y := float64(i%per)*3, float64(i/per)*h
		if i%2 == 0 {
			ls = append(ls, up.Move(Pt(x, y)))
		} else {
			ls = append(ls, down.Move(Pt(x, y+h-2*math.Sqrt(3))))
		}
	}
	return ls
}
