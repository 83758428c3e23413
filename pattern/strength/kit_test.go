package strength

import (
	"context"
	"math"
	"math/rand/v2"
	"testing"

	"fretband/unroll"
	"fretband/unroll/plane"

	"github.com/stretchr/testify/require"
)

// A sheet of nx by ny cells over [0,1]², each two triangles; place puts a node into the
// world and onto the blank, keep says which cells are metal. Closed joins the right end to
// the left one.
type weave struct {
	nx, ny int
	closed bool
	place  func(s, t float64) (unroll.Point3, plane.Point)
	keep   func(i, j int) bool
	thick  float64
	cross  bool // diagonals change direction from cell to cell
}

func (g weave) mesh() *Mesh {
	m := &Mesh{}
	number := map[[2]int]int32{}
	node := func(i, j int) int32 {
		if g.closed {
			i %= g.nx
		}
		if n, ok := number[[2]int{i, j}]; ok {
			return n
		}
		n := int32(len(m.At))
		number[[2]int{i, j}] = n
		at, flat := g.place(float64(i)/float64(g.nx), float64(j)/float64(g.ny))
		m.At, m.Flat = append(m.At, at), append(m.Flat, flat)
		return n
	}
	for i := range g.nx {
		for j := range g.ny {
			if g.keep != nil && !g.keep(i, j) {
				continue
			}
			a, b, c, d := node(i, j), node(i+1, j), node(i+1, j+1), node(i, j+1)
			if g.cross && (i+j)%2 == 1 {
				m.Tri = append(m.Tri, [3]int32{a, b, d}, [3]int32{b, c, d})
			} else {
				m.Tri = append(m.Tri, [3]int32{a, b, c}, [3]int32{a, c, d})
			}
		}
	}
	m.Thick = make([]float64, len(m.Tri))
	for i := range m.Thick {
		m.Thick[i] = g.thick
	}
	return m
}

// flat places a sheet of the given size on the plane z = 0.
func flat(length, width float64) func(s, t float64) (unroll.Point3, plane.Point) {
	return func(s, t float64) (unroll.Point3, plane.Point) {
		return unroll.Point3{X: s * length, Y: t * width}, plane.Pt(s*length, t*width)
	}
}

// arc places a sheet on a cylinder about the y axis: it begins at the given angle, and
// its outside is away from the axis.
func arc(radius, from, angle, width float64) func(s, t float64) (unroll.Point3, plane.Point) {
	return func(s, t float64) (unroll.Point3, plane.Point) {
		sin, cos := math.Sincos(from + s*angle)
		return unroll.Point3{X: radius * sin, Y: t * width, Z: radius * cos}, plane.Pt(s*angle*radius, t*width)
	}
}

// irregular is a square of side 10 whose inner nodes were moved by chance.
func irregular(n int, thick float64) *Mesh {
	m := weave{nx: n, ny: n, place: flat(10, 10), thick: thick, cross: true}.mesh()
	r := rand.New(rand.NewPCG(5, 8))
	for i, p := range m.Flat {
		if p.X > 1e-9 && p.X < 10-1e-9 && p.Y > 1e-9 && p.Y < 10-1e-9 {
			step := 6.0 / float64(n)
			p.X += (r.Float64() - 0.5) * step
			p.Y += (r.Float64() - 0.5) * step
			m.Flat[i], m.At[i] = p, unroll.Point3{X: p.X, Y: p.Y}
		}
	}
	return m
}

// at returns the nodes for which is says so.
func (m *Mesh) nodes(is func(p plane.Point) bool) (list []int) {
	for i, p := range m.Flat {
		if is(p) {
			list = append(list, i)
		}
	}
	return list
}

func near(a, b float64) bool { return math.Abs(a-b) < 1e-9 }

func clamp(nodes []int) (list []Fixed) {
	for _, n := range nodes {
		list = append(list, Fixed{Node: n, Held: [6]bool{true, true, true, true, true, true}})
	}
	return list
}

func solve(t testing.TB, m *Mesh, mat Material, fixed []Fixed, cases ...[]Load) []*Answer {
	t.Helper()
	model, err := NewModel(context.Background(), m, mat, fixed)
	require.NoError(t, err)
	answers, err := model.Solve(context.Background(), cases...)
	require.NoError(t, err)
	for _, a := range answers {
		b := a.Balance()
		require.Less(t, b.Whole, 1e-7, "loads and reactions")
		require.Less(t, b.Nodes, 1e-7, "at the nodes")
	}
	return answers
}

// roundBand is a seamless round band of an alloy like sterling silver, in a mesh no coarser
// than size, mm; 0 takes that of [Coarse].
func roundBand(t testing.TB, kind string, across, thick, wide, size float64) *Study {
	t.Helper()
	f, err := unroll.Unroll(unroll.Band{
		Kind: kind, Inside: unroll.Inside{By: unroll.ByAxes, WidthMM: across, HeightMM: across},
		Thickness: unroll.Thickness{MM: thick}, WidthMM: wide, EndWidthMM: wide, NeutralK: 0.5, Joint: unroll.Seamless,
	})
	require.NoError(t, err)
	fine := Coarse()
	if size > 0 {
		fine.Size = size
	}
	s, err := NewStudy(context.Background(), Metal{Flat: f}, Material{75000, 0.37}, fine, 0)
	require.NoError(t, err)
	return s
}
