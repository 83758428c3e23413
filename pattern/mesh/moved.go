package mesh

import (
	"fretband/unroll"
	"fretband/unroll/cores"
	"fretband/unroll/plane"
)

// Moving says how the metal's middle surface moves, mm, and turns about the world's axes,
// radians, at a position on the blank. Nil is metal that stands still.
type Moving func(p plane.Point) (move, turn unroll.Point3)

// Moved returns the mesh of the band as it is after it has moved. Everything on the flat
// stays as it is, so what lies on the blank is found on it as before. Motions add up as
// those of small ones do, however large they are drawn: lines square to the surface stay
// straight and turn with it.
func (m *Mesh) Moved(how Moving) *Mesh {
	if how == nil {
		return m
	}
	out := *m
	n := len(m.Flat)
	out.Vertices, out.Normals = make([]unroll.Point3, len(m.Vertices)), make([]unroll.Point3, len(m.Normals))
	turns := make([]unroll.Point3, n)
	cores.Runs(n, 16, func(_, from, to int) {
		for i := from; i < to; i++ {
			move, turn := how(m.place(m.Flat[i].X, m.Flat[i].Y))
			turns[i] = turn
			out.Vertices[i], out.Vertices[n+i] = carried(m.Vertices[i], m.Vertices[n+i], move, turn)
			out.Normals[i], out.Normals[n+i] = turned(m.Normals[i], turn), turned(m.Normals[n+i], turn)
		}
	})
	// The walls' own directions turn with the corners that have them.
	for _, t := range m.Triangles {
		for k, v := range t.N {
			if int(v) >= 2*n {
				out.Normals[v] = turned(m.Normals[v], turns[int(t.V[k])%n])
			}
		}
	}
	return &out
}

// carried returns where two positions at the same place of the two faces go.
func carried(inner, outer, move, turn unroll.Point3) (in, out unroll.Point3) {
	half := scale(sub(outer, inner), 0.5)
	middle := add(add(inner, half), move)
	half = add(half, cross(turn, half))
	return sub(middle, half), add(middle, half)
}

// turned returns the direction that a surface looks in after it has turned: the motion
// takes each v along it to v + turn x v, and the result is square to all of those.
func turned(n, turn unroll.Point3) unroll.Point3 {
	return unitOf(add(add(n, cross(turn, n)), scale(turn, dot(turn, n))))
}
