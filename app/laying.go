package app

import (
	"cmp"
	"context"
	"errors"
	"sync/atomic"
	"time"

	"fretband/pattern"
	"fretband/pattern/check"
	"fretband/pattern/strength"
	"fretband/unroll/plane"
)

// restTime is how long a hand must rest before what takes longer is looked for: a
// slider that is dragged needs the processors for itself.
const restTime = 250 * time.Millisecond

// momentTime is how long a hand must be still before its design is solved coarsely, where
// somebody watches the stress: longer than between two results of a drag.
const momentTime = 80 * time.Millisecond

// Laying lays a design after each change and, once the hand rests, looks for what takes
// longer in it, and last solves how it carries load. A newer design gives up both. The report
// holds the figures of a coarse solve, as all reports and papers do; while somebody watches
// the stress, a quick solve comes before it, and a fine one after.
type Laying struct {
	Computer *Computer
	Deepener *Deepener
	Solver   *Solver
	Memory   int64 // bytes that a fine solve takes at most; 0 is check.StrengthMemory
	// Later runs f after d on the caller's goroutine; nil, as in tests: no hand ever rests.
	Later func(d time.Duration, f func()) *time.Timer

	laid   func(Result)
	last   Result                        // that could be laid
	wanted atomic.Pointer[pattern.Sheet] // of which more is to be found; nil while the hand moves

	push    []plane.Point             // where the hand pushes: one position or none
	watched bool                      // the stress is looked at
	told    *pattern.Sheet            // what was solved last for the report,
	fine    *pattern.Sheet            // and what finely
	ctx     context.Context           // of the solves of the design in hand
	giveUp  context.CancelFunc        // ends it
	asked   [fine + 1]context.Context // for which each stage was last asked
	waits   []*time.Timer
}

// NewLaying returns what works in the background by run and comes back by post. It calls
// laid with each result, deepened with one of which more was found, and solved with what
// was solved of the last one.
func NewLaying(run, post func(func()), laid, deepened func(Result), solved func(Solved)) *Laying {
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
			l.advance()
		}
	}
	l.Solver = &Solver{Work: solve, Go: run, Post: post, Done: func(s Solved) {
		if s.given || s.Sheet != l.last.Sheet {
			return
		}
		switch s.stage {
		case forReport:
			l.last.Report, l.told = s.Report, s.Sheet
			if s.Err != nil && !tooLarge(s.Err) {
				l.fine = s.Sheet // it fails as well
			}
		case fine:
			l.fine = s.Sheet
		}
		s.More = l.watched && l.fine != s.Sheet
		solved(s)
		if s.stage == forReport {
			l.advance()
		}
	}}
	l.renew()
	return l
}

// renew gives up the solves that are under way and makes ready for others.
func (l *Laying) renew() {
	if l.giveUp != nil {
		l.giveUp()
	}
	l.ctx, l.giveUp = context.WithCancel(context.Background())
}

// Ask has a design laid.
func (l *Laying) Ask(d pattern.Design) {
	l.wanted.Store(nil)
	l.renew()
	l.Computer.Ask(d)
}

// Forget drops what was laid last.
func (l *Laying) Forget() {
	l.giveUp()
	l.last, l.push = Result{}, nil
}

// Push has the band pushed at a position of the blank too, and solved anew.
func (l *Laying) Push(at plane.Point) {
	l.push = []plane.Point{at}
	l.renew()
	l.told, l.fine = nil, nil
	if !l.shallow() {
		l.advance()
	}
}

func (l *Laying) computed(r Result) {
	if r.Err == nil {
		l.last = r
	}
	l.laid(r)
	for _, t := range l.waits {
		t.Stop()
	}
	l.waits = l.waits[:0]
	if l.Later == nil || l.last.Report == nil {
		return
	}
	if l.watched && l.told != l.last.Sheet {
		l.waits = append(l.waits, l.Later(momentTime, func() { l.solve(quick) }))
	}
	l.waits = append(l.waits, l.Later(restTime, l.Deepen))
}

