package unroll

import (
	"errors"
	"math"
	"math/rand/v2"
	"testing"

	"fretband/unroll/plane"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/integrate/quad"
)

func TestMoreFormsUnrollToASoundBlank(t *testing.T) {
	for name, b := range moreForms() {
		f := unroll(t, b)
		require.NoError(t, f.Outline.Check(), name)
		assert.Greater(t, f.Outline.Area(), 0.0, name)
		assert.Equal(t, f, unroll(t, b), name)
	}
}

// The stretch that is told against differences of the map itself.
func TestStretchIsThatOfTheMap(t *testing.T) {
	const h = 1e-4
	rnd := rand.New(rand.NewPCG(7, 8))
	sub := func(p, q Point3) Point3 { return Point3{p.X - q.X, p.Y - q.Y, p.Z - q.Z} }
	long := func(p Point3) float64 { return math.Sqrt(p.X*p.X+p.Y*p.Y+p.Z*p.Z) / (2 * h) }
	for name, b := range moreForms() {
		f := unroll(t, b)
		for range 100 {
			x, v := (rnd.Float64()-0.5)*(f.Length-1), (rnd.Float64()-0.5)*f.Width
			if near(f.way.breaks(), x, f.way.around()) {
				continue
			}
			p, d := f.Place(x, v), rnd.Float64()*f.Thickness
			along, across := f.Stretch(p, d)
			u := f.along(x, v, 0).Unit()
			w := u.Left()
			a := sub(f.Bend(p.Add(u.Mul(h)), d), f.Bend(p.Sub(u.Mul(h)), d))
			c := sub(f.Bend(p.Add(w.Mul(h)), d), f.Bend(p.Sub(w.Mul(h)), d))
			assert.InDelta(t, along, long(a), 1e-6, "%s along at %v", name, p)
			assert.InDelta(t, across, long(c), 1e-6, "%s across at %v", name, p)
			assert.InDelta(t, 0, (a.X*c.X+a.Y*c.Y+a.Z*c.Z)/(4*h*h), 1e-6, "square to each other: %s", name)
			if along, across := f.Stretch(p, f.Neutral); f.dome == nil {
				assert.InDelta(t, 1, along, 1e-12, name)
				assert.InDelta(t, 1, across, 1e-12, name)
			} else if b.Inside.WidthMM == b.Inside.HeightMM && b.DomeFlat == EqualArea {
				assert.InDelta(t, 1, along*across, 1e-9, "equal areas: %s", name)
			} else if b.Inside.WidthMM == b.Inside.HeightMM && b.DomeFlat == Conformal {
				assert.InDelta(t, along, across, 1e-9, "equal angles: %s", name)
			}
		}
	}
}

func near(breaks []float64, x, around float64) bool {
	for _, b := range breaks {
		if d := math.Abs(math.Remainder(x-b, around)); d < 1e-3 {
			return true
		}
	}
	return false
}

func TestStraightSidesAreTwoHalfCirclesAndTwoRuns(t *testing.T) {
	f := unroll(t, with(closed(Bangle, 60, 44, 1.5), func(b *Band) { b.Inside.By = BySides }))
	// pi d + 2 l, and pi t more on the neutral line (J. Steiner).
	assert.InDelta(t, math.Pi*44+2*16, f.Inner, 1e-12)
	assert.InDelta(t, math.Pi*44+2*16+math.Pi*1.5, f.Length, 1e-12)
	assert.InDelta(t, 22, f.LeastRadius(), 1e-12)
	front := f.Bend(plane.Pt(0, 2), 0)
	assert.InDelta(t, 22, front.Y, 1e-12)
	side := f.Bend(plane.Pt(f.Length/4, 0), 0)
	assert.InDelta(t, -30, side.X, 1e-12)
	back := f.Bend(plane.Pt(f.Length/2, 0), 1.5)
	assert.InDelta(t, -23.5, back.Y, 1e-12)
}

