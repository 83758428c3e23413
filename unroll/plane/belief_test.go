package plane

import (
	"testing"
)

// What is believed to be more than a sliver goes by the exact area and length, whatever
// the quick look at chords says: more than tol along its edge, holes four times as much.
func TestSliversAreToldByTheirExactArea(t *testing.T) {
	r := seeded(t)
	kept, left := 0, 0
	for range 4000 {
		// Long and thin, its two long sides arcs either way.
		w := 0.02 * r.Float64()
		l := Loop{{Pt(0, 0), 0.02 * r.NormFloat64()}, {Pt(1+r.Float64(), w*r.Float64()), 2*r.Float64() - 1}, {Pt(1, w), 0.02 * r.NormFloat64()}, {Pt(0.1*r.Float64(), w), 0}}
		if r.IntN(2) == 0 {
			l = l.Reverse()
		}
		tol := 0.02 * r.Float64()
		a := l.appendMerged(nil, Snap/10).Area()
		want := a > tol*l.Len() || a < -4*tol*l.Len()
		if near := a / l.Len(); near > tol*0.999 && near < tol*1.001 || near < -3.99*tol && near > -4.01*tol {
			continue
		}
		if got := len(believed(nil, l, tol)) > 0; got != want {
			t.Fatalf("%v, area %g, length %g, tolerance %g: believed %v", l, a, l.Len(), tol, got)
		}
		if want {
			kept++
		} else {
			left++
		}
	}
	if kept < 500 || left < 500 {
		t.Errorf("%d believed, %d not", kept, left)
	}
}

// The winding numbers on both sides of an edge among others are those of places a hair
// beside it.
func TestWindingBesideAnEdgeIsThatOfPlacesBesideIt(t *testing.T) {
	r := seeded(t)
	for range 300 {
		var region Region
		for range 1 + r.IntN(3) {
			var l Loop
			for range 3 + r.IntN(4) {
				l = append(l, Vertex{Pt(4*r.Float64(), 4*r.Float64()), 1.6*r.Float64() - 0.8})
			}
			region = append(region, l)
		}
		for _, l := range region {
			for i := range l {
				e := l.Edge(i)
				left, right := (&clipper{}).woundBy(e, nil, region)
				beside := e.Tangent(0.5).Left().Mul(1e-7)
				wind := func(p Point) (n int) {
					for _, l := range region {
						n += l.Winding(p)
					}
					return n
				}
				if a, b := wind(e.Mid().Add(beside)), wind(e.Mid().Sub(beside)); int(left) != a || int(right) != b {
					t.Fatalf("%v of %v: %d and %d, by winding %d and %d", e, region, left, right, a, b)
				}
			}
		}
	}
}

// Each neck is told once, also where it stands at a corner and two pairs of edges have it.
func TestNecksAreToldOnce(t *testing.T) {
	r := seeded(t)
	found := 0
	for range 150 {
		// An hourglass: at its waist four pairs of edges have the neck.
		at := Pt(9*r.Float64(), 9*r.Float64())
		l := Polygon(Pt(0, 0), Pt(4, 0), Pt(2.3, 1), Pt(4, 2), Pt(0, 2), Pt(1.7, 1)).Turn(6 * r.Float64()).Move(at)
		necks := Region{l.CCW()}.Necks(1.2)
		found += len(necks)
		for i, g := range necks {
			for _, h := range necks[:i] {
				if g.A.Dist(h.A) < Snap && g.B.Dist(h.B) < Snap || g.A.Dist(h.B) < Snap && g.B.Dist(h.A) < Snap {
					t.Fatalf("%v twice in %v", g, l)
				}
			}
		}
	}
	if found != 150 {
		t.Errorf("%d necks", found)
	}
}