func (l *Laying) shallow() bool { return l.last.Report != nil && l.last.Report.Deep == nil }

// Deepen looks for what takes longer in what was laid last.
func (l *Laying) Deepen() {
	switch {
	case l.Computer.Busy():
	case l.shallow():
		l.wanted.Store(l.last.Sheet)
		l.Deepener.Ask(l.last)
	default:
		l.advance()
	}
}

// Watch says whether the stress is looked at: then it is solved quickly as soon as the hand
// is still, and finely once it rests.
func (l *Laying) Watch(on bool) {
	if l.watched == on {
		return
	}
	l.watched = on
	if on && l.told != l.last.Sheet {
		l.solve(quick)
	}
	if on && !l.shallow() {
		l.advance()
	}
}

// advance has the next be solved of a design whose deep report is there.
func (l *Laying) advance() {
	switch {
	case l.told != l.last.Sheet:
		l.solve(forReport)
	case l.watched && l.fine != l.last.Sheet:
		l.solve(fine)
	}
}

// solve has what was laid last solved, unless a newer design is being laid.
func (l *Laying) solve(s stage) {
	if s == quick && l.asked[forReport] == l.ctx {
		return // that is nearly as quick
	}
	if l.last.Sheet != nil && !l.Computer.Busy() && l.asked[s] != l.ctx {
		l.asked[s] = l.ctx
		l.Solver.Ask(toSolve{l.ctx, l.last, s, l.Memory, l.push})
	}
}

// stage is what a solve is for.
type stage int

const (
	quick     stage = iota // a first picture, without tongues
	forReport              // figures
	fine                   // the best picture
)

// Solver solves how laid designs carry load.
type Solver = Newest[toSolve, Solved]

type toSolve struct {
	ctx    context.Context
	of     Result
	stage  stage
	memory int64
	push   []plane.Point
}

// Solved is how a laid design carries load.
type Solved struct {
	Sheet   *pattern.Sheet
	Figures *strength.Figures // nil where it can't be solved
	Err     error             // why it can't, or why no better than coarsely
	More    bool              // a better solve follows
	// Report is the design's with the figures, where they are for it.
	Report *check.Report
	Took   time.Duration

	stage stage
	given bool  // up
	limit int64 // of memory, bytes
}

// solve solves for a stage.
func solve(a toSolve) Solved {
	began := time.Now()
	s := Solved{Sheet: a.of.Sheet, stage: a.stage, limit: cmp.Or(a.memory, check.StrengthMemory)}
	solveBy := func(ask check.StrengthAsk) {
		s.Figures, s.Err = check.StrengthOf(a.ctx, a.of.Sheet, a.of.Report, ask)
	}
	unasked, most := check.Unasked(), check.StrengthAsk{Memory: a.memory}
	// What a hand pushed may have been cut away since.
	if len(a.push) > 0 && NewScene(0, a.of.Sheet, a.of.Report).metalAt(a.push[0]) {
		unasked.Pushes, most.Pushes = a.push, a.push
	}
	switch a.stage {
	case quick:
		solveBy(unasked)
	case forReport:
		s.Report = check.Strengthen(a.ctx, a.of.Sheet, a.of.Report, unasked)
		s.Figures, s.Err = s.Report.Strength, s.Report.Unsolved
	case fine:
		solveBy(most)
		if err := s.Err; err != nil && tooLarge(err) { // a coarse picture is better than none
			most.Coarse = true
			solveBy(most)
			s.Err = err
		}
	}
	if s.Figures != nil {
		s.Figures.Study.Settle()
	}
	s.given = a.ctx.Err() != nil
	s.Took = time.Since(began)
	return s
}

// tooLarge reports whether a solve needs more memory than it may take.
func tooLarge(err error) bool {
	var memory *strength.MemoryError
	return errors.As(err, &memory) || errors.Is(err, strength.ErrTooMany)
}
