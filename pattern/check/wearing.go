package check

import (
	"math"

	"fretband/pattern"
	"fretband/unroll"
)

// wristRatio is how many times wider than deep a wrist is taken for if the inside
// is rounder: 1.25 to 1.35 are usual (memory).
const wristRatio = 1.3

// gapOf is the straight distance between a cuff's ends, inside, mm.
func gapOf(f unroll.Flat) float64 {
	a, _, _ := f.Station(-f.Length / 2)
	z, _, _ := f.Station(f.Length / 2)
	return a.Dist(z)
}

// OpenedBy returns by how much a cuff is opened to put it on, mm.
func OpenedBy(s *pattern.Sheet) float64 { return openingOf(s, gapOf(s.Flat)) }

// openingOf returns by how much a cuff of that gap is opened, mm: what the maker says, or what
// lets the narrow side of the wrist through the gap, as cuffs are commonly put on, sideways;
// skin that gives way asks for less.
func openingOf(s *pattern.Sheet, gap float64) float64 {
	if w := s.Design.Wear.OpenMM; w > 0 {
		return w
	}
	in := s.Design.Band.Inside
	around := s.Flat.Inner
	if in.By == unroll.ByWrist {
		around -= in.EaseMM
	}
	ratio := wristRatio
	if o := s.Flat.Oval; o.A > 0 && o.B > 0 {
		ratio = math.Max(ratio, math.Max(o.A/o.B, o.B/o.A))
	}
	deep := 2 * unroll.OvalOf(around, ratio).B
	return math.Max(deep-gap, 0)
}
