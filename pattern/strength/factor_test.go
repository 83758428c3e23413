package strength

import (
	"context"
	"errors"
	"math"
	"math/rand/v2"
	"runtime"
	"slices"
	"testing"

	"fretband/unroll"
	"fretband/unroll/plane"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/mat"
)

// pull is a load case for any mesh: two forces that balance each other, along the line
// between the first and the last node.
func pull(m *Mesh) []Load {
	last := len(m.At) - 1
	line := vec(m.At[last]).less(vec(m.At[0]))
	return []Load{{Node: 0, Force: line.times(-1)}, {Node: last, Force: line}}
}

func TestEveryNodeAndTriangleIsDealtWithOnce(t *testing.T) {
	for _, m := range []*Mesh{piercedCuff(12), piercedCuff(24), irregular(5, 1), lone(rand.New(rand.NewPCG(1, 1)))} {
		p, err := NewPlan(context.Background(), m)
		require.NoError(t, err)
		nodes, tris := make([]int, len(m.At)), make([]int, len(m.Tri))
		for i := range p.blocks {
			b := &p.blocks[i]
			for _, v := range b.nodes[:b.own] {
				nodes[v]++
			}
			for _, k := range p.tris[b.from:b.to] {
				tris[k]++
				for _, v := range m.Tri[k] {
					assert.Contains(t, b.nodes, v)
				}
			}
			for _, v := range b.nodes[b.own:] {
				require.GreaterOrEqual(t, b.parent, int32(0), "a border has a block above it")
				assert.Contains(t, p.blocks[b.parent].nodes, v)
			}
			assert.True(t, slices.IsSortedFunc(b.nodes, func(v, w int32) int { return int(p.rank[v] - p.rank[w]) }))
		}
		for _, n := range nodes {
			assert.Equal(t, 1, n)
		}
		for _, n := range tris {
			assert.Equal(t, 1, n)
		}
		blocks := 0
		for _, part := range p.parts {
			blocks += part.to - part.from
		}
		assert.Equal(t, len(p.blocks), blocks+len(p.top))
	}
}

// The slow obvious way: the whole matrix, by gonum.
func TestTheFactorSolvesAsADenseOneDoes(t *testing.T) {
	m := weave{nx: 24, ny: 6, closed: true, place: arc(10, 1, 2*math.Pi, 8), thick: 0.9, cross: true,
		keep: func(i, j int) bool { return i%4 < 2 || j%3 > 0 }}.mesh()
	fixed := append(Isostatic(m), Fixed{Node: 40, Held: [6]bool{3: true, 5: true}})
	n := 6 * len(m.At)
	k := mat.NewSymDense(n, nil)
	for i, tri := range m.Tri {
		var e element
		var s [18][18]float64
		e.make(m, metal, i)
		e.stiffness(&s)
		for a := range 18 {
			for b := range 18 {
				row, col := 6*int(tri[a/6])+a%6, 6*int(tri[b/6])+b%6
				if row <= col {
					k.SetSym(row, col, k.At(row, col)+s[a][b])
				}
			}
		}
	}
	for _, f := range fixed {
		for d, held := range f.Held {
			if held {
				row := 6*f.Node + d
				for c := range n {
					k.SetSym(row, c, 0)
				}
				k.SetSym(row, row, 1)
			}
		}
	}
	loads := pull(m)
	loads = append(loads, Load{Node: 33, Force: [3]float64{1, 2, 3}, Moment: [3]float64{4, 5, 6}})
	right := mat.NewVecDense(n, nil)
	for _, l := range loads {
		for d := range 3 {
			right.SetVec(6*l.Node+d, right.AtVec(6*l.Node+d)+l.Force[d])
			right.SetVec(6*l.Node+3+d, right.AtVec(6*l.Node+3+d)+l.Moment[d])
		}
	}
	for _, f := range fixed {
		for d, held := range f.Held {
			if held {
				right.SetVec(6*f.Node+d, 0)
			}
		}
	}
	var chol mat.Cholesky
	require.True(t, chol.Factorize(k))
	var want mat.VecDense
	require.NoError(t, chol.SolveVecTo(&want, right))
	a := solve(t, m, metal, fixed, loads)[0]
	most := mat.Max(&want)
	for v, move := range a.Move {
		for d := range move {
			require.InDelta(t, want.AtVec(6*v+d), move[d], 1e-7*most)
		}
	}
}

