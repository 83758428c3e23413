package plane

import "math"

// mostCells bounds a tracing grid along either side.
const mostCells = 400

// below returns the part of a box where f is negative, its edges fitted by lines
// and arcs within fitSlack. f changes by at most rate times the way gone, so that
// whole blocks of the grid are decided by their middle. The grid's step is a sixteenth of size: features
// of f finer than a step may be missed. Along the border of the box the region is
// closed a step outside it.
//
// Marching squares (Lorensen and Cline, Marching Cubes, SIGGRAPH 1987, in the
// plane), with the crossing on each grid line found by halving and the ambiguous
// square decided by its middle.
func below(f func(Point) float64, rate float64, box Box, size float64) Region {
	if box.Empty() {
		return nil
	}
	step := math.Max(size/16, math.Max(box.W(), box.H())/mostCells)
	nx, ny := int(math.Ceil(box.W()/step))+3, int(math.Ceil(box.H()/step))+3
	// Off the round numbers on which designs are, so that edges of the box do
	// not fall on grid lines.
	from := box.Min.Sub(Pt(1.3173*step, 1.2718*step))
	g := grid2{f: f, from: from, step: step, nx: nx, ny: ny, v: make([]float64, nx*ny)}
	for i := range g.v {
		g.v[i] = math.Inf(1) // the border is outside
	}
	if !g.fill(1, 1, nx-1, ny-1, rate) {
		return nil
	}
	var r Region
	for _, pts := range g.loops() {
		if l := fitPoints(pts, fitSlack).Tidy(); len(l) >= 2 && math.Abs(l.Area()) > Snap {
			r = append(r, l)
		}
	}
	return r
}

// grid2 is f on a grid of nx by ny places.
type grid2 struct {
	f      func(Point) float64
	from   Point
	step   float64
	nx, ny int
	v      []float64
}

func (g *grid2) at(i, j int) Point {
	return Point{g.from.X + float64(i)*g.step, g.from.Y + float64(j)*g.step}
}

// fill sets the values of the positions i0 <= i < i1, j0 <= j < j1 and reports
// whether any is negative. Values far from 0 are those of a position nearby.
func (g *grid2) fill(i0, j0, i1, j1 int, rate float64) bool {
	w, h := i1-i0, j1-j0
	if w <= 0 || h <= 0 {
		return false
	}
	mi, mj := i0+w/2, j0+h/2
	v := g.f(g.at(mi, mj))
	if w == 1 && h == 1 || math.Abs(v) > rate*g.step*math.Hypot(float64(w), float64(h)) {
		for j := j0; j < j1; j++ {
			for i := i0; i < i1; i++ {
				g.v[j*g.nx+i] = v
			}
		}
		return v < 0
	}
	if w == 1 {
		mi = i1
	}
	if h == 1 {
		mj = j1
	}
	any := g.fill(i0, j0, mi, mj, rate)
	any = g.fill(mi, j0, i1, mj, rate) || any
	any = g.fill(i0, mj, mi, j1, rate) || any
	return g.fill(mi, mj, i1, j1, rate) || any
}

// A grid line's piece right of position (i, j) has the number 2(j nx + i), the one
// above it the next number.
func (g *grid2) right(i, j int) int { return 2 * (j*g.nx + i) }
func (g *grid2) up(i, j int) int    { return 2*(j*g.nx+i) + 1 }

// loops returns the closed lines on which f is 0, negative on their left.
func (g *grid2) loops() [][]Point {
	next := make([]int, 2*g.nx*g.ny)
	for i := range next {
		next[i] = -1
	}
	for j := 0; j+1 < g.ny; j++ {
		for i := 0; i+1 < g.nx; i++ {
			g.square(i, j, next)
		}
	}
	var out [][]Point
	for start := range next {
		if next[start] < 0 {
			continue
		}
		var pts []Point
		for e := start; next[e] >= 0; {
			pts = append(pts, g.zero(e))
			e, next[e] = next[e], -1
		}
		out = append(out, pts)
	}
	return out
}

