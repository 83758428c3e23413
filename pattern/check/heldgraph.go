package check

import (
	"cmp"
	"math"
	"slices"

	"fretband/pattern"
	"fretband/unroll/plane"
)

// heldArc is a bridge from one node to another: openings, or the blank's edge.
type heldArc struct {
	from, to int
	turn     int // of a closed band: +1 if it goes over the seam to the right
	width    float64
	a, b     plane.Point // its ends, where they lie on the blank
	edge     int         // which edge, if one of the nodes is the edge
	// metal is what lies under the way from a fixed place of the one node, along its
	// edge, over the bridge and along the other's edge to its fixed place, mm^2.
	metal float64
	// way is that way, for the question on which side of it a place lies; of ways to
	// the edge there is none.
	way []plane.Point
	box plane.Box
}

// heldGraph joins the openings by the bridges between them. Node n is the blank's
// edge.
type heldGraph struct {
	s      *pattern.Sheet
	n      int
	edges  [edgeNodes][]plane.Edge
	closed bool      // the band goes on over the seam
	arcs   []heldArc // each both ways: 2k and 2k+1
	from   [][]int   // arcs by their first node
	cols   *columns
	ways   *ways // for searches, one at a time
	work   int   // steps that searches may still take
}

// newHeldGraph finds all bridges up to reach.
func newHeldGraph(s *pattern.Sheet, cols *columns, reach float64) *heldGraph {
	g := &heldGraph{s: s, n: len(s.Openings), cols: cols}
	period := s.Flat.Period
	edges := edgesByKind(s)
	g.edges, g.closed = edges, period > 0

	// The metal, of a closed band as much of the next turns as bridges reach.
	metal := plane.Region{}
	if period > 0 {
		metal = append(metal, threeTurns(edges, period))
	} else {
		metal = append(metal, s.Flat.Outline)
	}
	var loops []plane.Loop // openings and their copies
	var of, turns []int
	for turn := -1; turn <= 1; turn++ {
		if turn != 0 && period == 0 {
			continue
		}
		for i := range s.Openings {
			l := s.Openings[i].Loop
			if turn != 0 {
				l = l.Move(plane.Pt(float64(turn)*period, 0))
			}
			if b := l.Bounds(); turn == 0 || b.Min.X < period/2+reach && b.Max.X > -period/2-reach {
				loops, of, turns = append(loops, l), append(of, i), append(turns, turn)
				metal = append(metal, l.Reverse())
			}
		}
	}
	finder := newLoopFinder(loops)
	add := func(gap plane.Gap, i, j int) { // of loops; -1 is the edge
		a := heldArc{from: g.n, to: g.n, width: gap.D, a: gap.A, b: gap.B}
		if i < 0 && j < 0 {
			return // the blank's own narrow places part nothing off but with openings
		}
		if i < 0 { // from the opening to the edge
			i, j = j, i
			a.a, a.b = a.b, a.a
		}
		ti, tj := turns[i], turns[i]
		a.from = of[i]
		if j >= 0 {
			a.to, tj = of[j], turns[j]
		}
		a.turn = tj - ti
		shift := plane.Pt(-float64(ti)*period, 0)
		a.a, a.b = a.a.Add(shift), a.b.Add(shift)
		if j < 0 {
			if a.edge = nearestKind(edges, a.b, period); a.edge < 0 {
				return
			}
		}
		g.add(a)
	}
	type pair struct{ i, j int }
	known := map[pair]float64{}
	for _, n := range metal.Necks(reach) {
		i, j := finder.at(n.A), finder.at(n.B)
		if period > 0 {
			// Of the copies that lie a turn apart take the one whose middle is in this.
			if x := n.Mid().X; x < -period/2 || x >= period/2 {
				continue
			}
		}
		key := pair{min(i, j), max(i, j)}
		if w, ok := known[key]; !ok || n.D < w {
			known[key] = n.D
		}
		add(n, i, j)
	}
	third := newCrossing(loops)
	for _, p := range plane.Pairs(loops, reach) {
		if x := p.Mid().X; period > 0 && (x < -period/2 || x >= period/2) {
			continue
		}
		// Between two openings that face each other across a third the metal is not
		// this; the two bridges to that one are.
		if p.D > 2*s.Rule && third.crossed(p) {
			continue
		}
		if w, ok := known[pair{p.I, p.J}]; !ok || p.D < w-tie {
			add(p.Gap, p.I, p.J)
		}
	}
	g.once()
	g.link()
	return g
}

// crossing finds loops that the straight way of a pair runs through.
type crossing struct {
	loops  []plane.Loop
	boxes  []plane.Box
	order  []int // by the left end of their boxes
	widest float64
}