func TestAnswersAreTheSameBitsOnAnyNumberOfCores(t *testing.T) {
	m := piercedCuff(18)
	defer runtime.GOMAXPROCS(runtime.GOMAXPROCS(0))
	var first []*Answer
	for _, n := range []int{1, 2, 3, 8} {
		runtime.GOMAXPROCS(n)
		as := solve(t, m, metal, Isostatic(m), pull(m), nil, pull(m), []Load{{Node: 3, Moment: [3]float64{1, 2, 3}}})
		if first == nil {
			first = as
		}
		for i, a := range as {
			require.Equal(t, first[i].Move, a.Move)
			require.Equal(t, first[i].React, a.React)
			require.Equal(t, first[i].Stresses(), a.Stresses())
		}
		require.Equal(t, as[0].Move, as[2].Move, "a case has the same answer beside any other")
	}
}

func TestAnswersDoNotHangOnTheNumberingOfNodesAndTriangles(t *testing.T) {
	m := piercedCuff(15)
	r := rand.New(rand.NewPCG(7, 7))
	to := r.Perm(len(m.At))
	s := &Mesh{At: make([]unroll.Point3, len(m.At)), Flat: make([]plane.Point, len(m.At)), Tri: make([][3]int32, len(m.Tri)), Thick: make([]float64, len(m.Tri))}
	for i, k := range to {
		s.At[k], s.Flat[k] = m.At[i], m.Flat[i]
	}
	for i, k := range r.Perm(len(m.Tri)) {
		first := r.IntN(3)
		for c := range 3 {
			s.Tri[k][c] = int32(to[m.Tri[i][(first+c)%3]])
		}
		s.Thick[k] = m.Thick[i]
	}
	loads := pull(m)
	moved := slices.Clone(loads)
	fixed := Isostatic(m)
	held := slices.Clone(fixed)
	for i := range moved {
		moved[i].Node = to[loads[i].Node]
	}
	for i := range held {
		held[i].Node = to[fixed[i].Node]
	}
	a, b := solve(t, m, metal, fixed, loads)[0], solve(t, s, metal, held, moved)[0]
	most := 0.0
	for _, u := range a.Move {
		most = max(most, math.Abs(u[0]))
	}
	for i, u := range a.Move {
		for k := range u {
			require.InDelta(t, u[k], b.Move[to[i]][k], 1e-7*most)
		}
	}
}

func TestLoadsThatBalanceNeedNoSupport(t *testing.T) {
	for _, m := range []*Mesh{piercedCuff(12), irregular(5, 1), weave{nx: 60, ny: 3, closed: true, place: arc(30, 1, 2*math.Pi, 4), thick: 1}.mesh()} {
		loads := pull(m)
		other := []Fixed{{Node: 5, Held: [6]bool{true, true, true, true, true, true}}}
		a, b := solve(t, m, metal, Isostatic(m), loads)[0], solve(t, m, metal, other, loads)[0]
		assert.Less(t, a.Balance().Supports, 1e-8)
		assert.Less(t, b.Balance().Supports, 1e-8)
		// However it is held, it holds the same energy, half of the work of the loads.
		work := 0.0
		for _, l := range loads {
			for k := range 3 {
				work += l.Force[k] * a.Move[l.Node][k] / 2
			}
		}
		one, two := sum(a.Energies()), sum(b.Energies())
		assert.InEpsilon(t, work, one, 1e-7)
		assert.InEpsilon(t, one, two, 1e-7)
	}
}

func sum(list []float64) (s float64) {
	for _, v := range list {
		s += v
	}
	return s
}

// A cut through a bent bar carries the moment of the load about it.
func TestASectionCarriesTheLoad(t *testing.T) {
	m := weave{nx: 40, ny: 4, place: flat(20, 2), thick: 0.5, cross: true}.mesh()
	end := m.nodes(func(p plane.Point) bool { return near(p.X, 20) })
	a := solve(t, m, metal, clamp(m.nodes(func(p plane.Point) bool { return near(p.X, 0) })), spread(end, [6]float64{1, 2, 3}))[0]
	var force, moment vector
	for i, tri := range m.Tri {
		if m.Where(i).X < 10 {
			continue
		}
		f := a.Forces(i)
		for k, v := range tri {
			if near(m.Flat[v].X, 10) {
				arm := vec(m.At[v]).less(vector{10, 1, 0})
				at := vector(f[k][:3])
				force = force.plus(at)
				moment = moment.plus(arm.cross(at)).plus(vector(f[k][3:]))
			}
		}
	}
	for k, want := range []float64{-1, -2, -3} {
		assert.InDelta(t, want, force[k], 1e-8)
	}
	for k, want := range []float64{0, 30, -20} {
		assert.InDelta(t, want, moment[k], 1e-8)
	}
}

