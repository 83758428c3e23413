package plane

// Chain is a line of edges, each of which begins where the one before ends.
type Chain []Edge

// Loop returns the loop through the points at which the edges begin. It is the line itself
// if that closes.
func (c Chain) Loop() Loop {
	l := make(Loop, len(c))
	for i, e := range c {
		l[i] = Vertex{e.A, e.Bulge}
	}
	return l
}

// Len returns the length of all edges, mm.
func (c Chain) Len() float64 {
	var s float64
	for _, e := range c {
		s += e.Len()
	}
	return s
}

// Bounds returns the smallest box round the edges.
func (c Chain) Bounds() Box {
	b := EmptyBox()
	for _, e := range c {
		b = b.Union(e.Bounds())
	}
	return b
}

// Reverse returns the line run the other way.
func (c Chain) Reverse() Chain {
	r := make(Chain, len(c))
	for i, e := range c {
		r[len(c)-1-i] = e.Reverse()
	}
	return r
}
