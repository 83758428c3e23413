package strength

import (
	"math"
	"sort"

	"fretband/unroll/delaunay"
	"fretband/unroll/plane"
)

// An edge of the metal is followed twice: roughly, for its width to be measured, and
// then in steps to match. Between two corners it is one smooth curve, whatever lines
// and arcs it is made of: steps are laid along all of it, longer where the metal is
// wide and the curve straight. The points between its ends are then moved off the
// curve, by as much as makes the polygon enclose the curve's area, so that no metal is
// won or lost however coarse the mesh.

// gentle is the turn, radians, up to which two edges are taken for tangent.
const gentle = 0.1

// course is one closed line along which metal ends; the metal is on its left.
type course struct {
	hole  int32 // which opening; -1 for the outline
	edges []plane.Edge
	from  []float64 // mm from the start to each edge, and to the end
	bends []int     // the edges that begin at a corner, in order; none on a smooth ring
}

// ring is a course as a polygon.
type ring struct {
	hole int32
	at   []delaunay.Point
	size []float64 // mm: how long edges of the mesh are to be there
	from []float64 // mm along the course; of a rough one only
	id   []int32   // in the triangulation
}

// rings returns the courses round the metal: the outline, on a closed band the two of
// its edges, and the openings.
func (m Metal) rings(g *grid) ([]course, error) {
	for _, l := range append([]plane.Loop{m.Flat.Outline}, m.Openings...) {
		for _, v := range l {
			if !(math.Abs(v.X) < plane.MaxCoord && math.Abs(v.Y) < plane.MaxCoord && math.Abs(v.Bulge) < plane.MaxCoord) {
				return nil, &MetalError{Why: ErrNumbers}
			}
		}
	}
	outline := m.Flat.Outline.CCW()
	var cs []course
	if !g.closed {
		cs = append(cs, newCourse(outline.Edges(), -1, false))
	} else {
		chains, err := m.chains(outline)
		if err != nil {
			return nil, err
		}
		for _, c := range chains {
			cs = append(cs, newCourse(c, -1, true))
		}
	}
	for i, l := range m.Openings {
		cs = append(cs, newCourse(l.CCW().Reverse().Edges(), int32(i), false))
	}
	kept := cs[:0]
	for _, c := range cs {
		if len(c.edges) > 0 {
			kept = append(kept, c)
		}
	}
	return kept, nil
}

// chains returns what is left of a closed band's outline without its two ends, which
// are one place within the metal.
func (m Metal) chains(outline plane.Loop) ([][]plane.Edge, error) {
	n := len(outline)
	end := make([]bool, n)
	at := make([]plane.Point, n) // along and across
	for i, v := range outline {
		at[i].X, at[i].Y = m.Flat.Where(v.Point)
	}
	const near = 3e-5 // mm; what Where loses is far less
	for i := range outline {
		a, b := at[i].X, at[(i+1)%n].X
		end[i] = a*b > 0 && math.Abs(math.Abs(a)-m.Flat.Length/2) < near && math.Abs(math.Abs(b)-m.Flat.Length/2) < near
	}
	var chains [][]plane.Edge
	for i := range outline {
		if end[i] || !end[(i+n-1)%n] {
			continue
		}
		var c []plane.Edge
		j := i
		for ; !end[j%n]; j++ {
			c = append(c, outline.Edge(j%n))
		}
		a, b := at[i], at[j%n]
		if math.Abs(math.Abs(a.X-b.X)-m.Flat.Length) > 2*near || math.Abs(a.Y-b.Y) > near {
			return nil, &MetalError{outline[i].Point, ErrEnds}
		}
		chains = append(chains, c)
	}
	if len(chains) != 2 {
		return nil, &MetalError{plane.Pt(-m.Flat.Length/2, 0), ErrEnds}
	}
	return chains, nil
}

// newCourse leaves out edges of no length. The start of a chain stays where it is, as
// a corner does.
func newCourse(edges []plane.Edge, hole int32, chain bool) course {
	c := course{hole: hole, from: []float64{0}}
	for _, e := range edges {
		if l := e.Len(); l > plane.Snap {
			c.edges = append(c.edges, e)
			c.from = append(c.from, c.from[len(c.from)-1]+l)
		}
	}
	for i, e := range c.edges {
		u, v := c.edges[(i+len(c.edges)-1)%len(c.edges)].Tangent(1), e.Tangent(0)
		if chain && i == 0 || !(math.Abs(math.Atan2(u.Cross(v), u.Dot(v))) < gentle) {
			c.bends = append(c.bends, i)
		}
	}
	return c
}

