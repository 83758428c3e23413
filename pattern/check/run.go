package check

import (
	"math"
	"sync"

	"fretband/pattern"
	"fretband/unroll"
)

// Run measures the sheet. It is pure: the same sheet gives the same report.
func Run(s *pattern.Sheet) *Report {
	// What is measured on the bent band, beside what is measured on the flat.
	var bent sync.WaitGroup
	var hangs Hang
	bent.Add(1)
	go func() {
		defer bent.Done()
		hangs = hang(s)
	}()
	r := weigh(s)
	r.CutLength = r.OpenLength + outlineCut(s)
	for _, m := range s.Engravings {
		r.Engravings++
		r.EngravedLength += m.Len()
	}
	r.Bridges = Bridges(s)
	r.Thinnest = r.Bridges.Thinnest
	if a, _ := Finish(s.Process); !r.Thinnest.None() {
		r.Finished = math.Max(0, r.Thinnest.Width-2*a)
	}
	r.Faces.faceBridges(s, r.Thinnest)
	r.Net = netSection(s)
	r.Pieces = pieces(s, r.Thinnest)
	r.Added = addedParts(s, r)
	for _, a := range r.Added {
		r.AddedGrams += a.Total
		r.AddedCost += a.Cost
	}
	bent.Wait()
	r.Hang = hangs.with(s, r)
	r.Making = makingOf(s, r)
	r.LeftSolid, r.Doming, r.Springback = leftSolid(s), domingOf(s, r), springbackOf(s)
	r.Findings = findings(s, r)
	return r
}

// weigh begins the report: what the band and its openings are, weigh and cost.
//
// Weights of a band that is cut flat are the flat sheet's: area on the blank
// times thickness times density. Bending keeps the volume where the flat length
// was taken on the neutral surface, since what the outer half gains in length the
// inner half loses; so the bent band weighs what the blank weighs. A band that is
// cut or cast as formed, and one that is domed, weighs its volume, of full
// thickness all over and with walls along the normal ([Faces]); what the blank of
// a domed one weighs when it is cut flat is in Doming.
func weigh(s *pattern.Sheet) *Report {
	r := &Report{
		Currency:   s.Design.Metal.Currency,
		BlankLen:   s.Flat.Length,
		BlankWidth: s.Flat.Width,
		Thickness:  s.Flat.Thickness,
		BlankArea:  s.Flat.Outline.Area(),
		Openings:   len(s.Openings),
		Dropped:    len(s.Dropped),
		Rule:       s.Rule,
		EdgeRule:   s.EdgeRule,
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
	if r.BlankArea > 0 {
		r.OpenShare = r.CutArea / r.BlankArea
	}
	formed := s.Design.Band.Making == unroll.Formed || s.Flat.Domed()
	gram := r.Thickness * r.Density / 1000 // per mm^2
	r.Plain = r.BlankArea * gram
	r.Removed = r.CutArea * gram
	r.Faces = Faces{PlainVolume: r.BlankArea * r.Thickness, Volume: (r.BlankArea - r.CutArea) * r.Thickness, TrueArea: r.BlankArea}
	if formed {
		r.Faces = facesOf(s, r)
		r.Plain = r.Faces.PlainVolume * r.Density / 1000
		r.Removed = (r.Faces.PlainVolume - r.Faces.Volume) * r.Density / 1000
	}
	r.Left = r.Plain - r.Removed
	r.Cost = r.Left * s.Design.Metal.PricePerG
	r.PlainCost = r.Plain * s.Design.Metal.PricePerG
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
