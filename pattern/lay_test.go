package pattern

import (
	"fmt"
	"math"
	"math/rand"
	"reflect"
	"slices"
	"testing"

	"fretband/pattern/motif"
	"fretband/unroll"
	"fretband/unroll/plane"
)

// closedBand is a round bangle whose blank is length x width mm.
func closedBand(length, width float64) unroll.Band {
	return unroll.Band{
		Kind:      unroll.Bangle,
		Inside:    unroll.Inside{By: unroll.ByAxes, WidthMM: length/math.Pi - 1, HeightMM: length/math.Pi - 1},
		Thickness: unroll.Thickness{MM: 1}, // neutral line at half of it: pi (D + 1)
		WidthMM:   width, EndWidthMM: width,
		Joint: unroll.Seamless, NeutralK: 0.5,
	}
}

// The open share of one opening in the cell that it stands for, against closed
// forms and printed tables.
func TestOpenShareMatchesHandbooks(t *testing.T) {
	in := 25.4
	root3 := math.Sqrt(3)
	for _, c := range []struct {
		source string
		field  Field
		length float64
		height float64 // of the frame
		cell   float64 // area that one opening stands for
		want   float64
		tol    float64
	}{
		{
			"triangle lattice a 6, strut 0.8: fraction (1 - sqrt3 w/a)^2",
			Field{Motif: "triangles", Rows: 3, Repeats: 30, Stagger: 0.5, BridgeMM: 0.8},
			180, 3 * 3 * root3, 9 * root3, 0.591453118, 1e-8,
		},
		{
			"IPA (iperf.org ac17): holes 0.023 in at 0.054 in, 60 degrees: 16.45 %",
			Field{Motif: "circles", Rows: 5, Repeats: 100, Stagger: 0.5, BridgeMM: 0.031 * in},
			5.4 * in, 0.054 * in * (1 + 2*root3), 0.054 * 0.054 * in * in * root3 / 2, 0.164523, 1e-6,
		},
		{
			"R5 T8: 90.69 D^2/C^2 (perfom.rs, libpf.com)",
			Field{Motif: "circles", Rows: 3, Repeats: 20, Stagger: 0.5, BridgeMM: 3},
			160, 8 * (1 + root3), 64 * root3 / 2, 0.354258, 1e-6,
		},
		{
			"R5 U8: 78.54 D^2/C^2 (perfom.rs)",
			Field{Motif: "circles", Rows: 3, Repeats: 20, BridgeMM: 3},
			160, 24, 64, 0.306796, 1e-6,
		},
		{
			"honeycomb, across flats 6, wall 1: (1 - w/p)^2",
			Field{Motif: "hexagons", Rows: 3, Repeats: 25, Stagger: 0.5, BridgeMM: 1},
			150, 3 * root3 * (3 + 1.0/3), 36 * root3 / 2, 0.6944444444, 1e-9,
		},
		{
			"rhombus lattice, distance of parallel sides d: (1 - w/d)^2; here 8 x 6, d = 4.8",
			Field{Motif: "diamonds", Rows: 3, Repeats: 20, Stagger: 0.5, BridgeMM: 1.2},
			160, 18, 24, 0.5625, 1e-9,
		},
		{
			"crossing bars at atan(3/4), the same rhombus",
			Field{Motif: "lattice", Rows: 1, Repeats: 20, BridgeMM: 1.2, Numbers: map[string]float64{"angle_deg": math.Atan2(3, 4) * 180 / math.Pi}},
			160, 18, 24, 0.5625, 1e-9,
		},
	} {
		t.Run(c.source, func(t *testing.T) {
			f := c.field
			// The frame is the blank less two rims plus one bridge.
			d := Design{Name: "test", Band: closedBand(c.length, c.height+f.BridgeMM), Metal: Metal{Alloy: "copper"},
				Rules: DesignRules{BridgeMM: f.BridgeMM, RimMM: f.BridgeMM}, Fields: []Field{f}}
			s, err := Lay(d)
			if err != nil {
				t.Fatal(err)
			}
			whole := 0
			for _, o := range s.Openings {
				if o.Shape < 0 {
					continue // cut by the rim
				}
				whole++
				if got := o.Loop.Area() / c.cell; math.Abs(got-c.want) > c.tol {
					t.Fatalf("opening %d: share %.9f, want %.9f", o.Number, got, c.want)
				}
			}
			if whole < f.Repeats {
				t.Errorf("only %d whole openings", whole)
			}
		})
	}
}