// An oval of two lines and a circle given in three ways is one blank.
func TestAProfileOfStraightSidesIsThatOval(t *testing.T) {
	for _, c := range []struct{ w, h float64 }{{60, 44}, {44, 60}} {
		sides := unroll(t, with(closed(Bangle, c.w, c.h, 1.5), func(b *Band) { b.Inside.By = BySides }))
		var list []Piece
		for _, w := range sidesOf(c.w, c.h) {
			if w.k == 0 {
				list = append(list, Piece{LengthMM: w.length})
			} else {
				list = append(list, Piece{RadiusMM: 1 / w.k, AngleDeg: w.length * w.k * 180 / math.Pi})
			}
		}
		profile := unroll(t, with(closed(Bangle, 1, 1, 1.5), func(b *Band) { b.Inside = Inside{By: ByProfile, Profile: list} }))
		assert.InDelta(t, sides.Length, profile.Length, 1e-9)
		for _, x := range []float64{0, 11, 40, -30} {
			p, q := sides.Bend(plane.Pt(x, 1), 0.3), profile.Bend(plane.Pt(x, 1), 0.3)
			assert.InDelta(t, 0, math.Hypot(p.X-q.X, p.Y-q.Y), 1e-9)
		}
	}
	round := unroll(t, closed(Bangle, 63.5, 63.5, 1.5))
	bow := unroll(t, moreForms()["straight sides, round"])
	for _, x := range []float64{0, 11, 77, -90} {
		p, q := round.Bend(plane.Pt(x, 1), 0.3), bow.Bend(plane.Pt(x, 1), 0.3)
		assert.InDelta(t, 0, math.Hypot(p.X-q.X, p.Y-q.Y), 1e-9, "the two courses of a circle agree")
	}
}

func TestBreaksAreWhereTheBendJumps(t *testing.T) {
	for name, b := range everyForm() {
		f := unroll(t, b)
		const h = 1e-6
		at := map[int]bool{}
		for _, x := range f.Breaks() {
			_, _, k0 := f.Station(x - h)
			_, _, k1 := f.Station(x + h)
			assert.Greater(t, math.Abs(k1-k0), 1e-6, "%s at %v", name, x)
			at[int(math.Floor(x-0.37))] = true
		}
		for x := math.Ceil(-f.Length/2) + 0.37; x+1 < f.Length/2; x++ {
			_, _, k0 := f.Station(x)
			_, _, k1 := f.Station(x + 1)
			if _, bowed := f.way.(*bows); bowed && math.Abs(k1-k0) > 1e-6 {
				assert.True(t, at[int(math.Floor(x))], "%s: a jump between %v and %v is told", name, x, x+1)
			}
		}
	}
}

func TestAProfileThatNearlyClosesIsClosed(t *testing.T) {
	list := dShape()
	list[0].LengthMM = 20.04
	f := unroll(t, with(closed(Bangle, 1, 1, 1.5), func(b *Band) { b.Inside = Inside{By: ByProfile, Profile: list} }))
	w := f.way.(*bows)
	assert.InDelta(t, 0, w.miss().Len(), 1e-10)
	// 40 + 2 x 5 pi + 30 pi, and what is missing shared out.
	assert.InDelta(t, 40.04+40*math.Pi, f.Inner, 0.06)
	found := false
	for _, n := range f.Notes {
		found = found || len(n) > 20 && n[:22] == "so that the profile cl"
	}
	assert.True(t, found, "what was changed is told: %v", f.Notes)
}

func TestTheGapMayBeAShareOfTheInside(t *testing.T) {
	share := unroll(t, with(cuff(60, 48, 0, 1.2), func(b *Band) { b.GapShare = 0.16 }))
	mm := unroll(t, cuff(60, 48, 0.16*share.Inner, 1.2))
	assert.InDelta(t, mm.Length, share.Length, 1e-9)
	// On a free profile the gap is what is missing of the inner face.
	f := unroll(t, with(cuff(1, 1, 25, 1.2), func(b *Band) { b.Inside = Inside{By: ByProfile, Profile: dShape()} }))
	a, b := f.Bend(plane.Pt(f.Length/2, 0), 0), f.Bend(plane.Pt(-f.Length/2, 0), 0)
	chord := math.Hypot(a.X-b.X, a.Y-b.Y) // at the back the D is a circle of 30 mm
	assert.InDelta(t, 25, 2*30*math.Asin(chord/60), 1e-9)
}

