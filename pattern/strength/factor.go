package strength

import (
	"context"
	"fmt"
	"sync"
	"sync/atomic"

	"fretband/unroll/cores"
	"fretband/unroll/plane"
)

// Fixed holds freedoms of a node at nothing: three displacements along the world's axes,
// then three rotations about them.
type Fixed struct {
	Node int
	Held [6]bool
}

// A LooseError says that metal is not held: a piece that touches the rest at one node or
// not at all, or freedoms that no support takes.
type LooseError struct {
	Node int
	At   plane.Point // on the blank
	What string
}

func (e *LooseError) Error() string {
	return fmt.Sprintf("metal at %.2f, %.2f mm: %s", e.At.X, e.At.Y, e.What)
}

// A Model is a mesh whose stiffness has been assembled and factorised. It may be used
// from several goroutines.
//
// The factor is multifrontal: every block of the plan gathers its triangles and what its
// children left, eliminates its own nodes in a dense matrix and leaves the rest to its
// parent. I. S. Duff and J. K. Reid, "The multifrontal solution of indefinite sparse
// symmetric linear equations", ACM Transactions on Mathematical Software 9 (1983)
// 302-325. Blocks without a common ancestor are worked on side by side; the sums come in
// the same order on any number of cores, so the result is the same to the last bit.
type Model struct {
	plan   *Plan
	mat    Material
	fixed  []Fixed
	held   []uint8     // a bit a freedom, by node
	panels [][]float64 // the factor, by block: strips of the block's nodes, columns of its own
}

// NewModel plans, assembles and factorises. Use [NewPlan] and [Plan.Model] to ask for the
// memory first.
func NewModel(ctx context.Context, m *Mesh, mat Material, fixed []Fixed) (*Model, error) {
	p, err := NewPlan(ctx, m)
	if err != nil {
		return nil, err
	}
	return p.Model(ctx, mat, fixed)
}

// Model assembles and factorises the stiffness of the plan's mesh. It fails with a
// [*LooseError] if metal is not held, and with the error of ctx if that ends.
func (p *Plan) Model(ctx context.Context, mat Material, fixed []Fixed) (*Model, error) {
	if err := mat.check(); err != nil {
		return nil, err
	}
	m := &Model{plan: p, mat: mat, fixed: fixed, held: make([]uint8, len(p.mesh.At)), panels: make([][]float64, len(p.blocks))}
	for _, f := range fixed {
		if f.Node < 0 || f.Node >= len(m.held) {
			return nil, fmt.Errorf("support: there is no node %d; the mesh has %d", f.Node, len(m.held))
		}
		for k, held := range f.Held {
			if held {
				m.held[f.Node] |= 1 << k
			}
		}
	}
	if err := p.mesh.checkHeld(m.held); err != nil {
		return nil, err
	}
	f := factoring{Model: m, ctx: ctx, rests: make([][]float64, len(p.blocks))}
	f.stopped.Store(int64(len(p.blocks)))
	f.limits()
	f.run()
	if err := ctx.Err(); err != nil {
		return nil, err
	}
	if f.loose != nil {
		return nil, f.loose
	}
	return m, nil
}

// A pivot must exceed this share of the sheet's own stiffness, E times thickness for a
// displacement and E times its cube for a rotation. Ours: pivots of metal that nothing
// holds come out at 1e-15 of it, of a band that gives 1 mm under a thousandth of a newton
// at 1e-8.
const leastPivot = 1e-12

// factoring is a Model in the making.
type factoring struct {
	*Model
	ctx     context.Context
	least   [2]float64  // for displacements and rotations
	rests   [][]float64 // what a block left to its parent, where that is in another part
	mutex   sync.Mutex
	free    [][]float64  // stacks that no part uses
	stopped atomic.Int64 // the first block that failed
	loose   *LooseError
}

func (f *factoring) limits() {
	thin := f.plan.mesh.Thick[0]
	for _, t := range f.plan.mesh.Thick {
		thin = min(thin, t)
	}
	f.least = [2]float64{leastPivot * f.mat.Young * thin, leastPivot * f.mat.Young * thin * thin * thin}
}

func (f *factoring) run() {
	p := f.plan
	cores.Each(len(p.parts), func(k int) { f.part(p.parts[k]) })
	for _, i := range p.top {
		if f.ended(int(i)) {
			return
		}
		b := &p.blocks[i]
		rest := make([]float64, restSize(len(b.nodes)-b.own))
		children := make([][]float64, len(b.children))
		for k, c := range b.children {
			children[k], f.rests[c] = f.rests[c], nil
		}
		f.block(int(i), rest, children, true)
		f.rests[i] = rest
	}
}

