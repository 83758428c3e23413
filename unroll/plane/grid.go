package plane

import (
	"math"
	"slices"
)

// grid finds boxes by position: a fixed grid over all of them, with a list of boxes
// for each cell, all lists in one slice.
type grid struct {
	min    Point
	k      float64 // cells per mm
	nx, ny int
	first  []int32 // list of cell i: items[first[i]:first[i+1]]
	items  []int32
}

// maxCells bounds a grid's size for lengths that are far longer than wide.
const maxCells = 1 << 20

// usable reports whether a box holds something and is finite, within reason.
func (b Box) usable() bool {
	const most = 1.1e11
	return !b.Empty() && b.Min.X > -most && b.Min.Y > -most && b.Max.X < most && b.Max.Y < most
}

// newGrid builds a grid over the boxes with about one cell a box. Boxes that hold
// nothing or are not finite are left out.
func newGrid(boxes []Box) grid {
	var g grid
	all := EmptyBox()
	var span float64
	n := 0.0
	for _, b := range boxes {
		if b.usable() {
			all = all.Union(b)
			span += b.W() + b.H()
			n++
		}
	}
	if n == 0 {
		return g
	}
	size := math.Sqrt(all.W() * all.H() / n)
	size = math.Max(size, span/n/2) // not much smaller than a box
	size = math.Max(size, math.Max(all.W(), all.H())/(4*n))
	if size <= 0 {
		size = 1
	}
	g.min, g.k = all.Min, 1/size
	g.nx, g.ny = int(all.W()*g.k)+1, int(all.H()*g.k)+1
	for g.nx*g.ny > maxCells {
		g.k /= 2
		g.nx, g.ny = int(all.W()*g.k)+1, int(all.H()*g.k)+1
	}
	g.first = make([]int32, g.nx*g.ny+2)
	for _, b := range boxes {
		if !b.usable() {
			continue
		}
		x0, y0, x1, y1 := g.cells(b)
		for y := y0; y <= y1; y++ {
			for x := x0; x <= x1; x++ {
				g.first[y*g.nx+x+2]++
			}
		}
	}
	for i := 1; i < len(g.first); i++ {
		g.first[i] += g.first[i-1]
	}
	g.items = make([]int32, g.first[len(g.first)-1])
	for i, b := range boxes {
		if !b.usable() {
			continue
		}
		x0, y0, x1, y1 := g.cells(b)
		for y := y0; y <= y1; y++ {
			for x := x0; x <= x1; x++ {
				c := y*g.nx + x + 1
				g.items[g.first[c]] = int32(i)
				g.first[c]++
			}
		}
	}
	g.first = g.first[:g.nx*g.ny+1]
	return g
}

func (g *grid) cells(b Box) (x0, y0, x1, y1 int) {
	x0, y0 = g.cell(b.Min)
	x1, y1 = g.cell(b.Max)
	return
}

func (g *grid) cell(p Point) (x, y int) {
	x = min(max(int((p.X-g.min.X)*g.k), 0), g.nx-1)
	y = min(max(int((p.Y-g.min.Y)*g.k), 0), g.ny-1)
	return
}

// at returns the boxes that may hold p: those of its cell. Outside of the grid
// the answer is that of the nearest cell.
func (g *grid) at(p Point) []int32 {
	if g.nx == 0 {
		return nil
	}
	x, y := g.cell(p)
	c := y*g.nx + x
	return g.items[g.first[c]:g.first[c+1]]
}

// meetingGroups returns the indices of the boxes in groups, so that boxes that
// meet, directly or through others, are in one group. Groups are in the order of
// their first members, members in theirs.
func meetingGroups(boxes []Box) [][]int32 {
	n := len(boxes)
	ints := make([]int32, 5*n)
	parent, order, place, count, all := ints[:n], ints[n:2*n], ints[2*n:3*n], ints[3*n:4*n], ints[4*n:]
	for i := range parent {
		parent[i], order[i] = int32(i), int32(i)
	}
	find := func(i int32) int32 {
		for parent[i] != i {
			parent[i] = parent[parent[i]]
			i = parent[i]
		}
		return i
	}
	slices.SortFunc(order, func(a, b int32) int {
		x, y := boxes[a].Min.X, boxes[b].Min.X
		if x < y {
			return -1
		} else if x > y {
			return 1
		}
		return int(a - b)
	})
	for i, a := range order {
		for _, b := range order[i+1:] {
			if boxes[b].Min.X > boxes[a].Max.X {
				break
			}
			if boxes[a].Min.Y <= boxes[b].Max.Y && boxes[b].Min.Y <= boxes[a].Max.Y {
				x, y := find(a), find(b)
				if x < y {
					parent[y] = x
				} else {
					parent[x] = y
				}
			}
		}
	}
	// Roots are the smallest members; count, then fill.
	var groups [][]int32
	for i := range parent {
		count[find(int32(i))]++
	}
	at := int32(0)
	for i := range parent {
		r := find(int32(i))
		if int(r) == i {
			place[i] = int32(len(groups))
			groups = append(groups, all[at:at:at+count[i]])
			at += count[i]
		}
		g := &groups[place[r]]
		*g = append(*g, int32(i))
	}
	return groups
}
