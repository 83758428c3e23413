package pattern

import (
	"math"

	"fretband/unroll/plane"
)

// closing returns the rotation nearest to the one asked for, radians, at which an order of
// cells that repeats after pitch along and rise across closes round a band of that
// circumference, and the size of the cells, in proportion, with which it closes
// exactly.
//
// Turned by t and scaled by k the order repeats after k (p pitch, q rise) turned by
// t, for any whole p and q. One of these has to be the circumference: the one that
// is nearest to it already.
func closing(circumference, pitch, rise, rotation float64) (closed, size float64) {
	sin, cos := math.Sincos(rotation)
	aim := plane.Pt(circumference*cos, -circumference*sin)
	v := plane.Pt(pitch*math.Round(aim.X/pitch), rise*math.Round(aim.Y/rise))
	if v == (plane.Point{}) {
		along, across := plane.Pt(math.Copysign(pitch, aim.X), 0), plane.Pt(0, math.Copysign(rise, aim.Y))
		v = along
		if across.Dist(aim) < along.Dist(aim) {
			v = across
		}
	}
	closed = -math.Atan2(v.Y, v.X)
	closed += 2 * math.Pi * math.Round((rotation-closed)/(2*math.Pi))
	return closed, circumference / v.Len()
}
