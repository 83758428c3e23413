package check

import (
	"cmp"
	"math"
	"slices"

	"fretband/pattern"
	"fretband/unroll/plane"
)

// attachedArc is a bridge from one node to another: openings, or the blank's edge.
type attachedArc struct {
	from, to int
	rounds   int // of a closed band: +1 if it goes over the seam to the right
	width    float64
	a, b     plane.Point // its ends, where they lie on the blank
	edge     int         // which edge, if one of the nodes is the edge; else noEdge
	// metal is what lies under the way from a fixed position of the one node, along its
	// edge, over the bridge and along the other's edge to its fixed position, mm^2.
	metal float64
}

const noEdge = -1

// nodes are the two nodes of a bridge.
type nodes struct{ from, to, rounds, edge int32 }

func (a *attachedArc) nodes() nodes {
	return nodes{int32(a.from), int32(a.to), int32(a.rounds), int32(a.edge)}
}

// step is a bridge as searches see it.
type step struct {
	width, metal float64
	to, arc      int32
	rounds, edge int8
}

// attachedGraph joins the openings by the bridges between them. Node n is the blank's
// edge. The necks of the metal are bridges from the beginning; the least distances of
// openings are measured when a search first comes to one of the two, and each once.
type attachedGraph struct {
	s      *pattern.Sheet
	n      int
	edges  [edgeNodes][]plane.Edge
	within float64       // pairs of openings that are farther apart are not measured
	arcs   []attachedArc // each once; arc 2k is arcs[k], and 2k+1 the same the other way
	from   [][]step      // by their first node, narrowest first: see steps
	ready  []float64     // by node: its pairs up to this reach are among its steps

	metal *metalUnder
	walks []*walk // along each opening, made when first asked for
	near  *nearby
	m     *measure
	necks map[nodes]float64 // the least neck between two nodes
	pairs [][]measuredPair  // by the earlier opening

	wanted []wanted   // by the ring that is measured
	way    []shortWay // by position, to the opening about which it lies
	run    int32
	open   queue

	rays *rays // for searches, one at a time
	fans [2]fan
	work int // steps that searches may still take
}

// newAttachedGraph makes the graph of a sheet; no bridge is longer than most.
func newAttachedGraph(s *pattern.Sheet, most float64) *attachedGraph {
	n := len(s.Openings)
	g := &attachedGraph{
		s: s, n: n, edges: edgesByKind(s), from: make([][]step, n+1), ready: make([]float64, n+1),
		metal: newMetalUnder(s), walks: make([]*walk, n), near: newNearby(s), m: newMeasure(s),
		necks: map[nodes]float64{}, pairs: make([][]measuredPair, n),
	}
	blank := s.Flat.Outline.CCW()
	if s.Flat.Wraps() {
		blank = g.threeRounds().CCW()
	}
	if !convex(blank) {
		g.near.brink = blank.Edges()
	}
	g.arcs = g.findNecks(most)
	for k := range g.arcs {
		a := &g.arcs[k]
		if w, ok := g.necks[a.nodes()]; !ok || a.width < w {
			g.necks[a.nodes()] = a.width
		}
		g.put(int32(2*k), a.from)
		g.put(int32(2*k+1), a.to)
	}
	g.rays = newRays(g)
	g.way = make([]shortWay, n*g.rays.rounds)
	for i := range g.fans {
		g.fans[i] = fan{g: g, to: make([]label, (n+1)*g.rays.rounds)}
	}
	return g
}

// put adds an arc to the steps of the node that it begins at.
func (g *attachedGraph) put(arc int32, from int) {
	a := &g.arcs[arc/2]
	st := step{a.width, math.NaN(), int32(a.to), arc, int8(a.rounds), int8(a.edge)}
	if arc%2 != 0 {
		st.to, st.rounds = int32(a.from), -st.rounds
	}
	g.from[from] = append(g.from[from], st)
}

// steps returns the bridges from a node, narrowest first: of pairs all that are shorter
// than wanted or the graph's reach, perhaps some that are longer. A search wants no longer
// ones than what is left of its chain allows, so most openings are measured to their
// neighbours only.
func (g *attachedGraph) steps(node int, wanted float64) []step {
	if wanted = math.Min(wanted, g.within); g.ready[node] >= wanted {
		return g.from[node]
	}
	if node < g.n {
		g.measurePairs(node, wanted)
	} else {
		g.ready[node] = math.Inf(1)
	}
	steps := g.from[node]
	slices.SortStableFunc(steps, func(a, b step) int { return cmp.Compare(a.width, b.width) })
	for i := range steps {
		st := &steps[i]
		if math.IsNaN(st.metal) {
			if a := &g.arcs[st.arc/2]; math.IsNaN(a.metal) {
				g.weigh(a)
			}
			st.metal = g.arcs[st.arc/2].metal
			if st.arc%2 != 0 {
				st.metal = -st.metal
			}
		}
	}
	return steps
}