func TestMetalThatNothingHoldsIsNamed(t *testing.T) {
	sheet := func(keep func(i, j int) bool) *Mesh {
		return weave{nx: 20, ny: 6, place: flat(20, 6), thick: 1, keep: keep}.mesh()
	}
	whole := sheet(nil)
	point := sheet(func(i, j int) bool { return i < 8 && j < 3 || i >= 8 && i < 10 && j >= 3 })
	apart := sheet(func(i, j int) bool { return i < 8 || i > 16 })
	left := func(m *Mesh) []Fixed { return clamp(m.nodes(func(p plane.Point) bool { return near(p.X, 0) })) }
	for name, c := range map[string]struct {
		m     *Mesh
		fixed []Fixed
		from  float64 // the fault is named between these two, along the blank
		to    float64
	}{
		"no support at all":              {whole, nil, 0, 20},
		"five freedoms":                  {whole, []Fixed{{Node: 0, Held: [6]bool{true, true, true, true, true, false}}}, 0, 20},
		"nothing against a rotation":     {whole, []Fixed{{Node: 0, Held: [6]bool{true, true, true}}, {Node: 60, Held: [6]bool{true, true, true}}, {Node: 3, Held: [6]bool{true}}}, 0, 20},
		"a piece that hangs by a point":  {point, left(point), 8, 10},
		"a piece that is joined to none": {apart, left(apart), 17, 20},
	} {
		t.Run(name, func(t *testing.T) {
			_, err := NewModel(context.Background(), c.m, metal, c.fixed)
			var loose *LooseError
			require.ErrorAs(t, err, &loose)
			t.Log(err)
			assert.Equal(t, c.m.Flat[loose.Node], loose.At)
			assert.True(t, loose.At.X >= c.from && loose.At.X <= c.to, "at %v", loose.At)
		})
	}
}

func TestMeshesFromWhichNothingCanBeMadeAreNamed(t *testing.T) {
	for name, spoil := range map[string]func(m *Mesh){
		"no triangles":                 func(m *Mesh) { m.Tri, m.Thick = nil, nil },
		"a thickness is missing":       func(m *Mesh) { m.Thick = m.Thick[1:] },
		"a position is missing":        func(m *Mesh) { m.Flat = m.Flat[1:] },
		"a position is not a number":   func(m *Mesh) { m.At[3].Y = math.NaN() },
		"a thickness is nothing":       func(m *Mesh) { m.Thick[3] = 0 },
		"a thickness is not a number":  func(m *Mesh) { m.Thick[3] = math.NaN() },
		"a node that does not exist":   func(m *Mesh) { m.Tri[2][1] = int32(len(m.At)) },
		"a node below none":            func(m *Mesh) { m.Tri[2][1] = -1 },
		"a triangle with a node twice": func(m *Mesh) { m.Tri[2][1] = m.Tri[2][0] },
		"a triangle without width":     func(m *Mesh) { m.At[m.Tri[2][1]] = m.At[m.Tri[2][0]] },
		"a node without a triangle": func(m *Mesh) {
			m.At, m.Flat = append(m.At, unroll.Point3{}), append(m.Flat, plane.Point{})
		},
	} {
		t.Run(name, func(t *testing.T) {
			m := irregular(4, 1)
			spoil(m)
			_, err := NewModel(context.Background(), m, metal, clamp([]int{0}))
			var fault *MeshError
			require.ErrorAs(t, err, &fault)
			t.Log(err)
		})
	}
	m := irregular(4, 1)
	for _, mat := range []Material{{}, {Young: math.Inf(1)}, {Young: 1, Poisson: 0.5}, {Young: 1, Poisson: math.NaN()}, {Young: -1}} {
		_, err := NewModel(context.Background(), m, mat, clamp([]int{0}))
		assert.ErrorContains(t, err, "material")
	}
	_, err := NewModel(context.Background(), m, metal, []Fixed{{Node: 99}})
	assert.ErrorContains(t, err, "no node 99")
	model, err := NewModel(context.Background(), m, metal, clamp([]int{0}))
	require.NoError(t, err)
	_, err = model.Solve(context.Background(), nil, []Load{{Node: -1}})
	assert.ErrorContains(t, err, "load case 2")
}

// ends is a context that ends after it has been asked so many times.
type ends struct {
	context.Context
	asked, after int
}

func (e *ends) Err() error {
	if e.asked++; e.asked > e.after {
		return context.Canceled
	}
	return nil
}