// A frustum of a cone: radii 28 and 32, slant 25: the blank is a sector with the
// radii 175 and 200 and the angle 57.6 degrees, its area pi (r1 + r2) L (closed
// forms of any handbook).
func TestAFlaredBlankIsTheSectorOfHandbooks(t *testing.T) {
	b := closed(Bangle, 60, 60, 1)
	b.WidthMM, b.EndWidthMM, b.FlareDeg = 25, 25, math.Asin(4.0/25)*180/math.Pi
	cos := math.Sqrt(1 - 0.16*0.16)
	// So that the neutral surface's middle radius is 30.
	b.Inside.WidthMM, b.Inside.HeightMM = 60-cos, 60-cos
	f := unroll(t, b)
	assert.InDelta(t, 4712.388980, f.Outline.Area(), 1e-6)
	var radii []float64
	for i := range f.Outline {
		if e := f.Outline.Edge(i); !e.IsLine() {
			radii = append(radii, e.Radius())
			assert.InDelta(t, 57.6, math.Abs(e.Sweep())*180/math.Pi, 1e-9)
			assert.InDelta(t, 0, e.Centre().Dist(plane.Pt(0, -187.5)), 1e-8)
		}
	}
	require.Len(t, radii, 2)
	assert.InDelta(t, 175, radii[0], 1e-8)
	assert.InDelta(t, 200, radii[1], 1e-8)
	// The axial height.
	p, q := f.Bend(f.Place(3, 12.5), f.Neutral), f.Bend(f.Place(3, -12.5), f.Neutral)
	assert.InDelta(t, 24.677925, p.Z-q.Z, 1e-6)
	assert.InDelta(t, 32, math.Hypot(p.X, p.Y), 1e-9)

	// The same by its edges, given on the inner face.
	e := b
	e.FlareDeg = 0
	off := 0.5 * cos
	e.Inside = Inside{By: ByEdges, TopMM: 2 * math.Pi * (32 - off), BottomMM: 2 * math.Pi * (28 - off)}
	assert.InDelta(t, 4712.388980, unroll(t, e).Outline.Area(), 1e-6)
}

// On the unit sphere the conformal map of a surface of revolution is Mercator's
// and the one of equal areas Lambert's (J. P. Snyder, USGS PP 1395, 1987, pp.
// 266-268: latitude 35 degrees, y 0.6528366; y = sin of the latitude).
func TestDomesOfASphereAreTheMapsOfHandbooks(t *testing.T) {
	phi := 35 * math.Pi / 180
	y, _ := (&dome{r: 1, k: 1, flat: Conformal}).flatten(phi)
	assert.InDelta(t, 0.6528366, y, 1e-7)
	y, _ = (&dome{r: 1, k: 1, flat: EqualArea}).flatten(phi)
	assert.InDelta(t, 0.573576436, y, 1e-9)
	for _, d := range []dome{{r: 1, k: 1, flat: Conformal}, {r: 1, k: 1, flat: EqualArea}, {r: 30, k: 1 / 33.0, flat: Conformal}, {r: -12, k: 1 / 9.7, flat: Conformal}, {r: -12, k: 1 / 9.7, flat: EqualArea}, {r: 1900, k: 1 / 30.0, flat: EqualArea}, {r: 5, k: 1 / 10.0, flat: Conformal}, {r: -1254, k: 1 / 27.0, flat: EqualArea}, {r: -1254, k: 1 / 27.0, flat: Conformal}} {
		for _, a := range []float64{0, 1e-9, 1e-3, 0.02, 0.3, 0.9} {
			at := a * math.Abs(d.r)
			if d.k*d.in(at) > 0.6 {
				continue // no band is domed so deep
			}
			v, s := d.flatten(at)
			back, s2 := d.raise(v)
			assert.InDelta(t, at, back, 1e-9*math.Max(1, math.Abs(d.r)), "%v", d)
			assert.InDelta(t, s, s2, 1e-9)
			table := d
			for _, reach := range []float64{0.1, 1, 1.5} { // past the table, within it
				table.tabulate(reach*at + 1e-6)
				fast, s3 := table.raise(v)
				assert.InDelta(t, at, fast, 1e-12*math.Abs(d.r), "%v", d)
				assert.InDelta(t, s, s3, 1e-11)
				down, _ := table.raise(-v)
				assert.InDelta(t, -fast, down, 1e-12*math.Abs(d.r))
			}
			got := quad.Fixed(func(t float64) float64 { _, s := d.flatten(t); return s }, 0, at, 60, quad.Legendre{}, 0)
			assert.InDelta(t, got, v, 1e-10*math.Max(1, math.Abs(v)), "%v", d)
		}
	}
}

