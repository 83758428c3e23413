package app

import (
	"errors"
	"testing"

	"fretband/pattern"
	"fretband/pattern/check"

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
	require.Equal(t, uint64(4), c.Generation())
}

func TestAFailedDesignIsReportedAndTheNextOneComputed(t *testing.T) {
	c, step, got := bench()
	c.Ask(bridge(pattern.Design{}, -5))
	c.Ask(bridge(pattern.Design{}, 2))
	step()
	step()
	require.Equal(t, []float64{-1, 2}, *got)
}
