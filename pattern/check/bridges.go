package check

import (
	"math"

	"fretband/pattern"
	"fretband/unroll/plane"
)

// BridgeSet is the narrowest metal of each kind; [Bridge.None] for a kind of which there
// is none.
type BridgeSet struct {
	Thinnest Bridge // of all
	Between  Bridge // between two openings
	ToEdge   Bridge // between an opening and the edge of the blank
	Neck     Bridge // between two parts of one opening's edge
}

// Bridges finds the narrowest metal on the sheet: exact nearest points of loops
// of lines and arcs. On a closed band the two ends are the same line: a bridge may
// run over the joint, and its points then lie at both ends of the blank.
//
// The search sweeps along the blank with the openings sorted by their left ends
// and looks no further than the narrowest bridge so far; pairs of the same two
// shapes at the same offset are measured once.
func Bridges(s *pattern.Sheet) BridgeSet {
	set := BridgeSet{Between: none(s.Rule), ToEdge: none(s.Rule), Neck: none(s.Rule)}
	m := newMeasure(s)
	set.Between = m.between()
	for i := range s.Openings {
		m.toEdge(i, &set.ToEdge)
	}
	m.necks(&set.Neck)
	set.Thinnest = set.Between
	for _, b := range []Bridge{set.ToEdge, set.Neck} {
		if b.beats(set.Thinnest) {
			set.Thinnest = b
		}
	}
	for _, b := range []*Bridge{&set.Thinnest, &set.Between, &set.ToEdge, &set.Neck} {
		*b = b.found()
	}
	return set
}

// NearestBridge returns the narrowest bridge at the opening with that index.
func NearestBridge(s *pattern.Sheet, i int) Bridge {
	m := newMeasure(s)
	best := none(s.Rule)
	m.toEdge(i, &best)
	for c := range s.Near().To(s.Openings[i].Box, best.Width+tie) {
		if c.Of != i || c.N != 0 {
			m.pair(i, c, &best)
		}
	}
	for _, n := range s.Openings[i].Loop.Necks(math.Min(best.Width, farthest)) {
		if b := (Bridge{n.D, n.A, n.B, s.Rule, i + 1, i + 1}); b.beats(best) {
			best = b
		}
	}
	return best.found()
}

// tie is the difference under which two widths count as equal, mm. Many bridges
// of a pattern are equal but for rounding; of those the one nearest to the middle
// of the blank is reported, so that nothing jumps while a number is dragged, and one that
// can be drawn there in one piece rather than one over the seam.
const tie = plane.Snap

// beats reports whether b is to be reported rather than c.
func (b Bridge) beats(c Bridge) bool {
	if math.Abs(b.Width-c.Width) > tie || math.IsInf(c.Width, 0) {
		return b.Width < c.Width
	}
	if b.overSeam() != c.overSeam() {
		return c.overSeam()
	}
	p, q := b.A.Mid(b.B), c.A.Mid(c.B)
	if d := math.Hypot(p.X, p.Y) - math.Hypot(q.X, q.Y); math.Abs(d) > 1e-4 {
		return d < 0
	}
	if math.Abs(p.X-q.X) > 1e-4 {
		return p.X > q.X
	}
	return p.Y > q.Y
}

// overSeam reports whether the bridge runs over the seam, so that its two points lie at
// both ends of the blank.
func (b Bridge) overSeam() bool { return b.A.Dist(b.B) > b.Width+slack }

// farthest bounds a search for which there is no bridge yet, mm.
const farthest = 1000

// none is a bridge to begin a search with, wider than any; found ends the search.
func none(rule float64) Bridge { return Bridge{Width: math.Inf(1), Rule: rule} }

func (b Bridge) found() Bridge {
	if math.IsInf(b.Width, 1) {
		return Bridge{Rule: b.Rule}
	}
	return b
}

// measure holds what the bridges of one sheet share.
type measure struct {
	s     *pattern.Sheet
	edge  []plane.Edge  // along which the blank is cut out
	edges *pattern.Near // those
	known map[offset]plane.Gap
	ready []*plane.Ready // the openings, once asked for
}

// offset names a pair of shapes and how the second lies to the first, on the
// grid on which points are the same.
type offset struct {
	a, b   int
	dx, dy int64
}

func newMeasure(s *pattern.Sheet) *measure {
	m := &measure{s: s, edge: edgeOfBlank(s), known: map[offset]plane.Gap{}, ready: make([]*plane.Ready, len(s.Openings))}
	var boxes []plane.Box
	for _, e := range m.edge {
		boxes = append(boxes, e.Bounds())
	}
	m.edges = s.NearBoxes(boxes)
	return m
}