// Smooth through the points and no further than they go: between 0 and 5 the
// blank never stands out more than 5 or less than 0.
func TestTheEdgesRunThroughTheirPoints(t *testing.T) {
	for _, b := range []Band{cuff(60, 48, 25, 1.2), with(closed(Bangle, 60, 48, 1.2), func(b *Band) { b.WidthMM, b.EndWidthMM = 25, 25 })} {
		b.TopEdge = []EdgePoint{{-1, 0}, {-0.5, 5}, {0, 5}, {0.4, 0}, {1, 0}}
		f := unroll(t, b)
		for _, p := range b.TopEdge {
			_, top := f.EdgesAt(p.At * f.Length / 2)
			assert.InDelta(t, 12.5+p.OutMM, top, 1e-9)
		}
		last := -1.0
		for i := range 2001 {
			x := f.Length * (float64(i)/2000 - 0.5)
			bottom, top, _, slope := f.EdgeSlopes(x)
			assert.Equal(t, -12.5, bottom)
			assert.GreaterOrEqual(t, top, 12.5)
			assert.LessOrEqual(t, top, 17.5+1e-12)
			if i > 0 && x < -f.Length/4 {
				assert.GreaterOrEqual(t, top, last, "rises all the way")
			}
			last = top
			if i == 0 || i == 2000 {
				continue
			}
			const h = 1e-5
			_, t1 := f.EdgesAt(x + h)
			_, t0 := f.EdgesAt(x - h)
			assert.InDelta(t, (t1-t0)/(2*h), slope, 1e-4)
		}
		for i := range f.Outline {
			m := f.Outline.Edge(i).Mid()
			bottom, top := f.EdgesAt(m.X)
			if math.Abs(m.X) < f.Length/2-1e-6 {
				assert.Less(t, math.Min(math.Abs(m.Y-top), math.Abs(m.Y-bottom)), 1.5*plane.FitTolerance)
			}
		}
	}
}

// Closed forms: a half circle for a full round end of level edges; the point is
// a lancet whose arcs run into the tip.
func TestShapedEnds(t *testing.T) {
	b := cuff(60, 48, 25, 1.2)
	b.EndShape = RoundEnd
	f := unroll(t, b)
	assert.InDelta(t, f.Length*25-(4-math.Pi)*12.5*12.5, f.Outline.Area(), 1e-6)
	assertSmooth(t, f.Outline)
	for name, b := range moreForms() {
		f := unroll(t, b)
		if b.EndShape == "" {
			continue
		}
		assertSmooth(t, f.Outline)
		if b.EndShape == PointEnd {
			tips := 0
			for i := range f.Outline {
				e := f.Outline.Edge(i)
				if !e.IsLine() && math.Abs(e.Radius()-b.EndRadiusMM) < 1e-6 {
					tips++
				}
				assert.Greater(t, e.Radius(), b.EndRadiusMM-1e-6, name)
			}
			assert.Equal(t, 4, tips, name)
		}
		// The ends are where they were.
		assert.InDelta(t, 0, f.Outline.Nearest(f.Place(f.Length/2, middle(f, f.Length/2))).D, 0.7, name)
	}
}

func middle(f Flat, x float64) float64 {
	b, t := f.EdgesAt(x)
	return (b + t) / 2
}

func TestSwellsKeepToTheirLength(t *testing.T) {
	f := unroll(t, moreForms()["swelling cuff"])
	for _, c := range []struct{ x, half float64 }{{0, 15}, {15, 11}, {30, 7}, {45, 7}, {-31, 7}} {
		_, top := f.EdgesAt(c.x)
		assert.InDelta(t, c.half, top, 1e-12)
	}
	want := f.Length*14 + 60*(30-14)/2.0
	assert.InDelta(t, want, f.Outline.Area(), 2*f.Length*plane.FitTolerance)
}

