package plane

// Region is an area of the plane: loops that do not cross, outer ones
// counter-clockwise, holes clockwise. A nil Region is empty.
type Region []Loop

// Area returns the enclosed area, mm^2.
func (r Region) Area() float64 {
	var a float64
	for _, l := range r {
		a += l.Area()
	}
	return a
}

// Len returns the length of all edges, mm.
func (r Region) Len() float64 {
	var s float64
	for _, l := range r {
		s += l.Len()
	}
	return s
}

// Bounds returns the smallest box round the region.
func (r Region) Bounds() Box {
	b := EmptyBox()
	for _, l := range r {
		b = b.Union(l.Bounds())
	}
	return b
}

// Boxes returns the box round each loop of a list.
func Boxes(ls []Loop) []Box {
	boxes := make([]Box, len(ls))
	for i, l := range ls {
		boxes[i] = l.Bounds()
	}
	return boxes
}

// Contains reports whether p is inside the region.
func (r Region) Contains(p Point) bool {
	w := 0
	for _, l := range r {
		w += l.Winding(p)
	}
	return w > 0
}

// Move returns the region moved by v.
func (r Region) Move(v Point) Region {
	m := make(Region, len(r))
	for i, l := range r {
		m[i] = l.Move(v)
	}
	return m
}