// randomDesign draws a design from all that may be asked; the tests of other
// rooms have their own.
func randomDesign(rng *rand.Rand) Design {
	pick := func(lo, hi float64) float64 { return lo + (hi-lo)*rng.Float64() }
	motifs := motif.All()
	m := motifs[rng.Intn(len(motifs))]
	d := Design{
		Name:  "random",
		Metal: Metal{Alloy: "copper"},
		Rules: DesignRules{BridgeMM: pick(0.1, 3), RimMM: pick(0, 4), SmallestMM: pick(0, 1.5)},
		Fields: []Field{{
			Motif: m.Key, Rows: 1 + rng.Intn(5), Repeats: 1 + rng.Intn(40), Stagger: pick(0, 0.5),
			Numbers: map[string]float64{},
		}},
	}
	d.Rules.CornerMM = pick(0, 1) * float64(rng.Intn(2))
	for _, n := range m.Numbers {
		d.Fields[0].Numbers[n.Key] = pick(n.Min, n.Max)
	}
	b := &d.Band
	b.Thickness.MM, b.NeutralK = pick(0.5, 2), 0.5
	b.WidthMM = pick(4, 40)
	b.EndWidthMM = b.WidthMM
	if rng.Intn(2) == 0 {
		b.EndWidthMM = b.WidthMM * pick(0.5, 1)
	}
	b.Inside = unroll.Inside{By: unroll.ByAxes, WidthMM: pick(55, 70), HeightMM: pick(42, 55)}
	switch rng.Intn(3) {
	case 0:
		b.Kind, b.GapMM, b.EndCornerMM = unroll.Cuff, pick(20, 35), pick(0, 0.5)*b.EndWidthMM
	case 1:
		b.Kind, b.Joint, b.JointMM = unroll.Bangle, unroll.Soldered, pick(0.2, 4)
	case 2:
		b.Kind, b.Joint = unroll.Bangle, unroll.Seamless
	}
	for range rng.Intn(4) {
		r := Reserve{Shape: CircleShape, XMM: pick(-80, 80), YMM: pick(-12, 12), WidthMM: pick(0.2, 12), MarginMM: pick(0, 2)}
		if rng.Intn(2) == 0 {
			r.Shape, r.HeightMM = RectangleShape, pick(0.2, 12)
		}
		d.Reserves = append(d.Reserves, r)
	}
	return randomForm(rng, d)
}

// randomForm makes the band of a design one of the forms beyond ellipse and
// taper, if the numbers let it.
func randomForm(rng *rand.Rand, d Design) Design {
	plain := d
	pick := func(lo, hi float64) float64 { return lo + (hi-lo)*rng.Float64() }
	edge := func() []unroll.EdgePoint {
		var ps []unroll.EdgePoint
		for at := pick(-1, -0.5); at < 1; at += pick(0.3, 0.8) {
			ps = append(ps, unroll.EdgePoint{At: at, OutMM: pick(-0.1, 0.3) * d.Band.WidthMM})
		}
		return ps
	}
	b := &d.Band
	switch rng.Intn(4) {
	case 0:
		b.TopEdge = edge()
		if rng.Intn(2) == 0 {
			b.BottomEdge = edge()
		}
	case 1:
		b.SwellLengthMM = pick(20, 100)
	case 2:
		if rng.Intn(2) == 0 {
			b.Inside.By = unroll.BySides
		}
	}
	switch rng.Intn(4) {
	case 0:
		b.Inside = unroll.Inside{By: unroll.ByCircumference, CircumferenceMM: pick(150, 210), Ratio: 1}
		b.FlareDeg = pick(-30, 30)
		if b.Seamless() {
			b.Joint, b.JointMM = unroll.Soldered, 3
		}
	case 1:
		b.Dome = []string{unroll.Outward, unroll.Hollow}[rng.Intn(2)]
		b.DomeRadiusMM = pick(0.6, 3) * b.WidthMM
		b.DomeFlat = []string{unroll.ArcLength, unroll.Conformal, unroll.EqualArea}[rng.Intn(3)]
	}
	if b.Open() && rng.Intn(2) == 0 {
		b.EndCornerMM = 0
		b.EndShape = unroll.RoundEnd
		if rng.Intn(2) == 0 {
			b.EndShape, b.EndLengthMM, b.EndRadiusMM = unroll.PointEnd, pick(0.6, 1.5)*b.EndWidthMM, pick(0.5, 2)
		}
	}
	if rng.Intn(3) == 0 {
		b.Making = unroll.Formed
		b.Drawn = []string{"", unroll.InnerFace, unroll.OuterFace}[rng.Intn(3)]
	}
	if rng.Intn(2) == 0 {
		d.Fields[0].Follow = FollowWidth
	}
	if d.Check() != nil {
		return plain
	}
	return d
}

