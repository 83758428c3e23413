package mesh

import (
	"fmt"
	"math"

	"fretband/pattern"
	"fretband/unroll"
	"fretband/unroll/plane"
)

// Tolerances, mm: how far the surface may lie from the true one.
const (
	// Solid is for casting patterns: a tenth of the finest layer that wax is
	// printed in (about 0.025 to 0.05 mm, common practice), well under what
	// polishing takes off.
	Solid = 0.004
	// Screen is about a quarter of a pixel for a band that fills a window.
	Screen = 0.03

	MinTolerance = 0.0005
	MaxTolerance = 0.5
)

// Options say how fine the mesh is to be. The zero value is a [Solid].
type Options struct {
	Tolerance float64 // mm; 0 means Solid
	// Lids asks for Mesh.Lids.
	Lids bool
}

// Kind is which part of the surface a triangle belongs to.
type Kind uint8

const (
	Inner     Kind = iota // the face towards the wrist
	Outer                 // the face that is seen
	Wall                  // along an opening, an edge or the end of a cuff
	PartMetal             // of [Forms]: a bezel, a wire, beads, a part
	Stone                 // of [Forms]
)

// Triangle is three vertices, counter-clockwise seen from outside the metal.
type Triangle struct {
	V [3]int32 // into Mesh.Vertices
	// N are the directions that the surface looks in at the three corners, into
	// Mesh.Normals: those of the smooth surface, for shading.
	N    [3]int32
	Kind Kind
	// Opening is the number of the opening whose wall it is; 0 for the outline
	// and the faces.
	Opening int32
}

// Mesh is a closed surface round the metal of a band.
type Mesh struct {
	// Vertices hold the inner face's points and then, in the same order, the
	// outer face's.
	Vertices []unroll.Point3
	// Flat is the position of vertex i and of vertex i+len(Flat) on the flat, as
	// [unroll.Flat.Where] gives it: x along the middle line and the distance across
	// it. On a closed band x lies from -Period/2 to below Period/2.
	Flat      []plane.Point
	Normals   []unroll.Point3 // unit vectors; the first len(Vertices) are the faces'
	Triangles []Triangle      // inner face, outer face, walls
	// Lids close the openings at the outer face, each with its number: not a part
	// of the surface, but what the pointer meets over an opening. Only if asked
	// for; their corners may be vertices that no triangle of the surface has.
	Lids      []Triangle
	Thickness float64 // mm
	Period    float64 // mm along the middle line; 0 for a cuff
	Openings  int

	place func(x, v float64) plane.Point
}

// Handles is the genus that the surface must have: one for each opening, and
// one for a closed band.
func (m *Mesh) Handles() int {
	if m.Period > 0 {
		return m.Openings + 1
	}
	return m.Openings
}

// FlatAt returns the position on the flat, and the depth, of the position in triangle
// t with the weights a, b and c (adding up to 1) of its corners. It is always on
// the blank, also where the triangle lies over the seam.
func (m *Mesh) FlatAt(t Triangle, a, b, c float64) (p plane.Point, depth float64) {
	n := int32(len(m.Flat))
	var first float64
	for i, w := range [3]float64{a, b, c} {
		v := t.V[i]
		if v >= n {
			v -= n
			depth += w * m.Thickness
		}
		q := m.Flat[v]
		if i == 0 {
			first = q.X
		} else if m.Period > 0 {
			q.X -= m.Period * math.Round((q.X-first)/m.Period)
		}
		p = p.Add(q.Mul(w))
	}
	if m.Period > 0 {
		p.X -= m.Period * math.Round(p.X/m.Period)
	}
	return m.place(p.X, p.Y), depth
}

// Build returns the solid of a laid sheet, bent.
//
// The error is a tolerance out of its range, an outline that does not close into
// a band, or edges that touch or cross one another (which the bridge rule of
// [pattern.Lay] excludes). Cost: about half a microsecond a triangle.
func Build(s *pattern.Sheet, o Options) (*Mesh, error) {
	tol := o.Tolerance
	if tol == 0 {
		tol = Solid
	}
	if !(tol >= MinTolerance && tol <= MaxTolerance) {
		return nil, fmt.Errorf("tolerance %g mm: must be %g to %g mm", tol, MinTolerance, MaxTolerance)
	}
	b := blank{
		bend:      s.Flat.Bend,
		outer:     s.Flat.ThicknessAt,
		place:     s.Flat.Place,
		where:     s.Flat.Where,
		straight:  !s.Flat.Flared(),
		outline:   s.Flat.Outline.CCW(),
		thickness: s.Flat.Thickness,
		breaks:    s.Flat.Breaks(),
		lids:      o.Lids,
	}
	if !s.Design.Band.Open() {
		b.period = s.Flat.Length
	}
	for i := range s.Openings {
		o := &s.Openings[i]
		b.holes = append(b.holes, hole{o.Number, o.Loop.CCW().Reverse(), o.Box})
	}
	return b.solid(tol)
}

// blank is what is bent: the part of a sheet that the solid depends on.
type blank struct {
	bend      func(p plane.Point, depth float64) unroll.Point3
	outer     func(p plane.Point) float64    // depth of the outer face
	place     func(x, v float64) plane.Point // see unroll.Flat.Place
	where     func(p plane.Point) (x, v float64)
	straight  bool       // place is the identity
	outline   plane.Loop // counter-clockwise
	holes     []hole
	thickness float64
	period    float64
	breaks    []float64 // where the bend jumps, and with it a bent sheet's thickness
	lids      bool
}

type hole struct {
	number int
	loop   plane.Loop // clockwise
	box    plane.Box
}

// bent returns the positions on the band's two faces of the position p along and across
// it.
func (b *blank) bent(p plane.Point) (inner, outer unroll.Point3) {
	if !b.straight {
		p = b.place(p.X, p.Y)
	}
	return b.bend(p, 0), b.bend(p, b.outer(p))
}

// solid shares the tolerance between the chords of edges and the bending.
func (b *blank) solid(tol float64) (*Mesh, error) {
	edge := b.chords(b.outline, tol/2)
	w, err := b.trace(b.rule(edge, tol/2), edge, tol/2)
	if err != nil {
		return nil, err
	}
	faces, lids, err := b.fill(w)
	if err != nil {
		return nil, err
	}
	return b.assemble(w, faces, lids), nil
}
