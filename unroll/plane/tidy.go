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
	if out := l.appendMerged(make(Loop, 0, len(l)), tol); len(out) > 0 {
		return out
	}
	return nil
}

// appendMerged is merge into memory of the caller's. It appends nothing where
// nothing is left.
func (l Loop) appendMerged(dst Loop, tol float64) Loop {
	if len(l) < 2 {
		return dst
	}
	// Start after a vertex that stays, so that no run of mergeable edges wraps.
	start := -1
	n := len(l)
	for i := range l {
		j := i - 1
		if j < 0 {
			j = n - 1
		}
		if _, ok := merged(l.Edge(j), l.Edge(i), tol); !ok {
			start = i
			break
		}
	}
	if start < 0 {
		if n == 2 {
			if math.Abs(l.Area()) <= Snap*l.Len()/2 {
				return dst
			}
			return append(dst, l...)
		}
		start = 0
	}
	first := len(dst)
	cur := l.Edge(start)
	for i := start + 1; i < start+n; i++ {
		e := l.Edge(i % n)
		if m, ok := merged(cur, e, tol); ok {
			cur = m
			continue
		}
		dst = append(dst, Vertex{cur.A, cur.Bulge})
		cur = e
	}
	dst = append(dst, Vertex{cur.A, cur.Bulge})
	if len(dst)-first < 2 {
		return dst[:first]
	}
	return dst
}

// merged returns the single edge that runs along a and then b within tol, if
// there is one.
func merged(a, b Edge, tol float64) (Edge, bool) {
	if (a.Bulge == 0) != (b.Bulge == 0) || a.Bulge*b.Bulge < 0 {
		return Edge{}, false
	}
	m := Edge{A: a.A, B: b.B}
	d := m.B.Sub(m.A)
	if a.Bulge == 0 {
		// Cheap tests first.
		u := a.B.Sub(a.A)
		c2 := d.Dot(d)
		if x := d.Cross(u); x*x > 4*tol*tol*c2 {
			return Edge{}, false
		}
		c := math.Sqrt(c2)
		if c <= tol || u.Dot(d) <= 0 || b.B.Sub(b.A).Dot(d) <= 0 {
			return Edge{}, false
		}
		return m, math.Abs(d.Cross(u)) <= tol*c
	}
	// The tangents of quarter sweeps add up like those of any angles. Over half
	// a turn in all, the sum is over 1, or has turned its sign.
	q := 1 - a.Bulge*b.Bulge
	if q <= 0 || d.Dot(d) <= tol*tol {
		return Edge{}, false
	}
	m.Bulge = (a.Bulge + b.Bulge) / q
	if math.Abs(m.Bulge) > 1+1e-9 {
		return Edge{}, false
	}
	s := newSeg(m)
	return m, s.dist(a.B) <= tol && s.dist(a.Mid()) <= tol && s.dist(b.Mid()) <= tol
}
