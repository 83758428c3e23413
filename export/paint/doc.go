// Package paint fills shapes into an image with clean edges, in pure Go: the
// one place where the window's pictures are made. Coordinates are pixels, y
// down, with (0,0) at the top left corner of the first pixel.
//
// A [Fill] gathers closed paths and knows, for every pixel, the share of it
// that they cover: an exact area, not a count of samples. Paths that run the
// other way cancel, so a blank with its openings is one fill; where paths of the
// same sense overlap the share is held at one.
package paint
