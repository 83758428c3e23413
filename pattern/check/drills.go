package check

import (
	"math"

	"fretband/pattern"
	"fretband/unroll/plane"
)

// Drilled is the openings that are entered with one drill, by their numbers, in
// ascending order.
type Drilled struct {
	Pilot
	Openings []int
}

// Drills divides the openings by the drill for the coarsest blade, from the advised one to
// the finest listed, whose pilot hole has room in them: coarsest first, without those
// that fit no opening. The last may be one without a blade: openings that none of
// them gets into. The counts are those of [Making] once it is deepened.
func Drills(s *pattern.Sheet, advised Blade) []Drilled {
	pilots := pilotsFor(advised)
	groups := make([]Drilled, len(pilots)+1)
	for i, p := range pilots {
		groups[i].Pilot = p
	}
	known := map[int]int{}
	for i := range s.Openings {
		o := &s.Openings[i]
		k, ok := known[o.Shape]
		if !ok || o.Shape < 0 {
			for k = 0; k < len(pilots) && !enters(o.Loop, pilots[k].MM); k++ {
			}
			known[o.Shape] = k
		}
		groups[k].Count++
		groups[k].Openings = append(groups[k].Openings, o.Number)
	}
	var used []Drilled
	for _, g := range groups {
		if g.Count > 0 {
			used = append(used, g)
		}
	}
	return used
}

// enters reports whether the hole has room in the opening, at once where it has about the middle.
func enters(l plane.Loop, mm float64) bool {
	if m := l.Centroid(); l.Contains(m) && l.Nearest(m).D > mm/2 {
		return true
	}
	return admits(l, mm)
}

// Drill is a hole's drill by both scales, mm: the number drill (ANSI/ASME B94.11M) and
// the metric one (BS 328).
type Drill struct {
	Number             int
	NumberMM, MetricMM float64
}

// LargestDrill returns the largest drills of both scales that are not over d mm, no. 40
// at the most; false if d is under no. 80, the smallest listed.
func LargestDrill(d float64) (Drill, bool) {
	const next = 1e-6 // mm, to the next size up
	var is Drill
	for n, mm := numberDrill(0); mm <= d && mm > is.NumberMM; n, mm = numberDrill(mm + next) {
		is.Number, is.NumberMM = n, mm
	}
	if is.Number == 0 {
		return Drill{}, false
	}
	for mm := metricDrill(0); mm <= math.Min(d, is.NumberMM+0.05); mm = metricDrill(mm + next) {
		is.MetricMM = mm
	}
	return is, true
}
