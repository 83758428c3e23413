package pattern

import (
	"math"

	"fretband/pattern/own"
	"fretband/unroll"
	"fretband/unroll/plane"
)

// Sheet is a design laid out on its blank: what is cut and what is kept.
type Sheet struct {
	Design Design
	Flat   unroll.Flat
	// Process is how the openings are cut: the design's own, or that of whom the sheet is
	// handed to ([Sheet.CutBy]). A key of [Processes], the reader's own words, or empty if it
	// is not settled.
	Process string
	// Rule is the least width of metal asked for between openings, mm; EdgeRule the
	// least between an opening and the edge (the rim where it is narrowest, or the rule
	// if larger).
	Rule, EdgeRule float64
	// Ground is where openings may lie: the blank less rim, joint and reserves
	// with their margins.
	Ground plane.Region
	// Reserves are the areas kept solid, without their margins: all of each row.
	Reserves []Reserved
	// Added are the parts that are soldered or set on.
	Added []Set
	// Engravings are the lines to be engraved.
	Engravings []EngravedLines
	Openings   []Opening
	Dropped    []Dropped
	// Solid are the openings that were left solid by hand, and the ties.
	Solid []SolidCell
	// Idle are the positions of edits that no longer find what they were made for.
	Idle []Idle

	rings []plane.Region // left solid for the islands within them
	rim   *rimCurve      // nil if it is EdgeRule everywhere
	spots *spots         // of the edits, while cells are laid
}

// Touch says which position of which edit worked on an opening: as of [Idle].
type Touch struct {
	Edit, Spot int
	At         plane.Point
}

// SolidCell is what an edit keeps from being cut out.
type SolidCell struct {
	Touch
	Loop     plane.Loop // the opening that would be there, the cell if it makes none, or the tie
	Field    int        // as of an opening; -1 for a tie
	Row, Col int
}

// EngravedLines are the lines of one engraving. Those that reach over the seam of a closed
// band are cut there and come in again at the other end.
type EngravedLines struct {
	Engraving int  // its index in the design
	Inside    bool // it is on the inner face
	Strokes   []own.Stroke
	// Frame is the box round the engraving, turned with it, before anything is cut at
	// the seam: for a line it has no height.
	Frame plane.Loop
}

// Len returns the length of the engraving's lines, mm.
func (m EngravedLines) Len() float64 {
	var sum float64
	for _, s := range m.Strokes {
		for _, e := range s.Edges() {
			sum += e.Len()
		}
	}
	return sum
}

// Idle is a position of an edit that does nothing now.
type Idle struct {
	Edit, Spot int // indexes in the design; mirror images count after the positions themselves
	At         plane.Point
	Why        string
}

// Opening is one hole through the metal.
type Opening struct {
	Number int        // from 1, in the order of sawing ([Sheet.Runs]): in window, files and report
	Loop   plane.Loop // its edge, counter-clockwise; on a seamless band it may run past the ends
	Field  int        // its index in the design; -1 for one that was drawn by hand
	Edit   int        // index of the edit that made or changed it; -1 for none
	Row    int
	Col    int
	// Shape says which openings are the same loop moved: openings with equal
	// Shape >= 0 differ only by At. It is -1 for one cut to fit.
	Shape int
	At    plane.Point
	Box   plane.Box // round Loop

	// By lists the positions of edits that made or changed it, in their order.
	By []Touch

	ring *Dropped // while ties are laid: it is what this says, and cut if a tie crosses it
	hits *hitCell // nil once the sheet is laid
}

// Dropped is a cell of the motif that had room on the ground but could not
// become an opening.
type Dropped struct {
	At       plane.Point
	Field    int // as of an opening
	Row, Col int
	From     int     // of [Trim]: which loop it was
	Why      string  // empty, while edits are at work, for what is not reported
	Area     float64 // mm^2, of the opening that would be there

	ring plane.Region // what would be cut if a tie kept its islands; else nil
	by   []Touch      // as of an opening
	hits *hitCell
}

// Position returns a position that lies well within the opening's cell: where the edits
// of it lie, if there are any, else its middle or, where it is bent round that, some
// other position in it. It is rounded to 0.01 mm where that stays inside.
func (o *Opening) Position() plane.Point {
	if len(o.By) > 0 {
		return o.By[0].At
	}
	p := o.Loop.Centroid()
	if !o.Loop.Contains(p) || fromEdge(o.Loop, p) < 0.1*math.Min(o.Box.W(), o.Box.H()) {
		const n = 12
		best := 0.0
		for i := range n * n {
			q := plane.Pt(o.Box.Min.X+o.Box.W()*(float64(i%n)+0.5)/n, o.Box.Min.Y+o.Box.H()*(float64(i/n)+0.5)/n)
			if d := fromEdge(o.Loop, q); d > best && o.Loop.Contains(q) {
				best, p = d, q
			}
		}
	}
	if q := plane.Pt(math.Round(p.X*100)/100, math.Round(p.Y*100)/100); o.Loop.Contains(q) {
		return q
	}
	return p
}
