package plane

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
)

func TestTheLargestCircleTouchesTheLoopFromInside(t *testing.T) {
	third := math.Tan(math.Pi / 6)
	for _, c := range []struct {
		name   string
		loop   Loop
		at     Point
		r      float64
		anyAt  bool // the circle may stand in several places
		source string
	}{
		{"circle", Circle(Pt(3, -2), 1.5), Pt(3, -2), 1.5, false, "definition"},
		{"3-4-5 triangle", Polygon(Pt(0, 0), Pt(4, 0), Pt(0, 3)), Pt(1, 1), 1, false,
			"inradius (3 + 4 - 5) / 2, Euclid IV.4"},
		{"square", Rect(Box{Min: Pt(-2, -2), Max: Pt(2, 2)}), Pt(0, 0), 2, false, "definition"},
		{"rectangle", Rect(Box{Min: Pt(0, 0), Max: Pt(20, 2)}), Point{}, 1, true, "definition"},
		{"L", Polygon(Pt(0, 0), Pt(10, 0), Pt(10, 1), Pt(1, 1), Pt(1, 10), Pt(0, 10)),
			Pt(2-math.Sqrt2, 2-math.Sqrt2), 2 - math.Sqrt2, false, "circle in a corner through the inner corner: r = 1/(1 + 1/sqrt 2)"},
		{"half moon", Loop{{Point: Pt(-1, 0), Bulge: -third}, {Point: Pt(1, 0), Bulge: 1}},
			Point{}, (1 - math.Tan(math.Pi/6)) / 2, true, "half of what lies between the two arcs' tops"},
		{"nothing", Polygon(Pt(1, 1), Pt(1, 1)), Point{}, 0, true, "definition"},
	} {
		at, r := c.loop.LargestCircle(1e-4)
		assert.InDelta(t, c.r, r, 1.1e-4, "%s (%s)", c.name, c.source)
		if !c.anyAt {
			assert.InDelta(t, 0, at.Dist(c.at), 0.02, "%s: at %v", c.name, at)
		}
	}
}
