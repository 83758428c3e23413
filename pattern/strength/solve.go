package strength

import (
	"context"
	"fmt"

	"fretband/unroll/cores"
)

// A Load is a force (N) and a moment (N mm) at a node, along and about the world's axes.
type Load struct {
	Node          int
	Force, Moment [3]float64
}

// Solve returns the answers to load cases, each a list of loads. Three cases take hardly
// longer than one, for the time goes into reading the factor.
func (m *Model) Solve(ctx context.Context, cases ...[]Load) ([]*Answer, error) {
	for i, loads := range cases {
		for _, l := range loads {
			if l.Node < 0 || l.Node >= len(m.held) {
				return nil, fmt.Errorf("load case %d: there is no node %d; the mesh has %d", i+1, l.Node, len(m.held))
			}
		}
	}
	answers := make([]*Answer, len(cases))
	cores.Each((len(cases)+2)/3, func(k int) {
		m.solve(ctx, cases[3*k:min(3*k+3, len(cases))], answers[3*k:])
	})
	if err := ctx.Err(); err != nil {
		return nil, err
	}
	cores.Each(len(answers), func(i int) { answers[i].react() })
	return answers, nil
}

// solve answers up to three cases. Right-hand sides are tiles as in kernel.go, a column
// each, in the order of elimination.
func (m *Model) solve(ctx context.Context, cases [][]Load, answers []*Answer) {
	p := m.plan
	x := make([]float64, 18*len(p.rank))
	for c, loads := range cases {
		for _, l := range loads {
			to := x[18*int(p.rank[l.Node])+c:]
			for k := range 3 {
				to[3*k] += l.Force[k]
				to[9+3*k] += l.Moment[k]
			}
		}
	}
	for i := range p.blocks {
		if ctx.Err() != nil {
			return
		}
		m.forward(i, x)
	}
	for i := len(p.blocks) - 1; i >= 0; i-- {
		if ctx.Err() != nil {
			return
		}
		m.backward(i, x)
	}
	for c, loads := range cases {
		a := &Answer{model: m, loads: loads, Move: make([][6]float64, len(p.rank))}
		for v := range a.Move {
			from := x[18*int(p.rank[v]):]
			for k := range 6 {
				a.Move[v][k] = from[3*k+c]
			}
		}
		answers[c] = a
	}
}

// forward divides the block's own right-hand sides by the factor and takes their effect
// from those of its border.
func (m *Model) forward(i int, x []float64) {
	b := &m.plan.blocks[i]
	if b.own == 0 {
		return
	}
	fr := front{own: b.own, nodes: len(b.nodes), panel: m.panels[i]}
	start := 18 * int(m.plan.rank[b.nodes[0]])
	mine := x[start : start+18*b.own]
	// Blocks below have eliminated against held freedoms too; these stay at nothing.
	for n, v := range b.nodes[:b.own] {
		for k := range 6 {
			if m.held[v]&(1<<k) != 0 {
				clear(mine[18*n+3*k : 18*n+3*k+3])
			}
		}
	}
	for s := range 2 * b.own {
		strip := fr.strip(s)
		tile := (*[9]float64)(mine[9*s:])
		takeProduct(tile, mine[:9*s], strip[:9*s])
		forwardTile(tile, (*[9]float64)(strip[9*s:]))
	}
	for k, v := range b.nodes[b.own:] {
		at := 18 * int(m.plan.rank[v])
		for s := range 2 {
			takeProduct((*[9]float64)(x[at+9*s:]), mine, fr.strip(2*(b.own+k)+s))
		}
	}
}

// backward finds the block's own unknowns from those of its border.
func (m *Model) backward(i int, x []float64) {
	b := &m.plan.blocks[i]
	if b.own == 0 {
		return
	}
	fr := front{own: b.own, nodes: len(b.nodes), panel: m.panels[i]}
	start := 18 * int(m.plan.rank[b.nodes[0]])
	mine := x[start : start+18*b.own]
	for k, v := range b.nodes[b.own:] {
		at := 18 * int(m.plan.rank[v])
		for s := range 2 {
			takeTransposed(mine, fr.strip(2*(b.own+k)+s), (*[9]float64)(x[at+9*s:]))
		}
	}
	for s := 2*b.own - 1; s >= 0; s-- {
		strip := fr.strip(s)
		tile := (*[9]float64)(mine[9*s:])
		backwardTile(tile, (*[9]float64)(strip[9*s:]))
		takeTransposed(mine[:9*s], strip[:9*s], tile)
	}
}
