package check

import (
	"cmp"
	"math"
	"slices"

	"fretband/unroll/plane"
)

// chain is a closed way of bridges.
type chain struct {
	cost  float64 // mm of metal passed
	metal float64 // mm^2 parted off
	arcs  []heldArc
}

// longer reports whether the chain is longer than d, by more than rounding.
func (c chain) longer(d float64) bool { return d < c.cost-tie }

// place is a node reached: an opening, in some turn of a closed band seen from where
// the search began, and how often the way went round the place sought; turn and round
// are -1, 0 or 1.
type place struct{ node, turn, round int }

// reached is how a place was reached.
type reached struct {
	cost  float64
	metal float64 // under the way
	by    int32   // arc; -1 at the start
	prev  int32   // index of the place before
	run   int32   // of the search in which it was
	node  int32
	turn  int8
	round int8
	done  bool
}

func (r *reached) place() place { return place{int(r.node), int(r.turn), int(r.round)} }

// ways are the shortest ways found by one search after the other.
type ways struct {
	to     []reached
	turns  int     // places are told apart by their turn: 1 or, on a closed band, 3
	rounds int     // and by how often they went round: 1 or 3
	order  []int32 // places in the order of their distance
	run    int32
	open   queue
}

// index numbers the places; -1 for those not looked at.
func (w *ways) index(p place) int {
	turn, round := p.turn+w.turns/2, p.round+w.rounds/2
	if turn < 0 || turn >= w.turns || round < 0 || round >= w.rounds {
		return -1
	}
	return (p.node*w.turns+turn)*w.rounds + round
}

// search says over which bridges ways may go.
type search struct {
	shut []bool // nodes that are not passed
	edge int8   // bridges to this edge are not taken
	over []int8 // if not nil, how often each arc goes round the place sought, by [overIndex]
	// home, if not nil, is how far each node is from the edge, at least: ways are
	// followed as long as they and the way home are no longer than most.
	home []float64
}

// passes reports whether a way may take a step.
func (s *search) passes(st *step) bool {
	return !s.shut[st.to] && (st.edge != s.edge || st.edge == noEdge)
}

// overIndex is where the times that an arc goes round are kept, seen from a node in
// some turn.
func overIndex(arc int32, turn int) int { return 3*int(arc) + turn + 1 }

// after returns the place to which a step leads.
func (g *heldGraph) after(p place, st *step, s *search) place {
	to := place{int(st.to), p.turn + int(st.turn), p.round}
	if to.node == g.n || p.node == g.n {
		to.turn = 0 // along the edge all turns meet
	}
	if s.over != nil {
		to.round += int(s.over[overIndex(st.arc, p.turn)])
	}
	return to
}

// spread finds the shortest ways from a node up to half of most. Where it looks for
// chains that go round the place sought, most shrinks to the length of each that closes
// on the way, so that no way longer than half of the shortest is followed. It returns the
// length to which most has shrunk.
func (g *heldGraph) spread(start place, most float64, s *search) (*ways, float64) {
	if g.ways == nil {
		g.ways = &ways{to: make([]reached, (g.n+1)*9)}
	}
	w := g.ways
	w.turns, w.rounds = 1, 1
	if g.s.Flat.Period > 0 {
		w.turns = 3
	}
	if s.over != nil {
		w.rounds = 3
	}
	w.run++
	at := w.index(start)
	w.order, w.open = w.order[:0], append(w.open[:0], queued{0, int32(at)})
	w.to[at] = reached{by: -1, run: w.run, node: int32(start.node), turn: int8(start.turn), round: int8(start.round)}
	for len(w.open) > 0 {
		at := w.open.pop().at
		r := &w.to[at]
		if r.done {
			continue
		}
		if r.cost > most/2 && s.home == nil {
			break // since most has shrunk
		}
		r.done = true
		w.order = append(w.order, at)
		if int(r.node) == g.n && r.by >= 0 {
			continue // the edge ends a way
		}
		p := r.place()
		steps := g.steps(p.node)
		for i := range steps {
			st := &steps[i]
			d := r.cost + st.width
			if d > most || s.home == nil && d > most/2 {
				break // those that follow are longer
			}
			g.work--
			if s.home != nil && d+s.home[st.to] > most {
				continue
			}
			if st.again && s.over == nil || !s.passes(st) {
				continue
			}
			to := g.after(p, st, s)
			first, last := to.turn, to.turn
			if p.node == g.n { // along the edge all turns meet
				first, last = -w.turns/2, w.turns/2
			}
			for to.turn = first; to.turn <= last; to.turn++ {
				if k := w.index(to); k >= 0 {
					if old := &w.to[k]; old.run != w.run || d < old.cost && !old.done {
						*old = reached{d, r.metal + st.metal, st.arc, at, w.run, st.to, int8(to.turn), int8(to.round), false}
						w.open.push(queued{d, int32(k)})
						if s.over != nil {
							most = math.Min(most, w.roundAgain(k, to.round, d, st.arc)+tie)
						}
					}
				}
			}
		}
	}
	return w, most
}

