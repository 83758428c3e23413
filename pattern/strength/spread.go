package strength

import (
	"math"
	"slices"

	"fretband/unroll/plane"
)

// Spread is the stress of a case over the blank: triangles with the stress at their
// corners, von Mises on the worse face, and linear between. It is the mean of the triangles
// of the mesh about each corner, by their areas. A triangle over the joint of a closed band
// stands at both ends of the blank, and runs past each.
type Spread struct {
	At     []plane.Point
	Stress []float64 // of each corner, MPa for each newton
	Tri    [][3]int32
	Of     []int32 // which triangle of the mesh each is

	node   []int32    // which node of the mesh each corner is
	beside [][3]int32 // the triangle over each edge, -1 for none
	index  spreadIndex
}

// Spread returns the stress of a result over the blank.
func (s *Study) Spread(r *Result) *Spread {
	at := make([]float64, len(s.mesh.At))
	for k, t := range s.mesh.Tri {
		for _, i := range t {
			at[i] += r.Worse(k) * s.tri[k] / 3 / s.area[i]
		}
	}
	m := &Spread{}
	// A node of a closed band may stand at home and some rounds either way.
	const mostRounds = 2
	numbers := make([][2*mostRounds + 1]int32, len(s.mesh.At)) // one more than the number; 0 for none
	length := s.metal.Flat.Length
	for k, t := range s.mesh.Tri {
		c := s.corners(k)
		var rounds [3]int
		lo, hi := math.Inf(1), math.Inf(-1)
		for j, i := range t {
			if s.closed {
				rounds[j] = int(math.Round((c[j].X - s.x[i]) / length))
			}
			lo, hi = math.Min(lo, c[j].X), math.Max(hi, c[j].X)
		}
		for by := -1; by <= 1; by++ {
			if d := float64(by) * length; by != 0 && (!s.closed || lo+d > length/2 || hi+d < -length/2) {
				continue
			}
			var tri [3]int32
			for j, i := range t {
				n := &numbers[i][mostRounds+rounds[j]+by]
				if *n == 0 {
					m.At = append(m.At, s.metal.Flat.Place(c[j].X+float64(by)*length, c[j].Y))
					m.Stress = append(m.Stress, at[i])
					m.node = append(m.node, i)
					*n = int32(len(m.At))
				}
				tri[j] = *n - 1
			}
			m.Tri, m.Of = append(m.Tri, tri), append(m.Of, int32(k))
		}
	}
	m.neighbours()
	m.index = newSpreadIndex(m)
	return m
}

func (m *Spread) neighbours() {
	// The edges that begin at each corner, by triangle and place in it.
	first := make([]int32, len(m.At)+1)
	for _, t := range m.Tri {
		for _, a := range t {
			first[a+1]++
		}
	}
	for i := range m.At {
		first[i+1] += first[i]
	}
	edges := make([]int32, 3*len(m.Tri))
	fill := slices.Clone(first)
	for k, t := range m.Tri {
		for j, a := range t {
			edges[fill[a]] = int32(3*k + j)
			fill[a]++
		}
	}
	m.beside = make([][3]int32, len(m.Tri))
	for k, t := range m.Tri {
		for j, a := range t {
			b := t[(j+1)%3]
			m.beside[k][j] = -1
			for _, e := range edges[first[b]:first[b+1]] {
				if m.Tri[e/3][(e%3+1)%3] == a {
					m.beside[k][j] = e / 3
				}
			}
		}
	}
}

// Over returns the outlines of the metal that bears at least a stress, MPa for each
// newton: those round it counter-clockwise, holes in it clockwise.
func (m *Spread) Over(stress float64) [][]plane.Point {
	var c chain
	n := int64(len(m.At))
	over := func(i int32) bool { return m.Stress[i] >= stress }
	corner := func(i int32) mark { return mark{int64(i), m.At[i]} }
	// crossing is where the stress is met on the edge of two corners, by a number that
	// both triangles at the edge give it.
	crossing := func(a, b int32) mark {
		if a > b {
			a, b = b, a
		}
		u := (stress - m.Stress[a]) / (m.Stress[b] - m.Stress[a])
		return mark{n + int64(a)*n + int64(b), m.At[a].Add(m.At[b].Sub(m.At[a]).Mul(u))}
	}
	for k, t := range m.Tri {
		var leaves, enters mark
		crossed := false
		for j := range t {
			a, b := t[j], t[(j+1)%3]
			inA, inB := over(a), over(b)
			outer := m.beside[k][j] < 0
			switch {
			case inA && inB && outer:
				c.join(corner(a), corner(b))
			case inA && !inB:
				leaves, crossed = crossing(a, b), true
				if outer {
					c.join(corner(a), leaves)
				}
			case !inA && inB:
				enters = crossing(a, b)
				if outer {
					c.join(enters, corner(b))
				}
			}
		}
		if crossed {
			c.join(leaves, enters)
		}
	}
	return c.outlines()
}

// Outlines are those of the triangles that keep picks by their number in the mesh, as of
// [Spread.Over].
func (m *Spread) Outlines(keep func(tri int) bool) [][]plane.Point {
	var c chain
	for k, t := range m.Tri {
		if !keep(int(m.Of[k])) {
			continue
		}
		for j := range t {
			if o := m.beside[k][j]; o < 0 || !keep(int(m.Of[o])) {
				a, b := t[j], t[(j+1)%3]
				c.join(mark{int64(a), m.At[a]}, mark{int64(b), m.At[b]})
			}
		}
	}
	return c.outlines()
}

// chain joins directed edges to closed outlines. As many edges end at each point as begin.
type chain []link

