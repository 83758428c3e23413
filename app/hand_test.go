package app

import (
	"math"
	"testing"

	"fretband/pattern"
	"fretband/pattern/project"
	"fretband/unroll/plane"

	"github.com/stretchr/testify/require"
)

// hands is a design with what is picked of it, laid anew after each change.
type hands struct {
	Selection
	t *testing.T
	d pattern.Design
	s *pattern.Sheet // of the scene
}

func newHands(t *testing.T, d pattern.Design) *hands {
	b := &hands{t: t, d: d}
	b.lay()
	return b
}

func (b *hands) lay() {
	b.t.Helper()
	s, err := pattern.Lay(b.d)
	require.NoError(b.t, err)
	b.s, b.Scene = s, &Scene{Sheet: s}
	b.Picked = Refind(s, b.Picked)
}

func (b *hands) pick(is ...int) {
	b.Picked = nil
	for _, i := range is {
		b.Picked = append(b.Picked, Pick(b.s, i))
	}
}

func cuffDesign(t *testing.T) pattern.Design {
	d, err := project.GalleryDesign(project.Gallery()[0])
	require.NoError(t, err)
	d.Edits, d.Reserves = nil, nil
	return d
}

func TestOpeningsAreLeftSolidAndOpenedAgain(t *testing.T) {
	b := newHands(t, cuffDesign(t))
	was, n := Clone(b.d), len(b.s.Openings)
	b.pick(3, 9, 20)
	LeaveSolid(&b.d, b.s.Flat, b.Picked, "")
	b.lay()
	require.Len(t, b.s.Openings, n-3)
	require.Len(t, b.d.Edits, 1)
	require.Len(t, b.Picked, 3, "the solid cells are picked now")
	require.Equal(t, -1, b.Picked[0].Opening)
	// More of them go into the same edit.
	solid := b.Picked
	b.pick(5)
	LeaveSolid(&b.d, b.s.Flat, append(b.Picked, solid...), "")
	b.lay()
	require.Len(t, b.d.Edits, 1)
	require.Len(t, b.d.Edits[0].At, 4)
	OpenAgain(&b.d, b.s.Flat, append(solid, b.Picked...))
	b.lay()
	require.True(t, Equal(was, b.d))
	require.Len(t, b.s.Openings, n)
}

func TestAnOpeningChangedAgainHasOneEdit(t *testing.T) {
	b := newHands(t, cuffDesign(t))
	was := Clone(b.d)
	b.pick(12, 13)
	at := b.Picked[0].At[0]
	b.Picked = Shifted(&b.d, b.s.Flat, b.Picked, Shift{Along: 0.3, RotationDeg: 20}, "")
	b.lay()
	require.Len(t, b.d.Edits, 1)
	require.Len(t, b.Picked, 2)
	require.Equal(t, at, b.Picked[0].At[0], "the place stays at the cell")
	b.Picked = Shifted(&b.d, b.s.Flat, b.Picked, Shift{Along: 0.2, Across: -0.1, Scale: 0.8}, "")
	b.lay()
	require.Len(t, b.d.Edits, 1)
	e := b.d.Edits[0]
	require.Equal(t, []float64{0.5, -0.1, 20, 0.8}, []float64{e.MoveXMM, e.MoveYMM, e.RotationDeg, e.Scale})
	// One of the two goes its own way.
	b.Picked = Shifted(&b.d, b.s.Flat, b.Picked[:1], Shift{Along: 1}, "")
	b.lay()
	require.Len(t, b.d.Edits, 2)
	require.Equal(t, 0.5, b.d.Edits[0].MoveXMM)
	require.Equal(t, 1.5, b.d.Edits[1].MoveXMM)
	// Back to where it was it is no edit.
	b.Picked = Shifted(&b.d, b.s.Flat, b.Picked, Shift{Along: -1.5, Across: 0.1, RotationDeg: -20, Scale: 1 / 0.8}, "")
	require.Len(t, b.d.Edits, 1)
	b.lay()
	b.Picked = []Picked{}
	for i := range b.s.Openings {
		if b.s.Openings[i].Edit >= 0 {
			b.Picked = append(b.Picked, Pick(b.s, i))
		}
	}
	UndoHand(&b.d, b.s.Flat, b.Picked)
	require.True(t, Equal(was, b.d))
}

func TestMirrorCopiesFollowTheHand(t *testing.T) {
	b := newHands(t, cuffDesign(t))
	b.pick(2)
	at := b.Picked[0].At[0]
	b.Picked = Shifted(&b.d, b.s.Flat, b.Picked, Shift{Along: 0.4, RotationDeg: 10}, pattern.MirrorAlong)
	b.lay()
	// The other one is picked and moved to the right: this one moves to the left.
	b.Picked = nil
	for i := range b.s.Openings {
		if o := &b.s.Openings[i]; o.Edit == 0 && o.By[0].Spot == 1 {
			b.Picked = []Picked{Pick(b.s, i)}
		}
	}
	require.Len(t, b.Picked, 1)
	require.InDelta(t, -at.X, b.Picked[0].At[0].X, 1e-9)
	ns := b.HandNumbers()
	require.Equal(t, -0.4, ns[0].Get(b.d))
	require.Equal(t, -10.0, ns[2].Get(b.d))
	b.Picked = Shifted(&b.d, b.s.Flat, b.Picked, Shift{Along: 0.1}, pattern.MirrorAlong)
	require.Len(t, b.d.Edits, 1)
	require.InDelta(t, 0.3, b.d.Edits[0].MoveXMM, 1e-9)
	b.HandMirror().Set(&b.d, "")
	require.Empty(t, b.d.Edits[0].Mirror)
}

