package app

import (
	"bytes"
	"testing"

	"fretband/pattern"
	"fretband/pattern/check"
	"fretband/pattern/project"
	"fretband/unroll/plane"

	"github.com/stretchr/testify/require"
)

// editing is an editor of a gallery design, which is laid anew after each change.
func editing(t *testing.T) (*Editor, *bytes.Buffer) {
	t.Helper()
	d, err := project.GalleryDesign(project.Gallery()[0])
	require.NoError(t, err)
	var log bytes.Buffer
	e := NewEditor(NewDocument(d), NewLog(&log))
	version := 0
	e.On.Changed = func() {
		s, r, err := check.Lay(e.Now())
		require.NoError(t, err)
		version++
		e.SetScene(NewScene(version, s, r))
	}
	e.On.Changed()
	return e, &log
}

// middle returns a position in opening i.
func middle(e *Editor, i int) plane.Point { return e.Scene.Sheet.Openings[i].Position() }

func openings(e *Editor) (is []int) {
	for _, p := range e.Picked {
		is = append(is, p.Opening)
	}
	return is
}

func TestClicksPickOneSeveralARowAndAField(t *testing.T) {
	e, log := editing(t)
	e.Click(middle(e, 10), 0.1, false, 1)
	require.Equal(t, []int{10}, openings(e))
	require.Equal(t, PatternPage, e.Page, "a plain click opens no page")
	e.Click(middle(e, 12), 0.1, true, 1)
	require.Equal(t, []int{10, 12}, openings(e))
	require.Equal(t, HandPage, e.Page)
	e.Click(middle(e, 10), 0.1, true, 1)
	require.Equal(t, []int{12}, openings(e), "with Shift what is picked is left out")
	e.Click(middle(e, 10), 0.1, false, 2)
	row := e.Scene.Sheet.Openings[10].Row
	require.Greater(t, len(e.Picked), 1)
	for _, i := range openings(e) {
		require.Equal(t, row, e.Scene.Sheet.Openings[i].Row)
	}
	e.Click(middle(e, 10), 0.1, false, 3)
	require.Len(t, e.Picked, len(e.Scene.Sheet.Openings))
	require.Contains(t, log.String(), "picked count=")
	e.LetGo()
	require.Empty(t, e.Picked)
}

func TestWhatIsPickedIsFoundOnTheNextScene(t *testing.T) {
	e, _ := editing(t)
	e.Click(middle(e, 10), 0.1, false, 1)
	at := e.Picked[0].At[0]
	e.LeaveSolid()
	require.Equal(t, -1, e.Picked[0].Opening)
	require.Equal(t, 0, e.Picked[0].Solid)
	p, ok := e.Scene.PickAt(at)
	require.True(t, ok && e.IsPicked(p))
	e.OpenAgain()
	require.GreaterOrEqual(t, e.Picked[0].Opening, 0)
	require.Empty(t, e.Now().Edits)
}

func TestADragIsOneStepAndIsGivenUpWhole(t *testing.T) {
	e, _ := editing(t)
	e.Click(middle(e, 10), 0.1, false, 1)
	was, picked := e.Now(), e.Picked
	e.Grab()
	move := e.Shifting("edits.move")
	for _, x := range []float64{0.1, 0.2, 0.3} {
		move(Shift{Along: x}, "moved")
	}
	require.InDelta(t, 0.3, e.Now().Edits[0].MoveXMM, 1e-9, "each move counts from where the hand began")
	e.GiveUp()
	require.True(t, Equal(was, e.Now()))
	require.Equal(t, picked, e.Picked)
	e.Grab()
	move = e.Shifting("edits.move")
	move(Shift{Along: 0.2}, "moved")
	move(Shift{Along: 0.4}, "moved")
	e.Seal()
	require.True(t, e.Doc.Undo())
	require.True(t, Equal(was, e.Now()))
}

func TestAToolDrawsWhereItIsClickedAsLargeAsBefore(t *testing.T) {
	e, _ := editing(t)
	e.TakeTool(pattern.CircleShape)
	e.TakeTool(pattern.CircleShape)
	require.Empty(t, e.Tool, "the same again puts it away")
	e.Draw(pattern.Edit{Shape: pattern.CircleShape, WidthMM: 2.5, At: []pattern.Spot{{XMM: 5}}})
	require.Empty(t, e.Tool)
	e.TakeTool(pattern.CircleShape)
	e.Click(plane.Pt(-20, 1), 0.1, false, 1)
	es := e.Now().Edits
	require.Len(t, es, 2)
	require.Equal(t, 2.5, es[1].WidthMM)
	said := ""
	e.On.Say = func(s string) { said = s }
	d := e.Now()
	for len(d.Edits) < pattern.MaxEdits {
		d.Edits = append(d.Edits, d.Edits[0])
	}
	e.On.Changed = func() {}
	e.Change("", "edits", "", "full", d)
	e.Draw(pattern.Edit{Shape: pattern.CircleShape, WidthMM: 1, At: []pattern.Spot{{}}})
	require.Contains(t, said, "at most")
	require.Len(t, e.Now().Edits, pattern.MaxEdits)
}

func TestItemsAreAddedNudgedCopiedAndRemoved(t *testing.T) {
	e, _ := editing(t)
	n := len(e.Now().Reserves)
	e.AddItem(ReserveItem, pattern.CircleShape)
	it := Item{Index: n}
	require.Equal(t, it, e.Item)
	from := it.At(e.Now())
	require.True(t, e.Nudge(plane.Pt(0.1, -1)))
	to := it.At(e.Now())
	require.InDelta(t, 0.1, to.X-from.X, 1e-9)
	require.InDelta(t, -1, to.Y-from.Y, 1e-9)
	e.Click(to, 0.1, false, 1)
	require.Equal(t, it, e.Item, "a click on it selects it")
	e.CopyItem(it)
	require.Equal(t, Item{Index: n + 1}, e.Item)
	e.RemoveItem(e.Item)
	require.Equal(t, NoItem, e.Item)
	require.Len(t, e.Now().Reserves, n+1)
	require.False(t, e.Nudge(plane.Pt(1, 0)), "nothing is selected")
}

func TestANumberIsPutOrRefused(t *testing.T) {
	e, log := editing(t)
	n, ok := NumberAt(e.Now(), "rules.rim_mm")
	require.True(t, ok)
	require.NoError(t, e.Put(n, "2,5"))
	require.Equal(t, 2.5, e.Now().Rules.RimMM)
	require.Error(t, e.Put(n, "999"))
	require.Equal(t, 2.5, e.Now().Rules.RimMM)
	require.Contains(t, log.String(), "refused field=rules.rim_mm typed=999")
	e.Slide(n, 3)
	e.Slide(n, 3.5)
	e.Seal()
	e.Doc.Undo()
	require.Equal(t, 2.5, e.Now().Rules.RimMM, "a slider's moves are one step")
}
