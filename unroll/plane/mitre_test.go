package plane

import (
	"math"
	"testing"
)

func TestMitredOutsetsOfPolygonsHaveTheAreaOfTheClosedForm(t *testing.T) {
	r := seeded(t)
	// A convex polygon outset by d with sharp corners: A + P d + d^2 sum tan(turn/2).
	for range 60 {
		l := convex(r, 3+r.IntN(6), false)
		d := 0.05 + r.Float64()
		sum := 0.0
		for i := range l {
			a, b := l.Edge((i+len(l)-1)%len(l)), l.Edge(i)
			sum += math.Tan(math.Asin(a.Tangent(1).Cross(b.Tangent(0))) / 2)
			if a.Tangent(1).Dot(b.Tangent(0)) < 0 {
				sum = math.NaN() // sharper than a right angle: leave to the case below
			}
		}
		if math.IsNaN(sum) {
			continue
		}
		o := Region{l}.OffsetMitre(d, 10)
		if len(o) != 1 || len(o[0]) != len(l) {
			t.Fatalf("%#v by %g: %v", l, d, o)
		}
		nearly(t, "area", o.Area(), l.Area()+l.Len()*d+d*d*sum, 1e-5)
	}
	nearly(t, "square", Region{square(10)}.OffsetMitre(1, 2).Area(), 144, 1e-6)
	nearly(t, "triangle", Region{equilateral(6)}.OffsetMitre(1, 3)[0].Edge(0).Len(), 6+2*math.Sqrt(3), 1e-6)
	// Cut at the crown of the round join: an octagon about a square.
	nearly(t, "square cut", Region{square(10)}.OffsetMitre(1, 1).Area(), 144-4*math.Pow(math.Sqrt2-1, 2), 1e-6)
}

func TestAMitredInsetOfAFrameSharpensTheCornersOfTheMetal(t *testing.T) {
	// A notch: the inset of an L goes round its inner corner with an arc, or sharp.
	l := Polygon(Pt(0, 0), Pt(6, 0), Pt(6, 2), Pt(2, 2), Pt(2, 6), Pt(0, 6))
	round, sharp := l.Inset(0.5), Region{l}.OffsetMitre(-0.5, 4)
	nearly(t, "difference", round.Area()-sharp.Area(), 0.25*(1-math.Pi/4), 1e-6)
	wellFormed(t, "L", sharp)
}
