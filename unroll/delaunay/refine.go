package delaunay

import (
	"errors"
	"math"
)

// Refinement says how fine triangles are to be.
type Refinement struct {
	// Size is, for each point, how long edges should be about it, in units of the
	// grid. Refine adds that of each point it adds: what the corners about it have,
	// grown by Grade times the distance from them, at most Most.
	Size        []float64
	Grade, Most float64
	// Finer returns by how much sizes are divided at a point; nil for nowhere.
	Finer func(Point) float64
	// Angle is the least angle of a triangle, radians; up to 0.5 (29 degrees) it is
	// reached but where edges themselves meet at less than about 60 degrees.
	Angle float64
	// Limit is the largest number of points.
	Limit int
	// Stop is asked now and then whether to give up; it may be nil.
	Stop func() error
}

// ErrTooMany says that a refinement would take more points than allowed.
var ErrTooMany = errors.New("the triangles would be too many")

const (
	// roundest is the radius of the circle round a triangle, in sizes, over which it
	// is too large. That of a regular triangle of just the size has 0.58.
	roundest = 1.0
	// shortest is how short, in sizes, edges may become for the sake of an angle:
	// between edges that meet sharply there is no end of it.
	shortest = 0.2
)

// Refine adds points until no triangle is larger than asked for or has a smaller
// angle, by Delaunay refinement: the centre of the circle round a bad triangle is
// added, or where that would stand too near an edge of the boundary, or beyond it, the
// middle of that edge (J. Ruppert, "A Delaunay refinement algorithm for quality
// 2-dimensional mesh generation", Journal of Algorithms 18, 1995). What counts as too
// near is the lens of L. P. Chew, "Guaranteed-quality mesh generation for curved
// surfaces", 1993, as in J. R. Shewchuk, "Delaunay refinement algorithms for
// triangular mesh generation", Computational Geometry 22, 2002. For a triangle with a
// short side the point is added nearer to that side (A. Ungor, "Off-centers", 2004),
// which takes fewer points.
//
// The triangulation must have been trimmed. No edge is made shorter than a share of
// the size about it, so there is an end whatever the boundary; where it meets itself
// at a sharp angle, triangles with smaller angles stay. After an error the
// triangulation is sound, but coarser than asked for.
func (d *Triangulation) Refine(r *Refinement) error {
	f := &refiner{Triangulation: d, Refinement: r}
	sin, cos := math.Sincos(r.Angle)
	f.sharp = 4 * sin * sin
	f.lens = math.Cos(2*r.Angle) * math.Cos(2*r.Angle)
	// A little under what has just the angle asked for.
	f.off = 0.475 * math.Sqrt((1+cos)/(1-cos))
	for t := range d.Tri {
		f.look(int32(t))
	}
	for rounds := 1; ; rounds++ {
		if rounds%256 == 0 && r.Stop != nil {
			if err := r.Stop(); err != nil {
				return err
			}
		}
		if len(d.At) > r.Limit {
			return ErrTooMany
		}
		if n := len(f.near); n > 0 {
			w := f.near[n-1]
			f.near = f.near[:n-1]
			if w.V == d.Tri[w.t].V {
				f.halve(w.t, w.i)
			}
			continue
		}
		if f.next == len(f.bad) {
			return nil
		}
		w := f.bad[f.next]
		f.next++
		if f.next > 4096 && 2*f.next > len(f.bad) {
			f.bad = f.bad[:copy(f.bad, f.bad[f.next:])]
			f.next = 0
		}
		if w.V == d.Tri[w.t].V {
			f.mend(w)
		}
	}
}

// refiner is a refinement under way.
type refiner struct {
	*Triangulation
	*Refinement
	sharp, lens, off float64
	near             []waiting // triangles that stand too near an edge of the boundary, opposite their corner i
	bad              []waiting // triangles too large or too sharp, from next on
	next             int
	hole, star       []int32
}

type waiting struct {
	V [3]int32 // if the triangle no longer has these corners, it is no more
	t int32
	i int
}

// way returns the way from one point to another, the short way round.
func (f *refiner) way(a, b int32) (x, y float64) {
	return float64(f.round(f.At[b].X - f.At[a].X)), float64(f.At[b].Y - f.At[a].Y)
}

// encroached reports whether v stands too near the edge from a to b.
func (f *refiner) encroached(a, b, v int32) bool {
	ax, ay := f.way(v, a)
	bx, by := f.way(v, b)
	dot := ax*bx + ay*by
	return dot < 0 && dot*dot > f.lens*(ax*ax+ay*ay)*(bx*bx+by*by)
}

