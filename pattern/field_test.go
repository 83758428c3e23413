package pattern

import (
	"fmt"
	"math"
	"math/rand"
	"reflect"
	"testing"

	"fretband/pattern/motif"
	"fretband/unroll"
	"fretband/unroll/plane"

	"github.com/stretchr/testify/require"
)

// randomFields draws a design of one to four fields with all that a field may ask.
func randomFields(rng *rand.Rand) Design {
	d := randomDesign(rng)
	pick := func(lo, hi float64) float64 { return lo + (hi-lo)*rng.Float64() }
	chance := func(p float64) bool { return rng.Float64() < p }
	one := d.Fields[0]
	// A small ring, which areas may reach round.
	if ring := d; ring.Band.Kind == unroll.Bangle && chance(0.3) {
		ring.Band.Kind, ring.Band.Making, ring.Band.Drawn = unroll.Ring, "", ""
		ring.Band.Inside = unroll.Inside{By: unroll.ByCircumference, CircumferenceMM: pick(45, 70), Ratio: 1}
		if ring.Check() == nil {
			d = ring
		}
	}
	d.Rules.BridgeMM = pick(0.1, 1.5)
	d.Fields = nil
	grades := func() (g []Grade) {
		for at := pick(-1, 0.5); at <= 1 && len(g) < 6; at += pick(0.01, 0.9) {
			g = append(g, Grade{math.Max(-1, at), pick(0.3, 3)})
		}
		if chance(0.2) {
			g = []Grade{{-1, pick(0.3, 3)}, {pick(-0.5, 0.5), pick(0.3, 3)}, {1, pick(0.3, 3)}}
		}
		return g
	}
	for n := 1 + rng.Intn(4); len(d.Fields) < n; {
		f := Field{Rows: 1 + rng.Intn(5), Repeats: 1 + rng.Intn(30), Stagger: pick(0, 0.5), Follow: one.Follow}
		if m := motif.All(); chance(0.1) {
			f.Motif, f.Path = motif.OwnKey, "M0 0 L3 0 A2 2 0 0 1 3 4 L0 4 L1 2 Z"
		} else {
			m := m[rng.Intn(len(m))]
			f.Motif, f.Numbers = m.Key, map[string]float64{}
			for _, n := range m.Numbers {
				if chance(0.5) {
					f.Numbers[n.Key] = pick(n.Min, n.Max)
				}
			}
		}
		if chance(0.5) {
			f.Repeats, f.PitchMM = 0, pick(2, 20)
		}
		if chance(0.4) {
			f.Phase = pick(-1, 1)
		}
		if chance(0.4) {
			f.RotationDeg = pick(-360, 360)
			if chance(0.2) {
				f.RotationDeg = 90 * math.Round(f.RotationDeg/90)
			}
		}
		if chance(0.4) {
			f.Mirror = []string{MirrorAlong, MirrorAcross, MirrorBoth}[rng.Intn(3)]
		}
		f.Edge = []string{"", EdgeClip, EdgeWhole, EdgeFit}[rng.Intn(4)]
		if chance(0.4) {
			f.BridgeMM = d.Rules.BridgeMM + pick(0, 1)
		}
		if chance(0.3) {
			f.GradeAlong = grades()
		}
		if chance(0.2) {
			f.GradeAcross = grades()
		}
		if chance(0.5) {
			f.GradeBridge = pick(0, 1)
		}
		if len(d.Fields) == 2 {
			f.BridgeAlong = []Grade{{-0.6, 1.6}, {0.3, 0.8}}
		}
		a := &f.Area
		switch a.Shape = []string{"", RunShape, StripShape, CircleShape, OvalShape, RectangleShape, PathShape}[rng.Intn(7)]; a.Shape {
		case "":
		case RunShape:
			a.FromMM = pick(-120, 80)
			if n := len(d.Fields); n > 0 && d.Fields[n-1].Area.Shape == RunShape && chance(0.5) {
				a.FromMM = d.Fields[n-1].Area.ToMM
				if chance(0.5) {
					f.Repeats, f.PitchMM = 0, d.Fields[n-1].PitchMM
				}
			}
			a.ToMM = a.FromMM + pick(5, 120)
		case StripShape:
			a.FromMM = pick(-20, 10)
			a.ToMM = a.FromMM + pick(2, 25)
		default:
			a.XMM, a.YMM, a.WidthMM, a.RotationDeg = pick(-100, 100), pick(-10, 10), pick(5, 60), pick(-180, 180)
			if chance(0.1) {
				a.WidthMM = pick(60, 150)
			}
			if a.Shape != CircleShape {
				a.HeightMM = pick(3, 30)
			}
			if a.Shape == PathShape {
				a.Path = "M0 0 L10 0 L10 4 L6 4 A3 3 0 0 0 6 10 L0 10 Z"
			}
		}
		d.Fields = append(d.Fields, f)
		if d.Check() != nil {
			d.Fields = d.Fields[:len(d.Fields)-1]
		}
	}
	return d
}

