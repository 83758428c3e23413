// Package check measures a laid sheet and says what a maker should know of it.
//
// It takes a [pattern.Sheet]; [Run] returns one [Report].
// Nothing here changes a design or writes a file. One check is in one file;
// the list in findings.go is the order in which they are reported.
package check
