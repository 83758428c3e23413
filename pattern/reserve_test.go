package pattern

import (
	"fmt"
	"math"
	"math/rand"
	"testing"

	"github.com/stretchr/testify/require"

	"fretband/unroll"
	"fretband/unroll/plane"
)

// reserveBands are one of each way of closing and of each map to the flat.
func reserveBands() map[string]unroll.Band {
	round := unroll.Inside{By: unroll.ByCircumference, CircumferenceMM: 190, Ratio: 1}
	plain := unroll.Band{Inside: round, Thickness: unroll.Thickness{MM: 1}, WidthMM: 24, EndWidthMM: 24, NeutralK: 0.5}
	cuff, soldered, seamless := plain, plain, plain
	cuff.Kind, cuff.GapMM = unroll.Cuff, 30
	soldered.Kind, soldered.Joint, soldered.JointMM = unroll.Bangle, unroll.Soldered, 2
	seamless.Kind, seamless.Joint = unroll.Bangle, unroll.Seamless
	flared, round2 := cuff, soldered
	flared.FlareDeg, round2.FlareDeg = 12, -15
	return map[string]unroll.Band{"cuff": cuff, "soldered": soldered, "seamless": seamless, "flared cuff": flared, "flared bangle": round2}
}

func withReserve(b unroll.Band, r Reserve) Design {
	return Design{
		Name: "Reserves", Band: b, Metal: Metal{Alloy: "sterling-925"},
		Rules:    DesignRules{BridgeMM: 1, RimMM: 1.5, CornerMM: 0.2, SmallestMM: 0.8},
		Fields:   []Field{{Motif: "diamonds", Rows: 4, Repeats: 30, Stagger: 0.5}},
		Reserves: []Reserve{r},
	}
}

// The slow, obvious way: many points on every opening's edge against the true
// shape, by its formula, at all places of the row on all turns.
func TestOpeningsKeepTheMarginFromTheTrueShape(t *testing.T) {
	shapes := map[string]Reserve{
		"circle":    {Shape: CircleShape, WidthMM: 5},
		"oval":      {Shape: OvalShape, WidthMM: 9, HeightMM: 4, RotationDeg: 25},
		"thin oval": {Shape: OvalShape, WidthMM: 14, HeightMM: 1.2, RotationDeg: -70},
		"rectangle": {Shape: RectangleShape, WidthMM: 8, HeightMM: 3, RotationDeg: 33},
		// The same oval as a path of two half turns, and stretched from a small one.
		"path":      {Shape: PathShape, Path: "M-4.5 0A4.5 2 0 0 1 4.5 0A4.5 2 0 0 1 -4.5 0Z", RotationDeg: 25},
		"stretched": {Shape: PathShape, Path: "M-1 0A1 1 0 0 1 1 0A1 1 0 0 1 -1 0Z", WidthMM: 9, HeightMM: 4, RotationDeg: 25},
	}
	for band, b := range reserveBands() {
		for shape, r := range shapes {
			t.Run(band+", "+shape, func(t *testing.T) {
				r := r
				f, err := unroll.Unroll(b)
				require.NoError(t, err)
				at := f.Place(71, 1)
				r.XMM, r.YMM, r.MarginMM, r.Count, r.SpacingMM = at.X, at.Y, 1.5, 3, 14.5
				s, err := Lay(withReserve(b, r))
				require.NoError(t, err)
				require.NotEmpty(t, s.Openings)
				places := r.truePlaces(s)
				a, h := r.WidthMM/2, r.HeightMM/2
				if r.Shape == CircleShape {
					h = a
				} else if r.Path != "" {
					a, h = 4.5, 2
				}
				least := math.Inf(1)
				for _, o := range s.Openings {
					for _, e := range o.Loop.Edges() {
						for i := range 4 {
							p := e.At(float64(i) / 4)
							for _, w := range places {
								if p.Dist(w.at)-math.Hypot(a, h) > least {
									continue // nearer ones have been seen
								}
								q := p.Sub(w.at).Turn(-w.turn)
								if r.Shape == RectangleShape {
									least = math.Min(least, math.Hypot(math.Max(math.Abs(q.X)-a, 0), math.Max(math.Abs(q.Y)-h, 0)))
								} else {
									least = math.Min(least, toEllipse(q, a, h))
								}
							}
						}
					}
				}
				require.GreaterOrEqual(t, least, r.MarginMM-1e-7)
				require.Less(t, least, r.MarginMM+0.1, "openings come up to the margin")
			})
		}
	}
}

type truePlace struct {
	at   plane.Point
	turn float64
}

