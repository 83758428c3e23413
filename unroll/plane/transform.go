package plane

// Move returns the loop moved by v.
func (l Loop) Move(v Point) Loop {
	m := make(Loop, len(l))
	for i, x := range l {
		m[i] = Vertex{x.Point.Add(v), x.Bulge}
	}
	return m
}

// Turn returns the loop turned by angle about the origin.
func (l Loop) Turn(angle float64) Loop {
	m := make(Loop, len(l))
	for i, x := range l {
		m[i] = Vertex{x.Point.Turn(angle), x.Bulge}
	}
	return m
}

// Scale returns the loop scaled by k > 0 about the origin.
func (l Loop) Scale(k float64) Loop {
	m := make(Loop, len(l))
	for i, x := range l {
		m[i] = Vertex{x.Point.Mul(k), x.Bulge}
	}
	return m
}

// MirrorX returns the loop mirrored left to right (x to -x), still running the
// way it ran.
func (l Loop) MirrorX() Loop {
	m := make(Loop, len(l))
	for i, x := range l {
		m[i] = Vertex{Point{-x.X, x.Y}, -x.Bulge}
	}
	return m.Reverse()
}

// MirrorY returns the loop mirrored top to bottom (y to -y), still running the
// way it ran.
func (l Loop) MirrorY() Loop {
	m := make(Loop, len(l))
	for i, x := range l {
		m[i] = Vertex{Point{x.X, -x.Y}, -x.Bulge}
	}
	return m.Reverse()
}

// CCW returns the loop run counter-clockwise.
func (l Loop) CCW() Loop {
	if l.Area() < 0 {
		return l.Reverse()
	}
	return l
}

func (e Edge) move(v Point) Edge { return Edge{e.A.Add(v), e.B.Add(v), e.Bulge} }
