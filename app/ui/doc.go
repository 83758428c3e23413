// Package ui is the window: what is on the screen and what a hand does there.
// Widgets hold what is shown and call back; what is true of a design comes from
// the packages below, and what is recomputed when is decided by package app.
//
// Everything runs on the toolkit's own goroutine. Only app.Computer's work and
// the timers run elsewhere; both come back through fyne.Do.
package ui
