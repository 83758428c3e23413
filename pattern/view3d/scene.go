package view3d

import (
	"math"
	"slices"

	"fretband/pattern/mesh"
	"fretband/unroll"
	"fretband/unroll/plane"
)

// vec is a position or direction, mm.
type vec struct{ x, y, z float32 }

func vecOf(p unroll.Point3) vec { return vec{float32(p.X), float32(p.Y), float32(p.Z)} }

// Scene is a band made ready to be drawn. It is not changed after it is made.
type Scene struct {
	mesh    *mesh.Mesh
	at      []vec // corners
	normal  []vec
	tri     []mesh.Triangle
	inner   int32 // triangles of the inner face, which come first; as many outer ones follow
	middle  vec
	radius  float32 // of the ball round the band
	wrist   [2]float32
	breadth float32 // of the band along its axis

	flat     []plane.Point   // where the corners of added parts stand, which come after the band's
	engraved []engravedChain // lines on a face
	rest     *Scene          // the band before it moved, nil if it has not
}

// NewScene makes a mesh ready. It costs about as much as one picture.
func NewScene(m *mesh.Mesh) *Scene {
	s := &Scene{mesh: m, tri: m.Triangles}
	s.at = make([]vec, len(m.Vertices))
	for i, v := range m.Vertices {
		s.at[i] = vecOf(v)
	}
	s.normal = make([]vec, len(m.Normals))
	for i, v := range m.Normals {
		s.normal[i] = vecOf(v)
	}
	for _, t := range s.tri {
		if t.Kind != mesh.Inner {
			break
		}
		s.inner++
	}
	lo, hi := m.Bounds()
	s.middle = vecOf(unroll.Point3{X: (lo.X + hi.X) / 2, Y: (lo.Y + hi.Y) / 2, Z: (lo.Z + hi.Z) / 2})
	s.breadth = float32(hi.Z - lo.Z)
	for _, p := range s.at {
		s.radius = max(s.radius, float32(math.Sqrt(float64(square(p.x-s.middle.x)+square(p.y-s.middle.y)+square(p.z-s.middle.z)))))
	}
	s.radius = max(s.radius, 1e-3)
	s.wrist = s.wristInside()
	return s
}

// Moved returns the scene of the band after it has moved, seen as this one is: what has not
// moved stays where it is on the picture. The edges as they were are drawn as lines.
func (s *Scene) Moved(how mesh.Moving) *Scene {
	t := NewScene(s.mesh.Moved(how))
	t.middle, t.radius, t.breadth, t.wrist, t.rest = s.middle, s.radius, s.breadth, s.wrist, s
	return t
}

// With returns the scene with added parts on the band.
func (s *Scene) With(f *mesh.Forms) *Scene {
	if len(f.Triangles) == 0 {
		return s
	}
	t := *s
	n, m := int32(len(s.at)), int32(len(s.normal))
	t.at, t.normal, t.tri = slices.Clip(s.at), slices.Clip(s.normal), slices.Clip(s.tri)
	for _, v := range f.Vertices {
		p := vecOf(v)
		t.at = append(t.at, p)
		t.radius = max(t.radius, float32(math.Sqrt(float64(square(p.x-s.middle.x)+square(p.y-s.middle.y)+square(p.z-s.middle.z)))))
	}
	for _, v := range f.Normals {
		t.normal = append(t.normal, vecOf(v))
	}
	for _, one := range f.Triangles {
		for k := range 3 {
			one.V[k] += n
			one.N[k] += m
		}
		t.tri = append(t.tri, one)
	}
	t.flat = f.Flat
	return &t
}

// corners is how many corners the band has without what is added.
func (s *Scene) corners() int { return len(s.mesh.Vertices) }

func square(x float32) float32 { return x * x }

// wristInside returns the half axes of an oval about the band's axis that keeps
// clear of its inner face.
func (s *Scene) wristInside() [2]float32 {
	inner := s.at[:s.corners()/2]
	var a, b float32
	for _, p := range inner {
		a, b = max(a, p.x, -p.x), max(b, p.y, -p.y)
	}
	if a == 0 || b == 0 {
		return [2]float32{}
	}
	k := float32(1)
	for _, p := range inner {
		k = min(k, float32(math.Hypot(float64(p.x/a), float64(p.y/b))))
	}
	k *= 0.985
	return [2]float32{a * k, b * k}
}
