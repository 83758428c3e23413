package plane

import (
	"math"
	"slices"
)

// LeastCut is the length, mm, that no segment of a cut file is under. A machine stops and
// starts on the spot where edges are much shorter (ours: its control looks ahead over so many
// edges, not over so many mm, and the beam is ten times as wide).
const LeastCut = 0.01

// ShortestEdge is the least length, mm, of an edge of what is cut: a twentieth over
// [LeastCut], so that no turning and no rounding of a copy brings one under that.
const ShortestEdge = 1.05 * LeastCut

// flatArc is the height, mm, under which an arc is treated as its chord: two [Snap]. Its
// radius, of many metres, is what readers of files stumble over: with the 32-bit floats of
// some, an arc of 0.2 mm comes out by hundredths too long.
const flatArc = 2 * Snap

// Cuttable returns the loop as it can be cut and read: with no edge shorter than
// [ShortestEdge], nor an arc of which a quarter of a turn is, and with lines for arcs as
// good as straight.
//
// Guarantee. What lies on the left of the loop's edges only loses: no point of the result
// lies farther than thirty Snaps to the right of the loop. So openings that run
// counter-clockwise only shrink, and what keeps its distance goes on keeping it. Nothing
// moves by more than two and a half times the shortest edge: as much as that only where a
// needle as narrow ends. Edges without a short neighbour stay to the last bit, and a loop
// that is cuttable comes back itself. It is false, with no loop, for one that can't be
// made so: of about the size of the shortest edge, or one that would touch itself.
func (l Loop) Cuttable() (Loop, bool) {
	c, ok := l.withoutFlat(flatArc).withoutShort(ShortestEdge)
	if !ok {
		return nil, false
	}
	return c.withoutFlat(flatArc), true
}

// CuttableAround is Cuttable for the waste round a loop that runs counter-clockwise, as an
// outline does: what lies within it only grows.
func (l Loop) CuttableAround() (Loop, bool) {
	r := l.Reverse()
	c, ok := r.Cuttable()
	switch {
	case !ok:
		return nil, false
	case len(c) == 0 || &c[0] == &r[0]:
		return l, true
	}
	return c.Reverse(), true
}

// smoothly is how far, mm, an edge may move outward where a short one beside it goes into
// it: ten times the distance under which two points are one.
const smoothly = 10 * Snap

// withoutShort is [Loop.Cuttable] for edges of any length, and for none but short ones.
//
// A short edge goes, if that is smooth, into the neighbour that runs on. An arc to the left
// between smooth neighbours takes a larger radius; any other edge between such neighbours
// gives way to a point in which they meet. Else, where the
// loop turns left at one of its ends, that end slides back along its neighbour and cuts
// the corner a little lower; where the loop turns right at both, its neighbours run on
// until they meet, or one of them does until the edge is long enough. A short arc is first
// taken for its chord, or for its tangents where it bulges to the left.
//
// Cost: a look at each edge; for a loop with short edges, all pairs of edges whose boxes
// meet.
func (l Loop) withoutShort(least float64) (Loop, bool) {
	first := l.shortFrom(0, least)
	if first == len(l) {
		return l, true
	}
	w := shortening{slices.Clone(l), least}
	// Each step takes a vertex away or leaves a short edge less; an arc makes a few lines.
	// Gentle steps come first, wherever they are, so that a loop run from another vertex or
	// the other way comes out alike.
	for steps, from := 20*len(l)+100, first; ; steps-- {
		i := w.l.shortFrom(from, least)
		for i < len(w.l) && !w.gently(i) {
			i = w.l.shortFrom(i+1, least)
		}
		if i == len(w.l) && from > 0 {
			from = 0
			continue
		}
		if i == len(w.l) {
			if i = w.l.shortFrom(0, least); i == len(w.l) {
				break
			}
			if len(w.l) < 3 || !w.roughly(i) {
				return nil, false
			}
		}
		if steps == 0 {
			return nil, false
		}
		from = max(0, i-2)
	}
	if w.l.Area()*l.Area() <= 0 || w.l.checkSimple() != nil {
		return nil, false
	}
	return w.l, true
}

// shortFrom returns the first short edge from edge i on, or the number of edges.
func (l Loop) shortFrom(i int, least float64) int {
	for ; i < len(l); i++ {
		if l.Edge(i).short(least) {
			break
		}
	}
	return i
}

