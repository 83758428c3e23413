// Package app is the open document: the design, its history, where it is kept
// on disk, and what is recomputed when. It knows nothing of the screen and
// holds no geometry.
//
// Everything here belongs to one goroutine, the caller's; only [Newest]
// starts another, and it hands its results back through the function that its
// caller gives it.
package app
