package mesh

import (
	"errors"
	"fmt"
	"math"
	"sort"

	"fretband/unroll/delaunay"
	"fretband/unroll/plane"
)

// point is a position on the flat, in units.
type point = delaunay.Point

// side is a piece of an edge of the metal from point a to b, within one cell;
// the metal is on its left.
type side struct {
	a, b   int32
	cell   int32
	ring   int32 // index of the hole, or -1: the outline
	before int32 // index of the side that ends at a
	smooth bool  // the edge does not turn at a
}

// wires are the edges of the metal cut at the ruled lines.
type wires struct {
	ruling
	cols, rows int
	at         []point   // the corners of the cells first
	sides      []side    // ring by ring
	ofCell     [][]int32 // the sides in each cell
	onBorder   [][]int32 // the points on each cell's border, without its corners
}

// corner returns the number of the point X[i], Y[j].
func (w *wires) corner(i, j int) int32 {
	if w.period > 0 && i == w.cols {
		i = 0
	}
	return int32(i*(w.rows+1) + j)
}

func (w *wires) cell(i, j int) int {
	if w.period > 0 {
		i = (i + w.cols) % w.cols
	}
	return i*w.rows + j
}

func (b *blank) trace(r ruling, edge []corner, tol float64) (*wires, error) {
	w := &wires{ruling: r, cols: len(r.x) - 1, rows: len(r.y) - 1}
	for i := 0; i <= w.cols; i++ {
		if i == w.cols && w.period > 0 {
			break
		}
		for j := 0; j <= w.rows; j++ {
			w.at = append(w.at, point{X: r.x[i], Y: r.y[j]})
		}
	}
	w.ofCell = make([][]int32, w.cols*w.rows)
	w.onBorder = make([][]int32, w.cols*w.rows)
	if err := w.addOutline(edge); err != nil {
		return nil, err
	}
	for i, h := range b.holes {
		ring := w.tidy(b.chords(h.loop, tol))
		if len(ring) < 3 {
			return nil, fmt.Errorf("opening %d: has no area", h.number)
		}
		w.addChain(ring, true, int32(i))
	}
	return w, nil
}

// corner is a corner of a polygon.
type corner struct {
	delaunay.Point
	smooth bool // the curve that the polygon stands for does not turn here
}

// gentle is the turn, radians, up to which two edges are treated as tangent.
const gentle = 0.1

// chords returns a polygon within tol of the loop and of the same area, its
// corners given along and across the middle line.
func (b *blank) chords(l plane.Loop, tol float64) []corner {
	var c []corner
	var last plane.Point
	add := func(p plane.Point, smooth bool) {
		if !b.straight {
			x, v := b.where(p)
			p = plane.Pt(x, v)
		}
		q := point{X: toGrid(p.X), Y: toGrid(p.Y)}
		// Points closer than this say nothing and make slivers.
		const least = 100
		if n := len(c); n > 0 && far(c[n-1].Point, q) < least {
			return
		}
		c = append(c, corner{q, smooth})
	}
	// A straight line of a flared band's flat is bent along its middle line.
	put := func(p plane.Point, smooth bool) {
		if !b.straight && len(c) > 0 {
			x0, v0 := b.where(last)
			x1, v1 := b.where(p)
			x, v := b.where(last.Mid(p))
			n := math.Ceil(math.Sqrt(math.Hypot(x-(x0+x1)/2, v-(v0+v1)/2) / tol))
			for k := 1.0; k < n; k++ {
				add(last.Add(p.Sub(last).Mul(k/n)), true)
			}
		}
		add(p, smooth)
		last = p
	}
	for i := range l {
		e := l.Edge(i)
		u, v := l.Edge((i+len(l)-1)%len(l)).Tangent(1), e.Tangent(0)
		put(e.A, math.Abs(math.Atan2(u.Cross(v), u.Dot(v))) < gentle)
		if e.IsLine() {
			continue
		}
		r, s := e.Radius(), e.Sweep()
		n := max(2, int(math.Ceil(math.Abs(s)/math.Min(math.Pi/3, math.Sqrt(6*tol/r)))))
		if r*s*s/8 < 8*unit {
			continue // no different from its chord
		}
		// The inner corners are on a circle a little outside the arc, at q
		// times its radius, so that the fan of triangles from the centre has the
		// sector's area: (n-2)/2 q^2 + q = n/2 t/sin t, with t = s/n. They are
		// then at most r t^2/6 outside, the chords' middles less inside.
		t := math.Abs(s) / float64(n)
		q := t / math.Sin(t)
		if n > 2 {
			k := float64(n - 2)
			q = (math.Sqrt(1+k*float64(n)*q) - 1) / k
		}
		m := e.Centre()
		for j := 1; j < n; j++ {
			put(m.Add(e.A.Sub(m).Turn(s*float64(j)/float64(n)).Mul(q)), true)
		}
	}
	if !b.straight && len(l) > 0 {
		n := len(c)
		put(l[0].Point, true)
		if len(c) > n { // the first corner once more
			c = c[:len(c)-1]
		}
	}
	return c
}

