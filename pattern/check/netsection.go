package check

import (
	"math"

	"fretband/pattern"
	"fretband/unroll/plane"
)

// netSamples is how many cross-sections are taken along the blank: more than a
// screen shows side by side, and a few across the smallest opening worth sawing.
const netSamples = 1024

// netSection measures the metal left in sections square to the middle line along
// the blank: the width of the blank less what the openings take of it. The sections are in
// the middles of equal steps, so none falls on the ends.
func netSection(s *pattern.Sheet) NetSection {
	n := NetSection{
		X: make([]float64, netSamples), Net: make([]float64, netSamples), Full: make([]float64, netSamples),
	}
	step := s.Flat.Length / netSamples
	x0 := -s.Flat.Length / 2
	for i := range n.X {
		n.X[i] = x0 + (float64(i)+0.5)*step
	}
	straight(s, s.Flat.Outline).AddSpans(n.Full, n.X[0], step, 1)
	copy(n.Net, n.Full)
	for i := range s.Openings {
		o := &s.Openings[i]
		// What runs over the seam of a closed band is at the other end too.
		for _, l := range s.Again(o.Loop) {
			straight(s, l).AddSpans(n.Net, n.X[0], step, -1)
		}
	}
	// From the middle outwards, right before left: of two equal positions the same
	// one is always reported, so that nothing jumps while a number is dragged.
	best := math.Inf(1)
	for k := range netSamples {
		i := netSamples/2 + k/2
		if k%2 == 1 {
			i = netSamples/2 - 1 - k/2
		}
		if n.Full[i] <= 0 {
			continue
		}
		if share := n.Net[i] / n.Full[i]; share < best-1e-9 {
			best = share
			n.WeakX, n.WeakNet, n.WeakFull = n.X[i], n.Net[i], n.Full[i]
		}
	}
	return n
}

// straight returns a loop as sections across the band see it: on a flared band its
// arc is laid straight, by chords within 0.01 mm.
func straight(s *pattern.Sheet, l plane.Loop) plane.Loop {
	if !s.Flat.Flared() {
		return l
	}
	var out plane.Loop
	for i := range l {
		e := l.Edge(i)
		// A line across an arc of radius R bulges by its length squared over 8 R.
		n := max(1, int(math.Ceil(e.Len()/math.Sqrt(0.08*math.Abs(s.Flat.Apex())))))
		// And a chord over a part s of an arc is r s²/8 off it.
		if !e.IsLine() {
			n = max(n, int(math.Ceil(math.Abs(e.Sweep())/math.Sqrt(0.04/e.Radius()))))
		}
		for j := range n {
			x, v := s.Flat.Where(e.At(float64(j) / float64(n)))
			out = append(out, plane.Vertex{Point: plane.Pt(x, v)})
		}
	}
	return out
}
