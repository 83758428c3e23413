package plane

import "math"

// OffsetMitre is [Region.Offset] with corners left sharp: where two edges part
// at a convex corner, both run on straight along their tangents until they
// meet. A corner farther than limit times |d| from where the round join would
// have its centre is cut off square at that distance (limit 1 cuts at the round
// join's crown; 4 keeps corners down to 29 degrees). limit must be 1 or more; less
// counts as 1. For d < 0 the corners that point into the region are sharpened
// likewise, those of the metal around an opening.
//
// Every point of the round offset is in this one (for d < 0 the other way round).
// Every corner gets its mitre: the error is that of the overlay by which they are
// added or taken away, and then there is no region.
func (r Region) OffsetMitre(d, limit float64) (Region, error) {
	if !(limit >= 1) {
		limit = 1
	}
	round := r.Offset(d)
	var tips []Loop
	for _, l := range r {
		tips = appendTips(tips, l, d, limit)
	}
	if len(tips) == 0 {
		return round, nil
	}
	// A tip is the mitre less the round join: it adds to an outset, and takes from
	// an inset.
	if d > 0 {
		return Merge(append(append([]Loop{}, round...), tips...))
	}
	cut, err := Merge(tips)
	if err != nil {
		return nil, err
	}
	return Not(round, cut)
}

// appendTips appends, for each corner of l at which an offset by d opens, the
// kite between the shifted edges' ends, the corner and the mitre's tip.
func appendTips(dst []Loop, l Loop, d, limit float64) []Loop {
	n := len(l)
	for i := range l {
		in, out := newSeg(l.Edge((i+n-1)%n)), newSeg(l.Edge(i))
		_, a := in.rightNormals()
		b, _ := out.rightNormals()
		if !opensAt(&in, &out, a, b, d) || a.Dot(b) > 0 && math.Abs(a.Cross(b)) < cuspSine {
			continue
		}
		p := l[i].Point
		// Half way between the normals; at a cusp, the way in.
		u := a.Add(b).Unit()
		if a.Dot(b) < -0.5 {
			u = a.Sub(b).Unit().Left().Mul(math.Copysign(1, d))
		}
		c := math.Max(0, u.Dot(a)) // cosine of half the turn
		far := math.Abs(d) / c
		s := p.Add(a.Mul(d))
		e := p.Add(b.Mul(d))
		m := math.Copysign(1, d)
		var k Loop
		if far <= limit*math.Abs(d) {
			k = Polygon(p, s, p.Add(u.Mul(m*far)), e)
		} else {
			// Cut square to u at limit*|d|.
			cut := limit * math.Abs(d)
			// Along the edge's tangent from s until u.(x - p) = cut.
			along := (cut - c*math.Abs(d)) / math.Sqrt(1-c*c)
			ta, tb := a.Left(), b.Left().Mul(-1)
			k = Polygon(p, s, s.Add(ta.Mul(along)), e.Add(tb.Mul(along)), e)
		}
		dst = append(dst, k.CCW())
	}
	return dst
}
