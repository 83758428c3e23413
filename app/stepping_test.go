package app

import (
	"testing"

	"fretband/pattern/project"
	"fretband/unroll/plane"

	"github.com/stretchr/testify/require"
)

// From an opening the arrow keys lead to every other one, in each design; a step to the right
// goes to the right, except over the seam of a closed band.
func TestArrowKeysReachEveryOpening(t *testing.T) {
	for _, name := range project.Gallery() {
		d, err := project.GalleryDesign(name)
		require.NoError(t, err)
		e := editorOf(t, d)
		s := e.Scene.Sheet
		seen, todo := map[int]bool{0: true}, []int{0}
		for len(todo) > 0 {
			i := todo[0]
			todo = todo[1:]
			for _, way := range []plane.Point{{X: 1}, {X: -1}, {Y: 1}, {Y: -1}} {
				k := e.Scene.Beside(i, way)
				if k < 0 {
					continue
				}
				require.NotEqual(t, i, k)
				by := s.Openings[k].Box.Centre().Sub(s.Openings[i].Box.Centre())
				if d.Band.Open() && !s.Flat.Flared() {
					require.Positive(t, by.Dot(way), "%s: from %d to %d", name, i, k)
				}
				if !seen[k] {
					seen[k] = true
					todo = append(todo, k)
				}
			}
		}
		require.GreaterOrEqual(t, len(seen), len(s.Openings)*98/100, name)
	}
}

// Enter widens what is picked from the opening to its row and its field; the arrows then step
// over as much, and what is done works on all of it.
func TestRowsAndFieldsAreSteppedThrough(t *testing.T) {
	d := gallery(t)
	e := editorOf(t, d)
	s := e.Scene.Sheet
	at, ok := e.Widen(plane.Point{})
	require.True(t, ok)
	require.Less(t, at.Dist(plane.Point{}), 8.0)
	first := e.lastPicked()
	require.Len(t, e.Picked, 1)
	_, ok = e.StepPick(plane.Pt(1, 0), false)
	require.True(t, ok)
	require.Len(t, e.Picked, 1)
	require.NotEqual(t, first, e.lastPicked())
	_, ok = e.StepPick(plane.Pt(1, 0), true)
	require.True(t, ok)
	require.Len(t, e.Picked, 2, "with Shift one more")

	e.Pick([]Picked{Pick(s, first)})
	_, ok = e.Widen(plane.Point{})
	require.True(t, ok)
	row := s.Openings[first].Row
	require.Greater(t, len(e.Picked), 5)
	for _, p := range e.Picked {
		require.Equal(t, row, s.Openings[p.Opening].Row)
	}
	_, ok = e.StepPick(plane.Pt(0, 1), false)
	require.True(t, ok)
	for _, p := range e.Picked {
		require.NotEqual(t, row, s.Openings[p.Opening].Row)
		require.Equal(t, s.Openings[e.lastPicked()].Row, s.Openings[p.Opening].Row)
	}
	n := len(e.Picked)
	e.LeaveSolid()
	relay(t, e)
	require.Len(t, e.Scene.Sheet.Solid, n+len(s.Solid))
	e.Doc.Undo()
	relay(t, e)
	e.Pick([]Picked{Pick(e.Scene.Sheet, first)})
	e.Width = WholeRow
	e.Widen(plane.Point{})
	require.Len(t, e.Picked, len(e.Scene.Sheet.Openings), "the whole field")
	e.Widen(plane.Point{})
	require.Len(t, e.Picked, 1, "and the opening alone again")
}

// What is offered at a position can be done, and is undone in one step.
func TestWhatIsOfferedCanBeDone(t *testing.T) {
	d := gallery(t)
	e := editorOf(t, d)
	s := e.Scene.Sheet
	hole := s.Openings[len(s.Openings)/2].Loop.Centroid()
	metal := e.Scene.Report.Thinnest.A.Add(e.Scene.Report.Thinnest.B).Mul(0.5)
	reserve := Item{Index: 0}.At(d)
	titles := func(at plane.Point) (all []string) {
		for _, o := range e.Offers(at, 0.1) {
			if o.Do != nil {
				all = append(all, o.Title)
			}
		}
		return all
	}
	require.Contains(t, titles(hole), "Leave solid (L)")
	require.Len(t, e.Picked, 1, "what is meant is picked")
	require.Contains(t, titles(metal), "Push at the metal here")
	require.Contains(t, titles(reserve), "Remove it (Delete)")
	require.Empty(t, titles(plane.Pt(900, 900)))
	for _, at := range []plane.Point{hole, metal, reserve} {
		for i := range e.Offers(at, 0.1) {
			o := e.Offers(at, 0.1)[i]
			if o.Do == nil {
				continue
			}
			o.Do()
			if !Equal(d, e.Now()) {
				_ = e.Now().Check()
				require.NoError(t, e.Now().Check(), o.Title)
				require.True(t, e.Doc.Undo())
			}
			require.True(t, Equal(d, e.Now()), "%s is one step", o.Title)
			require.False(t, e.Doc.CanUndo(), o.Title)
			e.LetGo()
			e.Tool = ""
		}
	}
}
