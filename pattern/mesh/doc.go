// Package mesh makes the solid of a pierced band as it is worn: a closed surface
// of triangles, exact up to a stated tolerance.
//
// What may come in is a laid [pattern.Sheet]; what comes out of [Build] is a
// [Mesh] that encloses the metal: each edge belongs to just two triangles, which
// run along it in opposite directions, so the solid can be cast, printed, cut
// by a plane or weighed. Nothing here draws or writes files.
//
// # From the sheet to the solid
//
// Outline and openings become polygons on the flat. Each arc is replaced by
// chords that enclose the same area as the arc does, so that no metal is won or
// lost however coarse the tolerance. The flat is then ruled into strips across
// the band (and into cells, where the band is curved both ways), narrow enough
// that a triangle bent at its corners stays within the tolerance of the bent
// face. Each cell is triangulated on its own: a constrained Delaunay
// triangulation of the metal in it, on whole numbers, so that every decision is
// exact. Cells share the points on their borders, so nothing gapes. The flat
// triangles are bent twice, at depth 0 and at the sheet's thickness, and walls
// join the two along every edge.
//
// # Walls
//
// A wall is the set of positions that have one point of the flat, at all depths.
// An opening cut square through the flat sheet is a prism; a cross-section of
// sheet stays plane and square to the middle when it is bent (the usual
// assumption of bending, Bernoulli's), so the prism's walls come to lie along
// the normals of the bent band, which is what [unroll.Flat.Bend] gives for one
// point at all depths. Walls cut square to a formed band lie along its normals
// too. So the two ways of making have the same solid here once the openings on
// the flat are the same; they differ in which face the drawing shows.
//
// Sheet that is bent keeps its volume. With the neutral surface half way (K =
// 0.5) it also keeps its thickness; with another K it becomes thinner or thicker
// by a share of about (1/2 - K) thickness / radius, so that the solid weighs what
// the sheet does. The inner face stays where the size puts it. A formed or a
// domed band has its full thickness all over.
//
// # The seam
//
// The two ends of a soldered band's blank are one place, and so are their
// points: there is no face inside the metal. On a seamless band the strips run
// on over the seam, and openings there are whole. A cuff has a face at each end.
// So a cuff has as many handles (holes of the surface, its genus) as openings,
// a closed band one more. [Mesh.Check] counts them.
//
// # For a window
//
//	m, err := mesh.Build(sheet, mesh.Options{Tolerance: mesh.Screen, Lids: true})
//	scene := view3d.NewScene(m)                       // once for each sheet
//	img = view.Draw(img, w, h, scene, camera, look)   // once for each picture
//
// A triangle says what it belongs to: Opening is the number of the opening whose
// wall or lid it is, and [Mesh.FlatAt] gives the position of the flat for any position
// on it.
//
// Millimetres throughout; no state; the same sheet gives the same mesh to the
// last bit, on any number of cores.
package mesh
