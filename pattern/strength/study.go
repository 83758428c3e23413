package strength

import (
	"context"
	"errors"
	"fmt"
	"math"

	"fretband/unroll/cores"
	"fretband/unroll/plane"
)

// What a load may find missing.
var (
	ErrNoEnds  = errors.New("no metal at an end of the cuff to take hold of")
	ErrNoMetal = errors.New("no metal where the load takes hold")
)

// A MemoryError says that the solve needs more memory than is allowed, bytes.
type MemoryError struct{ Need, Limit int64 }

func (e *MemoryError) Error() string {
	return fmt.Sprintf("the solve needs %d MB of memory and %d MB are allowed", (e.Need+1e6-1)/1e6, e.Limit/1e6)
}

// Study is a band ready to be loaded: meshed, and its stiffness factorised once for all
// cases.
type Study struct {
	metal  Metal
	mesh   *Mesh
	model  *Model
	closed bool

	sections []section

	x, v []float64 // of each node: along the middle line and across
	area []float64 // mm^2 of metal that belongs to each node
	tri  []float64 // mm^2 of each triangle
	rise []float64 // t/(3R) at each triangle: by how much a curved bar's inner face is over a straight one's
}

// NewStudy meshes a band and factorises its stiffness. A mesh that needs more than
// limit bytes is refused (0: no limit) before they are taken.
func NewStudy(ctx context.Context, metal Metal, mat Material, fine Fineness, limit int64) (*Study, error) {
	mesh, err := metal.Mesh(ctx, fine)
	if err != nil {
		return nil, err
	}
	plan, err := NewPlan(ctx, mesh)
	if err != nil {
		return nil, err
	}
	if limit > 0 && plan.Bytes() > limit {
		return nil, &MemoryError{Need: plan.Bytes(), Limit: limit}
	}
	model, err := plan.Model(ctx, mat, Isostatic(mesh))
	if err != nil {
		return nil, err
	}
	s := &Study{metal: metal, mesh: mesh, model: model, closed: metal.Flat.Closed()}
	s.measure()
	return s, nil
}

// Settle lets go of the factor, which is nearly all of the study's memory: what has been
// solved can still be drawn, and no more can be solved.
func (s *Study) Settle() { s.model = nil }

// Freedoms is how many unknowns the solve has.
func (s *Study) Freedoms() int { return 6 * len(s.mesh.At) }

// Mesh is the middle surface that is solved.
func (s *Study) Mesh() *Mesh { return s.mesh }

func (s *Study) measure() {
	n := len(s.mesh.At)
	s.x, s.v, s.area = make([]float64, n), make([]float64, n), make([]float64, n)
	for i, p := range s.mesh.Flat {
		s.x[i], s.v[i] = s.metal.Flat.Where(p)
	}
	s.tri = make([]float64, len(s.mesh.Tri))
	s.rise = make([]float64, len(s.mesh.Tri))
	for k, t := range s.mesh.Tri {
		s.tri[k] = s.mesh.Area(k)
		for _, i := range t {
			s.area[i] += s.tri[k] / 3
		}
		_, _, curv := s.metal.Flat.Station(s.x[t[0]])
		th := s.mesh.Thick[k]
		s.rise[k] = th * curv / (1 + curv*th/2) / 3
	}
	s.sections = s.across()
}

// home brings a distance along a closed band to the shorter way round.
func (s *Study) home(x float64) float64 {
	if !s.closed {
		return x
	}
	l := s.metal.Flat.Length
	return x - l*math.Round(x/l)
}

// corners returns the places of a triangle's corners along and across, all on the same
// turn round a closed band.
func (s *Study) corners(k int) (at [3]plane.Point) {
	t := s.mesh.Tri[k]
	x0 := s.x[t[0]]
	for j, i := range t {
		at[j] = plane.Pt(x0+s.home(s.x[i]-x0), s.v[i])
	}
	return at
}

// Solve answers cases at once.
func (s *Study) Solve(ctx context.Context, cases ...Case) ([]*Result, error) {
	loads := make([][]Load, len(cases))
	for i, c := range cases {
		loads[i] = c.loads
	}
	answers, err := s.model.Solve(ctx, loads...)
	if err != nil {
		return nil, err
	}
	results := make([]*Result, len(cases))
	cores.Each(len(answers), func(i int) { results[i] = s.read(cases[i], answers[i]) })
	return results, nil
}

// Balance solves a case once more and says how far its answer is from equilibrium.
func (s *Study) Balance(ctx context.Context, c Case) (Balance, error) {
	answers, err := s.model.Solve(ctx, c.loads)
	if err != nil {
		return Balance{}, err
	}
	return answers[0].Balance(), nil
}