// roundAgain returns the length of the shortest chain that a way so long over an arc to
// place k closes with a way that goes round once more or less.
func (w *ways) roundAgain(k, round int, d float64, arc int32) float64 {
	least := math.Inf(1)
	for _, times := range [2]int{-1, 1} {
		if other := round + times; other >= -1 && other <= 1 {
			if q := &w.to[k+times]; q.run == w.run && q.by != arc && q.by != arc^1 {
				least = math.Min(least, d+q.cost)
			}
		}
	}
	return least
}

// back returns the arcs of the way to a place.
func (w *ways) back(r *reached) []int32 {
	var ks []int32
	for ; r.by >= 0; r = &w.to[r.prev] {
		ks = append(ks, r.by)
	}
	slices.Reverse(ks)
	return ks
}

// chainOf makes a chain of arcs.
func (g *heldGraph) chainOf(ks []int32, metal float64) chain {
	c := chain{metal: metal}
	for _, k := range ks {
		a := g.arc(k)
		c.arcs = append(c.arcs, a)
		c.cost += a.width
	}
	return c
}

// enough reports whether a piece of that metal, and the rest, are worth telling.
func (g *heldGraph) enough(metal float64) bool {
	return metal >= Fingernail && metal <= g.cols.metal()-Fingernail
}

// inside returns the shortest chain of openings up to a length that is found.
func (g *heldGraph) inside(most float64) chain {
	best := chain{cost: math.Inf(1)}
	s := search{shut: make([]bool, g.n+1), edge: noEdge}
	s.shut[g.n] = true
	for root := 0; root < g.n && g.work > 0; root++ {
		g.closeUp(root, math.Min(most, best.cost), &s, func(metal float64) float64 { return math.Abs(metal) }, &best)
	}
	g.aroundPlaces(math.Min(most, best.cost), &best)
	return best
}

// atEdge returns the shortest chain from the bottom and the ends to themselves, or
// from the top and the ends.
func (g *heldGraph) atEdge(most float64) chain {
	best := chain{cost: math.Inf(1)}
	for _, other := range [2]int8{topEdge, bottomEdge} {
		s := search{shut: make([]bool, g.n+1), edge: other}
		g.closeUp(g.n, math.Min(most, best.cost), &s, g.lesser, &best)
		g.betweenEdges(math.Min(most, best.cost), &s, &best)
	}
	return best
}

