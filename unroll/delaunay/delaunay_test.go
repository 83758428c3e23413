package delaunay

import (
	"errors"
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// check holds that neighbours know each other and that all triangles run
// counter-clockwise, and returns twice the area.
func check(t *testing.T, d *Triangulation) (twice float64) {
	t.Helper()
	for i, tri := range d.Tri {
		a := d.turn(tri.V[0], tri.V[1], d.At[tri.V[2]])
		if a <= 0 {
			t.Fatalf("triangle %d: area %d", i, a)
		}
		twice += float64(a)
		for k, u := range tri.N {
			if u < 0 {
				continue
			}
			j := d.facing(u, int32(i))
			w := d.Tri[u]
			if w.N[j] != int32(i) || w.V[(j+1)%3] != tri.V[(k+2)%3] || w.V[(j+2)%3] != tri.V[(k+1)%3] {
				t.Fatalf("triangles %d and %d do not know each other", i, u)
			}
		}
	}
	return twice
}

// No circle round a triangle holds another point: the definition (B. Delaunay, 1934), by
// trying them all.
func TestNoCircleHoldsAnotherPoint(t *testing.T) {
	rnd := rand.New(rand.NewPCG(1, 2))
	for _, round := range []bool{false, true} {
		var d Triangulation
		const bits = 20
		if round {
			d.Round(bits, 0, 1<<18, 16)
		} else {
			d.Rectangle(1<<bits, 0, 1<<18)
		}
		for range 300 {
			p := Point{rnd.Int64N(1 << bits), 1 + rnd.Int64N(1<<18-2)}
			if round {
				d.From(int32(p.X >> (bits - 4)))
			}
			_, err := d.Insert(p)
			require.NoError(t, err)
		}
		want := math.Ldexp(1, bits+18+1)
		assert.Equal(t, want, check(t, &d), "the strip is covered")
		for _, tri := range d.Tri {
			for v, p := range d.At {
				if x := d.round(p.X - d.At[tri.V[0]].X); round && max(x, -x) > 1<<(bits-2) {
					continue // a copy of it may be nearer to another corner
				}
				assert.False(t, d.inCircle(tri.V[0], tri.V[1], tri.V[2], int32(v)), "round %v", round)
			}
		}
	}
}

// square is a square of the side n with one point at each unit of its edges, and a hole
// if asked for.
func square(t *testing.T, n, step int64, hole bool) *Triangulation {
	t.Helper()
	d := &Triangulation{}
	d.Rectangle(3*n, -n, 2*n)
	var edges []Edge
	ring := func(ps []Point, hole int32) {
		var id []int32
		for _, p := range ps {
			v, err := d.Insert(p)
			require.NoError(t, err)
			id = append(id, v)
		}
		for i, v := range id {
			w := id[(i+1)%len(id)]
			require.NoError(t, d.Constrain(v, w))
			edges = append(edges, Edge{v, w, hole})
		}
	}
	var ps []Point
	for _, c := range [][4]int64{{0, 0, 1, 0}, {n, 0, 0, 1}, {n, n, -1, 0}, {0, n, 0, -1}} {
		for s := int64(0); s < n; s += step {
			ps = append(ps, Point{n + c[0] + s*c[2], c[1] + s*c[3]})
		}
	}
	ring(ps, -1)
	if hole {
		ring([]Point{{n + n/4, n / 4}, {n + n/4, n / 2}, {n + n/2, n / 2}, {n + n/2, n / 4}}, 0)
	}
	require.NoError(t, d.Mark(edges))
	d.Trim()
	return d
}

func sizes(d *Triangulation, size float64) []float64 {
	s := make([]float64, len(d.At))
	for i := range s {
		s[i] = size
	}
	return s
}

func TestRefinedTrianglesAreNeitherLargeNorSharp(t *testing.T) {
	for _, hole := range []bool{false, true} {
		for _, angle := range []float64{20, 25, 28} {
			const n, step = 1 << 24, 1 << 20
			d := square(t, n, step, hole)
			area := check(t, d)
			require.NoError(t, d.Refine(&Refinement{Size: sizes(d, step), Grade: 0.5, Most: 2 * step, Angle: angle * math.Pi / 180, Limit: 1e5}))
			assert.Equal(t, area, check(t, d))
			for _, tri := range d.Tri {
				for i := range 3 {
					f := refiner{Triangulation: d}
					ux, uy := f.way(tri.V[i], tri.V[(i+1)%3])
					vx, vy := f.way(tri.V[i], tri.V[(i+2)%3])
					assert.Greater(t, math.Atan2(ux*vy-uy*vx, ux*vx+uy*vy)*180/math.Pi, angle-0.01)
					assert.Less(t, math.Hypot(ux, uy), 4.001*step)
				}
			}
		}
	}
}

func TestRefinementEndsAtItsLimitAndWhenStopped(t *testing.T) {
	d := square(t, 1<<24, 1<<20, false)
	err := d.Refine(&Refinement{Size: sizes(d, 1<<14), Grade: 0.5, Most: 1 << 14, Angle: 0.4, Limit: 5000})
	assert.ErrorIs(t, err, ErrTooMany)
	check(t, d)
	d = square(t, 1<<24, 1<<20, false)
	over := errors.New("over")
	assert.ErrorIs(t, d.Refine(&Refinement{Size: sizes(d, 1<<14), Grade: 0.5, Most: 1 << 14, Angle: 0.4, Limit: 1e6, Stop: func() error { return over }}), over)
	check(t, d)
}

// FuzzRefine holds that any polygon is either refused or ends in sound triangles of its
// area, however sharp its corners.
func FuzzRefine(f *testing.F) {
	f.Add([]byte{10, 10, 200, 12, 90, 200})
	f.Add([]byte{10, 10, 250, 11, 10, 12})
	f.Add([]byte{0, 0, 255, 0, 255, 255, 0, 255, 128, 127, 127, 128})
	f.Add([]byte{0, 0, 100, 1, 200, 0, 100, 2})
	f.Fuzz(func(t *testing.T, data []byte) {
		for _, round := range []bool{false, true} {
			var d Triangulation
			if round {
				d.Round(20, -1<<10, 1<<19, 16)
			} else {
				d.Rectangle(1<<20, -1<<10, 1<<19)
			}
			var id []int32
			for i := 0; i+1 < len(data) && i < 60; i += 2 {
				p := Point{int64(data[i])<<9 + 1<<10, int64(data[i+1])<<9 + 1<<10}
				if round {
					d.From(int32(p.X >> 16))
				}
				v, err := d.Insert(p)
				require.NoError(t, err)
				id = append(id, v)
			}
			var edges []Edge
			sound := len(id) >= 3
			for i, v := range id {
				w := id[(i+1)%len(id)]
				sound = sound && v != w && d.Constrain(v, w) == nil
				edges = append(edges, Edge{v, w, -1})
			}
			if !sound || d.Mark(edges) != nil {
				continue
			}
			d.Trim()
			area := check(t, &d)
			err := d.Refine(&Refinement{Size: sizes(&d, 1<<12), Grade: 0.5, Most: 1 << 14, Angle: 0.42, Limit: 20000})
			if err != nil {
				require.ErrorIs(t, err, ErrTooMany)
			}
			// A halved edge may lie half a unit off.
			require.InDelta(t, area, check(t, &d), float64(len(d.At))*math.Ldexp(1, 20))
		}
	})
}
