// Package ui is the window. It puts its rooms together: the blank, the bent band, and the
// pages of controls, figures, findings and dialogs, all in the dress of kit. The rooms do not
// know each other or the window: each takes the app.Editor, which it follows, and what else
// it needs as a few functions. What is true of a design comes from the packages below, and
// what is recomputed when is decided by package app.
//
// Everything runs on the toolkit's own goroutine. Only the work of an app.Newest and the
// timers run elsewhere; both come back through fyne.Do.
package ui
