package check

import "math"

// bar is an open band as a curved bar: what matters of each of its sections. It is
// pulled apart by two equal and opposite forces at its ends, along the straight line
// that joins them, in the plane of the middle line.
type bar struct {
	step []float64 // mm of the centre line that the section stands for
	arm  []float64 // mm, its distance from the line of the forces
	pull []float64 // share of the force that is a pull along the band there, -1 to 1
	curv []float64 // 1/mm, of the centre line
	net  []float64 // mm of metal
	wide []float64 // mm of metal for stiffness, at most net
	rise []float64 // mm², mean square height of a domed section over its middle; 0 if flat
	edge []float64 // mm, the farthest face of the section from its middle
	t    float64   // mm of thickness
}

// curvedSection returns the radius of the neutral axis, mm, and its distance from
// the middle of a rectangular section of height h bent to the radius r of its middle
// (E. Winkler; H. Bach): rn = h / ln(ro/ri), e = r - rn.
func curvedSection(r, h float64) (rn, e float64) {
	rn = h / math.Log((r+h/2)/(r-h/2))
	return rn, r - rn
}

// thinBar is the ratio of radius to thickness above which a section counts as
// straight: the stress of Winkler's theory is then within 0.2 % of it, and e would
// soon drown in rounding.
const thinBar = 200

// perNewton returns the opening, mm, that a force of 1 N makes in metal of Young's
// modulus 1 MPa, by A. Castigliano's theorem: twice the energy at unit force,
//
//	∫ M²/(A e R) ds + ∫ N²/A ds - 2 ∫ M N/(A R) ds
//
// for curved sections (J. Shigley, Mechanical Engineering Design, deflection of
// curved members), ∫ M²/I ds where they are straight. Shear is left out: it is
// under 1 % where the band is 10 times as long as thick.
func (b bar) perNewton() float64 {
	var sum float64
	for i := range b.step {
		m, n, k := b.arm[i], b.pull[i], b.curv[i]
		area := b.wide[i] * b.t
		if area <= 0 {
			continue
		}
		if b.rise[i] > 0 || math.Abs(k)*b.t*thinBar < 1 {
			inertia := area * (b.t*b.t/12 + b.rise[i])
			sum += (m*m/inertia + n*n/area) * b.step[i]
			continue
		}
		// A hollow run bends the other way: the same bar seen from its other side.
		if k < 0 {
			m, k = -m, -k
		}
		_, e := curvedSection(1/k, b.t)
		sum += (m*m*k/(area*e) + n*n/area - 2*m*n*k/area) * b.step[i]
	}
	return sum
}

// stress returns the greatest stress of section i, MPa, when the bar is pulled with
// 1 N: that of the face where bending and pull are most together.
func (b bar) stress(i int) float64 {
	m, n, k := b.arm[i], b.pull[i], b.curv[i]
	area := b.net[i] * b.t
	if area <= 0 {
		return 0
	}
	direct := n / area
	if b.rise[i] > 0 || math.Abs(k)*b.t*thinBar < 1 {
		inertia := area * (b.t*b.t/12 + b.rise[i])
		return math.Abs(m)*b.edge[i]/inertia + math.Abs(direct)
	}
	if k < 0 {
		m, k = -m, -k
	}
	r := 1 / k
	rn, e := curvedSection(r, b.t)
	at := func(r float64) float64 { return math.Abs(direct + m*(rn-r)/(area*e*r)) }
	return math.Max(at(r-b.t/2), at(r+b.t/2))
}

// set returns the force, N, that opens the bar by open mm, and how much of the
// opening stays, in metal that yields at proof MPa without hardening: past it a
// rectangular section bends by
//
//	κ/κy = 1/√(3 - 2 M/My), My <= M < 1.5 My
//
// (elastic-perfectly plastic bending; S. Timoshenko, Strength of Materials, part II).
// Worn metal hardens and stays a little less. A domed section is taken the same way.
func (b bar) set(open, modulus, proof float64) (force, stays float64) {
	elastic := b.perNewton() / modulus
	first := make([]float64, len(b.step)) // N at which the section begins to yield
	least := math.Inf(1)
	for i := range first {
		first[i] = math.Inf(1)
		if s := b.stress(i); s > 0 {
			first[i] = proof / s
		}
		least = math.Min(least, first[i])
	}
	if open <= least*elastic {
		return open / elastic, 0
	}
	plastic := func(f float64) float64 {
		var sum float64
		for i := range first {
			if m := f / first[i]; m > 1 {
				inertia := b.wide[i] * b.t * (b.t*b.t/12 + b.rise[i])
				bend := first[i] * math.Abs(b.arm[i]) / (modulus * inertia) // at yield
				sum += bend * (1/math.Sqrt(math.Max(3-2*m, 1e-12)) - m) * math.Abs(b.arm[i]) * b.step[i]
			}
		}
		return sum
	}
	lo, hi := least, 1.5*least
	for range 80 {
		f := (lo + hi) / 2
		if f*elastic+plastic(f) < open {
			lo = f
		} else {
			hi = f
		}
	}
	return lo, math.Max(open-lo*elastic, 0)
}