// Whenever the context ends, what runs ends with its error: nothing half done comes back.
// It is asked at least once a block; the largest block of this mesh takes a thousandth of
// a second.
func TestWorkEndsWithItsContext(t *testing.T) {
	defer runtime.GOMAXPROCS(runtime.GOMAXPROCS(1))
	m := piercedCuff(12)
	done := false
	for after := 0; !done; after = after*3/2 + 1 {
		ctx := &ends{Context: context.Background(), after: after}
		model, err := NewModel(ctx, m, metal, Isostatic(m))
		if err == nil {
			_, err = model.Solve(ctx, pull(m))
		}
		if done = err == nil; !done {
			require.True(t, errors.Is(err, context.Canceled), "after %d: %v", after, err)
			// The parts that had not begun each ask once.
			require.Less(t, ctx.asked, after+100, "it goes on after the end")
		}
		require.Less(t, after, 1_000_000)
	}
}

func TestBytesAreTheMemoryThatAModelTakes(t *testing.T) {
	defer runtime.GOMAXPROCS(runtime.GOMAXPROCS(1))
	for _, n := range []int{12, 27, 45} {
		m := piercedCuff(n)
		p, err := NewPlan(context.Background(), m)
		require.NoError(t, err)
		var before, after runtime.MemStats
		runtime.GC()
		runtime.ReadMemStats(&before)
		model, err := p.Model(context.Background(), metal, Isostatic(m))
		require.NoError(t, err)
		runtime.GC()
		runtime.ReadMemStats(&after)
		runtime.KeepAlive(model)
		kept, taken := float64(after.HeapAlloc-before.HeapAlloc), float64(after.TotalAlloc-before.TotalAlloc)
		t.Logf("%d freedoms: told %.2f MB, kept %.2f, taken %.2f", p.Freedoms(), float64(p.Bytes())/1e6, kept/1e6, taken/1e6)
		assert.Greater(t, float64(p.Bytes()), kept)
		assert.Greater(t, float64(p.Bytes()), 0.75*taken)
		assert.Less(t, float64(p.Bytes()), 1.4*kept)
	}
}

// Several places may be loose at once, in several parts. The one that is named must be the
// same on any number of cores.
func TestTheSameLooseMetalIsNamedOnAnyNumberOfCores(t *testing.T) {
	defer runtime.GOMAXPROCS(runtime.GOMAXPROCS(0))
	m := piercedCuff(12)
	for i := range m.Thick {
		if m.Where(i).Y > 10 { // so thin that it counts as nothing beside the rest
			m.Thick[i] = 1e-7
		}
	}
	m.Thick[0] = 1e3
	var first *LooseError
	for range 5 {
		for _, n := range []int{1, 2, 8} {
			runtime.GOMAXPROCS(n)
			_, err := NewModel(context.Background(), m, metal, Isostatic(m))
			var loose *LooseError
			require.ErrorAs(t, err, &loose)
			if first == nil {
				first = loose
			}
			require.Equal(t, first, loose)
		}
	}
}

// Triangles between nodes by chance: bent over, crossing, three at a side, in pieces.
func TestNoTrianglesMakeItPanic(t *testing.T) {
	answered, loose, refused := 0, 0, 0
	for seed := range uint64(2000) {
		r := rand.New(rand.NewPCG(seed, 9))
		m := &Mesh{}
		n := 3 + r.IntN(12)
		for range n {
			m.At = append(m.At, unroll.Point3{X: float64(r.IntN(4)), Y: float64(r.IntN(4)), Z: float64(r.IntN(3))})
			m.Flat = append(m.Flat, plane.Pt(float64(r.IntN(4)), float64(r.IntN(4))))
		}
		for range 1 + r.IntN(4*n) {
			p := r.Perm(n)
			m.Tri = append(m.Tri, [3]int32{int32(p[0]), int32(p[1]), int32(p[2])})
			m.Thick = append(m.Thick, math.Exp(4*r.NormFloat64()))
		}
		fixed := []Fixed{{Node: r.IntN(n)}, {Node: r.IntN(n)}, {Node: r.IntN(n)}}
		for i := range fixed {
			for k := range 6 {
				fixed[i].Held[k] = r.IntN(3) > 0
			}
		}
		model, err := NewModel(context.Background(), m, metal, fixed)
		if err != nil {
			var fault *MeshError
			var free *LooseError
			switch {
			case errors.As(err, &fault):
				refused++
			case errors.As(err, &free):
				loose++
			default:
				require.NoError(t, err, "seed %d", seed)
			}
			continue
		}
		answers, err := model.Solve(context.Background(), []Load{{Node: r.IntN(n), Force: [3]float64{1, 2, 3}}})
		require.NoError(t, err)
		for _, u := range answers[0].Move {
			for _, v := range u {
				require.False(t, math.IsNaN(v) || math.IsInf(v, 0), "seed %d", seed)
			}
		}
		answered++
	}
	t.Logf("%d answered, %d not held, %d refused", answered, loose, refused)
	assert.Greater(t, min(answered, loose, refused), 100)
}