func TestAReplacedOpeningKeepsItsChange(t *testing.T) {
	b := newHands(t, cuffDesign(t))
	b.pick(12)
	b.Picked = Shifted(&b.d, b.s.Flat, b.Picked, Shift{Along: 0.3}, "")
	b.lay()
	shape := b.HandShape()
	require.Equal(t, "", shape.Get(b.d))
	shape.Set(&b.d, pattern.CircleShape)
	b.lay()
	require.Equal(t, pattern.CircleShape, shape.Get(b.d))
	require.Equal(t, pattern.Replace, b.d.Edits[0].Do)
	require.Equal(t, pattern.Change, b.d.Edits[1].Do)
	for _, n := range b.HandNumbers() {
		if n.Title == "Diameter" {
			require.True(t, n.Shown(b.d))
			n.Set(&b.d, 1.8)
		}
	}
	b.lay()
	require.InDelta(t, math.Pi*0.81, b.s.Openings[b.Picked[0].Opening].Loop.Area(), 1e-3)
	shape.Set(&b.d, pattern.RectangleShape)
	require.Len(t, b.d.Edits, 2)
	require.Positive(t, b.d.Edits[0].HeightMM)
	require.NoError(t, b.d.Check())
	shape.Set(&b.d, pattern.PathShape)
	require.NoError(t, b.d.Check())
	shape.Set(&b.d, "")
	require.Len(t, b.d.Edits, 1)
}

func TestADrawnOpeningTakesItsPlaceWithIt(t *testing.T) {
	b := newHands(t, cuffDesign(t))
	b.Picked = Draw(&b.d, pattern.Edit{Shape: pattern.OvalShape, WidthMM: 6, HeightMM: 3, At: []pattern.Spot{{XMM: 10.004, YMM: 1}}})
	b.lay()
	require.Len(t, b.Picked, 1)
	require.Equal(t, -1, b.s.Openings[b.Picked[0].Opening].Field)
	require.True(t, b.Drawn(b.d))
	ns := b.HandNumbers()
	require.Equal(t, 10.0, ns[0].Get(b.d))
	ns[0].Set(&b.d, -20)
	b.lay()
	require.Len(t, b.Picked, 1)
	require.Equal(t, -20.0, b.d.Edits[0].At[0].XMM)
	require.Equal(t, 1.0, b.d.Edits[0].At[0].YMM)
	b.Picked = Shifted(&b.d, b.s.Flat, b.Picked, Shift{Across: 0.5, RotationDeg: 15, Scale: 0.5}, "")
	b.lay()
	e := b.d.Edits[0]
	require.Equal(t, []float64{1.5, 15, 3, 1.5}, []float64{e.At[0].YMM, e.RotationDeg, e.WidthMM, e.HeightMM})
	require.Len(t, b.Picked, 1)
	LeaveSolid(&b.d, b.s.Flat, b.Picked, "")
	require.Empty(t, b.d.Edits, "what was drawn is taken away")
}

func TestWhatIsIdleIsClearedAndTheRestStays(t *testing.T) {
	b := newHands(t, cuffDesign(t))
	var at plane.Point // of an opening with others to its right
	for i := range b.s.Openings {
		if p := b.s.Openings[i].Position(); p.X < at.X {
			at = p
		}
	}
	b.d.Edits = []pattern.Edit{
		{Do: pattern.LeaveSolid, At: []pattern.Spot{spotAt(at), {XMM: 400}}},
		{Do: pattern.Change, Scale: 2, At: []pattern.Spot{{XMM: 400}}},
		{Do: pattern.LeaveSolid, Mirror: pattern.MirrorAlong, At: []pattern.Spot{spotAt(at.Add(plane.Pt(8, 0)))}},
	}
	b.lay()
	require.NotEmpty(t, b.s.Idle)
	ClearIdle(&b.d, b.s)
	require.Len(t, b.d.Edits, 2)
	require.Len(t, b.d.Edits[0].At, 1)
	b.lay()
	require.Empty(t, b.s.Idle)
	RemoveEdit(&b.d, 0)
	require.Equal(t, pattern.MirrorAlong, b.d.Edits[0].Mirror)
}

func TestARowAndAFieldArePicked(t *testing.T) {
	b := newHands(t, cuffDesign(t))
	b.pick(0)
	row := SameRow(b.s, b.Picked)
	want := 0
	for _, o := range b.s.Openings {
		if o.Row == b.s.Openings[0].Row && o.Field == b.s.Openings[0].Field {
			want++
		}
	}
	require.Len(t, row, want)
	require.Len(t, SameField(b.s, b.Picked), len(b.s.Openings))
}
