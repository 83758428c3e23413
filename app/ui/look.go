package ui

import (
	"fretband/pattern/check"
	"fretband/unroll"
	"fretband/unroll/plane"
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
	w.figures.Forget()
	w.ed.Pick(nil)
	w.frame.show(true)
	w.ringFinding(&f)
	w.lookAt(f.At)
	w.ed.Log.Event("finding", "index", i, "check", f.Kind.Key, "places", len(f.At))
	w.logPlacesSoon()
}

// ringFigure marks the places of a figure.
func (w *Window) ringFigure(at []plane.Point) {
	w.blank.Ring(at, check.Note)
	w.bent.Ring(w.ed.Scene.Sheet.Flat, at, check.Note)
}

// showFigure goes to the places of a figure.
func (w *Window) showFigure(at []plane.Point) {
	w.findings.Clear()
	w.ed.Pick(nil)
	w.ringFigure(at)
	w.lookAt(at)
	w.ed.Log.Event("figure", "places", len(at))
	w.logPlacesSoon()
}

// lookAt goes to positions that are marked.
func (w *Window) lookAt(at []plane.Point) {
	if len(at) <= manyPositions {
		w.blank.LookAt(at)
	}
	w.bent.TurnToRings()
}

// manyPositions is the most positions that the view goes to; for more it stays.
const manyPositions = 12
