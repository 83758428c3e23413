// Package check measures a laid sheet and says what a maker should know of it.
//
// What may come in is a [pattern.Sheet]; what comes out of [Run] is one [Report].
// Nothing here changes a design or writes a file. One check is in one file;
// the list in findings.go is the order in which they are reported.
package check
