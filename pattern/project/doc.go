// Package project reads and writes design files: [ReadFile], [WriteFile], and
// for streams [Read] and [Write]. [Gallery] lists the built-in designs.
//
// A file that has been read is a design that [pattern.Design.Check] accepts;
// whatever stands in the way is reported with the field's path and what may be
// there. A file that has been written can be read again and gives the same
// design, and the same design always gives the same bytes.
//
// # Compatibility
//
// This program reads every version up to [Version], now and later; it refuses
// newer ones rather than lose what it does not know. Version 1 had one field,
// called "field", which held the rules as well. Version 2 named an accepted finding by its
// title of that time, as "pilot hole", under "check". Before version 4 shapes of the user's
// own were always mirrored on the left half of a cuff. Before version 5 nothing was added: no
// stones, wire, beads or other parts.
//
// # The format, version 5
//
// A design file is JSON (RFC 8259) in UTF-8, one object, usually named
// NAME.fretband (NAME.json before that, and still read). The order of the fields is free on reading and fixed on writing.
// Fields that are not in this list, fields given twice, null, and numbers too
// large for 64-bit floating point are errors. Texts are one line each, without
// control characters. Lengths are in mm. "opt" marks fields that may be left out;
// leaving one out means 0, empty text or an empty list, unless said otherwise.
package project
