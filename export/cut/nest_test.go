package cut

import (
	"errors"
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"fretband/export"
	"fretband/pattern/own"
	"fretband/unroll/plane"
)

// heldApart checks copies against one another, every pair of them, and against the
// sheet's edge.
func heldApart(t *testing.T, body []plane.Loop, sheet plane.Box, copies []placed, o export.Options, what string) {
	t.Helper()
	const rounding = 2 * nestExact
	var lain [][]plane.Loop
	inner := sheet.Grow(rounding - o.Margin())
	for _, c := range copies {
		var ls []plane.Loop
		for _, l := range body {
			l = c.loop(l)
			b := l.Bounds()
			require.True(t, inner.Contains(b.Min) && inner.Contains(b.Max), "%s: a copy lies over the margin: %v in %v", what, b, inner)
			ls = append(ls, l)
		}
		for k, other := range lain {
			for _, a := range other {
				for _, b := range ls {
					require.GreaterOrEqual(t, plane.Nearest(a, b).D, o.Gap()-rounding, "%s: copies %d and %d", what, k+1, len(lain)+1)
				}
			}
			// Nor does one lie in the other.
			require.False(t, other[0].Contains(ls[0][0].Point) || ls[0].Contains(other[0][0].Point), "%s: copies %d and %d", what, k+1, len(lain)+1)
		}
		lain = append(lain, ls)
	}
}

func rectangle(w, h float64) []plane.Loop {
	return []plane.Loop{plane.Rect(plane.Box{Min: plane.Pt(-w/2, -h/2), Max: plane.Pt(w/2, h/2)})}
}

// arch is the blank of a flared band: a piece of a ring.
func arch(r, width, sweep float64) []plane.Loop {
	at := func(r, a float64) plane.Point { return plane.Pt(0, r).Turn(a) }
	b := math.Tan(sweep / 4)
	return []plane.Loop{{
		{Point: at(r, sweep/2), Bulge: -b}, {Point: at(r, -sweep/2)},
		{Point: at(r+width, -sweep/2), Bulge: b}, {Point: at(r+width, sweep/2)},
	}}
}

func TestASinglePartWithoutStockStaysWhereItIs(t *testing.T) {
	_, copies, err := nest(rectangle(10, 5), export.Options{})
	require.NoError(t, err)
	assert.Equal(t, []placed{{}}, copies)
}

func TestRectanglesFillASheetAsTheClosedFormHasIt(t *testing.T) {
	for _, c := range []struct {
		w, h, sheetW, sheetH, gap, margin float64
		rotation                          float64
		fit                               int
	}{
		// floor((W - 2m + g) / (w + g)) times the same of the heights.
		{150, 20, 500, 300, 3, 5, 0, 3 * 12},
		{150, 20, 466, 300, 3, 5, 0, 3 * 12}, // 3 x 150 + 2 x 3 + 2 x 5: just
		{150, 20, 465.9, 300, 3, 5, 0, 2 * 12},
		{10, 10, 100, 100, 1, 5, 0, 64},           // (90 + 1) / 11 = 8.27
		{150, 20, 100, 300, 2, 5, math.Pi / 2, 4}, // across only: (90 + 2) / 22
	} {
		o := export.Options{Copies: c.fit, StockW: c.sheetW, StockH: c.sheetH, GapMM: c.gap, MarginMM: c.margin}
		sheet, copies, err := nest(rectangle(c.w, c.h), o)
		require.NoError(t, err, "%+v", c)
		require.Len(t, copies, c.fit)
		assert.Equal(t, plane.Box{Max: plane.Pt(c.sheetW, c.sheetH)}, sheet)
		for _, p := range copies {
			assert.InDelta(t, c.rotation, math.Mod(p.rotation, math.Pi), 1e-12)
		}
		heldApart(t, rectangle(c.w, c.h), sheet, copies, o, "rectangles")
	}
}

func TestAFullSheetSaysHowManyHaveRoom(t *testing.T) {
	o := export.Options{Copies: 40, StockW: 500, StockH: 300}
	_, _, err := nest(rectangle(150, 20), o)
	var no *RoomError
	require.True(t, errors.As(err, &no))
	assert.Equal(t, 36, no.Fit)
	assert.Equal(t, 40, no.Asked)
	assert.Contains(t, err.Error(), "36 of the 40 parts")
	_, _, err = nest(rectangle(400, 310), export.Options{StockW: 350, StockH: 300})
	require.True(t, errors.As(err, &no))
	assert.Equal(t, 0, no.Fit)
}

