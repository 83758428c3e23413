package app

import (
	"slices"

	"fretband/pattern"
	"fretband/pattern/check"
	"fretband/unroll/plane"
)

// Scene is a laid design with its report, and answers what lies where. A nil scene holds
// nothing anywhere.
type Scene struct {
	Version int // tells one scene from another
	Sheet   *pattern.Sheet
	Report  *check.Report

	near *pattern.Near // the openings
}

// NewScene returns the scene of a sheet and its report.
func NewScene(version int, s *pattern.Sheet, r *check.Report) *Scene {
	return &Scene{Version: version, Sheet: s, Report: r, near: s.Near()}
}

// OpeningAt returns the index of the opening that holds p, or -1.
func (s *Scene) OpeningAt(p plane.Point) int {
	if s == nil {
		return -1
	}
	for c := range s.near.To(plane.Box{Min: p, Max: p}, plane.Snap) {
		if s.Sheet.Openings[c.Of].Loop.Contains(c.Home(p)) {
			return c.Of
		}
	}
	return -1
}

// metalAt reports whether metal lies at a position on the blank.
func (s *Scene) metalAt(p plane.Point) bool {
	return s.Sheet.Flat.Outline.Contains(p) && s.OpeningAt(p) < 0
}

// Numbered returns the index of the opening of that number, or -1.
func (s *Scene) Numbered(n int) int {
	if s == nil {
		return -1
	}
	return slices.IndexFunc(s.Sheet.Openings, func(o pattern.Opening) bool { return o.Number == n })
}

// solidAt returns the index of the solid cell that holds p, or -1.
func (s *Scene) solidAt(p plane.Point) int {
	return slices.IndexFunc(s.Sheet.Solid, func(c pattern.SolidCell) bool { return s.holds(c.Loop, p) })
}

// holds reports whether a loop, or a copy of it over the seam, holds p.
func (s *Scene) holds(l plane.Loop, p plane.Point) bool {
	return slices.ContainsFunc(s.Sheet.Again(l), func(l plane.Loop) bool { return l.Contains(p) })
}

// PickAt returns the opening or solid cell at a position as picked.
func (s *Scene) PickAt(p plane.Point) (Picked, bool) {
	if s == nil {
		return Picked{}, false
	}
	if i := s.OpeningAt(p); i >= 0 {
		return Pick(s.Sheet, i), true
	}
	if i := s.solidAt(p); i >= 0 {
		return PickSolid(s.Sheet, i), true
	}
	return Picked{}, false
}

// Within returns all openings and solid cells whose middles lie in a box.
func (s *Scene) Within(box plane.Box) []Picked {
	var picks []Picked
	in := func(l plane.Loop) bool {
		mid := l.Bounds().Centre()
		return slices.ContainsFunc(s.Sheet.OnBlank(l), func(r pattern.Round) bool { return box.Contains(r.Point(mid)) })
	}
	for i := range s.Sheet.Openings {
		if in(s.Sheet.Openings[i].Loop) {
			picks = append(picks, Pick(s.Sheet, i))
		}
	}
	for i := range s.Sheet.Solid {
		if in(s.Sheet.Solid[i].Loop) {
			picks = append(picks, PickSolid(s.Sheet, i))
		}
	}
	return picks
}

// ItemAt returns the topmost item at a position; engravings lie over added parts, and these
// over reserves. An engraved line may be as far as within away, mm.
func (s *Scene) ItemAt(p plane.Point, within float64) Item {
	if s == nil {
		return NoItem
	}
	for i := len(s.Sheet.Engravings) - 1; i >= 0; i-- {
		m := s.Sheet.Engravings[i]
		if s.Sheet.Design.Engravings[m.Engraving].Kind == pattern.TextEngraving && m.Frame.Contains(p) {
			return Item{EngravingItem, m.Engraving}
		}
		for _, st := range m.Strokes {
			for _, e := range st.Edges() {
				if e.Bounds().Grow(within).Contains(p) && e.Dist(p) <= within {
					return Item{EngravingItem, m.Engraving}
				}
			}
		}
	}
	if i := s.Sheet.AddedAt(p); i >= 0 {
		return Item{AddedItem, i}
	}
	for i := len(s.Sheet.Reserves) - 1; i >= 0; i-- {
		if s.holds(s.Sheet.Reserves[i].Loop, p) {
			return Item{Index: s.Sheet.Reserves[i].Reserve}
		}
	}
	return NoItem
}

// SectionAt returns the metal left and the full width in the cross-section at x.
func (s *Scene) SectionAt(x float64) (net, full float64, ok bool) {
	n := s.Report.Net
	if len(n.X) < 2 || x < n.X[0] || x > n.X[len(n.X)-1] {
		return 0, 0, false
	}
	step := (n.X[len(n.X)-1] - n.X[0]) / float64(len(n.X)-1)
	i := max(0, min(len(n.X)-1, int((x-n.X[0])/step+0.5)))
	return n.Net[i], n.Full[i], true
}