func far(p, q point) int64 { return max(abs(p.X-q.X), abs(p.Y-q.Y)) }

func abs(x int64) int64 {
	if x < 0 {
		return -x
	}
	return x
}

// turns returns by how many periods x lies off the one from -period/2 to below
// period/2.
func (w *wires) turns(x int64) int64 {
	if w.period == 0 {
		return 0
	}
	return floorDiv(x+w.period/2, w.period)
}

func floorDiv(a, b int64) int64 {
	q := a / b
	if a%b < 0 {
		q--
	}
	return q
}

// column returns the largest i with X[i] <= x, x within the ruling.
func (w *wires) column(x int64) int {
	return sort.Search(w.cols, func(i int) bool { return w.x[i] > x }) - 1
}

func (w *wires) row(y int64) int {
	return sort.Search(w.rows, func(j int) bool { return w.y[j] > y }) - 1
}

// ontoX returns x, or the ruled line next to it if it is near.
func (w *wires) ontoX(x int64) int64 {
	k := w.turns(x) * w.period
	i := w.column(x - k)
	for _, l := range [2]int64{w.x[i] + k, w.x[i+1] + k} {
		if abs(x-l) <= near {
			return l
		}
	}
	return x
}

func (w *wires) ontoY(y int64) int64 {
	j := w.row(y)
	for _, l := range [2]int64{w.y[j], w.y[j+1]} {
		if abs(y-l) <= near {
			return l
		}
	}
	return y
}

// tidy takes the points near a ruled line onto it, and leaves out what then is
// double or folds back on itself.
func (w *wires) tidy(c []corner) []corner {
	for i := range c {
		c[i].X, c[i].Y = w.ontoX(c[i].X), w.ontoY(c[i].Y)
	}
	for again := true; again && len(c) >= 3; {
		again = false
		kept := c[:0:0]
		for i, p := range c {
			before := c[(i+len(c)-1)%len(c)]
			if len(kept) > 0 {
				before = kept[len(kept)-1]
			}
			after := c[(i+1)%len(c)]
			if p.Point == before.Point || delaunay.Turn(before.Point, p.Point, after.Point) == 0 &&
				(p.X-before.X)*(after.X-p.X)+(p.Y-before.Y)*(after.Y-p.Y) <= 0 {
				again = true
				continue
			}
			kept = append(kept, p)
		}
		c = kept
	}
	return c
}

var errEnds = errors.New("the outline does not close into a band: its two ends must be straight, a period apart and alike")

// addOutline adds the outline; on a closed band without its two ends, which are
// one place inside the metal.
func (w *wires) addOutline(c []corner) error {
	if w.period == 0 {
		w.addChain(w.tidy(c), true, -1)
		return nil
	}
	for i := range c {
		for _, end := range [2]int64{-w.period / 2, w.period / 2} {
			if abs(c[i].X-end) <= 1<<5 {
				c[i].X = end
			}
		}
	}
	c = w.tidy(c)
	n := len(c)
	atEnd := func(i int) bool { return c[i%n].X == c[(i+1)%n].X && 2*abs(c[i%n].X) == w.period }
	// The chains between the ends.
	var chains [][]corner
	for i := range c {
		if !atEnd((i+n-1)%n) || atEnd(i) {
			continue // no chain begins here
		}
		chain := []corner{c[i]}
		for j := i; !atEnd(j); j++ {
			chain = append(chain, c[(j+1)%n])
			if len(chain) > n {
				return errEnds
			}
		}
		first, last := chain[0], chain[len(chain)-1]
		if abs(first.X-last.X) != w.period || abs(first.Y-last.Y) > near {
			return errEnds
		}
		chains = append(chains, chain)
	}
	if len(chains) != 2 {
		return errEnds
	}
	for _, chain := range chains {
		chain[len(chain)-1].Y = chain[0].Y
		chain[0].smooth = true
		w.addChain(chain, false, -1)
	}
	return nil
}

