package check

import (
	"math"
	"slices"

	"fretband/unroll/plane"
)

// label is how a fan reached a position: an opening, on a closed band so many times round as seen
// from the root.
type label struct {
	length float64 // of the way, less the price of the metal it encloses
	cost   float64 // mm of metal passed
	metal  float64 // under the way, mm^2
	by     int32   // arc; -1 at the root
	prev   int32   // index of the position before
	run    int32   // of the spread in which the position was reached
	node   int32
	rounds int8
	done   bool
}

// fan is ways from one opening, the root, to all others near it, bent so that they and
// the straight line home enclose much metal for their length.
//
// A piece of at least so much metal by the shortest chain is sought by the price of
// metal (H. Everett, "Generalized Lagrange multiplier method for solving problems of
// optimum allocation of resources", Operations Research 11, 1963): that chain is the
// shortest once each mm^2 that it encloses makes it shorter by the slope at which the
// length must grow for more metal. The length of the chain about a piece goes with the
// root of its area, so the slope is half of the length by the metal.
//
// What a chain encloses is a sum over its bridges. It may be written as what the line
// from the root sweeps over, seen from a root of the chain. Within a disc whose edge runs
// through the root, no stretch then costs less than nothing where the metal is even: at
// a distance r it costs k mm for each mm and sweeps over r/2 times the share of metal, d,
// at most; the slope for a disc of radius R is k/(d R), and r is at most 2R. So the
// shortest such ways are found as E. Dijkstra finds them (Numerische Mathematik 1, 1959).
// Metal is not even, so what would cost less than a little is taken to cost that; this
// makes the way found another, but its cost and its metal stay true.
type fan struct {
	g     *attachedGraph
	to    []label
	order []int32 // positions in the order in which they were settled
	run   int32
	open  queue
}

// leastPart is the part of its width that a bridge costs at least, whatever the metal
// that it encloses.
const leastPart = 0.05

// rays say how much metal lies between a root and positions, about.
type rays struct {
	rounds int           // how many times round positions are distinguished: 1 or, on a closed band, 3
	on     []float64     // by times round: how far along the band it is
	at     []plane.Point // the first corner of each opening
	depth  []float64     // of metal under it, on average along the band, mm
}

// newRays takes the metal to be spread alike along the band.
func newRays(g *attachedGraph) *rays {
	r := &rays{rounds: 1, at: make([]plane.Point, g.n), depth: make([]float64, g.n)}
	if g.s.Flat.Wraps() {
		r.rounds = 3
	}
	for turn := range r.rounds {
		by, _ := g.near.round(turn - r.rounds/2).Moved()
		r.on = append(r.on, by.X)
	}
	const levels = 64
	box := g.s.Flat.Outline.Bounds()
	var mean [levels + 1]float64 // as of [metalUnder], at heights
	at := func(k int) float64 { return box.Min.Y + box.H()*float64(k)/levels }
	for k := range mean {
		mean[k] = at(k) - g.metal.base
	}
	for i := range g.s.Openings {
		o := &g.s.Openings[i]
		pts, whole := closed(o.Loop), math.Abs(o.Loop.Area())
		for k := range mean {
			switch y := at(k); {
			case y >= o.Box.Max.Y:
				mean[k] -= whole / box.W()
			case y > o.Box.Min.Y:
				mean[k] -= areaBelow(pts, y) / box.W()
			}
		}
	}
	for i := range r.at {
		r.at[i] = g.s.Openings[i].Loop[0].Point
		f := (r.at[i].Y - box.Min.Y) / box.H() * levels
		k := min(max(int(f), 0), levels-1)
		r.depth[i] = mean[k] + (f-float64(k))*(mean[k+1]-mean[k])
	}
	return r
}

// areaBelow returns the area below y of what chords enclose counter-clockwise.
func areaBelow(pts []plane.Point, y float64) float64 {
	sum := 0.0
	for i := 1; i < len(pts); i++ {
		p, q := pts[i-1], pts[i]
		below := func(p, q plane.Point) float64 { return (q.X - p.X) * (p.Y + q.Y - 2*y) / 2 }
		switch {
		case p.Y <= y && q.Y <= y:
			sum -= below(p, q)
		case p.Y <= y:
			sum -= below(p, p.Add(q.Sub(p).Mul((y-p.Y)/(q.Y-p.Y))))
		case q.Y <= y:
			sum -= below(p.Add(q.Sub(p).Mul((y-p.Y)/(q.Y-p.Y))), q)
		}
	}
	return sum
}

// place numbers the openings by times round; -1 for those not looked at.
func (r *rays) place(node, rounds int) int {
	if rounds += r.rounds / 2; rounds >= 0 && rounds < r.rounds {
		return node*r.rounds + rounds
	}
	return -1
}

// under returns the metal under the straight line from a root to an opening so many times round.
func (r *rays) under(root, i, rounds int) float64 {
	return (r.at[i].X + r.on[rounds+r.rounds/2] - r.at[root].X) * (r.depth[i] + r.depth[root]) / 2
}

// spread finds the ways from a root, bent to the right for a price, mm for each mm^2,
// over 0, to the left for one under it. It follows them as long as they and the way home
// from where they come to, if not nil, cost no more than most.
func (f *fan) spread(root int, price, most float64, home []float64) {
	g, rays := f.g, f.g.rays
	f.run++
	start := int32(rays.place(root, 0))
	f.order, f.open = f.order[:0], append(f.open[:0], queued{0, start})
	f.to[start] = label{by: -1, run: f.run, node: int32(root)}
	for len(f.open) > 0 && g.work > 0 {
		at := f.open.pop().at
		r := &f.to[at]
		if r.done {
			continue
		}
		r.done = true
		f.order = append(f.order, at)
		steps, under := g.steps(int(r.node), most-r.cost), rays.under(root, int(r.node), int(r.rounds))
		for i := range steps {
			st := &steps[i]
			cost := r.cost + st.width
			if cost > most {
				break // those that follow are longer
			}
			g.work--
			if int(st.to) == g.n || home != nil && cost+home[st.to] > most {
				continue
			}
			rounds := r.rounds + st.rounds
			k := rays.place(int(st.to), int(rounds))
			if k < 0 {
				continue
			}
			swept := st.metal + under - rays.under(root, int(st.to), int(rounds))
			length := r.length + math.Max(st.width-price*swept, leastPart*st.width)
			if old := &f.to[k]; old.run != f.run || length < old.length && !old.done {
				*old = label{length, cost, r.metal + st.metal, st.arc, at, f.run, st.to, rounds, false}
				f.open.push(queued{length, int32(k)})
			}
		}
	}
}

// reached returns how the fan reached a position, nil if it did not.
func (f *fan) reached(place int) *label {
	if place >= 0 && f.to[place].run == f.run {
		return &f.to[place]
	}
	return nil
}

// back returns the arcs of the way to a position.
func (f *fan) back(r *label) []int32 {
	var ks []int32
	for ; r.by >= 0; r = &f.to[r.prev] {
		ks = append(ks, r.by)
	}
	slices.Reverse(ks)
	return ks
}
