package plane

import (
	"math"
	"slices"
	"testing"
)

func TestWindingAreaAndCentroidAreThoseOfTheFlattenedLoop(t *testing.T) {
	r := seeded(t)
	for range 200 {
		l := star(r, 3+r.IntN(9), true)
		if r.IntN(2) == 0 {
			l = l.Reverse()
		}
		l = l.Turn(r.Float64() * 6).Move(Pt(r.NormFloat64()*20, r.NormFloat64()*20))
		const tol = 1e-6
		p := Polygon(l.Flatten(tol)...)
		nearly(t, "area", l.Area(), p.Area(), tol*l.Len())
		nearly(t, "length", l.Len(), p.Len(), 1e-3*l.Len())
		nearly(t, "centroid", l.Centroid().Dist(p.Centroid()), 0, 10*tol*l.Len()/math.Abs(l.Area()))
		b := l.Bounds()
		if q := p.Bounds(); q.Min.Dist(b.Min) > 2*tol || q.Max.Dist(b.Max) > 2*tol {
			t.Fatalf("bounds %v, of the polygon %v", b, q)
		}
		b = b.Grow(0.5)
		for range 100 {
			at := Pt(b.Min.X+r.Float64()*b.W(), b.Min.Y+r.Float64()*b.H())
			if r.IntN(4) == 0 { // level with a vertex, and on its upright
				v := l[r.IntN(len(l))]
				at.Y = v.Y
				if r.IntN(2) == 0 {
					at.X = v.X + r.NormFloat64()
				}
			}
			if l.Nearest(at).D < 3*tol {
				continue
			}
			if l.Winding(at) != p.Winding(at) {
				t.Fatalf("%#v at %v: winding %d, of the polygon %d", l, at, l.Winding(at), p.Winding(at))
			}
		}
		if t.Failed() {
			t.Fatalf("%#v", l)
		}
	}
}

func TestResultsAreTheSameFarOut(t *testing.T) {
	r := seeded(t)
	for range 100 {
		_, a, b, _ := judgePair(r)
		d := criticalOffset(r, a)
		far := Pt(9.5e4, -9.5e4)
		// The move rounds coordinates to 1.5e-11: compare what that leaves alone.
		x, y := a.Offset(d).Area(), a.Move(far).Offset(d).Area()
		nearly(t, "offset", y, x, 1e-5*(1+a.Len()))
		and, or, not, xor := all(t, "near", a, b)
		and2, or2, not2, xor2 := all(t, "far", a.Move(far), b.Move(far))
		nearly(t, "and", and2.Area(), and.Area(), 1e-5)
		nearly(t, "or", or2.Area(), or.Area(), 1e-5)
		nearly(t, "not", not2.Area(), not.Area(), 1e-5)
		nearly(t, "xor", xor2.Area(), xor.Area(), 1e-5)
		nearly(t, "gap", Nearest(a.Move(far)[0], b.Move(far)[0]).D, Nearest(a[0], b[0]).D, 1e-9)
		if t.Failed() {
			t.Fatalf("by %g: %#v\n%#v", d, a, b)
		}
	}
}

func TestLoopsAreTheSameFromWhicheverVertexTheyBegin(t *testing.T) {
	const tol = 0.1
	l := Loop{{Pt(0, 0), 0.2}, {Pt(4, 0), 0}, {Pt(4, 3), -0.5}, {Pt(1, 5), 0}}
	for _, c := range []struct {
		name string
		by   Vertex // by how much the third vertex differs
		same bool
	}{
		{"as it is", Vertex{}, true},
		{"nearly", Vertex{Pt(0.09, -0.09), 0.09}, true},
		{"along", Vertex{Pt(-0.11, 0), 0}, false},
		{"across", Vertex{Pt(0, 0.11), 0}, false},
		{"in its bulge", Vertex{Pt(0, 0), -0.11}, false},
	} {
		for begin := range l {
			o := append(slices.Clone(l[begin:]), l[:begin]...)
			v := &o[(2-begin+len(l))%len(l)]
			v.Point, v.Bulge = v.Point.Add(c.by.Point), v.Bulge+c.by.Bulge
			if l.Same(o, tol) != c.same {
				t.Errorf("%s, begun at vertex %d: want %v", c.name, begin, c.same)
			}
		}
	}
	if l.Same(l[:3], tol) || l.Same(l.Reverse(), tol) {
		t.Error("one with fewer vertices, or run the other way, is the same")
	}
}
