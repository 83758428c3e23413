// Package pattern lays motifs over an unrolled band and makes openings of them.
//
// What may come in is a [Design]: a plain value of strings and numbers. What
// comes out of [Lay] is a [Sheet]: loops of lines and arcs on the blank. Nothing
// here measures weight, warns or writes files.
//
// # The bridge rule
//
// Cells of a motif do not overlap. An opening is a cell less half a bridge all
// round, cut to the ground, its corners rounded by opening it with a disc. Each
// step only takes away from the one before it. So two points of two openings are
// at least a whole bridge apart: the straight line between them crosses the
// edges of both cells, and each opening is half a bridge from its own cell's
// edge. The ground in turn is the blank less the rim and the reserves with their
// margins, so the distance to those holds too. Where the ground cuts one cell
// into several openings, or bends one opening round a reserve, the distance is
// measured and what breaks the rule is left solid and counted.
//
// Openings that are changed or drawn by hand do not come of cells. They are trimmed
// to the rule among themselves by [Trim], and the pattern's own give way to them.
package pattern

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"fretband/pattern/motif"
	"fretband/unroll"
	"fretband/unroll/cores"
	"fretband/unroll/plane"
)

// touch is how far a cell may reach over the edge of the ground and still count
// as lying on it whole, mm: ten times the grid on which points are the same.
const touch = 10 * plane.Snap

// Lay lays the design out on its blank. The error is an [unroll.FieldError] if
// a number of the design can't be used. Same design, same sheet.
func Lay(d Design) (*Sheet, error) {
	if err := d.Check(); err != nil {
		return nil, err
	}
	flat, err := unroll.Unroll(d.Band)
	if err != nil {
		return nil, err
	}
	s := &Sheet{Design: d, Flat: flat, Process: d.Rules.Process, Rule: d.Rules.BridgeMM}
	s.EdgeRule, s.rim = newRim(d.Rules, flat)
	engraved, err := drawEngravings(d)
	if err != nil {
		return nil, err
	}
	for i, m := range engraved {
		s.Engravings = append(s.Engravings, m.lines(i, d, flat))
	}
	if s.Added, err = layAdded(d, flat); err != nil {
		return nil, err
	}
	if s.Ground, s.Reserves, err = groundOf(d, flat, s.EdgeRule, s.rim, engraved, s.Added); err != nil {
		return nil, err
	}
	if err := s.layFields(); err != nil {
		return nil, err
	}
	if err := s.byHand(); err != nil {
		return nil, err
	}
	s.leaveRings()
	s.number()
	return s, nil
}

// cutter makes openings of cells on one ground.
type cutter struct {
	rule, corner, smallest float64
	ground                 ground
	// images are the moves at which a cell is cut: a cell on a soldered joint
	// is at both ends of the blank.
	images []plane.Point
	// closely has cells that are close to the ground's edge, but are not cut by it,
	// made as those anywhere are; wholeOnly has those that it would cut left solid.
	closely, wholeOnly bool
	// largestFirst has the largest of a cell's parts stay where two are too near, so
	// that mirror images keep the same.
	largestFirst bool
}

// blankCell is a cell's shape with what is made of it wherever nothing cuts it:
// worked out once for all cells of that shape.
type blankCell struct {
	cell  plane.Loop
	inset plane.Region // not yet rounded: what the ground cuts
	box   plane.Box    // round inset
	whole []plane.Loop // the openings that it makes where nothing cuts it
	boxes []plane.Box  // round each of whole
	not   []Dropped    // what it does not make
	shape int          // Shape of the first of whole; -1 if they are not placed more than once
}

func (s *Sheet) cut(t motif.Tiling, c *cutter) error {
	cells := make([]blankCell, len(t.Shapes))
	shapes, widest := 0, 0.0
	cores.Each(len(t.Shapes), func(i int) { cells[i] = c.blankCell(t.Shapes[i], c.rule/2) })
	for i, l := range t.Shapes {
		cells[i].shape = shapes
		shapes += len(cells[i].whole)
		widest = math.Max(widest, l.Bounds().W())
	}
	var err error
	if c.ground, err = newGround(s.Ground, widest); err != nil {
		return err
	}
	s.inRuns(len(t.Cells), func(part *Sheet, i int) {
		p := t.Cells[i]
		for _, move := range c.images {
			part.place(&cells[p.Shape], p, p.At.Add(move), c)
		}
	})
	return nil
}

// blankCell works a cell out that is inset by d.
func (c *cutter) blankCell(l plane.Loop, d float64) blankCell {
	b := blankCell{cell: l, inset: l.Inset(d), shape: -1}
	b.box = b.inset.Bounds()
	b.whole, b.not = c.openings(b.inset)
	b.boxes = plane.Boxes(b.whole)
	return b
}