// The slow, obvious way, over all that fields may ask: as for one field; between
// fields the wider bridge; all within their areas and none on an earlier one.
func TestFieldsKeepTheRuleWhateverTheNumbers(t *testing.T) {
	n := 300
	if testing.Short() {
		n = 40
	}
	openings := 0
	for seed := range n {
		rng := rand.New(rand.NewSource(int64(seed)))
		d := randomFields(rng)
		s, err := Lay(d)
		if err != nil {
			t.Errorf("seed %d: %v", seed, err)
			continue
		}
		openings += len(s.Openings)
		need := func(got, want float64, what string, args ...any) {
			if got < want-1e-6 {
				t.Errorf("seed %d (%s): %s: %.7f mm, least %.7f", seed, d.Band.Kind, fmt.Sprintf(what, args...), got, want)
			}
		}
		wide := make([]float64, len(d.Fields))
		told := make([]bool, len(d.Fields))
		for i, f := range d.Fields {
			wide[i] = f.Bridge(d.Rules)
		}
		turns := fieldTurns(d, s.Flat)
		var blank plane.Region
		for i := range s.Openings {
			o := &s.Openings[i]
			told[o.Field] = true
			if o.Loop.Area() <= 0 {
				t.Errorf("seed %d: opening %d is inside out", seed, o.Number)
			}
			if err := o.Loop.Check(); err != nil {
				t.Errorf("seed %d: opening %d: %v", seed, o.Number, err)
			}
			if got := o.Loop.Bounds(); got.Min.Dist(o.Box.Min)+got.Max.Dist(o.Box.Max) > 1e-9 {
				t.Errorf("seed %d: opening %d has the box %v, not %v", seed, o.Number, got, o.Box)
			}
			if n := o.Loop.Necks(s.Rule - 2e-6); len(n) > 0 {
				t.Errorf("seed %d: opening %d has a neck of %.6f mm", seed, o.Number, n[0].D)
			}
			if len(o.Loop.Inset(d.Rules.SmallestMM/2-1e-6)) == 0 && d.Rules.SmallestMM > 0.01 {
				t.Errorf("seed %d: opening %d is too small", seed, o.Number)
			}
			if r := d.Rules.CornerMM; r > 0.01 {
				for k := range o.Loop {
					in, out := o.Loop.Edge((k+len(o.Loop)-1)%len(o.Loop)), o.Loop.Edge(k)
					if out.Bulge > 0 && out.Radius() < r-1e-5 && out.Chord() > 1e-4 {
						t.Errorf("seed %d: opening %d: an arc of radius %.6f", seed, o.Number, out.Radius())
					}
					most := 0.01
					if math.Min(in.Chord(), out.Chord()) < 1.001*plane.ShortestEdge {
						most = plane.ShortestEdge / r // the chord of that length of a round corner
					}
					if turn := in.Tangent(1).Cross(out.Tangent(0)); turn > most {
						t.Errorf("seed %d: opening %d: a corner of %.3f rad", seed, o.Number, turn)
					}
				}
			}
			for j := range i + 1 {
				for _, m := range turns {
					p := &s.Openings[j]
					least := s.Rule
					if o.Field != p.Field {
						least = math.Max(wide[o.Field], wide[p.Field])
					}
					still := m == motion{}
					if i == j && still || still && o.Box.Dist(p.Box) >= least {
						continue
					}
					l := m.loop(p.Loop)
					if o.Box.Dist(l.Bounds()) >= least {
						continue
					}
					need(plane.Nearest(o.Loop, l).D, least, "openings %d and %d of fields %d and %d", o.Number, p.Number, o.Field, p.Field)
				}
			}
			if blank == nil {
				blank = plane.Region{s.Flat.Outline}
				if s.Flat.Period > 0 {
					for _, m := range turns[1:] {
						if blank, err = plane.Or(blank, plane.Region{m.loop(s.Flat.Outline)}); err != nil {
							t.Fatal(err)
						}
					}
				}
			}
			if !blank.Contains(o.Loop[0].Point) {
				t.Errorf("seed %d: opening %d lies off the blank", seed, o.Number)
			}
			need(plane.NearestRegion(o.Loop, blank).D, s.EdgeRule, "opening %d to the edge", o.Number)
			for _, r := range s.Reserves {
				for _, m := range turns {
					l := m.loop(r.Loop)
					if o.Box.Dist(l.Bounds()) > 3 {
						continue
					}
					need(plane.Nearest(o.Loop, l).D, d.Reserves[r.Reserve].MarginMM, "opening %d to reserve %d", o.Number, r.Reserve)
				}
			}
			for j := range o.Field + 1 {
				inside, near := inArea(s, j, o.Loop)
				switch {
				case j == o.Field && !inside:
					t.Errorf("seed %d: opening %d lies outside the area of its field %d", seed, o.Number, j)
				case j < o.Field && inside:
					t.Errorf("seed %d: opening %d of field %d lies on that of field %d", seed, o.Number, o.Field, j)
				case j == o.Field:
					need(near, wide[j]/2, "opening %d to the edge of field %d", o.Number, j)
				default:
					need(near, math.Max(wide[j], wide[o.Field])-wide[j]/2, "opening %d to the edge of the earlier field %d", o.Number, j)
				}
			}
		}
		for _, o := range s.Dropped {
			told[o.Field] = true
			if o.Why == "" {
				t.Errorf("seed %d: dropped without a reason", seed)
			}
		}
		for i, ok := range told {
			if !ok && i > 0 {
				t.Errorf("seed %d: field %d has no opening, and nothing is said", seed, i)
			}
		}
		if seed%10 == 0 {
			again, _ := Lay(d)
			if !reflect.DeepEqual(s, again) {
				t.Errorf("seed %d: two sheets of one design differ", seed)
			}
		}
	}
	worth := 30 * n // so that the designs are worth asking
	if testing.Short() {
		worth = 25 * n // the first few have fewer
	}
	if openings < worth {
		t.Errorf("only %d openings in %d designs", openings, n)
	}
}

