package check

import (
	"math"
	"slices"

	"fretband/pattern"
	"fretband/unroll/plane"
)

// WeakestPath is a way through the metal that crosses openings free and pays for metal
// only: the way along which the band would part first if all its metal were
// equally loaded.
type WeakestPath struct {
	// Metal is what the way passes in metal, mm.
	Metal float64
	// Bridges are the pieces of metal that it passes, in order.
	Bridges []Bridge
	// Full is what it would pass were nothing cut out, mm: the blank's width where
	// the way lies, or its length.
	Full float64
}

// None reports whether there is no such way.
func (c WeakestPath) None() bool { return c.Metal == 0 && len(c.Bridges) == 0 }

// Share is the metal passed as a part of the full section.
func (c WeakestPath) Share() float64 {
	if c.Full <= 0 || c.None() {
		return 1
	}
	return c.Metal / c.Full
}

// WeakestPaths are the weakest ways through the band.
type WeakestPaths struct {
	Across WeakestPath // from the bottom edge to the top edge
	Along  WeakestPath // from end to end, round a closed band: it would let the top part from the bottom
	// inner is Across clear of the free ends of a cuff, where Across lies at one.
	inner *WeakestPath
	// Exact says that no way through metal can be shorter. It is false for bands of
	// very many openings, where stretches of metal that are long beside the distance
	// of neighbours were not looked at.
	Exact bool
}

// FindWeakestPaths finds the shortest ways through the metal, where openings cost
// nothing.
//
// A way from edge to edge is a chain of openings with a stretch of metal between
// each and the next. No stretch is shorter than the least distance of the two, and
// the straight line of that length is a way; so the shortest chain, by E. Dijkstra
// (Numerische Mathematik 1, 1959) in the graph whose lengths are exact least
// distances, is the shortest way there is. A stretch longer than the whole of the
// shortest way can't belong to it, so only pairs up to that distance are measured, and
// of those only the ones that a shorter way may need: see [pathBound].
func FindWeakestPaths(s *pattern.Sheet) WeakestPaths {
	w := weakestPaths(s, edgesByKind(s))
	if atFreeEnd(s, w.Across) {
		inner := weakestPaths(s, clearOfEnds(s, edgesByKind(s))).Across
		w.inner = &inner
	}
	return w
}

// Bent is the weakest path across where the band bends: the free end of a cuff bears nothing
// when it is bent or pulled open, so that a path there is left out.
func (w WeakestPaths) Bent() WeakestPath {
	if w.inner != nil {
		return *w.inner
	}
	return w.Across
}

// freeEnd is how much of a cuff at either end counts as free, mm along the band: as much as
// it is wide there, for what is done at an end is felt about so far (the principle of
// Saint-Venant).
func freeEnd(s *pattern.Sheet) float64 {
	bottom, top := s.Flat.EdgesAt(s.Flat.Length / 2)
	return math.Min(top-bottom, s.Flat.Length/4)
}

// atFreeEnd reports whether all that a path passes lies at a free end of a cuff.
func atFreeEnd(s *pattern.Sheet, c WeakestPath) bool {
	if !s.Design.Band.Open() || len(c.Bridges) == 0 {
		return false
	}
	inner := s.Flat.Length/2 - freeEnd(s)
	return !slices.ContainsFunc(c.Bridges, func(b Bridge) bool {
		x, _ := s.Flat.Where(b.A.Mid(b.B))
		return math.Abs(x) < inner
	})
}

// clearOfEnds returns the edges without what lies at the free ends of a cuff.
func clearOfEnds(s *pattern.Sheet, edges [edgeNodes][]plane.Edge) [edgeNodes][]plane.Edge {
	inner := s.Flat.Length/2 - freeEnd(s)
	in := func(p plane.Point) bool {
		x, _ := s.Flat.Where(p)
		return math.Abs(x) < inner
	}
	for _, k := range [...]int{bottomEdge, topEdge} {
		var kept []plane.Edge
		for _, e := range edges[k] {
			const step = 1.0 // mm
			n := int(math.Ceil(e.Len() / step))
			for i := range n {
				if p := e.Part(float64(i)/float64(n), float64(i+1)/float64(n)); in(p.Mid()) {
					kept = append(kept, p)
				}
			}
		}
		edges[k] = kept
	}
	return edges
}

