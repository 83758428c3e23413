package unroll

import (
	"cmp"
	"fmt"
	"math"
	"math/rand"
	"slices"
	"strings"
	"testing"

	"fretband/unroll/plane"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// arcsOf counts the arcs of an outline by their radius, to a thousandth of a millimetre.
func arcsOf(l plane.Loop) map[float64]int {
	radii := map[float64]int{}
	for i := range l {
		if e := l.Edge(i); e.Bulge != 0 {
			radii[math.Round(math.Abs(e.Chord()/2/math.Sin(e.Sweep()/2))*1000)/1000]++
		}
	}
	return radii
}

// The corners are as round as asked, whatever else the outline is.
func TestEndCornersAreAsRoundAsAsked(t *testing.T) {
	for name, b := range map[string]Band{
		"plain":    cuff(60, 60, 25, 1.2),
		"tapering": tapered(cuff(60, 48, 25, 1.2), 25, 18),
		"flared":   with(cuff(60, 60, 25, 1.2), func(b *Band) { b.FlareDeg = 12 }),
		"waved":    with(cuff(60, 48, 25, 1.2), func(b *Band) { b.TopEdge = waves() }),
	} {
		for _, r := range []float64{1, 2.5, 5} {
			b.EndCornerMM = r
			assert.Equal(t, 4, arcsOf(unroll(t, b).Outline)[r], "%s, %v mm", name, r)
		}
	}
}

// An edge that is drawn below alone is followed as one above is.
func TestEdgesBelowAreFollowedAsThoseAbove(t *testing.T) {
	above := unroll(t, with(cuff(60, 48, 25, 1.2), func(b *Band) { b.TopEdge = waves() }))
	below := unroll(t, with(cuff(60, 48, 25, 1.2), func(b *Band) { b.BottomEdge = waves() }))
	assert.InDelta(t, above.Outline.Area(), below.Outline.Area(), 1e-6)
	for _, p := range waves() {
		x := p.At * below.Length / 2
		_, top := above.EdgesAt(x)
		bottom, _ := below.EdgesAt(x)
		assert.InDelta(t, 12.5+p.OutMM, top, 1e-9, "at %v", p.At)
		assert.InDelta(t, -top, bottom, 1e-9, "at %v", p.At)
		assert.Less(t, below.Outline.Nearest(plane.Pt(x, bottom)).D, 2*plane.FitTolerance, "at %v", p.At)
	}
}

// Through three points of a parabola that rises all the way, however far apart, an edge
// leaves the end with the parabola's own slope.
func TestAnEdgeLeavesTheEndAsItsPointsSuggest(t *testing.T) {
	const half = 50.0
	at := func(x float64) float64 { return 0.002*x*x + 0.3*x + 20 }
	slope := func(x float64) float64 { return 0.004*x + 0.3 }
	for _, middle := range []float64{-0.6, 0, 0.5} {
		var ps []EdgePoint
		for _, a := range []float64{-1, middle, 1} {
			ps = append(ps, EdgePoint{a, at(a * half)})
		}
		tr := newTrend(ps, 2*half, true)
		for _, end := range []float64{-half, half} {
			_, m := tr.at(end)
			assert.InDelta(t, slope(end), m, 1e-12, "middle point at %v, end at %v", middle, end)
		}
	}
}

// Between points on a straight line an edge is that line; where its slope changes, it has
// the harmonic mean of both slopes, weighted by how far the points are apart; at a top or
// a hollow it runs level (F. Fritsch and J. Butland, SIAM J. Sci. Stat. Comput. 5, 1984).
func TestAnEdgeHasTheWeightedHarmonicMeanOfItsSlopes(t *testing.T) {
	points := func(xs, ys []float64) []EdgePoint {
		ps := make([]EdgePoint, len(xs))
		for i := range xs {
			ps[i] = EdgePoint{xs[i] / 50, ys[i]}
		}
		return ps
	}
	line := newTrend(points([]float64{-50, -40, 10, 25, 50}, []float64{0, 1, 6, 7.5, 10}), 100, true)
	for x := -50.0; x <= 50; x += 0.5 {
		y, m := line.at(x)
		assert.InDelta(t, 5+0.1*x, y, 1e-12, "at %v", x)
		assert.InDelta(t, 0.1, m, 1e-12, "at %v", x)
	}
	for _, c := range []struct {
		xs, ys []float64
		slope  float64 // at the middle point
	}{
		{[]float64{-50, -10, 30}, []float64{0, 4, 12}, 2 * 0.1 * 0.2 / 0.3},
		// Steps of 10 and 40, slopes of 0.1 and 0.2, so weights of 2*40+10 and 40+2*10.
		{[]float64{-50, -40, 0}, []float64{0, 1, 9}, 150 / (90/0.1 + 60/0.2)},
		{[]float64{-50, -40, 0}, []float64{9, 8, 0}, -150 / (90/0.1 + 60/0.2)},
		{[]float64{-50, -40, 0}, []float64{0, 3, 1}, 0},
	} {
		_, m := newTrend(points(c.xs, c.ys), 100, true).at(c.xs[1])
		assert.InDelta(t, c.slope, m, 1e-12, "%v", c.ys)
	}
}

// Corners that all but fill an end meet in its middle, in one point.
func TestCornersThatFillTheEndMeetInItsMiddle(t *testing.T) {
	b := with(tapered(cuff(60, 48, 25, 1.2), 30, 25), func(b *Band) { b.SwellLengthMM, b.EndCornerMM = 60, 12.5-4e-7 })
	f := unroll(t, b)
	var tips []plane.Point
	for _, v := range f.Outline {
		if math.Abs(v.X) > f.Length/2-1e-3 {
			tips = append(tips, v.Point)
		}
	}
	require.Len(t, tips, 2)
	for _, p := range tips {
		assert.InDelta(t, 0, p.Y, 1e-12)
	}
}

// The slow, obvious way: an arc passes x where one of many chords does.
func TestAnEdgePassesEachPlaceAsOftenAsItsChordsDo(t *testing.T) {
	rng := rand.New(rand.NewSource(11))
	twice := 0
	for range 300 {
		e := plane.Edge{A: plane.Pt(10*rng.NormFloat64(), 10*rng.NormFloat64()), B: plane.Pt(10*rng.NormFloat64(), 10*rng.NormFloat64()),
			Bulge: 3 * rng.NormFloat64()}
		if rng.Intn(5) == 0 {
			e.Bulge = 0
		}
		box := e.Bounds()
		x := box.Min.X + box.W()*(rng.Float64()*1.2-0.1)
		const n = 4000
		want := 0
		for i := range n {
			if (e.At(float64(i)/n).X < x) != (e.At(float64(i+1)/n).X < x) {
				want++
			}
		}
		got := crossingsAt(e, x)
		require.Len(t, got, want, "%+v at %v", e, x)
		for _, s := range got {
			assert.InDelta(t, x, e.At(s).X, 1e-9)
		}
		if want == 2 {
			twice++
		}
	}
	assert.Greater(t, twice, 50)
}

// What is drawn a turn further on, or several, is the same metal.
func TestWhatIsDrawnTurnsFurtherOnIsTheSameMetal(t *testing.T) {
	for name, b := range everyForm() {
		f := unroll(t, b)
		if b.Kind == Cuff || f.Flared() {
			continue
		}
		turn := f.Period
		for _, x := range []float64{-0.4, 0.1, 0.45} {
			at := func(k float64) plane.Loop {
				return plane.Circle(plane.Pt(x*turn+k*turn, 0.3), math.Min(2, b.WidthMM/4))
			}
			want := f.Solid(at(0))
			for _, k := range []float64{-3, -1, 1, 2} {
				got := f.Solid(at(k))
				assert.InDelta(t, want.Volume, got.Volume, 1e-8, "%s: %v turns on", name, k)
				off := diff(want.Moment, got.Moment)
				assert.InDelta(t, 0, math.Hypot(math.Hypot(off.X, off.Y), off.Z), 1e-6, "%s: %v turns on", name, k)
				assert.InDelta(t, f.Volume(at(0)), f.Volume(at(k)), 1e-8, "%s: %v turns on", name, k)
				s, ok := f.Slices(at(0))
				if moved, one := f.SolidAt(s, plane.Pt(k*turn, 0)); ok && one {
					assert.InDelta(t, want.Volume, moved.Volume, 1e-8, "%s: %v turns on, moved", name, k)
				}
			}
		}
	}
}

// A dome's radius and its rise are two ways of saying one thing, within what a dome may
// have: 60 degrees from the middle to the edge, where the radius is the width over 2 pi/3.
func TestTheRadiusOfADomeFollowsFromItsRise(t *testing.T) {
	for _, width := range []float64{6, 20, 60} {
		tightest := width / 2 / (math.Pi / 3)
		for _, r := range []float64{1.01 * tightest, 2 * tightest, 10 * tightest} {
			rise := r * (1 - math.Cos(width/2/r))
			assert.InDelta(t, rise, DomeRise(width, r), 1e-12)
			assert.InDelta(t, math.Max(r, MinDome), DomeRadius(width, rise), 1e-6*r, "%v wide, radius %v", width, r)
		}
		assert.InDelta(t, math.Max(tightest, MinDome), DomeRadius(width, width), 1e-9, "more than a dome may have")
	}
}

// What a refusal names as the limit is the limit.
func TestRefusalsNameTheTrueLimits(t *testing.T) {
	for _, c := range []struct {
		name string
		band Band
		says string
		ok   func(*Band)
	}{
		{"too flat an oval", cuff(60, 10, 25, 1.2), "15 to 240 mm", func(b *Band) { b.Inside.HeightMM = 15 }},
		{"flared oval", with(cuff(60, 48, 25, 1.2), func(b *Band) { b.FlareDeg = 10 }), "this one is 60 x 48 mm", func(b *Band) { b.FlareDeg = 0 }},
		{"steep cone", with(closed(Bangle, 60, 60, 1.2), func(b *Band) {
			b.Inside = Inside{By: ByEdges, TopMM: 250, BottomMM: 180}
		}), "at most 35.54 mm", func(b *Band) { b.Inside.TopMM = 180 + 35.54 }}, // 2 pi 8 sin 45 degrees
		{"corners past the middle of the end", with(tapered(cuff(60, 48, 25, 1.2), 30, 25), func(b *Band) {
			b.SwellLengthMM, b.EndCornerMM = 60, 13 // the ends are level
		}), "at most 12.50 mm", func(b *Band) { b.EndCornerMM = 12.5 }},
		// An arc of 20 mm over twice 60 degrees has the radius 30/pi and rises by half of it.
		{"too deep a dome", with(tapered(closed(Bangle, 63.5, 63.5, 1.5), 20, 20), func(b *Band) {
			b.Dome, b.DomeFlat, b.DomeRiseMM = Outward, ArcLength, 4.78
		}), "to 4.77 mm", func(b *Band) { b.DomeRiseMM = 4.77 }},
	} {
		_, err := Unroll(c.band)
		require.ErrorContains(t, err, c.says, c.name)
		_, err = Unroll(with(c.band, c.ok))
		assert.NoError(t, err, c.name)
	}
	// The steepest edges of a raised cosine between widths apart by d over a length l
	// slope by pi d / (2 l): a difference of 2 l / pi is the most.
	b := tapered(cuff(60, 48, 25, 1.2), 25, 140)
	_, err := Unroll(b)
	l := unroll(t, cuff(60, 48, 25, 1.2)).Length
	require.ErrorContains(t, err, fmt.Sprintf("at most %.1f mm", 2*l/math.Pi))
	_, err = Unroll(tapered(b, 25, 24.9+2*l/math.Pi))
	assert.NoError(t, err)
}

// Round a closed band no position is the first: drawn from another one, an edge is the same.
func TestAnEdgeRoundABandIsTheSameWhereverItBegins(t *testing.T) {
	const length = 190
	rng := rand.New(rand.NewSource(3))
	for range 50 {
		ats := make([]float64, 2+rng.Intn(5))
		for i := range ats {
			ats[i] = 2*rng.Float64() - 1
		}
		slices.Sort(ats)
		var ps, moved []EdgePoint
		by := 2 * rng.Float64()
		for _, at := range ats {
			p := EdgePoint{at, rng.NormFloat64()}
			ps = append(ps, p)
			p.At = math.Mod(p.At+by+1, 2) - 1
			moved = append(moved, p)
		}
		slices.SortFunc(moved, func(a, b EdgePoint) int { return cmp.Compare(a.At, b.At) })
		a, b := newTrend(ps, length, false), newTrend(moved, length, false)
		for range 100 {
			x := length * (rng.Float64() - 0.5)
			y, slope := a.at(x)
			again, too := b.at(x + by*length/2)
			require.InDelta(t, y, again, 1e-9, "%v at %v, moved by %v", ps, x, by)
			require.InDelta(t, slope, too, 1e-9, "%v at %v, moved by %v", ps, x, by)
		}
	}
}

func TestNotesSayWhichWayAndOnlyWhatIsSo(t *testing.T) {
	const counts = "counts metal and gap"
	for by, told := range map[string]bool{ByWrist: true, ByCircumference: true, ByAxes: false, BySides: false} {
		b := cuff(60, 48, 25, 1.2)
		b.Inside = Inside{By: by}
		switch by {
		case ByWrist:
			b.Inside.WristMM, b.Inside.Ratio = 165, 1.25
		case ByCircumference:
			b.Inside.CircumferenceMM, b.Inside.Ratio = 170, 1.25
		default:
			b.Inside.WidthMM, b.Inside.HeightMM = 60, 48
		}
		assert.Equal(t, told, strings.Contains(strings.Join(unroll(t, b).Notes, "\n"), counts), by)
	}
	cone := func(top, bottom float64) string {
		b := closed(Bangle, 60, 60, 1.2)
		b.Inside = Inside{By: ByEdges, TopMM: top, BottomMM: bottom}
		return strings.Join(unroll(t, b).Notes, "\n")
	}
	assert.NotContains(t, cone(190, 190), "make a cone")
	assert.Contains(t, cone(190, 185), "make a cone of 5.709 degrees", "asin(5 / (2 pi 8))")
	for dome, way := range map[string]string{Outward: "further in)", Hollow: "further out)"} {
		b := with(closed(Bangle, 63.5, 63.5, 1.5), func(b *Band) { b.Dome, b.DomeRadiusMM, b.DomeFlat = dome, 30, ArcLength })
		assert.Contains(t, strings.Join(unroll(t, b).Notes, "\n"), way)
	}
}

// What lies over a jump of the curvature weighs as much as both its parts, on any turn.
func TestWhatLiesOverAJumpOfTheCurvatureIsTheSumOfItsParts(t *testing.T) {
	jumps := 0
	for name, b := range everyForm() {
		f := unroll(t, b)
		if f.Flared() {
			continue
		}
		turn := f.way.around()
		for _, jump := range f.Breaks() {
			for _, k := range []float64{-2, -1, 0, 1, 2} {
				if b.Kind == Cuff && k != 0 {
					continue
				}
				jumps++
				x := jump + k*turn
				box := func(from, to float64) plane.Loop {
					return plane.Rect(plane.Box{Min: plane.Pt(from, -0.4), Max: plane.Pt(to, 0.9)})
				}
				whole, left, right := box(x-0.3, x+0.5), box(x-0.3, x), box(x, x+0.5)
				assert.InDelta(t, f.Volume(left)+f.Volume(right), f.Volume(whole), 1e-9, "%s: jump at %v, turn %v", name, jump, k)
				for _, depth := range []float64{0, f.Thickness} {
					assert.InDelta(t, f.AreaAt(left, depth)+f.AreaAt(right, depth), f.AreaAt(whole, depth), 1e-9, "%s: jump at %v, turn %v, depth %v", name, jump, k, depth)
				}
			}
		}
	}
	assert.Greater(t, jumps, 20)
}
