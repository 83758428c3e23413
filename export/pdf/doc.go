// Package pdf draws pages of lines, arcs and text at true size into a PDF file.
//
// Coordinates are millimetres with the origin at the lower left of the page and
// y up. The file carries no date and asks viewers not to scale it when they
// print (PrintScaling None, ISO 32000-1, 12.2). The same calls give the same
// bytes. Nothing here knows of bands or patterns; no other package imports the
// drawing library behind it.
package pdf
