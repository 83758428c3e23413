// Package strength computes how bent, pierced sheet metal carries load: how far it gives,
// and what stress it bears where. It knows millimetres, newtons and megapascals, and
// nothing of designs.
//
// A [Mesh] is the middle surface of the metal as flat triangles with a thickness each;
// [Metal.Mesh] makes one of a blank and its openings, as fine as a [Fineness] asks.
// [NewModel] assembles and factorises its stiffness once; each further load case is one
// [Model.Solve]. An [Answer] holds displacements and reactions, and computes stresses
// ([Answer.Stresses]), strain energy ([Answer.Energies]) and the check of equilibrium
// ([Answer.Balance]) that every use must look at. [NewPlan] tells the memory first. Loads
// that balance each other need no more support than [Isostatic].
//
// # The element
//
// Each triangle is a flat shell of 18 freedoms: Felippa's optimal membrane triangle with
// drilling freedoms (2003) and Katili's DKMT plate with shear (1993). The files
// membrane.go and plate.go cite both. A bridge is about as wide as the sheet is thick and
// twists, so shear across the plane counts: a plate without it is 6 to 12 % too stiff on
// pierced cuffs however fine the mesh.
//
// # The mesh
//
// The blank is triangulated, since bending hardly changes lengths; a flared band on a map
// of its blank that keeps angles and on which it closes as other bands do. First the
// edges are followed roughly: the triangles between them measure how wide the metal is at
// each place. Then they are followed in steps that the width and the edge's own turning
// ask for, each polygon enclosing the area of its curve; and points are added within
// until no triangle is too large or too sharp ([delaunay.Triangulation.Refine]). Nothing
// stands at the joint of a closed band: the mesh runs on over it. The thickness is that
// of the sheet once it is bent ([unroll.Flat.ThicknessAt]).
//
// # What is not claimed
//
// The answers are linear: displacements are small, and nothing yields. Past the first
// yield they promise nothing.
//
// Stress is the stress of a shell. At the inner face of a tightly bent sheet the true one
// is higher by about thickness / (3 radius); the caller adds that. Where a force acts at a
// single node the stress there has no limit as the mesh becomes finer: it says nothing.
// At a fillet the highest stress is low by as much as the mesh is coarse; a share of the
// area, such as the highest hundredth, is steadier.
//
// The stiffness of a mesh is high, by less the finer it is. Against CalculiX's curved S6
// shell, itself refined, a cuff with bridges of three triangles' width is 2 % too stiff,
// with six 1 %; the stress that the worst hundredth of its area bears is within 2 %.
// A single bridge of three twists 12 % too stiffly.
//
// Membrane stress is constant in a triangle.
//
// # Guarantees
//
// The same input gives the same bits on any number of cores. A mesh from which no element
// can be made is a [*MeshError], metal that can't be meshed is a [*MetalError], metal that
// nothing holds is a [*LooseError], and all say where. All that takes long ends soon after its context does.
package strength
