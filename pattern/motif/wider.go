package motif

import "fretband/unroll/plane"

// Wider returns the motif with wider bridges: those that run along the band by along, mm,
// those that run across it by across, slanting ones by a part of each. A point stays in a
// cell if the cell also has what lies half of either to its sides; so cells only lose, and
// stay apart.
func (m Motif) Wider(along, across float64) Motif {
	if along <= 0 && across <= 0 {
		return m
	}
	cells := m.Cells
	m.Cells = func(f Frame) Tiling {
		t := cells(f)
		shapes := make([]plane.Loop, len(t.Shapes))
		for i, l := range t.Shapes {
			shapes[i] = narrowed(narrowed(l, plane.Pt(across/2, 0)), plane.Pt(0, along/2))
		}
		t.Shapes = shapes
		return t
	}
	return m
}

// narrowed returns the largest part of a cell that it has in common with its images moved
// by d either way; where nothing is left, a speck, of which no opening is made.
func narrowed(l plane.Loop, d plane.Point) plane.Loop {
	if d == (plane.Point{}) {
		return l
	}
	both, err := plane.And(plane.Region{l.Move(d)}, plane.Region{l.Move(d.Mul(-1))})
	if err == nil {
		both, err = plane.And(both, plane.Region{l})
	}
	var best plane.Loop
	for _, part := range both {
		if part.Area() > touch && (best == nil || part.Area() > best.Area()) {
			best = part
		}
	}
	if err != nil || best == nil {
		return plane.Rect(plane.Box{Min: l.Centroid(), Max: l.Centroid()}.Grow(touch))
	}
	return best
}
