package strength

import (
	"cmp"
	"context"
	"slices"

	"fretband/unroll/plane"
)

// A Plan says in what order the nodes of a mesh are eliminated, and what that costs. It
// holds no stiffness, so it tells the memory that a model needs before any is taken.
//
// The order is nested dissection: the nodes are split into two halves and a separator
// between them, which comes last, and each half is split again. Where to cut is looked
// for on the blank, along four directions, because a band is long and its bridges are
// few; whether a cut separates is read from the triangles, so a closed band needs no
// care. A. George, "Nested dissection of a regular finite element mesh", SIAM Journal on
// Numerical Analysis 10 (1973) 345-363.
type Plan struct {
	mesh   *Mesh
	blocks []block // each after its children
	tris   []int32 // all triangles, by block
	rank   []int32 // of the nodes in the order of elimination
	parts  []part  // subtrees that can be factorised side by side
	top    []int32 // the blocks above all parts, in order
	bytes  int64
}

// A block is a set of nodes eliminated together. nodes lists these first, then the nodes
// of its border, which are eliminated later, in the order of their elimination.
type block struct {
	nodes    []int32
	own      int   // how many of nodes are eliminated here
	parent   int32 // -1 at a root
	children []int32
	from, to int // its triangles, in Plan.tris
	// Where the entries of a child's border stand in nodes; filled at the child.
	into []int32
}

// A part is a run of blocks, a subtree, and the length of the stack that it takes.
type part struct{ from, to, stack int }

// Halves of a cut hold at least this share of the nodes (ours: the cost hardly changes
// from 0.2 to 0.4).
const leastHalf = 0.3

// Sets of at most so many nodes are not cut any more. Joining small blocks later (join)
// decides the size; this only bounds the depth.
const leafNodes = 4

// graph lists the neighbours of every node.
type graph struct {
	first []int32
	to    []int32
}

func (m *Mesh) graph() graph {
	n := len(m.At)
	g := graph{first: make([]int32, n+1)}
	for _, t := range m.Tri {
		for _, v := range t {
			g.first[v+1] += 2
		}
	}
	for i := range n {
		g.first[i+1] += g.first[i]
	}
	g.to = make([]int32, g.first[n])
	fill := slices.Clone(g.first[:n])
	for _, t := range m.Tri {
		for k, v := range t {
			g.to[fill[v]], g.to[fill[v]+1] = t[next[k]], t[next[next[k]]]
			fill[v] += 2
		}
	}
	// Each neighbour once.
	at := int32(0)
	for i := range n {
		list := g.to[g.first[i]:g.first[i+1]]
		slices.Sort(list)
		list = slices.Compact(list)
		g.first[i] = at
		at += int32(copy(g.to[at:], list))
	}
	g.first[n] = at
	g.to = g.to[:at]
	return g
}

func (g *graph) near(v int32) []int32 { return g.to[g.first[v]:g.first[v+1]] }

// NewPlan orders the nodes of m. It fails with a [*MeshError] if no model can be made of
// m, and with the error of ctx if that ends.
func NewPlan(ctx context.Context, m *Mesh) (*Plan, error) {
	if err := m.check(); err != nil {
		return nil, err
	}
	g := m.graph()
	n := len(m.At)
	d := dissection{ctx: ctx, g: &g, pos: make([]int32, n), set: make([]int32, n), count: make([]int32, n+1), other: make([]int32, n+1)}
	p := &Plan{mesh: m}
	pos, seen := make([]int32, n), make([]int32, n)
	for _, step := range []func(){
		func() { d.run(m.Flat) },
		func() { p.join(d.blocks, pos, seen, &g) },
		func() { p.fill(pos, seen, &g) },
		p.share,
	} {
		if err := ctx.Err(); err != nil {
			return nil, err
		}
		step()
	}
	if err := ctx.Err(); err != nil {
		return nil, err
	}
	return p, nil
}

// Freedoms returns the number of unknowns.
func (p *Plan) Freedoms() int { return 6 * len(p.mesh.At) }

// Bytes returns the memory that a model takes at its making, within a few percent. It is
// the same on every machine.
func (p *Plan) Bytes() int64 { return p.bytes }

// A dissection cuts sets of nodes in two, again and again.
type dissection struct {
	ctx    context.Context
	g      *graph
	pos    []int32 // where a node stands in the sequence at hand
	set    []int32 // which set a node belongs to now; it changes with every cut
	sets   int32
	count  []int32
	other  []int32
	blocks []block // own nodes only; each after its children
}

