package pattern

import (
	"math"

	"fretband/unroll/plane"
)

// Rules are what every opening is held to, mm.
type Rules struct {
	Bridge   float64 // least metal between two openings, and between two parts of one
	Corner   float64 // least radius of an opening's inner corners
	Smallest float64 // diameter of the circle that every opening admits
}

// Trim makes openings of loops laid anyhow: of mixed motifs, moved by hand, read
// from a file, near each other or over each other.
//
// Guarantee. Every opening lies within one of the loops and on the ground; no two
// are nearer to each other than the bridge, nor are two parts of one opening's
// edge with metal between them; every inner corner has the least radius, and
// every opening admits the smallest circle. Loops that keep the rules come back
// as they are, but for corners. Two that do not give alike and no more than
// needed (see [plane.Apart]); of a loop that lies mostly over an earlier one
// nothing is left. What can't be cut is returned as dropped, with the reason.
//
// Openings are in the order of their loops. A loop that is no simple closed curve
// is dropped. Seams are not known here: give the loops of one turn.
func Trim(loops []plane.Loop, ground plane.Region, rules Rules) (made []plane.Loop, dropped []Dropped) {
	c := &cutter{rule: rules.Bridge, corner: rules.Corner, smallest: rules.Smallest}
	drop := func(at plane.Point, why string) { dropped = append(dropped, Dropped{At: at, Why: why}) }
	rs := make([]plane.Region, len(loops))
	for i, l := range loops {
		if err := l.Check(); err != nil {
			at := plane.Point{}
			if len(l) > 0 && l[0].Finite() {
				at = l[0].Point
			}
			drop(at, "it is no opening: "+err.Error())
			continue
		}
		on, err := plane.And(plane.Region{l.CCW()}, ground)
		if err != nil {
			drop(l.Bounds().Centre(), "the rim's cut through it could not be worked out: "+err.Error())
			continue
		}
		if math.Abs(on.Area()-math.Abs(l.Area())) < touch {
			on = plane.Region{l.CCW()} // whole: keep its very numbers
		}
		rs[i] = on
	}
	apart, err := plane.Apart(rs, rules.Bridge)
	if err != nil {
		// Never expected. Kept apart by leaving out whoever comes too near.
		drop(plane.Point{}, "the bridges could not be worked out: "+err.Error())
		apart = rs
	}
	for i, r := range apart {
		if len(r) == 0 {
			if len(rs[i]) > 0 {
				drop(rs[i].Bounds().Centre(), "nothing is left of it once the bridges are kept")
			}
			continue
		}
		ok, not := c.openings(r)
		dropped = append(dropped, not...)
		for _, l := range ok {
			if err != nil && c.nearestOf(made, l) < rules.Bridge-touch {
				drop(l.Centroid(), "too near to another opening")
				continue
			}
			made = append(made, l)
		}
	}
	return made, dropped
}
