package ui

import (
	"fretband/pattern/check"
	"fretband/unroll"
)

// ringFinding marks a finding's places on the blank and on the bent band; nil takes the
// marks away.
func (w *Window) ringFinding(f *check.Finding) {
	if f == nil {
		w.blank.Ring(nil, 0)
		w.bent.Ring(unroll.Flat{}, nil, 0)
	} else {
		w.blank.Ring(f.At, f.Severity)
		w.bent.Ring(w.ed.Scene.Sheet.Flat, f.At, f.Severity)
	}
}

// showFinding goes to a finding's place.
func (w *Window) showFinding(i int, f check.Finding) {
	w.ed.Pick(nil)
	w.ringFinding(&f)
	if len(f.At) <= manyPositions { // else marks, but stay where we are
		w.blank.LookAt(f.At)
	}
	w.bent.TurnToRings()
	w.ed.Log.Event("finding", "index", i, "check", f.Kind.Key, "places", len(f.At))
	w.logPlacesSoon()
}

// manyPositions is from how many positions on one stays where one looks.
const manyPositions = 12
