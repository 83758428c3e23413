package pattern

import (
	"fmt"
	"math"
	"math/rand"
	"slices"
	"strings"
	"testing"

	"fretband/unroll"
	"fretband/unroll/plane"
)

// tieBetween is a tie from one point to another, on a band that is not flared.
func tieBetween(a, b plane.Point, width float64) Edit {
	return Edit{Do: Tie, At: []Spot{{a.X, a.Y}}, SpanXMM: b.X - a.X, SpanYMM: b.Y - a.Y, WidthMM: width}
}

// window is a cuff with one rectangle of 20 by 10 mm about its middle, cut sharp.
func window() Design {
	d := handBands()["cuff"]
	d.Fields, d.Rules.CornerMM, d.Rules.SmallestMM = nil, 0, 0
	d.Edits = []Edit{{Do: Add, Shape: RectangleShape, At: []Spot{{}}, WidthMM: 20, HeightMM: 10}}
	return d
}

func layTies(t *testing.T, d Design, ties ...Edit) *Sheet {
	t.Helper()
	return layWith(t, d, append(slices.Clone(d.Edits), ties...)...)
}

func openArea(s *Sheet) float64 {
	sum := 0.0
	for _, o := range s.Openings {
		sum += o.Loop.Area()
	}
	return sum
}

// What a tie takes of a rectangle, by its width and the angle at which it crosses, is a
// parallelogram.
func TestATieTakesAParallelogramOfARectangle(t *testing.T) {
	for _, c := range []struct {
		a, b  plane.Point
		width float64
		want  float64
		parts int
	}{
		{plane.Pt(0, -6), plane.Pt(0, 6), 2, 2 * 10, 2},
		{plane.Pt(0, 6), plane.Pt(0, -6), 2, 2 * 10, 2}, // drawn the other way
		{plane.Pt(-3, -5), plane.Pt(3, 5), 1.5, 1.5 * math.Hypot(6, 10), 2},
		{plane.Pt(-3, -5), plane.Pt(3, 5), 0, 1 * math.Hypot(6, 10), 2},   // the rule
		{plane.Pt(-3, -5), plane.Pt(3, 5), 0.4, 1 * math.Hypot(6, 10), 2}, // never under it
		{plane.Pt(-11, 1), plane.Pt(12, 1), 3, 3 * 20, 2},
		{plane.Pt(0, -6), plane.Pt(0, 1), 2, 2 * 10, 2},                  // an end in the opening is taken on
		{plane.Pt(0, -1), plane.Pt(0.6, 0), 2, 2 * math.Hypot(6, 10), 2}, // both are
		{plane.Pt(9.5, -6), plane.Pt(9.5, 6), 2, 1.5 * 10, 1},            // along an edge
	} {
		s := layTies(t, window(), tieBetween(c.a, c.b, c.width))
		if got := 200 - openArea(s); math.Abs(got-c.want) > 1e-6 || len(s.Openings) != c.parts || len(s.Idle) > 0 {
			t.Errorf("%v to %v, %g wide: takes %.6f mm² of 200, want %.6f; %d parts, idle %v", c.a, c.b, c.width, got, c.want, len(s.Openings), s.Idle)
		}
		keepsTheRule(t, s, fmt.Sprint(c))
	}
}

