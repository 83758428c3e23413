package plane

import "math"

// Disc is a circle's inside.
type Disc struct {
	C Point
	R float64
}

// WidthAt returns the largest disc inside the region that holds p: its diameter
// is the local width of the metal at p, the width of a bridge if p is on one.
// Radii over most, mm, are not looked for. A point outside of the region has a
// disc of radius 0. Exact to a hundredth of [FitTolerance].
//
// Local width in this sense is Hildebrand and Rueegsegger's local thickness ("A
// new method for the model-independent assessment of thickness in
// three-dimensional images", Journal of Microscopy 185, 1997). A disc of radius
// r that holds p exists if p is within r of the region's inset by r (the opening
// by r holds p), which is asked of ever closer r; only what is within 2r of p
// matters. The error is an overlay's. Cost: a few clips of the region, some twenty
// small insets.
func (r Region) WidthAt(p Point, most float64) (Disc, error) {
	if !r.Contains(p) {
		return Disc{p, 0}, nil
	}
	best := Disc{p, math.Min(most, r.Nearest(p).D)}
	var near Region // what discs of radius hi that hold p can meet
	try := func(radius float64) bool {
		in := near.Offset(-radius)
		if in.Contains(p) {
			best = Disc{p, radius}
			return true
		}
		if g := in.Nearest(p); g.D <= radius {
			best = Disc{g.B, radius}
			return true
		}
		return false
	}
	// Twice as much until it is too much, then halves.
	lo, hi := best.R, math.Min(most, 2*best.R+FitTolerance)
	for lo < most {
		h := 2*hi + 1e-3
		var err error
		if near, err = And(r, Region{Rect(Box{p.Sub(Point{h, h}), p.Add(Point{h, h})})}); err != nil {
			return best, err
		}
		if !try(hi) {
			break
		}
		lo, hi = hi, math.Min(most, 2*hi)
	}
	for hi-lo > FitTolerance/200 {
		if m := (lo + hi) / 2; try(m) {
			lo = m
		} else {
			hi = m
		}
	}
	return best, nil
}
