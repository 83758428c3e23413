package pattern

import (
	"math"
	"math/rand"
	"testing"

	"github.com/stretchr/testify/require"

	"fretband/unroll"
	"fretband/unroll/plane"
)

const squiggle = "M-6 0C-2 -6 2 6 6 0M-3 2.5A3 3 0 0 0 3 2.5M-.2 -3A.2 .2 0 1 0 .2 -3A.2 .2 0 1 0 -.2 -3Z"

func sampleMarks() []Engraving {
	return []Engraving{
		{Kind: LineEngraving, XMM: -20, YMM: 2, LengthMM: 12, RotationDeg: 35, MarginMM: 0.8},
		{Kind: LineEngraving, XMM: 40, YMM: 0, LengthMM: 30, MarginMM: 0},
		{Kind: PathEngraving, XMM: 15, YMM: 1, Path: squiggle, RotationDeg: -20, MarginMM: 0.7},
		{Kind: TextEngraving, XMM: -45, YMM: -2, Text: "Gull 925", HeightMM: 2, RotationDeg: 10, MarginMM: 1},
	}
}

// The slow, obvious way: many points of the lines against many points of the
// openings' edges, on all turns.
func TestOpeningsKeepAwayFromMarks(t *testing.T) {
	for band, b := range reserveBands() {
		t.Run(band, func(t *testing.T) {
			d := withReserve(b, Reserve{})
			d.Reserves, d.Engravings = nil, sampleMarks()
			s, err := Lay(d)
			require.NoError(t, err)
			var all []plane.Loop
			var boxes []plane.Box
			for _, o := range s.Openings {
				for _, l := range s.Again(o.Loop) {
					all, boxes = append(all, l), append(boxes, l.Bounds().Grow(1.5))
				}
			}
			for i, m := range s.Engravings {
				want := math.Max(d.Engravings[i].MarginMM, d.Rules.BridgeMM/2)
				least := math.Inf(1)
				for _, st := range s.Engravings[i].Strokes {
					for _, e := range st.Edges() {
						n := 2 + int(e.Len()/0.05)
						for k := range n + 1 {
							p := e.At(float64(k) / float64(n))
							for j, l := range all {
								if boxes[j].Contains(p) {
									require.False(t, l.Contains(p), "mark %d runs through an opening", i)
									least = math.Min(least, l.Nearest(p).D)
								}
							}
						}
					}
				}
				require.GreaterOrEqual(t, least, want-1e-7, "mark %d", m.Engraving)
			}
			through := d
			through.Engravings = nil
			plain, err := Lay(through)
			require.NoError(t, err)
			for _, m := range sampleMarks() {
				m.MarginMM = -1
				through.Engravings = append(through.Engravings, m)
			}
			over, err := Lay(through)
			require.NoError(t, err)
			require.Equal(t, plain.Openings, over.Openings, "a mark that openings may run through takes none away")
			require.Equal(t, len(s.Engravings), len(over.Engravings))
		})
	}
}

func TestALineHasItsLengthAndPlace(t *testing.T) {
	d := withReserve(reserveBands()["cuff"], Reserve{})
	d.Reserves, d.Engravings = nil, []Engraving{{Kind: LineEngraving, XMM: 3, YMM: 4, LengthMM: 10, RotationDeg: 90, MarginMM: 1}}
	s, err := Lay(d)
	require.NoError(t, err)
	l := s.Engravings[0].Strokes[0].Line
	require.InDelta(t, 0, l[0].Point.Dist(plane.Pt(3, -1)), 1e-12)
	require.InDelta(t, 0, l[1].Point.Dist(plane.Pt(3, 9)), 1e-12)
	require.InDelta(t, 10, s.Engravings[0].Len(), 1e-12)
}

// A mark's lines on a closed band are the same wherever in the turn they stand: cut
// at the seam, none is lost, all lie on the blank, and brought back the ends meet.
func TestMarksOverTheSeamAreCutAndGoOnAtTheOtherEnd(t *testing.T) {
	for _, band := range []string{"soldered", "seamless", "flared bangle"} {
		f, err := unroll.Unroll(reserveBands()[band])
		require.NoError(t, err)
		for _, m := range sampleMarks() {
			m.YMM = 1
			at := func(x float64) EngravedLines {
				// Drawn at the front, then carried there: on a flared band it turns.
				m := m
				m.XMM = 0
				v, err := m.draw()
				require.NoError(t, err)
				on := onward(f, x)
				for i := range v.strokes {
					v.strokes[i].Line = on.loop(v.strokes[i].Line)
				}
				return v.lines(0, Design{Band: reserveBands()[band]}, f)
			}
			front := at(0)
			for _, x := range []float64{f.Length / 2, -f.Length/2 + 1.7, f.Length/2 - 0.3, 0.9 * f.Length, 1.4 * f.Length, -1.6 * f.Length} {
				if f.Flared() && math.Abs(x) > 0.6*f.Length {
					continue // more than a turn of the apex is no place on the flat
				}
				over := at(x)
				// What the seam leaves shorter than an edge may be goes into what is beside it.
				require.InDelta(t, front.Len(), over.Len(), plane.ShortestEdge)
				closed, ends := 0, 0
				for _, s := range over.Strokes {
					for _, e := range s.Edges() {
						for k := range 5 {
							px, _ := f.Where(e.At(float64(k) / 4))
							require.LessOrEqual(t, math.Abs(px), f.Length/2+1e-6, "%s at %g", m.Kind, x)
						}
					}
					if s.Closed {
						closed++
						continue
					}
					for _, p := range []plane.Point{s.Line[0].Point, s.Line[len(s.Line)-1].Point} {
						if px, _ := f.Where(p); math.Abs(math.Abs(px)-f.Length/2) < 1e-6 {
							ends++
						}
					}
				}
				require.Zero(t, ends%2, "each cut has two sides")
				if ends == 0 {
					require.Len(t, over.Strokes, len(front.Strokes))
				}
			}
		}
	}
}