// short reports whether an edge, or the chord of a quarter of a turn of it, is shorter
// than least.
func (e Edge) short(least float64) bool {
	c := e.Chord()
	if n := e.quarters(); n > 1 {
		s := math.Abs(e.Sweep()) / 2
		c *= math.Sin(s/n) / math.Sin(s)
	}
	return !(c >= least)
}

// TooShort reports whether the edge, or the chord of a quarter of a turn of it, is shorter
// than [ShortestEdge].
func (e Edge) TooShort() bool { return e.short(ShortestEdge) }

// quarters returns how many quarters of a turn the edge goes through, the last begun.
func (e Edge) quarters() float64 {
	const eighth = math.Sqrt2 - 1 // bulge of a quarter of a turn
	if math.Abs(e.Bulge) <= eighth {
		return 1
	}
	return math.Ceil(math.Abs(e.Sweep())/(math.Pi/2) - 1e-9)
}

// shortening takes short edges out of a loop.
type shortening struct {
	l     Loop
	least float64
}

// gently works on edge i, which is short, where its neighbours run smoothly into it and out
// of it, and reports whether it could.
func (w *shortening) gently(i int) bool {
	n := len(w.l)
	before, e, after := w.l.Edge((i+n-1)%n), w.l.Edge(i), w.l.Edge((i+1)%n)
	return w.smooth(i, before, e, after) || w.widen(i, before, e, after) || w.meet(i, before, e, after)
}

// roughly works on edge i, which is short, and reports whether it could.
func (w *shortening) roughly(i int) bool {
	n := len(w.l)
	before, e, after := w.l.Edge((i+n-1)%n), w.l.Edge(i), w.l.Edge((i+1)%n)
	if e.Bulge != 0 {
		w.straighten(i)
		return true
	}
	atA, atB := turn(before, e), turn(e, after)
	if atA <= 0 && atB <= 0 {
		return w.runOn(i, before, e, after, atA < atB)
	}
	// The end of the smaller turn to the left loses least.
	ends := []bool{true, false}
	switch {
	case atA <= 0:
		ends = ends[1:]
	case atB <= 0:
		ends = ends[:1]
	case atB < atA:
		ends[0], ends[1] = false, true
	}
	for _, a := range ends {
		if w.slide(i, a) {
			return true
		}
	}
	for _, a := range ends {
		if w.cutOff(i, a) {
			return true
		}
	}
	return false
}

// turn returns the angle by which the way turns from one edge into the next, positive to
// the left.
func turn(a, b Edge) float64 {
	u, v := a.Tangent(1), b.Tangent(0)
	return math.Atan2(u.Cross(v), u.Dot(v))
}

// smooth puts edge i into the neighbour that takes it with less of a move, if nothing
// moves by more than [smoothly].
func (w *shortening) smooth(i int, before, e, after Edge) bool {
	n := len(w.l)
	a, offA := joined(before, e)
	b, offB := joined(e, after)
	switch {
	case math.Min(offA, offB) > smoothly || n < 3:
		return false
	case offA <= offB:
		w.l[(i+n-1)%n].Bulge = a.Bulge
		w.l = slices.Delete(w.l, i, i+1)
	default:
		w.l[i].Bulge = b.Bulge
		j := (i + 1) % n
		w.l = slices.Delete(w.l, j, j+1)
	}
	return true
}

// joined returns the one edge in place of two that encloses as much as they do, and
// how far it lies off them.
func joined(a, b Edge) (Edge, float64) {
	long := a
	if b.Chord() > a.Chord() {
		long = b
	}
	one := Edge{a.A, b.B, long.Bulge}
	if one.Bulge != 0 {
		want := a.Segment() + b.Segment() + b.A.Sub(a.A).Cross(b.B.Sub(a.A))/2
		for range 20 { // Newton's way: the area grows with the bulge
			off := one.Segment() - want
			step := one
			step.Bulge += 1e-6
			slope := (step.Segment() - one.Segment()) / 1e-6
			if !(slope > 0) || math.Abs(off) < 1e-15 {
				break
			}
			one.Bulge -= off / slope
		}
		if !(math.Abs(one.Bulge) <= 1) {
			return one, math.Inf(1)
		}
	}
	s := newSeg(one)
	return one, math.Max(s.dist(a.B), math.Max(s.dist(a.Mid()), s.dist(b.Mid())))
}

