package pattern

import (
	"math"
	"math/rand"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"fretband/pattern/own"
	"fretband/unroll"
	"fretband/unroll/plane"
)

// Squares fill the plane: however their field is turned, moved, mirrored or graded, no
// place of the ground is farther from an opening than half the diagonal of a bridge,
// but where a cell was left solid.
func TestFieldsOfSquaresLeaveNoGroundBare(t *testing.T) {
	rng := rand.New(rand.NewSource(8))
	square := Field{Motif: "squares", Rows: 4, PitchMM: 5.5}
	fields := map[string]func(f *Field){
		"plain":            func(*Field) {},
		"by 7 degrees":     func(f *Field) { f.RotationDeg = 7 },
		"by 30 degrees":    func(f *Field) { f.RotationDeg = 30 },
		"by 45 degrees":    func(f *Field) { f.RotationDeg = 45 },
		"by -80 degrees":   func(f *Field) { f.RotationDeg = -80 },
		"moved":            func(f *Field) { f.Phase = 0.9 },
		"moved and turned": func(f *Field) { f.Phase, f.RotationDeg = -0.7, 22 },
		"one row, turned":  func(f *Field) { f.Rows, f.RotationDeg = 1, 33 },
		"graded":           func(f *Field) { f.GradeAlong = []Grade{{-1, 1}, {1, 2}} },
		"graded, turned":   func(f *Field) { f.RotationDeg, f.GradeAcross = 25, []Grade{{-1, 1}, {1, 1.5}} },
	}
	for name, set := range fields {
		for band, b := range map[string]unroll.Band{"cuff": openBand(22), "soldered": closedBand(170, 22)} {
			if b.Kind != unroll.Cuff {
				b.Joint, b.JointMM = unroll.Soldered, 2
			}
			f := square
			set(&f)
			d := fieldsOn(b, f)
			d.Rules = DesignRules{BridgeMM: 0.3, RimMM: 1}
			s := sheetOf(t, d)
			bare := 0
			for range 300 {
				p := plane.Pt((rng.Float64()-0.5)*(s.Flat.Length-6), (rng.Float64()-0.5)*(s.Flat.Width-2))
				near := math.Inf(1)
				for i := range s.Openings {
					if o := &s.Openings[i]; o.Box.Dist(plane.Box{Min: p, Max: p}) < 0.5 {
						if o.Loop.Contains(p) {
							near = 0
							break
						}
						near = math.Min(near, o.Loop.Nearest(p).D)
					}
				}
				if near > 0.3 {
					solid := false
					for _, x := range s.Dropped {
						solid = solid || x.At.Dist(p) < 3
					}
					if !solid {
						bare++
					}
				}
			}
			assert.Zero(t, bare, "%s, %s", name, band)
		}
	}
}

// Openings come as near to the edge of their field's area as half a bridge and no nearer.
func TestOpeningsComeUpToTheEdgeOfTheirArea(t *testing.T) {
	for _, a := range []Area{
		{Shape: RectangleShape, XMM: 3, YMM: 1, WidthMM: 40, HeightMM: 12},
		{Shape: CircleShape, XMM: -20, WidthMM: 17},
		{Shape: OvalShape, XMM: 10, WidthMM: 44, HeightMM: 14},
		{Shape: PathShape, XMM: 5, Path: "M-20 -6L20 -6L20 6L-20 6Z"},
	} {
		s := sheetOf(t, fieldsOn(openBand(24), Field{Motif: "squares", Rows: 5, PitchMM: 4.1, Area: a}))
		l, err := a.outline().loop(plane.Pt(a.XMM, a.YMM))
		require.NoError(t, err)
		least := math.Inf(1)
		for _, o := range s.Openings {
			require.True(t, l.Contains(o.Loop[0].Point))
			least = math.Min(least, plane.Nearest(l, o.Loop).D)
		}
		assert.InDelta(t, s.Rule/2, least, 1e-6, a.Shape)
	}
}