func TestMoreNumbersThatCannotBeUsedAreRefused(t *testing.T) {
	c, ring := cuff(60, 48, 25, 1.2), closed(Ring, 18, 18, 1.4)
	round := cuff(60, 60, 25, 1.2)
	nan := math.NaN()
	profile := func(ps ...Piece) func(*Band) {
		return func(b *Band) { b.Inside = Inside{By: ByProfile, Profile: ps} }
	}
	for _, c := range []struct {
		from   Band
		change func(*Band)
		path   string
		part   string
	}{
		{c, func(b *Band) { b.GapShare = 0.1 }, "band.gap_share", "not both"},
		{c, func(b *Band) { b.GapMM, b.GapShare = 0, 16 }, "band.gap_share", "is 16 per cent meant? Then give 0.16"},
		{c, func(b *Band) { b.GapMM, b.GapShare = 0, nan }, "band.gap_share", "NaN"},
		{ring, func(b *Band) { b.GapShare = 0.1 }, "band.gap_share", "is closed"},
		{c, profile(), "band.inside.profile", "2 to 60 pieces"},
		{c, profile(Piece{LengthMM: 3}, Piece{}), "band.inside.profile[1]", "is empty"},
		{c, profile(Piece{LengthMM: 3, RadiusMM: 3}, Piece{}), "band.inside.profile[0]", "not both"},
		{c, profile(Piece{LengthMM: -3}, Piece{}), "band.inside.profile[0].length_mm", "from 0.01 to 150 mm; it is -3"},
		{c, profile(Piece{RadiusMM: 30}, Piece{}), "band.inside.profile[0].angle_deg", "it is 0"},
		{c, profile(Piece{RadiusMM: 30, AngleDeg: 180}, Piece{RadiusMM: 30, AngleDeg: 170}), "band.inside.profile", "add up to one turn, 360 degrees within 0.05; they add up to 350"},
		{c, profile(Piece{RadiusMM: 30, AngleDeg: 180}, Piece{RadiusMM: 28, AngleDeg: 180}), "band.inside.profile", "its end lies 4.000 mm from its start"},
		{c, profile(Piece{RadiusMM: 3, AngleDeg: 180}, Piece{RadiusMM: 3, AngleDeg: 180}), "band.inside.profile", "is 6.0 x 6.0 mm"},
		{with(c, func(b *Band) { b.Thickness.MM = 6 }), profile(waisted(22, 10, 100)...), "band.inside.profile[0].radius_mm", "twice the thickness, 12 mm"},
		{c, func(b *Band) { b.Inside.Profile = dShape() }, "band.inside.profile", "is not used when the inside is given by \"axes\""},
		{c, func(b *Band) { b.SwellLengthMM = 20 }, "band.swell_length_mm", "nothing that swells"},
		{tapered(c, 30, 20), func(b *Band) { b.SwellLengthMM = 10 }, "band.swell_length_mm", "at least 15.7 mm"},
		{tapered(c, 30, 20), func(b *Band) { b.SwellLengthMM = 1000 }, "band.swell_length_mm", "to the blank's length"},
		{c, func(b *Band) { b.TopEdge = []EdgePoint{{0, 1}, {0, 2}} }, "band.top_edge[1].at", "0.01 beyond"},
		{c, func(b *Band) { b.TopEdge = []EdgePoint{{0, -60}} }, "band.top_edge", "leaves a width"},
		{c, func(b *Band) { b.BottomEdge = []EdgePoint{{0, 0}, {0.05, 20}} }, "band.bottom_edge", "steeper than 45 degrees"},
		{c, func(b *Band) { b.BottomEdge = []EdgePoint{{2, 0}} }, "band.bottom_edge[0].at", "from -1 to 1"},
		{ring, func(b *Band) { b.TopEdge = []EdgePoint{{-1, 0}, {1, 1}} }, "band.top_edge[1].out_mm", "are one place"},
		{c, func(b *Band) { b.EndShape = "fishtail" }, "band.end_shape", `"round" or "point"`},
		{c, func(b *Band) { b.EndShape, b.EndCornerMM = RoundEnd, 3 }, "band.end_corner_mm", "remove one"},
		{c, func(b *Band) { b.EndShape = PointEnd }, "band.end_length_mm", "is missing"},
		{c, func(b *Band) { b.EndShape, b.EndLengthMM = PointEnd, 20 }, "band.end_radius_mm", "is missing"},
		{c, func(b *Band) { b.EndShape, b.EndLengthMM, b.EndRadiusMM = PointEnd, 20, 0.1 }, "band.end_radius_mm", "0.3 mm"},
		{c, func(b *Band) { b.EndShape, b.EndLengthMM, b.EndRadiusMM = PointEnd, 5, 2 }, "band.end_length_mm", "too short for a smooth point"},
		{c, func(b *Band) { b.EndShape, b.EndLengthMM, b.EndRadiusMM = PointEnd, 90, 2 }, "band.end_length_mm", "a third of the blank"},
		{c, func(b *Band) { b.EndRadiusMM = 2 }, "band.end_radius_mm", "only"},
		{ring, func(b *Band) { b.EndShape = RoundEnd }, "band.end_shape", "is closed"},
		{c, func(b *Band) { b.FlareDeg = 10 }, "band.flare_deg", "must be round inside"},
		{round, func(b *Band) { b.FlareDeg = 50 }, "band.flare_deg", "to 45 degrees"},
		{round, func(b *Band) { b.FlareDeg = -50 }, "band.flare_deg", "it is -50"},
		{c, func(b *Band) { b.Thickness = Thickness{BSGauge: MinGauge - 1} }, "band.thickness.bs_gauge", "from 3 (5.83 mm) to 32 (0.20 mm); it is 2"},
		{c, func(b *Band) { b.Thickness = Thickness{BSGauge: MaxGauge + 1} }, "band.thickness.bs_gauge", "it is 33"},
		{round, func(b *Band) { b.FlareDeg = nan }, "band.flare_deg", "NaN"},
		{round, func(b *Band) { b.FlareDeg, b.WidthMM, b.EndWidthMM = 44, 80, 80 }, "band.flare_deg", "at the narrow edge"},
		{round, func(b *Band) { b.FlareDeg, b.Dome = 10, Outward }, "band.dome", "either flared or domed"},
		{ring, func(b *Band) { b.FlareDeg, b.Joint, b.JointMM = 10, Seamless, 0 }, "band.joint", "soldered"},
		{round, func(b *Band) { b.Inside = Inside{By: ByEdges, TopMM: 200, BottomMM: 60} }, "band.inside.top_circumference_mm", "may differ by at most 111.07 mm"},
		{round, func(b *Band) { b.Inside = Inside{By: ByEdges, TopMM: 200, BottomMM: 190}; b.FlareDeg = 3 }, "band.flare_deg", "remove it"},
		{c, func(b *Band) { b.DomeRadiusMM = 30 }, "band.dome_radius_mm", "not used without band.dome"},
		{c, func(b *Band) { b.Dome, b.DomeRadiusMM = Outward, 30 }, "band.dome_flat", "what shall be true on the blank"},
		{c, func(b *Band) { b.Dome, b.DomeFlat = Outward, Conformal }, "band.dome_rise_mm", "or give dome_radius_mm"},
		{c, func(b *Band) { b.Dome, b.DomeFlat, b.DomeRadiusMM, b.DomeRiseMM = Outward, Conformal, 30, 2 }, "band.dome_radius_mm", "not both"},
		{c, func(b *Band) { b.Dome, b.DomeFlat, b.DomeRadiusMM = Outward, Conformal, 11 }, "band.dome_radius_mm", "degrees from the middle"},
		{ring, func(b *Band) { b.Dome, b.DomeFlat, b.DomeRadiusMM = "bulging", Conformal, 11 }, "band.dome", `"hollow"`},
		{c, func(b *Band) { b.Thickness.ImperialGauge = 18 }, "band.thickness", "only one of"},
		{c, func(b *Band) { b.Thickness = Thickness{ImperialGauge: 2} }, "band.thickness.imperial_gauge", "4 (5.89 mm) to 35 (0.21 mm); it is 2"},
		{c, func(b *Band) { b.Drawn = OuterFace }, "band.drawn", "cut flat is drawn as its sheet"},
		{c, func(b *Band) { b.Making = "hewn" }, "band.making", `"formed"`},
		{c, func(b *Band) { b.Making, b.Drawn = Formed, "top" }, "band.drawn", `"middle"`},
	} {
		b := c.from
		c.change(&b)
		_, err := Unroll(b)
		var field *FieldError
		require.True(t, errors.As(err, &field), "%s: %v", c.path, err)
		assert.Equal(t, c.path, field.Path, field.Msg)
		assert.Contains(t, field.Msg, c.part)
		assert.NotContains(t, err.Error(), "\n")
	}
}

