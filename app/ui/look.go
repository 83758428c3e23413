package ui

import (
	"fretband/pattern/check"
	"fretband/unroll"
)

// ringFinding marks a finding's positions on the blank and on the bent band; nil removes
// the rings.
func (w *Window) ringFinding(f *check.Finding) {
	if f == nil {
		w.blank.Ring(nil, 0)
		w.bent.Ring(unroll.Flat{}, nil, 0)
	} else {
		w.blank.Ring(f.At, f.Severity)
		w.bent.Ring(w.ed.Scene.Sheet.Flat, f.At, f.Severity)
	}
}

// showFinding goes to a finding's position.
func (w *Window) showFinding(i int, f check.Finding) {
	w.ed.Pick(nil)
	w.ringFinding(&f)
	if len(f.At) <= manyPositions {
		w.blank.LookAt(f.At)
	}
	w.bent.TurnToRings()
	w.ed.Log.Event("finding", "index", i, "check", f.Kind.Key, "places", len(f.At))
	w.logPlacesSoon()
}

// manyPositions is the most positions that the view goes to; for more it stays.
const manyPositions = 12
