package cut

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"fretband/export"
	"fretband/unroll/plane"
)

// Positions that a tab keeps away from, mm and rad: ours.
const (
	tabClear = 1.0 // from corners, and from where the cut begins and ends
	tabTurns = 0.2 // a vertex at which the line turns by more is a corner
	// tabBends is how many times a tab's width the radius of an arc must be: over less,
	// the stub bends too much to be filed flush with a flat file.
	tabBends = 3
)

// holdByTabs leaves n tabs of a width standing in the outline: the line is cut in n+1
// runs between them, the first from the loop's first vertex on, the last back to it. The
// loop gets vertices where runs end.
func holdByTabs(c *cuttingLine, n int, width, kerf float64) error {
	runs, whole, err := tabbed(c.loop.Edges(), n, width, kerf)
	if err != nil {
		return err
	}
	c.runs, c.loop = runs, whole.Loop()
	return nil
}

// tabbed cuts a line that comes back to where it begins, or does so once round a tube, in n+1
// runs with a tab between any two. Each tab is in its own n-th of the line, as near to the
// middle of it as corners, small arcs and the beginning let it. The line between two runs is
// the tab's width and the kerf long, for the beam takes half a kerf at either end. It returns
// all of the line as well, with a vertex where a run ends.
func tabbed(es plane.Chain, n int, width, kerf float64) (runs []run, whole plane.Chain, err error) {
	at, ok := tabPositions(es, n, width, kerf)
	if !ok {
		fit := n - 1
		for ; fit > 0; fit-- {
			if _, ok := tabPositions(es, fit, width, kerf); ok {
				break
			}
		}
		if fit == 0 {
			return nil, nil, fmt.Errorf("tabs %d of %s mm: no place on the outline is straight enough: give narrower ones, or none", n, export.MM(width))
		}
		return nil, nil, fmt.Errorf("tabs %d of %s mm: the outline has places clear of corners for %d: give fewer or narrower ones", n, export.MM(width), fit)
	}
	half := (width + kerf) / 2
	take := func(from, to float64) plane.Chain {
		part := stretch(es, from, to)
		whole = append(whole, part...)
		return part
	}
	from := 0.0
	for _, m := range at {
		runs = append(runs, run{edge: take(from, m-half)})
		take(m-half, m+half)
		from = m + half
	}
	return append(runs, run{edge: take(from, math.Inf(1))}), whole, nil
}

// barred is a stretch of the line in which no tab may have its middle.
type barred struct{ from, to float64 }

// tabPositions returns the middles of the tabs as lengths along the line.
func tabPositions(l plane.Chain, n int, width, kerf float64) (at []float64, ok bool) {
	whole := l.Len()
	half := (width + kerf) / 2
	bars := tabBars(l, half, whole)
	share := whole / float64(n)
	for k := range n {
		middle := (float64(k) + 0.5) * share
		// Two tabs are never nearer to each other than to a corner.
		lo, hi := float64(k)*share+half+tabClear/2, float64(k+1)*share-half-tabClear/2
		best, off := 0.0, math.Inf(1)
		try := func(m float64) {
			if d := math.Abs(m - middle); m >= lo && m <= hi && d < off && !isBarred(bars, m) {
				best, off = m, d
			}
		}
		try(middle)
		for _, b := range bars {
			try(b.from)
			try(b.to)
		}
		if math.IsInf(off, 1) {
			return nil, false
		}
		at = append(at, best)
	}
	return at, true
}

func isBarred(bars []barred, m float64) bool {
	for _, b := range bars {
		if b.from < m && m < b.to {
			return true
		}
	}
	return false
}

func tabBars(l plane.Chain, half, whole float64) []barred {
	clear := half + tabClear
	bars := []barred{{-1, clear}, {whole - clear, whole + 1}}
	s := 0.0
	for i, e := range l {
		before := l[(i+len(l)-1)%len(l)].Tangent(1)
		if a := e.Tangent(0); math.Abs(math.Atan2(before.Cross(a), before.Dot(a))) > tabTurns {
			bars = append(bars, barred{s - clear, s + clear})
		}
		// No tab ends so near to a vertex that a tiny edge would be left.
		bars = append(bars,
			barred{s - half - shortEdge, s - half + shortEdge},
			barred{s + half - shortEdge, s + half + shortEdge})
		length := e.Len()
		if e.Radius() < tabBends*2*half {
			bars = append(bars, barred{s - half, s + length + half})
		}
		s += length
	}
	slices.SortFunc(bars, func(a, b barred) int { return cmp.Compare(a.from, b.from) })
	merged := bars[:1]
	for _, b := range bars[1:] {
		if last := &merged[len(merged)-1]; b.from < last.to {
			last.to = math.Max(last.to, b.to)
		} else {
			merged = append(merged, b)
		}
	}
	return merged
}

// stretch returns the edges of the line from one length along it to another.
func stretch(l plane.Chain, from, to float64) plane.Chain {
	var es plane.Chain
	s := 0.0
	for _, e := range l {
		length := e.Len()
		a, b := math.Max(0, (from-s)/length), math.Min(1, (to-s)/length)
		s += length
		switch {
		case (b-a)*length <= plane.Snap:
			// Nothing of it, or what rounding leaves.
		case a == 0 && b == 1:
			es = append(es, e)
		default:
			es = append(es, e.Part(a, b))
		}
	}
	return es
}