// look puts a triangle on the lists it belongs on.
func (f *refiner) look(t int32) {
	tri := &f.Tri[t]
	for i, u := range tri.N {
		if u < 0 && f.encroached(tri.V[(i+1)%3], tri.V[(i+2)%3], tri.V[i]) {
			f.near = append(f.near, waiting{tri.V, t, i})
		}
	}
	if _, _, bad := f.judge(t); bad {
		f.bad = append(f.bad, waiting{tri.V, t, 0})
	}
}

// judge returns where a point would mend the triangle, from its first corner, and
// whether it has to be mended.
func (f *refiner) judge(t int32) (x, y float64, bad bool) {
	v := &f.Tri[t].V
	bx, by := f.way(v[0], v[1])
	cx, cy := f.way(v[0], v[2])
	ex, ey := cx-bx, cy-by
	b2, c2, e2 := bx*bx+by*by, cx*cx+cy*cy, ex*ex+ey*ey
	twice := bx*cy - by*cx
	r2 := b2 * c2 * e2 / (4 * twice * twice)
	size := (f.Size[v[0]] + f.Size[v[1]] + f.Size[v[2]]) / 3
	least, short := min(b2, c2, e2), shortest*min(f.Size[v[0]], f.Size[v[1]], f.Size[v[2]])
	sharp := least < f.sharp*r2 && least > short*short
	if !sharp && r2 <= roundest*roundest*size*size {
		return 0, 0, false
	}
	x, y = (cy*b2-by*c2)/(2*twice), (bx*c2-cx*b2)/(2*twice)
	if !sharp {
		return x, y, true
	}
	// The middle of the shortest side, and the way across it into the triangle.
	var mx, my, sx, sy float64
	switch least {
	case b2:
		mx, my, sx, sy = bx/2, by/2, -by, bx
	case c2:
		mx, my, sx, sy = cx/2, cy/2, cy, -cx
	default:
		mx, my, sx, sy = bx+ex/2, by+ey/2, -ey, ex
	}
	if f.off*f.off*least < (x-mx)*(x-mx)+(y-my)*(y-my) {
		x, y = mx+f.off*sx, my+f.off*sy
	}
	return x, y, true
}

// mend adds the point that mends a bad triangle, or halves the edge that is in its way.
func (f *refiner) mend(w waiting) {
	x, y, bad := f.judge(w.t)
	if !bad {
		return
	}
	o := f.At[w.V[0]]
	c := f.point(o.X+int64(math.Round(x)), o.Y+int64(math.Round(y)))
	t, i, in := f.walk(w.t, c)
	if t < 0 {
		return
	}
	if !in {
		if f.halve(t, i) {
			f.bad = append(f.bad, w)
		}
		return
	}
	// What would be turned: the triangles with c in their circle.
	v := int32(len(f.At))
	f.At = append(f.At, c)
	f.hole = append(f.hole[:0], t)
	edges := len(f.near)
	for k := 0; k < len(f.hole); k++ {
		u := f.hole[k]
		tri := &f.Tri[u]
		for i, n := range tri.N {
			if n < 0 {
				if f.encroached(tri.V[(i+1)%3], tri.V[(i+2)%3], v) {
					f.near = append(f.near, waiting{tri.V, u, i})
				}
				continue
			}
			if f.found(n) {
				continue
			}
			m := &f.Tri[n].V
			if f.inCircle(m[0], m[1], m[2], v) {
				f.hole = append(f.hole, n)
			}
		}
	}
	f.At = f.At[:v]
	if len(f.near) > edges {
		// Edges that are too short to be halved leave the triangle as it is.
		for k := len(f.near) - 1; k >= edges; k-- {
			if w := f.near[k]; !f.halves(w.t, w.i) {
				f.near = append(f.near[:k], f.near[k+1:]...)
			}
		}
		if len(f.near) > edges {
			f.bad = append(f.bad, w)
		}
		return
	}
	f.add(c, t)
}

func (f *refiner) found(t int32) bool {
	for _, u := range f.hole {
		if u == t {
			return true
		}
	}
	return false
}

// point returns the place of the grid at x, y, once round at most.
func (f *refiner) point(x, y int64) Point {
	if f.shift > 0 {
		x &= 1<<(64-f.shift) - 1
	}
	return Point{x, y}
}

// side is turn of any three points.
func (f *refiner) side(a, b, c Point) int64 {
	return f.round(b.X-a.X)*(c.Y-a.Y) - (b.Y-a.Y)*f.round(c.X-a.X)
}