// fieldTurns are the motions at which the blank of a closed band meets itself.
func fieldTurns(d Design, f unroll.Flat) []motion {
	if d.Band.Open() {
		return []motion{{}}
	}
	return []motion{{}, onward(f, -f.Length), onward(f, f.Length)}
}

// inArea tells the slow way whether a loop lies in the area of a field, and how far
// from the area's edge.
func inArea(s *Sheet, field int, l plane.Loop) (inside bool, near float64) {
	a := s.Design.Fields[field].Area
	near = math.Inf(1)
	turns := []motion{{}}
	if s.Flat.Period > 0 {
		turns = fieldTurns(s.Design, s.Flat)
	}
	switch a.Shape {
	case "":
		return true, near
	case RunShape, StripShape:
		// Many places of its edge, in along and across.
		for i := range l {
			for k := range 8 {
				x, v := s.Flat.Where(l.Edge(i).At(float64(k) / 8))
				if a.Shape == StripShape {
					near = math.Min(near, math.Min(v-a.FromMM, a.ToMM-v))
					continue
				}
				best := math.Inf(-1)
				for n := -5; n <= 5; n++ {
					by := float64(n) * s.Flat.Period
					best = math.Max(best, math.Min(x-a.FromMM-by, a.ToMM+by-x))
				}
				if s.Flat.Flared() {
					best = math.Copysign(math.Inf(1), best) // a length along is no distance
				}
				near = math.Min(near, best)
			}
		}
		return near > 0, math.Abs(near)
	}
	shape, err := a.outline().loop(plane.Pt(a.XMM, a.YMM))
	if err != nil {
		panic(err)
	}
	all := turns
	if s.Flat.Period > 0 {
		for _, n := range []float64{-5, -4, -3, -2, 2, 3, 4, 5} {
			all = append(all, motion{by: plane.Pt(n*s.Flat.Period, 0)})
		}
	}
	var copies plane.Region
	for _, m := range all {
		if copies, err = plane.Or(copies, plane.Region{m.loop(shape)}); err != nil {
			panic(err)
		}
	}
	return copies.Contains(l[0].Point), plane.NearestRegion(l, copies).D
}

// Bridges between rows and between repeats are apart from each other; the rim stays.
func TestBridgesAlongAreWiderThanThoseAcross(t *testing.T) {
	d := Design{
		Name:   "apart",
		Band:   unroll.Band{Kind: unroll.Bangle, Inside: unroll.Inside{By: unroll.ByAxes, WidthMM: 62, HeightMM: 62}, Thickness: unroll.Thickness{MM: 1.2}, WidthMM: 20, EndWidthMM: 20, NeutralK: 0.5, Joint: unroll.Seamless},
		Metal:  Metal{Alloy: "sterling-925"},
		Rules:  DesignRules{BridgeMM: 1.2, RimMM: 2, CornerMM: 0.3, SmallestMM: 1},
		Fields: []Field{{Motif: "squares", Rows: 3, Repeats: 36, WiderAlongMM: 0.7, WiderAcrossMM: 0.4}},
	}
	for _, edge := range []string{EdgeClip, EdgeWhole} {
		d.Fields[0].Edge = edge
		s, err := Lay(d)
		require.NoError(t, err)
		require.Len(t, s.Openings, 3*36)
		pitch := s.Flat.Length / 36
		heights := map[float64]bool{}
		for _, o := range s.Openings {
			require.InDelta(t, pitch-1.2-0.4, o.Box.W(), 1e-6)
			require.InDelta(t, (20-2*2-2*(1.2+0.7))/3, o.Box.H(), 1e-6)
			heights[math.Round(o.Box.Centre().Y*1e6)/1e6] = true
			require.GreaterOrEqual(t, 10-math.Abs(o.Box.Centre().Y)-o.Box.H()/2, 2-1e-6)
		}
		require.Len(t, heights, 3)
	}
}