// edgeOfBlank returns the edges along which the blank is cut out. A seamless
// band has none at its ends.
func edgeOfBlank(s *pattern.Sheet) []plane.Edge {
	es := s.Flat.Outline.Edges()
	if !s.Seamless() {
		return es
	}
	kept := es[:0]
	for _, e := range es {
		end := s.Flat.Length/2 - plane.Snap
		if math.Abs(e.A.X) > end && math.Abs(e.B.X) > end && (e.A.X > 0) == (e.B.X > 0) {
			continue
		}
		kept = append(kept, e)
	}
	return kept
}

// between sweeps over all pairs of openings.
func (m *measure) between() Bridge {
	best := none(m.s.Rule)
	for i, c := range m.s.Near().Pairs(func() float64 { return best.Width + tie }) {
		m.pair(i, c, &best)
	}
	return best
}

// pair takes the bridge from opening i to a copy of one if it is narrower than the
// best so far.
func (m *measure) pair(i int, c pattern.Copy, best *Bridge) {
	g := m.gap(i, c)
	if g.D > best.Width+tie {
		return
	}
	if b := (Bridge{g.D, g.A, c.Home(g.B), m.s.Rule, m.s.Openings[i].Number, m.s.Openings[c.Of].Number}); b.beats(*best) {
		*best = b
	}
}

// gap returns the nearest points of opening i and a copy of one.
func (m *measure) gap(i int, c pattern.Copy) plane.Gap {
	a, b := &m.s.Openings[i], &m.s.Openings[c.Of]
	by, moved := c.Moved()
	if a.Shape < 0 || b.Shape < 0 || !moved {
		return m.metal(i, c)
	}
	d := b.At.Add(by).Sub(a.At)
	key := offset{a.Shape, b.Shape, int64(math.Round(d.X / plane.Snap)), int64(math.Round(d.Y / plane.Snap))}
	g, ok := m.known[key]
	if !ok {
		g = m.metal(i, c)
		g.A, g.B = g.A.Sub(a.At), g.B.Sub(a.At)
		m.known[key] = g
	}
	g.A, g.B = g.A.Add(a.At), g.B.Add(a.At)
	return g
}

// metal is gap, measured; there is no distance if one lies in the other.
func (m *measure) metal(i int, c pattern.Copy) plane.Gap {
	a, b := &m.s.Openings[i], &m.s.Openings[c.Of]
	g := m.readied(i).Gap(m.copied(c), math.Inf(1))
	if g.D > 0 && (a.Box.Contains(g.B) && a.Loop.Contains(g.B) || b.Box.Contains(c.Home(g.A)) && c.Loop(b.Loop).Contains(g.A)) {
		g.D = 0
	}
	return g
}

// copied returns the edge of a copy, made ready.
func (m *measure) copied(c pattern.Copy) *plane.Ready {
	if c.N == 0 {
		return m.readied(c.Of)
	}
	return c.Loop(m.s.Openings[c.Of].Loop).Ready()
}

// readied returns the edge of an opening, made ready once.
func (m *measure) readied(i int) *plane.Ready {
	if m.ready[i] == nil {
		m.ready[i] = m.s.Openings[i].Loop.Ready()
	}
	return m.ready[i]
}

// toEdge takes the bridge from opening i to the edge of the blank if it is
// narrower than the best so far.
func (m *measure) toEdge(i int, best *Bridge) {
	o := &m.s.Openings[i]
	for c := range m.edges.To(o.Box, best.Width+tie) {
		if !o.Box.Nearer(c.Box, best.Width+tie) {
			continue // it has shrunk
		}
		edge := c.Edge(m.edge[c.Of])
		for n := range o.Loop {
			g := plane.NearestEdges(o.Loop.Edge(n), edge)
			if b := (Bridge{g.D, g.A, c.Home(g.B), m.s.Rule, o.Number, 0}); b.beats(*best) {
				*best = b
			}
		}
	}
}

// necks takes the narrowest neck within one opening's edge.
func (m *measure) necks(best *Bridge) {
	seen := map[int]bool{}
	for i := range m.s.Openings {
		o := &m.s.Openings[i]
		if o.Shape >= 0 {
			if seen[o.Shape] {
				continue
			}
			seen[o.Shape] = true
		}
		for _, n := range o.Loop.Necks(math.Min(best.Width, farthest)) {
			if b := (Bridge{n.D, n.A, n.B, m.s.Rule, o.Number, o.Number}); b.beats(*best) {
				*best = b
			}
		}
	}
}
