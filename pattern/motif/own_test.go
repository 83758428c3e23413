package motif

import (
	"math"
	"strings"
	"testing"

	"fretband/pattern/own"
	"fretband/unroll/plane"
)

// A hook: no two sides of it are alike.
var hook = plane.Loop{
	{Point: plane.Pt(3, 1)}, {Point: plane.Pt(9, 1), Bulge: 0.6}, {Point: plane.Pt(9, 6)},
	{Point: plane.Pt(7, 6)}, {Point: plane.Pt(7, 3)}, {Point: plane.Pt(3, 3)},
}

func TestAnOwnMotifFillsItsBoxAndIsMirroredOnACuffIfAsked(t *testing.T) {
	m, err := Own(hook.Reverse(), true)
	if err != nil {
		t.Fatal(err)
	}
	f := frameOf(m, 8, 5, 3, map[string]float64{"turn_deg": 25})
	f.Closed = false
	til := m.Cells(f)
	for i, l := range til.Shapes {
		if err := l.Check(); err != nil || l.Area() <= 0 {
			t.Fatalf("shape %d: area %g, %v", i, l.Area(), err)
		}
		b := l.Bounds()
		if b.W() > 8+1e-9 || b.H() > 5+1e-9 || b.W() < 8-1e-9 && b.H() < 5-1e-9 {
			t.Errorf("shape %d is %g by %g in a box of 8 by 5", i, b.W(), b.H())
		}
	}
	for _, p := range til.Cells {
		found := false
		for _, q := range til.Cells {
			found = found || q.Shape != p.Shape && math.Abs(q.At.X+p.At.X) < 1e-9 && q.At.Y == p.At.Y
		}
		if !found {
			t.Fatalf("the cell at %v has no mirror image", p.At)
		}
	}
	as, err := Own(hook, false)
	if err != nil {
		t.Fatal(err)
	}
	if til := as.Cells(f); len(til.Shapes) != 1 {
		t.Errorf("unasked: %d shapes", len(til.Shapes))
	}
	f.Closed = true
	if til := m.Cells(f); len(til.Shapes) != 1 || len(til.Cells) != f.Rows*f.Repeats {
		t.Errorf("closed: %d shapes at %d places", len(til.Shapes), len(til.Cells))
	}
}

func TestAnOwnMotifIsAsLargeAsAsked(t *testing.T) {
	m, err := Own(plane.Rect(plane.Box{Min: plane.Pt(2, 3), Max: plane.Pt(6, 5)}), false)
	if err != nil {
		t.Fatal(err)
	}
	for _, size := range []float64{1, 0.5, 0.1} {
		// Twice as wide as high, in boxes of 8 by 5: the width is what counts.
		til := m.Cells(frameOf(m, 8, 5, 3, map[string]float64{"size": size}))
		if b := til.Shapes[0].Bounds(); math.Abs(b.W()-8*size)+math.Abs(b.H()-4*size) > 1e-9 {
			t.Errorf("size %g: %g by %g", size, b.W(), b.H())
		}
	}
}

// A rectangle of 4 by 2 turned by a has a box of 4 cos a + 2 sin a by 4 sin a + 2 cos a.
func TestAnOwnMotifIsTurnedByDegrees(t *testing.T) {
	m, err := Own(plane.Rect(plane.Box{Min: plane.Pt(2, 3), Max: plane.Pt(6, 5)}), false)
	if err != nil {
		t.Fatal(err)
	}
	for _, deg := range []float64{90, 30, -30, 180, 5} {
		sin, cos := math.Sincos(math.Abs(deg) * math.Pi / 180)
		w, h := 4*math.Abs(cos)+2*sin, 4*sin+2*math.Abs(cos)
		b := m.Cells(frameOf(m, 8, 5, 3, map[string]float64{"turn_deg": deg})).Shapes[0].Bounds()
		if k := math.Min(8/w, 5/h); math.Abs(b.W()-k*w)+math.Abs(b.H()-k*h) > 1e-9 {
			t.Errorf("turned by %g degrees: %g by %g, want %g by %g", deg, b.W(), b.H(), k*w, k*h)
		}
	}
	// To the left: the long side of a rectangle turned a little rises to the right.
	l := m.Cells(frameOf(m, 8, 5, 3, map[string]float64{"turn_deg": 10})).Shapes[0]
	for i := range l {
		if d := l.Edge(i).B.Sub(l.Edge(i).A); math.Abs(d.X) > math.Abs(d.Y) && d.X*d.Y <= 0 {
			t.Errorf("a long side runs along %v", d)
		}
	}
}

func TestALoopThatCanBeNoMotifIsRefused(t *testing.T) {
	for says, l := range map[string]plane.Loop{
		"can't be cut out":     plane.Polygon(plane.Pt(0, 0), plane.Pt(4, 4), plane.Pt(4, 0), plane.Pt(0, 5)),
		"at least 0.1 mm":      plane.Circle(plane.Point{}, 0.04),
		"may have 2000 at mos": make(plane.Loop, own.MostEdges+1),
		"2 or more":            nil,
	} {
		if _, err := Own(l, false); err == nil || !strings.Contains(err.Error(), says) {
			t.Errorf("%v: want an error that says %q", err, says)
		}
	}
}