// truePlaces works the places of a row out anew, from the sheet's map alone: on a
// flared band places turn about the apex, where two lines across the band meet.
func (r Reserve) truePlaces(s *Sheet) []truePlace {
	f := s.Flat
	turns := []float64{0}
	if !s.Design.Band.Open() {
		turns = []float64{-f.Length, 0, f.Length, -2 * f.Length, 2 * f.Length}
	}
	var ps []truePlace
	x0, v := f.Where(plane.Pt(r.XMM, r.YMM))
	up := f.Place(x0, 1).Sub(f.Place(x0, 0))
	for i := range r.Count {
		for _, t := range turns {
			dx := r.SpacingMM * (float64(i) - float64(r.Count-1)/2)
			if f.Flared() {
				// Arc length at v over arc length at 0 is as their radii; the
				// radius from the turn of the line across per mm.
				one := f.Place(1, 1).Sub(f.Place(1, 0))
				radius := -1 / math.Asin(f.Place(0, 1).Sub(f.Place(0, 0)).Cross(one))
				dx *= radius / (radius + v)
			}
			x := x0 + dx + t
			across := f.Place(x, 1).Sub(f.Place(x, 0))
			ps = append(ps, truePlace{f.Place(x, v), math.Atan2(up.Cross(across), up.Dot(across)) + r.RotationDeg*math.Pi/180})
		}
	}
	return ps
}

// toEllipse is the distance to an ellipse's inside, found by halving the angle at
// which the normal points to p.
func toEllipse(p plane.Point, a, b float64) float64 {
	x, y := math.Abs(p.X), math.Abs(p.Y)
	if x*x/(a*a)+y*y/(b*b) <= 1 {
		return 0
	}
	lo, hi := 0.0, math.Pi/2
	for range 60 {
		m := (lo + hi) / 2
		s, c := math.Sincos(m)
		// Derivative of the squared distance by the angle.
		if (a*a-b*b)*s*c-x*a*s+y*b*c < 0 {
			hi = m
		} else {
			lo = m
		}
	}
	s, c := math.Sincos((lo + hi) / 2)
	return math.Hypot(x-a*c, y-b*s)
}

func TestRowsStandAtTheirSpacing(t *testing.T) {
	for band, b := range reserveBands() {
		for _, spacing := range []float64{0, 17} {
			t.Run(fmt.Sprintf("%s, %g", band, spacing), func(t *testing.T) {
				r := Reserve{Shape: CircleShape, WidthMM: 4, XMM: 3, YMM: 4, Count: 7, SpacingMM: spacing}
				if !b.Open() {
					r.XMM = 71 // the row goes on over the end
				}
				s, err := Lay(withReserve(b, r))
				require.NoError(t, err)
				require.Len(t, s.Reserves, 7)
				closed := !b.Open()
				var xs []float64
				_, v := s.Flat.Where(plane.Pt(r.XMM, 4))
				for _, k := range s.Reserves {
					require.Equal(t, 0, k.Reserve)
					x, w := s.Flat.Where(k.Loop.Centroid())
					require.InDelta(t, v, w, 1e-9, "all at one height")
					require.LessOrEqual(t, math.Abs(x), s.Flat.Length/2+1e-9)
					xs = append(xs, x)
				}
				want := s.Flat.Length / 7
				if spacing > 0 {
					want = spacing
					if s.Flat.Flared() {
						// On a cone flattened, arcs are as their distances from the apex.
						mean := s.Flat.Place(1e-4, v).Dist(s.Flat.Place(-1e-4, v)) / 2e-4
						want = spacing / mean
					}
				}
				for i := range xs {
					d := xs[(i+1)%7] - xs[i]
					if i == 6 {
						if !closed || spacing > 0 {
							continue
						}
					}
					if closed {
						d -= s.Flat.Length * math.Round((d-want)/s.Flat.Length)
					}
					require.InDelta(t, want, d, 1e-7, "from %d to the next", i)
				}
			})
		}
	}
}

