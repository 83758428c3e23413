package pattern

import (
	"fmt"
	"math"

	"fretband/unroll"
	"fretband/unroll/plane"
)

// The ground is shared out among fields as land is: an area is a territory. Openings keep
// half of their field's bridge from its edge, so that the openings of another field
// can be right on the other side. What several areas have in common belongs to
// the first of them; a later field keeps so far from an earlier one's area that the
// wider of their two bridges is between their openings.

// landed is the area of a field as a shape on the blank.
type landed struct {
	flat  unroll.Flat
	all   bool // the whole band
	run   bool // from x0 to x1, whatever the height
	strip bool // from y0 to y1, whatever the length
	lo,
	hi float64
	loop plane.Loop // of the other shapes
	// fitted says that the loop may lie inside of the true shape, by twice the
	// tolerance at most: others keep away from the shape itself.
	fitted bool
	copies []plane.Point
	// wide is what was widened last, and by how much: all later fields ask for it, and
	// most of them for the same.
	wide   plane.Region
	wideBy float64
}

// land returns the area on that blank. On a band that closes it lies in the period
// of the blank's middle.
func (a Area) land(flat unroll.Flat) (landed, error) {
	l := landed{flat: flat, lo: a.FromMM, hi: a.ToMM, copies: flat.Copies()}
	switch a.Shape {
	case "":
		l.all = true
	case RunShape:
		l.run = true
		if flat.Wraps() && l.hi-l.lo >= flat.Length {
			return landed{flat: flat, all: true}, nil
		}
		k := flat.Length * flat.Rounds((l.lo+l.hi)/2)
		l.lo, l.hi = l.lo-k, l.hi-k
	case StripShape:
		l.strip = true
	default:
		c := plane.Pt(flat.Home(a.XMM), a.YMM)
		var err error
		l.fitted = a.Shape == OvalShape || a.Shape == PathShape
		if l.loop, err = a.outline().loop(c); err != nil {
			return l, err
		}
	}
	return l, nil
}

// within returns the area less a margin at its edge, and widened the area with so
// much more round it: in all periods of a closed band. The outer edges of runs and
// strips, past the blank's, are anywhere.
func (l landed) within(margin float64) (plane.Region, error) { return l.grown(-margin) }

func (l *landed) widened(margin float64) (plane.Region, error) {
	if l.wide == nil || l.wideBy != margin {
		wide, err := l.grown(margin)
		if err != nil {
			return nil, err
		}
		l.wide, l.wideBy = wide, margin
	}
	return l.wide, nil
}

func (l landed) grown(by float64) (plane.Region, error) {
	var one []plane.Loop
	bottom, top := l.flat.Extent()
	const past = 1
	half := l.flat.Length/2 + past
	switch {
	case l.strip:
		if l.flat.Wraps() {
			half *= 3
		}
		if l.lo-by >= l.hi+by {
			return nil, nil
		}
		lo, hi := math.Max(l.lo-by, bottom-past), math.Min(l.hi+by, top+past)
		if lo >= hi {
			return nil, nil
		}
		return plane.Region{stretch(l.flat, -half, half, lo, hi)}, nil
	case l.run && l.flat.Flared():
		lo, hi := math.Max(l.lo, -half), math.Min(l.hi, half)
		if lo >= hi {
			return nil, nil
		}
		r := plane.Region{stretch(l.flat, lo, hi, bottom-past, top+past)}
		for _, x := range []float64{lo, hi} {
			var err error
			edge := plane.Region{endStrip(l.flat, x, math.Abs(by))}
			switch {
			case x == -half || x == half || math.Abs(by) < plane.Snap:
			case by > 0:
				r, err = plane.Or(r, edge)
			default:
				r, err = plane.Not(r, edge)
			}
			if err != nil {
				return nil, err
			}
		}
		return r, nil
	case l.run:
		if l.lo-by >= l.hi+by {
			return nil, nil
		}
		one = []plane.Loop{stretch(l.flat, l.lo-by, l.hi+by, bottom-past, top+past)}
	case by < 0:
		one = l.loop.Inset(-by)
	default:
		if l.fitted {
			by += 2 * plane.FitTolerance
		}
		one = l.loop.Outset(by)
	}
	var all []plane.Loop
	for _, t := range l.copies {
		for _, o := range one {
			all = append(all, o.Move(t))
		}
	}
	if len(all) < 2 {
		return all, nil
	}
	return plane.Merge(all)
}

// stretch returns what lies from x0 to x1 along a blank and from v0 to v1 across.
func stretch(flat unroll.Flat, x0, x1, v0, v1 float64) plane.Loop {
	if !flat.Flared() {
		return plane.Rect(plane.Box{Min: plane.Pt(x0, v0), Max: plane.Pt(x1, v1)})
	}
	// Arcs about the apex, of less than a quarter of a turn each.
	const n = 8
	m := onward(flat, (x1-x0)/n)
	bulge := math.Tan(m.rotation / 4)
	l := make(plane.Loop, 2*(n+1))
	for i := range n + 1 {
		x := x0 + (x1-x0)*float64(i)/n
		l[i].Point, l[2*n+1-i].Point = flat.Place(x, v0), flat.Place(x, v1)
		if i < n {
			l[i].Bulge, l[2*n-i].Bulge = bulge, -bulge
		}
	}
	return l.CCW()
}

// territory returns where the openings of field i may lie: the ground within its
// area, with half a bridge of its own at the area's edge, less the earlier areas.
// Where nothing is left it says why.
func (s *Sheet) territory(i int, areas []landed) (ground plane.Region, why string, err error) {
	d := s.Design
	bridge := d.Fields[i].Bridge(d.Rules)
	ground = s.Ground
	if !areas[i].all {
		in, err := areas[i].within(bridge / 2)
		if err == nil {
			ground, err = plane.And(ground, in)
		}
		if err != nil {
			return nil, "", fmt.Errorf("fields[%d].area: %w", i, err)
		}
	}
	if ground.Area() < touch {
		return nil, "none of its area is open ground: it lies past the rims, on reserves, or is no wider than a bridge", nil
	}
	box := ground.Bounds()
	for j := range i {
		if areas[j].all {
			return nil, fmt.Sprintf("field %d lies over the whole of its area and has the right of way: put this one before it", j+1), nil
		}
		first := d.Fields[j].Bridge(d.Rules)
		over, err := areas[j].widened(math.Max(bridge, first) - first/2)
		if err == nil && over.Bounds().Meets(box) {
			ground, err = plane.Not(ground, over)
		}
		if err != nil {
			return nil, "", fmt.Errorf("fields[%d].area: beside fields[%d]: %w", i, j, err)
		}
		if ground.Area() < touch {
			return nil, "earlier fields lie over the whole of its area and have the right of way: put this one before them", nil
		}
	}
	return ground, "", nil
}

// AreaOutline returns the outline of the area of field i as it lies on the blank,
// cut off at the blank's edge: nothing for the whole band. On a closed band an area
// that runs over the seam comes in again at the other end.
func (s *Sheet) AreaOutline(i int) plane.Region {
	a, err := s.Design.Fields[i].Area.land(s.Flat)
	if err != nil || a.all {
		return nil // Lay has seen to the error
	}
	r, err := a.within(0)
	if err != nil {
		return nil
	}
	r, err = plane.And(r, plane.Region{s.Flat.Outline})
	if err != nil {
		return nil // an outline is only shown: better none than a wrong one
	}
	return r
}
