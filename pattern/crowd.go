package pattern

import (
	"math"

	"fretband/unroll/plane"
)

// crowd holds the openings that [Trim] works on. Two that are too near to each other
// cost some tenths of a millisecond or, with many edges, much more, and of those that
// all lie in one place every two are too near: so the work is bounded.
type crowd struct {
	rules   Rules
	regions []plane.Region
	boxes   []plane.Box
	edges   []int
	work    float64
}

// mostWork bounds the work, in edges looked at: less than two seconds', enough for
// every opening of a field of 2000 to be turned into its neighbours.
const mostWork = 4e8

// workOf is the work to part two openings by their bisector, which is traced on a grid
// over what their boxes share (see [plane.Apart]): a fixed part, the positions of the grid,
// each as costly as sixteen edges, and the edges of both looked at some forty times for each step along the bisector,
// which is the longer the more often the edges turn.
func (c *crowd) workOf(a, b int) float64 {
	zone := c.boxes[a].Grow(c.rules.Bridge / 2)
	other := c.boxes[b].Grow(c.rules.Bridge / 2)
	size := math.Max(math.Min(zone.W(), other.W()), math.Min(zone.H(), other.H()))
	steps := math.Min(400, 16*size/c.rules.Bridge)
	edges := float64(c.edges[a] + c.edges[b])
	return 5e4 + 16*steps*steps + 40*(steps+12*edges)*edges
}

// admits takes an opening in unless it would be too much work.
func (c *crowd) admits(r plane.Region) bool {
	k := len(c.regions)
	c.regions, c.boxes, c.edges = append(c.regions, r), append(c.boxes, r.Bounds()), append(c.edges, 0)
	for _, l := range r {
		c.edges[k] += len(l)
	}
	work := c.work
	for i := range k {
		if c.near(i, k) {
			if work += c.workOf(i, k); work > mostWork {
				c.regions, c.boxes, c.edges = c.regions[:k], c.boxes[:k], c.edges[:k]
				return false
			}
		}
	}
	c.work = work
	return true
}

// near reports whether two openings are nearer to each other than the bridge, over the
// seam too.
func (c *crowd) near(a, b int) bool {
	for _, dx := range [3]float64{0, -c.rules.Period, c.rules.Period} {
		if move := plane.Pt(dx, 0); c.boxes[a].Nearer(c.boxes[b].Move(move), c.rules.Bridge) &&
			plane.TooNear(c.regions[a], c.regions[b].Move(move), c.rules.Bridge) {
			return true
		}
		if c.rules.Period == 0 {
			break
		}
	}
	return false
}
