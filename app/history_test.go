package app

import (
	"fmt"
	"runtime"
	"testing"

	"fretband/pattern"

	"github.com/stretchr/testify/require"
)

func bridge(d pattern.Design, mm float64) pattern.Design {
	d = Clone(d)
	d.Rules.BridgeMM = mm
	return d
}

func TestADragIsOneStep(t *testing.T) {
	d := pattern.Design{Rules: pattern.DesignRules{BridgeMM: 1}}
	h := NewHistory(d)
	for _, mm := range []float64{1.1, 1.2, 1.3} {
		require.True(t, h.Change("bridge", bridge(d, mm)))
	}
	h.Seal()
	require.True(t, h.Change("bridge", bridge(d, 2)))
	require.Equal(t, 2.0, h.Now().Rules.BridgeMM)
	require.True(t, h.Undo())
	require.Equal(t, 1.3, h.Now().Rules.BridgeMM)
	require.True(t, h.Undo())
	require.Equal(t, 1.0, h.Now().Rules.BridgeMM)
	require.False(t, h.Undo())
	require.True(t, h.Redo())
	require.True(t, h.Redo())
	require.False(t, h.Redo())
	require.Equal(t, 2.0, h.Now().Rules.BridgeMM)
}

func TestADragThatComesBackIsNoStep(t *testing.T) {
	d := pattern.Design{Rules: pattern.DesignRules{BridgeMM: 1}}
	h := NewHistory(d)
	h.Change("bridge", bridge(d, 1.5))
	h.Change("bridge", bridge(d, 1))
	require.False(t, h.CanUndo())
}

func TestAChangeForgetsWhatWasUndone(t *testing.T) {
	d := pattern.Design{Rules: pattern.DesignRules{BridgeMM: 1}}
	h := NewHistory(d)
	h.Change("", bridge(d, 2))
	h.Undo()
	require.True(t, h.CanRedo())
	h.Change("", bridge(d, 3))
	require.False(t, h.CanRedo())
}

func TestHistoryHasNoLimitAndSharesNoMemory(t *testing.T) {
	d := pattern.Design{Fields: []pattern.Field{{Numbers: map[string]float64{"n": 0}}}, Reserves: []pattern.Reserve{{}}}
	h := NewHistory(d)
	for i := 1; i <= 5000; i++ {
		n := h.Now()
		n.Fields[0].Numbers["n"] = float64(i)
		n.Reserves[0].XMM = float64(i)
		require.True(t, h.Change("", n))
	}
	for i := 4999; i >= 0; i-- {
		require.True(t, h.Undo())
		require.Equal(t, float64(i), h.Now().Fields[0].Numbers["n"])
		require.Equal(t, float64(i), h.Now().Reserves[0].XMM)
	}
}

func TestHistoryKeepsOfAnEditOnlyWhatItChanged(t *testing.T) {
	d := pattern.Design{Rules: pattern.DesignRules{BridgeMM: 1}}
	const lists, spots = 30, 200
	for i := range lists {
		d.Edits = append(d.Edits, pattern.Edit{Do: pattern.LeaveSolid, At: make([]pattern.Spot, spots)})
		d.Variants = append(d.Variants, pattern.Design{Name: fmt.Sprint(i), Edits: d.Edits[:1]})
	}
	h := NewHistory(d)
	inUse := func() int {
		var m runtime.MemStats
		runtime.GC()
		runtime.ReadMemStats(&m)
		return int(m.HeapAlloc)
	}
	before := inUse()
	const edits = 100
	for i := range edits {
		now := h.Now()
		now.Rules.BridgeMM += 0.001
		now.Edits[0].At[i%spots].XMM++ // the other lists stay
		h.Change("", now)
	}
	// The list that was changed, the heads of the others, and the design itself.
	most := spots*16 + lists*512 + 4096
	require.Less(t, (inUse()-before)/edits, most)
	require.Greater(t, 2*lists*spots*16, 4*most, "a whole copy is far larger")
	for range edits {
		require.True(t, h.Undo())
	}
	require.True(t, Equal(d, h.Now()))
	got := h.Now()
	got.Edits[3].At[7].XMM = 99
	require.True(t, Equal(d, h.Now()), "what is handed out shares nothing")
}
