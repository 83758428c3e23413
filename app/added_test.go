package app

import (
	"testing"

	"fretband/pattern"
	"fretband/pattern/check"
	"fretband/unroll/plane"

	"github.com/stretchr/testify/require"
)

// Whatever is chosen of a part one after the other, the design can be laid.
func TestEachChoiceOfAnAddedPartCanBeLaid(t *testing.T) {
	d := gallery(t)
	for i := range everyAdded(d) {
		for _, key := range []string{"cut", "gem", "section", "seat", "setting", "row", "alloy"} {
			c := ChoiceOf("added[]."+key, i)
			one := Clone(d)
			one.Added = everyAdded(d)
			if !c.Shown(one) {
				continue
			}
			for _, o := range c.Options(one) {
				was := Clone(one)
				c.Set(&one, o.Key)
				_, _, err := check.Lay(one)
				require.NoError(t, err, "part %d %s %s, after %+v", i, key, o.Key, was.Added[i])
			}
		}
	}
}

// A part is added, picked on the blank, dragged, copied and taken away, and each of that can be
// undone.
func TestAnAddedPartIsTakenHoldOfAsAReserve(t *testing.T) {
	e := editorOf(t, gallery(t))
	before := e.Now()
	e.AddItem(AddedItem, pattern.StonePart)
	it := Item{AddedItem, 0}
	require.Equal(t, it, e.Item)
	relay(t, e)
	require.Equal(t, it, e.Scene.ItemAt(plane.Pt(0, 0), 0.3))
	e.MoveItem(it, plane.Pt(12, 2))
	relay(t, e)
	require.Equal(t, NoItem, e.Scene.ItemAt(plane.Pt(0, 0), 0.3))
	require.Equal(t, it, e.Scene.ItemAt(plane.Pt(12, 2), 0.3))
	e.PickOne(-1, it)
	e.CopyItem(it)
	require.Len(t, e.Now().Added, 2)
	require.Equal(t, Item{AddedItem, 1}, e.Item)
	e.RemoveItem(e.Item)
	require.Len(t, e.Now().Added, 1)
	require.Contains(t, it.Text(e.Now()), "quartz, oval cabochon")
	for range 4 {
		e.Doc.Undo()
	}
	require.Equal(t, before, e.Now())
}

// Wire that is there already gives beads their place beside it.
func TestNewBeadsLieBesideTheWire(t *testing.T) {
	e := editorOf(t, gallery(t))
	e.AddItem(AddedItem, pattern.WirePart)
	e.AddItem(AddedItem, pattern.BeadsPart)
	d := e.Now()
	require.Equal(t, d.Added[0].WidthMM, d.Added[1].InsetMM)
	relay(t, e)
	for _, f := range e.Scene.Report.Findings {
		require.NotEqual(t, check.KindAddedOverlap, f.Kind)
	}
}

// A stone takes the place of its seat: openings stay where they were, but for the roundings to a
// hundredth of a millimetre.
func TestAStoneTakesThePlaceOfItsSeat(t *testing.T) {
	d := gallery(t)
	d.Reserves = []pattern.Reserve{
		{Shape: pattern.OvalShape, XMM: 10, YMM: 1, WidthMM: 6, HeightMM: 8, RotationDeg: 20, MarginMM: 1},
		{Shape: pattern.CircleShape, XMM: -20, WidthMM: 5, Count: 3, SpacingMM: 9, MarginMM: 0.8, Note: "garnets"},
	}
	e := editorOf(t, d)
	n, left := len(e.Scene.Sheet.Openings), e.Scene.Report.Left
	e.SetStone(0)
	e.SetStone(0)
	relay(t, e)
	require.Empty(t, e.Now().Reserves)
	require.Len(t, e.Now().Added, 2)
	require.Equal(t, "garnets", e.Now().Added[1].Note)
	require.Len(t, e.Scene.Sheet.Added[1].Seats, 3)
	require.Len(t, e.Scene.Sheet.Openings, n)
	require.InDelta(t, left, e.Scene.Report.Left, 0.02)
	require.Equal(t, Item{AddedItem, 1}, e.Item)
}