func TestAPartLongerThanTheSheetLiesFromCornerToCorner(t *testing.T) {
	// In the square of side 110 there is room for 100 x 100 within the margin: its
	// diagonal, 141.4, less the width of the strip, for corners at 45 degrees each
	// take half of the width.
	for _, c := range []struct {
		length float64
		fits   bool
	}{{131.42, true}, {131.43, false}} {
		body := rectangle(c.length, 10)
		o := export.Options{StockW: 110, StockH: 110}
		sheet, copies, err := nest(body, o)
		if !c.fits {
			assert.Error(t, err)
			continue
		}
		require.NoError(t, err)
		assert.InDelta(t, 45, math.Mod(copies[0].rotation*180/math.Pi, 90), 1)
		heldApart(t, body, sheet, copies, o, "diagonal")
	}
}

// On sheets that are not square the longest strip lies at some angle between whole degrees:
// all are tried in steps of a ten-thousandth.
func TestTheLongestStripFitsAtItsOwnAngle(t *testing.T) {
	const width, margin = 9.0, 5.0
	for _, room := range [][2]float64{{100, 80}, {70, 100}, {120, 95}} {
		longest, at := 0.0, 0.0
		for a := 0.2; a < 1.4; a += 1e-4 {
			sin, cos := math.Sincos(a)
			if l := math.Min((room[0]-width*sin)/cos, (room[1]-width*cos)/sin); l > longest {
				longest, at = l, a
			}
		}
		o := export.Options{StockW: room[0] + 2*margin, StockH: room[1] + 2*margin, MarginMM: margin}
		_, copies, err := nest(rectangle(longest-0.02, width), o)
		require.NoError(t, err, room)
		turned := math.Mod(copies[0].rotation, math.Pi)
		assert.InDelta(t, at, math.Min(turned, math.Pi-turned), 1e-3)
		_, _, err = nest(rectangle(longest+0.02, width), o)
		assert.Error(t, err, room)
	}
	// Where several angles will do it lies as much along the sheet as it can, by 15 degrees.
	_, copies, err := nest(rectangle(105, 10), export.Options{StockW: 110, StockH: 110})
	require.NoError(t, err)
	assert.InDelta(t, 0.5, math.Abs(math.Sin(copies[0].rotation)), 1e-9) // at 15 degrees it is 104 mm long, at 30 96
}

func TestArchesStackLikeChevrons(t *testing.T) {
	// Two arcs about centres one pitch p apart. The gap between the outer one's inner
	// edge and the inner one's outer edge is least at the crown or at the ends: at the
	// crown it is p - width; a corner at half the sweep a of the upper one's inner edge
	// lies sqrt(r^2 + p^2 + 2 r p cos a) from the lower one's centre, over its outer
	// edge as long as its foot is on it.
	const r, width, sweep, gap = 100.0, 20.0, 1.0, 3.0
	body := arch(r, width, sweep)
	height := body[0].Bounds().H()
	o := export.Options{Copies: 5, GapMM: gap}
	sheet, copies, err := nest(body, o)
	require.NoError(t, err)
	heldApart(t, body, sheet, copies, o, "arches")
	// The corner's distance is r + width + gap at the pitch that is asked for.
	c := math.Cos(sweep / 2)
	want := -r*c + math.Sqrt(r*r*c*c+(r+width+gap)*(r+width+gap)-r*r)
	got := copies[1].at.Y - copies[0].at.Y
	assert.InDelta(t, want, got, 1e-5)
	assert.Less(t, got, height, "no closer than boxes")
}

func TestTurnedRowsLieCloserWhereTheyCan(t *testing.T) {
	// Isosceles triangles: in one row every other one is on its head.
	body := []plane.Loop{plane.Polygon(plane.Pt(-20, -15), plane.Pt(20, -15), plane.Pt(0, 15))}
	o := export.Options{Copies: 12, GapMM: 1}
	sheet, copies, err := nest(body, o)
	require.NoError(t, err)
	heldApart(t, body, sheet, copies, o, "triangles")
	turned := 0
	for _, c := range copies {
		if c.rotation != 0 {
			turned++
		}
	}
	assert.Positive(t, turned)
	assert.Less(t, sheet.W()*sheet.H(), 0.75*12*41*31, "no closer than boxes")
}

func TestWithoutStockTheSheetIsAsLargeAsNeeded(t *testing.T) {
	o := export.Options{Copies: 4}
	sheet, copies, err := nest(rectangle(150, 20), o)
	require.NoError(t, err)
	heldApart(t, rectangle(150, 20), sheet, copies, o, "column")
	// A column is smaller than two by two: 160 x 99 mm against 313 x 53.
	assert.InDelta(t, 160, sheet.W(), 1e-6)
	assert.InDelta(t, 99, sheet.H(), 1e-6)
}

