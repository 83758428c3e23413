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
// Inside, an edge is held by its middle, direction and curvature, and lies on
// n.q - k/2 q.q = 0: a line is a circle of curvature 0, and an arc of a radius of
// 10^9 mm is measured to as many digits as one of 1.
//
// # What may come in
//
// Any finite numbers up to [MaxCoord]. Each operation says what it promises for
// input that is degenerate (edges of no length, loops of no area); none panics
// on it. Nothing here knows of bands, patterns or files. [Loop.Check] tells
// whether a loop is fit to be an edge.
//
// # One snap, applied once
//
// Offsets ([Region.Offset]) and overlays ([And], [Or], [Not], [Xor], [Merge])
// share one ground: all edges are cut at all positions where they meet; ends and
// meeting points within [Snap] of each other become one node, a node within Snap
// of an edge cuts it, and stretches that run along each other within Snap become
// one. Nothing is rounded to a grid: a vertex that nothing touches keeps its
// coordinates to the last bit. Which pieces belong to the result is decided by
// distance (offsets) or by winding numbers (overlays), once for each chain of
// pieces that nothing meets, at its longest piece, where the answer is clearest.
// What stays is stitched to loops; each is simple, touching ones stay apart.
// Overlays check the areas and start over with another snap distance if these
// do not add up; offsets check that every node is led to as often as away from, and
// are else made by overlaying what a disc sweeps along the edges.
//
// # What to use
//
//   - Openings less half a bridge: [Loop.Inset]. The least corner radius:
//     [Region.Open]. Metal thickened: [Region.Offset], [Region.OffsetMitre].
//   - Nothing that a machine can't follow: [Loop.Cuttable], [Loop.CuttableAround].
//   - Cut, join, take away: [And], [Or], [Not], [Xor], [Merge].
//   - Openings laid anyhow, kept apart evenly: [Apart].
//   - The thinnest bridges: [Pairs] between openings,
//     [Loop.Necks] within one, [Region.Necks] of all the metal with its outline,
//     [Region.WidthAt] at a position.
//   - Curves to arcs: [FitArcs], [Loop.Map]; arcs to chords:
//     [Loop.Flatten].
//
// # What is promised
//
// Points of a result lie within a few Snaps of the true curve; lines come from
// lines and arcs from arcs, so nothing is approximated; bits and gaps thinner
// than about Snap may vanish. Distances ([Nearest], [Pairs], [Loop.Necks]) are
// exact up to rounding. The same input gives the same bytes.
//
// # Papers
//
//   - Offsets: X.-Z. Liu, J.-H. Yong, G.-Q. Zheng, J.-G. Sun, "An offset algorithm
//     for polyline curves", Computers in Industry 58 (2007).
//   - Overlays by pieces and winding numbers: the ground is common practice; that
//     arcs need no more than chord and segment is ours.
//   - Opening and closing by a disc: J. Serra, "Image Analysis and Mathematical
//     Morphology" (1982).
//   - Curves: K. M. Bolton, "Biarc curves", Computer-Aided Design 7 (1975); D. S.
//     Meek and D. J. Walton, "Approximating smooth planar curves by arc splines",
//     Journal of Computational and Applied Mathematics 59 (1995); see [FitArcs].
//   - Local width: T. Hildebrand, P. Rueegsegger, Journal of Microscopy 185 (1997).
//   - Bisectors of line and arc boundaries: M. Held, "On the Computational Geometry
//     of Pocket Machining" (1991); traced by marching squares (W. E. Lorensen, H. E.
//     Cline, SIGGRAPH 1987).
//
// # How it is tested
//
// Closed forms and published values; the slow obvious way on random positions;
// property tests with random loops, on lattices, moved by hairs, with edges shorter
// than anything cut, and far out, whose seed is printed on failure; fuzzing;
// and judge/run.sh, which has CGAL's exact arithmetic and GEOS judge the same
// cases from outside.
package plane

// Lengths that decide. They are in fixed ratios: a coordinate of MaxCoord has
// a spacing of floating-point numbers of 1.5e-11 mm (float64, 53 bits), so Snap
// is some thousand times that, and FitTolerance ten thousand times Snap.
const (
	// MaxCoord is the largest coordinate, mm, for which the promises of this
	// package hold: a blank is some hundred mm long.
	MaxCoord = 1e5

	// Snap is the distance, mm, under which two points are treated as the same
	// one. A tenth of a nanometre: a million times below what a bench sees.
	Snap = 1e-7

	// FitTolerance is the greatest distance, mm, between a smooth curve and the
	// arcs fitted to it, unless a caller asks otherwise.
	FitTolerance = 1e-3
)
