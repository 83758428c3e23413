package app

import (
	"reflect"

	"fretband/pattern"
)

// History is a design and all the designs that it was before: undo and redo
// without limit. It keeps whole designs. They share the lists that an edit leaves alone, so
// nothing in them is ever changed.
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
	h.now = cloneLike(d, h.now)
	// A drag that comes back to where it began is no step at all.
	if n := len(h.past); key != "" && Equal(h.past[n-1], h.now) {
		h.past = h.past[:n-1]
		h.open = ""
	}
	return true
}

// Before returns the design with which the step of that key began: the present one if no
// such step is under way. A slider that is measured from it ends the same whatever way it
// was dragged.
func (h *History) Before(key string) pattern.Design {
	if key != "" && key == h.open && len(h.past) > 0 {
		return Clone(h.past[len(h.past)-1])
	}
	return h.Now()
}

// entitle gives a name to the design, and to what it was and may be again, as far as they
// have none. It is no step of its own.
func (h *History) entitle(name string) {
	for _, ds := range [][]pattern.Design{h.past, h.future} {
		for i := range ds {
			if !ds[i].Named() {
				ds[i].Name = name
			}
		}
	}
	if !h.now.Named() {
		h.now.Name = name
	}
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
func Clone(d pattern.Design) pattern.Design { return cloneLike(d, pattern.Design{}) }

// cloneLike returns a copy of d that shares memory with like, as far as they are the
// same, and none with d.
func cloneLike(d, like pattern.Design) pattern.Design {
	return cloneOf(reflect.ValueOf(d), reflect.ValueOf(like)).Interface().(pattern.Design)
}

// cloneOf copies a value of texts, numbers, structures, lists and sets, however
// deep. What is empty becomes none, so that both are equal.
func cloneOf(v, like reflect.Value) reflect.Value {
	out := reflect.New(v.Type()).Elem()
	switch v.Kind() {
	case reflect.Struct:
		for i := range v.NumField() {
			out.Field(i).Set(cloneOf(v.Field(i), like.Field(i)))
		}
	case reflect.Slice:
		if v.Len() == 0 {
			return out
		}
		if v.Len() == like.Len() && reflect.DeepEqual(v.Interface(), like.Interface()) {
			return like
		}
		out.Set(reflect.MakeSlice(v.Type(), v.Len(), v.Len()))
		if flat(v.Type().Elem()) {
			reflect.Copy(out, v)
			return out
		}
		none := reflect.Zero(v.Type().Elem())
		for i := range v.Len() {
			of := none
			if i < like.Len() {
				of = like.Index(i)
			}
			out.Index(i).Set(cloneOf(v.Index(i), of))
		}
	case reflect.Map:
		if v.Len() == 0 {
			return out
		}
		if v.Len() == like.Len() && reflect.DeepEqual(v.Interface(), like.Interface()) {
			return like
		}
		out.Set(reflect.MakeMapWithSize(v.Type(), v.Len()))
		for _, k := range v.MapKeys() {
			out.SetMapIndex(k, cloneOf(v.MapIndex(k), reflect.Zero(v.Type().Elem())))
		}
	default:
		out.Set(v)
	}
	return out
}

// flat reports whether a copy of a value of that type shares no memory with it.
func flat(t reflect.Type) bool {
	switch t.Kind() {
	case reflect.Struct:
		for i := range t.NumField() {
			if !flat(t.Field(i).Type) {
				return false
			}
		}
	case reflect.Slice, reflect.Map:
		return false
	}
	return true
}

// Equal reports whether two designs say the same; an empty list and none are the
// same, as are no numbers and an empty set.
func Equal(a, b pattern.Design) bool { return reflect.DeepEqual(Clone(a), Clone(b)) }
