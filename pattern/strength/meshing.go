package strength

import (
	"context"

	"fretband/unroll"
	"fretband/unroll/cores"
	"fretband/unroll/delaunay"
	"fretband/unroll/plane"
)

// meshing is the making of one mesh.
type meshing struct {
	*Fineness
	grid     *grid
	ctx      context.Context
	openings []plane.Loop
	d        delaunay.Triangulation
}

// triangulate makes the triangulation of the metal within the rings, and gives them the
// numbers of their points.
func (w *meshing) triangulate(rings []ring) error {
	d, g := &w.d, w.grid
	points := 0
	for _, r := range rings {
		if points += len(r.at); points > w.Most {
			return &MetalError{g.off(r.at[0]), ErrTooMany}
		}
	}
	if g.closed {
		d.Round(turnBits, 0, g.h, columns)
	} else {
		d.Rectangle(g.w, 0, g.h)
	}
	var edges []delaunay.Edge
	for i := range rings {
		r := &rings[i]
		if len(r.at) < 3 {
			return &MetalError{g.off(r.at[0]), ErrTouch}
		}
		if g.closed {
			d.From(int32(r.at[0].X >> (turnBits - 4)))
		}
		r.id = r.id[:0]
		for _, p := range r.at {
			if p.X < 0 || p.Y < 0 || p.Y > g.h || !g.closed && p.X > g.w {
				return &MetalError{g.off(p), ErrTouch} // far beyond the outline
			}
			n := len(d.At)
			v, err := d.Insert(p)
			if err != nil || int(v) < n {
				return &MetalError{g.off(p), ErrTouch} // on the point of another ring
			}
			r.id = append(r.id, v)
		}
		if err := w.ctx.Err(); err != nil {
			return err
		}
	}
	w.spread(rings)
	for _, r := range rings {
		for k, a := range r.id {
			b := r.id[(k+1)%len(r.id)]
			if err := d.Constrain(a, b); err != nil {
				return &MetalError{g.off(r.at[k]), ErrTouch}
			}
			edges = append(edges, delaunay.Edge{A: a, B: b, Hole: r.hole})
		}
	}
	if err := d.Mark(edges); err != nil {
		return &MetalError{w.nested(), ErrTouch}
	}
	d.Trim()
	if len(d.Tri) == 0 {
		return &MetalError{Why: ErrNothing}
	}
	return w.ctx.Err()
}

// spread adds points far from any edge to a closed band that is wide against its
// length: on the grid nothing may reach half way round (see [delaunay.Triangulation.Round]).
func (w *meshing) spread(rings []ring) {
	const apart = int64(1) << turnBits / columns
	g := w.grid
	if !g.closed || g.h < 4*apart {
		return
	}
	for y := apart; y < g.h; y += apart {
		for i := range int64(columns) {
			p := delaunay.Point{X: i * apart, Y: y}
			least := 1.5 * w.Size / g.mm(p)
			if far(g, rings, p, least*least) {
				w.d.From(int32(i))
				w.d.Insert(p) // one that has no place is not needed
			}
		}
	}
}

func far(g *grid, rings []ring, p delaunay.Point, least2 float64) bool {
	for _, r := range rings {
		for _, q := range r.at {
			if d := g.way(p, q); d.Dot(d) < least2 {
				return false
			}
		}
	}
	return true
}

// nested returns a place of an opening that lies within another, or beyond the outline.
func (w *meshing) nested() plane.Point {
	for i, l := range w.openings {
		if len(l) == 0 {
			continue
		}
		p := l[0].Point
		if !w.grid.flat.Outline.Contains(p) {
			return p
		}
		for j, o := range w.openings {
			if i != j && o.Contains(p) {
				return p
			}
		}
	}
	return plane.Point{}
}

// refine adds points within the metal.
func (w *meshing) refine(rings []ring) error {
	g := w.grid
	r := delaunay.Refinement{
		Size: make([]float64, len(w.d.At)), Grade: grade, Most: w.Size / g.unit,
		Angle: leastAngle, Limit: w.Most, Stop: w.ctx.Err,
	}
	if len(w.Around) > 0 {
		r.Finer = func(p delaunay.Point) float64 { return w.finer(g.off(p)) }
	}
	for i := range r.Size {
		r.Size[i] = r.Most
	}
	for _, o := range rings {
		for k, v := range o.id {
			r.Size[v] = o.size[k] / g.mm(o.at[k])
		}
	}
	err := w.d.Refine(&r)
	if err == delaunay.ErrTooMany {
		return &MetalError{g.off(w.d.At[len(w.d.At)-1]), ErrTooMany}
	}
	return err
}

// bend takes the triangles to the middle surface.
func (w *meshing) bend() *Mesh {
	d, flat := &w.d, w.grid.flat
	number := make([]int32, len(d.At))
	m := &Mesh{Tri: make([][3]int32, len(d.Tri)), Thick: make([]float64, len(d.Tri))}
	for i := range d.Tri {
		for _, v := range d.Tri[i].V {
			number[v] = 1
		}
	}
	for v, used := range number {
		if used != 0 {
			number[v] = int32(len(m.Flat))
			m.Flat = append(m.Flat, w.grid.off(d.At[v]))
		}
	}
	m.At = make([]unroll.Point3, len(m.Flat))
	thick := make([]float64, len(m.Flat))
	cores.Runs(len(m.Flat), 1, func(_, from, to int) {
		for i := from; i < to; i++ {
			thick[i] = flat.ThicknessAt(m.Flat[i])
			m.At[i] = flat.Bend(m.Flat[i], thick[i]/2)
		}
	})
	for i := range d.Tri {
		v := &d.Tri[i].V
		t := [3]int32{number[v[0]], number[v[1]], number[v[2]]}
		m.Tri[i] = t
		m.Thick[i] = (thick[t[0]] + thick[t[1]] + thick[t[2]]) / 3
	}
	return m
}