// An arc by the slow way: points of a grid no farther from its circle than half the width.
func TestABowedTieTakesWhatLiesAboutItsArc(t *testing.T) {
	e := tieBetween(plane.Pt(-4, -5), plane.Pt(4, -5), 1.2)
	e.BowMM = 4 // half of a circle of 4 mm, to the left on the way: above
	s := layTies(t, window(), e)
	const step = 0.01
	n := 0
	for x := -10 + step/2; x < 10; x += step {
		for y := -5 + step/2; y < 5; y += step {
			if r := math.Hypot(x, y+5); math.Abs(r-4) < 0.6 {
				n++
			}
		}
	}
	want := float64(n) * step * step
	if got := 200 - openArea(s); math.Abs(got-want) > 0.02 || len(s.Openings) != 2 {
		t.Errorf("takes %.4f mm², by counting points %.4f; %d openings", got, want, len(s.Openings))
	}
	e.BowMM = -4 // below: it runs in the metal
	if s = layTies(t, window(), e); len(s.Idle) != 1 || openArea(s) != 200 {
		t.Errorf("idle %v, area %g", s.Idle, openArea(s))
	}
	// One that is bent more sharply than its inner side allows is laid less sharply.
	e = tieBetween(plane.Pt(-0.5, -5), plane.Pt(0.5, -5), 3)
	e.BowMM = 0.5
	keepsTheRule(t, layTies(t, window(), e), "sharp")
}

// An end that lies in an opening comes to metal: on a tie, at the nearer edge if the tie
// crosses another opening too, else straight on.
func TestNoEndOfATieHangsFree(t *testing.T) {
	d := window()
	up := tieBetween(plane.Pt(0, -5.5), plane.Pt(0, 0), 1)
	// Three that meet in the middle: a Y, and no fourth arm.
	s := layTies(t, d, up, tieBetween(plane.Pt(-10.5, 5.5), plane.Pt(0, 0), 1), tieBetween(plane.Pt(10.5, 5.5), plane.Pt(0, 0), 1))
	if len(s.Openings) != 3 || len(s.Idle) > 0 {
		t.Errorf("a Y makes %d openings, idle %v", len(s.Openings), s.Idle)
	}
	for _, o := range s.Openings {
		if o.Loop.Contains(plane.Pt(0, 0)) {
			t.Errorf("the middle lies in opening %d", o.Number)
		}
	}
	keepsTheRule(t, s, "Y")
	// Three that only rest on each other would fall out with what they hold: they are
	// taken on to the metal.
	a, b, c := plane.Pt(-3, -2), plane.Pt(3, -2), plane.Pt(0, 3)
	s = layTies(t, d, tieBetween(a, b, 1), tieBetween(b, c, 1), tieBetween(c, a, 1))
	if len(s.Openings) < 4 || len(s.Idle) > 0 {
		t.Errorf("a triangle makes %d openings, idle %v", len(s.Openings), s.Idle)
	}
	keepsTheRule(t, s, "triangle")
	// Two that lie along each other do not hold each other up, nor does a tie its image.
	s = layTies(t, d, up, up)
	if got := 200 - openArea(s); math.Abs(got-10) > 1e-6 || len(s.Openings) != 2 {
		t.Errorf("twice the same takes %g mm², want 10", got)
	}
	slant := tieBetween(plane.Pt(0, -5.5), plane.Pt(4, 0), 1)
	slant.Mirror = MirrorAlong
	if s = layTies(t, d, slant); len(s.Openings) != 3 || len(s.Solid) != 2 {
		t.Errorf("a V makes %d openings, %d ties", len(s.Openings), len(s.Solid))
	}
	// One that reaches a little into a second opening ends at the metal between; one that
	// reaches more than half through it goes on.
	d.Edits = append(d.Edits, Edit{Do: Add, Shape: RectangleShape, At: []Spot{{16, 0}}, WidthMM: 8, HeightMM: 10})
	for _, c := range []struct{ x, want float64 }{{11, 20}, {13, 20}, {17, 28}, {21, 28}} {
		s = layTies(t, d, tieBetween(plane.Pt(-11, 0), plane.Pt(c.x, 0), 1))
		if got := 280 - openArea(s); math.Abs(got-c.want) > 1e-6 {
			t.Errorf("to %g: takes %g mm², want %g", c.x, got, c.want)
		}
	}
}

