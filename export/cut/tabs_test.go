package cut

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"fretband/export"
	"fretband/export/sample"
	"fretband/pattern/check"
	"fretband/unroll/plane"
)

func TestTabsStandEvenlyAndAreAsWideAsAsked(t *testing.T) {
	for name, s := range sample.Gallery(t) {
		r := check.Run(s)
		for _, o := range []export.Options{{Tabs: 1}, {Tabs: 4, LeadMM: 1}, {Tabs: 6, TabMM: 1, KerfMM: 0.2}} {
			p, err := newCuttingPlan(s, r, o)
			require.NoError(t, err, name)
			for _, c := range p.lines {
				if !c.outline() {
					require.LessOrEqual(t, len(c.runs), 1, "%s: tabs hold a slug", name)
					continue
				}
				require.Len(t, c.runs, o.Tabs+1, name)
				cutLen := 0.0
				for k, r := range c.runs {
					run := r.edge
					if o.LeadMM > 0 {
						require.Len(t, r.lead, 1, "%s: run %d begins on the finished edge", name, k+1)
						require.Equal(t, run[0].A, r.lead[0].B, name)
						require.False(t, c.loop.Contains(r.lead[0].A), name)
					}
					cutLen += run.Len()
					for i, e := range run {
						require.GreaterOrEqual(t, e.Len(), shortEdge-plane.Snap, name)
						if i > 0 {
							require.Equal(t, run[i-1].B, e.A, "%s: a run is not a chain", name)
						}
						require.Less(t, c.loop.Nearest(e.Mid()).D, 1e-9, "%s: a run leaves the line", name)
					}
				}
				assert.Equal(t, c.loop[0].Point, c.runs[0].edge[0].A, name)
				last := c.runs[o.Tabs].edge
				assert.Equal(t, c.loop[0].Point, last[len(last)-1].B, name)
				gap := o.Tab() + o.KerfMM
				assert.InDelta(t, c.loop.Len()-float64(o.Tabs)*gap, cutLen, 1e-9, name)
				for i := range o.Tabs {
					a, b := c.runs[i].edge[len(c.runs[i].edge)-1], c.runs[i+1].edge[0]
					// The chord over a stub is its length but for the bow of a wide arc.
					assert.InDelta(t, gap, a.B.Dist(b.A), gap*0.05, name)
					assert.Greater(t, a.Tangent(1).Dot(b.Tangent(0)), math.Cos(tabTurns+0.4), "%s: a tab stands on a corner", name)
				}
			}
		}
	}
}

func TestTabsWithoutPlaceAreRefused(t *testing.T) {
	c := cuttingLine{loop: rectangle(8, 3)[0]}
	err := holdByTabs(&c, 24, 0.4, 0)
	assert.ErrorContains(t, err, "tabs 24 of 0.4 mm: the outline has places clear of corners for")
	c = cuttingLine{loop: plane.Circle(plane.Point{}, 1)}
	assert.ErrorContains(t, holdByTabs(&c, 1, 0.4, 0), "give narrower ones, or none")
}

func TestTabsOnARectangleStandInTheMiddleOfTheirShares(t *testing.T) {
	// Round 100 x 20 from a corner: shares of 60, their middles at 30, 90, 150, 210.
	c := cuttingLine{loop: rectangle(100, 20)[0]}
	require.NoError(t, holdByTabs(&c, 4, 0.5, 0))
	var mids []plane.Point
	for i := range 4 {
		a, b := c.runs[i].edge[len(c.runs[i].edge)-1].B, c.runs[i+1].edge[0].A
		mids = append(mids, a.Mid(b))
	}
	for i, want := range []plane.Point{{X: -20, Y: -10}, {X: 40, Y: -10}, {X: 20, Y: 10}, {X: -40, Y: 10}} {
		assert.InDelta(t, 0, want.Dist(mids[i]), 1e-9, "tab %d at %v", i+1, mids[i])
	}
	assert.InEpsilon(t, 240, c.loop.Len(), 1e-12)
}

// Of the places that are free, each tab takes the one nearest to the middle of its share.
func TestEachTabTakesTheFreePlaceNearestToItsMiddle(t *testing.T) {
	const width, kerf, n = 0.5, 0.1, 5
	moved := 0
	for long := 20.0; long < 40; long += 0.7 {
		l := rectangle(long, 12)[0]
		at, ok := tabPositions(l.Edges(), n, width, kerf)
		require.True(t, ok)
		share := l.Len() / n
		for k, m := range at {
			middle := (float64(k) + 0.5) * share
			for d := 0.0; d < math.Abs(m-middle)-1e-9; d += 1e-3 {
				for _, free := range []float64{middle - d, middle + d} {
					require.True(t, nearCorner(l, free, width, kerf), "%g x 12: tab %d stands %g off its middle, %g is free", long, k+1, m-middle, free-middle)
				}
			}
			if math.Abs(m-middle) > 0.1 {
				moved++
			}
		}
	}
	require.Greater(t, moved, 10)
}

// nearCorner says whether a tab with its middle at s along a rectangle comes too near to a
// corner of it.
func nearCorner(l plane.Loop, s, width, kerf float64) bool {
	corner := 0.0
	for i := range len(l) + 1 {
		if math.Abs(s-corner) < (width+kerf)/2+tabClear {
			return true
		}
		corner += l.Edge(i % len(l)).Len()
	}
	return false
}

// A vertex just beside where a tab would begin or end moves the tab: no tiny edge is left of
// the line, neither in the cut nor in the tab.
func TestTabsLeaveNoTinyEdgeBesideAVertex(t *testing.T) {
	const width, kerf = 0.5, 0.1
	for _, side := range []float64{-1, 1} {
		for _, d := range []float64{-1.5, -0.5, 0, 0.5, 1.5} {
			// A rectangle begun half way along its lower side: its only tab would stand in the
			// middle of the upper one, at x = 0.
			at := side*(width+kerf)/2 + d*shortEdge
			c := cuttingLine{loop: plane.Polygon(plane.Pt(0, 0), plane.Pt(30, 0), plane.Pt(30, 20), plane.Pt(at, 20), plane.Pt(-30, 20), plane.Pt(-30, 0))}
			require.NoError(t, holdByTabs(&c, 1, width, kerf))
			require.Len(t, c.runs, 2)
			for _, e := range c.loop.Edges() {
				require.Greater(t, e.Len(), 0.9*shortEdge, "vertex at %g", at)
			}
			a, b := c.runs[0].edge[len(c.runs[0].edge)-1].B, c.runs[1].edge[0].A
			require.InDelta(t, width+kerf, a.Dist(b), 1e-9)
			require.InDelta(t, 0, a.Mid(b).X, 2.1*shortEdge)
		}
	}
}
