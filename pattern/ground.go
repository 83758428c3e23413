package pattern

import (
	"fmt"
	"math"

	"fretband/unroll"
	"fretband/unroll/plane"
)

// groundOf returns where openings may lie: the blank less its rim, its joint,
// the reserves and added parts with their margins and what is kept solid round engravings;
// and the reserves themselves.
//
// A closed band has no ends. Its ground is taken over three periods, so that the
// rim and the reserves that reach over the seam are true there; a soldered
// joint then cuts one period out of it.
func groundOf(d Design, f unroll.Flat, edgeRule float64, rim *rimCurve, engraved []drawn, sets []Set) (plane.Region, []Reserved, error) {
	blank, sm := plane.Region{f.Outline}, seamOf(d, f)
	joined := sm.closed && !f.Flared()
	if joined {
		for _, n := range [2]int{-1, 1} {
			var err error
			if blank, err = plane.Or(blank, plane.Region{sm.round(n).Loop(f.Outline)}); err != nil {
				return nil, nil, fmt.Errorf("joining the turns of the blank: %w", err)
			}
		}
	}
	g := blank.Offset(-edgeRule)
	if joined {
		// Seamless: one and a half periods, so that an opening may run over the
		// seam whole. Soldered: one period, less the joint.
		x := f.Length
		if f.JointStrip > 0 || d.Band.Joint == unroll.Soldered {
			x = f.Length/2 - math.Max(f.JointStrip, d.Rules.BridgeMM)
		}
		b := blank.Bounds()
		var err error
		if g, err = plane.And(g, plane.Region{plane.Rect(plane.Box{Min: plane.Pt(-x, b.Min.Y), Max: plane.Pt(x, b.Max.Y)})}); err != nil {
			return nil, nil, fmt.Errorf("keeping the joint solid: %w", err)
		}
	}
	var reserves []Reserved
	var solid []plane.Loop
	if sm.closed && f.Flared() {
		// The ends of a closed flared band, kept solid like those of any joint.
		for _, side := range []float64{-1, 1} {
			solid = append(solid, endStrip(f, side*f.Length/2, math.Max(f.JointStrip, d.Rules.BridgeMM)))
		}
	}
	if rim != nil {
		to := f.Length / 2
		if joined {
			to *= 3
		}
		strips, err := rim.solid(d, f, blank, edgeRule, to)
		if err != nil {
			return nil, nil, err
		}
		solid = append(solid, strips...)
	}
	extent := g.Bounds()
	edges := 0
	for i, r := range d.Reserves {
		shape, err := r.ownLoop()
		if err != nil {
			return nil, nil, fmt.Errorf("reserves[%d]: %w", i, err)
		}
		if edges += r.outline().drawn(shape) * max(1, r.Count); edges > MaxShapeEdges {
			return nil, nil, tooManyEdges(fmt.Sprintf("reserves[%d]", i), "reserves", edges)
		}
		round := shape.Outset(r.margin(shape, d.Rules.BridgeMM))
		for _, m := range r.row(d, f) {
			at := plane.Pt(r.XMM, r.YMM).Turn(m.rotation).Add(m.by)
			reserves = append(reserves, Reserved{m.loop(shape), i, at, r.RotationDeg*math.Pi/180 + m.rotation})
			for _, l := range round {
				solid = append(solid, sm.onGround(m.loop(l), extent)...)
			}
		}
	}
	for i, m := range engraved {
		round, err := m.keepOut(d.Engravings[i], d.Rules.BridgeMM)
		if err != nil {
			return nil, nil, fmt.Errorf("marks[%d]: %w", i, err)
		}
		for _, l := range round {
			solid = append(solid, sm.onGround(l, extent)...)
		}
	}
	for _, set := range sets {
		for _, l := range set.solid {
			solid = append(solid, sm.onGround(l, extent)...)
		}
	}
	if len(solid) == 0 {
		return g, reserves, nil
	}
	all, err := plane.Merge(solid)
	if err == nil {
		g, err = plane.Not(g, all)
	}
	if err != nil {
		return nil, nil, fmt.Errorf("reserves: %w", err)
	}
	return g, reserves, nil
}

// endStrip returns the strip about the line across the blank at x, half mm wide to
// either side.
func endStrip(f unroll.Flat, x, half float64) plane.Loop {
	bottom, top := f.Extent()
	a, b := f.Place(x, bottom-1), f.Place(x, top+1)
	n := b.Sub(a).Unit().Left().Mul(half)
	return plane.Polygon(a.Add(n), a.Sub(n), b.Sub(n), b.Add(n)).CCW()
}
