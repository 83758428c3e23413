package main

import (
	"runtime"
	"sync/atomic"
)

// inOrder does every piece of work, on as many goroutines as there are cores, and
// gives take the results in the order of the work, each as soon as those before it
// are done.
func inOrder[W, R any](work []W, do func(W) R, take func(R)) {
	done := make([]chan R, len(work))
	for i := range done {
		done[i] = make(chan R, 1)
	}
	var next atomic.Int64
	for range min(runtime.GOMAXPROCS(0), len(work)) {
		go func() {
			for i := int(next.Add(1)) - 1; i < len(work); i = int(next.Add(1)) - 1 {
				done[i] <- do(work[i])
			}
		}()
	}
	for _, d := range done {
		take(<-d)
	}
}
