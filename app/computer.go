package app

import (
	"time"

	"fretband/pattern"
	"fretband/pattern/check"
)

// Result is what came of laying and checking one design. Err is set when it
// can't be laid or breaks a rule once laid; then Sheet and Report are nil.
type Result struct {
	Design pattern.Design
	Sheet  *pattern.Sheet
	Report *check.Report
	Err    error
	Took   time.Duration
}

// Computer lays and checks designs: those of a document as it is edited.
type Computer = Newest[pattern.Design, Result]

// NewComputer returns a computer that works with lay, which is check.Lay.
func NewComputer(lay func(pattern.Design) (*pattern.Sheet, *check.Report, error)) *Computer {
	return &Computer{Work: func(d pattern.Design) Result {
		t := time.Now()
		r := Result{Design: d}
		r.Sheet, r.Report, r.Err = lay(d)
		r.Took = time.Since(t)
		return r
	}}
}

// Deepener finds what takes longer than a hand that drags can wait, for results that
// a [Computer] has given.
type Deepener = Newest[Result, Result]

// NewDeepener returns a deepener that works with deepen: check.Deepen, or what gives up
// with a nil report.
func NewDeepener(deepen func(*pattern.Sheet, *check.Report) *check.Report) *Deepener {
	return &Deepener{Work: func(r Result) Result {
		r.Report = deepen(r.Sheet, r.Report)
		return r
	}}
}