// inRuns does what is to be done for each of n cells. Each worker lays its own
// run of them on a sheet of its own; joined in order, the result does not depend
// on how many workers there are.
func (s *Sheet) inRuns(n int, do func(part *Sheet, i int)) {
	runs := make([]Sheet, cores.Count(n, 64))
	spots := newSpots(s.Design, s.Flat)
	cores.Runs(n, 64, func(k, from, to int) {
		runs[k].spots = spots
		runs[k].Openings = make([]Opening, 0, to-from+8)
		for i := from; i < to; i++ {
			do(&runs[k], i)
		}
	})
	if len(runs) == 1 && len(s.Openings) == 0 {
		s.Openings, s.Dropped = runs[0].Openings, append(s.Dropped, runs[0].Dropped...)
		return
	}
	for _, r := range runs {
		s.Openings = append(s.Openings, r.Openings...)
		s.Dropped = append(s.Dropped, r.Dropped...)
	}
}

// place makes the openings of one cell at one position, and notes with them which
// edits have a position in the cell.
func (s *Sheet) place(b *blankCell, p motif.Cell, at plane.Point, c *cutter) {
	made, not := len(s.Openings), len(s.Dropped)
	s.cutOut(b, p, at, c)
	if s.spots == nil {
		return
	}
	l := b.cell.Move(at)
	hits := s.spots.in(l, l.Bounds())
	if len(hits) == 0 {
		return
	}
	cell := &hitCell{l, hits}
	for i := range s.Openings[made:] {
		s.Openings[made+i].hits = cell
	}
	for i := range s.Dropped[not:] {
		s.Dropped[not+i].hits = cell
	}
	if len(s.Openings) == made && len(s.Dropped) == not {
		// It is not counted as dropped: byHand takes it away again.
		s.Dropped = append(s.Dropped, Dropped{At: l.Centroid(), Row: p.Row, Col: p.Col, hits: cell})
	}
}

// cutOut makes the openings of one cell at one position.
func (s *Sheet) cutOut(b *blankCell, p motif.Cell, at plane.Point, c *cutter) {
	drop := func(d Dropped) {
		d.Row, d.Col = p.Row, p.Col
		s.Dropped = append(s.Dropped, d)
	}
	if len(b.inset) == 0 {
		if centre := at.Add(b.cell.Centroid()); c.ground.at(centre.X).Contains(centre) {
			drop(Dropped{At: centre, Why: "nothing is left of the cell once the bridges are kept"})
		}
		return
	}
	box := b.box.Move(at)
	tile := c.ground.at(box.Min.X)
	near, inside := tile.stands(box)
	var rest plane.Region
	var err error
	if near {
		inset := b.inset.Move(at)
		rest, err = plane.And(inset, tile.Region)
		switch {
		case c.closely && err == nil && untouched(inset, rest):
			near, inside = false, true
		case c.wholeOnly:
			return
		}
	}
	if !near {
		if !inside {
			return
		}
		for i, l := range b.whole {
			o := Opening{Loop: l.Move(at), Row: p.Row, Col: p.Col, Shape: b.shape + i, At: at, Box: b.boxes[i].Move(at)}
			if b.shape < 0 {
				o.Shape, o.At = -1, o.Box.Centre()
			}
			s.Openings = append(s.Openings, o)
		}
		for _, d := range b.not {
			d.At = d.At.Add(at)
			drop(d)
		}
		return
	}
	if err != nil {
		drop(Dropped{At: box.Centre(), Why: "the rim's cut through it could not be worked out: " + err.Error()})
		return
	}
	if rest.Area() < touch {
		return // no room here at all
	}
	made, not := c.openings(rest)
	for _, l := range made {
		s.Openings = append(s.Openings, Opening{
			Loop: l, Row: p.Row, Col: p.Col, Shape: -1, At: l.Centroid(), Box: l.Bounds(),
		})
	}
	for _, d := range not {
		drop(d)
	}
}

// openings makes openings of what is left of one cell: its parts with rounded
// corners, as many as can be cut and keep the rule among themselves.
func (c *cutter) openings(r plane.Region) (made []plane.Loop, not []Dropped) {
	all := parts(r)
	if c.largestFirst && len(all) > 1 {
		slices.SortStableFunc(all, func(a, b plane.Region) int { return cmp.Compare(b.Area(), a.Area()) })
	}
	for _, part := range all {
		if hasIsland(part) {
			not = append(not, Dropped{At: part.Bounds().Centre(), Why: IslandFalls, Area: part.Area(), ring: part})
			continue
		}
		ok, why := c.finish(part)
		for _, l := range ok {
			if d := c.nearestOf(made, l); d < c.rule-touch {
				not = append(not, Dropped{At: l.Centroid(), Why: fmt.Sprintf("only %.3f mm from another part of the same cell", d), Area: l.Area()})
				continue
			}
			made = append(made, l)
		}
		lost := part.Area()
		for _, l := range ok {
			lost -= l.Area()
		}
		for _, w := range why {
			not = append(not, Dropped{At: part.Bounds().Centre(), Why: w, Area: math.Max(0, lost) / float64(len(why))})
		}
	}
	return made, not
}

