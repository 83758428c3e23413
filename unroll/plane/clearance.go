package plane

import "math"

// clearance bounds from above how far the nearest edge is from each position near
// some edges: a fixed grid with one bound a cell.
//
// A cell that an edge runs through has its own diagonal for a bound. From one cell
// to the next the distance to the nearest edge grows by no more than the step
// between them, so two sweeps over the grid carry the bounds on (A. Rosenfeld and
// J. Pfaltz, "Sequential operations in digital picture processing", Journal of the
// ACM 13, 1966).
type clearance struct {
	min    Point
	size   float64 // of a cell
	nx, ny int
	bound  []float64
	seen   []int32 // the last edge for which a cell was looked at
	todo   []int32
}

// cellsAnEdge is how many cells the grid has for each edge: enough for most cells
// between openings to hold an edge.
const cellsAnEdge = 4

// newClearance makes the grid, or none where it could not show that necks are shorter
// than limit.
func newClearance(bs []brim, limit float64) *clearance {
	all := EmptyBox()
	for i := range bs {
		if bs[i].box.usable() {
			all.take(&bs[i].box)
		}
	}
	if all.Empty() {
		return nil
	}
	n := float64(min(cellsAnEdge*len(bs), maxCells))
	c := &clearance{min: all.Min}
	c.size = math.Max(math.Sqrt(all.W()*all.H()/n), math.Max(all.W(), all.H())/n)
	if c.size == 0 || 2*math.Sqrt2*c.size >= limit {
		return nil
	}
	c.nx, c.ny = int(all.W()/c.size)+1, int(all.H()/c.size)+1
	c.bound = make([]float64, c.nx*c.ny)
	c.seen = make([]int32, c.nx*c.ny)
	for i := range c.bound {
		c.bound[i] = math.Inf(1)
	}
	for i := range bs {
		e := &bs[i]
		if !e.box.usable() {
			continue
		}
		steps := math.Ceil(e.Len()/c.size) + 1
		for k := 0.0; k <= steps; k++ {
			x, y := c.cell(e.At(k / steps))
			c.bound[y*c.nx+x] = c.size * math.Sqrt2
		}
	}
	carry := func(x, y, dx, dy int) {
		if u, v := x+dx, y+dy; u >= 0 && v >= 0 && u < c.nx && v < c.ny {
			step := c.size
			if dx != 0 && dy != 0 {
				step *= math.Sqrt2
			}
			if b := c.bound[v*c.nx+u] + step; b < c.bound[y*c.nx+x] {
				c.bound[y*c.nx+x] = b
			}
		}
	}
	for y := range c.ny {
		for x := range c.nx {
			carry(x, y, -1, 0)
			carry(x, y, -1, -1)
			carry(x, y, 0, -1)
			carry(x, y, 1, -1)
		}
	}
	for y := c.ny - 1; y >= 0; y-- {
		for x := c.nx - 1; x >= 0; x-- {
			carry(x, y, 1, 0)
			carry(x, y, 1, 1)
			carry(x, y, 0, 1)
			carry(x, y, -1, 1)
		}
	}
	return c
}

func (c *clearance) cell(p Point) (x, y int) {
	x = min(max(int((p.X-c.min.X)/c.size), 0), c.nx-1)
	y = min(max(int((p.Y-c.min.Y)/c.size), 0), c.ny-1)
	return
}

// longestNeck bounds the length of the necks at edge i, whose box is given, up to
// limit.
//
// The disc over a neck is empty, so the nearest edge to a position of the neck t from
// its end is that end, t away. On the straight way from the edge to the neck's middle
// every cell thus has a bound of at least its distance from the edge; what such cells
// reach is searched, and the largest bound among them is that of half the neck.
func (c *clearance) longestNeck(i int, box Box, limit float64) float64 {
	if c == nil || !box.usable() {
		return limit
	}
	c.todo = c.todo[:0]
	stamp := int32(i + 1)
	x0, y0 := c.cell(box.Min)
	x1, y1 := c.cell(box.Max)
	for y := y0; y <= y1; y++ {
		for x := x0; x <= x1; x++ {
			c.seen[y*c.nx+x] = stamp
			c.todo = append(c.todo, int32(y*c.nx+x))
		}
	}
	most := 0.0
	for len(c.todo) > 0 {
		k := int(c.todo[len(c.todo)-1])
		c.todo = c.todo[:len(c.todo)-1]
		if c.bound[k] > most {
			if most = c.bound[k]; 2*most >= limit {
				return limit
			}
		}
		x, y := k%c.nx, k/c.nx
		for v := max(y-1, 0); v <= min(y+1, c.ny-1); v++ {
			dy := max(0, c.min.Y+float64(v)*c.size-box.Max.Y, box.Min.Y-c.min.Y-float64(v+1)*c.size)
			for u := max(x-1, 0); u <= min(x+1, c.nx-1); u++ {
				j := v*c.nx + u
				if c.seen[j] == stamp {
					continue
				}
				dx := max(0, c.min.X+float64(u)*c.size-box.Max.X, box.Min.X-c.min.X-float64(u+1)*c.size)
				c.seen[j] = stamp
				if b := c.bound[j] + 2*Snap; dx*dx+dy*dy <= b*b {
					c.todo = append(c.todo, int32(j))
				}
			}
		}
	}
	return 2*most + 4*Snap
}