// ended reports whether work on block i is in vain: the context has ended, or a block
// before it has failed. One after it does not count, so that the first is found whatever
// the cores do.
func (f *factoring) ended(i int) bool {
	return f.ctx.Err() != nil || f.stopped.Load() < int64(i)
}

// part factorises the blocks of one part, one after the other.
func (f *factoring) part(p part) {
	stack := f.stack(p.stack)
	top := 0
	var children [][]float64
	for i := p.from; i < p.to; i++ {
		if f.ended(i) {
			return
		}
		b := &f.plan.blocks[i]
		children = children[:0]
		base := top
		for k := len(b.children) - 1; k >= 0; k-- {
			c := &f.plan.blocks[b.children[k]]
			base -= restSize(len(c.nodes) - c.own)
		}
		at := base
		for _, k := range b.children {
			c := &f.plan.blocks[k]
			size := restSize(len(c.nodes) - c.own)
			children = append(children, stack[at:at+size])
			at += size
		}
		size := restSize(len(b.nodes) - b.own)
		rest := stack[top : top+size]
		clear(rest)
		f.block(i, rest, children, false)
		copy(stack[base:], rest)
		top = base + size
	}
	f.rests[p.to-1] = append([]float64(nil), stack[:top]...)
	f.mutex.Lock()
	f.free = append(f.free, stack)
	f.mutex.Unlock()
}

// stack returns a stack of at least the given length.
func (f *factoring) stack(length int) []float64 {
	f.mutex.Lock()
	defer f.mutex.Unlock()
	for i, s := range f.free {
		if len(s) >= length {
			f.free = append(f.free[:i], f.free[i+1:]...)
			return s
		}
	}
	return make([]float64, length)
}

// A front is the dense matrix of one block: the strips of all of its nodes over the
// columns of its own (panel), and the lower half of the rest over the rest (rest). A
// strip of an own node and of the rest ends with that node's columns.
type front struct {
	own, nodes  int
	panel, rest []float64
}

// strip returns strip i of the panel; a node has two.
func (f *front) strip(i int) []float64 {
	node := i / 2
	if node < f.own {
		at := 18*node*(node+1) + i%2*18*(node+1)
		return f.panel[at : at+18*(node+1)]
	}
	at := 18*f.own*(f.own+1) + (i-2*f.own)*18*f.own
	return f.panel[at : at+18*f.own]
}

// restStrip returns strip i of the rest, counted from the first of the border.
func (f *front) restStrip(i int) []float64 {
	node := i / 2
	at := 18*node*(node+1) + i%2*18*(node+1)
	return f.rest[at : at+18*(node+1)]
}

// columns returns the 18 numbers of strip s of node i over the columns of node j, j <= i.
func (f *front) columns(i, j, s int) []float64 {
	if j < f.own {
		return f.strip(2*i + s)[18*j : 18*j+18]
	}
	return f.restStrip(2*(i-f.own) + s)[18*(j-f.own) : 18*(j-f.own)+18]
}

// block assembles and eliminates block i. rest is empty; wide says that all cores are
// free for it.
func (f *factoring) block(i int, rest []float64, children [][]float64, wide bool) {
	b := &f.plan.blocks[i]
	panel := make([]float64, panelSize(b.own, len(b.nodes)))
	fr := front{own: b.own, nodes: len(b.nodes), panel: panel, rest: rest}
	f.panels[i] = panel
	f.assemble(b, &fr)
	for k, c := range b.children {
		fr.take(f.plan.blocks[c].into, children[k])
	}
	f.hold(b, &fr)
	if wide {
		f.eliminateWide(i, &fr)
		return
	}
	for from := 0; from < 2*fr.nodes; from += rowsAtOnce {
		to := min(from+rowsAtOnce, 2*fr.nodes)
		if f.ended(i) || !f.rows(i, &fr, from, to) {
			return
		}
		fr.update(max(from, 2*fr.own), to)
	}
}

// assemble adds the stiffness of the block's triangles.
func (f *factoring) assemble(b *block, fr *front) {
	var e element
	var k [18][18]float64
	for _, t := range f.plan.tris[b.from:b.to] {
		e.make(f.plan.mesh, f.mat, int(t))
		e.stiffness(&k)
		var local [3]int
		for c, v := range f.plan.mesh.Tri[t] {
			local[c] = find(b, v, f.plan.rank)
		}
		for p, i := range local {
			for q, j := range local {
				if j > i {
					continue
				}
				for s := range 2 {
					to := fr.columns(i, j, s)
					for c := range 6 {
						from := k[6*q+c][6*p+3*s : 6*p+3*s+3]
						to[3*c] += from[0]
						to[3*c+1] += from[1]
						to[3*c+2] += from[2]
					}
				}
			}
		}
	}
}

