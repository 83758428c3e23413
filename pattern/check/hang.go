package check

import (
	"math"

	"fretband/pattern"
	"fretband/unroll"
	"fretband/unroll/plane"
)

// Hang is how the bent band hangs and how large it is.
type Hang struct {
	// Centre is the centre of gravity of the metal left and of what is added, mm, in the coordinates of
	// [unroll.Flat.Bend]: from the middle of the inside, Y towards the front, Z
	// along the axis.
	Centre unroll.Point3
	// Off is its distance from the axis, mm, and Angle the way, radians from the
	// front (0) over the flat's right (+) or left (-) to the back (pi), in which
	// it lies: the side that hangs down on a wrist held level.
	Off, Angle float64
	// Width, Height and Depth are those of the box round the band, mm: across the
	// wrist, from the back to the front, and along the axis.
	Width, Height, Depth float64
	// LeastRadius is the smallest inner radius, mm.
	LeastRadius float64
}

// hang measures the bent band. The centre of gravity is that of the solid with
// walls along the normal; each part's moments are integrated on the flat (see
// unroll/solid.go), better than 1e-6 of the band's size.
func hang(s *pattern.Sheet) Hang {
	f := s.Flat
	total := f.Solid(f.Outline)
	type shape struct {
		s  unroll.Slices
		ok bool
	}
	known := map[int]shape{}
	for i := range s.Openings {
		o := &s.Openings[i]
		if o.Shape >= 0 {
			z, seen := known[o.Shape]
			if !seen {
				z.s, z.ok = f.Slices(o.Loop.Move(o.At.Mul(-1)))
				known[o.Shape] = z
			}
			if z.ok {
				if part, ok := f.SolidAt(z.s, o.At); ok {
					total = total.Add(part, -1)
					continue
				}
			}
		}
		total = total.Add(f.Solid(o.Loop), -1)
	}
	h := Hang{LeastRadius: f.LeastRadius()}
	if v := total.Volume; v > 0 {
		h.at(unroll.Point3{X: total.Moment.X / v, Y: total.Moment.Y / v, Z: total.Moment.Z / v})
	}
	h.Width, h.Height, h.Depth = bentSize(f)
	return h
}

func (h *Hang) at(centre unroll.Point3) {
	h.Centre = centre
	h.Off = math.Hypot(centre.X, centre.Y)
	h.Angle = math.Atan2(-centre.X, centre.Y)
}

// with returns how the band hangs with what is added to it: each part as a weight in one point,
// wire as many of them along its way.
func (h Hang) with(s *pattern.Sheet, r *Report) Hang {
	if len(r.Added) == 0 || r.Left <= 0 {
		return h
	}
	sum, c := r.Left, unroll.Point3{X: r.Left * h.Centre.X, Y: r.Left * h.Centre.Y, Z: r.Left * h.Centre.Z}
	add := func(p plane.Point, height, g float64) {
		q := s.Flat.Bend(p, s.Flat.Thickness+height)
		sum, c = sum+g, unroll.Point3{X: c.X + g*q.X, Y: c.Y + g*q.Y, Z: c.Z + g*q.Z}
	}
	for i, set := range s.Added {
		part := r.Added[i]
		for _, seat := range set.Seats {
			add(seat.At, part.middle, part.Each)
		}
		for k, w := range set.Wires {
			for j, p := range w.Way {
				share := 1 / float64(len(w.Way)-1)
				if j == 0 || j == len(w.Way)-1 {
					share /= 2
				}
				add(p, part.middle, share*part.Lengths[k]/part.length()*part.Total)
			}
		}
	}
	h.at(unroll.Point3{X: c.X / sum, Y: c.Y / sum, Z: c.Z / sum})
	return h
}

// bentSize returns the box round the bent band, from positions on the outline and
// the middle line less than half a millimetre apart: short of the truth by less
// than a hundredth.
func bentSize(f unroll.Flat) (w, h, d float64) {
	lo := unroll.Point3{X: math.Inf(1), Y: math.Inf(1), Z: math.Inf(1)}
	hi := unroll.Point3{X: math.Inf(-1), Y: math.Inf(-1), Z: math.Inf(-1)}
	add := func(p plane.Point) {
		for _, depth := range [2]float64{0, f.Thickness} {
			q := f.Bend(p, depth)
			lo = unroll.Point3{X: math.Min(lo.X, q.X), Y: math.Min(lo.Y, q.Y), Z: math.Min(lo.Z, q.Z)}
			hi = unroll.Point3{X: math.Max(hi.X, q.X), Y: math.Max(hi.Y, q.Y), Z: math.Max(hi.Z, q.Z)}
		}
	}
	run := func(e plane.Edge) {
		n := int(math.Ceil(2 * e.Len()))
		for i := range n + 1 {
			add(e.At(float64(i) / float64(max(n, 1))))
		}
	}
	for i := range f.Outline {
		run(f.Outline.Edge(i))
	}
	if f.Domed() { // the middle lies further out than the edges
		run(plane.Edge{A: plane.Pt(-f.Length/2, 0), B: plane.Pt(f.Length/2, 0)})
	}
	return hi.X - lo.X, hi.Y - lo.Y, hi.Z - lo.Z
}