func weakestPaths(s *pattern.Sheet, edges [edgeNodes][]plane.Edge) WeakestPaths {
	g := newPathGraph(s, edges)
	before := math.Inf(1)
	size := s.Flat.Outline.Bounds()
	g.extend(2*math.Max(s.Rule, 0.1), nil) // as near as the openings of a pattern are
	for {
		across, along := g.across(), g.along()
		// No stretch is longer than the blank.
		most := math.Min(math.Max(across.Metal, along.Metal), math.Hypot(size.W(), size.H()))
		sum := across.Metal + along.Metal
		joined := len(across.Bridges) > 1 && len(along.Bridges) > 1
		if g.within >= most || joined && g.count > manyArcs && sum > before*(1-manyGain) {
			return WeakestPaths{Across: across.found(), Along: along.found(), Exact: g.within >= most}
		}
		before = sum
		next := math.Min(2*g.within, most)
		g.extend(next, g.bounds(next, across.Metal, along.Metal))
	}
}

// found ends the search for a way, which begins with an endless one.
func (c WeakestPath) found() WeakestPath {
	if math.IsInf(c.Metal, 1) {
		return WeakestPath{Full: c.Full}
	}
	return c
}

// manyArcs is the size of a graph from which on it is extended only as long as that
// finds shorter ways: among thousands of openings a long stretch of metal runs into
// one of them sooner or later.
const manyArcs = 20000

// manyGain is the part by which it has to find shorter ones to go on.
const manyGain = 1e-3

// Nodes of the graph after the openings.
const (
	bottomEdge = iota
	topEdge
	leftEnd
	rightEnd
	edgeNodes
)

// arc is a stretch of metal from one node to another, with the turn of a closed
// band that it makes over the seam: +1 to the right.
type arc struct {
	to     int
	rounds int
	gap    plane.Gap
}

// pathGraph joins openings and edges by the metal between them.
type pathGraph struct {
	s      *pattern.Sheet
	n      int // openings
	edges  [edgeNodes][]plane.Edge
	near   [edgeNodes]*pattern.Near // those edges
	m      *measure
	within float64 // mm: all stretches up to it are in that a shortest way may need
	arcs   [][]arc
	count  int // of arcs
	search pathSearch
}

func newPathGraph(s *pattern.Sheet, edges [edgeNodes][]plane.Edge) *pathGraph {
	g := &pathGraph{s: s, n: len(s.Openings), m: newMeasure(s), arcs: make([][]arc, len(s.Openings)+edgeNodes)}
	g.edges = edges
	for k, es := range g.edges {
		boxes := make([]plane.Box, len(es))
		for i, e := range es {
			boxes[i] = e.Bounds()
		}
		g.near[k] = s.NearBoxes(boxes)
	}
	// Where nothing is cut out.
	for _, ends := range [2][2]int{{bottomEdge, topEdge}, {leftEnd, rightEnd}} {
		best := plane.Gap{D: math.Inf(1)}
		for _, a := range g.edges[ends[0]] {
			if gap, ok := g.nearest([]plane.Edge{a}, a.Bounds(), ends[1], best.D); ok {
				best = gap
			}
		}
		if !math.IsInf(best.D, 1) {
			g.join(g.n+ends[0], g.n+ends[1], 0, best)
		}
	}
	return g
}

// edgesByKind says which edges of the outline are the bottom, the top and the two
// ends: what lies on neither long edge. So a cuff's corners and rounded or pointed
// ends belong to its ends: a way round one of them parts nothing off but a corner.
func edgesByKind(s *pattern.Sheet) (edges [edgeNodes][]plane.Edge) {
	joined := !s.Design.Band.Open()
	// off is how far an edge strays from the bottom and from the top.
	off := func(e plane.Edge) (bottom, top float64) {
		for _, p := range [3]plane.Point{e.A, e.At(0.5), e.B} {
			u, v := s.Flat.Where(p)
			low, high := s.Flat.EdgesAt(u)
			bottom, top = math.Max(bottom, math.Abs(v-low)), math.Max(top, math.Abs(v-high))
		}
		return bottom, top
	}
	for _, e := range s.Flat.Outline.Edges() {
		var k int
		switch bottom, top := off(e); {
		case top <= math.Min(bottom, 2*plane.FitTolerance):
			k = topEdge
		case bottom <= 2*plane.FitTolerance:
			k = bottomEdge
		case joined:
			continue // joined to each other
		case e.At(0.5).X < 0:
			k = leftEnd
		default:
			k = rightEnd
		}
		edges[k] = append(edges[k], e)
	}
	return edges
}

// join adds a stretch.
func (g *pathGraph) join(i, j, rounds int, gap plane.Gap) {
	g.arcs[i] = append(g.arcs[i], arc{j, rounds, gap})
	g.arcs[j] = append(g.arcs[j], arc{i, -rounds, gap.Swap()})
	g.count += 2
}

