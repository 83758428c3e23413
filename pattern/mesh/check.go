package mesh

import (
	"fmt"

	"fretband/unroll"
)

// Volume returns the volume enclosed, mm^3: the sum of the signed tetrahedra
// between the triangles and one point (the divergence theorem).
func (m *Mesh) Volume() float64 {
	if len(m.Vertices) == 0 {
		return 0
	}
	o := m.Vertices[0]
	var six float64
	for _, t := range m.Triangles {
		a, b, c := sub(m.Vertices[t.V[0]], o), sub(m.Vertices[t.V[1]], o), sub(m.Vertices[t.V[2]], o)
		six += dot(a, cross(b, c))
	}
	return six / 6
}

// Area returns the area of the triangles of one kind, mm^2.
func (m *Mesh) Area(k Kind) float64 {
	var twice float64
	for _, t := range m.Triangles {
		if t.Kind == k {
			a := m.Vertices[t.V[0]]
			twice += length(cross(sub(m.Vertices[t.V[1]], a), sub(m.Vertices[t.V[2]], a)))
		}
	}
	return twice / 2
}

// Check says what is wrong with the surface, nil if it is sound: one closed
// surface of one piece, each edge between just two triangles that run along it
// in opposite directions, no triangle without area, and as many handles as the
// band must have. Cost: some 50 ns a triangle.
func (m *Mesh) Check() error {
	// The triangles' edges, by their lower end.
	type half struct {
		to, t int32
		up    bool
	}
	n := len(m.Vertices)
	first := make([]int32, n+1)
	for i, t := range m.Triangles {
		a, b, c := t.V[0], t.V[1], t.V[2]
		if a == b || b == c || c == a || !(length(cross(sub(m.Vertices[b], m.Vertices[a]), sub(m.Vertices[c], m.Vertices[a]))) > 1e-12) {
			return fmt.Errorf("triangle %d has no area", i)
		}
		for k, v := range t.V {
			first[min(v, t.V[(k+1)%3])]++
		}
	}
	var sum int32
	for i, k := range first {
		first[i] = sum
		sum += k
	}
	halves := make([]half, sum)
	fill := append([]int32(nil), first...)
	for i, t := range m.Triangles {
		for k, v := range t.V {
			w := t.V[(k+1)%3]
			lo, hi := min(v, w), max(v, w)
			halves[fill[lo]] = half{hi, int32(i), v < w}
			fill[lo]++
		}
	}
	group := make([]int32, len(m.Triangles))
	for i := range group {
		group[i] = int32(i)
	}
	find := func(i int32) int32 {
		for group[i] != i {
			group[i] = group[group[i]]
			i = group[i]
		}
		return i
	}
	pieces, edges, points := len(m.Triangles), 0, 0
	for v := range n {
		mine := halves[first[v]:first[v+1]]
		for i, h := range mine {
			if h.t < 0 {
				continue
			}
			other := -1
			for j := i + 1; j < len(mine); j++ {
				if mine[j].to == h.to && mine[j].t >= 0 {
					if other >= 0 {
						return fmt.Errorf("edge %d-%d belongs to more than two triangles", v, h.to)
					}
					other = j
				}
			}
			if other < 0 {
				return fmt.Errorf("edge %d-%d belongs to one triangle only: %v", v, h.to, m.Vertices[v])
			}
			if mine[other].up == h.up {
				return fmt.Errorf("edge %d-%d is run along twice in the same direction", v, h.to)
			}
			edges++
			if a, b := find(h.t), find(mine[other].t); a != b {
				group[a] = b
				pieces--
			}
			mine[other].t = -1
		}
	}
	used := make([]bool, n)
	for _, t := range m.Triangles {
		for _, v := range t.V {
			if !used[v] {
				used[v] = true
				points++
			}
		}
	}
	if pieces != 1 {
		return fmt.Errorf("the surface is in %d pieces: must be 1", pieces)
	}
	if euler, want := points-edges+len(m.Triangles), 2-2*m.Handles(); euler != want {
		return fmt.Errorf("the surface has Euler characteristic %d: must be %d for %d openings", euler, want, m.Openings)
	}
	return nil
}

// Bounds returns the corners of the box round the mesh, mm.
func (m *Mesh) Bounds() (lo, hi unroll.Point3) {
	for i, v := range m.Vertices {
		if i == 0 {
			lo, hi = v, v
		}
		lo = unroll.Point3{X: min(lo.X, v.X), Y: min(lo.Y, v.Y), Z: min(lo.Z, v.Z)}
		hi = unroll.Point3{X: max(hi.X, v.X), Y: max(hi.Y, v.Y), Z: max(hi.Z, v.Z)}
	}
	return lo, hi
}
