// Package added has the formulas of what is soldered or set on a band: how heavy stones,
// bezels, wires and beads are, and how long the strips and wires for them.
//
// What may come in are sizes in millimetres and densities in g/cm^3; what comes out are
// millimetres, square and cubic millimetres, carats and grams. Where a part sits, and that
// there is a band at all, is not known here.
package added

import "math"

// GramsPerCarat is the metric carat: 0.2 g.
const GramsPerCarat = 0.2

// Grams returns the weight of a volume in mm^3 of something so dense, g/cm^3.
func Grams(volume, density float64) float64 { return volume * density / 1000 }

// BezelStrip returns the length of the strip of a bezel round a stone of that perimeter, mm,
// for a wall so thick: its middle line, which runs half the wall outside of the stone. For a
// round stone that is pi (d + t), for a square one 4 s + pi t (Ganoksin, "Bezel formula"); for
// any convex stone the perimeter and pi t, since corners add up to one full turn.
func BezelStrip(perimeter, wall float64) float64 { return perimeter + math.Pi*wall }

// BezelBase returns the area of the plate under a bezel, mm^2, out to the outside of its
// wall: of a convex stone by Steiner's formula, area + perimeter t + pi t^2.
func BezelBase(area, perimeter, wall float64) float64 {
	return area + perimeter*wall + math.Pi*wall*wall
}

// Sphere returns the volume of a bead, mm^3.
func Sphere(diameter float64) float64 { return math.Pi / 6 * diameter * diameter * diameter }

// ClosingBead returns the diameter of n beads, at least 3, that stand on a circle of the
// radius r, each touching both its neighbours: their middles are on the circle of radius
// r + d/2, a chord d apart.
func ClosingBead(r float64, n int) float64 {
	s := math.Sin(math.Pi / float64(n))
	return 2 * r * s / (1 - s)
}

// BeadsAlong returns how many beads of a diameter with a gap between two fit a length, mm:
// floor((L + g)/(d + g)) on a run with two ends, and floor(L/(d + g)) on one that closes,
// whose length is that through the middles of the beads.
func BeadsAlong(length, diameter, gap float64, closed bool) int {
	const whole = 1e-9 // a bead that fits exactly fits
	if !closed {
		length += gap
	}
	return max(0, int(math.Floor(length/(diameter+gap)+whole)))
}
