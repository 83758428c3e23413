package check

import (
	"math"
	"testing"

	"fretband/pattern"
	"fretband/unroll/plane"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// arcTo is a corner from which a quarter, a half or another share of a turn leads on.
func arcTo(x, y, turn float64) plane.Vertex {
	return plane.Vertex{Point: plane.Pt(x, y), Bulge: math.Tan(turn / 4)}
}

// finger is an opening of 12 x 10 about the middle into which metal b wide and h long
// stands from above, its free end a half circle or square.
func finger(b, h float64, round bool) plane.Loop {
	l := plane.Polygon(plane.Pt(-b/2, 5), plane.Pt(-6, 5), plane.Pt(-6, -5), plane.Pt(6, -5), plane.Pt(6, 5), plane.Pt(b/2, 5))
	if round {
		return append(l, arcTo(b/2, 5-h+b/2, -math.Pi), plane.Vertex{Point: plane.Pt(-b/2, 5-h+b/2)})
	}
	return append(l, plane.Vertex{Point: plane.Pt(b/2, 5-h)}, plane.Vertex{Point: plane.Pt(-b/2, 5-h)})
}

// The sheet of all these is 1 mm thick: metal under 2 mm is looked at.
func TestTonguesAreMeasuredFromTheirRoots(t *testing.T) {
	// A head of radius 2.5 about (0, -1) on a neck 1.2 wide from above.
	hang := func(x float64) float64 { return -1 + math.Sqrt(2.5*2.5-x*x) }
	around := 2*math.Pi - 2*math.Asin(0.6/2.5)
	head := append(plane.Polygon(plane.Pt(-0.6, 5), plane.Pt(-6, 5), plane.Pt(-6, -5), plane.Pt(6, -5), plane.Pt(6, 5), plane.Pt(0.6, 5)),
		arcTo(0.6, hang(0.6), -around), plane.Vertex{Point: plane.Pt(-0.6, hang(0.6))})
	for _, c := range []struct {
		name         string
		loop         plane.Loop
		length, root float64
		radius       float64
		tip          plane.Point
		catches      bool
	}{
		// The disc rests on the two sharp corners at the root: its chord is the width.
		{"square", finger(1.4, 6, false), 6, 1.4, 0, plane.Pt(0, -1), true},
		{"round", finger(1.4, 6, true), 6, 1.4, 0.7, plane.Pt(0, -1), false},
		{"a blade with a tip of 0.2", finger(0.4, 6, true), 6, 0.4, 0.2, plane.Pt(0, -1), true},
		{"short", finger(1.4, 1, false), 1, 1.4, 0, plane.Pt(0, 4), false},
		{"a head on a neck", head, 5 + 1 + 2.5, 1.2, 2.5, plane.Pt(0, -3.5), false},
	} {
		t.Run(c.name, func(t *testing.T) {
			at := plane.Pt(13, 1)
			s := pierced(t, openStrip(160, 24), c.loop.Move(at))
			ts := Tongues(s)
			require.Len(t, ts, 1)
			assert.InDelta(t, c.length, ts[0].Length, 1e-3)
			assert.InDelta(t, c.root, ts[0].Root, 1e-3)
			assert.InDelta(t, c.radius, ts[0].TipRadius, 1e-9)
			assert.InDelta(t, 0, c.tip.Add(at).Dist(ts[0].Tip), 1e-2)
			assert.Equal(t, c.catches, ts[0].Catches())
			assert.Equal(t, 1, ts[0].Opening)
		})
	}
}

func TestMetalHeldOnTwoSidesOrWideIsNoTongue(t *testing.T) {
	for name, loops := range map[string][]plane.Loop{
		"between two openings":       {plane.Rect(plane.Box{Min: plane.Pt(-6, -5), Max: plane.Pt(-0.5, 5)}), plane.Rect(plane.Box{Min: plane.Pt(0.5, -5), Max: plane.Pt(6, 5)})},
		"wider than twice the sheet": {finger(2.1, 6, true)},
		"a blunt corner":             {plane.Polygon(plane.Pt(-5, -5), plane.Pt(5, -5), plane.Pt(5, 5), plane.Pt(0, 0), plane.Pt(-5, 5))},
		"a round opening":            {plane.Circle(plane.Pt(0, 0), 4)},
	} {
		for _, u := range Tongues(pierced(t, openStrip(160, 24), loops...)) {
			assert.LessOrEqual(t, u.Length, u.Root, name) // the corners of a square end
		}
	}
}

func TestAMovedOpeningHasTheSameTonguesMoved(t *testing.T) {
	s := pierced(t, openStrip(160, 24), finger(1.4, 6, false), finger(1.4, 6, false).Move(plane.Pt(30, 1)))
	for i := range s.Openings {
		s.Openings[i].Shape, s.Openings[i].At = 7, plane.Pt(30, 1).Mul(float64(i))
	}
	ts := Tongues(s)
	require.Len(t, ts, 2)
	assert.InDelta(t, 0, ts[0].Tip.Add(plane.Pt(30, 1)).Dist(ts[1].Tip), 1e-9)
	fs := checkTongues(s, &Report{Deep: &Deep{Tongues: ts}})
	require.Len(t, fs, 1) // told once
	assert.Len(t, fs[0].At, 2)
}

// A spike of the blank itself, 1 mm wide and 5 long.
func TestASpikeOfTheBlankIsATongue(t *testing.T) {
	s := pierced(t, openStrip(160, 24))
	s.Flat.Outline = plane.Polygon(plane.Pt(-80, -12), plane.Pt(80, -12), plane.Pt(80, -0.5), plane.Pt(85, -0.5), plane.Pt(85, 0.5), plane.Pt(80, 0.5), plane.Pt(80, 12), plane.Pt(-80, 12))
	ts := Tongues(s)
	require.NotEmpty(t, ts)
	assert.Equal(t, 0, ts[0].Opening)
	assert.InDelta(t, 5, ts[0].Length, 1e-3)
	assert.InDelta(t, 1, ts[0].Root, 1e-3)
	assert.InDelta(t, 0, ts[0].Tip.Dist(plane.Pt(85, 0)), 1e-2)
	assert.True(t, ts[0].Catches())
}

func TestBendsAreFoundWithTheirTurnAndRadius(t *testing.T) {
	square := plane.Rect(plane.Box{Max: plane.Pt(4, 4)})
	bs := bends(square, 0.3, 0.001)
	require.Len(t, bs, 4)
	for i, b := range bs {
		assert.InDelta(t, math.Pi/2, b.angle, 1e-9)
		assert.Zero(t, b.radius)
		assert.Contains(t, []plane.Point{square[0].Point, square[1].Point, square[2].Point, square[3].Point}, b.at, "corner %d", i)
	}
	rounded := plane.Region{square}.Open(0.2)[0]
	bs = bends(rounded, 0.3, 0.001)
	require.Len(t, bs, 4)
	for _, b := range bs {
		assert.InDelta(t, math.Pi/2, b.angle, 1e-6)
		assert.InDelta(t, 0.2, b.radius, 1e-6)
		// Half way along the arc: on the diagonal, 0.2 (sqrt 2 - 1) from the corner.
		near := math.Inf(1)
		for _, v := range square {
			near = math.Min(near, v.Dist(b.at))
		}
		assert.InDelta(t, 0.2*(math.Sqrt2-1), near, 1e-6)
	}
	assert.Empty(t, bends(rounded, 0.19, 0.001))
	assert.Empty(t, bends(plane.Circle(plane.Pt(0, 0), 0.1), 0.3, 0.001), "a small hole")
	assert.Empty(t, bends(square.Reverse(), 0.3, 0.001), "seen from the metal")
	// A tip blunted by 0.2 across is one bend of nearly half a turn.
	bs = bends(plane.Polygon(plane.Pt(0, 0), plane.Pt(5, 0), plane.Pt(5, 0.2), plane.Pt(0, 0.5)), 0.3, 0.3)
	require.NotEmpty(t, bs)
	most := 0.0
	for _, b := range bs {
		most = math.Max(most, b.angle)
	}
	assert.InDelta(t, math.Pi-math.Atan(0.3/5), most, 1e-9)
}

// Points of 20 and 50 degrees, one of 20 rounded by 0.29 and one by 0.31 mm.
func TestPointsOfTheMetalAreToldByAngleAndRadius(t *testing.T) {
	notch := func(deg float64) plane.Loop {
		h := 5 * math.Tan(deg/2*math.Pi/180)
		return plane.Polygon(plane.Pt(-6, -4), plane.Pt(6, -4), plane.Pt(6, 4), plane.Pt(h, 4), plane.Pt(0, -1), plane.Pt(-h, 4), plane.Pt(-6, 4))
	}
	rounded := func(l plane.Loop, r float64) plane.Loop {
		// Outset and back: the metal's points become arcs.
		c := plane.Region{l}.Close(r)
		require.Len(t, c, 1)
		return c[0]
	}
	limit := 30 * math.Pi / 180
	for _, c := range []struct {
		name  string
		loop  plane.Loop
		angle float64 // 0: none
	}{
		{"20 degrees", notch(20), 20}, {"50 degrees", notch(50), 0}, {"29.9", notch(29.9), 29.9}, {"30", notch(30), 0},
		{"rounded by 0.29", rounded(notch(20), 0.29), 20}, {"rounded by 0.31", rounded(notch(20), 0.31), 0},
	} {
		ps := MetalPoints(pierced(t, openStrip(160, 24), c.loop), limit)
		if c.angle == 0 {
			assert.Empty(t, ps, c.name)
			continue
		}
		if assert.Len(t, ps, 1, c.name) {
			assert.InDelta(t, c.angle*math.Pi/180, ps[0].Angle, 1e-6, c.name)
			assert.InDelta(t, 0, ps[0].At.X, 1e-6, c.name)
		}
	}
}

// What the checks of this file and its neighbours say is whole: each finding has a
// reason, a way of mending it and a place.
func TestEachFindingSaysWhereWhyAndWhatToDo(t *testing.T) {
	mine := map[Kind]bool{KindTongue: true, KindMetalPoint: true, KindSharpCorner: true, KindNarrowBridges: true, KindProcessBridges: true, KindAttachedPart: true}
	seen := map[Kind]bool{}
	for _, name := range []string{"tongue", "metal-point", "sharp-corner", "process-bridge", "thin-neck", "medallion"} {
		for _, f := range All(read(t, name)).Findings {
			if !mine[f.Kind] {
				continue
			}
			seen[f.Kind] = true
			assert.NotEmpty(t, f.What)
			assert.NotEmpty(t, f.Why, f.What)
			assert.NotEmpty(t, f.Mend, f.What)
			assert.NotEmpty(t, f.At, f.What)
			for _, fix := range f.Fixes {
				s, err := pattern.Lay(fix.Design)
				require.NoError(t, err)
				for _, g := range All(s).Findings {
					assert.False(t, g.Kind == f.Kind && g.Severity == f.Severity && g.Value == f.Value, "%s does not mend: %s", fix.Title, f.What)
				}
			}
		}
	}
	for _, c := range []Kind{KindTongue, KindMetalPoint, KindSharpCorner, KindProcessBridges, KindAttachedPart} {
		assert.True(t, seen[c], c.Key)
	}
}