// A tie as a hand draws it, over metal and openings as it comes: brought to the metal it
// takes the same, and no end of it lies in an opening.
func TestADrawnTieEndsOnTheMetal(t *testing.T) {
	eachHandBand(t, func(t *testing.T, d Design, plain *Sheet) {
		rng := rand.New(rand.NewSource(12))
		drawn := 0
		for range 60 {
			e := randomTies(rng, plain)[0]
			e.Mirror, e.BowMM, e.At = "", 0, e.At[:1]
			brought, ok := plain.Tied(e)
			raw := layWith(t, d, e)
			if ok != (len(raw.Idle) == 0) {
				t.Fatalf("%v: %v, idle %v", e, ok, raw.Idle)
			}
			if !ok {
				continue
			}
			drawn++
			s := layWith(t, d, brought)
			if a, b := openArea(raw), openArea(s); math.Abs(a-b) > 1e-3 {
				t.Errorf("%v: leaves %.6f mm² open, brought to the metal %v %.6f", e, a, brought, b)
			}
			l := TieLine(s.Flat, brought, EditPosition{At: spotPoint(brought.At[0])})
			for _, p := range []plane.Point{l.A, l.B} {
				if !s.Flat.Outline.Contains(p) && s.Flat.Period == 0 || holding(plain, p) != nil {
					t.Errorf("%v: an end of %v is not on the metal", e, brought)
				}
			}
		}
		if drawn < 20 {
			t.Errorf("only %d cross anything", drawn)
		}
	})
}

func TestATieThatFindsNothingIsIdle(t *testing.T) {
	eachHandBand(t, func(t *testing.T, d Design, plain *Sheet) {
		f := plain.Flat
		at := func(x, v float64) Spot { p := f.Place(x, v); return Spot{p.X, p.Y} }
		_, top := f.EdgesAt(0)
		s := layWith(t, d, Edit{Do: Tie, At: []Spot{at(-5, top-0.4), at(0, top+20)}, SpanXMM: 4, WidthMM: 1})
		if len(s.Idle) != 2 || s.Idle[0].Why != "no opening lies under it" || s.Idle[1].Why != "it lies outside the blank" || len(s.Solid) != 0 {
			t.Errorf("idle %v, ties %v", s.Idle, s.Solid)
		}
		sameOthers(t, plain, s)
	})
}

// A tie belongs to its place: with other numbers it crosses what lies there then.
func TestATieStaysWhenTheNumbersChange(t *testing.T) {
	eachHandBand(t, func(t *testing.T, d Design, plain *Sheet) {
		p := plain.Flat.Place(10, -9)
		e := Edit{Do: Tie, At: []Spot{{p.X, p.Y}}, SpanXMM: 3, SpanYMM: 18, BowMM: 2, WidthMM: 1.4}
		for k, change := range []func(*Design){
			func(*Design) {},
			func(d *Design) { d.Rules.BridgeMM = 1.6 },
			func(d *Design) { d.Rules.RimMM = 4 },
			func(d *Design) { d.Fields[0].Rows = 5 },
			func(d *Design) { d.Fields[0].Motif, d.Fields[0].Repeats = "hexagons", 13 },
			func(d *Design) { d.Fields[0].Motif, d.Fields[0].Path = "own", "M0 0L6 0A3 3 0 0 1 6 6L0 5Z" },
		} {
			other := d
			other.Fields = slices.Clone(d.Fields)
			change(&other)
			without, s := layWith(t, other), layWith(t, other, e)
			if len(s.Idle) > 0 || len(s.Solid) != 1 {
				t.Fatalf("change %d: idle %v", k, s.Idle)
			}
			tied(t, fmt.Sprint("change ", k), without, s)
			keepsTheRule(t, s, fmt.Sprint("change ", k))
		}
	})
}

