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

func TestChordsStayWithinTheirToleranceAndAreNoMoreThanNeeded(t *testing.T) {
	for _, r := range []float64{0.5, 3, 10, 100} {
		for _, tol := range []float64{0.001, 0.005, 0.02} {
			l := chordLoop(plane.Circle(plane.Pt(1, 2), r), tol)
			// Each half of the circle by itself, closed form.
			n := math.Ceil(math.Pi / (2 * math.Acos(1-tol/r)))
			assert.Len(t, l, 2*int(n), "r %g within %g", r, tol)
			for i, e := range l.Edges() {
				require.True(t, e.IsLine())
				require.InDelta(t, r, l[i].Dist(plane.Pt(1, 2)), 1e-12*r, "a vertex is not on the arc")
				require.GreaterOrEqual(t, e.Mid().Dist(plane.Pt(1, 2)), r-tol-1e-12, "a chord leaves the tolerance")
			}
		}
	}
}

// A wedge of metal reaches into the hollow of an arc that is 0.004 mm deep, to half a
// thousandth from it: one chord, which is within the usual tolerance, would cross it.
func TestAChordCrossesNoMetalInItsHollow(t *testing.T) {
	l := plane.Loop{
		{Point: plane.Pt(0, 0)}, {Point: plane.Pt(4.9, 0)}, {Point: plane.Pt(5, 4.0035)}, {Point: plane.Pt(5.1, 0)}, {Point: plane.Pt(10, 0)},
		{Point: plane.Pt(10, 4), Bulge: 0.0008}, {Point: plane.Pt(0, 4)},
	}
	require.NoError(t, l.Check())
	_, crosses := crossesItself(chordLoop(l, export.UsualChordMM).Edges())
	require.True(t, crosses, "the case is one")
	c := cuttingLine{loop: l}
	c.inChords(export.UsualChordMM)
	_, crosses = crossesItself(c.loop.Edges())
	assert.False(t, crosses)
	for _, e := range c.loop.Edges() {
		assert.True(t, e.IsLine())
		assert.LessOrEqual(t, l.Nearest(e.Mid()).D, export.UsualChordMM)
	}
}

// A lens of two arcs, one chord each within the tolerance: nothing would be left of it.
func TestALensKeepsItsSideInChords(t *testing.T) {
	l := plane.Loop{{Point: plane.Pt(40.3436, -2.5105), Bulge: -0.1625}, {Point: plane.Pt(40.0573, -2.3615), Bulge: 0.0287}}
	require.Zero(t, chordLoop(l, 0.0292).Area(), "the case is one")
	c := cuttingLine{loop: l}
	c.inChords(0.0292)
	assert.Negative(t, c.loop.Area(), "as it ran")
	assert.InDelta(t, l.Area(), c.loop.Area(), 0.0292*l.Len())
}

func TestAllThatIsWrittenInChordsIsStraight(t *testing.T) {
	for name, s := range sample.Gallery(t) {
		r := check.Run(s)
		o := export.Options{Copies: 2, LeadMM: 1, Tabs: 3}
		arcs, err := newCuttingPlan(s, r, o)
		require.NoError(t, err)
		o.Curves, o.ChordMM = export.Chords, 0.01
		p, err := newCuttingPlan(s, r, o)
		require.NoError(t, err)
		require.Len(t, p.lines, len(arcs.lines))
		for i, c := range p.lines {
			like := arcs.lines[i]
			if c.copy > 1 {
				break // wider apart in chords
			}
			// Moved to the sheet by another way.
			v := like.loop[0].Sub(c.loop[0].Point)
			for _, e := range append(c.loop.Edges(), c.runs[0].lead...) {
				require.True(t, e.IsLine(), name)
				require.Less(t, like.loop.Nearest(e.Mid().Add(v)).D, 1.01, name)
			}
			for _, e := range c.loop.Edges() {
				require.LessOrEqual(t, like.loop.Nearest(e.Mid().Add(v)).D, 0.01+1e-9, name)
			}
			for k, run := range c.runs {
				require.InDelta(t, 0, run.path()[0].A.Add(v).Dist(like.runs[k].path()[0].A), 1e-9, "%s: a run begins elsewhere", name)
				for _, e := range run.path() {
					require.True(t, e.IsLine(), name)
				}
			}
		}
		for _, m := range p.engraved {
			for _, st := range m.strokes {
				for _, e := range st.Edges() {
					require.True(t, e.IsLine(), name)
				}
			}
		}
		assert.Len(t, p.engraved, len(arcs.engraved))
	}
}