// square links the crossings of one square, inside on the left.
func (g *grid2) square(i, j int, next []int) {
	neg := func(i, j int) bool { return g.v[j*g.nx+i] < 0 }
	// Corners and sides counter-clockwise from the lower left; side k runs from
	// corner k to corner k+1.
	in := [4]bool{neg(i, j), neg(i+1, j), neg(i+1, j+1), neg(i, j+1)}
	sides := [4]int{g.right(i, j), g.up(i+1, j), g.right(i, j+1), g.up(i, j)}
	// A line enters the square where, going round, the corners turn from inside
	// to outside, and leaves where they turn back: inside is then on its left.
	var enter, leave []int
	for k := range 4 {
		switch a, b := in[k], in[(k+1)%4]; {
		case a && !b:
			enter = append(enter, k)
		case !a && b:
			leave = append(leave, k)
		}
	}
	switch len(enter) {
	case 1:
		next[sides[enter[0]]] = sides[leave[0]]
	case 2:
		// Two opposite corners are inside: joined through the middle or not.
		joined := g.f(g.at(i, j).Add(Pt(g.step/2, g.step/2))) < 0
		for _, e := range enter {
			to := (e + 3) % 4 // round the inside corner e alone
			if joined {
				to = (e + 1) % 4
			}
			next[sides[e]] = sides[to]
		}
	}
}

// zero returns the position on grid piece e where f is 0.
func (g *grid2) zero(e int) Point {
	i, j := e/2%g.nx, e/2/g.nx
	a, va := g.at(i, j), g.v[j*g.nx+i]
	b := g.at(i+1, j)
	if e%2 == 1 {
		b = g.at(i, j+1)
	}
	if va >= 0 {
		a, b = b, a // a is inside
	}
	// False position with halved weight (Illinois): a few steps where f is smooth.
	fa, fb := g.f(a), g.f(b)
	for range 40 {
		if a.Dist(b) < Snap || fa >= 0 {
			break
		}
		t := 0.5
		if fb > 0 {
			t = min(max(fa/(fa-fb), 0.02), 0.98)
		}
		m := a.Add(b.Sub(a).Mul(t))
		fm := g.f(m)
		if fm < 0 {
			a, fa, fb = m, fm, fb/2
		} else {
			b, fb, fa = m, fm, fa/2
		}
		if math.Abs(fm) < Snap*Snap {
			return m
		}
	}
	return a
}

// fitPoints returns a loop of lines and arcs near a closed row of points, each
// piece as long as it passes all its points within tol. The row's own spacing
// has to be fine against its curvature.
func fitPoints(pts []Point, tol float64) Loop {
	n := len(pts)
	if n < 3 {
		return nil
	}
	var l Loop
	for from := 0; from < n; {
		// Doubling, then halving: the longest run of points that one piece passes.
		good, bad := 1, n-from+1
		best := Edge{A: pts[from], B: pts[(from+1)%n]}
		for k := 2; good+1 < bad; {
			if e, ok := pieceThrough(pts, from, k, tol); ok {
				good, best = k, e
				k *= 2
			} else {
				bad = k
			}
			if k >= bad {
				k = (good + bad) / 2
			}
		}
		l = append(l, Vertex{pts[from], best.Bulge})
		from += good
	}
	return l
}

// pieceThrough returns the line or arc from point from to the k-th after it
// through the one half way, and whether it passes all between within tol.
func pieceThrough(pts []Point, from, k int, tol float64) (Edge, bool) {
	n := len(pts)
	at := func(i int) Point { return pts[(from+i)%n] }
	e := Edge{A: at(0), B: at(k)}
	if e.A == e.B {
		return e, false
	}
	m := at(k / 2)
	if k == 1 {
		return e, true
	}
	// The inscribed angle at m is pi minus half the sweep.
	u, v := e.A.Sub(m), e.B.Sub(m)
	half := math.Atan2(u.Cross(v), u.Dot(v))
	if half > 0 {
		half = math.Pi - half
	} else {
		half = -math.Pi - half
	}
	e.Bulge = -math.Tan(half / 2)
	if math.Abs(e.Bulge) > 1 {
		return e, false
	}
	if math.Abs(e.Bulge)*e.Chord()/2 < tol/10 {
		e.Bulge = 0
	}
	for i := 1; i < k; i++ {
		if e.Dist(at(i)) > tol {
			return e, false
		}
	}
	return e, true
}
