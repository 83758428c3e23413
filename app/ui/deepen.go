package ui

import (
	"time"

	"fretband/app"
	"fretband/pattern"
	"fretband/pattern/check"
)

// restTime is how long a hand must rest before what takes longer is looked for: a
// slider that is dragged needs the processors for itself.
const restTime = 250 * time.Millisecond

// deepenSoon looks for what takes longer in the design that is in sight, once the
// hand rests.
func (w *Window) deepenSoon() {
	if w.resting != nil {
		w.resting.Stop()
		w.resting = nil
	}
	if w.ed.Scene == nil || w.ed.Scene.Report.Deep != nil {
		return
	}
	if w.later == nil { // in tests no hand ever rests
		return
	}
	w.resting = w.later(restTime, w.deepen)
}

func (w *Window) deepen() {
	if w.ed.Scene != nil && w.ed.Scene.Report.Deep == nil && !w.computer.Busy() {
		w.wanted.Store(w.ed.Scene.Sheet)
		w.deepener.Ask(app.Result{Sheet: w.ed.Scene.Sheet, Report: w.ed.Scene.Report})
	}
}

// deepenWhileWanted runs in the background and gives up as soon as the hand moves.
func (w *Window) deepenWhileWanted(s *pattern.Sheet, r *check.Report) *check.Report {
	return check.DeepenWhile(s, r, func() bool { return w.wanted.Load() == s })
}

// deepened takes what was found, if it is of the design that is in sight and has not
// been given up.
func (w *Window) deepened(r app.Result) {
	if w.ed.Scene == nil || r.Report == nil || r.Sheet != w.ed.Scene.Sheet {
		return
	}
	w.ed.Scene.Report = r.Report
	w.findings.Checking(w.computer.Busy())
	w.findings.Show(r.Report)
	w.figures.Show(r.Report)
	w.ed.Log.Event("deepened", "findings", len(r.Report.Findings))
	w.logPlacesSoon()
}
