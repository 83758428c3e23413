package strength_test

import (
	"bytes"
	"cmp"
	"context"
	"math"
	"reflect"
	"runtime"
	"slices"
	"sync"
	"testing"

	"fretband/pattern"
	"fretband/pattern/project"
	"fretband/pattern/strength"
	"fretband/testdata"
	"fretband/unroll"
	"fretband/unroll/plane"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// metalOf is what is to be meshed of a sheet.
func metalOf(s *pattern.Sheet) strength.Metal {
	m := strength.Metal{Flat: s.Flat}
	for _, o := range s.Openings {
		m.Openings = append(m.Openings, o.Loop)
	}
	return m
}

// sheets are the gallery, and a band of each form.
func sheets(t testing.TB) map[string]*pattern.Sheet {
	t.Helper()
	all, err := laySheets()
	require.NoError(t, err)
	return all
}

var laySheets = sync.OnceValues(func() (map[string]*pattern.Sheet, error) {
	all := map[string]*pattern.Sheet{}
	for _, e := range append(testdata.Gallery(), testdata.Forms()...) {
		d, err := project.Read(bytes.NewReader(e.JSON))
		if err != nil {
			return nil, err
		}
		if all[e.Name], err = pattern.Lay(d); err != nil {
			return nil, err
		}
	}
	return all, nil
})

// quality is what is measured of a mesh.
type quality struct {
	area, worst float64 // mm^2 on the blank; the least angle, degrees
	under20     int     // triangles with an angle under 20 degrees
	euler       int
	pieces      int
}

func measure(t testing.TB, f unroll.Flat, m *strength.Mesh) quality {
	t.Helper()
	q := quality{worst: 180}
	edges := map[[2]int32]int{}
	up := make([]int32, len(m.At))
	for i := range up {
		up[i] = int32(i)
	}
	find := func(i int32) int32 {
		for up[i] != i {
			up[i] = up[up[i]]
			i = up[i]
		}
		return i
	}
	q.pieces = len(m.At)
	for i, tri := range m.Tri {
		var p [3]plane.Point
		for k, v := range tri {
			p[k] = m.Flat[v]
			if k > 0 {
				p[k] = nearer(f, p[0], p[k])
			}
			w := tri[(k+1)%3]
			if v == w {
				t.Fatal("twice one corner")
			}
			edges[[2]int32{v, w}]++
			if edges[[2]int32{v, w}] > 1 {
				t.Fatalf("triangle %d: an edge run along twice", i)
			}
			if a, b := find(v), find(w); a != b {
				up[a] = b
				q.pieces--
			}
		}
		a := p[1].Sub(p[0]).Cross(p[2].Sub(p[0])) / 2
		if !(a > 0) {
			t.Fatalf("triangle %d at %v", i, p)
		}
		q.area += a
		least := 180.0
		for k := range p {
			u, v := p[(k+1)%3].Sub(p[k]), p[(k+2)%3].Sub(p[k])
			least = math.Min(least, math.Atan2(u.Cross(v), u.Dot(v))*180/math.Pi)
		}
		q.worst = math.Min(q.worst, least)
		if least < 20 {
			q.under20++
		}
	}
	n := 0
	for e := range edges {
		if e[0] < e[1] || edges[[2]int32{e[1], e[0]}] == 0 {
			n++
		}
	}
	q.euler = len(m.At) - n + len(m.Tri)
	return q
}

// nearer returns the copy of q that is nearest to p.
func nearer(f unroll.Flat, p, q plane.Point) plane.Point {
	if !f.Closed() {
		return q
	}
	x, v := f.Where(q)
	y, _ := f.Where(p)
	return f.Place(x+f.Length*math.Round((y-x)/f.Length), v)
}

func fineness() map[string]strength.Fineness {
	return map[string]strength.Fineness{"coarse": strength.Coarse(), "fine": strength.Fine()}
}

func TestMeshesAreSoundOnEveryForm(t *testing.T) {
	for name, s := range sheets(t) {
		area := s.Flat.Outline.Area()
		for _, o := range s.Openings {
			area -= math.Abs(o.Loop.Area())
		}
		for how, f := range fineness() {
			m, err := metalOf(s).Mesh(context.Background(), f)
			if !assert.NoError(t, err, "%s %s", name, how) {
				continue
			}
			q := measure(t, s.Flat, m)
			euler := 1 - len(s.Openings)
			if s.Flat.Closed() {
				euler--
			}
			assert.Equal(t, 1, q.pieces, "%s %s", name, how)
			assert.Equal(t, euler, q.euler, "%s %s", name, how)
			// The metal's own corners are no sharper in these.
			assert.GreaterOrEqual(t, q.worst, 20.0, "%s %s", name, how)
			assert.Zero(t, q.under20, "%s %s", name, how)
			within := map[string]float64{"coarse": 1e-2, "fine": 1e-3}[how]
			assert.InEpsilon(t, area, q.area, within, "%s %s", name, how)
		}
	}
}

// across counts the triangles that the way from p to q leads through, a hair beside
// nodes.
func across(f unroll.Flat, m *strength.Mesh, p, q plane.Point) int {
	n := 0
	mid, d := p.Mid(q), q.Sub(p)
	side := d.Left().Unit()
	// Beside the way, so that it leads along no edge, and not quite to its ends.
	p, q = p.Add(d.Mul(0.01)).Add(side.Mul(0.0013)), q.Sub(d.Mul(0.01)).Add(side.Mul(0.0017))
	for _, tri := range m.Tri {
		var c [3]plane.Point
		near := false
		for k, v := range tri {
			c[k] = nearer(f, mid, m.Flat[v])
			near = near || c[k].Dist(mid) < 2*d.Len()
		}
		if !near {
			continue
		}
		// The part of the way that lies in the triangle.
		lo, hi := 0.0, 1.0
		for k := range c {
			e := c[(k+1)%3].Sub(c[k])
			a, b := e.Cross(p.Sub(c[k])), e.Cross(q.Sub(c[k]))
			switch {
			case a < 0 && b < 0:
				hi = -1
			case a < 0:
				lo = math.Max(lo, a/(a-b))
			case b < 0:
				hi = math.Min(hi, a/(a-b))
			}
		}
		if hi > lo {
			n++
		}
	}
	return n
}

// A way may lead right through a node and so through one element less; beside it, it
// does not.
func TestBridgesHaveElementsEnoughAcross(t *testing.T) {
	for name, s := range sheets(t) {
		pairs := s.Pairs(1.2 * s.Rule)
		slices.SortStableFunc(pairs, func(a, b pattern.NearPair) int { return cmp.Compare(a.D, b.D) })
		for how, f := range fineness() {
			m, err := metalOf(s).Mesh(context.Background(), f)
			require.NoError(t, err, "%s %s", name, how)
			for _, pair := range pairs[:min(len(pairs), 8)] {
				least, sum := math.MaxInt, 0
				for _, beside := range []float64{-0.3, -0.15, 0, 0.15, 0.3} {
					by := pair.B.Sub(pair.A).Left().Mul(beside)
					n := across(s.Flat, m, pair.A.Add(by), pair.B.Add(by))
					least = min(least, n)
					sum += n
				}
				assert.GreaterOrEqual(t, least, f.Across-1, "%s %s: bridge of %.2f mm at %v", name, how, pair.D, pair.A)
				assert.GreaterOrEqual(t, sum, 5*f.Across, "%s %s: bridge of %.2f mm at %v", name, how, pair.D, pair.A)
			}
		}
	}
}

func TestEdgesTurnNoMoreThanAsked(t *testing.T) {
	// A ring of metal about one round opening: all its inner nodes lie on the circle, and
	// are as many as turns of that angle ask for.
	for _, turn := range []float64{0.1, 0.2, 0.5} {
		m, err := plate(plane.Circle(plane.Pt(0, 0), 0.5)).Mesh(context.Background(), strength.Fineness{Size: 1, Across: 3, Turn: turn})
		require.NoError(t, err)
		n := 0
		for _, p := range m.Flat {
			if math.Abs(p.Len()-0.5) < 0.05*0.5 {
				n++
			}
		}
		assert.GreaterOrEqual(t, n, int(2*math.Pi/turn), turn)
		assert.LessOrEqual(t, n, int(2*math.Pi/turn)+2, turn)
	}
}

func TestTheMeshIsFinerAroundThePointsGiven(t *testing.T) {
	at := plane.Pt(8, 1)
	f := strength.Fineness{Size: 0.8, Across: 3, Turn: 0.5}
	l := plane.Circle(plane.Pt(8, 0), 1)
	longest := func(f strength.Fineness) (near, far float64) {
		m, err := plate(l, plane.Circle(plane.Pt(-8, 0), 1)).Mesh(context.Background(), f)
		require.NoError(t, err)
		for _, tri := range m.Tri {
			for k, v := range tri {
				p, q := m.Flat[v], m.Flat[tri[(k+1)%3]]
				if d := p.Dist(q); p.Dist(at) < 0.5 {
					near = math.Max(near, d)
				} else if p.X < 0 {
					far = math.Max(far, d)
				}
			}
		}
		return near, far
	}
	near, far := longest(f)
	f.Around, f.Radius, f.Finer = []plane.Point{at}, 1, 4
	finer, same := longest(f)
	assert.Less(t, finer, 0.6*near)
	assert.InEpsilon(t, far, same, 0.3)
}

// plate is a blank 40 by 12 mm with openings.
func plate(openings ...plane.Loop) strength.Metal {
	f, err := unroll.Unroll(unroll.Band{Kind: unroll.Cuff, Inside: unroll.Inside{By: unroll.ByAxes, WidthMM: 60, HeightMM: 60}, GapMM: 80,
		Thickness: unroll.Thickness{MM: 1.2}, WidthMM: 12, EndWidthMM: 12, NeutralK: 0.5})
	if err != nil {
		panic(err)
	}
	return strength.Metal{Flat: f, Openings: openings}
}

func TestTheSameMetalGivesTheSameMesh(t *testing.T) {
	for _, name := range []string{"harbour-cuff", "buoy-bangle", "flared-bangle"} {
		m := metalOf(sheets(t)[name])
		a, err := m.Mesh(context.Background(), strength.Fine())
		require.NoError(t, err)
		was := runtime.GOMAXPROCS(1)
		b, err := m.Mesh(context.Background(), strength.Fine())
		runtime.GOMAXPROCS(max(2, was))
		require.NoError(t, err)
		assert.True(t, reflect.DeepEqual(a, b), name)
		b, err = m.Mesh(context.Background(), strength.Fine())
		runtime.GOMAXPROCS(was)
		require.NoError(t, err)
		assert.True(t, reflect.DeepEqual(a, b), name)
	}
}

func TestMetalThatCannotBeMeshedIsNamedAndPlaced(t *testing.T) {
	box := func(x0, y0, x1, y1 float64) plane.Loop {
		return plane.Rect(plane.Box{Min: plane.Pt(x0, y0), Max: plane.Pt(x1, y1)})
	}
	for name, c := range map[string]struct {
		openings []plane.Loop
		why      error
		at       plane.Box
	}{
		"openings that touch at a corner":  {[]plane.Loop{box(-3, -2, 0, 0), box(0, 0, 3, 2)}, strength.ErrTouch, plane.Box{Min: plane.Pt(-0.1, -0.1), Max: plane.Pt(0.1, 0.1)}},
		"openings that touch along a side": {[]plane.Loop{box(-3, -2, 0, 1), box(0, -1, 3, 2)}, strength.ErrTouch, plane.Box{Min: plane.Pt(-0.1, -1.1), Max: plane.Pt(0.1, 1.1)}},
		"round openings that touch":        {[]plane.Loop{plane.Circle(plane.Pt(-2, 0), 2), plane.Circle(plane.Pt(2, 0), 2)}, strength.ErrTouch, plane.Box{Min: plane.Pt(-0.5, -0.8), Max: plane.Pt(0.5, 0.8)}},
		"openings that cross":              {[]plane.Loop{box(-3, -2, 1, 1), box(0, -1, 3, 2)}, strength.ErrTouch, plane.Box{Min: plane.Pt(-1, -2), Max: plane.Pt(2, 2)}},
		"one opening twice":                {[]plane.Loop{box(-3, -2, 1, 1), box(-3, -2, 1, 1)}, strength.ErrTouch, plane.Box{Min: plane.Pt(-3.1, -2.1), Max: plane.Pt(1.1, 1.1)}},
		"an opening within another":        {[]plane.Loop{box(-3, -2, 1, 1), box(-2, -1, 0, 0)}, strength.ErrTouch, plane.Box{Min: plane.Pt(-3.1, -2.1), Max: plane.Pt(1.1, 1.1)}},
		"an opening over the edge":         {[]plane.Loop{box(-3, -2, 1, 7)}, strength.ErrTouch, plane.Box{Min: plane.Pt(-4, -2.1), Max: plane.Pt(2, 7.1)}},
		"an opening beyond the edge":       {[]plane.Loop{box(-3, 6.1, 1, 6.4)}, strength.ErrTouch, plane.Box{Min: plane.Pt(-3.1, 6), Max: plane.Pt(1.1, 6.5)}},
		"an opening that crosses itself":   {[]plane.Loop{plane.Polygon(plane.Pt(-3, -2), plane.Pt(3, 2), plane.Pt(3, -2), plane.Pt(-3, 2))}, strength.ErrTouch, plane.Box{Min: plane.Pt(-3.1, -2.1), Max: plane.Pt(3.1, 2.1)}},
		"a bridge of half a micron":        {[]plane.Loop{box(-3, -2, -0.0005, 1), box(0, -1, 3, 2)}, strength.ErrTouch, plane.Box{Min: plane.Pt(-0.1, -1.1), Max: plane.Pt(0.1, 1.1)}},
		"a slot that parts a piece": {[]plane.Loop{{
			{Point: plane.Pt(2, 0), Bulge: 1}, {Point: plane.Pt(-2, 0), Bulge: 1 - 1e-9}, {Point: plane.Pt(2, -1e-9), Bulge: 0},
			{Point: plane.Pt(1.5, -1e-9), Bulge: -1 + 1e-9}, {Point: plane.Pt(-1.5, 0), Bulge: -1}, {Point: plane.Pt(1.5, 0), Bulge: 0},
		}}, strength.ErrTouch, plane.Box{Min: plane.Pt(-2.1, -2.1), Max: plane.Pt(2.1, 2.1)}},
	} {
		for how, f := range fineness() {
			_, err := plate(c.openings...).Mesh(context.Background(), f)
			var e *strength.MetalError
			if !assert.ErrorAs(t, err, &e, "%s %s", name, how) {
				continue
			}
			assert.ErrorIs(t, err, c.why, "%s %s", name, how)
			assert.True(t, c.at.Contains(e.At), "%s %s: %v", name, how, e.At)
		}
	}
}

// What is as thin as nothing is named; what is only thin is meshed.
func TestThinBridgesAreMeshed(t *testing.T) {
	for _, w := range []float64{0.3, 0.03, 0.003} {
		m, err := plate(plane.Circle(plane.Pt(-2-w/2, 0), 2), plane.Circle(plane.Pt(2+w/2, 0), 2)).Mesh(context.Background(), strength.Coarse())
		require.NoError(t, err)
		q := measure(t, plate().Flat, m)
		assert.Equal(t, -1, q.euler)
		assert.GreaterOrEqual(t, q.worst, 20.0, w)
		assert.GreaterOrEqual(t, across(plate().Flat, m, plane.Pt(-w/2, 0), plane.Pt(w/2, 0)), 3)
	}
}

func TestNonsenseIsRefused(t *testing.T) {
	good := strength.Coarse()
	for name, change := range map[string]func(*strength.Fineness){
		"size":   func(f *strength.Fineness) { f.Size = math.NaN() },
		"across": func(f *strength.Fineness) { f.Across = 0 },
		"turn":   func(f *strength.Fineness) { f.Turn = 0 },
		"finer":  func(f *strength.Fineness) { f.Around = []plane.Point{{}} },
		"nodes":  func(f *strength.Fineness) { f.Most = -1 },
	} {
		f := good
		change(&f)
		_, err := plate().Mesh(context.Background(), f)
		assert.ErrorContains(t, err, name)
	}
	_, err := strength.Metal{}.Mesh(context.Background(), good)
	assert.ErrorIs(t, err, strength.ErrNothing)
	good.Most = 100
	_, err = plate().Mesh(context.Background(), good)
	assert.ErrorIs(t, err, strength.ErrTooMany)
	inf := math.Inf(1)
	for _, l := range []plane.Loop{{}, {{}}, {{}, {}}, plane.Polygon(plane.Pt(0, 0), plane.Pt(1, 0)), plane.Circle(plane.Pt(inf, 0), 1), plane.Circle(plane.Pt(0, math.NaN()), 1), plane.Circle(plane.Pt(0, 0), 1e30)} {
		_, err := plate(l).Mesh(context.Background(), strength.Coarse())
		t.Log(l, err) // whatever it says, it says it
	}
}

func TestAMeshIsGivenUpWithItsContext(t *testing.T) {
	m := metalOf(sheets(t)["harbour-cuff"])
	ctx, stop := context.WithCancel(context.Background())
	stop()
	_, err := m.Mesh(ctx, strength.Fine())
	assert.ErrorIs(t, err, context.Canceled)
}
