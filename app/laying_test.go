package app

import (
	"context"
	"testing"
	"time"

	"fretband/pattern"
	"fretband/pattern/check"
	"fretband/pattern/project"
	"fretband/unroll/plane"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// rig is a laying whose hand rests, and whose solves run, when the test says so.
type rig struct {
	*Laying
	stress  *Stress
	waits   map[time.Duration]func()
	work    []func() // solves that wait
	laid    []Result
	deep    []Result
	solved  []Solved
	started []toSolve
}

func newRig() *rig {
	g := &rig{waits: map[time.Duration]func(){}}
	now := func(f func()) { f() }
	g.stress = NewStress(now, now)
	g.Laying = NewLaying(now, now, func(r Result) { g.laid = append(g.laid, r) }, func(r Result) { g.deep = append(g.deep, r) },
		func(s Solved) { g.solved = append(g.solved, s); g.stress.Take(s) })
	g.Later = func(d time.Duration, f func()) *time.Timer { g.waits[d] = f; return time.NewTimer(time.Hour) }
	g.Solver.Go = func(f func()) { g.work = append(g.work, f) }
	work := g.Solver.Work
	g.Solver.Work = func(a toSolve) Solved { g.started = append(g.started, a); return work(a) }
	return g
}

// step runs the solve that waits.
func (g *rig) step() {
	f := g.work[0]
	g.work = g.work[1:]
	f()
}

// plainRing is quickly solved.
func plainRing(t testing.TB) pattern.Design {
	t.Helper()
	d, err := project.GalleryDesign("mooring-ring")
	require.NoError(t, err)
	return d
}

func TestStressIsSolvedQuicklyInAMomentAndFinelyAtRest(t *testing.T) {
	g := newRig()
	d := plainRing(t)
	g.Ask(d)
	require.NotContains(t, g.waits, momentTime, "nobody watches")
	g.stress.Show(true)
	g.Watch(true)
	require.Len(t, g.work, 1)
	g.step()
	require.Len(t, g.solved, 1)
	require.True(t, g.solved[0].More)
	require.Nil(t, g.solved[0].Report, "tongues are not known yet")
	require.True(t, g.stress.Fresh(g.laid[0].Sheet))
	require.Contains(t, g.stress.Words(g.laid[0].Sheet), "the fine solve follows")

	g.waits[restTime]()
	require.Len(t, g.deep, 1)
	g.step()
	require.Len(t, g.solved, 2)
	told := g.solved[1].Report
	require.Same(t, g.deep[0].Report.Deep, told.Deep, "what was found before stays")
	same, err := check.StrengthOf(t.Context(), g.laid[0].Sheet, told, check.Unasked())
	require.NoError(t, err)
	require.Equal(t, same.Cases[0].PerN, told.Strength.Cases[0].PerN, "the report has the figures of all reports")

	g.step()
	require.Len(t, g.solved, 3)
	require.Empty(t, g.work)
	fine := g.solved[2]
	require.Nil(t, fine.Report)
	require.False(t, fine.Figures.Coarse)
	require.Greater(t, fine.Figures.Freedoms, told.Strength.Freedoms)
	require.NotContains(t, g.stress.Words(fine.Sheet), "coarsely")

	d.Rules.BridgeMM *= 1.1
	g.Ask(d)
	require.Len(t, g.laid, 2)
	require.NotNil(t, g.stress.Map, "the old picture stays")
	require.False(t, g.stress.Fresh(g.laid[1].Sheet), "but is not of the new design")
	require.Empty(t, g.stress.At(g.laid[1].Sheet, plane.Pt(0, 0), 10))
	require.Contains(t, g.stress.Words(g.laid[1].Sheet), "before this change")
	g.waits[momentTime]()
	g.step()
	require.True(t, g.stress.Fresh(g.laid[1].Sheet))
}

func TestWhoDoesNotWatchHasFiguresOnly(t *testing.T) {
	g := newRig()
	g.Ask(plainRing(t))
	g.waits[restTime]()
	g.step()
	require.Len(t, g.solved, 1)
	require.NotNil(t, g.solved[0].Report.Strength)
	require.Empty(t, g.work)
	require.True(t, g.stress.Map == nil)
	// Looked at later, they are there at once, and the fine ones follow.
	g.stress.Show(true)
	g.Watch(true)
	require.True(t, g.stress.Fresh(g.laid[0].Sheet))
	require.Len(t, g.work, 1)
	g.step()
	require.False(t, g.solved[1].Figures.Coarse)
	require.Empty(t, g.work)
	// It is solved once.
	g.Watch(false)
	g.Watch(true)
	g.Deepen()
	require.Empty(t, g.work)
}

// Whenever somebody begins to watch, each stage is solved once.
func TestNoStageIsSolvedTwice(t *testing.T) {
	d := plainRing(t)
	for from := range 4 {
		g := newRig()
		watch := func(at int) {
			if at == from {
				g.stress.Show(true)
				g.Watch(true)
			}
		}
		watch(0)
		g.Ask(d)
		if f := g.waits[momentTime]; f != nil {
			f()
		}
		watch(1)
		g.waits[restTime]()
		watch(2)
		for len(g.work) > 0 {
			g.step()
			watch(3)
		}
		var stages []stage
		for _, a := range g.started {
			stages = append(stages, a.stage)
		}
		want := []stage{quick, forReport, fine}
		if from > 1 {
			want = want[1:]
		}
		require.Equal(t, want, stages, "watched from %d", from)
	}
}

func TestANewerEditGivesUpTheSolve(t *testing.T) {
	g := newRig()
	d := plainRing(t)
	g.Ask(d)
	g.waits[restTime]()
	require.Len(t, g.work, 1)
	for range 3 { // nothing waits for the solve
		d.Rules.BridgeMM *= 1.05
		g.Ask(d)
	}
	require.Len(t, g.laid, 4)
	g.waits[restTime]()
	require.Len(t, g.deep, 2)
	g.step()
	require.ErrorContains(t, g.started[0].ctx.Err(), "canceled")
	require.Empty(t, g.solved, "what was given up says nothing")
	g.step()
	require.Len(t, g.solved, 1)
	require.Same(t, g.laid[3].Sheet, g.solved[0].Sheet)

	g.Solver.Done(Solved{Sheet: g.laid[0].Sheet})
	require.Len(t, g.solved, 1, "it is of an older design")
	g.Forget()
	g.Solver.Done(Solved{Sheet: g.laid[3].Sheet})
	require.Len(t, g.solved, 1, "the document has been closed")
}

// A solve that is under way ends soon after its design is no longer wanted.
func TestASolveUnderWayEndsWhenItIsGivenUp(t *testing.T) {
	d, err := project.GalleryDesign("harbour-cuff")
	require.NoError(t, err)
	s, r, err := check.Lay(d)
	require.NoError(t, err)
	ctx, giveUp := context.WithCancel(t.Context())
	time.AfterFunc(10*time.Millisecond, giveUp)
	out := solve(toSolve{ctx, Result{Sheet: s, Report: r}, fine, 0, nil})
	require.True(t, out.given)
	require.ErrorIs(t, out.Err, context.Canceled)
	require.Nil(t, out.Figures)
}

// A design that can't be laid leaves the last one in sight, whose solve was given up.
func TestTheLastGoodDesignIsSolvedThoughTheNewestCantBeLaid(t *testing.T) {
	g := newRig()
	d := plainRing(t)
	g.Ask(d)
	g.waits[restTime]()
	bad := d
	bad.Band.WidthMM = -1
	g.Ask(bad)
	require.Error(t, g.laid[1].Err)
	g.step()
	require.Empty(t, g.solved)
	g.waits[restTime]()
	g.step()
	require.Len(t, g.solved, 1)
	require.Same(t, g.laid[0].Sheet, g.solved[0].Sheet)
}

func TestWhatCantBeSolvedIsSaid(t *testing.T) {
	g := newRig()
	g.stress.Show(true)
	g.Watch(true)
	d := plainRing(t)
	d.Metal.Alloy = "gold-585-yellow"
	g.Ask(d)
	require.Equal(t, "Solving...", g.stress.Words(g.laid[0].Sheet))
	g.waits[restTime]()
	g.step()
	require.ErrorIs(t, g.solved[0].Report.Unsolved, check.ErrNoModulus)
	require.Empty(t, g.work, "a fine solve can't be made either")
	require.True(t, g.stress.Map == nil)
	require.Contains(t, g.stress.Words(g.laid[0].Sheet), "wear.modulus_gpa")
}

// Where memory holds a coarse mesh only, that is shown and said; where it holds none, that.
func TestACoarsePictureIsBetterThanNone(t *testing.T) {
	g := newRig()
	g.stress.Show(true)
	g.Ask(plainRing(t))
	g.Watch(true)
	g.step()
	g.waits[restTime]()
	g.step()
	report := g.solved[1].Report
	need := func(ask check.StrengthAsk) int64 {
		for ask.Memory = 1 << 20; ; ask.Memory += ask.Memory / 8 {
			if _, err := check.StrengthOf(t.Context(), g.laid[0].Sheet, report, ask); err == nil {
				return ask.Memory
			} else {
				require.True(t, tooLarge(err), err)
			}
		}
	}
	coarse := need(check.StrengthAsk{Coarse: true})
	g.work, g.solved = nil, nil
	g.Solver.Done(g.Solver.Work(toSolve{t.Context(), Result{Sheet: g.laid[0].Sheet, Report: report}, fine, coarse, nil}))
	require.Len(t, g.solved, 1)
	require.True(t, g.solved[0].Figures.Coarse)
	require.Regexp(t, `Meshed coarsely: so fine a pattern needs more than the \d+ MB of memory allowed\.$`, g.stress.Words(g.laid[0].Sheet))

	g.Solver.Done(g.Solver.Work(toSolve{t.Context(), Result{Sheet: g.laid[0].Sheet, Report: report}, fine, 1 << 20, nil}))
	require.True(t, g.stress.Map == nil)
	require.Regexp(t, `^Not solved: so fine a pattern needs more than the 1 MB of memory allowed\.$`, g.stress.Words(g.laid[0].Sheet))
}

func TestACaseIsFoundAgainInOtherFigures(t *testing.T) {
	g := newRig()
	g.stress.Show(true)
	d, err := project.GalleryDesign("harbour-cuff")
	require.NoError(t, err)
	g.Ask(d)
	g.Watch(true)
	g.step()
	opts := g.stress.Options()
	require.Equal(t, "The ends pulled straight apart", opts[0].Title)
	require.Equal(t, opts[0].Key, g.stress.Chosen())
	seen := map[string]bool{}
	for _, o := range opts {
		require.False(t, seen[o.Key] || seen[o.Title], o.Title)
		seen[o.Key], seen[o.Title] = true, true
	}
	g.stress.Choose(opts[2].Key)
	require.Equal(t, opts[2].Key, g.stress.Chosen())
	open := g.solved[0].Figures.Cases[2]
	m := g.stress.Map
	require.Same(t, open.Result, m.Case.Result)
	// The value under the pointer is the stress there, scaled to the load that is shown.
	at := g.stress.At(g.laid[0].Sheet, open.PeakAt, 0.1)
	require.Regexp(t, `^\d+ MPa, \d+ % of proof$`, at)
	v, ok := m.StressAt(open.PeakAt, 0.1)
	require.True(t, ok)
	assert.InEpsilon(t, m.Case.Peak, v, 0.5, "corners hold the mean of what is about them")

	ring := newRig()
	ring.stress.Show(true)
	ring.stress.Case = opts[2].Key
	ring.Ask(plainRing(t))
	ring.Watch(true)
	ring.step()
	require.Equal(t, ring.stress.Options()[0].Key, ring.stress.Chosen(), "it has no such case: the first is shown")
}
