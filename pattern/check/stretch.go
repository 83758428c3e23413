package check

import (
	"math"
	"slices"

	"fretband/unroll/plane"
)

// stretch returns the lengths of l's edge, on from p and back, over which other edges
// are from least to most off.
func stretch(l plane.Loop, other []plane.Edge, p plane.Point, least, most float64) (on, back float64) {
	f := facing{
		course: newCourse(l), other: other, boxes: make([]plane.Box, len(other)),
		start: along(l, p), least: least - plane.Snap, most: most + plane.Snap,
	}
	for k, e := range other {
		f.boxes[k] = e.Bounds().Grow(f.most + plane.Snap)
	}
	return f.run(1), f.run(-1)
}

// facing is an edge and others that are from least to most off at the start.
type facing struct {
	course
	other       []plane.Edge
	boxes       []plane.Box // round what is no farther than most from each
	start       float64     // along the edge
	least, most float64
}

// run returns how far from the start, on for a way of 1 or back for one of -1, the others stay
// so far off.
func (f *facing) run(way float64) float64 {
	half := f.ends[len(f.ends)-1] / 2
	// In such a step no edge swings out and back again.
	step := math.Max((f.most-plane.Snap)/10, 1e-3)
	t, unsure := 0.0, 0.0
	for t < half {
		if t >= unsure {
			n, more := f.sure(t, step, way)
			t += float64(n) * step
			unsure = t + float64(more)*step
		}
		if !f.near(way * (t + step)) {
			break
		}
		t += step
	}
	lo, hi := t, t+step
	for hi-lo > 1e-4 {
		if mid := (lo + hi) / 2; f.near(way * mid) {
			lo = mid
		} else {
			hi = mid
		}
	}
	return math.Min(lo, half)
}

// near reports whether the others are so far off at a distance from the start.
func (f *facing) near(t float64) bool {
	x := f.at(f.start + t)
	d := math.Inf(1)
	for k, e := range f.other {
		if f.boxes[k].Contains(x) {
			d = math.Min(d, e.Dist(x))
		}
	}
	return d >= f.least && d <= f.most
}

// sure returns over how many steps on from t the others are surely so far off, unless those
// are few, and over how many more, few or none, that is not known. It is known where they and
// the edge are straight lines, as far as both go: their distance, a convex function along a
// line, is no greater between two positions than at one of them.
func (f *facing) sure(t, step, way float64) (n, more int) {
	from := f.turn(f.start + way*t)
	i := f.edgeAt(from)
	room := f.ends[i] - from
	if way < 0 {
		room = f.edges[i].Len() - room
	}
	most := int(room / step)
	if !f.edges[i].IsLine() {
		return 0, most
	}
	alike := func(n int) bool {
		return f.alike(plane.Edge{A: f.at(from), B: f.at(from + way*float64(n)*step)})
	}
	if alike(most) {
		return most, 0
	}
	const few = 4 // sooner taken than searched
	for most-n > few {
		if mid := (n + most) / 2; alike(mid) {
			n = mid
		} else {
			most = mid
		}
	}
	return n, most - n
}

// alike reports whether the others are no nearer to a line than they may be, and one of them
// no farther from all of it.
func (f *facing) alike(line plane.Edge) bool {
	box, one := line.Bounds(), false
	for k, e := range f.other {
		if !f.boxes[k].Meets(box) {
			continue
		}
		if plane.NearestEdges(line, e).D < f.least {
			return false
		}
		one = one || e.IsLine() && e.Dist(line.A) <= f.most && e.Dist(line.B) <= f.most
	}
	return one
}

// along returns how far along the loop, from its first vertex, the position nearest to
// p lies.
func along(l plane.Loop, p plane.Point) float64 {
	best, where, sum := math.Inf(1), 0.0, 0.0
	for i := range l {
		e := l.Edge(i)
		t, q := e.Nearest(p)
		if d := q.Dist(p); d < best {
			best, where = d, sum+t*e.Len()
		}
		sum += e.Len()
	}
	return where
}

// course is a loop by the length along it.
type course struct {
	edges []plane.Edge
	ends  []float64 // how far along each ends
}

func newCourse(l plane.Loop) course {
	c := course{l.Edges(), make([]float64, len(l))}
	sum := 0.0
	for i, e := range c.edges {
		sum += e.Len()
		c.ends[i] = sum
	}
	return c
}

// turn returns a distance along the course as one from 0 to its length, round and round.
func (c course) turn(t float64) float64 {
	whole := c.ends[len(c.ends)-1]
	return math.Mod(math.Mod(t, whole)+whole, whole)
}

// edgeAt returns the edge so far along.
func (c course) edgeAt(t float64) int {
	i, _ := slices.BinarySearch(c.ends, t)
	return min(i, len(c.ends)-1)
}

// at returns the position so far along, round and round.
func (c course) at(t float64) plane.Point {
	t = c.turn(t)
	i := c.edgeAt(t)
	e := c.edges[i]
	if n := e.Len(); n > 0 {
		return e.At(1 - math.Min((c.ends[i]-t)/n, 1))
	}
	return e.A
}

// halfAbout returns the edges of the loop that are nearer, along it, to the position q
// than to p; both are given by their distance along.
func halfAbout(l plane.Loop, q, p, whole float64) []plane.Edge {
	// From half way behind q to half way before it.
	ahead := math.Mod(p-q+whole, whole)
	from, to := q-(whole-ahead)/2, q+ahead/2
	var out []plane.Edge
	sum := -whole
	for range 3 {
		for i := range l {
			e := l.Edge(i)
			n := e.Len()
			lo, hi := math.Max(from, sum), math.Min(to, sum+n)
			if hi > lo && n > 0 {
				out = append(out, e.Part((lo-sum)/n, (hi-sum)/n))
			}
			sum += n
		}
	}
	return out
}
