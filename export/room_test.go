package export

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"

	"fretband/unroll/plane"
)

func TestRoomIsTheLargestCircleInside(t *testing.T) {
	third := math.Tan(math.Pi / 6)
	for _, c := range []struct {
		name   string
		loop   plane.Loop
		at     plane.Point
		r      float64
		anyAt  bool // the circle may stand in several places
		source string
	}{
		{"circle", plane.Circle(plane.Pt(3, -2), 1.5), plane.Pt(3, -2), 1.5, false, "definition"},
		{"3-4-5 triangle", plane.Polygon(plane.Pt(0, 0), plane.Pt(4, 0), plane.Pt(0, 3)), plane.Pt(1, 1), 1, false,
			"inradius (3 + 4 - 5) / 2, Euclid IV.4"},
		{"square", plane.Rect(plane.Box{Min: plane.Pt(-2, -2), Max: plane.Pt(2, 2)}), plane.Pt(0, 0), 2, false, "definition"},
		{"rectangle", plane.Rect(plane.Box{Min: plane.Pt(0, 0), Max: plane.Pt(20, 2)}), plane.Point{}, 1, true, "definition"},
		{"L", plane.Polygon(plane.Pt(0, 0), plane.Pt(10, 0), plane.Pt(10, 1), plane.Pt(1, 1), plane.Pt(1, 10), plane.Pt(0, 10)),
			plane.Pt(2-math.Sqrt2, 2-math.Sqrt2), 2 - math.Sqrt2, false, "circle in a corner through the inner corner: r = 1/(1 + 1/sqrt 2)"},
		{"half moon", plane.Loop{{Point: plane.Pt(-1, 0), Bulge: -third}, {Point: plane.Pt(1, 0), Bulge: 1}},
			plane.Point{}, (1 - math.Tan(math.Pi/6)) / 2, true, "half of what lies between the two arcs' tops"},
		{"nothing", plane.Polygon(plane.Pt(1, 1), plane.Pt(1, 1)), plane.Point{}, 0, true, "definition"},
	} {
		at, r := room(c.loop, 1e-4)
		assert.InDelta(t, c.r, r, 1.1e-4, "%s (%s)", c.name, c.source)
		if !c.anyAt {
			assert.InDelta(t, 0, at.Dist(c.at), 0.02, "%s: at %v", c.name, at)
		}
	}
}
