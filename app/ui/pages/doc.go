// Package pages are the pages of the controls, the figures, the findings, and the dialogs.
// What they need of the window is a Desk.
package pages
