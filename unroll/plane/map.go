package plane

// Map is a smooth map of the plane: where p goes, and how that position moves with
// p along x and along y (the columns of its derivative).
type Map func(p Point) (q, dx, dy Point)

// Map returns the image of the loop under a smooth map that does not fold it,
// as lines and arcs within tol, mm: each edge is fitted by itself ([FitArcs]), so
// corners stay corners and tangents tangents. A map that mirrors turns the loop
// round; see [Loop.CCW].
func (l Loop) Map(m Map, tol float64) Loop {
	var out Loop
	for i := range l {
		e := l.Edge(i)
		if e.A == e.B {
			continue
		}
		c := func(t float64) (Point, Point) {
			q, dx, dy := m(e.At(t))
			d := e.Tangent(t)
			return q, dx.Mul(d.X).Add(dy.Mul(d.Y))
		}
		out = append(out, FitArcs(c, 0, 1, tol).Loop()...)
	}
	return out.merge(sameCurve)
}
