package mesh

import (
	"cmp"
	"runtime"
	"slices"

	"fretband/unroll/cores"
	"fretband/unroll/delaunay"
)

// fill triangulates the metal on the flat, cell by cell, on all cores. The
// order of the triangles does not depend on how many there are.
func (b *blank) fill(w *wires) (metal [][3]int32, lids []lid, err error) {
	type run struct {
		tris [][3]int32
		lids []lid
		err  error
	}
	n := w.cols * w.rows
	runs := make([]run, min(n, 2*runtime.GOMAXPROCS(0))) // two a core, for they differ
	cores.Each(len(runs), func(k int) {
		f := filler{w: w, blank: b, local: make([]int32, len(w.at))}
		for c := k * n / len(runs); c < (k+1)*n/len(runs); c++ {
			if runs[k].err = f.cell(c); runs[k].err != nil {
				return
			}
		}
		runs[k].tris, runs[k].lids = f.tris, f.lids
	})
	for _, r := range runs {
		if r.err != nil {
			return nil, nil, r.err
		}
		metal = append(metal, r.tris...)
		lids = append(lids, r.lids...)
	}
	return metal, lids, nil
}

// lid is a triangle in a hole.
type lid struct {
	v    [3]int32
	hole int32
}

// filler triangulates one cell after another.
type filler struct {
	w     *wires
	blank *blank
	d     delaunay.Triangulation
	ids   []int32 // the number of each point of d among the wires'
	local []int32 // place in d of each point of the wires, plus 1
	pts   []placed
	edges []delaunay.Edge
	tris  [][3]int32
	lids  []lid
}

type placed struct {
	delaunay.Point
	id int32
}

func (f *filler) cell(c int) error {
	w := f.w
	i, j := c/w.rows, c%w.rows
	x0 := w.x[i]
	sides := w.ofCell[c]
	in := int32(inMetal)
	if len(sides) == 0 {
		in = f.blank.holeAt(float64(w.x[i]+w.x[i+1])/2*unit, float64(w.y[j]+w.y[j+1])/2*unit)
		if in == outside || in >= 0 && !f.blank.lids {
			return nil
		}
	}
	corners := [4]int32{w.corner(i, j), w.corner(i+1, j), w.corner(i+1, j+1), w.corner(i, j+1)}
	f.d.Rectangle(w.x[i+1]-x0, w.y[j], w.y[j+1])
	f.ids = append(f.ids[:0], corners[:]...)
	for k, id := range corners {
		f.local[id] = int32(k + 1)
	}
	f.pts = f.pts[:0]
	put := func(id int32) {
		if f.local[id] != 0 {
			return
		}
		f.local[id] = -1
		p := w.at[id]
		p.X -= x0
		if p.X < 0 {
			p.X += w.period
		}
		f.pts = append(f.pts, placed{p, id})
	}
	for _, id := range w.onBorder[c] {
		put(id)
	}
	for _, s := range sides {
		put(w.sides[s].a)
		put(w.sides[s].b)
	}
	slices.SortFunc(f.pts, func(p, q placed) int {
		return cmp.Or(cmp.Compare(p.Y, q.Y), cmp.Compare(p.X, q.X), cmp.Compare(p.id, q.id))
	})
	var err error
	for _, p := range f.pts {
		var at int32
		if at, err = f.d.Insert(p.Point); err != nil {
			return err
		}
		if int(at) == len(f.ids) {
			f.ids = append(f.ids, p.id)
		}
		f.local[p.id] = at + 1
	}
	f.edges = f.edges[:0]
	for _, s := range sides {
		e := delaunay.Edge{A: f.local[w.sides[s].a] - 1, B: f.local[w.sides[s].b] - 1, Hole: w.sides[s].ring}
		if e.A == e.B {
			return delaunay.ErrCross
		}
		if err := f.d.Constrain(e.A, e.B); err != nil {
			return err
		}
		f.edges = append(f.edges, e)
	}
	if err := f.d.Mark(f.edges); err != nil {
		return err
	}
	for t, keep := range f.d.Kept {
		v := f.d.Tri[t].V
		ids := [3]int32{f.ids[v[0]], f.ids[v[1]], f.ids[v[2]]}
		switch hole := f.d.Hole[t] - 1; {
		case in >= 0:
			f.lids = append(f.lids, lid{ids, in})
		case keep:
			f.tris = append(f.tris, ids)
		case hole >= 0 && f.blank.lids:
			f.lids = append(f.lids, lid{ids, hole})
		}
	}
	for _, id := range corners {
		f.local[id] = 0
	}
	for _, p := range f.pts {
		f.local[p.id] = 0
	}
	return nil
}

// What holeAt returns beside the index of a hole.
const (
	inMetal = -1
	outside = -2
)

// holeAt returns what the position, which no edge is near, lies in.
func (b *blank) holeAt(x, y float64) int32 {
	if !b.outline.Contains(b.place(x, y)) {
		return outside
	}
	for i, h := range b.holes {
		for k := -2; k <= 2; k++ {
			q := b.place(x+float64(k)*b.period, y)
			if h.box.Contains(q) && h.loop.Contains(q) {
				return int32(i)
			}
			if b.period == 0 {
				break
			}
		}
	}
	return inMetal
}