// A ring engraved over the seam of a band falls into as many pieces as it crosses the
// seam, wherever on it the line begins, and no more.
func TestARingOverTheSeamIsCutOnlyThere(t *testing.T) {
	f, err := unroll.Unroll(closedBand(170, 22))
	require.NoError(t, err)
	half := f.Length / 2
	ring := plane.Circle(plane.Pt(half+0.5, 0), 4)
	var polygon plane.Loop // of many edges, so that few begin at the seam
	for i := range 24 {
		sin, cos := math.Sincos(2 * math.Pi * (float64(i) + 0.3) / 24)
		polygon = append(polygon, plane.Vertex{Point: plane.Pt(half-1+5*cos, 5*sin)})
	}
	// A comb of three teeth over the seam: crossed six times.
	comb := plane.Polygon(plane.Pt(half-5, -6), plane.Pt(half+2, -6), plane.Pt(half+2, -4), plane.Pt(half-2, -4), plane.Pt(half-2, -1), plane.Pt(half+2, -1), plane.Pt(half+2, 1),
		plane.Pt(half-2, 1), plane.Pt(half-2, 4), plane.Pt(half+2, 4), plane.Pt(half+2, 6), plane.Pt(half-5, 6))
	for name, c := range map[string]struct {
		loop plane.Loop
		cuts int
	}{"ring": {ring, 2}, "polygon": {polygon, 2}, "comb": {comb, 6}, "beside it": {ring.Move(plane.Pt(-6, 0)), 0}} {
		for first := range c.loop {
			l := append(append(plane.Loop{}, c.loop[first:]...), c.loop[:first]...)
			out := cutAtSeams(own.Stroke{Line: l, Closed: true}, plane.Pt(half, 0), f)
			length, ends := 0.0, 0
			for _, s := range out {
				for _, e := range s.Edges() {
					length += e.Len()
					assert.LessOrEqual(t, math.Abs(e.At(0.5).X), half+1e-9)
				}
				if s.Closed {
					continue
				}
				for _, p := range []plane.Point{s.Line[0].Point, s.Line[len(s.Line)-1].Point} {
					assert.InDelta(t, half, math.Abs(p.X), 1e-6, "%s from %d", name, first)
					ends++
				}
			}
			assert.InDelta(t, l.Len(), length, 1e-6, name)
			assert.Len(t, out, max(1, c.cuts), "%s from %d", name, first)
			assert.Equal(t, 2*c.cuts, ends, "%s from %d", name, first)
		}
	}
}

// A cell with a waist under the bridge falls into several openings: those of one number
// of a shape are one and the same loop, moved.
func TestPartsOfOneCellHaveShapesOfTheirOwn(t *testing.T) {
	for _, path := range []string{
		"M0 0H4V4H2.3V5H6V9H0V5H1.7V4H0Z",                     // a large and a small room
		"M0 0H3V3H1.8V4H5V6H1.8V7H4V9H0V7H1.2V6H0V4H1.2V3H0Z", // three of them
		"M0 0H4V9H0Z",
	} {
		s := sheetOf(t, Design{Name: "test", Metal: Metal{Alloy: "copper"}, Band: openBand(24), Rules: DesignRules{BridgeMM: 1, RimMM: 2},
			Fields: []Field{{Motif: "own", Path: path, Rows: 2, PitchMM: 9}}})
		first, n := map[int]Opening{}, map[int]int{}
		for _, o := range s.Openings {
			if o.Shape < 0 {
				continue
			}
			n[o.Shape]++
			f, ok := first[o.Shape]
			if !ok {
				first[o.Shape] = o
				continue
			}
			assert.True(t, o.Loop.Move(o.At.Mul(-1)).Same(f.Loop.Move(f.At.Mul(-1)), 1e-9), "%s: openings %d and %d of shape %d", path, o.Number, f.Number, o.Shape)
		}
		assert.GreaterOrEqual(t, len(n), 1)
		for a, o := range first {
			for b, p := range first {
				if a != b {
					assert.False(t, o.Loop.Move(o.At.Mul(-1)).Same(p.Loop.Move(p.At.Mul(-1)), 1e-9), "%s: shapes %d and %d are one", path, a, b)
				}
			}
		}
	}
}
