package plane

import (
	"math"
	"math/rand/v2"
	"testing"
)

// clipPair returns a loop and a region, often crossing cleanly, with all sorts of
// coincidence, nearness and nonsense among them.
func clipPair(r *rand.Rand) (Region, Region) {
	switch r.IntN(6) {
	case 0:
		_, a, b, _ := judgePair(r)
		return a, b
	case 1: // a region with holes, some outside of the loop's box
		a := star(r, 3+r.IntN(9), true).Scale(0.5 + r.Float64()).Move(Pt(r.Float64()*20, r.Float64()*8))
		return Region{a}, board(3, 1+r.IntN(2))
	case 2: // a polygon against a great disc's edge
		a := star(r, 3+r.IntN(9), r.IntN(2) == 0)
		return Region{a}, Region{Circle(Pt(r.NormFloat64(), -40+r.NormFloat64()), 40)}
	case 3: // whose vertex or edge comes near the other's by about a Snap
		a, b := star(r, 3+r.IntN(6), true), star(r, 3+r.IntN(6), true)
		e := b.Edge(r.IntN(len(b)))
		by := e.At([]float64{0, r.Float64()}[r.IntN(2)]).Sub(a[r.IntN(len(a))].Point)
		return Region{a.Move(by.Add(Pt(r.NormFloat64(), r.NormFloat64()).Mul(5 * Snap)))}, Region{b}
	case 4: // nested or turned the wrong way
		a, b := star(r, 3+r.IntN(6), true), star(r, 3+r.IntN(6), true).Scale(0.2)
		if r.IntN(2) == 0 {
			a, b = b, a
		}
		if r.IntN(4) == 0 {
			b = b.Reverse()
		}
		two := Region{b}
		if s := square(0.5).Move(Pt(r.Float64()*6, r.Float64()*6)); Nearest(b, s).D > 0 && !b.Contains(s[0].Point) && !s.Contains(b[0].Point) {
			two = append(two, s)
		}
		return Region{a}, two
	default:
		return Region{star(r, 3+r.IntN(6), true)}, Region{star(r, 3+r.IntN(9), true).Move(Pt(r.NormFloat64()*2, r.NormFloat64()*2))}
	}
}

// The short way of and, not must give what the long way gives, to the last bit.
func TestTheShortWayClipsAsTheLongWayDoes(t *testing.T) {
	r := seeded(t)
	n, short := 20*(*scaleFlag), 0
	for range n {
		a, b := clipPair(r)
		for _, o := range []op{opAnd, opNot} {
			got, ok := clip(a[0], b, o)
			if !ok {
				continue
			}
			short++
			want, err := overlayAny(a[:1], b, o)
			if err != nil {
				t.Fatalf("%#v\n%#v: %v", a[0], b, err)
			}
			if !sameRegion(got, want) {
				t.Fatalf("operation %d of %#v\nand %#v:\nshort %#v\n long %#v", o, a[0], b, got, want)
			}
		}
	}
	if short < n {
		t.Errorf("the short way was taken %d times of %d", short, 2*n)
	}
}

// FuzzClip: the short way, where there is one, is the long way's.
func FuzzClip(f *testing.F) {
	seedCorpus(f)
	f.Fuzz(func(t *testing.T, data []byte, by float64) {
		a, rest := fuzzLoop(data)
		b, _ := fuzzLoop(rest)
		if !(math.Abs(by) < 10) {
			by = 0
		}
		b = b.Move(Pt(by, by*by))
		for _, o := range []op{opAnd, opNot} {
			got, ok := clip(a, Region{b}, o)
			if !ok || a.Check() != nil || b.Check() != nil {
				continue
			}
			want, err := overlayAny(Region{a}, Region{b}, o)
			if err != nil || !sameRegion(got, want) {
				t.Fatalf("operation %d of %#v\nand %#v:\nshort %#v\n long %#v, %v", o, a, b, got, want, err)
			}
		}
	})
}

func sameRegion(a, b Region) bool {
	if len(a) != len(b) || (a == nil) != (b == nil) {
		return false
	}
	for i := range a {
		if len(a[i]) != len(b[i]) {
			return false
		}
		for k := range a[i] {
			v, w := a[i][k], b[i][k]
			if v != w || math.Signbit(v.Bulge) != math.Signbit(w.Bulge) {
				return false
			}
		}
	}
	return true
}

// The direction of an edge at one of its places is the tangent there, found the other way:
// by the fraction.
func TestTheDirectionAtAPlaceIsTheTangentThere(t *testing.T) {
	rng := rand.New(rand.NewPCG(3, 0))
	for range 200 {
		e := Edge{A: Pt(rng.NormFloat64(), rng.NormFloat64()), B: Pt(rng.NormFloat64(), rng.NormFloat64()), Bulge: float64(rng.IntN(2)) * rng.NormFloat64()}
		s := newSeg(e)
		for _, f := range []float64{0, 0.2, 0.5, 0.9, 1} {
			got, want := s.along(e.At(f)), e.Tangent(f)
			nearly(t, "across", got.Cross(want), 0, 1e-9)
			nearly(t, "along", got.Dot(want), 1, 1e-9)
		}
	}
}

// Counted by hand: squares one within the other, run to the left, and a hole run to the
// right; on the left of each bottom side one more winds round than on its right.
func TestTheWindingOnBothSidesOfAnEdge(t *testing.T) {
	about := func(s float64) Loop { return square(s).Move(Pt(-s/2, -s/2)) }
	r := Region{about(12), about(8), about(4).Reverse(), Circle(Pt(0, 0), 1)}
	for i, c := range []struct {
		what        string
		left, right int32
	}{{"outermost side", 1, 0}, {"second side", 2, 1}, {"hole", 2, 1}, {"circle in the hole", 2, 1}} {
		for quarter := range 4 {
			var turned Region
			for _, l := range r {
				turned = append(turned, l.Turn(float64(quarter)*math.Pi/2+0.01))
			}
			left, right := (&clipper{}).woundBy(turned[i].Edge(0), nil, turned)
			if left != c.left || right != c.right {
				t.Errorf("%s, turned %d quarters: %d left and %d right, want %d and %d", c.what, quarter, left, right, c.left, c.right)
			}
		}
	}
}
