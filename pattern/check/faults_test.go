package check

import (
	"bytes"
	"math"
	"strings"
	"testing"

	"fretband/pattern"
	"fretband/pattern/project"
	"fretband/testdata"
	"fretband/unroll/plane"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// fault says what must be found in a design drawn by hand with one fault: the check,
// its size and one of its places. All are worked out from the drawing by hand.
type fault struct {
	name  string
	check string
	value float64
	at    plane.Point
	why   string // how value and place follow from the drawing
}

var faultsDrawn = []fault{
	{"tongue", "tongue", 7.8771, plane.Pt(10, -3),
		"the disc of 2 mm (twice the sheet) rests on the slot's two upper corners of 0.3 mm, whose centres are 2.1 mm apart at 4.7: it touches them at 4.7 + 0.3/1.3 sqrt(1.3^2-1.05^2) = 4.8769; the tip is at -3"},
	{"metal-point", "metal-point", 20, plane.Pt(-20, 0), "as drawn: 20 degrees, at 1 - 1"},
	{"sharp-corner", "sharp-corner", 0, plane.Pt(4, 4), "a square of 8 mm about the middle, not rounded"},
	{"process-bridge", "process-bridges", 0.8, plane.Pt(2.6, 2), "as drawn: 0.8 mm about x = 3, the middle of the parallel sides at y = 2"},
	{"small-opening", "no-way-in", 1, plane.Pt(7, -3), "one opening of 0.25 mm; the finest blade listed, 8/0, asks for 0.36 mm"},
	{"medallion", "held-piece", 3.6, plane.Pt(4.4, 1+6.5382),
		"three bridges of 1.2 mm; the first stands over the piece's middle (5, 1), between slots of radii 6 and 7.2 whose corners of 0.3 mm have their centres at sqrt(6.3^2-0.9^2) = 6.2354 and sqrt(6.9^2-0.9^2) = 6.8410 above it: half way"},
	{"thin-neck", "process-bridges", 0.9, plane.Pt(0.45, 2.5), "as drawn: 0.9 mm about x = 0"},
}

// read returns a design of testdata/faults, laid.
func read(t *testing.T, name string) *pattern.Sheet {
	t.Helper()
	for _, e := range testdata.Faults() {
		if e.Name == name {
			d, err := project.Read(bytes.NewReader(e.JSON))
			require.NoError(t, err, name)
			s, err := pattern.Lay(d)
			require.NoError(t, err, name)
			require.NotEmpty(t, s.Openings, name)
			for _, o := range s.Openings {
				require.NoError(t, o.Loop.Check(), name)
			}
			return s
		}
	}
	t.Fatalf("no design %q", name)
	return nil
}

func TestEachDrawnFaultIsFoundWithItsPlaceAndSize(t *testing.T) {
	for _, c := range faultsDrawn {
		t.Run(c.name, func(t *testing.T) {
			found := All(read(t, c.name)).Findings
			ok := false
			for _, f := range found {
				assert.NotEmpty(t, f.Kind.Key, "%s: it has no kind", f.What)
				if f.Kind.Key != c.check {
					continue
				}
				near := false
				for _, p := range f.At {
					near = near || p.Dist(c.at) <= 0.05
				}
				if near && assert.InDelta(t, c.value, f.Value, 0.01*c.value+1e-6, "%s: %s", c.why, f.What) {
					ok = true
					assert.NotEmpty(t, f.Why)
					assert.NotEmpty(t, f.Mend)
				}
			}
			assert.True(t, ok, "no %s of %g at %v (%s) in:\n%s", c.check, c.value, c.at, c.why, tell(found))
		})
	}
}

func TestWhatIsMendedIsNoLongerTold(t *testing.T) {
	for _, c := range faultsDrawn {
		for _, f := range All(read(t, c.name+"-mended")).Findings {
			assert.NotEqual(t, c.check, f.Kind.Key, "%s: %s", c.name, f.What)
		}
	}
}

// Three openings above each other, 10 mm long: rims of 1.5 and bridges of 1 between, or
// of 2 mm all. The way across is their sum, the lengths of all four.
func TestTheWeakestWayIsTheSumOfBridgesDrawn(t *testing.T) {
	for _, c := range []struct {
		name  string
		metal float64
	}{{"weakest-way", 1.5 + 1 + 1 + 1.5}, {"weakest-way-mended", 4 * 2}} {
		r := All(read(t, c.name))
		across := r.Deep.WeakestPaths.Across
		assert.InDelta(t, c.metal, across.Metal, 0.01*c.metal)
		require.Len(t, across.Bridges, 4)
		for _, b := range across.Bridges { // over the openings, not beside them
			assert.GreaterOrEqual(t, b.A.X, -35.05)
			assert.LessOrEqual(t, b.A.X, -24.95)
		}
		told := false
		for _, f := range r.Findings {
			told = told || f.Kind == KindWeakestWayAcross && math.Abs(f.Value-c.metal) <= 0.01*c.metal
		}
		assert.Equal(t, c.metal < 0.25*24, told, tell(r.Findings)) // of 24 mm
	}
}

// Slots that run into each other all round let the piece inside fall out. Lay keeps
// bridges, so the sheet is put together by hand.
func TestAPieceCutFreeIsTold(t *testing.T) {
	s := read(t, "medallion")
	c := plane.Pt(5, 1)
	s.Openings = s.Openings[:2]
	for i := range s.Openings {
		a := float64(i) * math.Pi
		l := sector(c, 6, 7.2, a-0.05, a+math.Pi+0.05, 0.01)
		s.Openings[i].Loop, s.Openings[i].Box = l, l.Bounds()
	}
	r := Run(s)
	assert.Equal(t, 2, r.Pieces)
	told := false
	for _, f := range r.Findings {
		told = told || f.Kind == KindPieces && f.Severity == Breach && f.Value == 2
	}
	assert.True(t, told, tell(r.Findings))
	for _, f := range Run(read(t, "medallion-mended")).Findings {
		assert.NotEqual(t, KindPieces, f.Kind)
	}
}

func tell(fs []Finding) string {
	var b strings.Builder
	for _, f := range fs {
		b.WriteString(f.Severity.String() + " " + f.Kind.Key + ": " + f.What + "\n")
	}
	return b.String()
}

// The list of narrow bridges on the drawn designs: kind, width and length from the
// drawing.
func TestNarrowBridgesAreListedByKindWithTheirLength(t *testing.T) {
	list := func(s *pattern.Sheet) []NarrowBridge {
		l, n := NarrowBridges(s)
		assert.Len(t, l, n)
		return l
	}
	// Two rectangles 0.8 apart, 6 tall, with corners of 0.3. Their straight sides are
	// 5.4 long; on the corner's arc the other edge is a tenth farther off, 0.88, where
	// 0.3 (1 - cos a) of one arc meets the other's centre line: from the arc's centre
	// the other side's straight end is at (1.1, 0), so |0.3 (cos a, sin a) - (1.4, 0)| - 0.3
	// = 0.88 gives cos a = (0.09 + 1.96 - 1.18^2) / 0.84.
	b := list(read(t, "process-bridge"))
	require.Len(t, b, 1)
	assert.Equal(t, BetweenOpenings, b[0].Kind)
	assert.InDelta(t, 0.8, b[0].Width, 1e-6)
	a := math.Acos((0.09 + 1.96 - 1.18*1.18) / 0.84)
	assert.InDelta(t, 5.4+2*0.3*a, b[0].Length, 0.001)

	// A neck 0.9 wide, straight from 6 down to the head's circle of 3 about the middle
	// (moved by -2): its upper end has corners of 0.3 and the head's are sharp. Up: as
	// above with 1.5 between the arcs' centres, |0.3 (cos a, sin a) - (1.5, 0)| - 0.3 =
	// 0.99. Down: the head's arc leaves at once, so far as 0.99 - 0.9 goes.
	b = list(read(t, "thin-neck"))
	require.Len(t, b, 1)
	assert.Equal(t, NeckWithin, b[0].Kind)
	assert.InDelta(t, 0.9, b[0].Width, 1e-6)
	straight := 6 - 0.3 - math.Sqrt(9-0.45*0.45)
	assert.Greater(t, b[0].Length, straight)
	assert.Less(t, b[0].Length, straight+0.5)

	// By hand: a hole of 4 mm whose edge is 0.7 from a reserve that asks for 1 mm.
	s := read(t, "process-bridge-mended")
	s.Design.Reserves = []pattern.Reserve{{Shape: pattern.CircleShape, WidthMM: 6, MarginMM: 1}}
	s.Reserves = []pattern.Reserved{{Loop: plane.Circle(plane.Pt(-40, 0), 3)}}
	s.Openings = s.Openings[:1]
	s.Openings[0].Loop = plane.Circle(plane.Pt(-40+5.7, 0), 2)
	s.Openings[0].Box = s.Openings[0].Loop.Bounds()
	b = list(s)
	require.Len(t, b, 1)
	assert.Equal(t, ToReserve, b[0].Kind)
	assert.InDelta(t, 0.7, b[0].Width, 1e-9)
	assert.InDelta(t, 0.3, b[0].Shortfall(), 1e-9)
	// Off the smaller circle the greater is |2 (cos a, sin a) - (5.7, 0)| - 3 = 0.77 away.
	assert.InDelta(t, 2*2*math.Acos((4+5.7*5.7-3.77*3.77)/(2*2*5.7)), b[0].Length, 0.001)
	assert.InDelta(t, -37, b[0].B.X, 1e-6)
	found := checkNarrowBridges(s, &Report{Deep: &Deep{Bridges: b}})
	require.Len(t, found, 1)
	assert.Equal(t, Breach, found[0].Severity)

	// The same hole 0.5 from the top edge, where 1.5 is asked for.
	s.Reserves = nil
	s.Openings[0].Loop = plane.Circle(plane.Pt(-20, 12-2.5), 2)
	s.Openings[0].Box = s.Openings[0].Loop.Bounds()
	b = list(s)
	require.Len(t, b, 1)
	assert.Equal(t, ToRim, b[0].Kind)
	assert.InDelta(t, 0.5, b[0].Width, 1e-9)
	assert.InDelta(t, 1.0, b[0].Shortfall(), 1e-9)
	// Along the straight edge: sqrt(x^2 + 2.5^2) - 2 = 0.55; the circle is 2 acos(2.45/2...)
	// long where its points are 0.55 below the edge: 2 sin a = 2.5 - 0.55.
	assert.InDelta(t, 2*math.Min(math.Sqrt(2.55*2.55-2.5*2.5), 2*math.Acos(1.95/2)), b[0].Length, 0.001)
}