// widen gives edge i, an arc that turns to the left, the least radius with which it is long
// enough and still runs smoothly out of one neighbour and into the other, which lose as
// much. They have to stay long enough themselves.
func (w *shortening) widen(i int, before, e, after Edge) bool {
	const most = 2.6 // rad: the tip of a needle would fall back by several times the edge
	n := len(w.l)
	if n < 3 || e.Bulge <= 0 || math.Abs(turn(before, e)) > smoothTurn || math.Abs(turn(e, after)) > smoothTurn || e.Sweep() > most {
		return false
	}
	beside := func(e Edge, r float64) Edge { // at the distance r on its left
		a, b := e.Tangent(0).Left(), e.Tangent(1).Left()
		return Edge{e.A.Add(a.Mul(r)), e.B.Add(b.Mul(r)), e.Bulge}
	}
	turns := func(e Edge, r float64) bool { return e.Bulge <= 0 || r < 0.99*e.Radius() }
	type fit struct{ before, arc, after Edge }
	with := func(r float64) (fit, bool) {
		if !turns(before, r) || !turns(after, r) {
			return fit{}, false
		}
		for _, c := range Crossings(beside(before, r), beside(after, r)) {
			f := fit{before: before.Part(0, c.A), after: after.Part(c.B, 1)}
			u, v := before.Tangent(c.A), after.Tangent(c.B)
			if sweep := math.Atan2(u.Cross(v), u.Dot(v)); sweep > 0 && c.A > 0 && c.B < 1 {
				f.arc = Edge{f.before.B, f.after.A, math.Tan(sweep / 4)}
				return f, true
			}
		}
		return fit{}, false
	}
	want := w.least * (1 + 1e-9)
	lo, hi := e.Radius(), e.Radius()
	for f, ok := (fit{}), true; !ok || f.arc.short(want); {
		if lo, hi = hi, 2*hi; hi > MaxCoord {
			return false
		}
		if f, ok = with(hi); !ok && lo > e.Radius() {
			return false
		}
	}
	_, hi = Halve(lo, hi, 50, func(r float64) bool {
		f, ok := with(r)
		return !ok || f.arc.short(want)
	})
	f, ok := with(hi)
	if !ok || f.arc.short(w.least) || f.before.short(w.least) || f.after.short(w.least) {
		return false
	}
	w.l[(i+n-1)%n].Bulge = f.before.Bulge
	w.l[i] = Vertex{f.arc.A, f.arc.Bulge}
	w.l[(i+1)%n] = Vertex{f.after.A, f.after.Bulge}
	return true
}

// Angles, radians, under which a short edge runs on from its neighbours so smoothly that
// they may meet in its place: of the turns at its ends and along it, and of all three to
// the left, which they make a corner of.
const (
	smoothTurn = 0.1
	smoothLeft = 0.005
)

// meet has the neighbours of edge i, which run almost smoothly into it and out of it, meet
// at a point beside its middle instead. Each turns about its far end and stays as bent
// as it is; the point lies on the left of both, run on, and of the edge.
func (w *shortening) meet(i int, before, e, after Edge) bool {
	n := len(w.l)
	atA, atB, sweep := turn(before, e), turn(e, after), e.Sweep()
	if n < 4 || math.Max(math.Abs(atA), math.Max(math.Abs(atB), math.Abs(sweep))) > smoothTurn || atA+atB+sweep > smoothLeft {
		return false
	}
	// An arc of nearly half a turn or more would not turn to the left all along.
	const most = 0.8 // of its bulge
	for _, j := range []int{(i + 1) % n, (i + n - 1) % n} {
		if d := w.l.Edge(j); math.Abs(d.Bulge) > most {
			a, b := d.Part(0, 0.5), d.Part(0.5, 1)
			w.l[j].Bulge = a.Bulge
			w.l = slices.Insert(w.l, j+1, Vertex{b.A, b.Bulge})
			return true
		}
	}
	left := e.B.Sub(e.A).Unit().Left()
	x := e.A.Mid(e.B)
	// How far the lines or circles that the neighbours run on along, and the edge, lie on its
	// left. An arc to the right runs on beyond its tangent.
	rise := math.Max(0, e.Mid().Sub(x).Dot(left))
	for _, l := range []struct {
		Edge
		at float64
	}{{before, 1}, {after, 0}} {
		if l.Bulge <= 0 {
			along := l.Tangent(l.at)
			rise = math.Max(rise, -along.Cross(x.Sub(l.At(l.at)))/along.Cross(left))
			continue
		}
		v := x.Sub(l.Centre()) // |v + t left| = r
		half := v.Dot(left)
		in := half*half - v.Dot(v) + l.Radius()*l.Radius()
		if in < 0 {
			return false // it comes round before
		}
		rise = math.Max(rise, -half-math.Sqrt(in))
	}
	x = x.Add(left.Mul(rise + Snap))
	bends := func(l Edge, to Point) float64 { return math.Abs(l.curvature()) * x.Dist(to) / 2 }
	if rise > w.least/4 || math.Max(bends(before, before.A), bends(after, after.B)) > 0.99 {
		return false // a neighbour is a tiny arc
	}
	j := (i + 1) % n
	w.l[(i+n-1)%n].Bulge = asBent(before, before.A, x)
	w.l[j] = Vertex{x, asBent(after, x, after.B)}
	w.l = slices.Delete(w.l, i, i+1)
	return true
}

