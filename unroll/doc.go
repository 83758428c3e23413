// Package unroll makes a band flat: [Unroll] takes a [Band] as it is worn and
// returns the [Flat] blank it is bent from, with the exact map between the two
// ([Flat.Bend], [Flat.Unbend]).
//
// # Forms
//
// A cuff is open: its gap lies in the middle of the back (the underside of the
// wrist) and is measured along the inner face. A bangle and a ring are closed;
// their joint lies at the same position. The inner face of each is a cylinder over
// a closed curve: an ellipse, a straight-sided oval, or a profile of lines and
// arcs. Nothing is stretched within a surface and the map is exact. So it is for
// a flared band, a part of a circular cone, whose blank is a sector of a ring.
// A domed band is curved two ways and has no true flat; the map is exact all the
// same, and [Flat.Stretch] says what it does to lengths.
//
// # Coordinates
//
// The flat has its middle, the front of the band, at the origin; x runs along
// the band and y across it, and it is seen from outside. Bent, the axis of the
// band is z (the flat's y), the front is at the top, (0, B), and the back at
// the bottom, (0, -B). x then runs towards -X: seen from outside and above with
// z up, that is to the right, so nothing is mirrored.
//
// # The neutral surface
//
// Bending stretches the outer face and shortens the inner one. The surface
// between them that keeps its length lies at the depth K t under the inner face
// (K = 0.5: half way; usual for bands, whose radius is many times their
// thickness t). It is the parallel curve of the inner ellipse, not another
// ellipse: its length is the inner arc plus the depth times the angle turned
// through (J. Steiner, 1840).
//
// A formed band is not bent: its drawing shows one of its faces, and that face
// takes the neutral surface's place ([Flat.Neutral]).
//
// Millimetres and radians throughout. The package is pure: no state, and the
// same band always gives the same flat.
package unroll
