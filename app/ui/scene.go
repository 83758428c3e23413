package ui

import (
	"fretband/app/ui/kit"
	"fretband/pattern"
	"fretband/pattern/check"
	"fretband/unroll/plane"
)

// scene is what is drawn: a laid sheet, its report, and what stands where. Version tells one scene from another.
type scene struct {
	version int
	sheet   *pattern.Sheet
	report  *check.Report
	tone    kit.Metal
	near    *pattern.Near // the openings
}

func newScene(version int, s *pattern.Sheet, r *check.Report) *scene {
	return &scene{version: version, sheet: s, report: r, tone: kit.MetalOf(s.Design.Metal.Alloy), near: s.Near()}
}

// openingAt returns the index of the opening that holds p, or -1.
func (s *scene) openingAt(p plane.Point) int {
	if s == nil {
		return -1
	}
	for c := range s.near.To(plane.Box{Min: p, Max: p}, plane.Snap) {
		if s.sheet.Openings[c.Of].Loop.Contains(c.Home(p)) {
			return c.Of
		}
	}
	return -1
}

// numbered returns the index of the opening of that number, or -1.
func (s *scene) numbered(n int) int {
	if s == nil {
		return -1
	}
	for i := range s.sheet.Openings {
		if s.sheet.Openings[i].Number == n {
			return i
		}
	}
	return -1
}

// reserveAt returns the index of the topmost reserve that holds p, or -1.
func (s *scene) reserveAt(p plane.Point) int {
	if s == nil {
		return -1
	}
	for i := len(s.sheet.Reserves) - 1; i >= 0; i-- {
		for _, l := range s.sheet.Again(s.sheet.Reserves[i].Loop) {
			if l.Contains(p) {
				return s.sheet.Reserves[i].Reserve
			}
		}
	}
	return -1
}
