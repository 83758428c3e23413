package check

import (
	"fretband/pattern"
	"fretband/unroll/plane"
)

// Accepts reports whether what the maker accepts is that finding: one of the same
// kind, near the same position if it has any.
func Accepts(a pattern.Accepted, f Finding) bool {
	if a.Finding != f.Kind.Key {
		return false
	}
	near := len(f.At) == 0
	for _, p := range f.At {
		near = near || p.Dist(plane.Pt(a.At.XMM, a.At.YMM)) <= acceptedNear
	}
	return near
}
