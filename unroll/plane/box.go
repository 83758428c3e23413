package plane

import "math"

// Box is an upright rectangle, both corners included. The zero Box is the
// origin; [EmptyBox] is the box of nothing.
type Box struct {
	Min, Max Point
}

// EmptyBox returns the box that holds no point and grows by Add.
func EmptyBox() Box {
	return Box{Point{math.Inf(1), math.Inf(1)}, Point{math.Inf(-1), math.Inf(-1)}}
}

// Empty reports whether the box holds no point.
func (b Box) Empty() bool { return b.Min.X > b.Max.X || b.Min.Y > b.Max.Y }

// W returns the width of the box along x.
func (b Box) W() float64 { return b.Max.X - b.Min.X }

// H returns the height of the box along y.
func (b Box) H() float64 { return b.Max.Y - b.Min.Y }

// Centre returns the middle of the box.
func (b Box) Centre() Point { return b.Min.Mid(b.Max) }

// Add returns the smallest box that holds b and p.
func (b Box) Add(p Point) Box {
	return Box{
		Point{math.Min(b.Min.X, p.X), math.Min(b.Min.Y, p.Y)},
		Point{math.Max(b.Max.X, p.X), math.Max(b.Max.Y, p.Y)},
	}
}

// Union returns the smallest box that holds both.
func (b Box) Union(c Box) Box {
	return Box{
		Point{math.Min(b.Min.X, c.Min.X), math.Min(b.Min.Y, c.Min.Y)},
		Point{math.Max(b.Max.X, c.Max.X), math.Max(b.Max.Y, c.Max.Y)},
	}
}

// Grow returns the box widened by d on every side.
func (b Box) Grow(d float64) Box {
	return Box{Point{b.Min.X - d, b.Min.Y - d}, Point{b.Max.X + d, b.Max.Y + d}}
}

// Move returns the box moved by v.
func (b Box) Move(v Point) Box { return Box{b.Min.Add(v), b.Max.Add(v)} }

// Meets reports whether the boxes share a point.
func (b Box) Meets(c Box) bool {
	return b.Min.X <= c.Max.X && c.Min.X <= b.Max.X && b.Min.Y <= c.Max.Y && c.Min.Y <= b.Max.Y
}

// Contains reports whether p is in the box.
func (b Box) Contains(p Point) bool {
	return b.Min.X <= p.X && p.X <= b.Max.X && b.Min.Y <= p.Y && p.Y <= b.Max.Y
}

// Nearest returns the point of the box that is nearest to p.
func (b Box) Nearest(p Point) Point {
	return Point{math.Max(b.Min.X, math.Min(p.X, b.Max.X)), math.Max(b.Min.Y, math.Min(p.Y, b.Max.Y))}
}

// Dist returns the distance between two boxes, 0 if they meet.
func (b Box) Dist(c Box) float64 {
	dx := math.Max(0, math.Max(b.Min.X-c.Max.X, c.Min.X-b.Max.X))
	dy := math.Max(0, math.Max(b.Min.Y-c.Max.Y, c.Min.Y-b.Max.Y))
	return math.Hypot(dx, dy)
}

// Nearer reports whether two boxes are less than d apart. It is Dist(c) < d
// without the square root.
func (b Box) Nearer(c Box, d float64) bool {
	dx := max(b.Min.X-c.Max.X, c.Min.X-b.Max.X, 0)
	dy := max(b.Min.Y-c.Max.Y, c.Min.Y-b.Max.Y, 0)
	return dx < d && dy < d && dx*dx+dy*dy < d*d
}