// straighten puts lines in place of the arc i that lie on its left: chords, or
// tangents if it turns to the right.
func (w *shortening) straighten(i int) {
	e := w.l.Edge(i)
	w.l[i].Bulge = 0
	if math.Abs(e.Bulge)*e.Chord()/2 <= Snap {
		return
	}
	var vs []Vertex
	n := e.quarters()
	for k := range int(n) {
		p := e.Part(float64(k)/n, float64(k+1)/n)
		if p.Bulge < 0 {
			m := p.A.Mid(p.B)
			vs = append(vs, Vertex{Point: m.Add(p.Mid().Sub(m).Mul(2 / (1 - p.Bulge*p.Bulge)))})
		} else if k > 0 {
			vs = append(vs, Vertex{Point: p.A})
		}
	}
	w.l = slices.Insert(w.l, i+1, vs...)
}

// straightenBeside straightens the neighbour at an end of edge i, if it is an arc.
func (w *shortening) straightenBeside(i int, atA bool) bool {
	beside, far, near := w.neighbour(i, atA)
	switch {
	case beside.Bulge == 0:
		return false
	case atA:
		w.straighten(far)
	default:
		w.straighten(near)
	}
	return true
}

// neighbour returns the one at the end A of edge i, or at B, run towards the edge, and
// the indexes of the vertices at its far and near end.
func (w *shortening) neighbour(i int, atA bool) (e Edge, far, near int) {
	n := len(w.l)
	if atA {
		far, near = (i+n-1)%n, i
		return w.l.Edge(far), far, near
	}
	near, far = (i+1)%n, (i+2)%n
	return w.l.Edge(near).Reverse(), far, near
}

// other returns the vertex at the other end of edge i.
func (w *shortening) other(i int, atA bool) int {
	if atA {
		return (i + 1) % len(w.l)
	}
	return i
}

// put gives the neighbour at an end of edge i a new last point, and edge i a bulge as
// seen towards the far end.
func (w *shortening) put(i int, atA bool, beside Edge, bulge float64) {
	_, far, near := w.neighbour(i, atA)
	w.l[near].Point = beside.B
	if atA {
		w.l[far].Bulge, w.l[i].Bulge = beside.Bulge, bulge
	} else {
		w.l[near].Bulge, w.l[i].Bulge = -beside.Bulge, -bulge
	}
}

// slide moves an end of edge i, at which the loop turns left, back along its neighbour
// until the edge is long enough. The neighbour has to stay long enough itself.
func (w *shortening) slide(i int, atA bool) bool {
	beside, _, _ := w.neighbour(i, atA)
	o := w.l[w.other(i, atA)].Point
	length := beside.Len()
	t, ok := w.until(func(t float64) Point { return beside.At(1 - t/length) }, o, length)
	if !ok {
		return false
	}
	rest := beside.Part(0, 1-t/length)
	if rest.short(w.least) {
		return false
	}
	bulge, ok := w.parallel(beside, atA, rest.B, o)
	if !ok {
		return false
	}
	w.put(i, atA, rest, bulge)
	return true
}

