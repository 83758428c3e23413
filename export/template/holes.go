package template

import (
	"fmt"
	"math"
	"slices"

	"fretband/export"
	"fretband/pattern/check"
	"fretband/unroll/plane"
)

// largestHole is the diameter, mm, up to which a round opening is drilled and not sawn:
// ours. Twist drills are sold in steps of 0.1 mm up to there (common practice).
const largestHole = 6.5

// hole is a size of round openings: a drill makes them.
type hole struct {
	mm       float64 // to a hundredth
	openings []int
}

// holes divides the round openings by their diameter, smallest first. Each opening is looked
// at by itself: of a row of circles those that an edge cuts off are sawn, the others not.
func (t *template) holes() []hole {
	at := map[float64]int{}
	var hs []hole
	for _, o := range t.part.Openings {
		d, round := diameter(o.Loop)
		if d = math.Round(100*d) / 100; !round || d > largestHole {
			continue
		}
		i, ok := at[d]
		if !ok {
			i = len(hs)
			at[d] = i
			hs = append(hs, hole{mm: d})
		}
		hs[i].openings = append(hs[i].openings, o.Number)
	}
	slices.SortFunc(hs, func(a, b hole) int { return int(math.Copysign(1, a.mm-b.mm)) })
	return hs
}

// diameter returns the diameter of a loop that is one whole circle, and whether it is.
func diameter(l plane.Loop) (float64, bool) {
	b := l.Bounds()
	c, r := b.Centre(), b.W()/2
	for _, e := range l.Edges() {
		if e.IsLine() || e.A.Dist(c) > r+2*plane.FitTolerance || math.Abs(e.Radius()-r) > 2*plane.FitTolerance || e.Centre().Dist(c) > 2*plane.FitTolerance {
			return 0, false
		}
	}
	return 2 * r, len(l) > 0
}

// sawn returns the groups of openings by drill and blade without those that a drill makes.
func sawn(groups []check.Drilled, holes []hole) []check.Drilled {
	drilled := map[int]bool{}
	for _, h := range holes {
		for _, n := range h.openings {
			drilled[n] = true
		}
	}
	var left []check.Drilled
	for _, g := range groups {
		var ns []int
		for _, n := range g.Openings {
			if !drilled[n] {
				ns = append(ns, n)
			}
		}
		if g.Openings, g.Count = ns, len(ns); g.Count > 0 {
			left = append(left, g)
		}
	}
	return left
}

// holeRows are the rows of the drill table for the openings that a drill makes.
func (t *template) holeRows() []paragraph {
	var ps []paragraph
	for _, h := range t.drilled {
		with := export.MM(h.mm) + " mm, right through"
		most := ""
		if d, ok := check.LargestDrill(h.mm + 0.005); ok && h.mm-d.NumberMM < 0.1 {
			most = fmt.Sprintf("no. %d", d.Number)
		}
		ps = append(ps, paragraph{cells: []string{"no saw", with, most,
			export.HowMany(len(h.openings), "round hole", "round holes") + ": " + ranges(h.openings)}})
	}
	return ps
}
