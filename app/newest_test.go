package app

import (
	"errors"
	"testing"
	"time"

	"fretband/pattern"
	"fretband/pattern/check"
	"fretband/pattern/project"

	"github.com/stretchr/testify/require"
)

// bench is a computer whose background work waits until the test runs it.
func bench() (c *Computer, step func(), got *[]float64) {
	var work []func()
	got = new([]float64)
	c = NewComputer(func(d pattern.Design) (*pattern.Sheet, *check.Report, error) {
		if d.Rules.BridgeMM < 0 {
			return nil, nil, errors.New("negative")
		}
		return &pattern.Sheet{Design: d}, &check.Report{Rule: d.Rules.BridgeMM}, nil
	})
	c.Go = func(f func()) { work = append(work, f) }
	c.Post = func(f func()) { f() }
	c.Done = func(r Result) {
		if r.Err != nil {
			*got = append(*got, -1)
			return
		}
		*got = append(*got, r.Report.Rule)
	}
	step = func() {
		f := work[0]
		work = work[1:]
		f()
	}
	return
}

func TestOnlyTheNewestWaitingDesignIsComputed(t *testing.T) {
	c, step, got := bench()
	for _, mm := range []float64{1, 2, 3, 4} {
		c.Ask(bridge(pattern.Design{}, mm))
	}
	require.True(t, c.Busy())
	step()
	step()
	require.False(t, c.Busy())
	require.Equal(t, []float64{1, 4}, *got)
}

func TestAFailedDesignIsReportedAndTheNextOneComputed(t *testing.T) {
	c, step, got := bench()
	c.Ask(bridge(pattern.Design{}, -5))
	c.Ask(bridge(pattern.Design{}, 2))
	step()
	step()
	require.Equal(t, []float64{-1, 2}, *got)
}

// A hand that moves gives up what is looked for, and what was found for an older design is
// let go.
func TestWhatTakesLongerIsLookedForOnceTheHandRests(t *testing.T) {
	d, err := project.GalleryDesign(project.Gallery()[0])
	require.NoError(t, err)
	var rest func()
	var laid, deep []Result
	now := func(f func()) { f() }
	l := NewLaying(now, now, func(r Result) { laid = append(laid, r) }, func(r Result) { deep = append(deep, r) }, func(Solved) {})
	l.Later = func(_ time.Duration, f func()) *time.Timer { rest = f; return time.NewTimer(time.Hour) }
	l.Ask(d)
	require.Len(t, laid, 1)
	require.Empty(t, deep, "not while the hand moves")
	rest()
	require.Len(t, deep, 1)
	require.NotNil(t, deep[0].Report.Deep)
	old := laid[0]
	d.Rules.BridgeMM++
	l.Ask(d)
	l.Deepener.Done(old)
	require.Len(t, deep, 1, "it is of an older design")
	l.Deepener.Done(Result{Sheet: laid[1].Sheet})
	require.Len(t, deep, 1, "it was given up")
	rest()
	require.Len(t, deep, 2)
	l.Forget()
	rest()
	require.Len(t, deep, 2, "there is nothing to look at")
}