// mark is a point with a number of its own.
type mark struct {
	number int64
	at     plane.Point
}

// link is an edge, and the next one that begins at the same point: its index and one, 0 for
// none.
type link struct {
	from mark
	to   int64
	next int32
}

func (c *chain) join(a, b mark) { *c = append(*c, link{a, b.number, 0}) }

func (c chain) outlines() (out [][]plane.Point) {
	begin := make(map[int64]int32, len(c))
	for i := range c {
		c[i].next = begin[c[i].from.number]
		begin[c[i].from.number] = int32(i + 1)
	}
	for _, l := range c {
		first := l.from.number
		var line []plane.Point
		for at := first; ; {
			i := begin[at]
			if i == 0 {
				break
			}
			begin[at] = c[i-1].next
			line = append(line, c[i-1].from.at)
			if at = c[i-1].to; at == first {
				break
			}
		}
		if len(line) > 2 {
			out = append(out, line)
		}
	}
	return out
}

// StressAt is the stress at a position on the blank, MPa for each newton; false where no
// metal is within near of it, mm.
func (m *Spread) StressAt(p plane.Point, near float64) (float64, bool) {
	k, w, ok := m.find(p, near)
	if !ok {
		return 0, false
	}
	stress := 0.0
	for j, i := range m.Tri[k] {
		stress += m.Stress[i] * w[j]
	}
	return stress, true
}

// find returns the triangle that a position on the blank is in or nearest to, and the
// weights of its corners where it is nearest; false where none is within near of it, mm.
func (m *Spread) find(p plane.Point, near float64) (tri int32, weights [3]float64, ok bool) {
	near = math.Max(near, plane.Snap)
	best := near
	m.index.each(p, near, func(k int32) bool {
		d, w := m.nearest(k, p)
		if d <= best {
			best, tri, weights, ok = d, k, w, true
		}
		return d > plane.Snap
	})
	return tri, weights, ok
}

// nearest is how far p is from a triangle, and the weights of its corners where it is
// nearest.
func (m *Spread) nearest(k int32, p plane.Point) (d float64, weights [3]float64) {
	t := m.Tri[k]
	in := true
	d = math.Inf(1)
	var turns [3]float64 // twice the areas between p and the edges
	for j := range t {
		a, b := m.At[t[j]], m.At[t[(j+1)%3]]
		way := b.Sub(a)
		turns[j] = way.Cross(p.Sub(a))
		in = in && turns[j] >= 0
		u := 0.0
		if l := way.Dot(way); l > 0 {
			u = math.Min(math.Max(p.Sub(a).Dot(way)/l, 0), 1)
		}
		if e := a.Add(way.Mul(u)).Dist(p); e < d {
			d, weights = e, [3]float64{}
			weights[j], weights[(j+1)%3] = 1-u, u
		}
	}
	if sum := turns[0] + turns[1] + turns[2]; in && sum > 0 {
		return 0, [3]float64{turns[1] / sum, turns[2] / sum, turns[0] / sum}
	}
	return d, weights
}

// spreadIndex finds the triangles near a position: those that meet each cell of a grid.
type spreadIndex struct {
	box    plane.Box
	size   float64 // of a cell, mm
	nx, ny int
	first  []int32 // of each cell in tri, and one more
	tri    []int32
}

func newSpreadIndex(m *Spread) spreadIndex {
	x := spreadIndex{box: plane.EmptyBox()}
	for _, p := range m.At {
		x.box = x.box.Add(p)
	}
	if x.box.Empty() {
		return x
	}
	x.size = math.Max(math.Sqrt(x.box.W()*x.box.H()/float64(len(m.Tri))), 1e-3)
	x.nx, x.ny = int(x.box.W()/x.size)+1, int(x.box.H()/x.size)+1
	x.first = make([]int32, x.nx*x.ny+1)
	cells := func(k int, do func(cell int)) {
		b := plane.EmptyBox()
		for _, i := range m.Tri[k] {
			b = b.Add(m.At[i])
		}
		x.cells(b, do)
	}
	for k := range m.Tri {
		cells(k, func(cell int) { x.first[cell+1]++ })
	}
	for i := range x.nx * x.ny {
		x.first[i+1] += x.first[i]
	}
	x.tri = make([]int32, x.first[x.nx*x.ny])
	fill := slices.Clone(x.first)
	for k := range m.Tri {
		cells(k, func(cell int) {
			x.tri[fill[cell]] = int32(k)
			fill[cell]++
		})
	}
	return x
}

// cells does do for the cells that a box meets.
func (x *spreadIndex) cells(b plane.Box, do func(cell int)) {
	at := func(v float64, n int) int { return min(max(int(math.Floor(v/x.size)), 0), n-1) }
	x0, x1 := at(b.Min.X-x.box.Min.X, x.nx), at(b.Max.X-x.box.Min.X, x.nx)
	y0, y1 := at(b.Min.Y-x.box.Min.Y, x.ny), at(b.Max.Y-x.box.Min.Y, x.ny)
	for j := y0; j <= y1; j++ {
		for i := x0; i <= x1; i++ {
			do(j*x.nx + i)
		}
	}
}

// each does do for triangles near p until it returns false.
func (x *spreadIndex) each(p plane.Point, near float64, do func(tri int32) bool) {
	if len(x.tri) == 0 || !x.box.Grow(near).Contains(p) {
		return
	}
	on := true
	x.cells(plane.Box{Min: p, Max: p}.Grow(near), func(cell int) {
		for _, k := range x.tri[x.first[cell]:x.first[cell+1]] {
			if on {
				on = do(k)
			}
		}
	})
}