// measurePairs adds the least distances of an opening from those whose boxes are nearer
// than wanted, ring by ring. A ring of which no opening adds a bridge, since each is as
// near by a way over others or hidden behind one, is the last: what lies behind it is too,
// but perhaps over a large stretch of metal, and there the necks lead across.
func (g *attachedGraph) measurePairs(i int, wanted float64) {
	for g.ready[i] < wanted {
		least := g.ready[i]
		most := min(max(2*least, 2*math.Max(g.s.Rule, 0.1)), 1.2*wanted, g.within) // a little more: soon wanted
		if asked, added := g.measureRing(i, least, most); asked && !added && least > 0 {
			most = math.Inf(1)
		}
		g.ready[i] = most
	}
}

// longWay is how many times as long as a way over others a bridge may be (ours). At half
// of it the piece found was held by more in 3 of 536 designs. With none left out it was
// the same in the 3 designs that this was tried on.
const longWay = 8

// crowd is the number of openings in a ring from which on it may be the last.
const crowd = 12

// measureRing adds the least distances of an opening from those whose boxes are from
// least to most off, and reports whether there are many, and any that are bridges.
//
// A bridge that is as long as a way over other openings is on no shortest way. It may
// still close a chain, and so part off what lies between it and those openings too, but
// hardly one that hangs on little if it is many times as long; those are left out.
func (g *attachedGraph) measureRing(i int, least, most float64) (asked, added bool) {
	box := g.s.Openings[i].Box
	g.wanted = g.wanted[:0]
	for c := range g.near.within(box, most) {
		if (i != c.Of || c.N != 0) && !box.Nearer(c.Box, least) {
			g.wanted = append(g.wanted, wanted{g.rays.place(c.Of, c.N), c.Of, c.N, box.Dist(c.Box)})
		}
	}
	g.detour(i)
	for _, c := range g.wanted {
		j, rounds := c.of, c.rounds
		if g.way[c.place].length(g.run)*longWay <= c.apart {
			continue
		}
		first, second, way := i, j, int32(0) // always measured from the earlier opening
		if j < i || j == i && rounds < 0 {
			first, second, rounds, way = j, i, -rounds, 1
		}
		key := nodes{int32(first), int32(second), int32(rounds), noEdge}
		k, known := g.measured(key)
		if !known {
			k = g.pair(key, int32(c.place), int(way)*rounds)
			g.pairs[first] = append(g.pairs[first], measuredPair{key.to, key.rounds, k})
		}
		if k >= 0 {
			added = true
			g.put(k+way, i)
		}
	}
	return len(g.wanted) >= crowd, added
}

// measuredPair is an opening, so many times round, of which the distance from another is known.
type measuredPair struct {
	to, rounds int32
	arc        int32 // of the least distance; -1 if it is no bridge
}

// measured returns the arc of a pair of openings if it has been measured. Each has been
// with some tens of others, which are sooner gone through than sought in a map.
func (g *attachedGraph) measured(of nodes) (arc int32, known bool) {
	for _, p := range g.pairs[of.from] {
		if p.to == of.to && p.rounds == of.rounds {
			return p.arc, true
		}
	}
	return -1, false
}

// wanted is an opening that may be near another.
type wanted struct {
	place, of, rounds int
	apart             float64 // their boxes
}

// shortWay is the length of a way from one opening to another, and the position before.
type shortWay struct {
	mm        float64
	run, prev int32
}

func (w *shortWay) length(run int32) float64 {
	if w.run == run {
		return w.mm
	}
	return math.Inf(1)
}

// detour finds the shortest ways from an opening over the bridges known so far, until
// no wanted opening is left that may be nearer over others than straight.
func (g *attachedGraph) detour(i int) {
	slices.SortFunc(g.wanted, func(a, b wanted) int {
		if a.apart != b.apart {
			return cmp.Compare(b.apart, a.apart)
		}
		return cmp.Compare(a.place, b.place)
	})
	g.run++
	start := int32(g.rays.place(i, 0))
	g.way[start] = shortWay{run: g.run, prev: -1}
	g.open = append(g.open[:0], queued{0, start})
	for left := g.wanted; len(g.open) > 0; {
		for len(left) > 0 && g.way[left[0].place].length(g.run)*longWay <= left[0].apart {
			left = left[1:]
		}
		next := g.open.pop()
		if len(left) == 0 || next.d*longWay > left[0].apart {
			return
		}
		if next.d > g.way[next.at].mm {
			continue
		}
		node, rounds := int(next.at)/g.rays.rounds, int(next.at)%g.rays.rounds-g.rays.rounds/2
		for k := range g.from[node] {
			st := &g.from[node][k]
			d := next.d + st.width
			if d*longWay > left[0].apart {
				break
			}
			g.work--
			if int(st.to) == g.n {
				continue
			}
			if at := g.rays.place(int(st.to), rounds+int(st.rounds)); at >= 0 && d < g.way[at].length(g.run) {
				g.way[at] = shortWay{d, g.run, next.at}
				g.open.push(queued{d, int32(at)})
			}
		}
	}
}

