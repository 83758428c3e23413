package pattern

import (
	"fretband/unroll"
	"fretband/unroll/plane"
)

// Sheet is a design laid out on its blank: what is cut and what is kept.
type Sheet struct {
	Design Design
	Flat   unroll.Flat
	// Rule is the least width of metal asked for between openings, mm; Keep the
	// least between an opening and the edge (the rim, or the rule if larger).
	Rule, Keep float64
	// Ground is where openings may lie: the blank less rim, joint and reserves
	// with their margins.
	Ground plane.Region
	// Reserves are the areas kept solid, without their margins.
	Reserves []plane.Loop
	Openings []Opening
	Dropped  []Dropped
}

// Opening is one hole through the metal.
type Opening struct {
	Number int        // from 1, row by row from the top, left to right: on template and report
	Loop   plane.Loop // its edge, counter-clockwise; on a seamless band it may run past the ends
	Row    int
	Col    int
	// Shape tells which openings are the same loop moved: openings with equal
	// Shape >= 0 differ only by At. It is -1 for one cut to fit.
	Shape int
	At    plane.Point
	Box   plane.Box // round Loop
}

// Dropped is a cell of the motif that had room on the ground but could not
// become an opening.
type Dropped struct {
	At       plane.Point
	Row, Col int
	From     int // of [Trim]: which loop it was
	Why      string
}
