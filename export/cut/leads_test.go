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

// Along a lead-in, this many places are looked at.
const leadPlaces = 25

func TestLeadInsLieInTheWasteAndTheirSpotClearOfEveryEdge(t *testing.T) {
	const lead = 0.8
	for name, s := range sample.Gallery(t) {
		r := check.Run(s)
		for _, kerf := range []float64{0, 0.1} {
			p, err := newCuttingPlan(s, r, export.Options{LeadMM: lead, KerfMM: kerf})
			require.NoError(t, err)
			plain, err := newCuttingPlan(s, r, export.Options{KerfMM: kerf})
			require.NoError(t, err)
			for i, c := range p.lines {
				what := func() string { return name + " " + plain.name(c) }
				require.Len(t, c.runs, 1, what())
				require.Len(t, c.runs[0].lead, 1, what())
				e := c.runs[0].lead[0]
				assert.Equal(t, c.loop.Edges(), c.runs[0].edge, "%s: the line is not the lead-in and then all of the edge", what())
				assert.Equal(t, c.loop[0].Point, e.B, "%s: the lead-in does not end where the line begins", what())
				assert.InEpsilon(t, plain.lines[i].loop.Area(), c.loop.Area(), 1e-12, what())
				assert.InEpsilon(t, plain.lines[i].loop.Len(), c.loop.Len(), 1e-12, what())
				length := lead
				if !c.outline() {
					_, radius := c.loop.LargestCircle(circleTolerance)
					length = math.Min(lead, radius-circleTolerance)
				}
				// The loop may begin at a vertex up to shortEdge from the nearest point.
				for k := range leadPlaces {
					f := float64(k) / leadPlaces
					q := e.At(f)
					assert.Equal(t, !c.outline(), c.loop.Contains(q), "%s: the lead-in leaves the waste", what())
					assert.GreaterOrEqual(t, c.loop.Nearest(q).D, (1-f)*length-shortEdge, "%s: nearer to an edge than to its end", what())
				}
			}
		}
	}
}

// name says which cut is meant.
func (p cuttingPlan) name(c cuttingLine) string {
	if c.outline() {
		return "outline"
	}
	return "opening " + export.Decimal(float64(c.number), 0)
}

func TestALoopBegunAnewIsTheSameLoop(t *testing.T) {
	for _, l := range []plane.Loop{plane.Circle(plane.Pt(3, 4), 2), sample.RoundedTriangle(), plane.Polygon(plane.Pt(0, 0), plane.Pt(3, 0), plane.Pt(0, 4)).Reverse()} {
		for i := range l {
			near := shortEdge / l.Edge(i).Len() // as a fraction, of either end
			for _, f := range []float64{0, 1e-6, 0.9 * near, 1.1 * near, 0.3, 1 - 1.1*near, 1 - 0.9*near, 0.999999, 1} {
				m := startAt(l, i, f)
				assert.InEpsilon(t, l.Area(), m.Area(), 1e-12)
				assert.InEpsilon(t, l.Len(), m.Len(), 1e-12)
				assert.InDelta(t, 0, m[0].Dist(l.Edge(i).At(f)), shortEdge)
				for _, e := range m.Edges() {
					assert.GreaterOrEqual(t, e.Len(), shortEdge)
				}
			}
		}
	}
}

func TestCutsComeInTheOrderInWhichTheSheetStaysFirm(t *testing.T) {
	for name, s := range sample.Gallery(t) {
		p, err := newCuttingPlan(s, check.Run(s), export.Options{Copies: 3, LeadMM: 0.5, Tabs: 2})
		require.NoError(t, err)
		var loops []plane.Loop
		for _, c := range p.lines {
			if c.outline() && export.OverEnds(s) {
				c.loop = nil // it runs through openings over the seam
			}
			loops = append(loops, c.loop)
		}
		for _, near := range plane.Pairs(loops, 0.01) {
			require.Fail(t, "two cuts in one place", "%s: cuts %d and %d", name, near.I+1, near.J+1)
		}
		copy, last := 1, 0
		seen := map[[2]int]bool{}
		for _, c := range p.lines {
			require.False(t, seen[[2]int{c.copy, c.number}], "%s: %d of copy %d stands twice", name, c.number, c.copy)
			seen[[2]int{c.copy, c.number}] = true
			require.Equal(t, copy, c.copy, name)
			if c.outline() {
				require.Equal(t, len(s.Openings), last, "%s: the outline comes before openings", name)
				copy, last = copy+1, 0
				continue
			}
			require.Equal(t, last+1, c.number, name)
			last = c.number
			assert.Negative(t, c.loop.Area())
			for _, e := range c.loop.Edges() {
				require.GreaterOrEqual(t, e.Len(), shortestEdge, "%s: opening %d", name, c.number)
			}
		}
		assert.Equal(t, 4, copy, name)
	}
}

func TestASheetOfMoreLinesThanAFileHoldsIsRefused(t *testing.T) {
	s, r := sample.Cuff()
	for len(s.Openings) < 600 { // which ones does not matter: nothing is drawn
		s.Openings = append(s.Openings, s.Openings[:6]...)
	}
	_, err := newCuttingPlan(s, r, export.Options{Copies: 1000})
	assert.ErrorContains(t, err, "copies 1000: 601 lines each make 601000 lines on the sheet: must be 500000 at most: make 831 parts at a time")
}
