package pattern

import (
	"fmt"
	"math"

	"fretband/unroll/plane"
)

// Rules are what every opening is held to, mm.
type Rules struct {
	Bridge   float64 // least metal between two openings, and between two parts of one
	Corner   float64 // least radius of an opening's inner corners
	Smallest float64 // diameter of the circle that every opening admits
	// Period is the length of one turn of a band that closes, 0 for one that does
	// not: openings then keep the bridge from the copies of all others, and from
	// their own, one turn on.
	Period float64
}

// Trimmed is an opening with the position in the list of the loop that it was made
// from. One loop may make several.
type Trimmed struct {
	Loop plane.Loop
	From int
}

// Trim makes openings of loops laid anyhow: of mixed motifs, moved by hand, read
// from a file, near each other or over each other.
//
// Guarantee. Every opening lies within its loop and on the ground; no two are
// nearer to each other than the bridge, nor are two parts of one opening's edge
// with metal between them; every inner corner has the least radius, and every
// opening admits the smallest circle. A loop that keeps the rules comes back with
// its very numbers, run counter-clockwise. Two that do not keep apart give alike
// and no more than needed (see [plane.Apart]); of a loop that lies mostly over
// a larger one nothing is left there. On a band that closes no opening reaches once
// round it: it would be a spring, not a band. In what order the loops are given does
// not matter. What can't be cut is returned as dropped, with
// the reason.
//
// Openings and what is dropped are in the order of their loops, and each says which
// it comes from. A loop that is no simple closed curve is dropped.
//
// On a band that closes give each loop once, wherever in the turn, and a ground
// that reaches as far past the seam as loops do.
//
// Cost: a quick look at each loop and its near neighbours; work only where rules
// are broken.
func Trim(loops []plane.Loop, ground plane.Region, rules Rules) (made []Trimmed, dropped []Dropped) {
	c := &cutter{rule: rules.Bridge, corner: rules.Corner, smallest: rules.Smallest, largestFirst: true}
	why := make([]string, len(loops)) // not empty: the loop is not even tried
	wide := 0.0
	for i, l := range loops {
		if err := l.Check(); err != nil {
			why[i] = "it is no opening: " + err.Error()
			continue
		}
		wide = math.Max(wide, l.Bounds().W())
	}
	tiles, err := newGround(ground, wide)
	if err != nil {
		tiles = ground1(ground)
	}
	rs := make([]plane.Region, len(loops))
	for i, l := range loops {
		if why[i] != "" {
			continue
		}
		l = l.CCW()
		box := l.Bounds()
		tile := tiles.at(box.Min.X)
		near, inside := tile.stands(box)
		switch {
		case near:
			if rs[i], err = plane.And(plane.Region{l}, tile.Region); err != nil {
				why[i] = "the rim's cut through it could not be worked out: " + err.Error()
			} else if untouched(plane.Region{l}, rs[i]) {
				rs[i] = plane.Region{l} // whole: keep its very numbers
			}
		case inside:
			rs[i] = plane.Region{l}
		}
		switch {
		case why[i] != "":
		case len(rs[i]) == 0:
			why[i] = "it does not lie on the ground"
		}
	}
	all := crowd{rules: rules}
	for _, i := range plane.LargestFirst(rs) {
		if why[i] == "" && !all.admits(rs[i]) {
			why[i], rs[i] = "too many lie over each other or too near to each other for all of them to be trimmed: move it away from the others", nil
		}
	}
	for i, r := range plane.Apart(rs, rules.Bridge, rules.Period) {
		drop := func(at plane.Point, why string) {
			dropped = append(dropped, Dropped{At: at, From: i, Why: why})
		}
		keep := func(l plane.Loop) {
			if w := l.Bounds().W(); rules.Period > 0 && w >= rules.Period {
				drop(someplace(l), fmt.Sprintf("it is %.1f mm long and would wind round the band, which is %.1f mm round: make it shorter", w, rules.Period))
				return
			}
			made = append(made, Trimmed{l, i})
		}
		switch {
		case why[i] != "":
			drop(someplace(loops[i]), why[i])
			continue
		case len(r) == 0:
			drop(rs[i].Bounds().Centre(), "nothing is left of it once the bridges are kept")
			continue
		}
		if l, can := r[0].Cuttable(); can && len(r) == 1 && c.keeps(l) {
			keep(l)
			continue
		}
		ok, not := c.openings(r)
		for _, l := range ok {
			keep(l)
		}
		for _, d := range not {
			d.From = i
			dropped = append(dropped, d)
		}
	}
	return made, dropped
}

// keeps reports whether a loop, run counter-clockwise, can be cut as it is.
func (c *cutter) keeps(l plane.Loop) bool {
	n := len(l)
	if c.corner > 0 {
		for i := range l {
			in, out := l.Edge((i+n-1)%n), l.Edge(i)
			if out.Bulge > 0 && out.Radius() < c.corner-plane.Snap || in.Tangent(1).Cross(out.Tangent(0)) > smooth {
				return false
			}
		}
		// Round all along, but perhaps narrow somewhere.
		if math.Abs(plane.Region{l}.Open(c.corner).Area()-l.Area()) > touch {
			return false
		}
	}
	return c.admits(l) && len(l.Necks(c.rule-touch)) == 0
}

// smooth is the sine of the turn between two edges under which it is no corner:
// rounding it would take less than a nanometre off corners of 1 mm.
const smooth = 1e-3

// someplace returns a position to point at for a loop that may be anything.
func someplace(l plane.Loop) plane.Point {
	for _, v := range l {
		if v.Finite() {
			return v.Point
		}
	}
	return plane.Point{}
}
