package plane

// Ready is a loop made ready for many questions, for which [Loop] makes its edges
// ready each time. The answers are the same.
type Ready struct {
	segs []seg
	box  Box
}

// Ready makes the loop ready.
func (l Loop) Ready() *Ready {
	r := &Ready{segs: appendSegs(nil, l), box: EmptyBox()}
	for i := range r.segs {
		r.box.take(&r.segs[i].box)
	}
	return r
}

// Nearest returns the place of the loop nearest to p: on which edge, at which fraction
// of it, and the point. Of several equally near it is the first. The edge of a loop
// without vertices is -1.
func (r *Ready) Nearest(p Point) (edge int, t float64, q Point) {
	edge = -1
	var best float64
	for i := range r.segs {
		s := &r.segs[i]
		if edge >= 0 && s.dist(p) > best+Snap {
			continue
		}
		f, x := s.nearest(p)
		if d := x.Dist(p); edge < 0 || d < best {
			edge, t, q, best = i, f, x, d
		}
	}
	return edge, t, q
}

// Gap returns the shortest gap between the edges of two loops, as the function [Nearest],
// if it is under the limit; else its length is +Inf.
func (r *Ready) Gap(o *Ready, limit float64) Gap {
	return nearestSegLists(r.segs, o.segs, &r.box, &o.box, limit)
}