// joined reports whether a stretch is in.
func (g *pathGraph) joined(i, j, rounds int) bool {
	for k := range g.arcs[i] {
		if a := &g.arcs[i][k]; a.to == j && a.rounds == rounds {
			return true
		}
	}
	return false
}

// extend adds the stretches up to d that keep one of the bounds, all if there are none.
func (g *pathGraph) extend(d float64, bounds []pathBound) {
	needed := func(i, j int, least float64) bool {
		for k := range bounds {
			if bounds[k].admits(i, j, least) {
				return true
			}
		}
		return bounds == nil
	}
	for i, c := range g.s.Near().Pairs(func() float64 { return d }) {
		j := c.Of
		least := math.Max(g.within, g.s.Openings[i].Box.Dist(c.Box))
		if c.N == 0 && j < i {
			i, j = j, i
			c.Of = j
		}
		if !needed(i, j, least) || g.joined(i, j, c.N) {
			continue
		}
		if gap := g.m.readied(i).Gap(g.m.copied(c), d); gap.D < d {
			g.join(i, j, c.N, gap)
		}
	}
	// The rim may be much wider than bridges: reached at once.
	rim := math.Max(d, 1.5*g.s.EdgeRule)
	for i := range g.s.Openings {
		o := &g.s.Openings[i]
		for k := range edgeNodes {
			if needed(i, g.n+k, g.within) && !g.joined(i, g.n+k, 0) {
				if gap, ok := g.nearest(o.Loop.Edges(), o.Box, k, rim); ok {
					g.join(i, g.n+k, 0, gap)
				}
			}
		}
	}
	g.within = d
}

// pathBound says which stretches a way may need that is shorter than the shortest so
// far. Such a way passes one that is not in the graph; what lies before that one is as
// long as the shortest way in the graph, or passes another that is not in it and so
// longer than what the graph reaches. The same holds for what lies behind it.
type pathBound struct {
	from, to []float64 // by node: at least so long is a way from the one end, to the other
	most     float64
}

func (b *pathBound) admits(i, j int, least float64) bool {
	return least+math.Min(b.from[i]+b.to[j], b.from[j]+b.to[i]) <= b.most
}

// bounds returns those of the ways across and along; nil as long as they hold nothing off
// that is under d.
func (g *pathGraph) bounds(d, across, along float64) []pathBound {
	if d+2*g.within <= math.Min(across, along) {
		return nil
	}
	bounds := []pathBound{g.bound(bottomEdge, topEdge, g.isEnd, across)}
	if g.s.Design.Band.Open() {
		return append(bounds, g.bound(leftEnd, rightEnd, g.isSide, along))
	}
	whole := make([]float64, g.n+edgeNodes) // round the band any opening may be the first
	whole[g.n+bottomEdge], whole[g.n+topEdge] = math.Inf(1), math.Inf(1)
	return append(bounds, pathBound{whole, whole, along + tie})
}

func (g *pathGraph) bound(from, to int, shut func(int) bool, most float64) pathBound {
	least := func(from int) []float64 {
		g.shortest(g.n+from, nowhere, 0, most, shut)
		w, ds := &g.search, make([]float64, g.n+edgeNodes)
		for i := range ds {
			ds[i] = g.within
			if at := searchNode(i, 0); w.seen[at] == w.run {
				ds[i] = math.Min(ds[i], w.dist[at])
			}
			if shut(i) {
				ds[i] = math.Inf(1)
			}
		}
		return ds
	}
	return pathBound{least(from), least(to), most + tie}
}

// isEnd and isSide report whether a node is one of the ends of the band, or of its long
// edges.
func (g *pathGraph) isEnd(node int) bool  { return node == g.n+leftEnd || node == g.n+rightEnd }
func (g *pathGraph) isSide(node int) bool { return node == g.n+bottomEdge || node == g.n+topEdge }

// nearest returns the least distance under d from edges, with the box round them, to the
// outline's edges of one kind, over the seam too.
func (g *pathGraph) nearest(es []plane.Edge, box plane.Box, kind int, d float64) (plane.Gap, bool) {
	best, found := plane.Gap{D: d}, false
	for c := range g.near[kind].To(box, d) {
		if !box.Nearer(c.Box, best.D) {
			continue
		}
		to := c.Edge(g.edges[kind][c.Of])
		for _, e := range es {
			if gap := plane.NearestEdges(e, to); gap.D < best.D {
				best, found = plane.Gap{D: gap.D, A: gap.A, B: c.Home(gap.B)}, true
			}
		}
	}
	return best, found
}

