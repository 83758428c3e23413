package plane

import "math"

// Tidy returns the loop without edges shorter than [Snap], with neighbouring
// collinear lines merged into one line and neighbouring arcs of one circle into
// one arc of at most half a turn. No point of the edge moves by more than two
// Snaps in one merging. A loop of which nothing is left is nil. The vertices that
// stay keep their coordinates to the last bit.
func (l Loop) Tidy() Loop {
	t := make(Loop, 0, len(l))
	for i, v := range l {
		if l.Edge(i).Len() <= Snap && len(l) > 1 {
			// The edge's end takes its place: the vertex goes.
			continue
		}
		t = append(t, v)
	}
	return t.merge(2 * Snap)
}

// merge joins neighbouring edges that lie within tol on one line or circle.
func (l Loop) merge(tol float64) Loop {
	if len(l) < 2 {
		return nil
	}
	// Start after a vertex that stays, so that no run of mergeable edges wraps.
	start := -1
	n := len(l)
	for i := range l {
		if _, ok := merged(l.Edge((i+n-1)%n), l.Edge(i), tol); !ok {
			start = i
			break
		}
	}
	if start < 0 {
		if n == 2 {
			if math.Abs(l.Area()) <= Snap*l.Len()/2 {
				return nil
			}
			return l
		}
		start = 0
	}
	out := make(Loop, 0, n)
	cur := l.Edge(start)
	for i := 1; i < n; i++ {
		e := l.Edge((start + i) % n)
		if m, ok := merged(cur, e, tol); ok {
			cur = m
			continue
		}
		out = append(out, Vertex{cur.A, cur.Bulge})
		cur = e
	}
	out = append(out, Vertex{cur.A, cur.Bulge})
	if len(out) < 2 {
		return nil
	}
	return out
}

// merged returns the single edge that runs along a and then b within tol, if
// there is one.
func merged(a, b Edge, tol float64) (Edge, bool) {
	if (a.Bulge == 0) != (b.Bulge == 0) || a.Bulge*b.Bulge < 0 {
		return Edge{}, false
	}
	m := Edge{A: a.A, B: b.B}
	d := m.B.Sub(m.A)
	c := d.Len()
	if a.Bulge == 0 {
		if c <= tol || a.B.Sub(a.A).Dot(d) <= 0 || b.B.Sub(b.A).Dot(d) <= 0 {
			return Edge{}, false
		}
		return m, math.Abs(d.Cross(a.B.Sub(a.A))) <= tol*c
	}
	// Cheap tests first: tangents and curvatures must agree at the joint.
	s := 4 * (math.Atan(a.Bulge) + math.Atan(b.Bulge))
	if math.Abs(s) > math.Pi*(1+1e-9) || c <= tol {
		return Edge{}, false
	}
	m.Bulge = math.Tan(s / 4)
	q := newSeg(m)
	return m, q.dist(a.B) <= tol && q.dist(a.Mid()) <= tol && q.dist(b.Mid()) <= tol
}
