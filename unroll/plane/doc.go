// Package plane is the geometry of the flat that a band unrolls onto: closed
// loops of straight lines and circular arcs, and what is true of them.
//
// # Representation
//
// A [Loop] is a closed list of vertices. Each [Vertex] carries the bulge of the
// edge that leaves it: 0 for a line, otherwise the tangent of a quarter of the
// arc's included angle, positive when the arc turns counter-clockwise (the
// convention of closed polylines in the open DXF description, group 42). A
// [Region] is a list of loops that do not cross: outer loops run
// counter-clockwise, holes clockwise, so that the inside is on the left of
// every edge and areas add up with their signs.
//
// All lengths are millimetres, all angles radians, y points up.
//
// # What may come in
//
// Any finite numbers up to [MaxCoord]. Each operation says what it promises for
// input that is degenerate (edges of no length, loops of no area); none panics
// on it. Nothing here knows of bands, patterns or files.
package plane

// Lengths that decide. They stand in fixed ratios: a coordinate of MaxCoord has
// a spacing of floating-point numbers of 1.5e-11 mm (float64, 53 bits), so Snap
// is some thousand times that, and FitTolerance ten thousand times Snap.
const (
	// MaxCoord is the largest coordinate, mm, for which the promises of this
	// package hold: a blank is some hundred mm long.
	MaxCoord = 1e5

	// Snap is the distance, mm, under which two points are taken for the same
	// one. A tenth of a nanometre: a million times below what a bench sees.
	Snap = 1e-7

	// FitTolerance is the greatest distance, mm, between a smooth curve and the
	// arcs fitted to it, unless a caller asks otherwise.
	FitTolerance = 1e-3
)