// place returns the point of the course so far from its start.
func (c *course) place(s float64) plane.Point {
	i, t := c.find(s)
	return c.edges[i].At(t)
}

func (c *course) find(s float64) (edge int, t float64) {
	i := sort.SearchFloat64s(c.from, s) - 1
	i = min(max(i, 0), len(c.edges)-1)
	return i, min(1, max(0, (s-c.from[i])/(c.from[i+1]-c.from[i])))
}

// under returns the area between the course from a to b and the chord, positive where
// the course runs on the right of it.
func (c *course) under(a, b float64) float64 {
	i, t := c.find(a)
	j, u := c.find(b)
	if i == j {
		if c.edges[i].IsLine() {
			return 0
		}
		return c.edges[i].Part(t, u).Segment()
	}
	o := c.edges[i].At(t)
	var area float64
	for k := i; k <= j; k++ {
		e := c.edges[k]
		switch {
		case k == i:
			e = e.Part(t, 1)
		case k == j:
			e = e.Part(0, u)
		}
		area += e.A.Sub(o).Cross(e.B.Sub(o))/2 + e.Segment()
	}
	return area
}

// rough follows the courses in steps of the largest size. Turns are made so many times
// as large as asked for.
func (w *meshing) rough(cs []course, times float64) ([]ring, error) {
	rs := make([]ring, len(cs))
	points := 0.0
	for i := range cs {
		c, r := &cs[i], &rs[i]
		r.hole = c.hole
		for k, e := range c.edges {
			long, turn := c.from[k+1]-c.from[k], math.Abs(e.Sweep())
			n := math.Max(math.Ceil(long/w.Size), math.Ceil(turn/(times*roughTurn)))
			size := math.Min(c.between(k), w.turning(e, times))
			if points += n; points > float64(w.Most) {
				return nil, &MetalError{e.A, ErrTooMany}
			}
			for j := 0.0; j < n; j++ {
				p := e.At(j / n)
				here := size
				if j == 0 {
					here = math.Min(here, w.turning(c.edges[(k+len(c.edges)-1)%len(c.edges)], times))
				}
				r.at = append(r.at, w.grid.on(p))
				r.size = append(r.size, here/w.finer(p))
				r.from = append(r.from, c.from[k]+long*j/n)
			}
		}
		r.from = append(r.from, c.from[len(c.edges)])
	}
	return rs, nil
}

// roughTurn is what a rough ring turns by at most from one point of an arc to the next.
const roughTurn = math.Pi / 9

// turning returns the size at which the edge turns as asked for, or the largest.
func (w *meshing) turning(e plane.Edge, times float64) float64 {
	if turn := math.Abs(e.Sweep()); turn > 0 {
		return math.Min(w.Size, e.Len()/turn*w.Turn*times)
	}
	return w.Size
}

// between returns the length of the smooth curve that edge k is a part of.
func (c *course) between(k int) float64 {
	whole := c.from[len(c.edges)]
	if len(c.bends) == 0 {
		return whole
	}
	i := sort.SearchInts(c.bends, k+1) // the next corner
	switch {
	case i == 0:
		return c.from[c.bends[0]] + whole - c.from[c.bends[len(c.bends)-1]]
	case i == len(c.bends):
		return c.from[c.bends[0]] + whole - c.from[c.bends[i-1]]
	}
	return c.from[c.bends[i]] - c.from[c.bends[i-1]]
}

// divide follows the courses again, in steps of the sizes that the rough rings have.
func (w *meshing) divide(cs []course, rough []ring) []ring {
	rs := make([]ring, len(cs))
	for i := range cs {
		c, r := &cs[i], &rs[i]
		r.hole = c.hole
		whole := c.from[len(c.edges)]
		if len(c.bends) == 0 {
			w.curve(c, &rough[i], 0, whole, r)
			continue
		}
		for k, b := range c.bends {
			to := whole + c.from[c.bends[0]]
			if k+1 < len(c.bends) {
				to = c.from[c.bends[k+1]]
			}
			w.curve(c, &rough[i], c.from[b], to, r)
		}
	}
	return rs
}

