package strength

import (
	"math"
	"slices"
	"testing"

	"fretband/unroll"
	"fretband/unroll/plane"

	"github.com/stretchr/testify/assert"
)

// spread shares a force equally among the sides between nodes in a row: half as much at
// both ends.
func spread(nodes []int, total [6]float64) (loads []Load) {
	for i, n := range nodes {
		share := 1 / float64(len(nodes)-1)
		if i == 0 || i == len(nodes)-1 {
			share /= 2
		}
		l := Load{Node: n}
		for k := range 3 {
			l.Force[k], l.Moment[k] = total[k]*share, total[3+k]*share
		}
		loads = append(loads, l)
	}
	return loads
}

// A narrow thin ring squeezed by two forces becomes shorter between them by
// 0.1488 F r³ / (E I): (pi/4 - 2/pi). S. Timoshenko, Strength of Materials, part II; W. C.
// Young and R. G. Budynas, Roark's Formulas for Stress and Strain, 7th ed., table 9.2,
// case 1. The pull along the ring and shear add (r the middle radius, F r/(E A) pi/4 of
// pull and 1.2 F r/(G A) pi/4 of shear, as there with the thickness as correction).
func TestARingSqueezedByTwoForcesGivesAsRoarkSays(t *testing.T) {
	const r, width, thick, force = 30, 1.5, 0.3, 1
	for _, n := range []int{96, 192} {
		m := weave{nx: n, ny: 1, closed: true, place: arc(r, 0, 2*math.Pi, width), thick: thick}.mesh()
		// Poisson's ratio is nothing: a plate a few times as wide as thick is then a beam.
		mat := Material{Young: 75000}
		top := m.nodes(func(p plane.Point) bool { return near(p.X, 0) })
		foot := m.nodes(func(p plane.Point) bool { return near(p.X, math.Pi*r) })
		a := solve(t, m, mat, Isostatic(m), append(spread(top, [6]float64{0, 0, -force}), spread(foot, [6]float64{0, 0, force})...))[0]
		assert.Less(t, a.Balance().Supports, 1e-8)
		got := a.Move[foot[0]][2] - a.Move[top[0]][2]
		inertia, area := width*thick*thick*thick/12, width*thick
		want := force*r*r*r/(mat.Young*inertia)*(math.Pi/4-2/math.Pi) + math.Pi/4*force*r/(mat.Young*area)*(1+1.2*2)
		t.Logf("%d: %.4f", n, got/want)
		assert.InEpsilon(t, want, got, 10/float64(n*n))
	}
}

// A slit ring whose ends are pulled apart by two forces opens by 3 pi F r³ / (E I).
// Timoshenko, Strength of Materials, part I, section 80 (curved bars by Castigliano's theorem).
func TestASlitRingOpensAsTimoshenkoSays(t *testing.T) {
	const r, width, thick, force = 30, 1.5, 0.3, 0.01
	for _, n := range []int{96, 192} {
		m := weave{nx: n, ny: 1, place: arc(r, 0, 2*math.Pi, width), thick: thick}.mesh()
		mat := Material{Young: 75000}
		left := m.nodes(func(p plane.Point) bool { return near(p.X, 0) })
		right := m.nodes(func(p plane.Point) bool { return near(p.X, 2*math.Pi*r) })
		a := solve(t, m, mat, Isostatic(m), append(spread(left, [6]float64{force}), spread(right, [6]float64{-force})...))[0]
		got := a.Move[left[0]][0] - a.Move[right[0]][0]
		inertia, area := width*thick*thick*thick/12, width*thick
		want := 3*math.Pi*force*r*r*r/(mat.Young*inertia) + math.Pi*force*r/(mat.Young*area)*(1+1.2*2)
		t.Logf("%d: %.5f", n, got/want)
		assert.InEpsilon(t, want, got, 10/float64(n*n))
	}
}

