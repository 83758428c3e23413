package pattern

import (
	"fmt"
	"math"

	"fretband/unroll"
	"fretband/unroll/plane"
)

// groundOf returns where openings may lie: the blank less its rim, its joint and
// the reserves with their margins; and the reserves themselves.
//
// A closed band has no ends. Its ground is taken over three turns, so that the
// rim and the reserves that reach over the seam are true there; a soldered
// joint then cuts one turn out of it.
func groundOf(d Design, f unroll.Flat, keep float64) (plane.Region, []plane.Loop, error) {
	blank := plane.Region{f.Outline}
	turns := []float64{0}
	if f.Period > 0 {
		turns = []float64{0, -f.Period, f.Period}
		for _, dx := range turns[1:] {
			var err error
			if blank, err = plane.Or(blank, plane.Region{f.Outline}.Move(plane.Pt(dx, 0))); err != nil {
				return nil, nil, fmt.Errorf("joining the turns of the blank: %w", err)
			}
		}
	}
	g := blank.Offset(-keep)
	if f.Period > 0 {
		// Seamless: one and a half turns, so that an opening may run over the
		// seam whole. Soldered: one turn, less the joint.
		x := f.Period
		if f.JointKeep > 0 || d.Band.Joint == unroll.Soldered {
			x = f.Length/2 - math.Max(f.JointKeep, d.Rules.BridgeMM)
		}
		b := blank.Bounds()
		var err error
		if g, err = plane.And(g, plane.Region{plane.Rect(plane.Box{Min: plane.Pt(-x, b.Min.Y), Max: plane.Pt(x, b.Max.Y)})}); err != nil {
			return nil, nil, fmt.Errorf("keeping the joint solid: %w", err)
		}
	}
	var reserves []plane.Loop
	var solid plane.Region
	if f.Flared() && d.Band.Kind != unroll.Cuff {
		// The ends of a closed flared band, kept solid like those of any joint.
		for _, side := range []float64{-1, 1} {
			var err error
			if solid, err = plane.Or(solid, plane.Region{endStrip(f, side*f.Length/2, math.Max(f.JointKeep, d.Rules.BridgeMM))}); err != nil {
				return nil, nil, fmt.Errorf("keeping the joint solid: %w", err)
			}
		}
	}
	for i, r := range d.Reserves {
		l, err := r.outline().loop(plane.Pt(r.XMM, r.YMM))
		if err != nil {
			return nil, nil, fmt.Errorf("reserves[%d]: %w", i, err)
		}
		reserves = append(reserves, l)
		for _, dx := range turns {
			if solid, err = plane.Or(solid, l.Move(plane.Pt(dx, 0)).Outset(r.margin(l, d.Rules.BridgeMM))); err != nil {
				return nil, nil, fmt.Errorf("reserves[%d]: %w", i, err)
			}
		}
	}
	if len(solid) == 0 {
		return g, reserves, nil
	}
	g, err := plane.Not(g, solid)
	if err != nil {
		return nil, nil, fmt.Errorf("reserves: %w", err)
	}
	return g, reserves, nil
}

// endStrip returns the strip about the line across the blank at x, half mm wide to
// either side.
func endStrip(f unroll.Flat, x, half float64) plane.Loop {
	bottom, top := f.Reach()
	a, b := f.Place(x, bottom-1), f.Place(x, top+1)
	n := b.Sub(a).Unit().Left().Mul(half)
	return plane.Polygon(a.Add(n), a.Sub(n), b.Sub(n), b.Add(n)).CCW()
}

// margin returns the distance that openings keep from the reserve: the one
// asked for, or more where the reserve with its margin is itself narrower than
// the bridge rule, since it may stand between two openings.
func (r Reserve) margin(l plane.Loop, bridge float64) float64 {
	b := l.Turn(-r.TurnDeg * math.Pi / 180).Bounds()
	return math.Max(r.MarginMM, (bridge-math.Min(b.W(), b.H()))/2)
}