// Without stock, equal rectangles lie in straight rows: of all numbers to a row, the one whose
// sheet is smallest, but no sheet is longer than sheets of stock may be as long as another
// way has room on one; and if none has, the longest side is as short as can be.
func TestRectanglesWithoutStockLieOnTheSmallestSheet(t *testing.T) {
	r := rand.New(rand.NewPCG(9, 1))
	limited, none := 0, 0
	for range 100 {
		w, h, gap, margin := 10+390*r.Float64(), 5+45*r.Float64(), 0.5+4*r.Float64(), 0.3+5*r.Float64()
		n := 2 + r.IntN(export.MaxCopies-1)
		long := func(k int, size float64) float64 { return float64(k)*(size+gap) - gap + 2*margin }
		smallest, any, shortest := math.Inf(1), math.Inf(1), math.Inf(1)
		for k := 1; k <= n; k++ {
			wide, high := long(k, w), long((n+k-1)/k, h)
			any, shortest = math.Min(any, wide*high), math.Min(shortest, math.Max(wide, high))
			if math.Max(wide, high) <= export.MaxStockMM {
				smallest = math.Min(smallest, wide*high)
			}
		}
		sheet, copies, err := nest(rectangle(w, h), export.Options{Copies: n, GapMM: gap, MarginMM: margin})
		require.NoError(t, err)
		require.Len(t, copies, n)
		if math.IsInf(smallest, 1) {
			none++
			assert.InDelta(t, shortest, math.Max(sheet.W(), sheet.H()), 1e-3)
			continue
		}
		assert.InEpsilon(t, smallest, sheet.W()*sheet.H(), 1e-6, "%d of %g x %g", n, w, h)
		assert.LessOrEqual(t, math.Max(sheet.W(), sheet.H()), export.MaxStockMM)
		if smallest > any {
			limited++
		}
	}
	assert.Greater(t, limited, 5)
	assert.Greater(t, none, 2)
}

// randomBody is the outline of some part: a rectangle, tapered, an arch, waved or a
// star, with a lead-in sometimes.
func randomBody(r *rand.Rand) []plane.Loop {
	in := func(lo, hi float64) float64 { return lo + (hi-lo)*r.Float64() }
	var body []plane.Loop
	switch r.IntN(4) {
	case 0:
		body = rectangle(in(5, 60), in(3, 20))
	case 1:
		w, h, k := in(20, 60), in(5, 20), in(0, 0.9)
		body = []plane.Loop{{
			{Point: plane.Pt(-w/2, -h/2*k)}, {Point: plane.Pt(0, -h/2)}, {Point: plane.Pt(w/2, -h/2*k), Bulge: in(0, 0.5)},
			{Point: plane.Pt(w/2, h/2*k)}, {Point: plane.Pt(0, h/2)}, {Point: plane.Pt(-w/2, h/2*k)},
		}}
	case 2:
		body = arch(in(10, 40), in(3, 15), in(0.3, 4))
	default:
		n := 5 + r.IntN(8)
		var pts []plane.Point
		for i := range n {
			pts = append(pts, plane.Pt(in(4, 25), 0).Turn(2*math.Pi*float64(i)/float64(n)))
		}
		body = []plane.Loop{plane.Polygon(pts...)}
	}
	if r.IntN(2) == 0 {
		b := body[0].Bounds()
		g := body[0].Nearest(plane.Pt(b.Min.X-2, b.Centre().Y))
		body = append(body, plane.Polygon(g.A, g.B))
	}
	return body
}

func TestCopiesKeepTheirDistance(t *testing.T) {
	const seed = 71
	r := rand.New(rand.NewPCG(seed, 1))
	full := 0
	for i := range 60 {
		body := randomBody(r)
		o := export.Options{Copies: 1 + r.IntN(30), GapMM: 0.2 + 4*r.Float64(), MarginMM: 0.5 + 5*r.Float64()}
		if r.IntN(3) > 0 {
			o.StockW, o.StockH = 40+200*r.Float64(), 40+200*r.Float64()
		}
		sheet, copies, err := nest(body, o)
		var no *RoomError
		if errors.As(err, &no) {
			full++
			require.Less(t, no.Fit, no.Asked)
			if no.Fit == 0 {
				continue
			}
			o.Copies = no.Fit // what is said to have room has it
			sheet, copies, err = nest(body, o)
		}
		require.NoError(t, err)
		require.Len(t, copies, o.Parts())
		if o.StockW == 0 && len(copies) == 1 {
			continue
		}
		heldApart(t, body, sheet, copies, o, "seed 71")
		_, again, err := nest(body, o)
		require.NoError(t, err)
		require.Equal(t, copies, again, "part %d", i)
	}
	assert.Greater(t, full, 3)
}