// workAPair is how many steps it takes as long to measure a pair.
const workAPair = 10

// pair measures the least distance of two openings and returns its arc, or -1 if it is
// no bridge or no shorter than the way over others to a position, which starts so many times
// round as seen from the first of the two.
func (g *attachedGraph) pair(of nodes, over int32, start int) int32 {
	g.work -= workAPair
	from, to, rounds := int(of.from), int(of.to), int(of.rounds)
	gap := g.m.gap(from, pattern.Copy{Of: to, Round: g.near.round(rounds)})
	if gap.D >= g.way[over].length(g.run)*longWay-tie {
		return -1
	}
	// The neck between the two is the same bridge.
	if w, ok := g.necks[of]; ok && gap.D >= w-same {
		return -1
	}
	a := attachedArc{from: from, to: to, rounds: rounds, width: gap.D, a: gap.A, b: gap.B, edge: noEdge, metal: math.NaN()}
	// Between two openings that face each other across a third the metal is not this;
	// the two bridges to that one are.
	if a.width > 2*g.s.Rule && (g.overWay(a, over, start) || g.near.crosses(a)) {
		return -1
	}
	g.arcs = append(g.arcs, a)
	return int32(2 * (len(g.arcs) - 1))
}

// overWay reports whether a bridge runs through an opening on the shortest way to a position,
// as most do that run through any. That way starts so many times round as seen from where the
// bridge does.
func (g *attachedGraph) overWay(a attachedArc, to int32, start int) bool {
	if g.way[to].run != g.run {
		return false
	}
	for at := g.way[to].prev; at >= 0; at = g.way[at].prev {
		rounds := start + int(at)%g.rays.rounds - g.rays.rounds/2
		if rounds >= -1 && rounds <= 1 && g.near.between(a, pattern.Copy{Of: int(at) / g.rays.rounds, Round: g.near.round(rounds)}) {
			return true
		}
	}
	return false
}

// findNecks returns the narrow positions of the metal that lie between two openings, or
// between an opening and the edge, narrowest first.
func (g *attachedGraph) findNecks(most float64) []attachedArc {
	metal, is := plane.Region{g.s.Flat.Outline}, []pattern.Copy{{Of: g.n}} // what each loop is
	if g.s.Flat.Wraps() {
		metal[0] = g.threeRounds()
	}
	for i := range g.s.Openings {
		metal, is = append(metal, g.s.Openings[i].Loop.Reverse()), append(is, pattern.Copy{Of: i})
	}
	box := g.s.Flat.Outline.Bounds()
	for c := range g.near.within(box, most/2) { // of the next periods as much as bridges reach
		if c.N != 0 {
			metal, is = append(metal, c.Loop(g.s.Openings[c.Of].Loop).Reverse()), append(is, c)
		}
	}
	var arcs []attachedArc
	for _, n := range metal.NecksBetween(most) {
		if x := n.Mid().X; g.s.Flat.Wraps() && (x < box.Min.X || x >= box.Max.X) {
			continue // of the copies that lie a period apart take the one whose middle is in this
		}
		i, j, gap := is[n.I], is[n.J], n.Gap
		if i.Of == g.n && j.Of == g.n {
			continue // the blank's own narrow positions cut nothing off but with openings
		}
		if i.Of == g.n { // from the opening to the edge
			i, j, gap = j, i, gap.Swap()
		}
		a := attachedArc{from: i.Of, to: j.Of, width: gap.D, a: i.Home(gap.A), b: i.Home(gap.B), edge: noEdge, metal: math.NaN()}
		if j.Of < g.n {
			a.rounds = j.N - i.N
		} else if a.edge = nearestKind(g.edges, g.s.Home(a.b)); a.edge == noEdge {
			continue
		}
		arcs = append(arcs, g.forward(a))
	}
	arcs = g.once(arcs)
	slices.SortStableFunc(arcs, func(a, b attachedArc) int { return cmp.Compare(a.width, b.width) })
	return arcs
}

// forward returns the bridge from the earlier opening or position to the later.
func (g *attachedGraph) forward(a attachedArc) attachedArc {
	turned := a.to < a.from || a.to == a.from && a.rounds < 0
	if a.to == a.from && a.rounds == 0 {
		w := g.walk(a.from)
		turned = w.along(a.b) < w.along(a.a)
	}
	if turned {
		return g.back(a)
	}
	return a
}

