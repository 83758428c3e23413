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
		for _, f := range FitArcs(c, 0, 1, tol) {
			out = append(out, Vertex{f.A, f.Bulge})
		}
	}
	return out.merge(sameCurve)
}

// Steps returns the map of f with its derivative taken from differences over
// 2h, mm: good to h^2 times the third derivative.
func Steps(f func(p Point) Point, h float64) Map {
	return func(p Point) (q, dx, dy Point) {
		x, y := Point{h, 0}, Point{0, h}
		dx = f(p.Add(x)).Sub(f(p.Sub(x))).Mul(1 / (2 * h))
		dy = f(p.Add(y)).Sub(f(p.Sub(y))).Mul(1 / (2 * h))
		return f(p), dx, dy
	}
}