// tied fails unless every opening lies in one of the sheet without the ties or in a ring
// of it, and none within half a width of a tie's line.
func tied(t *testing.T, name string, without, s *Sheet) {
	t.Helper()
	near := without.Near()
	for _, o := range s.Openings {
		rest := plane.Region{o.Loop}
		for c := range near.To(o.Box, touch) {
			var err error
			if rest, err = plane.Not(rest, plane.Region{c.Loop(without.Openings[c.Of].Loop)}); err != nil {
				t.Fatal(err)
			}
		}
		for _, r := range without.rings {
			for n := -1; n <= 1; n++ {
				var err error
				if rest, err = plane.Not(rest, without.Round(n).region(r)); err != nil {
					t.Fatal(err)
				}
			}
		}
		if rest.Area() > 1e-6 {
			t.Errorf("%s: opening %d reaches %g mm² beyond what was there", name, o.Number, rest.Area())
		}
	}
	for _, c := range s.Solid {
		if s.Design.Edits[c.Edit].Do != Tie {
			continue
		}
		for _, l := range s.Again(c.Loop) {
			for _, o := range s.Openings {
				if !o.Box.Nearer(l.Bounds(), touch) {
					continue
				}
				if in, err := plane.And(plane.Region{l}, plane.Region{o.Loop}); err != nil || in.Area() > 1e-6 {
					t.Errorf("%s: opening %d lies %g mm² in a tie (%v)", name, o.Number, in.Area(), err)
				}
			}
		}
	}
}

func TestTiesHaveMirrorImages(t *testing.T) {
	for _, name := range []string{"cuff", "soldered", "seamless", "tapered"} {
		d := handBands()[name]
		d.Fields[0].Motif = "circles"
		for mirror, images := range map[string]int{MirrorAlong: 2, MirrorAcross: 2, MirrorBoth: 4} {
			s := layWith(t, d, Edit{Do: Tie, At: []Spot{{20, 1}}, SpanXMM: 7, SpanYMM: 6, BowMM: 1.5, WidthMM: 1.3, Mirror: mirror})
			if len(s.Solid) != images || len(s.Idle) > 0 {
				t.Fatalf("%s, %s: %d ties, idle %v", name, mirror, len(s.Solid), s.Idle)
			}
			for k, c := range s.Solid {
				if c.Field != -1 || c.Edit != 0 || c.Spot != k {
					t.Errorf("%s, %s: tie %d is %v", name, mirror, k, c.Touch)
				}
			}
			for _, o := range s.Openings {
				want := flipped(o.Loop, mirror != MirrorAcross, mirror != MirrorAlong)
				c := want.Bounds().Centre()
				if p := holding(s, want.Centroid()); p == nil || math.Abs(p.Loop.Area()-want.Area()) > 1e-6 {
					t.Errorf("%s, %s: opening %d has no mirror image about %v", name, mirror, o.Number, c)
				}
			}
		}
	}
}

// randomTies draws ties anywhere, short and long, thin and wide.
func randomTies(rng *rand.Rand, s *Sheet) []Edit {
	pick := func(lo, hi float64) float64 { return lo + (hi-lo)*rng.Float64() }
	var edits []Edit
	for range 1 + rng.Intn(5) {
		e := Edit{Do: Tie, Mirror: []string{"", "", MirrorAlong, MirrorAcross, MirrorBoth}[rng.Intn(5)]}
		for range 1 + rng.Intn(3) {
			p := s.Flat.Place(pick(-0.5, 0.5)*s.Flat.Length, pick(-0.5, 0.5)*s.Flat.Width)
			e.At = append(e.At, Spot{p.X, p.Y})
		}
		long := math.Pow(10, pick(-0.9, 1.7))
		way := plane.Pt(long, 0).Turn(pick(-4, 4))
		e.SpanXMM, e.SpanYMM = way.X, way.Y
		if rng.Intn(2) == 0 {
			e.BowMM = pick(-0.5, 0.5) * long
		}
		if rng.Intn(3) > 0 {
			e.WidthMM = pick(0.1, 4)
		}
		edits = append(edits, e)
	}
	return edits
}