// The directions of cuts: across the band, along it, and both slants.
var directions = [...]plane.Point{{X: 1, Y: 0}, {X: 0, Y: 1}, {X: 0.7071, Y: 0.7071}, {X: 0.7071, Y: -0.7071}}

type sequences [len(directions)][]int32

func (d *dissection) run(at []plane.Point) {
	var by sequences
	along := make([]float64, len(at))
	for k, dir := range directions {
		if d.ctx.Err() != nil {
			return
		}
		by[k] = make([]int32, len(at))
		for i, p := range at {
			by[k][i], along[i] = int32(i), p.X*dir.X+p.Y*dir.Y
		}
		slices.SortFunc(by[k], func(a, b int32) int {
			if c := cmp.Compare(along[a], along[b]); c != 0 {
				return c
			}
			return cmp.Compare(a, b)
		})
	}
	d.cut(by, 0)
}

// cut orders the nodes of by, all of which are in set s, and returns the number of the
// block that comes last.
func (d *dissection) cut(by sequences, s int32) int32 {
	n := len(by[0])
	if n <= leafNodes || d.ctx.Err() != nil {
		return d.add(by[0])
	}
	best, bestDir, bestAt, bestLeft := 0.0, -1, 0, false
	for dir := range by {
		at, left, cost := d.sweep(by[dir], s)
		if bestDir < 0 || cost < best {
			best, bestDir, bestAt, bestLeft = cost, dir, at, left
		}
	}
	// Label: the separator is the border of one half.
	a, b := d.sets+1, d.sets+2
	d.sets += 2
	seq := by[bestDir]
	for i, v := range seq {
		if i < bestAt {
			d.set[v] = a
		} else {
			d.set[v] = b
		}
	}
	half, across := seq[:bestAt], b
	if !bestLeft {
		half, across = seq[bestAt:], a
	}
	var sep []int32
	for _, v := range half {
		for _, w := range d.g.near(v) {
			if d.set[w] == across {
				sep = append(sep, v)
				break
			}
		}
	}
	if len(sep) == len(half) && len(sep) > 0 {
		// The half is all border: nothing is won.
		for _, v := range seq {
			d.set[v] = s
		}
		return d.add(by[0])
	}
	for _, v := range sep {
		d.set[v] = -1
	}
	var kids [2]sequences
	for k, list := range by {
		one, two := make([]int32, 0, bestAt), make([]int32, 0, n-bestAt)
		for _, v := range list {
			switch d.set[v] {
			case a:
				one = append(one, v)
			case b:
				two = append(two, v)
			}
		}
		kids[0][k], kids[1][k] = one, two
	}
	one := d.cut(kids[0], a)
	two := d.cut(kids[1], b)
	top := d.add(sep)
	d.blocks[top].children = []int32{one, two}
	return top
}

// sweep moves a cut along the sequence seq of set s and returns the best position: how
// many nodes stand before it, whether the separator is taken from these, and the cost.
// At position k a node separates if it has a neighbour on the other side, so the number
// of such nodes changes only where a node or its last neighbour passes.
func (d *dissection) sweep(seq []int32, s int32) (at int, left bool, cost float64) {
	n := len(seq)
	for i, v := range seq {
		d.pos[v] = int32(i)
		d.count[i], d.other[i] = 0, 0
	}
	d.count[n], d.other[n] = 0, 0
	for i, v := range seq {
		last, first := int32(i), int32(i)
		for _, w := range d.g.near(v) {
			if d.set[w] == s {
				last, first = max(last, d.pos[w]), min(first, d.pos[w])
			}
		}
		// Before cuts i+1 to last, the node stands left and sees the right.
		d.count[i+1]++
		if int(last) < n {
			d.count[last+1]--
		}
		// Behind cuts first+1 to i it stands right and sees the left.
		d.other[first+1]++
		d.other[i+1]--
	}
	low, high := max(1, int(leastHalf*float64(n))), min(n-1, n-int(leastHalf*float64(n)))
	cost = -1
	l, r := int32(0), int32(0)
	for k := 1; k <= high; k++ {
		l += d.count[k]
		r += d.other[k]
		if k < low {
			continue
		}
		skew := float64(2*k-n) / float64(n)
		c := float64(min(l, r)) * (1 + 2*skew*skew)
		if cost < 0 || c < cost {
			at, left, cost = k, l <= r, c
		}
	}
	return at, left, cost
}

func (d *dissection) add(nodes []int32) int32 {
	d.blocks = append(d.blocks, block{nodes: nodes, own: len(nodes), parent: -1})
	return int32(len(d.blocks) - 1)
}