// cutOff takes away the vertex at an end of edge i, at which the loop turns left: the edge
// then runs to the far end of its neighbour.
func (w *shortening) cutOff(i int, atA bool) bool {
	beside, far, near := w.neighbour(i, atA)
	bulge, ok := w.parallel(beside, atA, w.l[far].Point, w.l[w.other(i, atA)].Point)
	if !ok {
		return w.straightenBeside(i, atA)
	}
	if len(w.l) < 4 {
		return false
	}
	if atA {
		w.l[far].Bulge = bulge
	} else {
		w.l[i].Bulge = -bulge
	}
	w.l = slices.Delete(w.l, near, near+1)
	return true
}

// parallel returns the bulge of an edge from a to b that cuts the corner at the end of an
// edge, and lies on the left of that as well: 0, or as bent as the edge if that turns to
// the right. It is false if the edge is too much bent for it.
func (w *shortening) parallel(beside Edge, atA bool, a, b Point) (float64, bool) {
	k := beside.curvature()
	if right := k < 0; beside.Bulge == 0 || right != atA {
		return 0, true
	}
	sin := k * a.Dist(b) / 2 // of half the sweep
	if math.Abs(sin) > 0.7 {
		return 0, false
	}
	return math.Tan(math.Asin(sin) / 2), true
}

// runOn has the neighbours of edge i, into which and from which the loop turns right, run
// on until they meet; if that is too far, the one at A or at B until the edge is long
// enough.
func (w *shortening) runOn(i int, before, e, after Edge, atA bool) bool {
	n, most := len(w.l), 2*w.least
	further := func(e Edge) float64 { // as a share of it: a tiny arc by a quarter of a turn at most
		return math.Min(most/e.Len(), math.Pi/2/math.Abs(e.Sweep()))
	}
	p := before.Part(1, 1+further(before))
	q := after.Part(-further(after), 0)
	for _, c := range Crossings(p, q) {
		x := p.At(c.A)
		if n < 4 || e.B.Sub(e.A).Cross(x.Sub(e.A)) < 0 {
			continue
		}
		j := (i + 1) % n
		w.l[(i+n-1)%n].Bulge = longer(before, x.Dist(e.A))
		w.l[j] = Vertex{x, longer(after, x.Dist(e.B))}
		w.l = slices.Delete(w.l, i, i+1)
		return true
	}
	beside, _, _ := w.neighbour(i, atA)
	length := beside.Len()
	o := w.l[w.other(i, atA)].Point
	t, ok := w.until(func(t float64) Point { return beside.At(1 + t/length) }, o, math.Inf(1))
	if !ok { // a tiny arc, which comes round
		return w.straightenBeside(i, atA)
	}
	w.put(i, atA, beside.Part(0, 1+t/length), 0)
	return true
}

// asBent returns the bulge of an edge from a to b that is as bent as e, which is less than
// half a turn.
func asBent(e Edge, a, b Point) float64 {
	sin := e.curvature() * a.Dist(b) / 2 // of half the sweep
	return math.Tan(math.Asin(math.Max(-1, math.Min(1, sin))) / 2)
}

// curvature returns 1 by the radius, positive if the edge turns to the left.
func (e Edge) curvature() float64 { return 4 * e.Bulge / (e.Chord() * (1 + e.Bulge*e.Bulge)) }

// longer returns the bulge of an edge that runs on along its line or circle until it ends
// so far, as a chord, from its end.
func longer(e Edge, by float64) float64 {
	if e.Bulge == 0 {
		return 0
	}
	sin := by / (2 * e.Radius()) // of half the sweep that is added
	more := math.Asin(math.Min(1, sin)) / 2
	return math.Tan(math.Atan(e.Bulge) + math.Copysign(more, e.Bulge))
}

// until returns the length t, up to most or three least, after which the point at(t) is as
// far from o as an edge has to be long.
func (w *shortening) until(at func(t float64) Point, o Point, most float64) (float64, bool) {
	want := w.least * (1 + 1e-9)
	hi := math.Min(most, 3*w.least)
	if at(hi).Dist(o) < want {
		return 0, false
	}
	_, hi = Halve(0, hi, 50, func(t float64) bool { return at(t).Dist(o) < want })
	return hi, true
}

// withoutFlat returns the loop with lines for the arcs that are lower than a height. It is
// the loop itself if there are none.
func (l Loop) withoutFlat(height float64) Loop {
	copied := false
	for i, v := range l {
		if v.Bulge != 0 && math.Abs(v.Bulge)*l.Edge(i).Chord() < 2*height {
			if !copied {
				l, copied = slices.Clone(l), true
			}
			l[i].Bulge = 0
		}
	}
	return l
}