// Random ties, with other edits and without, on random designs and on every band of
// handBands: openings only lose, and the rule holds.
func TestTheRuleHoldsWhateverIsTied(t *testing.T) {
	n := 150
	if testing.Short() {
		n = 30
	}
	crossed := 0
	names := []string{"cuff", "soldered", "seamless", "tapered", "flared"}
	for seed := range n {
		rng := rand.New(rand.NewSource(int64(seed) + 900))
		d := handBands()[names[seed%5]]
		if seed%2 == 0 {
			d = randomDesign(rng)
		}
		plain, err := Lay(d)
		if err != nil {
			t.Fatal(err)
		}
		if rng.Intn(2) == 0 {
			d.Edits = randomEdits(rng, plain)
		}
		without, err := Lay(d)
		if err != nil {
			t.Fatal(err)
		}
		d.Edits = append(d.Edits, randomTies(rng, plain)...)
		s, err := Lay(d)
		if err != nil {
			t.Fatal(err)
		}
		name := fmt.Sprintf("seed %d (%s)", seed, d.Band.Kind)
		tied(t, name, without, s)
		keepsTheRule(t, s, name)
		for _, c := range s.Solid {
			if d.Edits[c.Edit].Do == Tie {
				crossed++
			}
		}
	}
	if crossed < 2*n {
		t.Errorf("only %d ties cross anything", crossed)
	}
}

func TestTiesWithNumbersThatGoNotTogetherAreRefused(t *testing.T) {
	for _, c := range []struct {
		change func(*Edit)
		want   string
	}{
		{func(e *Edit) { e.SpanXMM, e.SpanYMM = 0, 0.05 }, "edits[0].span_x_mm: a tie runs from one end to another"},
		{func(e *Edit) { e.BowMM = 3 }, "edits[0].bow_mm: may be half the tie's length at most"},
		{func(e *Edit) { e.WidthMM = -1 }, "edits[0].width_mm: must be a number from 0.1 to 150; it is -1"},
		{func(e *Edit) { e.RotationDeg = 10 }, "edits[0].turn_deg: means nothing for a tie"},
		{func(e *Edit) { e.Do, e.BowMM = LeaveSolid, 1 }, "edits[0].span_x_mm: goes with \"tie\" only"},
	} {
		d := window()
		d.Edits = []Edit{tieBetween(plane.Pt(0, 0), plane.Pt(4, 3), 1)}
		c.change(&d.Edits[0])
		if d.Edits[0].Do != Tie {
			d.Edits[0].WidthMM = 0
		}
		if err := d.Check(); err == nil || !strings.HasPrefix(err.Error(), c.want) {
			t.Errorf("%v, want %s", err, c.want)
		}
	}
}

// More ties than can be worked on: those from some on are idle, and it says so.
func TestTooManyTiesAreToldOf(t *testing.T) {
	d := handBands()["seamless"]
	d.Rules.BridgeMM, d.Rules.CornerMM, d.Fields[0].Rows, d.Fields[0].Repeats = 0.2, 0.1, 10, 100
	d.Rules.SmallestMM = 0.3
	e := tieBetween(plane.Pt(-89, -14), plane.Pt(89, 14), 0)
	for range 40 {
		e.At = append(e.At, e.At[0])
	}
	plain := layWith(t, d)
	box, about := TieOutline(TieLine(plain.Flat, e, EditPosition{At: plane.Pt(-89, -14)}), 0.2).Bounds(), 0
	for _, o := range plain.Openings {
		for _, dx := range []float64{0, plain.Flat.Period, -plain.Flat.Period} {
			if o.Box.Move(plane.Pt(dx, 0)).Meets(box) {
				about++
			}
		}
	}
	want := MaxTied / about
	s := layWith(t, d, e)
	if len(s.Solid) != want || len(s.Idle) != 41-want || s.Idle[0].Spot != want || !strings.HasPrefix(s.Idle[0].Why, "too many openings") {
		t.Errorf("%d of 41 ties, want %d; idle %v", len(s.Solid), want, s.Idle)
	}
}

