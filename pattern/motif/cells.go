package motif

import (
	"math"
	"math/rand/v2"

	"fretband/unroll/cores"
	"fretband/unroll/plane"
)

var randomCells = Motif{
	Key:       "cells",
	Title:     "Random cells",
	What:      "Cells like those of a leaf or a dried pond, rows times repeats of them. Another seed is another drawing; rounds even them out; a cuff is the same on both sides.",
	Usual:     Proportions{1, 1, 0},
	Irregular: true,
	Numbers: []Number{
		{"seed", "seed", "", 1, 0, 9999},
		{"rounds", "rounds", "of evening out", 6, 0, 40},
	},
	Cells: func(f Frame) Tiling {
		// More cells are a larger drawing.
		a, h := f.Pitch(), f.H/float64(f.Rows)
		f.Repeats += 2 * f.Beyond
		f.Rows += 2 * f.Over
		f.W, f.H = f.W+2*float64(f.Beyond)*a, f.H+2*float64(f.Over)*h
		c := newScatter(f, math.Round(f.Number("seed")))
		for range int(math.Round(f.Number("rounds"))) {
			c.even()
		}
		var t Tiling
		for i, cell := range c.cells() {
			s := c.sites[i]
			row := min(f.Rows-1, int((f.H/2-s.Y)/f.H*float64(f.Rows)))
			col := min(f.Repeats-1, int((s.X+f.W/2)/f.W*float64(f.Repeats)))
			t.Cells = append(t.Cells, Cell{t.add(cell), s, row, col})
		}
		return t
	},
}

// scatter is a frame with sites scattered over it. A site's cell is all of the
// frame that is nearer to it than to any other site (its Voronoi cell; on a
// closed frame, on the turn of the band, so that the cells close over the seam).
//
// On a cuff the sites are on the middle line, or right of it, or their mirror
// images, in this order.
type scatter struct {
	f     Frame
	sites []plane.Point
	axis  int // sites on the middle line of a cuff
	right int // sites right of it
}

// newScatter strews one site into every field of a grid.
func newScatter(f Frame, seed float64) *scatter {
	// The PCG generator of math/rand/v2 gives the same numbers on every machine
	// and in every release.
	rnd := rand.New(rand.NewPCG(uint64(seed), 0))
	n := f.Rows * f.Repeats
	c := &scatter{f: f, right: n}
	left, w := -f.W/2, f.W
	if !f.Closed {
		// As many on the middle line as cells of medium size lie across the
		// band, so that no bridge runs straight down the middle of the cuff.
		size := math.Sqrt(f.W * f.H / float64(n))
		c.axis = min(n, max(1, int(math.Round(f.H/size))))
		if (n-c.axis)%2 == 1 {
			if c.axis < n {
				c.axis++
			} else {
				c.axis--
			}
		}
		c.right = (n - c.axis) / 2
		for i := range c.axis {
			c.sites = append(c.sites, plane.Pt(0, f.H*((float64(i)+rnd.Float64())/float64(c.axis)-0.5)))
		}
		left = math.Min(size, f.W/2) / 2
		w = f.W/2 - left
	}
	for r := range f.Rows {
		// The rows share the sites evenly.
		in := (r+1)*c.right/f.Rows - r*c.right/f.Rows
		for i := range in {
			c.sites = append(c.sites, plane.Pt(
				left+w*(float64(i)+rnd.Float64())/float64(in),
				f.H*((float64(r)+rnd.Float64())/float64(f.Rows)-0.5)))
		}
	}
	c.mirror()
	return c
}

// mirror makes the left half of a cuff anew.
func (c *scatter) mirror() {
	if c.f.Closed {
		return
	}
	c.sites = c.sites[:c.axis+c.right]
	for _, s := range c.sites[c.axis:] {
		c.sites = append(c.sites, plane.Pt(-s.X, s.Y))
	}
}

// even moves every site to the centre of its cell (S. P. Lloyd, "Least squares
// quantization in PCM", IEEE Transactions on Information Theory 28, 1982).
func (c *scatter) even() {
	next := make([]plane.Point, c.axis+c.right)
	for i, cell := range c.first() {
		p := cell.Centroid().Add(c.sites[i])
		if i < c.axis {
			p.X = 0
		}
		if c.f.Closed {
			p.X -= c.f.W * math.Floor(p.X/c.f.W+0.5)
		}
		next[i] = p
	}
	c.sites = next
	c.mirror()
}

