package app

import (
	"time"

	"fretband/pattern"
	"fretband/pattern/check"
)

// Newest does work away from the caller's goroutine, one thing at a time, and
// gives back each result that is finished; of what was asked for meanwhile only
// the newest is done. So what follows a drag is shown as often as it can be
// worked out, in order, and always ends at the last.
type Newest[In, Out any] struct {
	Work func(In) Out
	// Go runs a function in the background, Post runs one on the caller's
	// goroutine later; tests run both at once.
	Go, Post func(func())
	// Done receives every finished result, on the caller's goroutine.
	Done func(Out)

	next *In
	busy bool
}

// Ask has the work done for in.
func (n *Newest[In, Out]) Ask(in In) {
	n.next = &in
	if !n.busy {
		n.start()
	}
}

// Busy reports whether results are still to come.
func (n *Newest[In, Out]) Busy() bool { return n.busy }

func (n *Newest[In, Out]) start() {
	in := *n.next
	n.next = nil
	n.busy = true
	n.Go(func() {
		out := n.Work(in)
		n.Post(func() {
			n.busy = false
			if n.next != nil {
				n.start()
			}
			n.Done(out)
		})
	})
}

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