// finish rounds the corners of one part of a cell and keeps what can be cut. For
// what can't, it returns the reasons.
func (c *cutter) finish(part plane.Region) (ok []plane.Loop, why []string) {
	return c.finishIn(part, 2)
}

// finishIn is finish, thickening necks so many times over: rounding what is left may
// bring up another.
func (c *cutter) finishIn(part plane.Region, times int) (ok []plane.Loop, why []string) {
	if hasIsland(part) {
		return nil, []string{IslandFalls}
	}
	if c.corner > 0 {
		part = part.Open(c.corner)
		if len(part) == 0 {
			return nil, []string{fmt.Sprintf("too narrow for corners of %g mm radius", c.corner)}
		}
	}
	for _, l := range part {
		switch {
		case l.Area() < 0:
			why = append(why, IslandFalls)
		case l.Area() < touch:
			why = append(why, "nothing is left of it")
		default:
			l, can := l.Cuttable()
			if !can {
				why = append(why, "its edge is in bits too short to be cut")
				continue
			}
			if !c.admits(l) {
				why = append(why, fmt.Sprintf("smaller than a circle of %g mm", c.smallest))
				continue
			}
			if n := l.Necks(c.rule - touch); len(n) > 0 {
				if times > 0 {
					for _, rest := range parts(c.thickened(l, n)) {
						more, not := c.finishIn(rest, times-1)
						ok, why = append(ok, more...), append(why, not...)
					}
					continue
				}
				why = append(why, fmt.Sprintf("would leave a neck of %.3f mm within its own edge", n[0].D))
				continue
			}
			ok = append(ok, l)
		}
	}
	return ok, why
}

// admits reports whether the smallest circle goes through an opening. Most often it
// does so about the middle, which is quickly seen; only if not is it sought.
func (c *cutter) admits(l plane.Loop) bool {
	if c.smallest <= 0 {
		return true
	}
	if m := l.Centroid(); l.Contains(m) && l.Nearest(m).D > c.smallest/2+touch {
		return true
	}
	return len(l.Inset(c.smallest/2)) > 0
}

// nearestOf returns the least distance from l to one of the loops.
func (c *cutter) nearestOf(ls []plane.Loop, l plane.Loop) float64 {
	d := math.Inf(1)
	for _, m := range ls {
		d = math.Min(d, plane.Nearest(m, l).D)
	}
	return d
}

// parts splits a region into its connected parts: each outer loop with its holes.
func parts(r plane.Region) []plane.Region {
	var out []plane.Region
	for _, l := range r {
		if l.Area() > 0 {
			out = append(out, plane.Region{l})
		}
	}
	for _, l := range r {
		if l.Area() >= 0 || len(l) == 0 {
			continue
		}
		// A hole belongs to the smallest outer loop round it.
		best := -1
		for i, p := range out {
			if p[0].Contains(l[0].Point) && (best < 0 || p[0].Area() < out[best][0].Area()) {
				best = i
			}
		}
		if best >= 0 {
			out[best] = append(out[best], l)
		}
	}
	return out
}

// thickened trims an opening whose own edge comes so near to itself that it leaves a
// neck of metal under the rule, by as little as widens the neck to the rule and by
// the same on both of its sides. It returns nil if nothing of the kind helps.
//
// The metal that a disc of the rule's diameter can't reach without touching the
// opening on both sides is what closing the opening by that disc fills (J. Serra,
// Image Analysis and Mathematical Morphology, 1982, ch. II). Of it, the part that
// holds the neck is grown all round by half of what the neck lacks. Where that part
// was wider than at the neck it comes out wider than the rule by the difference, and
// nowhere narrower than the rule.
func (c *cutter) thickened(l plane.Loop, necks []plane.Gap) plane.Region {
	r := c.rule / 2
	closed := l.Outset(r).Offset(-r)
	thin, err := plane.Not(closed, plane.Region{l})
	if err != nil {
		return nil
	}
	left := plane.Region{l}
	for _, part := range parts(thin) {
		least := math.Inf(1)
		for _, n := range necks {
			if part.Contains(n.A.Mid(n.B)) {
				least = math.Min(least, n.D)
			}
		}
		if math.IsInf(least, 1) {
			continue // a corner, or a tongue that stands clear
		}
		if left, err = plane.Not(left, part.Offset((c.rule-least)/2+touch)); err != nil {
			return nil
		}
	}
	return left
}
