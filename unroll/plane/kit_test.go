package plane

import (
	"flag"
	"math"
	"math/rand/v2"
	"testing"
	"time"
)

var seedFlag = flag.Uint64("seed", 1, "seed of random cases; 0 takes the clock")

// seeded returns a random source whose seed is printed when the test fails.
func seeded(t testing.TB) *rand.Rand {
	seed := *seedFlag
	if seed == 0 {
		seed = uint64(time.Now().UnixNano())
	}
	t.Cleanup(func() {
		if t.Failed() {
			t.Logf("repeat with: go test -run '%s' ./unroll/plane -args -seed %d", t.Name(), seed)
		}
	})
	return rand.New(rand.NewPCG(seed, 1))
}

// randomEdge returns a line or arc in a box some mm wide, now and then on a
// coarse lattice, where coincidences are common.
func randomEdge(r *rand.Rand) Edge {
	var e Edge
	if r.IntN(3) == 0 {
		e = Edge{Pt(float64(r.IntN(5)), float64(r.IntN(5))), Pt(float64(r.IntN(5)), float64(r.IntN(5))), 0}
		e.Bulge = []float64{0, 0, 1, -1, math.Sqrt2 - 1, 1 - math.Sqrt2, 0.5}[r.IntN(7)]
		return e
	}
	e = Edge{Pt(r.Float64()*4, r.Float64()*4), Pt(r.Float64()*4, r.Float64()*4), 0}
	switch r.IntN(5) {
	case 0:
	case 1:
		e.Bulge = r.NormFloat64() * 1e-6
	case 2:
		e.Bulge = r.NormFloat64() * 3
	default:
		e.Bulge = r.NormFloat64() * 0.4
	}
	return e
}

// star returns a random simple counter-clockwise loop of lines and arcs about
// the origin, between the radii 1 and 4, whose arcs are flat enough not to cross
// their neighbours.
func star(r *rand.Rand, n int, arcs bool) Loop {
	for {
		var l Loop
		a := r.Float64() * 2 * math.Pi
		for i := range n {
			s, c := math.Sincos(a + 2*math.Pi*(float64(i)+0.6*r.Float64())/float64(n))
			d := 1 + 3*r.Float64()
			v := Vertex{Point: Pt(c*d, s*d)}
			if arcs && r.IntN(3) > 0 {
				v.Bulge = r.NormFloat64() * 0.3
			}
			l = append(l, v)
		}
		if l.Check() == nil {
			return l.CCW()
		}
	}
}

// convex returns a random convex counter-clockwise polygon, or such a polygon
// with sides bulging outward, still convex.
func convex(r *rand.Rand, n int, arcs bool) Loop {
	// Corners on a circle are convex; a bulge up to that of the circle keeps them so.
	as := make([]float64, n)
	for i := range as {
		as[i] = 2 * math.Pi * (float64(i) + 0.7*r.Float64()) / float64(n)
	}
	var l Loop
	for i, a := range as {
		s, c := math.Sincos(a)
		next := as[(i+1)%n]
		if i == n-1 {
			next += 2 * math.Pi
		}
		v := Vertex{Point: Pt(3*c, 3*s)}
		if arcs && r.IntN(2) == 0 {
			v.Bulge = math.Tan((next-a)/4) * r.Float64()
		}
		l = append(l, v)
	}
	return l
}

// nearly fails the test unless got is within tol of want.
func nearly(t testing.TB, what string, got, want, tol float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tol) {
		t.Errorf("%s: got %.12g, want %.12g, off by %.3g, allowed %.3g", what, got, want, got-want, tol)
	}
}