// addChain cuts the polygon at the ruled lines and adds its sides. A chain that
// is not a ring ends where it began, a period on.
func (w *wires) addChain(c []corner, closed bool, ring int32) {
	if closed {
		c = append(c, c[0])
	}
	start := len(w.sides)
	first := w.add(c[0].Point)
	from, at := c[0], first
	to := func(p corner, id int32) {
		if p.Point == from.Point {
			return
		}
		k := len(w.sides)
		cell := w.cellOf(from.Point, p.Point)
		w.sides = append(w.sides, side{at, id, int32(cell), ring, int32(k - 1), from.smooth})
		w.ofCell[cell] = append(w.ofCell[cell], int32(k))
		from, at = p, id
	}
	for i := 1; i < len(c); i++ {
		for _, q := range w.cuts(from.Point, c[i].Point) {
			to(corner{q, true}, w.add(q))
		}
		if i == len(c)-1 {
			to(c[i], first)
		} else {
			to(c[i], w.add(c[i].Point))
		}
	}
	w.sides[start].before = int32(len(w.sides) - 1)
}

// cuts returns where the line from p to q passes the ruled lines, in order.
func (w *wires) cuts(p, q point) []point {
	var pts []point
	if p.X != q.X {
		lo, hi := min(p.X, q.X), max(p.X, q.X)
		k := w.turns(lo)
		for i := w.column(lo - k*w.period); ; i++ {
			if w.period > 0 && i >= w.cols {
				i -= w.cols
				k++
			}
			if i > w.cols {
				break
			}
			x := w.x[i] + k*w.period
			if x >= hi {
				break
			}
			if x > lo {
				y := p.Y + divRound((q.Y-p.Y)*(x-p.X), q.X-p.X)
				pts = append(pts, point{X: x, Y: w.ontoY(y)})
			}
		}
	}
	if w.rows > 1 && p.Y != q.Y {
		lo, hi := min(p.Y, q.Y), max(p.Y, q.Y)
		for j := w.row(lo); j <= w.rows && w.y[j] < hi; j++ {
			if y := w.y[j]; y > lo {
				x := p.X + divRound((q.X-p.X)*(y-p.Y), q.Y-p.Y)
				pts = append(pts, point{X: w.ontoX(x), Y: y})
			}
		}
	}
	along := func(a point) int64 { return abs(a.X-p.X) + abs(a.Y-p.Y) }
	sort.Slice(pts, func(i, j int) bool { return along(pts[i]) < along(pts[j]) })
	kept := pts[:0]
	for _, a := range pts {
		if a != p && a != q && (len(kept) == 0 || kept[len(kept)-1] != a) {
			kept = append(kept, a)
		}
	}
	return kept
}

func divRound(a, b int64) int64 {
	if b < 0 {
		a, b = -a, -b
	}
	return floorDiv(a+b/2, b)
}

// add returns the number of the point p.
func (w *wires) add(p point) int32 {
	p.X -= w.turns(p.X) * w.period
	i, j := w.column(p.X), w.row(p.Y)
	onX, onY := w.x[i] == p.X, w.y[j] == p.Y
	if onX && onY {
		return w.corner(i, j)
	}
	id := int32(len(w.at))
	w.at = append(w.at, p)
	put := func(i, j int) {
		if j >= 0 && (w.period > 0 || i >= 0) {
			c := w.cell(i, j)
			w.onBorder[c] = append(w.onBorder[c], id)
		}
	}
	switch {
	case onX:
		put(i-1, j)
		put(i, j)
	case onY:
		put(i, j-1)
		put(i, j)
	}
	return id
}

// cellOf returns the cell in which the side from p to q lies; of two cells on
// whose border it runs, the one on its left.
func (w *wires) cellOf(p, q point) int {
	k := w.turns(min(p.X, q.X)) * w.period
	a, b := p.X-k, q.X-k
	i := w.column(min(a, b))
	if a == b && w.x[i] == a && q.Y > p.Y {
		i--
	}
	j := w.row(min(p.Y, q.Y))
	if p.Y == q.Y && w.y[j] == p.Y && q.X < p.X {
		j--
	}
	return w.cell(i, j)
}
