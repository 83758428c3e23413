package check

import (
	"cmp"
	"math"
	"slices"
)

// chain is a closed way of bridges, or one from the edge to itself.
type chain struct {
	cost  float64 // mm of metal passed
	metal float64 // mm^2 cut off
	arcs  []attachedArc
}

// noChain is longer than any.
func noChain() chain { return chain{cost: math.Inf(1)} }

// found reports whether it is one.
func (c *chain) found() bool { return !math.IsInf(c.cost, 1) }

// longer reports whether the chain is longer than d, by more than rounding.
func (c *chain) longer(d float64) bool { return d < c.cost-tie }

// simple reports whether the chain passes no opening twice.
func (c *chain) simple() bool {
	for i := range c.arcs {
		for j := range c.arcs[:i] {
			if c.arcs[i].to == c.arcs[j].to {
				return false
			}
		}
	}
	return true
}

// take makes a chain of arcs the best if it is one: shorter, and not twice through an
// opening.
func (g *attachedGraph) take(ks []int32, metal float64, best *chain) {
	g.work -= len(ks)
	c := chain{metal: metal}
	for _, k := range ks {
		c.arcs = append(c.arcs, g.arc(k))
		c.cost += c.arcs[len(c.arcs)-1].width
	}
	if best.longer(c.cost) && c.simple() {
		*best = c
	}
}

// enough reports whether a piece of that metal, and the rest, are worth telling.
func (g *attachedGraph) enough(metal float64) bool {
	return metal >= Fingernail && metal <= g.metal.all-Fingernail
}

// slopes are the prices of metal that are tried, as shares of what a round piece would
// ask for: long pieces ask for less, those at which the next opening adds much for more.
var slopes = [...]float64{1, 0.5, 2}

// fewForAttached is the number of openings up to which each is a root at all slopes; of more
// each is one at one of them, since a chain runs through several, and is found from another.
const fewForAttached = 100

// price returns the price of metal, mm for each mm^2, at a share of the slope for chains
// of a length about a fingernail.
func price(share, length float64) float64 { return share * length / (2 * Fingernail) }

// probes is the number of openings at which chains of a length are looked for to see
// whether there are any.
const probes = 16

// inside returns the shortest chain of openings from least to most long that it finds:
// some openings first, which show how long chains are, then all as far as the steps go.
func (g *attachedGraph) inside(least, most float64) chain {
	best := noChain()
	roots := spaced(g.n)
	g.work = attachedWork
	for within := least; !best.found() && g.work > 0; within *= 2 {
		g.within = math.Min(within, most)
		for _, root := range roots[:min(probes, g.n)] {
			g.loops(root, slopes[0], &best)
		}
		if within >= most {
			break
		}
	}
	g.work = attachedWork
	for k, share := range slopes {
		for i, root := range roots {
			if g.work <= 0 {
				return best
			}
			if g.n <= fewForAttached || i%len(slopes) == k {
				g.loops(root, share, &best)
			}
		}
	}
	return best
}

// spaced returns the numbers under n, each once, so that wherever the list is cut off
// those before lie about evenly: the k-th is where k steps of the golden section come
// to round a circle.
func spaced(n int) []int {
	on := func(k int) float64 { return math.Mod(float64(k)*(math.Sqrt(5)-1)/2, 1) }
	round := make([]int, n)
	for k := range round {
		round[k] = k
	}
	slices.SortFunc(round, func(a, b int) int { return cmp.Compare(on(a), on(b)) })
	all := make([]int, n)
	for i, k := range round {
		all[k] = i
	}
	return all
}

// loops tries the chains through a root, no longer than the graph's reach: ways bent to
// the one side and to the other, and a bridge between their ends. Half way round lies a
// bridge of which both ends are no farther than half of the chain. One that is longer than
// half of it is looked for from its own ends only.
func (g *attachedGraph) loops(root int, share float64, best *chain) {
	limit := math.Min(g.within, best.cost)
	p := price(share, limit)
	g.fans[0].spread(root, p, limit/2, nil)
	g.fans[1].spread(root, -p, limit/2, nil)
	for side := range g.fans {
		f, o := &g.fans[side], &g.fans[1-side]
		for _, at := range f.order {
			r := &f.to[at]
			wanted := limit - 2*r.cost
			if int(r.node) != root {
				wanted = math.Min(wanted, limit/2)
			}
			steps := g.steps(int(r.node), wanted)
			for i := range steps {
				st := &steps[i]
				if 2*r.cost+st.width > limit {
					break // tried from the end that is nearer to the root
				}
				g.work--
				if int(st.to) == g.n || st.arc^1 == r.by {
					continue
				}
				q := o.reached(g.rays.place(int(st.to), int(r.rounds)+int(st.rounds)))
				if q == nil || q.by == st.arc {
					continue
				}
				cost := r.cost + st.width + q.cost
				metal := math.Abs(r.metal + st.metal - q.metal)
				if cost > limit || !best.longer(cost) || !g.enough(metal) {
					continue
				}
				there, home := f.back(r), o.back(q)
				for len(there) > 0 && len(home) > 0 && there[0] == home[0] {
					there, home = there[1:], home[1:] // a way that both share parts nothing
				}
				g.take(turnBack(append(there, st.arc), home), metal, best)
			}
		}
	}
}