func (g *pathGraph) across() WeakestPath {
	path, d := g.shortest(g.n+bottomEdge, g.n+topEdge, 0, math.Inf(1), g.isEnd)
	c := g.weakest(path, d)
	if len(path) > 0 {
		mid := path[0].gap.A.Mid(path[len(path)-1].gap.B)
		u, _ := g.s.Flat.Where(mid)
		bottom, top := g.s.Flat.EdgesAt(u)
		c.Full = top - bottom
	}
	return c
}

func (g *pathGraph) along() WeakestPath {
	if g.s.Design.Band.Open() {
		path, d := g.shortest(g.n+leftEnd, g.n+rightEnd, 0, math.Inf(1), g.isSide)
		c := g.weakest(path, d)
		c.Full = g.s.Flat.Length
		return c
	}
	// Round the band once. Every way round crosses the seam from some opening, or
	// meets no opening at all.
	best, most := []arc(nil), g.s.Flat.Length
	for i := range g.n {
		crosses := false
		for _, a := range g.arcs[i] {
			crosses = crosses || a.rounds > 0
		}
		if !crosses {
			continue
		}
		if path, d := g.shortest(i, i, 1, most, g.isSide); path != nil && d < most {
			best, most = path, d
		}
	}
	c := g.weakest(best, most)
	c.Full = g.s.Flat.Length
	return c
}

// weakest makes a weakest path of a path of length d.
func (g *pathGraph) weakest(path []arc, d float64) WeakestPath {
	c := WeakestPath{Metal: d}
	number := func(node int) int {
		if node >= g.n {
			return 0
		}
		return g.s.Openings[node].Number
	}
	from := g.n
	if len(path) > 0 {
		from = path[len(path)-1].to // round the band a way begins where it ends
	}
	for _, a := range path {
		b := Bridge{Width: a.gap.D, A: a.gap.A, B: a.gap.B, Rule: g.s.Rule, From: number(from), To: number(a.to)}
		switch { // back to where it lies on the blank
		case a.rounds > 0:
			b.B = g.s.Round(a.rounds).Home(b.B)
		case a.rounds < 0:
			b.A = g.s.Round(-a.rounds).Home(b.A)
		}
		from = a.to
		c.Bridges = append(c.Bridges, b)
	}
	return c
}

// pathSearch is the memory of one search after the other.
type pathSearch struct {
	run  int32
	seen []int32 // the search in which a position was last reached
	dist []float64
	prev []int32 // place before, -1 at the start
	by   []int32 // which of its arcs led on
	open queue
}

// nowhere is a node that no path leads to: a search for it reaches all.
const nowhere = -1

// sheets is how many search nodes each node is: after -1, 0 or 1 times round.
const sheets = 3

func searchNode(node, rounds int) int32 { return int32(node*sheets + rounds + 1) }

// shortest returns the shortest path from a node to another that goes round the band so many times,
// not longer than most, that does not pass through nodes that are shut, and its
// length; nil and +Inf if there is none.
func (g *pathGraph) shortest(from, to, rounds int, most float64, shut func(int) bool) ([]arc, float64) {
	w := &g.search
	if w.seen == nil {
		size := (g.n + edgeNodes) * sheets
		w.seen, w.dist, w.prev, w.by = make([]int32, size), make([]float64, size), make([]int32, size), make([]int32, size)
	}
	w.run++
	start, end := searchNode(from, 0), searchNode(to, rounds)
	w.seen[start], w.dist[start], w.prev[start] = w.run, 0, -1
	w.open = append(w.open[:0], queued{0, start})
	for len(w.open) > 0 {
		next := w.open.pop()
		k := next.at
		if next.d > w.dist[k] {
			continue
		}
		if k == end {
			var path []arc
			for ; w.prev[k] >= 0; k = w.prev[k] {
				path = append(path, g.arcs[w.prev[k]/sheets][w.by[k]])
			}
			slices.Reverse(path)
			return path, next.d
		}
		node, before := int(k)/sheets, int(k)%sheets-1
		for i := range g.arcs[node] {
			a := &g.arcs[node][i]
			n := before
			if rounds != 0 { // which time round it is matters only for a path round the band
				n += a.rounds
			}
			d := next.d + a.gap.D
			if n < -1 || n > 1 || d > most || shut(a.to) {
				continue
			}
			if j := searchNode(a.to, n); w.seen[j] != w.run || d < w.dist[j] {
				w.seen[j], w.dist[j], w.prev[j], w.by[j] = w.run, d, k, int32(i)
				w.open.push(queued{d, j})
			}
		}
	}
	return nil, math.Inf(1)
}