// The slow, obvious way: every opening against every other and against the edge
// and the reserves, on all turns of a closed band.
func TestTheBridgeRuleHoldsWhateverTheNumbers(t *testing.T) {
	n := 150
	if testing.Short() {
		n = 20
	}
	for seed := range n {
		rng := rand.New(rand.NewSource(int64(seed)))
		d := randomDesign(rng)
		s, err := Lay(d)
		if err != nil {
			t.Fatalf("seed %d: %v", seed, err)
		}
		turns := []float64{0}
		if s.Flat.Period > 0 {
			turns = []float64{0, s.Flat.Period, -s.Flat.Period}
		}
		need := func(got, want float64, what string, args ...any) {
			if got < want-1e-6 {
				t.Errorf("seed %d (%s, %s): %s: %.7f mm, rule %.7f", seed, d.Fields[0].Motif, d.Band.Kind, fmt.Sprintf(what, args...), got, want)
			}
		}
		for i := range s.Openings {
			o := &s.Openings[i]
			if o.Loop.Area() <= 0 {
				t.Errorf("seed %d: opening %d is inside out", seed, o.Number)
			}
			for j := range i + 1 {
				for _, dx := range turns {
					p := &s.Openings[j]
					if i == j && dx == 0 || o.Box.Dist(p.Box.Move(plane.Pt(dx, 0))) >= s.Rule {
						continue
					}
					need(plane.Nearest(o.Loop, p.Loop.Move(plane.Pt(dx, 0))).D, s.Rule, "openings %d and %d", o.Number, p.Number)
				}
			}
			for k, e := range s.Flat.Outline.Edges() {
				if d.Band.Seamless() && math.Abs(e.A.X-e.B.X) < 1e-9 {
					continue
				}
				least := s.EdgeRule
				if d.Band.Joint == unroll.Soldered && math.Abs(e.A.X-e.B.X) < 1e-9 {
					least = s.Rule
				}
				if o.Box.Dist(e.Bounds()) >= least {
					continue
				}
				for n := range o.Loop {
					need(plane.NearestEdges(o.Loop.Edge(n), e).D, least, "opening %d to edge %d", o.Number, k)
				}
			}
			for k, r := range s.Reserves {
				for _, dx := range turns {
					l := r.Loop.Move(plane.Pt(dx, 0))
					need(plane.Nearest(o.Loop, l).D, d.Reserves[r.Reserve].MarginMM, "opening %d to reserve %d", o.Number, k)
					if o.Loop.Contains(l[0].Point) || l.Contains(o.Loop[0].Point) {
						t.Errorf("seed %d: opening %d and reserve %d lie over each other", seed, o.Number, k)
					}
				}
			}
		}
	}
}

func TestLayGivesTheSameSheetEachTime(t *testing.T) {
	for seed := range 10 {
		d := randomDesign(rand.New(rand.NewSource(int64(seed))))
		a, err := Lay(d)
		if err != nil {
			t.Fatal(err)
		}
		b, _ := Lay(d)
		if !reflect.DeepEqual(a, b) {
			t.Errorf("seed %d: two sheets of one design differ", seed)
		}
	}
}

func TestABadNumberIsNamed(t *testing.T) {
	good := randomDesign(rand.New(rand.NewSource(1)))
	for _, c := range []struct {
		path  string
		spoil func(*Design)
	}{
		{"name", func(d *Design) { d.Name = " " }},
		{"metal.alloy", func(d *Design) { d.Metal.Alloy = "unobtainium" }},
		{"metal.density_g_cm3", func(d *Design) { d.Metal.Alloy = OwnAlloy }},
		{"fields[0].motif", func(d *Design) { d.Fields[0].Motif = "stars" }},
		{"fields[0].rows", func(d *Design) { d.Fields[0].Rows = 0 }},
		{"fields[0].repeats", func(d *Design) { d.Fields[0].Repeats = 100000 }},
		{"rules.bridge_mm", func(d *Design) { d.Rules.BridgeMM = math.NaN() }},
		{"rules.rim_mm", func(d *Design) { d.Rules.RimMM = -1 }},
		{"fields[0].numbers", func(d *Design) { d.Fields[0].Numbers = map[string]float64{"frizz": 1} }},
		{"band.width_mm", func(d *Design) { d.Band.WidthMM = math.Inf(1) }},
		{"reserves[0].shape", func(d *Design) { d.Reserves = []Reserve{{Shape: "heart"}} }},
		{"reserves[0].height_mm", func(d *Design) {
			d.Reserves = []Reserve{{Shape: CircleShape, WidthMM: 3, HeightMM: 2}}
		}},
		{"fields[0].area.to_mm", func(d *Design) { d.Fields[0].Area = Area{Shape: RunShape, FromMM: 5, ToMM: 5} }},
		{"fields[0].area.to_mm", func(d *Design) { d.Fields[0].Area = Area{Shape: StripShape, FromMM: 5, ToMM: 4.9} }},
	} {
		d := good
		d.Fields = slices.Clone(good.Fields)
		c.spoil(&d)
		_, err := Lay(d)
		fe, ok := err.(*unroll.FieldError)
		if !ok {
			t.Errorf("%s: error %v names no field", c.path, err)
		} else if fe.Path != c.path {
			t.Errorf("want path %s, got %s (%s)", c.path, fe.Path, fe.Msg)
		}
	}
}