// cells returns the cell of every site, about the site.
func (c *scatter) cells() []plane.Loop {
	cells := c.first()
	for i := range cells {
		cells[i] = cells[i].Tidy()
	}
	if !c.f.Closed {
		for _, l := range cells[c.axis:] {
			cells = append(cells, l.MirrorX())
		}
	}
	return cells
}

// first returns the cells of all sites but the mirror images, each about its site.
//
// A cell is the frame cut by the line midway to every other site, the nearer
// ones first: sites are sorted into a grid, and once all of its fields that are
// nearer than twice the cell's farthest corner are done, no other site can cut
// it. Nor can one in them that is itself so far away. Cost: linear for evenly
// scattered sites, shared by all processors.
func (c *scatter) first() []plane.Loop {
	f := c.f
	size := math.Sqrt(f.W * f.H / float64(len(c.sites)))
	nx, ny := max(1, int(f.W/size)), max(1, int(f.H/size))
	wide, high := f.W/float64(nx), f.H/float64(ny)
	field := func(p plane.Point) (int, int) {
		x, y := int((p.X+f.W/2)/wide), int((p.Y+f.H/2)/high)
		return min(max(x, 0), nx-1), min(max(y, 0), ny-1)
	}
	grid := make([][]int, nx*ny)
	for i, s := range c.sites {
		x, y := field(s)
		grid[y*nx+x] = append(grid[y*nx+x], i)
	}
	within := f.W / 2 // of a cell, before it is cut
	cells := make([]plane.Loop, c.axis+c.right)
	const block = 64 // cells that share the memory they are cut in
	cores.Each((len(cells)+block-1)/block, func(part int) {
		var cell, cut []plane.Point // about the site
		for i := part * block; i < min(len(cells), (part+1)*block); i++ {
			s := c.sites[i]
			lo, hi := plane.Pt(-f.W/2, -f.H/2).Sub(s), plane.Pt(f.W/2, f.H/2).Sub(s)
			if f.Closed {
				// Its own images in the turns before and after end it.
				lo.X, hi.X = -within, within
			}
			cell = append(cell[:0], lo, plane.Pt(hi.X, lo.Y), hi, plane.Pt(lo.X, hi.Y))
			far := farthest(cell)
			x0, y0 := field(s)
			// Sites in a ring of fields are at least ring - 1 fields away.
			for ring := 0; float64(ring-1)*math.Min(wide, high) <= 2*far; ring++ {
				for y := max(0, y0-ring); y <= min(ny-1, y0+ring); y++ {
					step := 1
					if y != y0-ring && y != y0+ring {
						step = max(1, 2*ring) // only the ends of the row are in the ring
					}
					for x := x0 - ring; x <= x0+ring; x += step {
						periods := 0
						if f.Closed {
							periods = int(math.Floor(float64(x) / float64(nx)))
						} else if x < 0 || x >= nx {
							continue
						}
						for _, j := range grid[y*nx+x-periods*nx] {
							if j == i {
								continue
							}
							q := c.sites[j].Add(plane.Pt(float64(periods)*f.W, 0)).Sub(s)
							if q.Dot(q) > 4*far*far || !reaches(cell, q) {
								continue
							}
							cut = nearer(cut[:0], cell, q)
							cell, cut = cut, cell
							far = farthest(cell)
						}
					}
				}
			}
			cells[i] = plane.Polygon(cell...)
		}
	})
	return cells
}

// farthest returns the distance of the farthest corner from the origin.
func farthest(cell []plane.Point) float64 {
	far := 0.0
	for _, p := range cell {
		if d := p.Dot(p); d > far {
			far = d
		}
	}
	return math.Sqrt(far)
}

// reaches reports whether a convex polygon has a corner nearer to q than to the
// origin.
func reaches(cell []plane.Point, q plane.Point) bool {
	limit := q.Dot(q) / 2
	for _, p := range cell {
		if p.Dot(q) > limit {
			return true
		}
	}
	return false
}

// nearer adds to out the part of a convex polygon that is nearer to the origin
// than to q.
func nearer(out, cell []plane.Point, q plane.Point) []plane.Point {
	limit := q.Dot(q) / 2
	b := cell[len(cell)-1]
	over := b.Dot(q) - limit // > 0 is nearer to q
	for _, p := range cell {
		d := p.Dot(q) - limit
		if d > 0 != (over > 0) {
			t := over / (over - d)
			out = append(out, b.Add(p.Sub(b).Mul(t)))
		}
		if d <= 0 {
			out = append(out, p)
		}
		b, over = p, d
	}
	return out
}