// back returns the bridge the other way, as it lies seen from the other opening.
func (g *attachedGraph) back(a attachedArc) attachedArc {
	var r pattern.Round
	if a.to < g.n {
		r = g.near.round(a.rounds)
	}
	a.from, a.to, a.rounds, a.metal = a.to, a.from, -a.rounds, -a.metal
	a.a, a.b = r.Home(a.b), r.Home(a.a)
	return a
}

// arc returns arc k.
func (g *attachedGraph) arc(k int32) attachedArc {
	if a := g.arcs[k/2]; k%2 == 0 {
		return a
	}
	return g.back(g.arcs[k/2])
}

// once keeps one of necks that are found several times: a stretch of one width is
// found at its middle, and where other edges follow smoothly at its ends too. A piece
// between two ends of one stretch is none. The middlemost is kept.
func (g *attachedGraph) once(arcs []attachedArc) []attachedArc {
	of := map[nodes][][]int{} // stretches: those found for each
	var order []nodes
	for k := range arcs {
		a := &arcs[k]
		key := a.nodes()
		if of[key] == nil {
			order = append(order, key)
		}
		known := false
		for i, told := range of[key] {
			if b := &arcs[told[0]]; !known && math.Abs(a.width-b.width) <= same && g.oneStretch(a, b) {
				of[key][i], known = append(told, k), true
			}
		}
		if !known {
			of[key] = append(of[key], []int{k})
		}
	}
	var kept []attachedArc
	for _, key := range order {
		for _, told := range of[key] {
			best, least := told[0], math.Inf(1)
			for _, k := range told {
				far := 0.0
				for _, j := range told {
					far = math.Max(far, arcs[k].a.Dist(arcs[j].a))
				}
				if far < least-tie {
					best, least = k, far
				}
			}
			kept = append(kept, arcs[best])
		}
	}
	return kept
}

// oneStretch reports whether two bridges of one width between the same edges are two
// positions of one stretch: so wide is the metal half way between them too.
func (g *attachedGraph) oneStretch(a, b *attachedArc) bool {
	from := g.walk(a.from).halfWay(a.a, b.a)
	far := 0.0
	if a.to == g.n {
		from, far = g.s.Home(from), math.Inf(1)
		for _, e := range g.edges[a.edge] { // the ends of a closed band are no edges
			far = math.Min(far, e.Dist(from))
		}
	} else {
		r := g.near.round(a.rounds)
		far = from.Dist(r.Point(g.walk(a.to).halfWay(r.Home(a.b), r.Home(b.b))))
	}
	return far <= a.width+plane.FitTolerance/10
}

// weigh finds the metal under the way of a bridge that begins at an opening.
func (g *attachedGraph) weigh(a *attachedArc) {
	a.metal = g.walk(a.from).under(g.metal, a.a) + g.metal.beneath([]plane.Point{a.a, a.b})
	if a.to == g.n {
		a.metal -= g.metal.toEdge(g.s.Home(a.b))
		return
	}
	a.metal -= g.walk(a.to).under(g.metal, g.near.round(a.rounds).Home(a.b))
}

// walk returns the way along an opening.
func (g *attachedGraph) walk(i int) *walk {
	if g.walks[i] == nil {
		g.walks[i] = newWalk(g.s.Openings[i].Loop, g.m.readied(i))
	}
	return g.walks[i]
}

// threeRounds returns the outline of a band that wraps with a period more on either side.
func (g *attachedGraph) threeRounds() plane.Loop {
	bottom, top := slices.Clone(g.edges[bottomEdge]), slices.Clone(g.edges[topEdge])
	slices.SortStableFunc(bottom, func(a, b plane.Edge) int { return cmp.Compare(a.A.X, b.A.X) })
	slices.SortStableFunc(top, func(a, b plane.Edge) int { return cmp.Compare(b.A.X, a.A.X) })
	var l plane.Loop
	put := func(es []plane.Edge, way int) {
		var last plane.Point
		for rounds := -way; rounds*way <= 1; rounds += way {
			r := g.near.round(rounds)
			for _, e := range es {
				l = append(l, plane.Vertex{Point: r.Point(e.A), Bulge: e.Bulge})
				last = r.Point(e.B)
			}
		}
		l = append(l, plane.Vertex{Point: last})
	}
	put(bottom, 1)
	put(top, -1)
	return l.Tidy()
}

// nearestKind says on which of the edges p lies, noEdge if on none: at a joint.
func nearestKind(edges [edgeNodes][]plane.Edge, p plane.Point) int {
	best, kind := 1e-5, noEdge // far over rounding
	for k := range edges {
		for _, e := range edges[k] {
			if d := e.Dist(p); d < best {
				best, kind = d, k
			}
		}
	}
	return kind
}
