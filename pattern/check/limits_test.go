package check

import (
	"fmt"
	"math"
	"slices"
	"testing"

	"fretband/pattern"
	"fretband/unroll"
	"fretband/unroll/plane"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// squarish is a design without a fault and without a process.
func squarish() pattern.Design {
	d := benchCuff()
	d.Fields[0].Stagger = 0.5
	return d
}

// What is told of the design's own numbers, on either side of where it begins: the
// figures follow from the numbers by hand.
func TestFindingsBeginAtTheirLimits(t *testing.T) {
	squares := func(rows int, stagger float64) []pattern.Field {
		return []pattern.Field{{Motif: "squares", Rows: rows, Repeats: 12, Stagger: stagger}}
	}
	for _, c := range []struct {
		check        string
		set          func(d *pattern.Design)
		what         string // "" for nothing is told
		severity     Severity
		value, limit float64
	}{
		// An ellipse of semi-axes 30 and 12 bends to 12²/30 = 4.8 mm at its ends; e = 1/(2R/T + 1).
		{"bending", func(d *pattern.Design) { d.Band.Inside.HeightMM, d.Band.Thickness.MM = 24, 2 }, "radius of 4.8 mm, 2.4 times the sheet: the outer face stretches by about 17 %", Caution, 4.8, 6},
		{"bending", func(d *pattern.Design) { d.Band.Inside.HeightMM, d.Band.Thickness.MM = 24, 1.59 }, "", 0, 0, 0},
		{"bending", func(d *pattern.Design) {
			d.Band.Inside.HeightMM, d.Band.Thickness.MM, d.Band.Making = 24, 2, unroll.Formed
		}, "", 0, 0, 0},

		{"gap", func(d *pattern.Design) { d.Band.GapMM = 19.9 }, "gap of 19.9 mm", Caution, 19.9, 20},
		{"gap", func(d *pattern.Design) { d.Band.GapMM = 20.1 }, "", 0, 0, 0},
		{"gap", func(d *pattern.Design) { d.Band.GapMM = 44.9 }, "", 0, 0, 0},
		{"gap", func(d *pattern.Design) { d.Band.GapMM = 45.1 }, "gap of 45.1 mm", Caution, 45.1, 45},
		{"gap", func(d *pattern.Design) { d.Band.GapMM = 0.02 }, "gap of 0.0 mm is unusual", Caution, 0.02, 20},
		{"gap", func(d *pattern.Design) { d.Band.GapMM = 0.005 }, "the gap is 0.005 mm", Breach, 0.005, 0.01},
		{"gap", func(d *pattern.Design) { d.Band = benchBangle().Band }, "", 0, 0, 0},

		{"ends", func(d *pattern.Design) { d.Band.EndCornerMM = 0.9 }, "sharp: a radius of 0.90 mm", Caution, 0.9, 1},
		{"ends", func(d *pattern.Design) { d.Band.EndCornerMM = 0 }, "not rounded", Caution, 0, 1},
		{"ends", func(d *pattern.Design) { d.Band.EndCornerMM = 1 }, "", 0, 0, 0},
		{"ends", func(d *pattern.Design) {
			d.Band.EndCornerMM, d.Band.EndShape, d.Band.EndLengthMM, d.Band.EndRadiusMM = 0, unroll.PointEnd, 25, 0.5
		}, "tips of the cuff's pointed ends have a radius of 0.50 mm", Caution, 0.5, 1},
		{"ends", func(d *pattern.Design) {
			d.Band.EndCornerMM, d.Band.EndShape, d.Band.EndLengthMM, d.Band.EndRadiusMM = 0, unroll.PointEnd, 25, 1
		}, "", 0, 0, 0},
		{"ends", func(d *pattern.Design) { d.Band.EndCornerMM, d.Band.EndShape = 0, unroll.RoundEnd }, "", 0, 0, 0},
		{"ends", func(d *pattern.Design) { d.Band = benchBangle().Band }, "", 0, 0, 0},

		{"stagger", func(d *pattern.Design) { d.Fields = squares(2, 0.3) }, "With a stagger of 0.3 the two halves", Note, 0, 0},
		{"stagger", func(d *pattern.Design) { d.Fields = append(squares(2, 0.5), squares(3, 0.1)...) }, "Field 2: With a stagger of 0.1", Note, 0, 0},
		{"stagger", func(d *pattern.Design) { d.Fields = squares(1, 0.3) }, "", 0, 0, 0},
		{"stagger", func(d *pattern.Design) { d.Fields = squares(2, 0) }, "", 0, 0, 0},
		{"stagger", func(d *pattern.Design) { d.Fields = squares(2, 0.5) }, "", 0, 0, 0},
		{"stagger", func(d *pattern.Design) { d.Fields = squares(2, 0.3); d.Fields[0].Mirror = pattern.MirrorAlong }, "", 0, 0, 0},
		{"stagger", func(d *pattern.Design) { d.Band, d.Fields = benchBangle().Band, squares(2, 0.3) }, "", 0, 0, 0},
		{"stagger", func(d *pattern.Design) { d.Fields[0].Motif, d.Fields[0].Stagger = "bricks", 0.3 }, "the stagger of 0.3 is not used", Note, 0, 0},
		{"stagger", func(d *pattern.Design) { d.Fields[0].Motif, d.Fields[0].Stagger = "bricks", 0.5 }, "", 0, 0, 0},

		{"rim", func(d *pattern.Design) { d.Rules.RimMM = 1.29 }, "rim of 1.29 mm is thinner than the bridge rule; it is kept at 1.30 mm", Note, 1.29, 1.3},
		{"rim", func(d *pattern.Design) { d.Rules.RimMM = 1.3 }, "", 0, 0, 0},

		{"nothing-cut", func(d *pattern.Design) { d.Fields = nil }, "it has no field", Note, 0, 0},
		{"nothing-cut", func(d *pattern.Design) { d.Rules.BridgeMM = 7 }, "no cell has room", Breach, 0, 0},
		{"nothing-cut", func(d *pattern.Design) { d.Rules.RimMM = 16 }, "no ground between them", Breach, 0, 0},
		{"nothing-cut", func(d *pattern.Design) { d.Fields, d.Edits = nil, []pattern.Edit{slot(0, 14, 1, 1)} }, "no cell has room", Breach, 0, 0},
		{"nothing-cut", func(*pattern.Design) {}, "", 0, 0, 0},
	} {
		d := squarish()
		c.set(&d)
		s, err := pattern.Lay(d)
		require.NoError(t, err, c.what)
		f, ok := worst(Run(s), c.check)
		if c.what == "" {
			assert.False(t, ok, "%s: %s", c.check, f.What)
			continue
		}
		require.True(t, ok, "%s: %s", c.check, c.what)
		assert.Contains(t, f.What, c.what)
		assert.Equal(t, c.severity, f.Severity, f.What)
		assert.InDelta(t, c.value, f.Value, 1e-6, f.What)
		assert.InDelta(t, c.limit, f.Limit, 1e-6, f.What)
	}
}

// A band of 160 x 24 x 1.2 mm with three round holes, put there by hand: areas, weights,
// lengths and money by pencil. Density of copper 8.96 g/cm³.
func TestFiguresAreThoseOfTheSheetByPencil(t *testing.T) {
	b := strip(160, 24)
	b.Thickness.MM, b.Joint, b.JointMM = 1.2, unroll.Soldered, 2
	b.Inside.WidthMM, b.Inside.HeightMM = 160/math.Pi-1.2, 160/math.Pi-1.2
	s := pierced(t, b, plane.Circle(plane.Pt(-30, 2), 4), plane.Circle(plane.Pt(0, -3), 5), plane.Circle(plane.Pt(21, 6), 3))
	s.Design.Metal.PricePerG = 3
	r := Run(s)
	const cut, gram = math.Pi * (16 + 25 + 9), 1.2 * 8.96 / 1000
	for what, v := range map[string][2]float64{
		"blank":        {160 * 24, r.BlankArea},
		"cut":          {cut, r.CutArea},
		"share":        {cut / (160 * 24), r.OpenShare},
		"plain":        {160 * 24 * gram, r.Plain},
		"removed":      {cut * gram, r.Removed},
		"left":         {(160*24 - cut) * gram, r.Left},
		"cost":         {(160*24 - cut) * gram * 3, r.Cost},
		"plain cost":   {160 * 24 * gram * 3, r.PlainCost},
		"openings":     {2 * math.Pi * 12, r.OpenLength},
		"cut length":   {2*math.Pi*12 + 2*(160+24), r.CutLength},
		"volume":       {(160*24 - cut) * 1.2, r.Faces.Volume},
		"plain volume": {160 * 24 * 1.2, r.Faces.PlainVolume},
	} {
		assert.InEpsilon(t, v[0], v[1], 1e-9, what)
	}
	// On the faces lengths along are as the radii: 160 mm lie half way through the sheet.
	f, radius := All(s).Faces, 160/(2*math.Pi)
	for what, v := range map[string][2]float64{
		"volume":       {r.Faces.Volume, f.Volume},
		"plain volume": {r.Faces.PlainVolume, f.PlainVolume},
		"inner":        {160 * 24 * (1 - 0.6/radius), f.InnerArea},
		"outer":        {160 * 24 * (1 + 0.6/radius), f.OuterArea},
		"inner cut":    {cut * (1 - 0.6/radius), f.InnerCut},
		"outer cut":    {cut * (1 + 0.6/radius), f.OuterCut},
	} {
		assert.InEpsilon(t, v[0], v[1], 1e-9, what)
	}
	// Beside each hole and clear of it.
	for i, x := range r.Net.X {
		want := 24.0
		for _, h := range [][2]float64{{-30, 4}, {0, 5}, {21, 3}} {
			if d := math.Abs(x - h[0]); d < h[1] {
				want -= 2 * math.Sqrt(h[1]*h[1]-d*d)
			}
		}
		assert.InDelta(t, want, r.Net.Net[i], 0.02, "at %g", x)
	}
}

// A round formed band, inside r and t thick, drawn on one of its faces: lengths along
// are as the radii.
func TestFacesOfAFormedBandAreAsTheirRadii(t *testing.T) {
	const r, th, gap = 9.0, 2.0, 1.5
	for drawn, at := range map[string]float64{unroll.InnerFace: r, "": r + th/2, unroll.OuterFace: r + th} {
		b := unroll.Band{
			Kind: unroll.Ring, Inside: unroll.Inside{By: unroll.ByAxes, WidthMM: 2 * r, HeightMM: 2 * r}, Thickness: unroll.Thickness{MM: th},
			WidthMM: 10, EndWidthMM: 10, Joint: unroll.Seamless, NeutralK: 0.5, Making: unroll.Formed, Drawn: drawn,
		}
		s := pierced(t, b, plane.Rect(plane.Box{Min: plane.Pt(-4-gap/2, -2), Max: plane.Pt(-gap/2, 2)}), plane.Rect(plane.Box{Min: plane.Pt(gap/2, -2), Max: plane.Pt(4+gap/2, 2)}))
		s.Rule = gap
		rep := Run(s)
		assert.InEpsilon(t, gap*r/at, rep.Faces.InnerBridge, 1e-6, drawn)
		assert.InEpsilon(t, gap*(r+th)/at, rep.Faces.OuterBridge, 1e-6, drawn)
		volume := math.Pi * ((r+th)*(r+th) - r*r) * 10
		assert.InEpsilon(t, volume, rep.Faces.PlainVolume, 1e-6, drawn)
		// Two openings of 4 x 4 on the drawn face, their walls along the normal.
		assert.InEpsilon(t, volume-2*4*4*th*(r+th/2)/at, rep.Faces.Volume, 1e-6, drawn)
		f, ok := worst(rep, "faces")
		// 0.95 of the rule is let pass: of a middle of 10 the inner face has 0.9, of an
		// outer one of 11 it has 0.82.
		require.Equal(t, drawn != unroll.InnerFace, ok, drawn)
		if !ok {
			continue
		}
		// Sawn sheet of 2 mm keeps bridges of 1.4 mm, 0.7 of the thickness, without a caution.
		assert.Equal(t, Caution, f.Severity, drawn)
		s.Process = "cast" // which keeps 0.7 of 1.6
		f, _ = worst(Run(s), "faces")
		assert.Equal(t, Note, f.Severity, drawn)
		assert.InDelta(t, gap*r/at, f.Value, 1e-6)
		require.Len(t, f.Fixes, 1, drawn)
		assert.Equal(t, unroll.InnerFace, f.Fixes[0].Design.Band.Drawn)
	}
}

// Of bridges of one width the one nearest to the middle of the blank is told, then the
// one on the right, then the upper.
func TestOfEqualBridgesTheOneNearestTheMiddleIsTold(t *testing.T) {
	const gap = 1.25
	for _, c := range []struct {
		name string
		at   []plane.Point // of pairs of holes, one each side
		want plane.Point
	}{
		{"along", []plane.Point{{X: -60}, {X: -20, Y: 1}, {X: 30}, {X: 55}}, plane.Pt(-20, 1)},
		{"right of two", []plane.Point{{X: -20, Y: 3}, {X: 20, Y: 3}, {X: 55}}, plane.Pt(20, 3)},
		{"right of two, the other way about", []plane.Point{{X: 20, Y: -3}, {X: -20, Y: 3}, {X: 55}}, plane.Pt(20, -3)},
		{"upper of two", []plane.Point{{X: 20, Y: -5}, {X: 20, Y: 5}, {X: -50}}, plane.Pt(20, 5)},
	} {
		for _, back := range []bool{false, true} {
			var loops []plane.Loop
			for _, p := range c.at {
				for _, side := range []float64{-1, 1} {
					loops = append(loops, plane.Circle(p.Add(plane.Pt(side*(2+gap/2), 0)), 2))
				}
			}
			if back {
				slices.Reverse(loops)
			}
			s := pierced(t, openStrip(160, 24), loops...)
			for what, b := range map[string]Bridge{"thinnest": Bridges(s).Thinnest, "between": Bridges(s).Between} {
				assert.InDelta(t, gap, b.Width, 1e-9)
				assert.InDelta(t, 0, b.A.Mid(b.B).Dist(c.want), 1e-6, "%s, %s: %v", c.name, what, b)
			}
			// Each opening's own is that to its partner.
			for i := range s.Openings {
				b := NearestBridge(s, i)
				assert.InDelta(t, gap, b.Width, 1e-9)
				assert.Equal(t, i/2, (b.To-1)/2)
				assert.Equal(t, i+1, b.From)
			}
		}
	}
	// To the edge: holes as far below the upper as above the lower.
	s := pierced(t, openStrip(160, 24), plane.Circle(plane.Pt(-40, 8), 3), plane.Circle(plane.Pt(10, -8), 3), plane.Circle(plane.Pt(10, 8), 3), plane.Circle(plane.Pt(50, 8), 3))
	b := Bridges(s)
	assert.InDelta(t, 1, b.ToEdge.Width, 1e-9)
	assert.InDelta(t, 0, b.ToEdge.A.Mid(b.ToEdge.B).Dist(plane.Pt(10, 11.5)), 1e-6)
	assert.Equal(t, b.ToEdge, b.Thinnest)
	assert.Equal(t, b.ToEdge, NearestBridge(s, 2))
}

// A laser of 0.2 mm kerf burns bridges under three kerfs, 0.6 mm: one is told by its
// width, several are counted, those to the edge too.
func TestBridgesThatBurnAreCounted(t *testing.T) {
	hole := func(x, y float64) plane.Loop { return plane.Circle(plane.Pt(x, y), 2) }
	for _, c := range []struct {
		loops []plane.Loop
		n     int
		what  string
	}{
		{[]plane.Loop{hole(0, 0), hole(4.62, 0)}, 0, ""},
		{[]plane.Loop{hole(0, 0), hole(4.5, 0)}, 1, "The thinnest bridge, 0.50 mm, is only 2.5 kerfs wide."},
		{[]plane.Loop{hole(0, 0), hole(4.5, 0), hole(30, 0), hole(30, 4.4), hole(-30, 9.45)}, 3, "3 bridges are under 3 kerfs wide; the thinnest, 0.40 mm, is 2.0."},
	} {
		s := pierced(t, openStrip(160, 24), c.loops...)
		s.Process, s.Design.Work.KerfMM, s.Flat.Thickness = "laser", 0.2, 0.5 // sheet in which 0.5 is usual
		r := Run(s)
		fs := checkHeat(s, r)
		if c.n == 0 {
			assert.Empty(t, fs)
			continue
		}
		require.Len(t, fs, 1)
		assert.Equal(t, c.what, fs[0].What)
		require.Len(t, fs[0].At, 2*c.n)
		assert.InDelta(t, r.Thinnest.Width, fs[0].At[0].Dist(fs[0].At[1]), 1e-9, "the thinnest first")
		assert.InDelta(t, 0.6, fs[0].Limit, 1e-12)
	}
}

func TestOpeningsAreNamedUpToSix(t *testing.T) {
	for n, want := range map[int]string{
		1: "opening 1", 2: "openings 1 and 2", 3: "openings 1, 2 and 3",
		6: "openings 1, 2, 3, 4, 5 and 6", 7: "openings 1, 2, 3, 4, 5, 6 and 1 more", 9: "openings 1, 2, 3, 4, 5, 6 and 3 more",
	} {
		var list []int
		for i := range n {
			list = append(list, i+1)
		}
		assert.Equal(t, want, openingsNamed(list), fmt.Sprint(n))
	}
}

// Tongues are narrower than twice the sheet, or than the bridge rule if that is more.
func TestTonguesAreNarrowerThanTwiceTheSheetOrTheRule(t *testing.T) {
	s := &pattern.Sheet{Flat: unroll.Flat{Thickness: 0.8}, Rule: 1.1}
	assert.Equal(t, 1.6, TongueWidth(s))
	s.Rule = 1.7
	assert.Equal(t, 1.7, TongueWidth(s))
}

// An edge index finds every edge that reaches into a box, and each once: all edges tried
// one by one.
func TestTheEdgeIndexMissesNoEdge(t *testing.T) {
	l := plane.Loop{{Point: plane.Pt(-40, -3), Bulge: 0.2}, {Point: plane.Pt(40, -3)}, {Point: plane.Pt(41, 0), Bulge: 0.9}, {Point: plane.Pt(39, 3)}, {Point: plane.Pt(0, 2), Bulge: -0.4}, {Point: plane.Pt(-39, 4)}}
	x := newEdgeIndex(l.Edges())
	all, asked := 0, 0
	for i := range 60 {
		for j := range 30 {
			b := plane.Box{Min: plane.Pt(float64(i)*1.7-50, float64(j)*1.1-20)}
			b.Max = b.Min.Add(plane.Pt(0.9, 0.7))
			got := x.near(b)
			assert.True(t, slices.IsSorted(got))
			for k, e := range l.Edges() {
				in := false
				for n := range 400 {
					in = in || b.Contains(e.At(float64(n)/400))
				}
				if in {
					all++
					assert.Contains(t, got, k)
				}
			}
			asked += len(got)
		}
	}
	// What is far from an edge itself is not near the boxes round its pieces.
	assert.Less(t, asked, 4*all)
}

// Narrow bridges of all kinds are listed by what they lack, most first, and from left to
// right where they lack as much. The rule is 1 mm, the rim's too.
func TestNarrowBridgesAreListedByWhatTheyLack(t *testing.T) {
	pair := func(x, gap float64) []plane.Loop {
		return []plane.Loop{plane.Circle(plane.Pt(x-2-gap/2, 0), 2), plane.Circle(plane.Pt(x+2+gap/2, 0), 2)}
	}
	loops := slices.Concat(pair(-50, 0.7), pair(-30, 0.3), pair(30, 0.5), pair(10, 0.9), pair(-10, 0.5))
	loops = append(loops, plane.Circle(plane.Pt(50, 12-2-0.6), 2), plane.Circle(plane.Pt(55, -12+2+0.2), 2))
	list, all := NarrowBridges(pierced(t, openStrip(160, 24), loops...))
	require.Equal(t, len(list), all)
	var widths, xs []float64
	for _, b := range list {
		assert.InDelta(t, 1, b.Limit(), 1e-9)
		assert.InDelta(t, 1-b.Width, b.Shortfall(), 1e-9)
		widths, xs = append(widths, math.Round(b.Width*1e6)/1e6), append(xs, math.Round(b.A.Mid(b.B).X))
	}
	assert.Equal(t, []float64{0.2, 0.3, 0.5, 0.5, 0.6, 0.7, 0.9}, widths)
	assert.Equal(t, []float64{55, -30, -10, 30, 50, -50, 10}, xs)
}

// Tongues of one shape and length are told once with how many there are; another of the
// same shape by itself, and one of the outline by its place.
func TestTonguesAlikeAreToldOnce(t *testing.T) {
	// Two teeth from above in one opening, 6 and 4 mm long, 1.4 wide.
	comb := plane.Polygon(plane.Pt(-9, 5), plane.Pt(-9, -5), plane.Pt(9, -5), plane.Pt(9, 5), plane.Pt(4.7, 5), plane.Pt(4.7, 1), plane.Pt(3.3, 1), plane.Pt(3.3, 5),
		plane.Pt(-3.3, 5), plane.Pt(-3.3, -1), plane.Pt(-4.7, -1), plane.Pt(-4.7, 5))
	s := pierced(t, openStrip(160, 24), comb.Move(plane.Pt(-40, 0)), comb, comb.Move(plane.Pt(40, 0)))
	for i := range s.Openings {
		s.Openings[i].Shape, s.Openings[i].At = 7, plane.Pt(float64(i-1)*40, 0)
	}
	ts := Tongues(s)
	require.Len(t, ts, 6)
	told := checkTongues(s, &Report{Deep: &Deep{Tongues: append(ts, Tongue{Length: 3, Root: 1, Tip: plane.Pt(60, 12)})}})
	require.Len(t, told, 3)
	for i, want := range []struct {
		length float64
		what   string
	}{{6, "in opening 1 and 2 more alike"}, {4, "in opening 1 and 2 more alike"}, {3, "at the edge of the blank"}} {
		assert.Contains(t, told[i].What, want.what)
		assert.InDelta(t, want.length, told[i].Value, 1e-3)
	}
}

// A bangle domed as the sphere of its own radius, drawn as the cylinder that keeps
// lengths across (plate carrée): along, the factor at the latitude φ is cos φ to that
// of the equator (J. Snyder, Map Projections: A Working Manual, USGS 1395, page 90).
func TestADomeTellsTheStretchOfItsMap(t *testing.T) {
	const r, th, width = 30.0, 1.0, 16.0
	for _, c := range []struct {
		pierced bool
		making  string
		width   float64
		told    bool
		severe  Severity
	}{{false, "", width, false, 0}, {true, "", width, true, Note}, {true, "", 28, true, Caution}, {true, unroll.Formed, width, false, 0}} {
		b := unroll.Band{
			Kind: unroll.Bangle, Inside: unroll.Inside{By: unroll.ByAxes, WidthMM: 2 * r, HeightMM: 2 * r}, Thickness: unroll.Thickness{MM: th},
			WidthMM: c.width, EndWidthMM: c.width, Joint: unroll.Seamless, NeutralK: 0.5,
			Dome: unroll.Outward, DomeRadiusMM: r, DomeFlat: unroll.ArcLength, Making: c.making,
		}
		var loops []plane.Loop
		if c.pierced {
			loops = append(loops, plane.Circle(plane.Pt(3, 0), 3))
		}
		s := pierced(t, b, loops...)
		rep := Run(s)
		most := 0.0 // of the map itself, at the edge and the middle
		_, top := s.Flat.EdgesAt(0)
		for _, v := range []float64{0, top} {
			along, across := s.Flat.Stretch(plane.Pt(0, v), s.Flat.Neutral)
			assert.InDelta(t, 1, across, 1e-9)
			most = math.Max(most, math.Abs(along-1))
		}
		equator, _ := s.Flat.Stretch(plane.Point{}, s.Flat.Neutral)
		edge, _ := s.Flat.Stretch(plane.Pt(0, top), s.Flat.Neutral)
		assert.InEpsilon(t, math.Cos(top/(r+s.Flat.Neutral)), edge/equator, 2e-3)
		assert.InDelta(t, most, rep.Doming.Most, 1e-8)
		f, ok := worst(rep, "doming")
		require.Equal(t, c.told, ok)
		if ok {
			assert.InDelta(t, 100*most, f.Value, 1e-6)
			assert.Contains(t, f.What, fmt.Sprintf("up to %.1f %%", 100*most))
			assert.Equal(t, c.severe, f.Severity, f.What)
			assert.Len(t, f.Fixes, 1)
		}
	}
}

func TestFindingsAreReadWorstFirstAndWhatIsAcceptedBeforeNotes(t *testing.T) {
	note, caution, breach := Finding{Kind: KindGap, Severity: Note}, Finding{Kind: KindGap, Severity: Caution}, Finding{Kind: KindGap, Severity: Breach}
	let := func(f Finding) Finding { f.Accepted = "as it is"; return f }
	got := InOrder([]Finding{note, let(breach), caution}, []Finding{let(caution), let(note), breach})
	assert.Equal(t, []Finding{breach, caution, let(breach), let(caution), note, let(note)}, got)
}