// Machinery's Handbook, wire gauges: British standard (Imperial) 18 is 0.048 in,
// Brown & Sharpe 18 is 0.0403 in.
func TestGaugesGoByTheNameOfTheirSystem(t *testing.T) {
	for _, c := range []struct {
		sheet Thickness
		inch  float64
	}{{Thickness{ImperialGauge: 18}, 0.048}, {Thickness{BSGauge: 18}, 0.0403}} {
		f := unroll(t, with(cuff(60, 48, 25, 0), func(b *Band) { b.Thickness = c.sheet }))
		assert.InDelta(t, c.inch*inchMM, f.Thickness, 0.0013, "%+v", c.sheet)
	}
}

// A band on a sphere of radius R: the place at the latitude phi and the longitude
// lambda is drawn at x = R lambda and, by J. P. Snyder, Map Projections, USGS
// Professional Paper 1395 (1987), at y = R ln tan(pi/4 + phi/2) (Mercator, eq.
// 7-2), y = R sin phi (cylindrical equal-area, eq. 10-2, standard parallel 0) and
// y = R phi (equidistant cylindrical, eq. 12-2); equation numbers from memory.
func TestABandOnASphereIsDrawnBySnydersFormulas(t *testing.T) {
	const r = 40.0
	for flat, y := range map[string]func(phi float64) float64{
		Conformal: func(phi float64) float64 { return math.Log(math.Tan(math.Pi/4 + phi/2)) },
		EqualArea: math.Sin,
		ArcLength: func(phi float64) float64 { return phi },
	} {
		b := closed(Bangle, 2*r, 2*r, 1)
		b.WidthMM, b.EndWidthMM = 60, 60
		b.Dome, b.DomeRadiusMM, b.DomeFlat = Outward, r, flat
		b.Making, b.Drawn = Formed, InnerFace
		f := unroll(t, b)
		for _, deg := range []float64{-40, -12.5, 0, 3, 15, 35, 40} {
			for _, lambda := range []float64{-2, 0, 0.3, 1.8} {
				phi := deg * math.Pi / 180
				// The front is longitude 0; x runs towards -X.
				at := Point3{-r * math.Cos(phi) * math.Sin(lambda), r * math.Cos(phi) * math.Cos(lambda), r * math.Sin(phi)}
				p, depth := f.Unbend(at)
				assert.InDelta(t, r*lambda, p.X, 1e-9, flat)
				assert.InDelta(t, r*y(phi), p.Y, 1e-9, "%s at %v degrees", flat, deg)
				assert.InDelta(t, 0, depth, 1e-9, flat)
				// The scale across and along the parallel, of the sphere on the map.
				along, across := f.Stretch(p, 0)
				assert.InDelta(t, math.Cos(phi), along, 1e-9, flat)
				assert.InDelta(t, map[string]float64{Conformal: math.Cos(phi), EqualArea: 1 / math.Cos(phi), ArcLength: 1}[flat], across, 1e-9, flat)
			}
		}
		_, top := f.EdgesAt(0)
		assert.InDelta(t, r*y(30/r), top, 1e-9, "the edge, 30 mm up the sphere")
	}
}

