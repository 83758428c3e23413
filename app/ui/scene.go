package ui

import (
	"math"

	"fretband/pattern"
	"fretband/pattern/check"
	"fretband/unroll/plane"
)

// scene is what is drawn: a laid sheet, its report, and a grid to find openings
// by place. Version tells one scene from another.
type scene struct {
	version int
	sheet   *pattern.Sheet
	report  *check.Report
	tone    metal
	grid    openingGrid
}

func newScene(version int, s *pattern.Sheet, r *check.Report) *scene {
	sc := &scene{version: version, sheet: s, report: r, tone: toneOf(s.Design.Metal.Alloy)}
	sc.grid = newOpeningGrid(s)
	return sc
}

// openingAt returns the index of the opening that holds p, or -1.
func (s *scene) openingAt(p plane.Point) int {
	if s == nil {
		return -1
	}
	if i := s.grid.at(s.sheet, p); i >= 0 {
		return i
	}
	// Over the joint of a seamless band an opening is seen at both ends.
	period := s.sheet.Flat.Period
	for _, dx := range [2]float64{-period, period} {
		if i := s.grid.at(s.sheet, p.Add(plane.Pt(dx, 0))); period != 0 && i >= 0 {
			return i
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

// openingGrid sorts openings into square bins.
type openingGrid struct {
	box  plane.Box
	size float64
	w, h int
	bins [][]int32
}

func newOpeningGrid(s *pattern.Sheet) openingGrid {
	g := openingGrid{box: plane.EmptyBox()}
	for i := range s.Openings {
		g.box = g.box.Union(s.Openings[i].Box)
	}
	if g.box.Empty() {
		return g
	}
	// About one opening a bin.
	g.size = math.Sqrt(math.Max(1e-6, g.box.W()*g.box.H()/float64(len(s.Openings))))
	g.w, g.h = min(2000, int(g.box.W()/g.size)+1), min(2000, int(g.box.H()/g.size)+1)
	g.bins = make([][]int32, g.w*g.h)
	for i := range s.Openings {
		b := s.Openings[i].Box
		x0, y0 := g.bin(b.Min)
		x1, y1 := g.bin(b.Max)
		for y := y0; y <= y1; y++ {
			for x := x0; x <= x1; x++ {
				g.bins[y*g.w+x] = append(g.bins[y*g.w+x], int32(i))
			}
		}
	}
	return g
}

func (g openingGrid) bin(p plane.Point) (x, y int) {
	x = int((p.X - g.box.Min.X) / g.size)
	y = int((p.Y - g.box.Min.Y) / g.size)
	return max(0, min(g.w-1, x)), max(0, min(g.h-1, y))
}

func (g openingGrid) at(s *pattern.Sheet, p plane.Point) int {
	if len(g.bins) == 0 || !g.box.Holds(p) {
		return -1
	}
	x, y := g.bin(p)
	for _, i := range g.bins[y*g.w+x] {
		o := &s.Openings[i]
		if o.Box.Holds(p) && o.Loop.Contains(p) {
			return int(i)
		}
	}
	return -1
}