// betweenEdges tries the shortest way between each two bridges to the edge, which the
// shortest ways from the edge itself miss where they stay beside it. The search from the
// edge has just been made: what it did not come to lies on no chain short enough, and of
// the rest it says how far home is.
func (g *heldGraph) betweenEdges(most float64, s *search, best *chain) {
	w := g.ways
	t := search{shut: make([]bool, g.n+1), edge: s.edge, home: make([]float64, g.n+1)}
	for node := range t.home {
		t.home[node] = math.Inf(1)
		for k := node * w.turns; k < (node+1)*w.turns; k++ {
			if r := &w.to[k]; r.run == w.run && r.done {
				t.home[node] = math.Min(t.home[node], r.cost)
			}
		}
	}
	t.shut[g.n] = true
	ends := make([][]*step, g.n) // the bridges between each opening and the edge, narrowest first
	steps := g.steps(g.n)
	for i := range steps {
		if st := &steps[i]; s.passes(st) {
			ends[st.to] = append(ends[st.to], st)
		}
	}
	for i := range steps {
		first := &steps[i]
		limit := math.Min(most, best.cost)
		if 2*first.width > limit {
			return // no narrower bridge is left for the other end
		}
		if g.work < 0 {
			return
		}
		if !s.passes(first) {
			continue
		}
		w, _ := g.spread(place{node: int(first.to)}, limit-first.width, &t)
		for _, at := range w.order {
			r := &w.to[at]
			for _, last := range ends[r.node] {
				cost := first.width + r.cost + last.width
				if cost > limit {
					break
				}
				if last.width < first.width || last.arc == first.arc || !best.longer(cost) {
					continue
				}
				metal := g.lesser(first.metal + r.metal - last.metal)
				if !g.enough(metal) {
					continue
				}
				ks := append(append([]int32{first.arc}, w.back(r)...), last.arc^1)
				if c := g.chainOf(ks, metal); best.longer(c.cost) && c.simple() {
					*best = c
				}
			}
		}
	}
}

// simple reports whether the chain passes no opening twice, as one could that goes all
// round a closed band and on.
func (c chain) simple() bool {
	seen := map[int]bool{}
	for _, a := range c.arcs {
		if seen[a.to] {
			return false
		}
		seen[a.to] = true
	}
	return true
}

// lesser returns what a chain from edge to edge parts off: the lesser of the two sides
// of a way with so much metal under it, which is known up to all the metal there is.
func (g *heldGraph) lesser(metal float64) float64 {
	all := g.cols.metal()
	m := math.Mod(math.Mod(metal, all)+all, all)
	return math.Min(m, all-m)
}

// closeUp tries the chains of Horton's set at a root: two shortest ways from it and a
// bridge between their ends. size says what a chain with so much metal under it parts
// off.
func (g *heldGraph) closeUp(root int, most float64, s *search, size func(float64) float64, best *chain) {
	g.closings(place{node: root}, 0, most, s, func(metal float64) (float64, bool) {
		metal = size(metal)
		return metal, g.enough(metal)
	}, best)
}

// closings tries the chains from a root that go round the place sought so many times,
// either way: two shortest ways and a bridge between their ends. Half way round a chain
// no longer than most lies a bridge of which both ends are no farther than half of most.
// Each is tried from the end that is nearer to the root, so that most bridges are seen
// to be too long before the other end is looked at.
func (g *heldGraph) closings(root place, round int, most float64, s *search, size func(float64) (float64, bool), best *chain) {
	w, most := g.spread(root, math.Min(most, best.cost), s)
	for _, at := range w.order {
		r := &w.to[at]
		p := r.place()
		if p.node == g.n && r.by >= 0 {
			continue
		}
		steps := g.steps(p.node)
		for i := range steps {
			st := &steps[i]
			if least := 2*r.cost + st.width; least > most && root.node != g.n || r.cost+st.width > most {
				break // those that follow are longer
			}
			g.work--
			if st.arc == r.by || st.arc^1 == r.by || !s.passes(st) || int(st.to) == g.n && root.node != g.n {
				continue
			}
			to := g.after(p, st, s)
			for _, times := range [2]int{-round, round} {
				at := to
				at.round += times
				if k := w.index(at); k >= 0 && w.to[k].run == w.run {
					g.close(w, r, st, &w.to[k], most, round != 0, size, best)
				}
				if round == 0 {
					break
				}
			}
		}
	}
}