// curve adds the points of one smooth curve to r, without its end. It may reach over
// the start of the course.
func (w *meshing) curve(c *course, rough *ring, a, b float64, r *ring) {
	whole := c.from[len(c.edges)]
	home := func(s float64) float64 {
		if s >= whole {
			return s - whole
		}
		return s
	}
	n := len(rough.at)
	// Knots of the size along the curve, and the number of steps up to each.
	var s, size, steps []float64
	k := sort.SearchFloat64s(rough.from, a)
	for on := 0.0; ; k++ {
		if k >= n {
			k -= n
			on += whole
		}
		x := rough.from[k] + on
		if x > b {
			x = b
		}
		s, size = append(s, x), append(size, rough.size[k])
		if x >= b {
			break
		}
	}
	steps = append(steps, 0)
	for i := 1; i < len(s); i++ {
		h0, h1 := size[i-1], size[i]
		mean := (h0 + h1) / 2
		if math.Abs(h1-h0) > 1e-3*mean {
			mean = (h1 - h0) / math.Log(h1/h0)
		}
		steps = append(steps, steps[i-1]+(s[i]-s[i-1])/mean)
	}
	all := steps[len(steps)-1]
	smooth := len(c.bends) == 0
	least := 1.0
	if smooth {
		least = 6
	} else if math.Abs(c.undermost(a, b, whole)) > 1e-3 {
		least = 2
	}
	m := int(math.Max(least, math.Ceil(all-1e-6)))
	longer := all / float64(m)
	at := make([]float64, 0, m+1) // mm along the course
	p := make([]plane.Point, 0, m+1)
	h := make([]float64, 0, m+1)
	i := 1
	for j := range m {
		want := longer * float64(j)
		for i < len(steps)-1 && steps[i] < want {
			i++
		}
		// Within a piece the size is h0 + (h1-h0) x/l, and steps(x) its logarithm.
		l, h0, h1 := s[i]-s[i-1], size[i-1], size[i]
		x := (want - steps[i-1]) * h0
		if d := (h1 - h0) / l; l > 0 && math.Abs(h1-h0) > 1e-3*(h0+h1)/2 {
			x = h0 * math.Expm1(d*(want-steps[i-1])) / d
		}
		x = math.Max(0, math.Min(l, x))
		q := s[i-1] + x
		at = append(at, q)
		p = append(p, c.place(home(q)))
		here := h0
		if l > 0 {
			here += (h1 - h0) * x / l
		}
		h = append(h, here*math.Max(longer, 0.3))
	}
	at = append(at, b)
	p = append(p, c.place(home(b)))
	if b >= whole && home(b) == 0 {
		p[m] = c.edges[0].A
	}
	// The area between each chord and its curve goes to the points at its ends, to the
	// inner one alone at the ends of the curve.
	area := make([]float64, m)
	for j := range area {
		lo, hi := home(at[j]), home(at[j+1])
		if hi <= lo && at[j+1] > at[j] {
			area[j] = c.over(lo, hi, whole)
		} else {
			area[j] = c.under(lo, hi)
		}
	}
	moved := make([]plane.Point, m)
	for j := range moved {
		moved[j] = p[j]
		if j == 0 && !smooth {
			continue
		}
		before, after := (j+m-1)%m, j+1
		share := area[before] / 2
		if before == 0 && !smooth {
			share *= 2
		}
		if j == m-1 && !smooth {
			share += area[j]
		} else {
			share += area[j] / 2
		}
		d := p[after].Sub(p[before])
		if l := d.Dot(d); l > 0 && share != 0 {
			moved[j] = p[j].Sub(d.Left().Mul(2 * share / l))
		}
	}
	for j := range moved {
		q := w.grid.on(moved[j])
		if n := len(r.at); n > 0 && r.at[n-1] == q {
			continue
		}
		r.at, r.size = append(r.at, q), append(r.size, h[j])
	}
}

// over is under of a stretch that reaches over the start.
func (c *course) over(a, b, whole float64) float64 {
	start := c.edges[0].A
	p, q := c.place(a), c.place(b)
	return c.under(a, whole) + c.under(0, b) + start.Sub(p).Cross(q.Sub(p))/2
}

// undermost is how far, mm, about, the curve from a to b bulges off its chord.
func (c *course) undermost(a, b, whole float64) float64 {
	var area float64
	p := c.place(a)
	q := p
	if b > whole {
		area = c.over(a, b-whole, whole)
		q = c.place(b - whole)
	} else {
		area = c.under(a, b)
		q = c.place(b)
	}
	if d := p.Dist(q); d > 0 {
		return area / d * 1.5
	}
	return 1
}