// walk goes straight from the middle of t to c. It returns the triangle that holds c,
// or, with in false, the triangle and the corner opposite the edge of the boundary that
// it meets first; t is -1 if c is no place for a point.
func (f *refiner) walk(t int32, c Point) (at int32, i int, in bool) {
	v := &f.Tri[t].V
	bx, by := f.way(v[0], v[1])
	cx, cy := f.way(v[0], v[2])
	s := f.point(f.At[v[0]].X+int64((bx+cx)/3), f.At[v[0]].Y+int64((by+cy)/3))
	out := -1
	for k := range 3 {
		if f.side(s, c, f.At[v[(k+1)%3]]) <= 0 && f.side(s, c, f.At[v[(k+2)%3]]) > 0 {
			out = k
		}
	}
	if out < 0 {
		return -1, 0, false
	}
	for steps := 0; steps < len(f.Tri)+8; steps++ {
		v := &f.Tri[t].V
		if f.turn(v[(out+1)%3], v[(out+2)%3], c) >= 0 {
			for _, p := range v {
				if f.At[p] == c {
					return -1, 0, false
				}
			}
			return t, 0, true
		}
		u := f.Tri[t].N[out]
		if u < 0 {
			return t, out, false
		}
		j := f.facing(u, t)
		w := &f.Tri[u].V
		// The apex left of the way: it goes out on the right of it.
		if f.side(s, c, f.At[w[j]]) > 0 {
			out = (j + 1) % 3
		} else {
			out = (j + 2) % 3
		}
		t = u
	}
	return -1, 0, false
}

// add inserts c into the triangle t, which holds it, and looks at what is new.
func (f *refiner) add(c Point, t int32) {
	tri := f.Tri[t]
	on := -1
	for i := range 3 {
		s := f.turn(tri.V[(i+1)%3], tri.V[(i+2)%3], c)
		if s < 0 || s == 0 && (on >= 0 || tri.N[i] < 0) {
			return // a hair outside
		}
		if s == 0 {
			on = i
		}
	}
	v := int32(len(f.At))
	f.At = append(f.At, c)
	f.of = append(f.of, t)
	f.Size = append(f.Size, f.Most)
	if on < 0 {
		f.splitFace(t, v)
	} else {
		f.splitEdge(t, on, v)
	}
	f.settle(v)
	f.around(v)
}

// around gives the new point v its size, and looks at all triangles about it.
func (f *refiner) around(v int32) {
	f.star = f.star[:0]
	start := f.of[v]
	t := start
	for t >= 0 {
		f.star = append(f.star, t)
		if t = f.Tri[t].N[(f.cornerOf(t, v)+1)%3]; t == start {
			break
		}
	}
	if t < 0 {
		for t = f.Tri[start].N[(f.cornerOf(start, v)+2)%3]; t >= 0; t = f.Tri[t].N[(f.cornerOf(t, v)+2)%3] {
			f.star = append(f.star, t)
		}
	}
	size := f.Most
	if f.Finer != nil {
		size /= f.Finer(f.At[v])
	}
	for _, t := range f.star {
		for _, p := range f.Tri[t].V {
			if p != v {
				x, y := f.way(v, p)
				size = min(size, f.Size[p]+f.Grade*math.Sqrt(x*x+y*y))
			}
		}
	}
	f.Size[v] = size
	for _, t := range f.star {
		f.look(t)
	}
}

// halves reports whether the edge opposite corner i is long enough to be halved.
func (f *refiner) halves(t int32, i int) bool {
	a, b := f.Tri[t].V[(i+1)%3], f.Tri[t].V[(i+2)%3]
	x, y := f.way(a, b)
	size := 2 * shortest * min(f.Size[a], f.Size[b])
	return x*x+y*y > max(size*size, 64)
}

// halve puts a point into the middle of the edge of t opposite corner i, which is one
// of the boundary. It reports whether it did.
func (f *refiner) halve(t int32, i int) bool {
	if !f.halves(t, i) {
		return false
	}
	tri := f.Tri[t]
	o, a, b := tri.V[i], tri.V[(i+1)%3], tri.V[(i+2)%3]
	m := f.point(f.At[a].X+f.round(f.At[b].X-f.At[a].X)>>1, (f.At[a].Y+f.At[b].Y)>>1)
	if f.turn(o, a, m) <= 0 || f.turn(b, o, m) <= 0 {
		return false
	}
	v := int32(len(f.At))
	f.At = append(f.At, m)
	f.of = append(f.of, t)
	f.Size = append(f.Size, f.Most)
	f.splitEdge(t, i, v)
	f.settle(v)
	f.around(v)
	return true
}