// close tries the chain from the root to r, over a step to q and back to the root; goes
// says that it goes round a place.
func (g *heldGraph) close(w *ways, r *reached, st *step, q *reached, most float64, goes bool, size func(float64) (float64, bool), best *chain) {
	cost := r.cost + st.width + q.cost
	if cost > most || !best.longer(cost) || q.by == st.arc || q.by == st.arc^1 {
		return
	}
	metal, ok := size(r.metal + st.metal - q.metal)
	if !ok {
		return
	}
	there, home := w.back(r), w.back(q)
	shared := func() bool { return len(there) > 0 && len(home) > 0 && there[0] == home[0] }
	if shared() && g.arc(there[0]).from == g.n {
		return // a chain that does not reach the edge
	}
	for shared() && !goes {
		there, home = there[1:], home[1:] // a way that both share parts nothing
	}
	ks := append(slices.Clone(there), st.arc)
	for i := len(home) - 1; i >= 0; i-- {
		ks = append(ks, home[i]^1)
	}
	if c := g.chainOf(ks, metal); best.longer(c.cost) {
		*best = c
	}
}

// placesApart is how far apart places of the metal are about which chains are sought,
// mm: two in each direction within any round piece of a fingernail's size.
const placesApart = 4

// mostGrown bounds how often a chain about a place is widened.
const mostGrown = 24

// aroundPlaces tries the shortest chains round places of the metal, and wider ones
// while they hold too little.
func (g *heldGraph) aroundPlaces(most float64, best *chain) {
	box := g.s.Flat.Outline.Bounds()
	nx, ny := int(math.Ceil(box.W()/placesApart)), int(math.Ceil(box.H()/placesApart))
	var places []plane.Point
	for i := range nx {
		for j := range ny {
			places = append(places, plane.Pt(box.Min.X+box.W()*(float64(i)+0.5)/float64(nx), box.Min.Y+box.H()*(float64(j)+0.5)/float64(ny)))
		}
	}
	mid := box.Centre()
	slices.SortStableFunc(places, func(p, q plane.Point) int { return cmp.Compare(math.Abs(p.X-mid.X), math.Abs(q.X-mid.X)) })
	for i := range g.n {
		if g.work < 0 {
			return
		}
		g.steps(i)
	}
	g.sortArcs()
	for _, p := range places {
		if g.work < 0 {
			return
		}
		g.around(p, math.Min(most, best.cost), best)
	}
}

// around tries the chains about p.
func (g *heldGraph) around(p plane.Point, most float64, best *chain) {
	s := search{shut: make([]bool, g.n+1), edge: noEdge, over: g.over}
	s.shut[g.n] = true
	for c := range g.near.within(plane.Box{Min: p, Max: p}, tie) {
		if g.s.Openings[c.Of].Loop.Contains(p.Sub(g.near.turned(c.N))) {
			return // the piece that matters has places of its own
		}
	}
	cross := g.passing(p)
	defer func() {
		for _, c := range cross {
			g.over[overIndex(c.arc, c.turn)] = 0
		}
	}()
	// The shortest chain that goes round once passes over p somewhere. The fewer
	// openings are left, the longer is the shortest from each: those that were longer
	// already than one that is found need not be sought again.
	type start struct {
		place
		least float64
	}
	var roots []start
	for _, c := range cross {
		if c.arc%2 != 0 {
			continue // its other end is a root
		}
		root := place{g.arcs[c.arc/2].from, c.turn, 0}
		if !slices.ContainsFunc(roots, func(r start) bool { return r.place == root }) {
			roots = append(roots, start{root, 0})
		}
	}
	any := func(metal float64) (float64, bool) { return math.Abs(metal), true }
	for range mostGrown {
		if g.work < 0 {
			return
		}
		once := chain{cost: math.Inf(1)}
		slices.SortStableFunc(roots, func(a, b start) int { return cmp.Compare(a.least, b.least) })
		for i := range roots {
			r := &roots[i]
			if !once.longer(r.least) {
				break
			}
			if !s.shut[r.node] {
				limit := math.Min(most, once.cost)
				g.closings(r.place, 1, most, &s, any, &once)
				r.least = math.Min(limit, once.cost)
			}
		}
		if math.IsInf(once.cost, 1) {
			return
		}
		if g.enough(once.metal) {
			if best.longer(once.cost) {
				*best = once
			}
			return
		}
		// Too small: go outside of the opening that is nearest.
		near, which := math.Inf(1), -1
		for _, a := range once.arcs {
			for turn := -1; turn <= 1; turn++ {
				b := g.s.Openings[a.from].Box.Move(g.near.turned(turn))
				if d := b.Centre().Dist(p); d < near-tie {
					near, which = d, a.from
				}
			}
		}
		s.shut[which] = true
	}
}