// A stone on the joint of a band without one, as a whole: what an opening keeps from
// it is the same as from one in the middle, since a seamless band has no place of
// its own.
func TestAReserveOverTheSeamIsAsTrueAsAnyOther(t *testing.T) {
	b := reserveBands()["seamless"]
	at := func(x float64) *Sheet {
		d := withReserve(b, Reserve{Shape: OvalShape, WidthMM: 9, HeightMM: 5, RotationDeg: 20, XMM: x, MarginMM: 1})
		s, err := Lay(d)
		require.NoError(t, err)
		return s
	}
	middle := at(0)
	half := middle.Flat.Length / 2
	for _, x := range []float64{half, -half, half + 2*middle.Flat.Length/30, 3 * half} {
		over := at(x)
		require.Len(t, over.Openings, len(middle.Openings))
		var a, c float64
		for i := range over.Openings {
			a += over.Openings[i].Loop.Area()
			c += middle.Openings[i].Loop.Area()
		}
		require.InDelta(t, c, a, 1e-4)
	}
	require.Len(t, at(half).Again(at(half).Reserves[0].Loop), 2)
	require.Len(t, middle.Again(middle.Reserves[0].Loop), 1)
}

// A reserve as thin as a hair with no margin still leaves a bridge between the
// openings on either side.
func TestAThinReserveLeavesABridge(t *testing.T) {
	for _, r := range []Reserve{
		{Shape: CircleShape, WidthMM: 0.2},
		{Shape: OvalShape, WidthMM: 20, HeightMM: 0.2, RotationDeg: 60},
		{Shape: RectangleShape, WidthMM: 20, HeightMM: 0.2, RotationDeg: 60},
		{Shape: PathShape, Path: "M-10 -.1L10 -.1L10 .1L-10 .1Z", RotationDeg: -60},
		{Shape: PathShape, Path: "M-10 -.1L10 -.1L10 .1L-10 .1Z", RotationDeg: -60, WidthMM: 15, HeightMM: 0.1},
	} {
		r.XMM = 12
		d := withReserve(reserveBands()["cuff"], r)
		d.Fields = []Field{{Motif: "squares", Rows: 1, Repeats: 7}}
		s, err := Lay(d)
		require.NoError(t, err)
		for _, drop := range s.Dropped {
			require.NotContains(t, drop.Why, "another part of the same cell", r.Shape)
		}
		for i := range s.Openings {
			for j := range i {
				require.GreaterOrEqual(t, plane.Nearest(s.Openings[i].Loop, s.Openings[j].Loop).D, s.Rule-1e-6)
			}
		}
	}
}

// The least width of a drawn reserve, by hand: of a bar its height, of a triangle with
// sides of 3, 4 and 5 the diameter of its inscribed circle, 2.
func TestADrawnReserveIsAsThickAsItsLargestCircle(t *testing.T) {
	bar, triangle := plane.Rect(plane.Box{Min: plane.Pt(-10, -0.15), Max: plane.Pt(10, 0.15)}), plane.Polygon(plane.Pt(0, 0), plane.Pt(4, 0), plane.Pt(0, 3))
	for _, c := range []struct {
		l          plane.Loop
		most, want float64
	}{{bar, 1, 0.3}, {bar, 7, 0.3}, {bar, 0.2, 0.2}, {triangle, 3, 2}, {triangle, 1.5, 1.5}} {
		require.InDelta(t, c.want, Reserve{Shape: PathShape}.narrowest(c.l, c.most), plane.FitTolerance+1e-9)
	}
}

// The fitted oval holds the true one and is nowhere more than the tolerance outside.
func TestAnOvalReserveIsNowhereInsideTheTrueOne(t *testing.T) {
	rng := rand.New(rand.NewSource(5))
	for range 60 {
		a, b := 0.05+20*rng.Float64(), 0.05+20*rng.Float64()
		l := roundOval(a, b)
		require.NoError(t, l.Check())
		for _, e := range l.Edges() {
			for i := range 9 {
				d := toEllipse(e.At(float64(i)/9), a, b)
				p := e.At(float64(i) / 9)
				require.GreaterOrEqual(t, math.Hypot(p.X/a, p.Y/b), 1-1e-9, "%g x %g", a, b)
				require.LessOrEqual(t, d, plane.FitTolerance+1e-9)
			}
		}
	}
}

// What a drag of a row of stones waits for, on a band of many openings.
func BenchmarkLayWithARowAndMarks(b *testing.B) {
	d := withReserve(reserveBands()["seamless"], Reserve{Shape: OvalShape, WidthMM: 4, HeightMM: 3, Count: 24, MarginMM: 0.6})
	d.Fields[0] = Field{Motif: "diamonds", Rows: 12, Repeats: 80, Stagger: 0.5}
	d.Rules.BridgeMM, d.Rules.SmallestMM = 0.6, 0.4
	d.Engravings = sampleMarks()
	s, err := Lay(d)
	if err != nil {
		b.Fatal(err)
	}
	for b.Loop() {
		if s, err = Lay(d); err != nil {
			b.Fatal(err)
		}
	}
	b.ReportMetric(float64(len(s.Openings)), "openings")
}
