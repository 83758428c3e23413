// Package delaunay divides a part of the plane, or of a strip that closes to a ring,
// into triangles.
//
// Points have whole numbers, so that every decision about sides is exact: coordinates
// stay under 2^30, and a product of two differences fits 64 bits. What a number means
// is the caller's affair. Nothing here knows of metal, bands or millimetres.
//
//	d.Rectangle(...)             // or d.Round, for a strip that closes to a ring
//	d.Insert(p)                  // each point
//	d.Constrain(a, b)            // each edge that must be there
//	d.Mark(edges)                // what is inside of the edges
//
// leaves the constrained Delaunay triangulation of the points, with d.Kept telling
// which triangles lie inside. [Triangulation.Trim] then takes away what does not, and
// [Triangulation.Refine] adds points until no triangle is too large or too sharp.
//
// No input makes it panic or run on for ever: what can't be triangulated is an error.
// The same input gives the same triangles.
package delaunay
