// Package export writes what other people work from: the saw template, the cut
// files, and the words that go with them.
//
// Ask [Formats] for what can be written and [WriteAll] to write it. In come a
// sheet that is laid and the report on it; the formats draw the sheet and quote
// the report, and compute neither geometry of their own nor figures of their
// own, apart from the kerf. The words of facts and cautions stand once, in
// [Facts] and [Cautions], and every format takes them from there.
//
// The same sheet, report and options give the same bytes: no date, no random
// mark. Millimetres and y up inside; each file that writes a medium turns them
// into that medium's units, once.
package export
