package strength

import "slices"

// join makes the plan's blocks of those of a dissection: it joins a block to its parent
// where that saves time. pos becomes the number of the block of cut that eliminates a node;
// seen is scratch.
func (p *Plan) join(cut []block, pos, seen []int32, g *graph) {
	for i := range cut {
		for _, v := range cut[i].nodes {
			pos[v] = int32(i)
		}
	}
	for i := range cut {
		for _, c := range cut[i].children {
			cut[c].parent = int32(i)
		}
	}
	// How many nodes border each block: its own nodes' neighbours and its children's
	// borders, as far as these are eliminated later.
	borders := make([][]int32, len(cut))
	own := make([]int, len(cut))
	for i := range cut {
		own[i] = cut[i].own
		borders[i] = p.border(int32(i), &cut[i], borders, pos, seen, g)
	}
	into := make([]bool, len(cut)) // is the block joined to its parent?
	for i := range cut {
		for _, c := range cut[i].children {
			b := len(borders[i])
			into[c] = effort(own[c]+own[i], b) < effort(own[c], len(borders[c]))+effort(own[i], b)
			if into[c] {
				own[i] += own[c]
			}
		}
	}
	// The joined blocks, each after its children.
	var gather func(c int32, b *block)
	var add func(c int32) int32
	gather = func(c int32, b *block) {
		for _, k := range cut[c].children {
			if into[k] {
				gather(k, b)
			} else {
				b.children = append(b.children, add(k))
			}
		}
		b.nodes = append(b.nodes, cut[c].nodes...)
	}
	add = func(c int32) int32 {
		b := block{parent: -1}
		gather(c, &b)
		b.own = len(b.nodes)
		p.blocks = append(p.blocks, b)
		return int32(len(p.blocks) - 1)
	}
	for i := range cut {
		if cut[i].parent < 0 {
			add(int32(i))
		}
	}
}

// border lists the nodes that border block i and are eliminated by a later one.
func (p *Plan) border(i int32, b *block, borders [][]int32, pos, seen []int32, g *graph) []int32 {
	var list []int32
	note := func(v int32) {
		if pos[v] > i && seen[v] != i+1 {
			seen[v] = i + 1
			list = append(list, v)
		}
	}
	for _, v := range b.nodes[:b.own] {
		for _, w := range g.near(v) {
			note(w)
		}
	}
	for _, c := range b.children {
		for _, v := range borders[c] {
			note(v)
		}
	}
	return list
}

// fill lists the borders of the blocks, where these stand in the parent, and the
// triangles that each block assembles: those whose first node to go is its own.
func (p *Plan) fill(pos, seen []int32, g *graph) {
	clear(seen)
	rank := make([]int32, len(pos))
	p.rank = rank
	at := int32(0)
	for i := range p.blocks {
		for _, v := range p.blocks[i].nodes {
			pos[v], rank[v] = int32(i), at
			at++
		}
	}
	borders := make([][]int32, len(p.blocks))
	local := make([]int32, len(pos))
	for i := range p.blocks {
		b := &p.blocks[i]
		borders[i] = p.border(int32(i), b, borders, pos, seen, g)
		slices.SortFunc(borders[i], func(v, w int32) int { return int(rank[v] - rank[w]) })
		b.nodes = append(b.nodes, borders[i]...)
		for k, v := range b.nodes {
			local[v] = int32(k)
		}
		for _, c := range b.children {
			child := &p.blocks[c]
			child.parent = int32(i)
			child.into = make([]int32, len(borders[c]))
			for k, v := range borders[c] {
				child.into[k] = local[v]
			}
		}
	}
	owner := func(t [3]int32) int32 { return min(pos[t[0]], pos[t[1]], pos[t[2]]) }
	for _, t := range p.mesh.Tri {
		p.blocks[owner(t)].to++
	}
	sum := 0
	for i := range p.blocks {
		b := &p.blocks[i]
		b.from, sum = sum, sum+b.to
		b.to = b.from
	}
	p.tris = make([]int32, len(p.mesh.Tri))
	for i, t := range p.mesh.Tri {
		b := &p.blocks[owner(t)]
		p.tris[b.to] = int32(i)
		b.to++
	}
}

// effort estimates the time that a block of own nodes with a border takes, in the time
// of one multiplication and addition. Measured: adding a border to the parent's costs
// about 3 of these an entry, and a block itself as much as 4,000.
func effort(own, border int) float64 {
	k, b := float64(own), float64(border)
	return 216*k*(k*k/6+k*b/2+b*b/2) + 3*18*(k+b)*(k+b) + 4000
}

// panelSize and restSize are how many numbers the factor of a block and what it leaves
// to its parent take; see front.
func panelSize(own, nodes int) int { return 18*own*(own+1) + 36*own*(nodes-own) }

func restSize(border int) int { return 18 * border * (border + 1) }

// Parts of the tree hold at most this share of the work. With 48 of them, 8 cores end
// within a sixth of the time of each other.
const partShare = 1.0 / 48

// So many stacks are counted in Bytes: a part is worked on by one core, and the bound
// must not depend on the machine.
const stacks = 4

// share divides the tree into parts that do not depend on each other, and the rest at
// the top, and counts memory.
func (p *Plan) share() {
	work := make([]float64, len(p.blocks))
	size := make([]int, len(p.blocks)) // blocks in the subtree
	total := 0.0
	for i := range p.blocks {
		b := &p.blocks[i]
		own := effort(b.own, len(b.nodes)-b.own) + 8000*float64(b.to-b.from)
		work[i] += own
		size[i]++
		total += own
		p.bytes += 8 * int64(panelSize(b.own, len(b.nodes)))
		p.bytes += 4*int64(len(b.nodes)+len(b.into)) + 160
		if b.parent >= 0 {
			work[b.parent] += work[i]
			size[b.parent] += size[i]
		}
	}
	for i := len(p.blocks) - 1; i >= 0; {
		if work[i] > partShare*total {
			p.top = append(p.top, int32(i))
			i--
			continue
		}
		p.parts = append(p.parts, part{from: i + 1 - size[i], to: i + 1})
		i -= size[i]
	}
	slices.Reverse(p.top)
	slices.Reverse(p.parts)
	most := 0
	for k := range p.parts {
		part := &p.parts[k]
		part.stack = p.stackSize(part.from, part.to)
		most = max(most, part.stack)
		root := &p.blocks[part.to-1]
		p.bytes += 8 * int64(restSize(len(root.nodes)-root.own))
	}
	largest := 0
	for _, i := range p.top {
		b := &p.blocks[i]
		largest = max(largest, restSize(len(b.nodes)-b.own))
	}
	p.bytes += 8 * int64(stacks*most+2*largest)
	p.bytes += int64(len(p.mesh.At))*6*8*4 + int64(len(p.mesh.Tri))*4
}

// stackSize returns how long the stack of a part becomes: what blocks leave lies there
// until their parent takes it.
func (p *Plan) stackSize(from, to int) int {
	now, most := 0, 0
	for i := from; i < to; i++ {
		b := &p.blocks[i]
		mine := restSize(len(b.nodes) - b.own)
		most = max(most, now+mine)
		now += mine
		for _, c := range b.children {
			child := &p.blocks[c]
			now -= restSize(len(child.nodes) - child.own)
		}
	}
	return most
}