// A cantilever bent across its plane, in its plane, and twisted. Bending with shear after
// Timoshenko: F L³/(3 E I) + 1.2 F L/(G A). Twist of a rectangle: J = beta b t³ with beta
// 0.312 where it is 10 times as wide as thick and 0.196 where it is 1.5 times, as a bridge
// is (S. Timoshenko and J. N. Goodier, Theory of Elasticity, section 109). Shear gathers at
// the edges within a thickness, so twist needs a fine mesh: with 3 cells across the bridge
// its stiffness is 12 % high, with 8 2 %, with 16 0.2 %. The clamp keeps the section from
// warping, so the twist is taken between two sections away from it.
func TestACantileverBendsAndTwistsAsBeamsDo(t *testing.T) {
	mat := Material{Young: 75000}
	shear := mat.Young / 2
	for _, c := range []struct {
		name         string
		width, thick float64
		nx, ny       int
		load         [6]float64
		freedom      int
		want         float64
		within       float64
	}{
		{"across its plane", 1, 0.5, 40, 2, [6]float64{0, 0, 1}, 2, 8000/(3*mat.Young*0.125/12) + 1.2*20/(shear*0.5), 1e-3},
		{"a thick one across its plane", 2, 2, 40, 4, [6]float64{0, 0, 1}, 2, 8000/(3*mat.Young*16.0/12) + 1.2*20/(shear*4), 3e-3},
		{"in its plane", 2, 0.5, 40, 4, [6]float64{0, 1}, 1, 8000/(3*mat.Young*4.0/12) + 1.2*20/(shear*1), 3e-3},
		{"in its plane, one cell wide", 2, 0.5, 10, 1, [6]float64{0, 1}, 1, 8000/(3*mat.Young*4.0/12) + 1.2*20/(shear*1), 2e-2},
		{"twisted", 4, 0.4, 80, 16, [6]float64{0, 0, 0, 1}, 3, 10 / (shear * 0.312 * 4 * 0.064), 2.5e-2},
		{"a bridge twisted", 1.8, 1.2, 80, 8, [6]float64{0, 0, 0, 1}, 3, 10 / (shear * 0.196 * 1.8 * 1.728), 2.5e-2},
	} {
		t.Run(c.name, func(t *testing.T) {
			m := weave{nx: c.nx, ny: c.ny, place: flat(20, c.width), thick: c.thick, cross: true}.mesh()
			end := m.nodes(func(p plane.Point) bool { return near(p.X, 20) })
			a := solve(t, m, mat, clamp(m.nodes(func(p plane.Point) bool { return near(p.X, 0) })), spread(end, c.load))[0]
			got := a.Move[end[len(end)/2]][c.freedom]
			if c.load[3] != 0 {
				half := m.nodes(func(p plane.Point) bool { return near(p.X, 10) && near(p.Y, c.width/2) })[0]
				end := m.nodes(func(p plane.Point) bool { return near(p.X, 15) && near(p.Y, c.width/2) })[0]
				got = 2 * (a.Move[end][3] - a.Move[half][3])
			}
			t.Logf("%.5f of the formula", got/c.want)
			assert.InEpsilon(t, c.want, got, c.within)
		})
	}
}

// A square plate on simple supports: 0.00406 q a⁴/D in the middle under a pressure,
// 0.01160 P a²/D under a force there. S. Timoshenko and S. Woinowsky-Krieger, Theory of
// Plates and Shells, 2nd ed., tables 8 and 23 (Poisson's ratio 0.3).
func TestASquarePlateBendsAsTimoshenkoSays(t *testing.T) {
	const side, thick, n = 10.0, 0.05, 32
	mat := Material{Young: 75000, Poisson: 0.3}
	m := weave{nx: n, ny: n, place: flat(side, side), thick: thick, cross: true}.mesh()
	var fixed []Fixed
	for _, v := range m.nodes(func(p plane.Point) bool { return near(p.X, 0) || near(p.X, side) || near(p.Y, 0) || near(p.Y, side) }) {
		p := m.Flat[v]
		// The edge stays straight: no node of it turns about the edge's normal.
		fixed = append(fixed, Fixed{Node: v, Held: [6]bool{true, true, true, near(p.X, 0) || near(p.X, side), near(p.Y, 0) || near(p.Y, side), true}})
	}
	var pressure []Load
	for i := range m.Tri {
		for _, v := range m.Tri[i] {
			pressure = append(pressure, Load{Node: int(v), Force: [3]float64{0, 0, m.Area(i) / 3}})
		}
	}
	middle := m.nodes(func(p plane.Point) bool { return near(p.X, side/2) && near(p.Y, side/2) })[0]
	answers := solve(t, m, mat, fixed, pressure, []Load{{Node: middle, Force: [3]float64{0, 0, 1}}})
	stiff := mat.Young * thick * thick * thick / 12 / (1 - 0.09)
	assert.InEpsilon(t, 0.00406*side*side*side*side/stiff, answers[0].Move[middle][2], 3e-3)
	assert.InEpsilon(t, 0.01160*side*side/stiff, answers[1].Move[middle][2], 5e-3)
	// In the middle the moment is 0.0479 q a² both ways (table 8), so von Mises' stress is
	// what this bends with.
	stresses := answers[0].Stresses()
	for i, tri := range m.Tri {
		if slices.Contains(tri[:], int32(middle)) {
			assert.InEpsilon(t, 6*0.0479*side*side/thick/thick, stresses[i].Outer(), 5e-3)
		}
	}
}

