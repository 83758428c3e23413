package check

import (
	"fretband/pattern"
)

// Run measures the sheet. It is pure: the same sheet gives the same report.
//
// Weights are the flat sheet's: area on the blank times thickness times density.
// Bending keeps the volume where the flat length was taken on the neutral
// surface, since what the outer half gains in length the inner half loses; so
// the bent band weighs what the blank weighs.
func Run(s *pattern.Sheet) *Report {
	r := &Report{
		Currency:   s.Design.Metal.Currency,
		BlankLen:   s.Flat.Length,
		BlankWidth: s.Flat.Width,
		Thickness:  s.Flat.Thickness,
		BlankArea:  s.Flat.Outline.Area(),
		Openings:   len(s.Openings),
		Dropped:    len(s.Dropped),
		Rule:       s.Rule,
		Keep:       s.Keep,
		Blade:      BladeFor(s.Flat.Thickness),
	}
	r.Alloy, r.Density = s.Design.Metal.Density()
	// Openings of one shape share their area and length.
	type size struct{ area, length float64 }
	known := map[int]size{}
	for i := range s.Openings {
		o := &s.Openings[i]
		z, ok := known[o.Shape]
		if !ok || o.Shape < 0 {
			z = size{o.Loop.Area(), o.Loop.Len()}
			known[o.Shape] = z
		}
		r.CutArea += z.area
		r.OpenLength += z.length
	}
	r.CutLength = r.OpenLength + outlineCut(s)
	if r.BlankArea > 0 {
		r.OpenShare = r.CutArea / r.BlankArea
	}
	gram := r.Thickness * r.Density / 1000 // per mm^2
	r.Plain = r.BlankArea * gram
	r.Removed = r.CutArea * gram
	r.Left = r.Plain - r.Removed
	r.Cost = r.Left * s.Design.Metal.PricePerG
	r.PlainCost = r.Plain * s.Design.Metal.PricePerG
	r.Bridges = Bridges(s)
	r.Thinnest = r.Bridges.Thinnest
	r.Net = netSection(s)
	r.Pieces = pieces(s, r.Thinnest)
	r.Findings = findings(s, r)
	return r
}

// outlineCut is the length of the outline that is cut: a seamless band has no
// ends.
func outlineCut(s *pattern.Sheet) float64 {
	var sum float64
	for _, e := range edgeOfBlank(s) {
		sum += e.Len()
	}
	return sum
}
