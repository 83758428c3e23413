package strength

import (
	"math"
	"math/rand/v2"
	"testing"

	"fretband/unroll"
	"fretband/unroll/plane"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

var metal = Material{Young: 75000, Poisson: 0.37}

func random(r *rand.Rand) vector {
	return vector{r.Float64()*2 - 1, r.Float64()*2 - 1, r.Float64()*2 - 1}
}

func lone(r *rand.Rand) *Mesh {
	for {
		m := &Mesh{Tri: [][3]int32{{0, 1, 2}}, Thick: []float64{0.3 + r.Float64()}}
		for range 3 {
			p := random(r)
			m.At = append(m.At, unroll.Point3{X: p[0], Y: p[1], Z: p[2]})
			m.Flat = append(m.Flat, plane.Pt(p[0], p[1]))
		}
		a, b, c := vec(m.At[0]), vec(m.At[1]), vec(m.At[2])
		if b.less(a).cross(c.less(a)).length() > 0.3 {
			return m
		}
	}
}

func TestAnElementThatMovesAsARigidBodyHoldsNothing(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 2))
	for range 50 {
		m := lone(r)
		var e element
		e.make(m, metal, 0)
		var k [18][18]float64
		e.stiffness(&k)
		move, turn := random(r), random(r)
		var u [18]float64
		for i, p := range m.At {
			d := move.plus(turn.cross(vec(p)))
			copy(u[6*i:], d[:])
			copy(u[6*i+3:], turn[:])
		}
		for _, f := range e.forces(&u) {
			for _, v := range f {
				assert.InDelta(t, 0, v, 1e-9*metal.Young)
			}
		}
		s := e.stress(&u)
		assert.Less(t, s.Worst(), 1e-9*metal.Young)
		// Nothing else costs nothing: 18 freedoms less 6 have energy.
		assert.Equal(t, 6, nullity(k))
	}
}

// nullity counts the directions that a symmetric matrix takes to nothing, by elimination
// with full pivoting.
func nullity(k [18][18]float64) int {
	first := 0.0
	for n := range 18 {
		best := n
		for i := n; i < 18; i++ {
			if math.Abs(k[i][i]) > math.Abs(k[best][best]) {
				best = i
			}
		}
		if n == 0 {
			first = k[best][best]
		}
		if k[best][best] < 1e-9*first {
			return 18 - n
		}
		k[n], k[best] = k[best], k[n]
		for i := range k {
			k[i][n], k[i][best] = k[i][best], k[i][n]
		}
		for i := n + 1; i < 18; i++ {
			f := k[i][n] / k[n][n]
			for j := range 18 {
				k[i][j] -= f * k[n][j]
			}
		}
	}
	return 0
}

func TestAnElementIsTheSameWhicheverCornerIsFirst(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 4))
	for range 20 {
		m := lone(r)
		var e element
		var k, turned [18][18]float64
		e.make(m, metal, 0)
		e.stiffness(&k)
		m.Tri[0] = [3]int32{1, 2, 0}
		e.make(m, metal, 0)
		e.stiffness(&turned)
		for i := range 18 {
			for j := range 18 {
				assert.InDelta(t, k[(i+6)%18][(j+6)%18], turned[i][j], 1e-9*metal.Young)
			}
		}
	}
}

// The patch test of B. Irons (A. Razzaque, "The patch test for elements", International
// Journal for Numerical Methods in Engineering 22 (1986) 63-71): where the edge moves as
// constant strain does, irregular triangles inside must take exactly that strain.
func TestPatchesOfIrregularTrianglesTakeConstantStrain(t *testing.T) {
	m := irregular(6, 0.8)
	edge := func(p plane.Point) bool { return near(p.X, 0) || near(p.X, 10) || near(p.Y, 0) || near(p.Y, 10) }
	for name, c := range map[string]struct {
		move   func(x, y float64) [6]float64
		strain [3]float64 // of the middle surface
		bend   [3]float64 // curvature
	}{
		"pulled along":  {func(x, y float64) [6]float64 { return [6]float64{x} }, [3]float64{1, 0, 0}, [3]float64{}},
		"pulled across": {func(x, y float64) [6]float64 { return [6]float64{0, y} }, [3]float64{0, 1, 0}, [3]float64{}},
		"sheared":       {func(x, y float64) [6]float64 { return [6]float64{y, 0, 0, 0, 0, -0.5} }, [3]float64{0, 0, 1}, [3]float64{}},
		// A deflection w turns the normal by w,y about x and by -w,x about y.
		"bent along":  {func(x, y float64) [6]float64 { return [6]float64{0, 0, x * x / 2, 0, -x} }, [3]float64{}, [3]float64{-1, 0, 0}},
		"bent across": {func(x, y float64) [6]float64 { return [6]float64{0, 0, y * y / 2, y} }, [3]float64{}, [3]float64{0, -1, 0}},
		"twisted":     {func(x, y float64) [6]float64 { return [6]float64{0, 0, x * y, x, -y} }, [3]float64{}, [3]float64{0, 0, -2}},
	} {
		t.Run(name, func(t *testing.T) {
			// Edge values enter as loads: what the exact movement needs at inner nodes
			// must be nothing.
			a := &Answer{model: &Model{plan: &Plan{mesh: m}, mat: metal}, Move: make([][6]float64, len(m.At))}
			for i, p := range m.Flat {
				a.Move[i] = c.move(p.X, p.Y)
			}
			sums := make([][6]float64, len(m.At))
			for i, tri := range m.Tri {
				f := a.Forces(i)
				for k, v := range tri {
					for j := range 6 {
						sums[v][j] += f[k][j]
					}
				}
			}
			for i, p := range m.Flat {
				if !edge(p) {
					for _, v := range sums[i] {
						require.InDelta(t, 0, v, 1e-9*metal.Young, "node at %v", p)
					}
				}
			}
			want := (&element{young: metal.Young, nu: metal.Poisson}).plane()
			for i := range m.Tri {
				var e element
				e.make(m, metal, i)
				s := worldStress(&e, a)(i)
				for r := range 3 {
					pull, bend := 0.0, 0.0
					for k := range 3 {
						pull += want[r][k] * c.strain[k]
						bend += want[r][k] * c.bend[k] * 0.4
					}
					assert.InDelta(t, pull, s.Membrane[r], 1e-9*metal.Young)
					assert.InDelta(t, bend, s.Bending[r], 1e-9*metal.Young)
				}
			}
			// The energy of constant strain.
			sum, energy := 0.0, 0.0
			for _, e := range a.Energies() {
				sum += e
			}
			for r := range 3 {
				for k := range 3 {
					energy += 100 * want[r][k] * (0.8*c.strain[r]*c.strain[k] + 0.512/12*c.bend[r]*c.bend[k]) / 2
				}
			}
			assert.InEpsilon(t, energy, sum, 1e-9)
		})
	}
}

// worldStress turns the stress of a triangle that lies in the plane z = 0 into x and y.
func worldStress(e *element, a *Answer) func(i int) Stress {
	return func(i int) Stress {
		u := a.corners(i)
		s := e.stress(&u)
		c, n := e.axis[0][0], e.axis[0][1]
		turn := func(v [3]float64) [3]float64 {
			return [3]float64{
				c*c*v[0] + n*n*v[1] - 2*c*n*v[2],
				n*n*v[0] + c*c*v[1] + 2*c*n*v[2],
				c*n*(v[0]-v[1]) + (c*c-n*n)*v[2],
			}
		}
		return Stress{Membrane: turn(s.Membrane), Bending: turn(s.Bending)}
	}
}
