// Package cores shares work out among the processor's cores. It knows nothing of what is
// done. Results must not depend on how many cores there are: each piece of work writes
// only to its own position, and what comes in runs is joined in order.
package cores

import (
	"runtime"
	"sync"
	"sync/atomic"
)

// Each calls do once for every whole number from 0 to n-1, several at a time in any
// order, and returns when all have been done. For work that differs from piece to piece.
func Each(n int, do func(i int)) {
	var wait sync.WaitGroup
	var next atomic.Int64
	for range min(n, runtime.GOMAXPROCS(0)) {
		wait.Add(1)
		go func() {
			defer wait.Done()
			for i := int(next.Add(1)) - 1; i < n; i = int(next.Add(1)) - 1 {
				do(i)
			}
		}()
	}
	wait.Wait()
}

// Runs divides the numbers from 0 to n-1 into [Count] runs that follow each other. It calls
// do once for each run, all at a time, with the run's number, its first number and the
// number after its last, and returns when all have been done. For many small pieces that
// are much alike.
func Runs(n, least int, do func(run, from, to int)) {
	runs := Count(n, least)
	var wait sync.WaitGroup
	for k := range runs {
		wait.Add(1)
		go func() {
			defer wait.Done()
			do(k, k*n/runs, (k+1)*n/runs)
		}()
	}
	wait.Wait()
}

// Count returns how many runs [Runs] makes of n pieces: one a core, but none that is worth
// less than about least pieces.
func Count(n, least int) int {
	return min(runtime.GOMAXPROCS(0), 1+n/least)
}