// crossing is an arc, in some turn, whose way passes over a place.
type crossing struct {
	arc  int32
	turn int
}

// binCount is how many upright strips of the blank arcs are sorted into.
const binCount = 256

// bin returns the strip in which x lies.
func (g *heldGraph) bin(x float64) int {
	return min(max(int((x-g.cols.x0)/g.cols.step*binCount/columnCount), 0), binCount-1)
}

// sortArcs sorts the arcs into strips.
func (g *heldGraph) sortArcs() {
	g.bins = make([][]int32, binCount)
	g.over = make([]int8, 6*len(g.arcs))
	for k := range g.arcs {
		if box := g.about(&g.arcs[k]); !box.Empty() {
			for i := g.bin(box.Min.X); i <= g.bin(box.Max.X); i++ {
				g.bins[i] = append(g.bins[i], int32(k))
			}
		}
	}
}

// passing returns the arcs whose ways pass over p, and notes how often they do so to
// the left, less how often to the right.
func (g *heldGraph) passing(p plane.Point) []crossing {
	var cross []crossing
	put := func(arc int32, turn, n int) {
		if turn >= -1 && turn <= 1 {
			g.over[overIndex(arc, turn)] = int8(n)
			cross = append(cross, crossing{arc, turn})
		}
	}
	// A way over the seam seen from its other end begins a turn off.
	most := 0
	if g.s.Flat.Period > 0 {
		most = 2
	}
	for turn := -most; turn <= most; turn++ {
		q := p.Sub(g.near.turned(turn))
		for _, k := range g.bins[g.bin(q.X)] {
			a := &g.arcs[k]
			box := g.about(a)
			if box.Min.X > q.X || box.Max.X < q.X || box.Max.Y < q.Y {
				continue
			}
			n := 0
			for i, way := 1, g.way(a); i < len(way); i++ {
				n += above(q, way[i-1], way[i])
			}
			if n != 0 {
				put(2*k, turn, n)
				put(2*k+1, turn+a.turn, -n)
			}
		}
	}
	slices.SortFunc(cross, func(a, b crossing) int { return cmp.Or(cmp.Compare(a.arc, b.arc), cmp.Compare(a.turn, b.turn)) })
	return cross
}

// about returns a box round the way of a bridge between two openings.
func (g *heldGraph) about(a *heldArc) plane.Box {
	if a.to == g.n {
		return plane.EmptyBox()
	}
	return g.s.Openings[a.from].Box.Union(g.s.Openings[a.to].Box.Move(g.near.turned(a.turn))).Grow(chordError)
}

// above returns 1 if the stretch from a to b passes over p to the left, -1 if it does
// so to the right, else 0.
func above(p, a, b plane.Point) int {
	way := -1
	if a.X > b.X {
		a, b, way = b, a, 1
	}
	if p.X < a.X || p.X >= b.X || a.Y+(b.Y-a.Y)*(p.X-a.X)/(b.X-a.X) <= p.Y {
		return 0
	}
	return way
}
