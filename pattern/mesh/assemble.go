package mesh

import (
	"fretband/unroll"
	"fretband/unroll/cores"
	"fretband/unroll/plane"
)

// assemble bends the flat triangles at both faces and adds the walls.
func (b *blank) assemble(w *wires, faces [][3]int32, lids []lid) *Mesh {
	m := &Mesh{Thickness: b.thickness, Period: b.period, Openings: len(b.holes), place: b.place}
	// Points that are in no triangle (corners of cells outside the metal) go.
	number := make([]int32, len(w.at))
	for _, f := range faces {
		for _, v := range f {
			number[v] = 1
		}
	}
	for _, l := range lids {
		for _, v := range l.v {
			number[v] = 1
		}
	}
	for i, used := range number {
		if used != 0 {
			number[i] = int32(len(m.Flat))
			m.Flat = append(m.Flat, plane.Pt(float64(w.at[i].X)*unit, float64(w.at[i].Y)*unit))
		}
	}
	n := len(m.Flat)
	m.Vertices = make([]unroll.Point3, 2*n)
	m.Normals = make([]unroll.Point3, 2*n, 2*n+4*len(w.sides))
	cores.Runs(n, 1, func(_, from, to int) {
		for i := from; i < to; i++ {
			in, out := b.bent(m.Flat[i])
			up := unitOf(sub(out, in))
			m.Vertices[i], m.Vertices[n+i] = in, out
			m.Normals[i], m.Normals[n+i] = scale(up, -1), up
		}
	})
	m.Triangles = make([]Triangle, 0, 2*len(faces)+2*len(w.sides))
	for _, f := range faces {
		v := [3]int32{number[f[0]], number[f[2]], number[f[1]]}
		m.Triangles = append(m.Triangles, Triangle{V: v, N: v, Kind: Inner})
	}
	o := int32(n)
	for _, f := range faces {
		v := [3]int32{o + number[f[0]], o + number[f[1]], o + number[f[2]]}
		m.Triangles = append(m.Triangles, Triangle{V: v, N: v, Kind: Outer})
	}
	b.walls(m, w, number)
	for _, l := range lids {
		v := [3]int32{o + number[l.v[0]], o + number[l.v[1]], o + number[l.v[2]]}
		m.Lids = append(m.Lids, Triangle{V: v, N: v, Kind: Outer, Opening: int32(b.holes[l.hole].number)})
	}
	return m
}

// walls adds two triangles for each side. Where the edge does not turn, two
// walls share the direction that they look in.
func (b *blank) walls(m *Mesh, w *wires, number []int32) {
	o := int32(len(m.Flat))
	own := make([]unroll.Point3, len(w.sides))
	for k, s := range w.sides {
		p := m.Vertices[number[s.a]]
		own[k] = unitOf(cross(sub(m.Vertices[number[s.b]], p), sub(m.Vertices[o+number[s.a]], p)))
	}
	normal := func(v unroll.Point3) int32 {
		m.Normals = append(m.Normals, v)
		return int32(len(m.Normals) - 1)
	}
	// The directions at the start and the end of each side.
	at := make([][2]int32, len(w.sides))
	for k, s := range w.sides {
		if s.smooth {
			i := normal(unitOf(add(own[k], own[s.before])))
			at[k][0], at[s.before][1] = i, i
		} else {
			at[k][0], at[s.before][1] = normal(own[k]), normal(own[s.before])
		}
	}
	for k, s := range w.sides {
		number1 := int32(0)
		if s.ring >= 0 {
			number1 = int32(b.holes[s.ring].number)
		}
		p, q := number[s.a], number[s.b]
		u, v := at[k][0], at[k][1]
		m.Triangles = append(m.Triangles,
			Triangle{V: [3]int32{p, q, o + q}, N: [3]int32{u, v, v}, Kind: Wall, Opening: number1},
			Triangle{V: [3]int32{p, o + q, o + p}, N: [3]int32{u, v, u}, Kind: Wall, Opening: number1})
	}
}