// atEdge returns the shortest chain from least to most long that it finds from the bottom
// and the ends to themselves, or from the top and the ends.
func (g *attachedGraph) atEdge(least, most float64) chain {
	best := noChain()
	g.work = attachedWork
	for within := least; !best.found() && g.work > 0; within *= 2 {
		g.within = math.Min(within, most)
		for _, other := range [2]int8{topEdge, bottomEdge} {
			g.closeAtEdge(other, &best)
		}
		for _, share := range slopes {
			for _, other := range [2]int8{topEdge, bottomEdge} {
				g.betweenEdges(other, share, &best)
			}
		}
		if within >= most {
			break
		}
	}
	return best
}

// betweenEdges tries ways between each two bridges to the edge but the other one, bent to
// either side.
func (g *attachedGraph) betweenEdges(other int8, share float64, best *chain) {
	limit := math.Min(g.within, best.cost)
	home := g.home(other, limit/2) // beyond lies no chain so short
	ends := make([][]*step, g.n)   // the bridges between each opening and the edge, narrowest first
	steps := g.steps(g.n, limit)
	for i := range steps {
		if st := &steps[i]; st.edge != other {
			ends[st.to] = append(ends[st.to], st)
		}
	}
	f := &g.fans[0]
	for i := range steps {
		first := &steps[i]
		limit = math.Min(limit, best.cost)
		if 2*first.width > limit || g.work < 0 {
			return // no narrower bridge is left for the other end
		}
		if first.edge == other {
			continue
		}
		for _, bend := range [2]float64{1, -1} {
			f.spread(int(first.to), bend*price(share, limit), limit-first.width, home)
			for _, at := range f.order {
				r := &f.to[at]
				for _, last := range ends[r.node] {
					cost := first.width + r.cost + last.width
					if cost > limit {
						break
					}
					metal := g.lesser(first.metal + r.metal - last.metal)
					if last.width < first.width || last.arc == first.arc || !best.longer(cost) || !g.enough(metal) {
						continue
					}
					g.take(append(append([]int32{first.arc}, f.back(r)...), last.arc^1), metal, best)
				}
			}
		}
	}
}

// home returns how far the openings are from the edge but the other one, up to most.
func (g *attachedGraph) home(other int8, most float64) []float64 {
	f := g.fromEdge(other, most)
	home := make([]float64, g.n)
	for i := range home {
		home[i] = math.Inf(1)
		if r := f.reached(i); r != nil {
			home[i] = r.cost
		}
	}
	return home
}

// fromEdge finds the shortest ways from the edge but the other one to all openings, up
// to most. Along the edge all periods meet, so positions are openings.
func (g *attachedGraph) fromEdge(other int8, most float64) *fan {
	f := &g.fans[0]
	f.run++
	f.order, f.open = f.order[:0], append(f.open[:0], queued{0, int32(g.n)})
	f.to[g.n] = label{by: -1, run: f.run, node: int32(g.n)}
	for len(f.open) > 0 && g.work > 0 {
		at := f.open.pop().at
		r := &f.to[at]
		if r.done {
			continue
		}
		r.done = true
		f.order = append(f.order, at)
		steps := g.steps(int(at), most-r.cost)
		for i := range steps {
			st := &steps[i]
			cost := r.cost + st.width
			if cost > most {
				break
			}
			g.work--
			if int(st.to) == g.n || int(at) == g.n && st.edge == other {
				continue
			}
			if old := &f.to[st.to]; old.run != f.run || cost < old.cost && !old.done {
				*old = label{cost, cost, r.metal + st.metal, st.arc, at, f.run, st.to, 0, false}
				f.open.push(queued{cost, st.to})
			}
		}
	}
	return f
}

// closeAtEdge tries two shortest ways from the edge but the other one with each bridge
// between their ends (J. D. Horton, "A polynomial-time algorithm to find the shortest
// cycle basis of a graph", SIAM Journal on Computing 16, 1987).
func (g *attachedGraph) closeAtEdge(other int8, best *chain) {
	if g.work <= 0 {
		return
	}
	limit := math.Min(g.within, best.cost)
	f := g.fromEdge(other, limit/2)
	for _, at := range f.order[1:] {
		r := &f.to[at]
		steps := g.steps(int(at), limit-2*r.cost)
		for i := range steps {
			st := &steps[i]
			if 2*r.cost+st.width > limit {
				break // tried from the end that is nearer to the edge
			}
			g.work--
			if int(st.to) == g.n || st.arc^1 == r.by {
				continue
			}
			q := f.reached(int(st.to))
			if q == nil || q.by == st.arc {
				continue
			}
			cost, metal := r.cost+st.width+q.cost, g.lesser(r.metal+st.metal-q.metal)
			if cost > limit || !best.longer(cost) || !g.enough(metal) {
				continue
			}
			there, home := f.back(r), f.back(q)
			if there[0] != home[0] { // else it does not reach the edge
				g.take(turnBack(append(there, st.arc), home), metal, best)
			}
		}
	}
}

// turnBack appends a way, the other way, to another.
func turnBack(ks, way []int32) []int32 {
	for i := len(way) - 1; i >= 0; i-- {
		ks = append(ks, way[i]^1)
	}
	return ks
}

// lesser returns what a chain from edge to edge cuts off: the lesser of the two sides
// of a way with so much metal under it, which is known up to all the metal there is.
func (g *attachedGraph) lesser(metal float64) float64 {
	all := g.metal.all
	m := math.Mod(math.Mod(metal, all)+all, all)
	return math.Min(m, all-m)
}
