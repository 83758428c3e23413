package cut

import (
	"cmp"
	"math"
	"slices"

	"fretband/pattern"
	"fretband/unroll/plane"
)

// leadTries is how often a lead-in is shortened by a fifth until it has room outside of
// an outline.
const leadTries = 20

// circleTolerance is how exactly the middle of an opening is found, mm: ours.
const circleTolerance = 0.01

// shortEdge is the length, mm, under which no edge is made of a longer one, where a line is
// begun or a tab ends: far over the shortest that may be cut.
const shortEdge = 2 * shortestEdge

// leadOpening gives an opening a lead-in that lies wholly in the waste: it comes
// straight from the middle of the largest circle inside, or from as far as the lead-in
// is long, to the nearest point of the line. So no finished edge is nearer to the spot
// where the cut begins than the lead-in is long: the spot lies in a circle that touches
// the line there and lies in the largest one.
func leadOpening(h *cuttingLine, at entry, length float64) {
	if math.Min(at.room, length) < shortEdge {
		return // none is as good as so short a one
	}
	h.loop = startAt(h.loop, at.edge, at.t)
	end := h.loop[0].Point
	way := at.middle.Sub(end)
	start := at.middle
	if way.Len() > length {
		start = end.Add(way.Unit().Mul(length))
	}
	h.runs = []run{{plane.Chain{{A: start, B: end}}, h.loop.Edges()}}
}

// entry is where a lead-in enters a loop: the edge, the fraction of its length, and the
// middle of the largest circle inside with its radius.
type entry struct {
	edge   int
	t      float64
	middle plane.Point
	room   float64
}

func (e entry) move(v plane.Point) entry {
	e.middle = e.middle.Add(v)
	return e
}

func newEntry(l plane.Loop) entry {
	e := entry{}
	e.middle, e.room = l.LargestCircle(circleTolerance)
	least := math.Inf(1)
	for i := range l {
		d := l.Edge(i)
		t, q := d.Nearest(e.middle)
		if r := q.Dist(e.middle); r < least {
			least, e.edge, e.t = r, i, t
		}
	}
	return e
}

// entries finds where to enter openings: once for those that are one loop moved.
type entries struct {
	known map[int]knownEntry
}

type knownEntry struct {
	entry
	at plane.Point
}

// of returns the entry of a loop that is cut for the opening o.
func (es *entries) of(o pattern.Opening, l plane.Loop) entry {
	k, ok := es.known[o.Shape]
	if o.Shape < 0 || !ok {
		k = knownEntry{newEntry(l), o.At}
		es.known[o.Shape] = k
	}
	return k.move(o.At.Sub(k.at))
}

// startAt returns the loop begun at the fraction t of edge i, which becomes a vertex. Where
// that would make an edge too short, the loop begins at the vertex next to it.
func startAt(l plane.Loop, i int, t float64) plane.Loop {
	n := len(l)
	e := l.Edge(i)
	switch length := e.Len(); {
	case t*length < shortEdge:
		return begun(l, i)
	case (1-t)*length < shortEdge:
		return begun(l, (i+1)%n)
	}
	a, b := e.Part(0, t), e.Part(t, 1)
	out := make(plane.Loop, 0, n+1)
	out = append(out, plane.Vertex{Point: b.A, Bulge: b.Bulge})
	out = append(out, l[i+1:]...)
	out = append(out, l[:i]...)
	return append(out, plane.Vertex{Point: a.A, Bulge: a.Bulge})
}

// begun returns the loop begun at vertex i.
func begun(l plane.Loop, i int) plane.Loop {
	return append(append(make(plane.Loop, 0, len(l)), l[i:]...), l[:i]...)
}

// enterOutline begins an outline, which runs counter-clockwise, where a lead-in has room: at
// the middle of the edge that faces most to a side; at the one with most room if none has
// enough.
func enterOutline(c *cuttingLine, length float64, side plane.Point) {
	type candidate struct {
		edge  int
		faces float64
	}
	var places []candidate
	for i := range c.loop {
		e := c.loop.Edge(i)
		// Squared, so that a long edge aslant does not outdo the end of a band.
		if f := outwardAt(e, 0.5).Dot(side); f > 0 {
			places = append(places, candidate{i, e.Len() * f * f})
		}
	}
	slices.SortStableFunc(places, func(a, b candidate) int { return cmp.Compare(b.faces, a.faces) })
	edge, long := -1, 0.0
	for _, p := range places {
		e := c.loop.Edge(p.edge)
		if e.Len() < 2*shortEdge {
			continue
		}
		if d := free(c.loop, e.At(0.5), outwardAt(e, 0.5), length); d > long {
			edge, long = p.edge, d
		}
		if long == length {
			break
		}
	}
	if edge < 0 {
		return
	}
	c.loop = startAt(c.loop, edge, 0.5)
}

// leadRuns gives each run of an outline a lead-in from outside, the way that is square to it
// or another that way names: where the line is begun, and after each tab. It is shorter where
// its spot would be nearer to any edge of the outline than it is long, and there is none where
// there is no room at all.
func leadRuns(c *cuttingLine, length float64, way func(plane.Edge) plane.Point) {
	runs := c.runs
	if runs == nil {
		runs = []run{{edge: c.loop.Edges()}}
	}
	led := false
	for i, r := range runs {
		foot, out := r.edge[0].A, way(r.edge[0])
		if d := free(c.loop, foot, out, length); d > 0 {
			runs[i].lead = plane.Chain{{A: foot.Add(out.Mul(d)), B: foot}}
			led = true
		}
	}
	if led {
		c.runs = runs
	}
}

// outward returns the direction square to the beginning of an edge, away from what a
// counter-clockwise loop holds.
func outward(e plane.Edge) plane.Point { return outwardAt(e, 0) }

func outwardAt(e plane.Edge, t float64) plane.Point {
	v := e.Tangent(t)
	return plane.Pt(v.Y, -v.X)
}

// free returns the length of a lead-in, most at most, that comes to a foot on the loop
// against way, with its start no nearer to the loop than its end; 0 if there is none.
func free(l plane.Loop, foot, way plane.Point, most float64) float64 {
	d := most
	for range leadTries {
		if d < shortEdge {
			break
		}
		if l.Nearest(foot.Add(way.Mul(d))).D >= d-plane.Snap {
			return d
		}
		d *= 0.8
	}
	return 0
}

// leadSide returns the side of the blank from which the outline is entered: its left end,
// which is filed or joined afterwards anyway, or the lower edge of a seamless band, which
// has no ends to cut.
func leadSide(s *pattern.Sheet) plane.Point {
	if s.Seamless() {
		return plane.Pt(0, -1)
	}
	return plane.Pt(-1, 0)
}
