package plane

import (
	"math"
	"math/rand"
	"testing"
)

// A bound on the length of the necks at each edge leaves none out: the same necks as
// with boxes grown by the limit all alike, which is the plain way.
func TestBoundingNecksAtEachEdgeLeavesNoneOut(t *testing.T) {
	for seed := range int64(60) {
		rng := rand.New(rand.NewSource(seed))
		r := Region{Rect(Box{Pt(0, 0), Pt(60, 40)})}
		for range 6 + rng.Intn(40) {
			c := Pt(4+52*rng.Float64(), 4+32*rng.Float64())
			l := Circle(c, 0.3+1.5*rng.Float64())
			switch rng.Intn(3) {
			case 0:
				l = petal().Scale(0.3 + 0.3*rng.Float64()).Turn(6 * rng.Float64()).Move(c)
			case 1:
				l = Polygon(Pt(-2, -1), Pt(2, -1.5), Pt(1, 1), Pt(-1, 1.2)).Scale(0.2 + rng.Float64()).Turn(6 * rng.Float64()).Move(c)
			}
			r = append(r, l.CCW().Reverse()) // some of them overlap
		}
		for _, limit := range []float64{0.5, 3, 12, 100} {
			got, want := r.Necks(limit), plainNecks(r, limit)
			if len(got) != len(want) {
				t.Fatalf("seed %d, limit %g: %d necks, the plain way finds %d", seed, limit, len(got), len(want))
			}
			for i := range got {
				if got[i] != want[i] {
					t.Fatalf("seed %d, limit %g: neck %d is %v, the plain way finds %v", seed, limit, i, got[i], want[i])
				}
			}
		}
	}
}

// The bound of every cell is the least over all cells that an edge runs through, the
// plain way: their diagonal and the steps there, straight and diagonal ones.
func TestTheClearanceOfACellIsThatOfTheNearestEdge(t *testing.T) {
	r := Region{Circle(Pt(3, 9), 1), Circle(Pt(21, 2), 0.5), Polygon(Pt(12, 14), Pt(14, 14), Pt(13, 16))}
	c := newClearance(brims(r), 1000)
	edge := c.size * math.Sqrt2
	for i, got := range c.bound {
		want := math.Inf(1)
		for j, b := range c.bound {
			if b == edge {
				dx, dy := math.Abs(float64(i%c.nx-j%c.nx)), math.Abs(float64(i/c.nx-j/c.nx))
				want = math.Min(want, edge+c.size*(math.Max(dx, dy)+(math.Sqrt2-1)*math.Min(dx, dy)))
			}
		}
		nearly(t, "bound", got, want, 1e-9)
	}
}

// plainNecks is Region.Necks with every pair of edges looked at and every edge asked
// whether it lies in the disc.
func plainNecks(r Region, limit float64) []Gap {
	m := make(Region, len(r))
	for i, l := range r {
		m[i] = l.Reverse()
	}
	f := neckFinder{bs: brims(m), limit: limit}
	for i := range f.bs {
		for j := i + 1; j < len(f.bs); j++ {
			f.near(int32(i), int32(j))
		}
	}
	return gaps(f.distinct())
}
