package check

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
)

// slitRing is a ring of middle radius r, slit by an angle of f to either side.
func slitRing(r, t, width, f float64) bar {
	const n = 2000
	var b bar
	b.t = t
	for i := range n {
		th := f + (2*math.Pi-2*f)*(float64(i)+0.5)/n // from the gap
		b.step = append(b.step, (2*math.Pi-2*f)*r/n)
		b.arm = append(b.arm, r*(math.Cos(f)-math.Cos(th)))
		b.pull = append(b.pull, -math.Cos(th))
		b.curv = append(b.curv, 1/r)
		b.net = append(b.net, width)
		b.wide = append(b.wide, width)
		b.rise = append(b.rise, 0)
		b.edge = append(b.edge, t/2)
	}
	return b
}

func TestASlitRingOpensAsTheClosedFormSays(t *testing.T) {
	for _, c := range []struct {
		what                  string
		r, t, width, f        float64
		opening, moment       float64 // in P R^3/(E I), in P R
		modulus, load, expect float64 // where a problem is printed in numbers
		source                string
	}{
		{"slit thin ring", 30, 0.3, 25, 0, 3 * math.Pi, 2, 0, 0, 0,
			"S. Timoshenko, Strength of Materials"},
		{"slit by 25 degrees to either side", 30, 0.3, 25, 25 * math.Pi / 180, 8.29850, 1 + math.Cos(25*math.Pi/180), 0, 0, 0,
			"Castigliano by hand: 2[(pi-f)(cos^2 f + 1/2) + 1.5 sin f cos f]"},
		{"half a ring, two quarter bars", 30, 0.15, 25, math.Pi / 2, math.Pi / 2, 1, 0, 0, 0,
			"Roark's Formulas, circular arcs: pi/4 for each quarter bar loaded along its root"},
		// In inches and pounds: which force opens it by 0.1 in? 10.743 lb by the first.
		{"slit ring", 2, 0.3, 0.2, 0, 3 * math.Pi, 0, 18e6, 10.743, 0.1,
			"D. Logan, A First Course in the Finite Element Method, problem 5-64"},
	} {
		t.Run(c.what, func(t *testing.T) {
			b := slitRing(c.r, c.t, c.width, c.f)
			inertia := c.width * c.t * c.t * c.t / 12
			assert.InEpsilon(t, c.opening*c.r*c.r*c.r/inertia, b.perNewton(), 0.005, c.source)
			if c.moment > 0 {
				assert.InEpsilon(t, c.moment*c.r*c.t/2/inertia, b.mostStress(), 0.005, c.source)
			}
			if c.expect > 0 {
				assert.InEpsilon(t, c.expect, b.perNewton()/c.modulus*c.load, 0.005, c.source)
			}
		})
	}
}

// A slit ring of any thickness, by Winkler's theory in closed form: Castigliano's integrals
// over M = R (1 - cos θ), N = -cos θ are 3πR²/(A e) + πR/A - 2πR/A, and opposite the slit
// the inner face has 1/A + 2R (rn - ri)/(A e ri).
func TestAThickSlitRingOpensAsWinklersTheorySays(t *testing.T) {
	const width = 7.0
	for _, c := range [][2]float64{{10, 5}, {30, 1.2}, {200, 2}} {
		r, th := c[0], c[1]
		b := slitRing(r, th, width, 0)
		rn := th / math.Log((r+th/2)/(r-th/2))
		e, area, ri := r-rn, width*th, r-th/2
		assert.InEpsilon(t, 3*math.Pi*r*r/(area*e)-math.Pi*r/area, b.perNewton(), 1e-5, "%v", c)
		assert.InEpsilon(t, 1/area+2*r*(rn-ri)/(area*e*ri), b.mostStress(), 1e-5, "%v", c)
		for i := range b.curv { // seen from its other side
			b.curv[i], b.arm[i] = -b.curv[i], -b.arm[i]
		}
		assert.InEpsilon(t, 3*math.Pi*r*r/(area*e)-math.Pi*r/area, b.perNewton(), 1e-5, "%v", c)
	}
}

