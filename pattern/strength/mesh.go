package strength

import (
	"fmt"
	"math"

	"fretband/unroll"
	"fretband/unroll/plane"
)

// Mesh is the middle surface of the metal as flat triangles.
type Mesh struct {
	At    []unroll.Point3 // nodes on the bent middle surface, mm
	Flat  []plane.Point   // the same nodes on the blank, mm; a node on the joint of a closed band stands at its left end
	Tri   [][3]int32      // counter-clockwise seen from outside
	Thick []float64       // mm, one per triangle
}

// Material is what the metal does before it yields: the same in all directions.
type Material struct {
	Young   float64 // Young's modulus, MPa
	Poisson float64 // Poisson's ratio, 0 to less than 0.5
}

// A MeshError says what is wrong with a mesh, and where.
type MeshError struct {
	Node, Tri int // -1 where the fault is not at a node, or not at a triangle
	At        plane.Point
	What      string
}

func (e *MeshError) Error() string {
	return fmt.Sprintf("metal at %.2f, %.2f mm: %s", e.At.X, e.At.Y, e.What)
}

// The smallest angle of a triangle from which an element is still made, as twice its
// area over the square of its longest side. Ours: at 1e-6 rounding takes half of the
// digits of its stiffness.
const flattest = 1e-6

// check reports the first triangle from which no element can be made, the first node
// that belongs to no triangle, and the first number that is none.
func (m *Mesh) check() error {
	if len(m.Tri) == 0 {
		return &MeshError{Node: -1, Tri: -1, What: "there are no triangles"}
	}
	if len(m.Flat) != len(m.At) || len(m.Thick) != len(m.Tri) {
		return &MeshError{Node: -1, Tri: -1, What: fmt.Sprintf(
			"%d nodes have %d positions on the blank, %d triangles have %d thicknesses; each must have one",
			len(m.At), len(m.Flat), len(m.Tri), len(m.Thick))}
	}
	for i, p := range m.At {
		if sum := p.X + p.Y + p.Z + m.Flat[i].X + m.Flat[i].Y; math.IsNaN(sum) || math.IsInf(sum, 0) {
			return &MeshError{Node: i, Tri: -1, What: "a position is not a number"}
		}
	}
	used := make([]bool, len(m.At))
	for i, t := range m.Tri {
		for _, v := range t {
			if v < 0 || int(v) >= len(m.At) {
				return &MeshError{Node: -1, Tri: i, What: fmt.Sprintf("triangle %d has node %d of %d", i, v, len(m.At))}
			}
			used[v] = true
		}
		at := m.Flat[t[0]]
		if thick := m.Thick[i]; !(thick > 0) || math.IsInf(thick, 0) {
			return &MeshError{Node: -1, Tri: i, At: at, What: fmt.Sprintf("the thickness is %g mm; it must be more than 0", thick)}
		}
		a, b, c := vec(m.At[t[0]]), vec(m.At[t[1]]), vec(m.At[t[2]])
		ab, bc, ca := b.less(a), c.less(b), a.less(c)
		long := max(ab.dot(ab), bc.dot(bc), ca.dot(ca))
		if !(ab.cross(bc).length() > flattest*long) {
			return &MeshError{Node: -1, Tri: i, At: at, What: "a triangle of the mesh has no width"}
		}
	}
	for i, ok := range used {
		if !ok {
			return &MeshError{Node: i, Tri: -1, At: m.Flat[i], What: "a node belongs to no triangle"}
		}
	}
	return nil
}

func (m Material) check() error {
	if !(m.Young > 0) || math.IsInf(m.Young, 0) {
		return fmt.Errorf("material: Young's modulus is %g MPa; it must be more than 0", m.Young)
	}
	if !(m.Poisson >= 0 && m.Poisson < 0.5) {
		return fmt.Errorf("material: Poisson's ratio is %g; it must be 0 to less than 0.5", m.Poisson)
	}
	return nil
}

// A vector in space.
type vector [3]float64

func vec(p unroll.Point3) vector { return vector{p.X, p.Y, p.Z} }

func (a vector) plus(b vector) vector   { return vector{a[0] + b[0], a[1] + b[1], a[2] + b[2]} }
func (a vector) less(b vector) vector   { return vector{a[0] - b[0], a[1] - b[1], a[2] - b[2]} }
func (a vector) times(s float64) vector { return vector{a[0] * s, a[1] * s, a[2] * s} }
func (a vector) dot(b vector) float64   { return a[0]*b[0] + a[1]*b[1] + a[2]*b[2] }
func (a vector) length() float64        { return math.Sqrt(a.dot(a)) }
func (a vector) cross(b vector) vector {
	return vector{a[1]*b[2] - a[2]*b[1], a[2]*b[0] - a[0]*b[2], a[0]*b[1] - a[1]*b[0]}
}

func (a vector) unit() vector { return a.times(1 / a.length()) }
