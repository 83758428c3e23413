package pen

import (
	"math"
	"math/rand"
	"testing"

	"fretband/unroll/plane"

	"github.com/stretchr/testify/require"
)

// An arc through three points lies on the circle through them: that of the crossing of the
// chords' perpendicular bisectors (Euclid, Elements IV.5).
func TestAnArcRunsThroughThePointThatItIsBentTo(t *testing.T) {
	r := rand.New(rand.NewSource(7))
	at := func() plane.Point { return plane.Pt(20*r.Float64()-10, 20*r.Float64()-10) }
	for range 2000 {
		a, b, p := at(), at(), at()
		bulge := Through(a, b, p)
		e := plane.Edge{A: a, B: b, Bulge: bulge}
		if bulge == 0 || math.Abs(bulge) == mostBulge {
			continue
		}
		require.InDelta(t, 0, e.Dist(p), 1e-6*math.Max(1, e.Radius()), "%v %v %v", a, b, p)
		// Centre by the bisectors.
		d := 2 * (a.X*(b.Y-p.Y) + b.X*(p.Y-a.Y) + p.X*(a.Y-b.Y))
		sq := func(q plane.Point) float64 { return q.Dot(q) }
		c := plane.Pt((sq(a)*(b.Y-p.Y)+sq(b)*(p.Y-a.Y)+sq(p)*(a.Y-b.Y))/d, (sq(a)*(p.X-b.X)+sq(b)*(a.X-p.X)+sq(p)*(b.X-a.X))/d)
		require.InDelta(t, 0, e.Centre().Dist(c), 1e-5*math.Max(1, e.Radius()))
	}
	require.Zero(t, Through(plane.Pt(0, 0), plane.Pt(10, 0), plane.Pt(5, 0.05)), "a hand that means a straight line")
	require.Zero(t, Through(plane.Pt(0, 0), plane.Pt(10, 0), plane.Pt(0, 0)))
	require.InDelta(t, 1, math.Abs(Through(plane.Pt(0, 0), plane.Pt(10, 0), plane.Pt(5, 5))), 1e-12, "half a circle")
}

func TestAnOutlineIsDrawnBentAndClosed(t *testing.T) {
	var d Drawing
	for _, p := range []plane.Point{{X: 0, Y: 0}, {X: 4, Y: 0}, {X: 4, Y: 3}, {X: 0, Y: 3}} {
		d = d.Add(p)
	}
	require.Len(t, d.Edges(), 3)
	d = d.Close()
	l, err := d.Loop()
	require.NoError(t, err)
	require.InDelta(t, 12, l.Area(), 1e-12)
	// Half a circle over one side: its area is that of the semicircle more.
	bent := d.Bend(1, plane.Pt(5.5, 1.5))
	l, err = bent.Loop()
	require.NoError(t, err)
	require.InDelta(t, 12+math.Pi*1.5*1.5/2, l.Area(), 1e-9)
	require.Zero(t, d.Line[1].Bulge, "the drawing before stays what it was")
	// A point more changes nothing, wherever it lies; without it all is as before.
	more, i := bent.Insert(1, plane.Pt(5.2, 2))
	m, err := more.Loop()
	require.NoError(t, err)
	require.InDelta(t, l.Area(), m.Area(), 1e-9)
	require.Len(t, m, 5)
	require.Len(t, more.Remove(i).Line, 4)
	// Back, from the closing on.
	require.Len(t, d.Back().Edges(), 3)
	require.Len(t, d.Back().Back().Line, 3)
	// What can't be cut says why.
	_, err = d.Move(2, plane.Pt(-4, 1)).Loop()
	require.Error(t, err)
	_, err = Drawing{}.Add(plane.Pt(0, 0)).Add(plane.Pt(3, 0)).Close().Loop()
	require.ErrorContains(t, err, "three points")
	// Two points and two arcs are a lens.
	l, err = Drawing{}.Add(plane.Pt(0, 0)).Add(plane.Pt(6, 0)).Close().Bend(0, plane.Pt(3, -1)).Bend(1, plane.Pt(3, 1)).Loop()
	require.NoError(t, err)
	require.Greater(t, l.Area(), 7.5)
}

func TestAPositionIsDrawnToWhatIsNear(t *testing.T) {
	first := plane.Pt(1, 1)
	s := Snaps{Reach: 0.4, Grid: 0.5, MidX: true, MidYs: true, First: &first, Points: []plane.Point{{X: 3, Y: 3}}, Bridge: 1.2,
		Openings: []plane.Loop{plane.Rect(plane.Box{Min: plane.Pt(10, 0), Max: plane.Pt(14, 4)}), plane.Circle(plane.Pt(-10, 5), 2)}}
	for _, c := range []struct {
		at, want plane.Point
		by       Catch
	}{
		{plane.Pt(1.2, 1.1), first, First},
		{plane.Pt(3.1, 2.8), plane.Pt(3, 3), Point},
		{plane.Pt(10.2, 4.1), plane.Pt(10, 4), Point},
		{plane.Pt(0.2, 6.1), plane.Pt(0, 6), Middle},
		{plane.Pt(0.3, -0.2), plane.Pt(0, 0), Middle},
		{plane.Pt(8.9, 2.3), plane.Pt(8.8, 2.3), Beside},
		{plane.Pt(9.3, 2.3), plane.Pt(9.4, 2.3), Half},
		{plane.Pt(-10, 8.3), plane.Pt(-10, 8.2), Beside},
		{plane.Pt(6.3, 7.2), plane.Pt(6.5, 7), Grid},
	} {
		p, by := s.At(c.at)
		require.Equal(t, c.by, by, "%v", c.at)
		require.InDelta(t, 0, p.Dist(c.want), 1e-9, "%v comes to %v, not %v", c.at, p, c.want)
	}
	s.Grid = 0
	p, by := s.At(plane.Pt(6.3, 7.2))
	require.Equal(t, plane.Pt(6.3, 7.2), p)
	require.Equal(t, Free, by)
}