// Wherever round a closed band openings and the ties in them lie, over the ends of the
// blank too, the same is left of them. Those of flared bands meet by turning about the apex;
// openings keep off the joint there, and ties run over it.
func TestTiesRunOverTheSeam(t *testing.T) {
	for _, flare := range []float64{0, 12, -20} {
		d := handBands()["seamless"]
		if d.Fields = nil; flare != 0 {
			d = handBands()["soldered"]
			d.Band.Inside = unroll.Inside{By: unroll.ByCircumference, CircumferenceMM: 180, Ratio: 1}
			d.Band.FlareDeg, d.Fields = flare, nil
		}
		f := layWith(t, d).Flat
		var want []float64
		for _, share := range []float64{0, 0.2, 0.5, 0.53, 0.97, 1} {
			if flare != 0 && share == 0.53 {
				continue // the joint runs through an opening
			}
			x := share * f.Length
			at := func(dx, v float64) []Spot {
				along := x + dx
				along -= f.Length * math.Round(along/f.Length)
				p := f.Place(along, v)
				return []Spot{{p.X, p.Y}}
			}
			s := layWith(t, d,
				Edit{Do: Add, Shape: OvalShape, At: at(-14, 0), WidthMM: 20, HeightMM: 14},
				Edit{Do: Add, Shape: OvalShape, At: at(14, 0), WidthMM: 20, HeightMM: 14},
				Edit{Do: Add, Shape: OvalShape, At: at(-50, 0), WidthMM: 20, HeightMM: 14},
				Edit{Do: Tie, At: at(-17, -9), SpanXMM: 7, SpanYMM: 18, BowMM: 2, WidthMM: 1.5},
				Edit{Do: Tie, At: at(-15, 1), SpanXMM: 31, SpanYMM: 2},  // from that one over the seam,
				Edit{Do: Tie, At: at(-2, -8), SpanXMM: 18, SpanYMM: 11}, // to meet two others in the second
				Edit{Do: Tie, At: at(27, 9), SpanXMM: -11, SpanYMM: -6},
				Edit{Do: Tie, At: at(-50, -1), SpanXMM: 3, SpanYMM: 1}) // from nowhere to nowhere
			var areas []float64
			for _, o := range s.Openings {
				areas = append(areas, o.Loop.Area())
			}
			slices.Sort(areas)
			if want == nil {
				if want = areas; len(want) != 8 { // 3, 3 and 2
					t.Fatalf("flare %g: %d openings", flare, len(want))
				}
			}
			if len(areas) != len(want) || len(s.Idle) > 0 {
				t.Errorf("flare %g at %g: %d openings, want %d; idle %v", flare, share, len(areas), len(want), s.Idle)
				continue
			}
			for i, a := range areas {
				if math.Abs(a-want[i]) > 1e-5 {
					t.Errorf("flare %g at %g: an opening of %.7f mm², want %.7f", flare, share, a, want[i])
				}
			}
		}
	}
}

// What a drag waits for while 2000 openings are laid with twenty ties among them.
func BenchmarkLayWithTies(b *testing.B) {
	d := handBands()["cuff"]
	d.Rules.BridgeMM, d.Rules.CornerMM, d.Rules.SmallestMM = 0.4, 0.1, 0.3
	d.Fields[0].Rows, d.Fields[0].Repeats = 10, 100
	for i := range 20 {
		d.Edits = append(d.Edits, Edit{Do: Tie, At: []Spot{{-60 + 5*float64(i), -12}}, SpanXMM: 4, SpanYMM: 24, BowMM: 1})
	}
	for b.Loop() {
		s, err := Lay(d)
		if err != nil {
			b.Fatal(err)
		}
		b.ReportMetric(float64(len(s.Openings)), "openings")
	}
}
