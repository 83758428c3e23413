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
	if w.scene == nil || w.result.Report.Deep != nil {
		return
	}
	if w.later == nil { // in tests no hand ever rests
		return
	}
	w.resting = w.later(restTime, w.deepen)
}

func (w *Window) deepen() {
	if w.scene != nil && w.result.Report.Deep == nil && !w.computer.Busy() {
		w.wanted.Store(w.result.Sheet)
		w.deepener.Ask(w.result)
	}
}

// deepenWhileWanted runs in the background and gives up as soon as the hand moves.
func (w *Window) deepenWhileWanted(s *pattern.Sheet, r *check.Report) *check.Report {
	return check.DeepenWhile(s, r, func() bool { return w.wanted.Load() == s })
}

// deepened takes what was found, if it is of the design that is in sight and has not
// been given up.
func (w *Window) deepened(r app.Result) {
	if w.scene == nil || r.Report == nil || r.Sheet != w.result.Sheet {
		return
	}
	w.result, w.scene.report = r, r.Report
	w.findings.checking(w.computer.Busy())
	w.findings.show(r.Report)
	w.figures.show(r.Report)
	w.log.Event("deepened", "findings", len(r.Report.Findings))
	w.tellSoon()
}