// The metal between the drawn face and the centre of a dome, half of whose radius it may
// be at most: of a dome outwards what lies inside of that face, of a hollow one what lies
// outside.
func TestADomesRadiusIsHeldAgainstTheMetalInsideIt(t *testing.T) {
	const th = 3.0
	for _, c := range []struct {
		dome, drawn string
		metal       float64
	}{
		{Outward, InnerFace, 0}, {Outward, MiddleFace, th / 2}, {Outward, OuterFace, th},
		{Hollow, InnerFace, th}, {Hollow, MiddleFace, th / 2}, {Hollow, OuterFace, 0},
	} {
		for _, r := range []float64{2*c.metal - 0.05, 2*c.metal + 0.05} {
			if r < 2 {
				continue // no dome at all
			}
			_, err := Unroll(with(cuff(60, 48, 25, th), func(b *Band) {
				b.WidthMM, b.EndWidthMM, b.Making, b.Drawn = 2.1, 2.1, Formed, c.drawn
				b.Dome, b.DomeFlat, b.DomeRadiusMM = c.dome, Conformal, r
			}))
			if r < 2*c.metal {
				assert.ErrorContains(t, err, "under twice the metal inside it", "%+v, %g", c, r)
			} else {
				assert.NoError(t, err, "%+v, %g", c, r)
			}
		}
	}
}