// find returns where node v stands in a block. Both its own nodes and its border are in
// the order of their elimination.
func find(b *block, v int32, rank []int32) int {
	low, high := 0, len(b.nodes)
	for low+1 < high {
		if mid := (low + high) / 2; rank[b.nodes[mid]] <= rank[v] {
			low = mid
		} else {
			high = mid
		}
	}
	return low
}

// take adds what a child left. into says where its nodes stand in the front; they are in
// the same order there, so runs of neighbours are added at once.
func (f *front) take(into []int32, rest []float64) {
	child := front{nodes: len(into), rest: rest}
	for i, row := range into {
		for s := range 2 {
			from := child.restStrip(2*i + s)
			for j := 0; j <= i; {
				end := j + 1
				for end <= i && into[end] == into[end-1]+1 && (into[end] < int32(f.own)) == (into[j] < int32(f.own)) {
					end++
				}
				var to []float64
				if col := int(into[j]); col < f.own {
					to = f.strip(2*int(row) + s)[18*col:]
				} else {
					to = f.restStrip(2*(int(row)-f.own) + s)[18*(col-f.own):]
				}
				add(to, from[18*j:18*end])
				j = end
			}
		}
	}
}

// add adds b to as much of a.
func add(a, b []float64) {
	for len(a) >= 6 && len(b) >= 6 {
		a[0] += b[0]
		a[1] += b[1]
		a[2] += b[2]
		a[3] += b[3]
		a[4] += b[4]
		a[5] += b[5]
		a, b = a[6:], b[6:]
	}
}

// hold takes the held freedoms out: nothing couples to them, and their pivot is one.
func (f *factoring) hold(b *block, fr *front) {
	for n, v := range b.nodes[:b.own] {
		for k := range 6 {
			if f.held[v]&(1<<k) == 0 {
				continue
			}
			row, col := 2*n+k/3, 6*n+k
			strip := fr.strip(row)
			for c := range col {
				strip[3*c+k%3] = 0
			}
			for i := row; i < 2*fr.nodes; i++ {
				clear(fr.strip(i)[3*col : 3*col+3])
			}
			strip[3*col+k%3] = f.least[k/3] / leastPivot
		}
	}
}

// So many strips are worked on together: their own part of the factor stays in the
// nearest caches while the strips above pass by.
const rowsAtOnce = 8

// rows eliminates the block's own nodes from the strips from to to-1; all strips above are
// done. It returns whether all pivots were fit.
func (f *factoring) rows(number int, fr *front, from, to int) bool {
	for j := range min(2*fr.own, to) {
		done := fr.strip(j)
		left := done[:9*j]
		tile := (*[9]float64)(done[9*j : 9*j+9])
		for i := max(from, j); i < to; i++ {
			strip := fr.strip(i)
			c := (*[9]float64)(strip[9*j : 9*j+9])
			takeProduct(c, strip[:9*j], left)
			if i > j {
				divideRows(c, tile)
				continue
			}
			if bad := rootTile(tile, f.least[j%2]); bad >= 0 {
				f.fail(number, j/2)
				return false
			}
		}
	}
	return true
}

// update takes the product of the panel's strips from the strips of the rest.
func (f *front) update(from, to int) {
	first := 2 * f.own
	for j := first; j < to; j++ {
		above := f.strip(j)
		for i := max(from, j); i < to; i++ {
			c := (*[9]float64)(f.restStrip(i - first)[9*(j-first):])
			takeProduct(c, f.strip(i), above)
		}
	}
}

// eliminateWide does the same as block on all cores: own strips one after the other, the
// others side by side.
func (f *factoring) eliminateWide(number int, fr *front) {
	for from := 0; from < 2*fr.own; from += rowsAtOnce {
		if f.ctx.Err() != nil || !f.rows(number, fr, from, min(from+rowsAtOnce, 2*fr.own)) {
			return
		}
	}
	below := 2 * (fr.nodes - fr.own)
	runs := (below + rowsAtOnce - 1) / rowsAtOnce
	each := func(do func(from, to int)) {
		cores.Each(runs, func(k int) {
			if f.ctx.Err() == nil {
				from := 2*fr.own + k*rowsAtOnce
				do(from, min(from+rowsAtOnce, 2*fr.nodes))
			}
		})
	}
	each(func(from, to int) { f.rows(number, fr, from, to) })
	each(fr.update)
}

// fail notes a pivot that is not fit; the first in the order of blocks is reported.
func (f *factoring) fail(number, own int) {
	f.mutex.Lock()
	defer f.mutex.Unlock()
	if f.stopped.Load() <= int64(number) {
		return
	}
	f.stopped.Store(int64(number))
	v := f.plan.blocks[number].nodes[own]
	f.loose = &LooseError{Node: int(v), At: f.plan.mesh.Flat[v], What: "the metal can move here without a force: it is not held, or it hangs by almost nothing"}
}
