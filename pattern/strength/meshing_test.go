package strength_test

import (
	"bytes"
	"context"
	"math"
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
	all := map[string]*pattern.Sheet{}
	for _, e := range append(testdata.Gallery(), testdata.Forms()...) {
		d, err := project.Read(bytes.NewReader(e.JSON))
		require.NoError(t, err, e.Name)
		s, err := pattern.Lay(d)
		require.NoError(t, err, e.Name)
		all[e.Name] = s
	}
	return all
}

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

func fineness(t testing.TB) map[string]strength.Fineness {
	return map[string]strength.Fineness{"coarse": strength.Coarse(), "fine": strength.Fine()}
}

func TestMeshesAreSoundOnEveryForm(t *testing.T) {
	for name, s := range sheets(t) {
		area := s.Flat.Outline.Area()
		for _, o := range s.Openings {
			area -= math.Abs(o.Loop.Area())
		}
		for how, f := range fineness(t) {
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
			within := map[string]float64{"coarse": 1e-2, "fine": 1e-3}[how]
			assert.InEpsilon(t, area, q.area, within, "%s %s", name, how)
		}
	}
}
