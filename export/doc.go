// Package export holds what all files have in common that other people work from:
// what may be asked for ([Options]), who gets what ([Receivers]), and the words of facts
// and cautions, which are written once, in [Facts] and [Cautions].
//
// The files themselves are made in the rooms below it, one a kind of paper: cut, template,
// jobsheet, picture, solid, report. Each takes a sheet that is laid and the report on it,
// draws the one and quotes the other, and computes neither geometry of its own nor
// figures, apart from the kerf. Room handover lists all formats and writes what a receiver
// needs.
//
// The same sheet, report and options give the same bytes: no date, no random
// mark. Millimetres and y up inside; each file that writes a medium turns them
// into that medium's units, once.
package export
