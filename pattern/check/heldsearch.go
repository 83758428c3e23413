package check

import (
	"cmp"
	"container/heap"
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

// index numbers the places.
func (p place) index() int { return (p.node*3+p.turn+1)*3 + p.round + 1 }

// reached is how a place was reached.
type reached struct {
	place
	cost  float64
	metal float64 // under the way
	by    int     // arc; -1 at the start
	prev  int     // index of the place before
	done  bool
	run   int // of the search in which it was
}

// ways are the shortest ways found by one search after the other.
type ways struct {
	to    []reached
	order []int // places in the order of their distance
	run   int
	open  heldQueue
}

// found returns how a place was reached in this search, nil if it was not.
func (w *ways) found(p place) *reached {
	if p.turn < -1 || p.turn > 1 || p.round < -1 || p.round > 1 {
		return nil
	}
	if r := &w.to[p.index()]; r.run == w.run {
		return r
	}
	return nil
}

type heldItem struct {
	cost float64
	at   int
}

type heldQueue []heldItem

func (h heldQueue) Len() int { return len(h) }

func (h heldQueue) Less(i, j int) bool {
	if h[i].cost != h[j].cost {
		return h[i].cost < h[j].cost
	}
	return h[i].at < h[j].at
}

func (h heldQueue) Swap(i, j int) { h[i], h[j] = h[j], h[i] }

// Push implements heap.Interface.
func (h *heldQueue) Push(x any) { *h = append(*h, x.(heldItem)) }

// Pop implements heap.Interface.
func (h *heldQueue) Pop() any {
	old := *h
	x := old[len(old)-1]
	*h = old[:len(old)-1]
	return x
}

// spread finds the shortest ways from a node up to a length, over arcs that are
// allowed; step, if not nil, says how often an arc goes round the place sought.
func (g *heldGraph) spread(start place, most float64, allow func(k int) bool, step func(k, turn int) int) *ways {
	if g.ways == nil {
		g.ways = &ways{to: make([]reached, (g.n+1)*9)}
	}
	w := g.ways
	w.run++
	w.order, w.open = w.order[:0], append(w.open[:0], heldItem{0, start.index()})
	w.to[start.index()] = reached{place: start, by: -1, run: w.run}
	for len(w.open) > 0 {
		at := heap.Pop(&w.open).(heldItem).at
		r := &w.to[at]
		if r.done {
			continue
		}
		r.done = true
		w.order = append(w.order, at)
		if r.node == g.n && r.by >= 0 {
			continue // the edge ends a way
		}
		g.work -= len(g.from[r.node])
		for _, k := range g.from[r.node] {
			a := &g.arcs[k]
			d := r.cost + a.width
			if d > most || !allow(k) {
				continue
			}
			first, last := r.turn+a.turn, r.turn+a.turn
			switch { // along the edge all turns meet
			case a.to == g.n:
				first, last = 0, 0
			case a.from == g.n && g.closed:
				first, last = -1, 1
			}
			for turn := first; turn <= last; turn++ {
				to := place{a.to, turn, r.round}
				if step != nil {
					to.round += step(k, r.turn)
				}
				if to.turn < -1 || to.turn > 1 || to.round < -1 || to.round > 1 {
					continue
				}
				if old := w.found(to); old == nil || d < old.cost && !old.done {
					w.to[to.index()] = reached{place: to, cost: d, metal: r.metal + a.metal, by: k, prev: at, run: w.run}
					heap.Push(&w.open, heldItem{d, to.index()})
				}
			}
		}
	}
	return w
}

// back returns the arcs of the way to a place.
func (w *ways) back(r *reached) []int {
	var ks []int
	for ; r.by >= 0; r = &w.to[r.prev] {
		ks = append(ks, r.by)
	}
	slices.Reverse(ks)
	return ks
}

// chainOf makes a chain of arcs.
func (g *heldGraph) chainOf(ks []int, metal float64) chain {
	c := chain{metal: metal}
	for _, k := range ks {
		c.arcs = append(c.arcs, g.arcs[k])
		c.cost += g.arcs[k].width
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
	free := func(k int) bool { return g.arcs[k].from < g.n && g.arcs[k].to < g.n }
	for root := range g.n {
		g.closeUp(root, math.Min(most, best.cost), free, func(metal float64) float64 { return math.Abs(metal) }, &best)
	}
	g.aroundPlaces(math.Min(most, best.cost), free, &best)
	return best
}

// atEdge returns the shortest chain from the bottom and the ends to themselves, or
// from the top and the ends.
func (g *heldGraph) atEdge(most float64) chain {
	best := chain{cost: math.Inf(1)}
	for _, other := range [2]int{topEdge, bottomEdge} {
		free := func(k int) bool {
			a := &g.arcs[k]
			return a.from < g.n && a.to < g.n || a.edge != other
		}
		g.closeUp(g.n, math.Min(most, best.cost), free, g.lesser, &best)
	}
	return best
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
func (g *heldGraph) closeUp(root int, most float64, free func(int) bool, size func(float64) float64, best *chain) {
	g.closings(place{node: root}, 0, most, free, nil, func(metal float64) (float64, bool) {
		metal = size(metal)
		return metal, g.enough(metal)
	}, best)
}

// closings tries the chains from a root that go round the place sought so many times:
// two shortest ways and a bridge between their ends. Half way round a chain no longer
// than most lies a bridge of which both ends are no farther than half of most.
func (g *heldGraph) closings(root place, round int, most float64, free func(int) bool, step func(k, turn int) int, size func(float64) (float64, bool), best *chain) {
	most = math.Min(most, best.cost)
	w := g.spread(root, most/2, free, step)
	for _, at := range w.order {
		r := &w.to[at]
		p := r.place
		if p.node == g.n && r.by >= 0 {
			continue
		}
		for _, k := range g.from[p.node] {
			a := &g.arcs[k]
			if r.cost+a.width > most || k == r.by || k^1 == r.by || !free(k) || a.to == g.n && root.node != g.n {
				continue
			}
			to := place{a.to, p.turn + a.turn, p.round - round}
			if a.to == g.n || p.node == g.n {
				to.turn = 0
			}
			if step != nil {
				to.round += step(k, p.turn)
			}
			q := w.found(to)
			if q == nil || q.by == k || q.by == k^1 {
				continue
			}
			cost := r.cost + a.width + q.cost
			if cost > most || !best.longer(cost) {
				continue
			}
			metal, ok := size(r.metal + a.metal - q.metal)
			if !ok {
				continue
			}
			there, home := w.back(r), w.back(q)
			if root.node == g.n && len(there) > 0 && len(home) > 0 && there[0] == home[0] {
				continue // a chain that does not reach the edge
			}
			for len(there) > 0 && len(home) > 0 && there[0] == home[0] && round == 0 {
				there, home = there[1:], home[1:] // a way that both share parts nothing
			}
			ks := append(slices.Clone(there), k)
			for i := len(home) - 1; i >= 0; i-- {
				ks = append(ks, home[i]^1)
			}
			if c := g.chainOf(ks, metal); best.longer(c.cost) {
				*best = c
			}
		}
	}
}

// placesApart is how far apart places of the metal are about which chains are sought,
// mm: two in each direction within any round piece of a fingernail's size.
const placesApart = 4

// mostGrown bounds how often a chain about a place is widened.
const mostGrown = 24

// aroundPlaces tries the shortest chains round places of the metal, and wider ones
// while they hold too little.
func (g *heldGraph) aroundPlaces(most float64, free func(int) bool, best *chain) {
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
	for _, p := range places {
		if g.work < 0 {
			return
		}
		g.around(p, math.Min(most, best.cost), free, best)
	}
}

// around tries the chains about p.
func (g *heldGraph) around(p plane.Point, most float64, free func(int) bool, best *chain) {
	inOpening := func(i int) bool {
		o := &g.s.Openings[i]
		return o.Box.Holds(p) && o.Loop.Contains(p)
	}
	for i := range g.n {
		if inOpening(i) {
			return // the piece that matters has places of its own
		}
	}
	// Bridges that pass over p, in the turns in which they do.
	type over struct{ k, turn int }
	var cross []over
	crossing := make([]int8, 3*len(g.arcs))
	period := g.s.Flat.Period
	for k := range g.arcs {
		for turn := -1; turn <= 1; turn++ {
			if turn != 0 && period == 0 {
				continue
			}
			if n := g.arcs[k].over(p.Sub(plane.Pt(float64(turn)*period, 0))); n != 0 {
				crossing[3*k+turn+1] = int8(n)
				cross = append(cross, over{k, turn})
			}
		}
	}
	step := func(k, turn int) int { return int(crossing[3*k+turn+1]) }
	shut := make([]bool, g.n)
	open := func(k int) bool { return free(k) && !shut[g.arcs[k].from] && !shut[g.arcs[k].to] }
	any := func(metal float64) (float64, bool) { return math.Abs(metal), true }
	for range mostGrown {
		// The shortest chain that goes round once passes over p somewhere.
		once := chain{cost: math.Inf(1)}
		tried := map[place]bool{}
		for _, o := range cross {
			root := place{g.arcs[o.k].from, o.turn, 0}
			if open(o.k) && !tried[root] {
				tried[root] = true
				g.closings(root, 1, most, open, step, any, &once)
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
				b := g.s.Openings[a.from].Box.Move(plane.Pt(float64(turn)*period, 0))
				if d := b.Centre().Dist(p); d < near-tie {
					near, which = d, a.from
				}
			}
		}
		shut[which] = true
	}
}

// over says how often the bridge's way passes over p to the left, less how often to
// the right.
func (a *heldArc) over(p plane.Point) int {
	if len(a.way) == 0 || a.box.Min.X > p.X || a.box.Max.X < p.X || a.box.Max.Y < p.Y {
		return 0
	}
	n := 0
	for i := 1; i < len(a.way); i++ {
		n += above(p, a.way[i-1], a.way[i])
	}
	return n
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