func newCrossing(loops []plane.Loop) *crossing {
	c := &crossing{loops: loops}
	for i, l := range loops {
		b := l.Bounds()
		c.boxes, c.order = append(c.boxes, b), append(c.order, i)
		c.widest = math.Max(c.widest, b.W())
	}
	slices.SortFunc(c.order, func(i, j int) int { return cmp.Compare(c.boxes[i].Min.X, c.boxes[j].Min.X) })
	return c
}

func (c *crossing) crossed(p plane.Pair) bool {
	way := plane.Edge{A: p.A, B: p.B}
	box := way.Bounds()
	first, _ := slices.BinarySearchFunc(c.order, box.Min.X-c.widest, func(i int, x float64) int { return cmp.Compare(c.boxes[i].Min.X, x) })
	for _, k := range c.order[first:] {
		if c.boxes[k].Min.X > box.Max.X {
			break
		}
		if k == p.I || k == p.J || !c.boxes[k].Meets(box) {
			continue
		}
		l := c.loops[k]
		if l.Contains(p.Mid()) {
			return true
		}
		for i := range l {
			if plane.NearestEdges(way, l.Edge(i)).D <= plane.Snap {
				return true
			}
		}
	}
	return false
}

// add puts a bridge in both ways, first that from the earlier opening or place.
func (g *heldGraph) add(a heldArc) {
	back := a
	back.from, back.to, back.turn, back.a, back.b = a.to, a.from, -a.turn, a.b, a.a
	if a.to < g.n { // where it lies seen from the other opening
		shift := plane.Pt(-float64(a.turn)*g.s.Flat.Period, 0)
		back.a, back.b = back.a.Add(shift), back.b.Add(shift)
	}
	turned := a.to < a.from || a.to == a.from && a.turn < 0
	if a.to == a.from && a.turn == 0 {
		l := g.s.Openings[a.from].Loop
		turned = along(l, a.b) < along(l, a.a)
	}
	if turned {
		a, back = back, a
	}
	g.arcs = append(g.arcs, a, back)
}

// once keeps of bridges that are told several times one: a stretch of one width is
// told at its middle, and where other edges follow smoothly at its ends too. A piece
// between two ends of one stretch is none. The middlemost is kept.
func (g *heldGraph) once() {
	type pair struct{ from, to, turn, edge int }
	of := map[pair][][]int{} // stretches: first arcs of those told for each
	var order []pair
	for k := 0; k < len(g.arcs); k += 2 {
		a := g.arcs[k]
		key := pair{a.from, a.to, a.turn, a.edge}
		if of[key] == nil {
			order = append(order, key)
		}
		known := false
		for i, told := range of[key] {
			if b := g.arcs[told[0]]; !known && math.Abs(a.width-b.width) <= same && g.oneStretch(a, b) {
				of[key][i], known = append(told, k), true
			}
		}
		if !known {
			of[key] = append(of[key], []int{k})
		}
	}
	var kept []heldArc
	for _, key := range order {
		for _, told := range of[key] {
			best, least := told[0], math.Inf(1)
			for _, k := range told {
				far := 0.0
				for _, j := range told {
					far = math.Max(far, g.arcs[k].a.Dist(g.arcs[j].a))
				}
				if far < least-tie {
					best, least = k, far
				}
			}
			kept = append(kept, g.arcs[best], g.arcs[best+1])
		}
	}
	g.arcs = kept
}

// oneStretch reports whether two bridges of one width between the same edges are two
// places of one stretch: so wide is the metal half way between them too.
func (g *heldGraph) oneStretch(a, b heldArc) bool {
	home := plane.Pt(float64(a.turn)*g.s.Flat.Period, 0)
	from := halfWay(g.s.Openings[a.from].Loop, a.a, b.a)
	far := 0.0
	if a.to == g.n {
		from, far = g.s.Home(from), math.Inf(1)
		for _, e := range g.edges[a.edge] { // the ends of a closed band are no edges
			far = math.Min(far, e.Dist(from))
		}
	} else {
		far = from.Dist(halfWay(g.s.Openings[a.to].Loop, a.b.Sub(home), b.b.Sub(home)).Add(home))
	}
	return far <= a.width+plane.FitTolerance/10
}

// halfWay returns the place half way along a loop between two places of it, the
// shorter way.
func halfWay(l plane.Loop, p, q plane.Point) plane.Point {
	whole, s, t := l.Len(), along(l, p), along(l, q)
	mid := (s + t) / 2
	if math.Abs(s-t) > whole/2 {
		mid += whole / 2
	}
	return at(l, mid, whole)
}

// link weighs the bridges and lists them by node.
func (g *heldGraph) link() {
	g.from = make([][]int, g.n+1)
	for k := 0; k < len(g.arcs); k += 2 {
		a, back := &g.arcs[k], &g.arcs[k+1]
		g.weigh(a)
		back.metal = -a.metal
		if a.way != nil {
			home := plane.Pt(float64(a.turn)*g.s.Flat.Period, 0)
			back.way, back.box = make([]plane.Point, len(a.way)), a.box.Move(home.Mul(-1))
			for i, p := range a.way {
				back.way[len(a.way)-1-i] = p.Sub(home)
			}
		}
		g.from[a.from] = append(g.from[a.from], k)
		g.from[a.to] = append(g.from[a.to], k+1)
	}
}

