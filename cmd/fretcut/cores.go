package main

import "fretband/unroll/cores"

// inOrder does every piece of work, on all cores, and gives take the results in the order
// of the work, each as soon as those before it are done.
func inOrder[W, R any](work []W, do func(W) R, take func(R)) {
	done := make([]chan R, len(work))
	for i := range done {
		done[i] = make(chan R, 1)
	}
	go cores.Each(len(work), func(i int) { done[i] <- do(work[i]) })
	for _, d := range done {
		take(<-d)
	}
}