// A U of two straight legs a and a half circle r, pulled apart at the tips:
// P/(E I) [2 a^3/3 + r (pi a^2 + 4 a r + pi r^2/2)] (Castigliano by hand; S. Timoshenko,
// Strength of Materials, part I, curved bars). Without the bow it is two straight strips.
func TestStraightRunsBendAsStrips(t *testing.T) {
	const a, r, th, width = 40.0, 12.0, 0.2, 10.0
	const inertia = width * th * th * th / 12
	var b bar
	b.t = th
	add := func(step, arm, curv, pull float64) {
		b.step, b.arm, b.curv, b.pull = append(b.step, step), append(b.arm, arm), append(b.curv, curv), append(b.pull, pull)
		b.net, b.wide, b.rise, b.edge = append(b.net, width), append(b.wide, width), append(b.rise, 0), append(b.edge, th/2)
	}
	const n = 1000
	for range 2 {
		for i := range n {
			add(a/n, a*(float64(i)+0.5)/n, 0, 0)
		}
	}
	assert.InEpsilon(t, 2*a*a*a/3/inertia, b.perNewton(), 0.005)
	assert.InEpsilon(t, a*6/(width*th*th), b.mostStress(), 0.005)
	for i := range n {
		s := math.Sin(math.Pi * (float64(i) + 0.5) / n)
		add(math.Pi*r/n, a+r*s, 1/r, s)
	}
	assert.InEpsilon(t, (2*a*a*a/3+r*(math.Pi*a*a+4*a*r+math.Pi*r*r/2))/inertia, b.perNewton(), 0.005)
}

// J. Shigley, Mechanical Engineering Design, curved members: a hook of 0.75 x 4 in,
// inner radius 2, outer 6, 5000 lb at the middle of its curve: +16.9 ksi inside, -5.63
// outside (memory, reckoned again: rn 3.64096, 16901 and -5634 psi).
func TestACrampedSectionIsStressedAsWinklersTheorySays(t *testing.T) {
	rn, e := curvedSection(4, 4)
	assert.InDelta(t, 3.64096, rn, 1e-5)
	assert.InDelta(t, 0.35904, e, 1e-5)
	hook := bar{step: []float64{1}, arm: []float64{4}, pull: []float64{1}, curv: []float64{0.25}, net: []float64{0.75}, wide: []float64{0.75}, rise: []float64{0}, edge: []float64{2}, t: 4}
	assert.InEpsilon(t, 16901, 5000*hook.stress(0), 0.001)
	// Bent the other way, the same face of the same bar: seen from its other side.
	hook.curv[0], hook.arm[0] = -0.25, -4
	assert.InEpsilon(t, 16901, 5000*hook.stress(0), 0.001)
	// Hardly curved it is the straight bar, on either side of where we change over.
	for _, r := range []float64{thinBar * 4 * 0.99, thinBar * 4 * 1.01} {
		hook.curv[0], hook.arm[0], hook.pull[0] = 1/r, 4, 0
		assert.InEpsilon(t, 4*6/(0.75*16), hook.stress(0), 0.002)
		assert.InEpsilon(t, 16/(0.75*64/12), hook.perNewton(), 0.002)
	}
}

// Under one moment all along, the bend goes as 1/√(3 - 2m) of that at yield: opened
// to twice the yield's opening, m is 1.375, and 0.625 of it stays (elastic-perfectly
// plastic beam; S. Timoshenko, Strength of Materials, part II).
func TestWhatStaysIsThatOfPlasticBending(t *testing.T) {
	var b bar
	b.t = 1
	for range 10 {
		b.step, b.arm, b.curv, b.pull = append(b.step, 3), append(b.arm, 20), append(b.curv, 0), append(b.pull, 0)
		b.net, b.wide, b.rise, b.edge = append(b.net, 6), append(b.wide, 6), append(b.rise, 0), append(b.edge, 0.5)
	}
	const modulus, proof = 100000.0, 150.0
	yield := proof / b.stress(0) // N
	opening := yield * b.perNewton() / modulus
	force, stays := b.set(2*opening, modulus, proof)
	assert.InEpsilon(t, 1.375*yield, force, 1e-6)
	assert.InEpsilon(t, 0.625*opening, stays, 1e-6)
	force, stays = b.set(0.99*opening, modulus, proof)
	assert.InEpsilon(t, 0.99*yield, force, 1e-9)
	assert.Zero(t, stays)
}