// weigh finds the way of a bridge that begins at an opening, and the metal under it.
func (g *heldGraph) weigh(a *heldArc) {
	way := append(walkTo(g.s.Openings[a.from].Loop, a.a), a.b)
	a.metal = g.cols.beneath(way)
	period := g.s.Flat.Period
	if a.to == g.n {
		on := a.b
		if period > 0 {
			on.X -= period * math.Round(on.X/period)
		}
		a.metal -= g.cols.edge(on)
		return
	}
	home := plane.Pt(float64(a.turn)*period, 0)
	rest := walkTo(g.s.Openings[a.to].Loop, a.b.Sub(home))
	a.metal -= g.cols.beneath(rest)
	for i := len(rest) - 1; i >= 0; i-- {
		way = append(way, rest[i].Add(home))
	}
	a.way, a.box = way, plane.EmptyBox()
	for _, p := range way {
		a.box = a.box.Add(p)
	}
}

// walkTo returns the chords along a loop from its first corner to the place nearest to
// p, and p.
func walkTo(l plane.Loop, p plane.Point) []plane.Point {
	best, edge, part := math.Inf(1), 0, 0.0
	for i := range l {
		e := l.Edge(i)
		if t, q := e.Nearest(p); q.Dist(p) < best {
			best, edge, part = q.Dist(p), i, t
		}
	}
	pts := []plane.Point{l[0].Point}
	for i := range edge {
		pts = append(pts, l.Edge(i).Flatten(chordError)[1:]...)
	}
	if part > 0 {
		pts = append(pts, l.Edge(edge).Part(0, part).Flatten(chordError)[1:]...)
	}
	return append(pts, p)
}

// threeTurns returns the outline of a closed band with a turn more on either side.
func threeTurns(edges [edgeNodes][]plane.Edge, period float64) plane.Loop {
	bottom, top := slices.Clone(edges[bottomEdge]), slices.Clone(edges[topEdge])
	slices.SortStableFunc(bottom, func(a, b plane.Edge) int { return cmp.Compare(a.A.X, b.A.X) })
	slices.SortStableFunc(top, func(a, b plane.Edge) int { return cmp.Compare(b.A.X, a.A.X) })
	var l plane.Loop
	put := func(es []plane.Edge, way float64) {
		var last plane.Point
		for turn := -way; turn*way <= 1; turn += way {
			for _, e := range es {
				move := plane.Pt(turn*period, 0)
				l = append(l, plane.Vertex{Point: e.A.Add(move), Bulge: e.Bulge})
				last = e.B.Add(move)
			}
		}
		l = append(l, plane.Vertex{Point: last})
	}
	put(bottom, 1)
	put(top, -1)
	return l.Tidy()
}

// nearestKind says on which of the edges p lies, -1 if on none: at a joint.
func nearestKind(edges [edgeNodes][]plane.Edge, p plane.Point, period float64) int {
	if period > 0 {
		p.X -= period * math.Round(p.X/period)
	}
	best, kind := 1e-5, -1 // far over rounding
	for k := range edges {
		for _, e := range edges[k] {
			if d := e.Dist(p); d < best {
				best, kind = d, k
			}
		}
	}
	return kind
}

// loopFinder tells on which loop's edge a point lies.
type loopFinder struct {
	loops []plane.Loop
	boxes []plane.Box
	order []int     // by the left ends of the boxes
	wide  float64   // of the widest box
	lefts []float64 // in that order
}

func newLoopFinder(loops []plane.Loop) *loopFinder {
	f := &loopFinder{loops: loops}
	for i, l := range loops {
		b := l.Bounds().Grow(1e-6)
		f.boxes, f.order, f.wide = append(f.boxes, b), append(f.order, i), math.Max(f.wide, b.W())
	}
	slices.SortStableFunc(f.order, func(i, j int) int { return cmp.Compare(f.boxes[i].Min.X, f.boxes[j].Min.X) })
	for _, i := range f.order {
		f.lefts = append(f.lefts, f.boxes[i].Min.X)
	}
	return f
}

// at returns the index of the loop on whose edge p lies, -1 for none.
func (f *loopFinder) at(p plane.Point) int {
	k, _ := slices.BinarySearch(f.lefts, p.X-f.wide)
	best, found := 1e-6, -1
	for ; k < len(f.order) && f.lefts[k] <= p.X; k++ {
		i := f.order[k]
		if !f.boxes[i].Holds(p) {
			continue
		}
		if d := f.loops[i].Nearest(p).D; d < best {
			best, found = d, i
		}
	}
	return found
}
