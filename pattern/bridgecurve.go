package pattern

import (
	"math"
	"slices"
)

// bridgeCurve is how wide the bridges of a field are along it, in proportion to the
// field's bridge; positions run from -1 to 1.
type bridgeCurve struct {
	size   func(at float64) float64
	turns  []float64 // where it may turn between growing and shrinking
	even   bool      // it is its own mirror image
	closed bool      // 1 is -1 again, one period on
	lo, hi float64
}

// newBridgeCurve returns nil if no points are given. Closed and mirrored are as of
// [newGrading].
func newBridgeCurve(points []Grade, closed, mirrored bool) *bridgeCurve {
	if len(points) == 0 {
		return nil
	}
	points = slices.Clone(points)
	c := &bridgeCurve{even: mirrored || evenPoints(points), closed: closed}
	if closed && !mirrored {
		points = roundAbout(oneSeam(points))
	}
	along := GradeCurve(points)
	c.size = func(at float64) float64 {
		if closed {
			at = math.Remainder(at, 2)
		}
		if mirrored {
			at = math.Abs(at)
		}
		return along(at)
	}
	// The curve has no other highs and lows than its points, and where it is mirrored its
	// middle and ends.
	for _, p := range append(points, Grade{At: 0}, Grade{At: 1}) {
		c.turns = append(c.turns, p.At, -p.At)
	}
	c.lo, c.hi = math.Inf(1), math.Inf(-1)
	for _, at := range c.turns {
		v := c.size(at)
		c.lo, c.hi = math.Min(c.lo, v), math.Max(c.hi, v)
	}
	return c
}

// most returns the greatest share between two positions.
func (c *bridgeCurve) most(from, to float64) float64 {
	most := math.Max(c.size(from), c.size(to))
	for _, at := range c.turns {
		if c.closed { // the first time round that it is not before from
			at += 2 * math.Ceil((from-at)/2)
		}
		if from <= at && at <= to {
			most = math.Max(most, c.size(at))
		}
	}
	return most
}
