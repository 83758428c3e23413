package check

import (
	"math"
	"testing"

	"fretband/pattern"
	"fretband/unroll"
	"fretband/unroll/plane"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// cuffOf is a plain cuff of constant width without openings.
func cuffOf(width, height, t, across, gap float64) pattern.Design {
	return pattern.Design{
		Name: "cuff",
		Band: unroll.Band{
			Kind: unroll.Cuff, Inside: unroll.Inside{By: unroll.ByAxes, WidthMM: width, HeightMM: height}, GapMM: gap,
			Thickness: unroll.Thickness{MM: t}, WidthMM: across, EndWidthMM: across, NeutralK: 0.5,
		},
		Metal: pattern.Metal{Alloy: "sterling-925"},
		Rules: pattern.DesignRules{BridgeMM: 1, RimMM: 1},
	}
}

func sprung(t *testing.T, d pattern.Design) (*pattern.Sheet, *Report, *Spring) {
	t.Helper()
	s, err := pattern.Lay(d)
	require.NoError(t, err)
	r := All(s)
	return s, r, r.Deep.Spring
}

// The whole way from a design: R 30, t 1.2, E 75 GPa, 25 mm wide, 10 N.
func TestARoundCuffSpringsAsASlitRing(t *testing.T) {
	const in, th, width = 29.4, 1.2, 25.0
	for _, gap := range []float64{10, 28} {
		d := cuffOf(2*in, 2*in, th, width, gap)
		s, _, sp := sprung(t, d)
		require.Empty(t, s.Openings)
		f := gap / 2 / in
		c := 2 * ((math.Pi-f)*(math.Cos(f)*math.Cos(f)+0.5) + 1.5*math.Sin(f)*math.Cos(f))
		// Timoshenko; with f = 0 the same numbers give 9.42478 mm.
		assert.InEpsilon(t, 9.42478*c/(3*math.Pi), 10*sp.PerN, 0.005)
		assert.InEpsilon(t, 2*in*math.Sin(f), sp.GapMM, 1e-6)
		// 100 MPa at f = 0; the inner face of a ring of R/t 25 has 1.0135 times that
		// (Winkler), and the pull adds P/A.
		assert.InEpsilon(t, 50*(1+math.Cos(f))*1.0135+10/(width*th), sp.StressMPa*10/sp.ForceN, 0.005)
		assert.InDelta(t, 0, sp.At.X, 0.2)
	}
}

// A cuff so thick that Winkler's terms tell: R 12, t 4, its moment R (cos f - cos θ) and
// pull -cos θ summed up in small steps.
func TestAThickCuffSpringsAsACrampedBar(t *testing.T) {
	const r, th, width, gap = 12.0, 4.0, 15.0, 8.0
	_, _, sp := sprung(t, cuffOf(2*r-th, 2*r-th, th, width, gap))
	const area = width * th
	f := gap / (2*r - th) // of the inside, where the gap is measured
	rn := th / math.Log((r+th/2)/(r-th/2))
	e := r - rn
	var sum float64
	const n = 20000
	for i := range n {
		th := f + (2*math.Pi-2*f)*(float64(i)+0.5)/n
		m, pull := r*(math.Cos(f)-math.Cos(th)), -math.Cos(th)
		sum += (m*m/(area*e*r) + pull*pull/area - 2*m*pull/(area*r)) * (2*math.Pi - 2*f) * r / n
	}
	assert.InEpsilon(t, sum/75000, sp.PerN, 2e-4)
	ri := r - th/2
	assert.InEpsilon(t, 1/area+r*(1+math.Cos(f))*(rn-ri)/(area*e*ri), sp.StressMPa/sp.ForceN, 2e-4)
}

// An oval cuff by the slow obvious way: the centre line in small chords, bending
// alone.
func TestAnOvalCuffSpringsAsItsCentreLineSays(t *testing.T) {
	const th, width, gap = 1.0, 20.0, 26.0
	s, _, sp := sprung(t, cuffOf(60, 48, th, width, gap))
	var ps []plane.Point
	const n = 4000
	for i := range n + 1 {
		q := s.Flat.Bend(plane.Pt(s.Flat.Length*(float64(i)/n-0.5), 0), th/2)
		ps = append(ps, plane.Pt(q.X, q.Y))
	}
	u := ps[n].Sub(ps[0]).Unit()
	var sum float64
	for i := range n {
		a := u.Cross(ps[i].Mid(ps[i+1]).Sub(ps[0]))
		sum += a * a * ps[i].Dist(ps[i+1])
	}
	assert.InEpsilon(t, sum/(75000*width*th*th*th/12), sp.PerN, 0.005)
}

func TestACuffSpringsBackTakesASetOrIsNotToBeOpened(t *testing.T) {
	d := cuffOf(58.8, 58.8, 1.2, 25, 10)
	_, _, sp := sprung(t, d)
	// sigma = E t delta/(3 pi R^2): annealed sterling of R 30, t 1.2 is springy up to
	// 11.69 mm without a gap.
	assert.InEpsilon(t, 11.69*springy, sp.BackMM, 0.03)
	for _, c := range []struct {
		open, proof float64
		words       string
		severity    Severity
	}{
		{10, 0, SpringsBack, Note},
		{11.9, 0, TakesASet, Caution}, // within a tenth of the proof stress
		{20, 0, TakesASet, Caution},
		{20, 300, SpringsBack, Note},
		{30, 0, DoNot, Caution},
	} {
		d.Wear = pattern.Wear{OpenMM: c.open, ProofMPa: c.proof}
		_, r, sp := sprung(t, d)
		assert.Equal(t, c.words, sp.Words, "%v mm", c.open)
		found := 0
		for _, f := range r.Findings {
			if f.Kind == KindSpringingOn {
				found++
				assert.Equal(t, c.severity, f.Severity)
				assert.Contains(t, f.What, c.words)
				assert.NotEmpty(t, f.Why)
				assert.Contains(t, f.Mend, "trial piece")
				assert.Equal(t, sp.ProofMPa, f.Limit)
			}
		}
		assert.Equal(t, 1, found)
		if c.words == SpringsBack {
			assert.Zero(t, sp.SetMM)
			assert.Greater(t, sp.BackMM, c.open)
		} else {
			assert.Less(t, sp.SetMM, c.open)
			assert.Less(t, sp.BackMM, c.open)
		}
	}
}

func TestAHarderTemperIsOfferedWhereOneIsKnownToBearIt(t *testing.T) {
	d := cuffOf(60, 48, 1, 22, 28)
	d.Wear.OpenMM = 15
	d.Metal.Alloy = "brass-cuzn30" // 145, 350 and 495 MPa (Olin Brass data sheet C26000)
	fixes := func() []Fix {
		_, r, _ := sprung(t, d)
		for _, f := range r.Findings {
			if f.Kind == KindSpringingOn {
				return f.Fixes
			}
		}
		t.Fatal("nothing said")
		return nil
	}
	fs := fixes()
	require.Len(t, fs, 1)
	assert.Equal(t, "Take it half hard", fs[0].Title)
	_, _, sp := sprung(t, fs[0].Design)
	assert.Equal(t, SpringsBack, sp.Words)
	assert.Equal(t, 350.0, sp.ProofMPa)
	// Wherever it is opened to: the temper offered bears it and the one before does not; none
	// is offered if the hardest does not bear it.
	offered := map[string]bool{}
	for open := 6.0; open < 70; open *= 1.08 {
		d.Wear.OpenMM = open
		borne, any := "", false
		for _, temper := range pattern.Tempers(d.Metal.Alloy) {
			d.Wear.Temper = temper.Key
			if _, _, sp := sprung(t, d); sp.Words == SpringsBack {
				borne, any = temper.Key, true
				break
			}
		}
		d.Wear.Temper = ""
		fs := fixes()
		assert.Equal(t, any && borne != "annealed", len(fs) > 0, "%g mm", open)
		for _, f := range fs {
			assert.Equal(t, borne, f.Design.Wear.Temper, "%g mm", open)
		}
		offered[borne] = true
	}
	assert.Len(t, offered, 4)
	d.Wear.OpenMM, d.Wear.ProofMPa = 15, 100
	assert.Empty(t, fixes(), "the user's own figure holds for every temper")
	d.Wear.ProofMPa, d.Metal.Alloy = 0, "sterling-925"
	assert.Empty(t, fixes(), "no proof stress of harder sterling was found")
}

// The mean square height of a parabolic section of rise h is 4 h²/45 (by hand), so a
// shallow dome stiffens the strip by 1 + 12 (4 h²/45)/t².
func TestADomedSectionIsStifferByItsRise(t *testing.T) {
	d := cuffOf(60, 60, 1.2, 22, 28)
	_, _, flat := sprung(t, d)
	d.Band.Dome, d.Band.DomeRiseMM, d.Band.DomeFlat = unroll.Outward, 1, unroll.EqualArea
	_, _, domed := sprung(t, d)
	assert.InEpsilon(t, 1+12*4.0/45/1.44, flat.PerN/domed.PerN, 0.02)
	// Its farthest face: the edges, 2/3 h and half the sheet from the middle.
	stiffer := 1 + 12*4.0/45/1.44
	assert.InEpsilon(t, (2.0/3+0.6)/0.6/stiffer, domed.StressMPa/domed.ForceN/(flat.StressMPa/flat.ForceN), 0.03)
}

func TestWithoutAProofStressTheUserIsAskedForIt(t *testing.T) {
	d := cuffOf(60, 48, 1.2, 22, 28)
	d.Wear.Temper = "half-hard"
	_, r, sp := sprung(t, d)
	assert.Empty(t, sp.Words)
	assert.Positive(t, sp.ForceN)
	f := r.Findings[len(r.Findings)-1]
	for _, g := range r.Findings {
		if g.Kind == KindSpringingOn {
			f = g
		}
	}
	assert.Contains(t, f.What, "no proof stress of Sterling silver 925, half hard, is known")
	assert.Contains(t, f.Mend, "supplier")
	d.Metal.Alloy = "gold-585-red"
	d.Wear.Temper = ""
	_, r, sp = sprung(t, d)
	assert.Zero(t, sp.ForceN)
	assert.Empty(t, sp.Stress)
	for _, g := range r.Findings {
		if g.Kind == KindSpringingOn {
			f = g
		}
	}
	assert.Contains(t, f.What, "no modulus and proof stress")
	d.Wear.ModulusGPa, d.Wear.ProofMPa = 90, 300
	_, _, sp = sprung(t, d)
	assert.NotEmpty(t, sp.Words)
}

func TestClosedBandsAreNotSprungOn(t *testing.T) {
	s, err := pattern.Lay(pattern.Design{
		Name: "bangle", Band: strip(180, 20), Metal: pattern.Metal{Alloy: "copper"},
		Rules:  pattern.DesignRules{BridgeMM: 1.5, RimMM: 2},
		Fields: []pattern.Field{{Motif: "circles", Rows: 2, Repeats: 20}},
	})
	require.NoError(t, err)
	r := All(s)
	assert.Nil(t, r.Deep.Spring)
	for _, f := range r.Findings {
		assert.NotEqual(t, KindSpringingOn, f.Kind)
	}
}

// The wrist that the opening is for: an oval 1.3 times as wide as deep, as large as
// the inside. 4 a E(m) of 24 x 31.2 mm is 174.1 mm.
func TestTheOpeningLetsTheNarrowSideOfTheWristThrough(t *testing.T) {
	around := unroll.Oval{A: 31.2, B: 24}.Circumference()
	d := cuffOf(around/math.Pi, around/math.Pi, 1, 20, 28)
	_, _, sp := sprung(t, d)
	assert.InDelta(t, 48-sp.GapMM, sp.OpenMM, 1e-6)
	assert.Contains(t, sp.How, "memory")
	// Where the inside is flatter than a wrist usually is, the wrist is taken to be so.
	for _, size := range [][2]float64{{64, 40}, {40, 64}} {
		_, _, sp := sprung(t, cuffOf(size[0], size[1], 1, 20, 28))
		assert.InDelta(t, 40-sp.GapMM, sp.OpenMM, 1e-6)
	}
	d.Band.GapMM = 60 // wider than the wrist is deep
	_, r, wide := sprung(t, d)
	assert.Zero(t, wide.OpenMM)
	said := false
	for _, f := range r.Findings {
		said = said || f.Kind == KindSpringingOn && f.Severity == Note
	}
	assert.True(t, said)
	d.Band.GapMM, d.Wear.OpenMM = 28, 7
	_, _, sp = sprung(t, d)
	assert.Equal(t, 7.0, sp.OpenMM)
}

func TestARaiserIsThatOfAHoleInABentPlate(t *testing.T) {
	// A hole much smaller than the plate is thick is one in tension, 3; a much larger
	// one that of thin plates, (5+3 nu)/(3+nu) (J. Goodier 1936), within 1 % of Roark's
	// fit.
	assert.InEpsilon(t, 3, bentHole(1e-6, 1), 0.01)
	assert.InEpsilon(t, 5.9/3.3, bentHole(1e6, 1), 0.01)
	circle := plane.Loop{{Point: plane.Pt(-2, 1), Bulge: 1}, {Point: plane.Pt(4, 1), Bulge: 1}}
	got := raisers(circle, 1.2)
	require.Len(t, got, 2)
	assert.InDelta(t, bentHole(6, 1.2), got[0].factor, 1e-9)
	assert.InDelta(t, 0, got[0].at.Dist(plane.Pt(1, 4)), 1e-9)
	assert.InDelta(t, 0, got[1].at.Dist(plane.Pt(1, -2)), 1e-9)
	// A slot across the band, of ends 0.5 mm round: 1 + (K-1) sqrt(a/rho).
	slot := plane.Loop{{Point: plane.Pt(0.5, -2)}, {Point: plane.Pt(0.5, 2), Bulge: 1}, {Point: plane.Pt(-0.5, 2)}, {Point: plane.Pt(-0.5, -2), Bulge: 1}}
	got = raisers(slot, 1.2)
	assert.InDelta(t, 1+(bentHole(5, 1.2)-1)*math.Sqrt(5), got[0].factor, 1e-9)
	assert.InDelta(t, 0, got[0].at.Dist(plane.Pt(0, 2.5)), 1e-9)
	// Along the band only its ends disturb, as a hole of their diameter.
	for _, r := range raisers(slot.Turn(math.Pi/2), 1.2) {
		assert.InDelta(t, bentHole(1, 1.2), r.factor, 1e-9)
	}
}

// On a flared band the raiser is that of the same opening on a straight one, at the
// same place of it: its chords are no corners.
func TestAFlaredBandsRaisersAreThoseOfItsOpenings(t *testing.T) {
	d := cuffOf(60, 60, 1.2, 24, 28)
	d.Edits = []pattern.Edit{{Do: pattern.Add, At: []pattern.Spot{{XMM: 40}}, Shape: pattern.OvalShape, WidthMM: 4, HeightMM: 9}}
	_, _, straight := sprung(t, d)
	d.Band.FlareDeg = 8
	s, _, flared := sprung(t, d)
	require.Len(t, s.Openings, 1)
	assert.InEpsilon(t, straight.Raise, flared.Raise, 0.01)
	assert.InDelta(t, 0, s.Openings[0].Loop.Nearest(flared.PeakAt).D, 1e-6)
	x, v := s.Flat.Where(flared.PeakAt)
	mx, mv := s.Flat.Where(s.Openings[0].Loop.Centroid())
	assert.InDelta(t, mx, x, 0.3)
	assert.InDelta(t, 4.5, math.Abs(v-mv), 0.05)
	// Of an ellipse 1 + (K-1) a/b; the arcs that it is fitted with differ by a little.
	assert.InEpsilon(t, 1+(bentHole(9, 1.2)-1)*4.5/2, straight.Raise, 0.02)
}

// One round opening of diameter d at the middle: at its middle the full width less d
// is left; its shade reaches d/6 beyond either end, and further on nothing is lost.
func TestAnOpeningTakesItsShadeFromTheWidthForBending(t *testing.T) {
	d := cuffOf(60, 60, 1.2, 24, 28)
	d.Edits = []pattern.Edit{{Do: pattern.Add, At: []pattern.Spot{{}}, Shape: pattern.CircleShape, WidthMM: 9}}
	s, r, _ := sprung(t, d)
	require.Len(t, s.Openings, 1)
	wide := SpringWidths(s, r)
	at := func(x float64) float64 {
		i := int(math.Round((x - r.Net.X[0]) / (r.Net.X[1] - r.Net.X[0])))
		return wide[i]
	}
	assert.InDelta(t, 24-9, at(0), 0.02)
	assert.Less(t, at(5.5), 23.5)
	assert.InDelta(t, 24, at(6.2), 1e-9)
	for i := range wide {
		assert.LessOrEqual(t, wide[i], r.Net.Net[i])
	}
	// By pencil: a circle of the radius R is taken as an ellipse of R + R/3 along the
	// band; two above each other take the sum, two beside each other what either takes.
	circles := [][3]float64{{-40, 3, 4}, {-20, 7, 3}, {-20, -6, 2}, {25, 1, 5}, {37, 1, 5}}
	s.Openings = nil
	for i, c := range circles {
		l := plane.Circle(plane.Pt(c[0], c[1]), c[2])
		s.Openings = append(s.Openings, pattern.Opening{Number: i + 1, Loop: l, Box: l.Bounds(), Shape: -1})
	}
	r = Run(s)
	left := func(i int, less float64) float64 {
		var half [5]float64
		for k, c := range circles {
			half[k] = math.Sqrt(math.Max(0, math.Pow(c[2]-less, 2)-math.Pow((r.Net.X[i]-c[0])*3/4, 2)))
		}
		return math.Min(r.Net.Full[i]-2*(half[0]+half[1]+half[2]+math.Max(half[3], half[4])), r.Net.Net[i])
	}
	for i, got := range SpringWidths(s, r) { // chords stand up to 0.005 mm inside of the circle
		assert.GreaterOrEqual(t, got, left(i, 0)-1e-9, "at %g", r.Net.X[i])
		assert.LessOrEqual(t, got, left(i, 0.005)+1e-9, "at %g", r.Net.X[i])
	}
}
