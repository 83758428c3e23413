package app

import (
	"sync/atomic"
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

// restTime is how long a hand must rest before what takes longer is looked for: a
// slider that is dragged needs the processors for itself.
const restTime = 250 * time.Millisecond

// Laying lays a design after each change and, once the hand rests, looks for what takes
// longer in it.
type Laying struct {
	Computer *Computer
	Deepener *Deepener
	// Later runs f after d on the caller's goroutine; nil, as in tests: no hand ever rests.
	Later func(d time.Duration, f func()) *time.Timer

	laid   func(Result)
	last   Result                        // that could be laid
	wanted atomic.Pointer[pattern.Sheet] // of which more is to be found; nil while the hand moves
	rest   *time.Timer
}

// NewLaying returns what works in the background by run and comes back by post. It calls
// laid with each result, and deepened with one of which more was found.
func NewLaying(run, post func(func()), laid, deepened func(Result)) *Laying {
	l := &Laying{Computer: NewComputer(check.Lay), laid: laid}
	l.Computer.Go, l.Computer.Post, l.Computer.Done = run, post, l.computed
	l.Deepener = NewDeepener(func(s *pattern.Sheet, r *check.Report) *check.Report {
		return check.DeepenWhile(s, r, func() bool { return l.wanted.Load() == s })
	})
	l.Deepener.Go, l.Deepener.Post = run, post
	l.Deepener.Done = func(r Result) {
		if r.Report != nil && r.Sheet == l.last.Sheet { // it was not given up, nor is it of an older design
			l.last = r
			deepened(r)
		}
	}
	return l
}

// Ask has a design laid.
func (l *Laying) Ask(d pattern.Design) {
	l.wanted.Store(nil)
	l.Computer.Ask(d)
}

// Forget drops what was laid last.
func (l *Laying) Forget() { l.last = Result{} }

func (l *Laying) computed(r Result) {
	if r.Err == nil {
		l.last = r
	}
	l.laid(r)
	if l.rest != nil {
		l.rest.Stop()
		l.rest = nil
	}
	if l.Later != nil && l.shallow() {
		l.rest = l.Later(restTime, l.Deepen)
	}
}

func (l *Laying) shallow() bool { return l.last.Report != nil && l.last.Report.Deep == nil }

// Deepen looks for what takes longer in what was laid last.
func (l *Laying) Deepen() {
	if l.shallow() && !l.Computer.Busy() {
		l.wanted.Store(l.last.Sheet)
		l.Deepener.Ask(l.last)
	}
}
