package mesh

import (
	"fmt"
	"math"
	"reflect"
	"runtime"
	"sync"
	"testing"

	"fretband/pattern"
	"fretband/pattern/motif"
	"fretband/pattern/project"
	"fretband/unroll"
	"fretband/unroll/plane"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func cuff() unroll.Band {
	return unroll.Band{Kind: unroll.Cuff, Inside: unroll.Inside{By: unroll.ByAxes, WidthMM: 60, HeightMM: 48}, GapMM: 26,
		Thickness: unroll.Thickness{MM: 1.2}, WidthMM: 28, EndWidthMM: 20, EndCornerMM: 5, NeutralK: 0.5}
}

func bangle(joint string) unroll.Band {
	b := unroll.Band{Kind: unroll.Bangle, Inside: unroll.Inside{By: unroll.ByAxes, WidthMM: 62, HeightMM: 56},
		Thickness: unroll.Thickness{MM: 1.5}, WidthMM: 14, EndWidthMM: 11, Joint: joint, NeutralK: 0.5}
	if joint == unroll.Soldered {
		b.JointMM = 4
	}
	return b
}

func ring() unroll.Band {
	return unroll.Band{Kind: unroll.Ring, Inside: unroll.Inside{By: unroll.ByAxes, WidthMM: 17.2, HeightMM: 17.2},
		Thickness: unroll.Thickness{MM: 1.4}, WidthMM: 8, EndWidthMM: 8, Joint: unroll.Seamless, NeutralK: 0.5}
}

func lay(t testing.TB, b unroll.Band, f pattern.Field, r pattern.DesignRules) *pattern.Sheet {
	t.Helper()
	s, err := pattern.Lay(pattern.Design{Name: "test", Band: b, Metal: pattern.Metal{Alloy: "sterling-925"}, Rules: r, Fields: []pattern.Field{f}})
	require.NoError(t, err)
	return s
}

func field(motif string, rows, repeats int) pattern.Field {
	return pattern.Field{Motif: motif, Rows: rows, Repeats: repeats, Stagger: 0.5}
}

var rules = pattern.DesignRules{BridgeMM: 0.8, RimMM: 1.2, CornerMM: 0.2, SmallestMM: 0.4}

// sheets are every motif on every kind of band, and the gallery.
func sheets(t testing.TB) map[string]*pattern.Sheet {
	t.Helper()
	all, err := laySheets()
	require.NoError(t, err)
	return all
}

var laySheets = sync.OnceValues(func() (map[string]*pattern.Sheet, error) {
	all := map[string]*pattern.Sheet{}
	put := func(name string, d pattern.Design) error {
		s, err := pattern.Lay(d)
		all[name] = s
		return err
	}
	for _, m := range motif.All() {
		for _, c := range []struct {
			name          string
			band          unroll.Band
			rows, repeats int
		}{
			{"cuff", cuff(), 4, 24},
			{"soldered bangle", bangle(unroll.Soldered), 2, 30},
			{"seamless bangle", bangle(unroll.Seamless), 2, 31},
			{"ring", ring(), 2, 12},
		} {
			if err := put(c.name+" "+m.Key, pattern.Design{Name: "test", Band: c.band, Metal: pattern.Metal{Alloy: "sterling-925"}, Rules: rules, Fields: []pattern.Field{field(m.Key, c.rows, c.repeats)}}); err != nil {
				return nil, err
			}
		}
	}
	for _, name := range project.Gallery() {
		d, err := project.GalleryDesign(name)
		if err != nil {
			return nil, err
		}
		if err := put(name, d); err != nil {
			return nil, err
		}
	}
	return all, nil
})

func area(s *pattern.Sheet) float64 {
	a := s.Flat.Outline.Area()
	for _, o := range s.Openings {
		a -= math.Abs(o.Loop.Area())
	}
	return a
}

func build(t testing.TB, s *pattern.Sheet, tol float64) *Mesh {
	t.Helper()
	m, err := Build(s, Options{Tolerance: tol})
	require.NoError(t, err)
	return m
}

// Bending at the middle of the sheet keeps the volume (Pappus and Guldin): it is
// the flat's area, from closed forms, times the thickness.
func TestEverySolidIsClosedAndHoldsTheMetalOfItsSheet(t *testing.T) {
	for name, s := range sheets(t) {
		for _, c := range []struct{ tol, within float64 }{{Screen, 6e-3}, {Solid, 1e-3}} {
			m := build(t, s, c.tol)
			if !assert.NoError(t, m.Check(), "%s at %g", name, c.tol) {
				continue
			}
			if math.Abs(s.Flat.Neutral-s.Flat.Thickness/2) < 1e-12 {
				assert.InEpsilon(t, area(s)*s.Flat.Thickness, m.Volume(), c.within, "%s at %g", name, c.tol)
			}
			assert.Equal(t, len(s.Openings), m.Openings)
		}
	}
}

func TestTheVolumeConvergesWithTheTolerance(t *testing.T) {
	s := lay(t, cuff(), field("triangles", 4, 24), rules)
	want := area(s) * s.Flat.Thickness
	last := math.Inf(1)
	for _, tol := range []float64{0.1, 0.02, 0.004, 0.001} {
		off := math.Abs(build(t, s, tol).Volume()/want - 1)
		assert.Less(t, off, last/2, "at %g", tol)
		last = off
	}
	assert.Less(t, last, 5e-5)
}

// A plain round band is a tube: pi (R^2 - r^2) w, and its faces 2 pi r w and
// 2 pi R w (any handbook of mensuration).
func TestAPlainRoundBandIsATube(t *testing.T) {
	f := field("diamonds", 1, 1)
	wide := rules
	wide.RimMM = 4 // nothing can be cut
	s := lay(t, ring(), f, wide)
	require.Empty(t, s.Openings)
	m := build(t, s, MinTolerance)
	require.NoError(t, m.Check())
	const r, out, w = 8.6, 10.0, 8.0
	assert.InEpsilon(t, math.Pi*(out*out-r*r)*w, m.Volume(), 1e-4)
	assert.InEpsilon(t, 2*math.Pi*r*w, m.Area(Inner), 1e-4)
	assert.InEpsilon(t, 2*math.Pi*out*w, m.Area(Outer), 1e-4)
	assert.InEpsilon(t, 2*math.Pi*(out*out-r*r), m.Area(Wall), 1e-4)
}

// Every triangle of a face lies within the tolerance of the bent face, also at
// the middles of its edges.
func TestTheFacesLieWithinTheTolerance(t *testing.T) {
	for _, band := range []unroll.Band{cuff(), bangle(unroll.Seamless), ring()} {
		s := lay(t, band, field("hexagons", 3, 20), rules)
		for _, tol := range []float64{Screen, Solid} {
			m := build(t, s, tol)
			var worst float64
			for _, tr := range m.Triangles {
				if tr.Kind == Wall {
					continue
				}
				for _, w := range [][3]float64{{1. / 3, 1. / 3, 1. / 3}, {.5, .5, 0}, {0, .5, .5}, {.5, 0, .5}} {
					_, depth := m.FlatAt(tr, w[0], w[1], w[2])
					var p unroll.Point3
					for k := range 3 {
						p = add(p, scale(m.Vertices[tr.V[k]], w[k]))
					}
					_, got := s.Flat.Unbend(p)
					worst = math.Max(worst, math.Abs(got-depth))
				}
			}
			assert.Less(t, worst, tol)
			assert.Greater(t, worst, tol/20, "no finer than it needs to be")
		}
	}
}

// Chords keep the area of their arcs, and stay within the tolerance.
func TestChordsKeepTheAreaOfTheirArcs(t *testing.T) {
	for _, l := range []plane.Loop{
		plane.Circle(plane.Pt(1, 2), 0.5), plane.Circle(plane.Pt(3, 2), 30),
		{{Point: plane.Pt(0, 0), Bulge: 0.3}, {Point: plane.Pt(4, 0), Bulge: -0.2}, {Point: plane.Pt(2, 5), Bulge: 0.05}},
	} {
		for _, tol := range []float64{0.2, 0.02, 0.001} {
			var p plane.Loop
			for _, c := range (&blank{straight: true}).chords(l, tol) {
				p = append(p, plane.Vertex{Point: plane.Pt(float64(c.X)*unit, float64(c.Y)*unit)})
			}
			assert.InEpsilon(t, l.Area(), p.Area(), 2e-5, "%v at %g", l, tol)
			for i := range p {
				for _, at := range []float64{0, 0.25, 0.5} {
					assert.Less(t, plane.Region{l}.Nearest(p.Edge(i).At(at)).D, tol*1.01)
				}
			}
		}
	}
}

// A band curved both ways, here the zone of a sphere: its outer face is Archimedes'
// 2 pi R h, whatever the openings leave of it.
func TestASurfaceCurvedBothWaysIsRuledBothWays(t *testing.T) {
	const r, half, thick = 30.0, 12.0, 1.0
	bend := func(p plane.Point, depth float64) unroll.Point3 {
		s, c := math.Sincos(p.X / r)
		lift, flat := math.Sincos(p.Y / r)
		q := r + depth
		return unroll.Point3{X: -q * flat * s, Y: q * flat * c, Z: q * lift}
	}
	period := 2 * math.Pi * r
	b := blank{
		bend: bend, outer: func(plane.Point) float64 { return thick }, place: plane.Pt, straight: true, thickness: thick, period: period,
		outline: plane.Rect(plane.Box{Min: plane.Pt(-period/2, -half), Max: plane.Pt(period/2, half)}),
	}
	for _, tol := range []float64{0.05, 0.01} {
		m, err := b.solid(tol)
		require.NoError(t, err)
		require.NoError(t, m.Check())
		z := 2 * math.Pi * 2 * math.Sin(half/r) // zone of radius 1
		assert.InEpsilon(t, z*r*r, m.Area(Inner), 1e-2*tol/0.01)
		assert.InEpsilon(t, z*(math.Pow(r+thick, 3)-r*r*r)/3, m.Volume(), 1e-3*tol/0.01, "a shell of the sphere's sector")
	}
	pierced := b
	n := 0
	for x := -period / 2; x < period/2-3; x += 6 {
		for _, y := range []float64{-6, 0, 6} {
			n++
			l := plane.Circle(plane.Pt(x, y), 2.2).Reverse()
			pierced.holes = append(pierced.holes, hole{n, l, l.Bounds()})
		}
	}
	m, err := pierced.solid(0.01)
	require.NoError(t, err)
	require.NoError(t, m.Check())
	for i, tr := range m.Triangles {
		if tr.Kind != Outer {
			continue
		}
		var p unroll.Point3
		for _, v := range tr.V {
			p = add(p, scale(m.Vertices[v], 1./3))
		}
		require.InDelta(t, r+thick, length(p), 0.01, "triangle %d", i)
	}
}

func TestWallsKnowTheirOpening(t *testing.T) {
	s := lay(t, bangle(unroll.Seamless), field("circles", 2, 31), rules)
	m := build(t, s, Screen)
	length := map[int32]float64{}
	for _, tr := range m.Triangles {
		if tr.Kind != Wall {
			assert.Zero(t, tr.Opening)
			continue
		}
		p, _ := m.FlatAt(tr, 1./3, 1./3, 1./3)
		if tr.Opening > 0 {
			l := s.Openings[tr.Opening-1].Loop
			d := math.Inf(1)
			for _, dx := range []float64{-s.Flat.Period, 0, s.Flat.Period} {
				d = math.Min(d, plane.Region{l}.Nearest(p.Add(plane.Pt(dx, 0))).D)
			}
			assert.Less(t, d, Screen)
		}
		length[tr.Opening]++
	}
	assert.Len(t, length, len(s.Openings)+1)
}

// Lids and metal together cover the blank; each lid's area is its opening's.
func TestLidsCloseTheOpenings(t *testing.T) {
	for name, s := range sheets(t) {
		plain := build(t, s, Screen)
		m, err := Build(s, Options{Tolerance: Screen, Lids: true})
		require.NoError(t, err)
		require.NoError(t, m.Check(), name)
		require.Equal(t, len(plain.Triangles), len(m.Triangles))
		area := make([]float64, len(s.Openings)+1)
		for _, l := range m.Lids {
			var p [3]plane.Point
			for k := range p {
				w := [3]float64{}
				w[k] = 1
				p[k], _ = m.FlatAt(l, w[0], w[1], w[2])
				if m.Period > 0 && k > 0 {
					p[k].X -= m.Period * math.Round((p[k].X-p[0].X)/m.Period)
				}
			}
			area[l.Opening] += p[1].Sub(p[0]).Cross(p[2].Sub(p[0])) / 2
		}
		for _, o := range s.Openings {
			require.InEpsilon(t, math.Abs(o.Loop.Area()), area[o.Number], 1e-3, "%s opening %d", name, o.Number)
		}
	}
}

// All normals look out of the metal: along the triangles' own.
func TestNormalsLookOutOfTheMetal(t *testing.T) {
	for name, s := range sheets(t) {
		m := build(t, s, Screen)
		for i, tr := range m.Triangles {
			a := m.Vertices[tr.V[0]]
			own := unitOf(cross(sub(m.Vertices[tr.V[1]], a), sub(m.Vertices[tr.V[2]], a)))
			for _, n := range tr.N {
				if math.Abs(length(m.Normals[n])-1) > 1e-9 || dot(own, m.Normals[n]) < 0.6 {
					t.Fatalf("%s: triangle %d of kind %d looks %v, its normal is %v", name, i, tr.Kind, own, m.Normals[n])
				}
			}
		}
	}
}

func TestTheSameSheetGivesTheSameMeshOnAnyNumberOfCores(t *testing.T) {
	s := lay(t, cuff(), field("sails", 3, 20), rules)
	a := build(t, s, Solid)
	defer runtime.GOMAXPROCS(runtime.GOMAXPROCS(1))
	b := build(t, s, Solid)
	a.place, b.place = nil, nil // functions can't be compared
	assert.True(t, reflect.DeepEqual(a, b))
}

func TestWhatTouchesOrCrossesIsRefused(t *testing.T) {
	s := lay(t, cuff(), field("circles", 3, 20), rules)
	for name, l := range map[string]plane.Loop{
		"another opening": s.Openings[10].Loop.Move(plane.Pt(0.5, 0.2)),
		"the outline":     plane.Circle(plane.Pt(0, s.Flat.Width/2), 3),
		"twice the same":  s.Openings[3].Loop,
	} {
		two := *s
		two.Openings = append(append([]pattern.Opening(nil), s.Openings...), pattern.Opening{Number: 999, Loop: l, Box: l.Bounds()})
		_, err := Build(&two, Options{})
		assert.Error(t, err, name)
	}
	for _, tol := range []float64{-1, 1e-9, 10, math.NaN()} {
		_, err := Build(s, Options{Tolerance: tol})
		assert.ErrorContains(t, err, "tolerance", tol)
	}
}

// A closed outline of a cuff put on a closed band, and the like.
func TestABandThatDoesNotCloseIsRefused(t *testing.T) {
	s := lay(t, bangle(unroll.Seamless), field("circles", 2, 31), rules)
	s.Flat.Outline = plane.Rect(plane.Box{Min: plane.Pt(-50, -5), Max: plane.Pt(50, 5)})
	_, err := Build(s, Options{})
	assert.ErrorContains(t, err, "does not close")
}

func TestCheckFindsWhatIsWrong(t *testing.T) {
	s := lay(t, ring(), field("circles", 2, 12), rules)
	m := build(t, s, Screen)
	require.NoError(t, m.Check())
	broken := func(f func(*Mesh)) error {
		c := *m
		c.Triangles = append([]Triangle(nil), m.Triangles...)
		f(&c)
		return c.Check()
	}
	assert.ErrorContains(t, broken(func(m *Mesh) { m.Triangles = m.Triangles[1:] }), "one triangle only")
	assert.ErrorContains(t, broken(func(m *Mesh) { v := &m.Triangles[5].V; v[0], v[1] = v[1], v[0] }), "same direction")
	assert.ErrorContains(t, broken(func(m *Mesh) { m.Triangles[5].V[0] = m.Triangles[5].V[1] }), "no area")
	assert.ErrorContains(t, broken(func(m *Mesh) { m.Triangles = append(m.Triangles, m.Triangles[3]) }), "more than two")
	assert.ErrorContains(t, broken(func(m *Mesh) { m.Openings++ }), "Euler")
}

func bench(t testing.TB, n int) *pattern.Sheet {
	rows := map[int]int{200: 4, 2000: 10, 20000: 30}[n]
	return lay(t, unroll.Band{
		Kind: unroll.Cuff, Inside: unroll.Inside{By: unroll.ByAxes, WidthMM: 62, HeightMM: 50}, GapMM: 28,
		Thickness: unroll.Thickness{MM: 1.2}, WidthMM: 60, EndWidthMM: 50, EndCornerMM: 6, NeutralK: 0.5,
	}, pattern.Field{Motif: "triangles", Rows: rows, Repeats: n / rows / 2, Stagger: 0.5},
		pattern.DesignRules{BridgeMM: 0.2, RimMM: 2, CornerMM: 0.05, SmallestMM: 0.1})
}

// BenchmarkBuild is what the window waits for before the band can be turned.
func BenchmarkBuild(b *testing.B) {
	for _, n := range []int{200, 2000} {
		s := bench(b, n)
		for _, c := range []struct {
			name string
			tol  float64
		}{{"screen", Screen}, {"solid", Solid}} {
			b.Run(fmt.Sprintf("%s/%d", c.name, n), func(b *testing.B) {
				var m *Mesh
				for b.Loop() {
					m = build(b, s, c.tol)
				}
				b.ReportMetric(float64(len(m.Triangles)), "triangles")
				b.ReportMetric(float64(m.Openings), "openings")
			})
		}
		b.Run(fmt.Sprintf("check/%d", n), func(b *testing.B) {
			m := build(b, s, Screen)
			for b.Loop() {
				if err := m.Check(); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}
