package plane

import (
	"math"
	"slices"
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

// Each neck is told once, also where openings lie on each other, edge on edge.
func TestNecksAreToldOnce(t *testing.T) {
	r := seeded(t)
	for range 100 {
		at := Pt(9*r.Float64(), 9*r.Float64())
		one := Rect(Box{Pt(1, 1), Pt(3, 3)}).Reverse()
		two := Rect(Box{Pt(3.5, 1), Pt(6, 3)}).Reverse()
		plate := Region{Rect(Box{Pt(-3, -3), Pt(10, 9)}), one, two, one, two}
		turn := 6 * r.Float64()
		for i := range plate {
			plate[i] = plate[i].Turn(turn).Move(at)
		}
		// Where the doubled edges lie on each other there is a neck of no width.
		necks := slices.DeleteFunc(plate.Necks(1), func(g Gap) bool { return g.D == 0 })
		if len(necks) != 1 || math.Abs(necks[0].D-0.5) > 1e-9 {
			t.Fatalf("turned by %g: %v", turn, necks)
		}
	}
}

// Edges that run along each other within Snap share the two ends of that stretch and
// nothing between, though they cross there.
func TestEdgesAlongEachOtherShareTheEndsOfTheStretch(t *testing.T) {
	r := seeded(t)
	for range 300 {
		from, to := 1+3*r.Float64(), 5+4*r.Float64()
		tilt := 0.8 * Snap * r.Float64()
		turn, at := 6*r.Float64(), Pt(r.Float64(), r.Float64())
		bulge := 0.0
		place := func(x, off float64) Point { return Pt(x, off) }
		if r.IntN(2) == 0 {
			// On a circle of radius 8, x the length along it.
			place = func(x, off float64) Point { return Pt(0, 8+off).Turn(-x / 8) }
			bulge = 1
		}
		edge := func(x0, x1, off0, off1 float64) Edge {
			return Edge{A: place(x0, off0).Turn(turn).Add(at), B: place(x1, off1).Turn(turn).Add(at), Bulge: -bulge * math.Tan((x1-x0)/8/4)}
		}
		a, b := edge(0, 10, 0, 0), edge(from, to, tilt, -tilt)
		for _, c := range [][2]Edge{{a, b}, {b, a}, {a.Reverse(), b}, {a, b.Reverse()}} {
			cs := Crossings(c[0], c[1])
			if len(cs) != 2 {
				t.Fatalf("%v and %v share %v", c[0], c[1], cs)
			}
			length := c[0].Len() * (cs[1].A - cs[0].A)
			if math.Abs(length-(to-from)) > 1e-4 {
				t.Fatalf("%v and %v share %g mm, not %g", c[0], c[1], length, to-from)
			}
		}
	}
}