// A pinched cylinder with diaphragms at its ends: 1.8248e-5 under the force. T. Belytschko
// and others, "Stress projection for membrane and shear locking in shell finite
// elements", Computer Methods in Applied Mechanics and Engineering 51 (1985) 221-258. One
// eighth of it is meshed.
func TestAPinchedCylinderGivesAsBelytschkoSays(t *testing.T) {
	const r, length, thick = 300, 600, 3
	mat := Material{Young: 3e6, Poisson: 0.3}
	last := 0.0
	for _, n := range []int{16, 32, 64} {
		m := weave{nx: n, ny: n, place: arc(r, 0, math.Pi/2, length/2), thick: thick, cross: true}.mesh()
		var fixed []Fixed
		for i, p := range m.Flat {
			var f [6]bool
			hold := func(is bool, freedoms ...int) {
				for _, k := range freedoms {
					f[k] = f[k] || is
				}
			}
			hold(near(p.X, 0), 0, 4, 5)           // the plane x = 0 is a mirror
			hold(near(p.X, r*math.Pi/2), 2, 3, 4) // z = 0
			hold(near(p.Y, length/2), 1, 3, 5)    // the middle of the length
			hold(near(p.Y, 0), 0, 2)              // the diaphragm
			fixed = append(fixed, Fixed{Node: i, Held: f})
		}
		at := m.nodes(func(p plane.Point) bool { return near(p.X, 0) && near(p.Y, length/2) })[0]
		a := solve(t, m, mat, fixed, []Load{{Node: at, Force: [3]float64{0, 0, -0.25}}})[0]
		last = -a.Move[at][2]
		t.Logf("%d: %.4f", n, last/1.8248e-5)
	}
	assert.InEpsilon(t, 1.8248e-5, last, 0.02)
}

// holed is a quarter of a plate with a round hole, meshed by rings that grow outwards
// from the hole to a square.
func holed(hole, half float64, rings, around int, thick float64) *Mesh {
	return weave{nx: around, ny: rings, thick: thick, cross: true, place: func(s, t float64) (unroll.Point3, plane.Point) {
		angle := (1 - s) * math.Pi / 2
		sin, cos := math.Sincos(angle)
		far := half / max(sin, cos)
		ratio := math.Pow(far/hole, t)
		x, y := hole*cos*ratio, hole*sin*ratio
		return unroll.Point3{X: x, Y: y}, plane.Pt(x, y)
	}}.mesh()
}

// The stress at a small hole in a plate under tension is three times that far away (G.
// Kirsch 1898; W. D. Pilkey, Peterson's Stress Concentration Factors, 3rd ed., chart 4.1),
// 3.00 for a hole of a hundredth of the width.
func TestAHoleInAPlateTriplesTheStress(t *testing.T) {
	const hole, half = 1, 100
	short := 1.0
	for _, around := range []int{8, 16, 32} {
		m := holed(hole, half, around*3, around, 1)
		var fixed []Fixed
		for i, p := range m.Flat {
			x, y := math.Abs(p.X) < 1e-9, math.Abs(p.Y) < 1e-9
			fixed = append(fixed, Fixed{Node: i, Held: [6]bool{x, y, true, true, true, x || y}})
		}
		var loads []Load
		for _, tri := range m.Tri {
			for k := range 3 {
				v, w := tri[k], tri[next[k]]
				if p, q := m.Flat[v], m.Flat[w]; p.Y > half-1e-6 && q.Y > half-1e-6 {
					f := math.Abs(p.X-q.X) / 2
					loads = append(loads, Load{Node: int(v), Force: [3]float64{0, f}}, Load{Node: int(w), Force: [3]float64{0, f}})
				}
			}
		}
		a := solve(t, m, metal, fixed, loads)[0]
		most := 0.0
		for _, s := range a.Stresses() {
			most = max(most, s.Worst())
		}
		t.Logf("%d chords a quarter: %.3f", around, most)
		// The middle of a triangle stands off the edge, so the answer is low, by less the
		// finer the mesh.
		assert.Less(t, most, 3.0)
		assert.Less(t, 3-most, short)
		short = 0.6 * (3 - most)
	}
}