func TestAMarkOverTheEdgeKeepsItsDistanceToo(t *testing.T) {
	one := []cuttingLine{{loop: rectangle(100, 20)[0]}}
	over := own.Stroke{Line: plane.Loop{{Point: plane.Pt(10, 8)}, {Point: plane.Pt(10, 14)}}}
	in := own.Stroke{Line: plane.Loop{{Point: plane.Pt(20, -8)}, {Point: plane.Pt(20, 8)}}}
	b := body(one, []engraved{{number: 1, strokes: []own.Stroke{over, in}}})
	require.Len(t, b, 2)
	o := export.Options{Copies: 5}
	sheet, copies, err := nest(b, o)
	require.NoError(t, err)
	heldApart(t, b, sheet, copies, o, "marks")
	assert.GreaterOrEqual(t, sheet.H(), 10.0+5*24)
}

func TestTheLowestPlaceIsFoundWhereverItLies(t *testing.T) {
	for _, at := range []float64{-2, -1.7, -0.4, 0, 1.234, 4.9, 5} {
		for name, f := range map[string]func(float64) float64{
			"square": func(x float64) float64 { return (x - at) * (x - at) },
			"notch":  func(x float64) float64 { return math.Max(x-at, 7*(at-x)) },
		} {
			assert.InDelta(t, at, lowest(f, -2, 5), 1e-6, "%s at %v", name, at)
		}
	}
}

// However rows are made, the size told of n copies is the box round where they are placed,
// and as many have room as are placed within it.
func TestRowsAreAsLargeAsTheCopiesPlacedInThem(t *testing.T) {
	r := rand.New(rand.NewPCG(5, 1))
	for range 25 {
		a := newFootprint(randomBody(r), 0)
		gap, most, room := 0.2+4*r.Float64(), 1+r.IntN(30), plane.Pt(20+200*r.Float64(), 20+200*r.Float64())
		holds, smallest := 0, math.Inf(1) // of all, and of those that hold them all
		nestings(a, func(b footprint, row axis, v variant) {
			l, ok := newNesting(a, b, row, v.share, gap, row.of(room), most)
			if !ok {
				return
			}
			box, held := plane.EmptyBox(), 0
			for n, c := range l.positions(most, 0) {
				for _, o := range a.loops { // turned and moved once already
					box = box.Union(placed{rotation: c.rotation, at: c.at}.loop(o.Move(a.shift.Mul(-1))).Bounds())
				}
				w, h := l.size(n + 1)
				require.InDelta(t, 0, box.Min.Len()+box.Max.Dist(plane.Pt(w, h)), 1e-6, "%d copies, %+v", n+1, v)
				require.LessOrEqual(t, row.of(box.Max), row.of(room)+1e-6, "%d copies, %+v", n+1, v)
				if row.other().of(box.Max) <= row.other().of(room) {
					held = n + 1
				}
			}
			require.Equal(t, held, l.capacity(row.other().of(room), most), "%+v", v)
			if holds = max(holds, held); held == most {
				smallest = math.Min(smallest, box.W()*box.H())
			}
		})
		best := bestIn(a, gap, most, room)
		require.Equal(t, holds, best.holds)
		if holds == most {
			w, h := best.size(most)
			require.LessOrEqual(t, w*h, 1.0051*smallest, "for half a percent no part is turned")
		}
	}
}

// Chords of hollow arcs reach out of them: gap and margin are wider by that where arcs are
// drawn as chords, and only there.
func TestCopiesLeaveRoomForChords(t *testing.T) {
	const chord, margin, gap = 0.25, 4.0, 2.0
	for _, c := range []struct {
		body []plane.Loop
		more float64
	}{{arch(30, 8, 1), chord}, {rectangle(40, 10), 0}} {
		one, two := export.Options{Curves: export.Chords, ChordMM: chord, MarginMM: margin}, export.Options{Curves: export.Chords, ChordMM: chord, MarginMM: margin, GapMM: gap, Copies: 2}
		sheet, _, err := nest(c.body, one)
		require.NoError(t, err)
		box := c.body[0].Bounds()
		assert.InDelta(t, box.W()+2*(margin+c.more), sheet.W(), 1e-9)
		assert.InDelta(t, box.H()+2*(margin+c.more), sheet.H(), 1e-9)
		_, copies, err := nest(c.body, two)
		require.NoError(t, err)
		d := plane.Nearest(copies[0].loop(c.body[0]), copies[1].loop(c.body[0])).D
		assert.InDelta(t, gap+2*c.more, d, 1e-5)
	}
}
