package app

import (
	"testing"

	"fretband/pattern"
	"fretband/unroll/plane"

	"github.com/stretchr/testify/require"
)

// Two ties that begin at one position, one of them mirrored: each keeps to itself whichever
// is picked, moved, bent and turned out.
func TestTiesAreChangedEachByItself(t *testing.T) {
	b := newHands(t, cuffDesign(t))
	was := Clone(b.d)
	at := []pattern.Spot{{XMM: 20, YMM: -12}}
	Draw(&b.d, pattern.Edit{Do: pattern.Tie, At: at, SpanXMM: 4, SpanYMM: 24, WidthMM: 2, Mirror: pattern.MirrorAlong})
	b.Picked = Draw(&b.d, pattern.Edit{Do: pattern.Tie, At: at, SpanXMM: -6, SpanYMM: 24})
	b.lay()
	require.Len(t, b.s.Solid, 3)
	require.Equal(t, 2, b.Picked[0].Tie)
	numbers := func() (get map[string]float64, set map[string]func(*pattern.Design, float64)) {
		get, set = map[string]float64{}, map[string]func(*pattern.Design, float64){}
		for _, n := range b.HandNumbers() {
			if n.Shown(b.d) {
				get[n.Path], set[n.Path] = n.Get(b.d), n.Set
			}
		}
		return get, set
	}
	get, set := numbers()
	require.Equal(t, map[string]float64{
		"edits.picked.along": 20, "edits.picked.across": -12, "edits.picked.tie_width_mm": 0,
		"edits.picked.tie_span_x_mm": -6, "edits.picked.tie_span_y_mm": 24, "edits.picked.tie_bow_mm": 0,
	}, get)
	require.False(t, b.HandShape().Shown(b.d), "a tie has no shape to choose")
	// Its position, and the pick with it.
	set["edits.picked.along"](&b.d, 23)
	b.lay()
	require.Equal(t, 23.0, b.d.Edits[1].At[0].XMM)
	require.Equal(t, 20.0, b.d.Edits[0].At[0].XMM)
	require.Len(t, b.Picked, 1)
	require.Equal(t, plane.Pt(23, -12), b.Picked[0].At[0])
	// The other's image: what it is moved to the right, the edit moves to the left.
	for i, c := range b.s.Solid {
		if c.Edit == 0 && c.Spot == 1 {
			b.Picked = []Picked{PickSolid(b.s, i)}
		}
	}
	get, _ = numbers()
	require.Equal(t, -20.0, get["edits.picked.along"])
	require.Equal(t, -4.0, get["edits.picked.tie_span_x_mm"])
	b.Picked = Shifted(&b.d, b.s.Flat, b.Picked, Shift{Along: 1, Across: 0.5}, "")
	require.Equal(t, []pattern.Spot{{XMM: 19, YMM: -11.5}}, b.d.Edits[0].At)
	require.Equal(t, plane.Pt(-19, -11.5), b.Picked[0].At[0])
	b.lay()
	b.TieEnd(&b.d, false, plane.Pt(-21, 10))
	require.Equal(t, []float64{2, 21.5}, []float64{b.d.Edits[0].SpanXMM, b.d.Edits[0].SpanYMM})
	b.TieEnd(&b.d, true, plane.Pt(-17, -12.5))
	require.Equal(t, pattern.Spot{XMM: 17, YMM: -12.5}, b.d.Edits[0].At[0])
	require.Equal(t, []float64{4, 22.5}, []float64{b.d.Edits[0].SpanXMM, b.d.Edits[0].SpanYMM})
	b.lay()
	_, set = numbers()
	set["edits.picked.tie_bow_mm"](&b.d, 100)
	require.NoError(t, b.d.Check(), "half of a circle at most")
	require.InDelta(t, -11.42, b.d.Edits[0].BowMM, 0.01, "the image bends to its own left")
	b.TieBow(&b.d, plane.Pt(-19, -1.25))
	require.Zero(t, b.d.Edits[0].BowMM, "nearly straight is straight")
	set["edits.picked.tie_width_mm"](&b.d, 0)
	require.Equal(t, 0.0, b.d.Edits[0].WidthMM)
	b.lay()
	// Left solid it stays; opened again it is gone, and so is its image; the other stays.
	LeaveSolid(&b.d, b.s.Flat, b.Picked, "")
	require.Len(t, b.d.Edits, 2)
	OpenAgain(&b.d, b.s.Flat, b.Picked)
	require.Len(t, b.d.Edits, 1)
	require.Equal(t, -6.0, b.d.Edits[0].SpanXMM)
	b.lay()
	b.Picked = []Picked{PickSolid(b.s, 0)}
	UndoHand(&b.d, b.s.Flat, b.Picked)
	require.True(t, Equal(was, b.d))
}
