package plane

import (
	"math"
	"testing"
)

func TestTheWidthOfKnownMetal(t *testing.T) {
	// A bar 2 wide with a round head of radius 3 at its end.
	bar, err := Or(Region{Rect(Box{Pt(-20, -1), Pt(0, 1)})}, Region{Circle(Pt(4, 0), 3)})
	if err != nil {
		t.Fatal(err)
	}
	bar, err = Or(bar, Region{Rect(Box{Pt(-1, -1), Pt(4, 1)})})
	if err != nil {
		t.Fatal(err)
	}
	ring := Region{Circle(Pt(0, 0), 5), Circle(Pt(1, 0), 2).Reverse()}
	for _, c := range []struct {
		what string
		r    Region
		p    Point
		want float64
	}{
		{"on the bar", bar, Pt(-10, 0.3), 2},
		{"at the bar's edge", bar, Pt(-10, 0.9), 2},
		{"in the head", bar, Pt(5, 1), 6},
		{"at the head's edge", bar, Pt(6.5, 0), 6},
		{"in a square's corner", Region{square(4)}, Pt(0.001, 0.001), 0}, // set below
		{"outside", bar, Pt(-10, 3), 0},
		{"ring, its thick side", ring, Pt(-3, 0), 4},
	} {
		if c.want == 0 && c.r.Contains(c.p) {
			// The disc in the corner's bisector that just reaches p: r(sqrt2 - 1) = |p| off.
			c.want = 2 * c.p.Len() / (math.Sqrt2 - 1)
		}
		d, err := c.r.WidthAt(c.p, 10)
		if err != nil {
			t.Fatal(err)
		}
		nearly(t, c.what, 2*d.R, c.want, 1e-4)
		if d.R > 0 && (d.C.Dist(c.p) > d.R+1e-6 || c.r.Nearest(d.C).D < d.R-1e-6) {
			t.Errorf("%s: disc %v does not hold the point, or is not inside", c.what, d)
		}
	}
}