func TestTextIsLaidByTheMiddleOfItsCapitals(t *testing.T) {
	v, err := Engraving{Kind: TextEngraving, XMM: 7, YMM: -3, Text: "HIH", HeightMM: 2.5, RotationDeg: 180}.draw()
	require.NoError(t, err)
	b := v.frame.Bounds()
	require.InDelta(t, 2.5, b.H(), 1e-9)
	require.InDelta(t, 7, b.Centre().X, 1e-9)
	require.InDelta(t, -3, b.Centre().Y, 1e-9)
	// A letter that hangs under the line does not move the others.
	h, err := Engraving{Kind: TextEngraving, Text: "Hg", HeightMM: 2.5}.draw()
	require.NoError(t, err)
	require.InDelta(t, 1.25, h.strokes[0].Line.Bounds().Max.Y, 1e-9)
	require.Less(t, h.frame.Bounds().Min.Y, -1.3)
}

func TestAMarkThatCantBeDrawnNamesItsField(t *testing.T) {
	for path, m := range map[string]Engraving{
		"marks[0].text":      {Kind: TextEngraving, Text: "月", HeightMM: 2},
		"marks[0].path":      {Kind: PathEngraving, Path: "hello"},
		"marks[0].length_mm": {Kind: LineEngraving},
		"marks[0].height_mm": {Kind: TextEngraving, Text: "A"},
		"marks[0].kind":      {Kind: "scribble"},
	} {
		d := withReserve(reserveBands()["cuff"], Reserve{})
		d.Reserves, d.Engravings = nil, []Engraving{m}
		_, err := Lay(d)
		var fe *unroll.FieldError
		require.ErrorAs(t, err, &fe)
		require.Equal(t, path, fe.Path)
	}
}

// What is near an edge, by points: of arcs tighter than the distance too.
func TestNearEdgeHoldsAllThatIsNear(t *testing.T) {
	rng := rand.New(rand.NewSource(9))
	for range 200 {
		e := plane.Edge{A: plane.Pt(rng.Float64()*4, rng.Float64()*4), B: plane.Pt(rng.Float64()*4, rng.Float64()*4)}
		if rng.Intn(3) > 0 {
			e.Bulge = 3 * (rng.Float64() - 0.5)
		}
		r := 0.05 + 2*rng.Float64()
		near, err := plane.Merge(nearEdge(e, r))
		require.NoError(t, err)
		for range 60 {
			p := plane.Pt(rng.Float64()*10-3, rng.Float64()*10-3)
			if d := e.Dist(p); math.Abs(d-r) > 1e-6 {
				require.Equal(t, d < r, near.Contains(p), "%v, %g: %v at %g", e, r, p, d)
			}
		}
	}
}

// Round a text openings keep its margin, or so much that a bridge is left between those above
// and below it: the box of the text grown, by its sides.
func TestABridgeIsLeftWhereATextStands(t *testing.T) {
	for _, c := range []struct{ height, margin, bridge float64 }{{0.4, 0, 1.4}, {0.4, 0.1, 1.4}, {0.4, 0.9, 1.4}, {3, 0, 1.4}, {3, 0.5, 1.4}} {
		m := Engraving{Kind: TextEngraving, Text: "EIDER", HeightMM: c.height, MarginMM: c.margin}
		v, err := m.draw()
		require.NoError(t, err)
		out, err := v.keepOut(m, c.bridge)
		require.NoError(t, err)
		frame, kept := v.frame.Bounds(), out.Bounds()
		margin := math.Max(c.margin, (c.bridge-frame.H())/2)
		require.InDelta(t, frame.H()+2*margin, kept.H(), 1e-9, "%+v", c)
		require.InDelta(t, frame.W()+2*margin, kept.W(), 1e-9, "%+v", c)
		require.GreaterOrEqual(t, kept.H(), c.bridge-1e-9)
	}
}

// What is engraved inside reads right from inside: it is the mirror image of the same outside,
// left to right about its middle, and its rotation is seen from there. Point by point.
func TestAnEngravingInsideIsTheMirrorImageOfOneOutside(t *testing.T) {
	for i, m := range sampleMarks() {
		outside, err := m.draw()
		require.NoError(t, err)
		m.Side = InsideFace
		inside, err := m.draw()
		require.NoError(t, err)
		require.Len(t, inside.strokes, len(outside.strokes))
		mirror := func(p plane.Point) plane.Point { return plane.Pt(2*m.XMM-p.X, p.Y) }
		for k, s := range outside.strokes {
			es, other := s.Edges(), inside.strokes[k].Edges()
			require.Len(t, other, len(es))
			for j, e := range es {
				for _, f := range []float64{0, 0.3, 0.7, 1} {
					require.InDelta(t, 0, mirror(e.At(f)).Dist(other[j].At(f)), 1e-9, "mark %d", i)
				}
			}
		}
		for k := range outside.frame {
			require.InDelta(t, 0, mirror(outside.frame[k].Point).Dist(inside.frame[k].Point), 1e-12)
		}
	}
	d := withReserve(reserveBands()["cuff"], Reserve{})
	d.Reserves, d.Engravings = nil, sampleMarks()
	d.Engravings[1].Side = InsideFace
	s, err := Lay(d)
	require.NoError(t, err)
	for i, m := range s.Engravings {
		require.Equal(t, i == 1, m.Inside)
	}
}
