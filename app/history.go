package app

import (
	"maps"
	"reflect"
	"slices"

	"fretband/pattern"
)

// History is a design and all the designs that it was before: undo and redo
// without limit. A design is a few hundred bytes, so whole values are kept.
type History struct {
	past, future []pattern.Design
	now          pattern.Design
	// open names the edit that the newest step may still take in: a slider's
	// drag calls Change many times and is one step.
	open string
}

// NewHistory starts at d with nothing to undo.
func NewHistory(d pattern.Design) *History { return &History{now: Clone(d)} }

// Now returns the present design; the caller may change what it gets.
func (h *History) Now() pattern.Design { return Clone(h.now) }

// Change makes d the present design and reports whether that differs from the
// one before. Changes in a row with the same non-empty key are one step until
// [History.Seal].
func (h *History) Change(key string, d pattern.Design) bool {
	if Equal(d, h.now) {
		return false
	}
	if key == "" || key != h.open || len(h.past) == 0 {
		h.past = append(h.past, h.now)
	}
	h.open = key
	h.future = nil
	h.now = Clone(d)
	// A drag that comes back to where it began is no step at all.
	if n := len(h.past); key != "" && Equal(h.past[n-1], h.now) {
		h.past = h.past[:n-1]
		h.open = ""
	}
	return true
}

// Seal ends the edit that is under way: what follows is a new step.
func (h *History) Seal() { h.open = "" }

// CanUndo reports whether there is a step to take back.
func (h *History) CanUndo() bool { return len(h.past) > 0 }

// CanRedo reports whether there is a step to do again.
func (h *History) CanRedo() bool { return len(h.future) > 0 }

// Undo goes back one step, if there is one.
func (h *History) Undo() bool { return h.step(&h.past, &h.future) }

// Redo goes forward one step, if there is one.
func (h *History) Redo() bool { return h.step(&h.future, &h.past) }

func (h *History) step(from, to *[]pattern.Design) bool {
	h.Seal()
	n := len(*from)
	if n == 0 {
		return false
	}
	*to = append(*to, h.now)
	h.now = (*from)[n-1]
	*from = (*from)[:n-1]
	return true
}

// Clone returns a copy of d that shares no memory with it.
func Clone(d pattern.Design) pattern.Design {
	d.Band.Inside.Profile = slices.Clone(d.Band.Inside.Profile)
	d.Band.TopEdge = slices.Clone(d.Band.TopEdge)
	d.Band.BottomEdge = slices.Clone(d.Band.BottomEdge)
	d.Reserves = slices.Clone(d.Reserves)
	d.Field.Numbers = maps.Clone(d.Field.Numbers)
	return d
}

// Equal reports whether two designs say the same; an empty list and none are the
// same, as are no numbers and an empty set.
func Equal(a, b pattern.Design) bool {
	return reflect.DeepEqual(bare(a), bare(b))
}

// bare returns d with none in place of what is empty.
func bare(d pattern.Design) pattern.Design {
	if len(d.Reserves) == 0 {
		d.Reserves = nil
	}
	if len(d.Field.Numbers) == 0 {
		d.Field.Numbers = nil
	}
	if len(d.Band.TopEdge) == 0 {
		d.Band.TopEdge = nil
	}
	if len(d.Band.BottomEdge) == 0 {
		d.Band.BottomEdge = nil
	}
	if len(d.Band.Inside.Profile) == 0 {
		d.Band.Inside.Profile = nil
	}
	return d
}
