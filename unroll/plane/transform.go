package plane

import "math"

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
	s, c := math.Sincos(angle)
	return l.each(func(x Vertex) Vertex { return Vertex{Point{c*x.X - s*x.Y, s*x.X + c*x.Y}, x.Bulge} })
}

// Scale returns the loop scaled by k > 0 about the origin.
func (l Loop) Scale(k float64) Loop {
	return l.each(func(x Vertex) Vertex { return Vertex{x.Point.Mul(k), x.Bulge} })
}

// MirrorX returns the loop mirrored left to right (x to -x), still running the
// way it ran.
func (l Loop) MirrorX() Loop {
	return l.each(func(x Vertex) Vertex { return Vertex{Point{-x.X, x.Y}, -x.Bulge} }).Reverse()
}

// MirrorY returns the loop mirrored top to bottom (y to -y), still running the
// way it ran.
func (l Loop) MirrorY() Loop {
	return l.each(func(x Vertex) Vertex { return Vertex{Point{x.X, -x.Y}, -x.Bulge} }).Reverse()
}

func (l Loop) each(image func(Vertex) Vertex) Loop {
	m := make(Loop, len(l))
	for i, x := range l {
		m[i] = image(x)
	}
	return m
}

// CCW returns the loop run counter-clockwise.
func (l Loop) CCW() Loop {
	if l.Area() < 0 {
		return l.Reverse()
	}
	return l
}

func (e Edge) move(v Point) Edge { return Edge{e.A.Add(v), e.B.Add(v), e.Bulge} }
