package pattern

import (
	"cmp"
	"fmt"
	"math"
	"math/rand"
	"reflect"
	"slices"
	"strings"
	"testing"

	"fretband/unroll"
	"fretband/unroll/plane"

	"github.com/stretchr/testify/require"
)

// handBands are one design for each way in which cells come to lie on a blank.
func handBands() map[string]Design {
	base := Design{
		Name: "by hand", Metal: Metal{Alloy: "copper"},
		Rules:  DesignRules{BridgeMM: 1, RimMM: 2, CornerMM: 0.2, SmallestMM: 0.8},
		Fields: []Field{{Motif: "triangles", Rows: 3, Repeats: 20, Stagger: 0.5}},
	}
	with := func(change func(*Design)) Design {
		d := base
		d.Fields = slices.Clone(base.Fields)
		d.Band = closedBand(180, 30)
		change(&d)
		return d
	}
	cuff := func(d *Design) {
		d.Band.Kind, d.Band.Joint, d.Band.GapMM = unroll.Cuff, "", 28
	}
	return map[string]Design{
		"cuff":     with(cuff),
		"soldered": with(func(d *Design) { d.Band.Joint, d.Band.JointMM = unroll.Soldered, 3 }),
		"seamless": with(func(*Design) {}),
		"tapered": with(func(d *Design) {
			cuff(d)
			d.Band.EndWidthMM = 20
			d.Fields[0].Follow = FollowWidth
		}),
		"flared": with(func(d *Design) {
			cuff(d)
			d.Band.Inside = unroll.Inside{By: unroll.ByCircumference, CircumferenceMM: 180, Ratio: 1}
			d.Band.FlareDeg = 15
		}),
	}
}

func eachHandBand(t *testing.T, do func(t *testing.T, d Design, plain *Sheet)) {
	bands := handBands()
	for _, name := range []string{"cuff", "soldered", "seamless", "tapered", "flared"} {
		t.Run(name, func(t *testing.T) {
			plain, err := Lay(bands[name])
			if err != nil {
				t.Fatal(err)
			}
			do(t, bands[name], inRows(plain))
		})
	}
}

// inRows puts the openings in the order field by field, row by row from the top, left
// to right, so that a test can name one by its place.
func inRows(s *Sheet) *Sheet {
	slices.SortStableFunc(s.Openings, func(a, b Opening) int {
		return cmp.Or(cmp.Compare(uint(a.Field), uint(b.Field)), cmp.Compare(a.Row, b.Row), cmp.Compare(a.Box.Centre().X, b.Box.Centre().X))
	})
	return s
}

func layWith(t *testing.T, d Design, edits ...Edit) *Sheet {
	t.Helper()
	d.Edits = edits
	s, err := Lay(d)
	if err != nil {
		t.Fatal(err)
	}
	return s
}

// spotsIn returns spots in the given openings.
func spotsIn(s *Sheet, which ...int) []Spot {
	var at []Spot
	for _, i := range which {
		c := s.Openings[i].Loop.Centroid()
		at = append(at, Spot{c.X, c.Y})
	}
	return at
}

func spotPoint(s Spot) plane.Point { return plane.Pt(s.XMM, s.YMM) }

// holding returns the opening that holds a point on any turn, or nil.
func holding(s *Sheet, p plane.Point) *Opening {
	for i := range s.Openings {
		for _, dx := range []float64{0, s.Flat.Period, -s.Flat.Period} {
			if s.Openings[i].Loop.Contains(p.Add(plane.Pt(dx, 0))) {
				return &s.Openings[i]
			}
		}
	}
	return nil
}

// sameOthers fails unless all openings of the plain sheet but some are in the other
// with their very numbers.
func sameOthers(t *testing.T, plain, s *Sheet, but ...int) {
	t.Helper()
	loops := map[string]bool{}
	for _, o := range s.Openings {
		loops[fmt.Sprint(o.Loop)] = true
	}
	for i, o := range plain.Openings {
		if !slices.Contains(but, i) && !loops[fmt.Sprint(o.Loop)] {
			t.Errorf("opening %d is not as it was", o.Number)
		}
	}
}

// nearTo returns which openings lie nearer to a loop than the rule, and others.
func nearTo(s *Sheet, l plane.Loop, others ...int) []int {
	near := others
	for k, o := range s.Openings {
		for _, dx := range []float64{0, s.Flat.Period, -s.Flat.Period} {
			if o.Box.Dist(l.Move(plane.Pt(dx, 0)).Bounds()) < s.Rule {
				near = append(near, k)
			}
		}
	}
	return near
}

func TestACellIsLeftSolidByHand(t *testing.T) {
	eachHandBand(t, func(t *testing.T, d Design, plain *Sheet) {
		which := []int{0, 7, len(plain.Openings) / 2, len(plain.Openings) - 1}
		s := layWith(t, d, Edit{Do: LeaveSolid, At: spotsIn(plain, which...)})
		if len(s.Openings) != len(plain.Openings)-len(which) || len(s.Idle) > 0 || len(s.Dropped) != len(plain.Dropped) {
			t.Errorf("%d of %d openings, idle %v, dropped %d", len(s.Openings), len(plain.Openings), s.Idle, len(s.Dropped)-len(plain.Dropped))
		}
		sameOthers(t, plain, s, which...)
		for k, c := range s.Solid {
			if was := plain.Openings[which[k]]; c.Edit != 0 || fmt.Sprint(c.Loop) != fmt.Sprint(was.Loop) || c.Row != was.Row || c.Col != was.Col || c.Field != was.Field {
				t.Errorf("solid cell %d is %v, opening was %v", k, c, was)
			}
		}
	})
}

func TestAnOpeningIsChangedAboutItsMiddle(t *testing.T) {
	eachHandBand(t, func(t *testing.T, d Design, plain *Sheet) {
		i := len(plain.Openings)/2 + 3
		was := &plain.Openings[i]
		c := was.Loop.Centroid()
		// Smaller and not moved far, so that nothing is in the way.
		e := Edit{Do: Change, At: spotsIn(plain, i), MoveXMM: 0.2, MoveYMM: -0.1, RotationDeg: 10, Scale: 0.6}
		s := layWith(t, d, e)
		sameOthers(t, plain, s, i)
		o := holding(s, c)
		if o == nil || o.Edit != 0 || o.Field != was.Field || o.Row != was.Row || o.Col != was.Col {
			t.Fatalf("the opening is %v", o)
		}
		if got, want := o.Loop.Area(), 0.36*was.Loop.Area(); d.Rules.CornerMM == 0 && math.Abs(got-want) > 1e-9 {
			t.Errorf("area %g, want %g", got, want)
		}
		// Where the middle goes, by the flat's own map.
		x, v := s.Flat.Where(c)
		if want := s.Flat.Place(x+0.2, v-0.1); o.Loop.Centroid().Dist(want) > 0.02 {
			t.Errorf("its middle is at %v, want %v", o.Loop.Centroid(), want)
		}
	})
}

func TestAChangeWithoutCornersIsExact(t *testing.T) {
	eachHandBand(t, func(t *testing.T, d Design, _ *Sheet) {
		d.Rules.CornerMM, d.Rules.SmallestMM = 0, 0
		plain := layWith(t, d)
		i := len(plain.Openings)/2 + 3
		was := &plain.Openings[i]
		c := was.Loop.Centroid()
		s := layWith(t, d, Edit{Do: Change, At: spotsIn(plain, i), RotationDeg: 180, Scale: 0.5})
		o := holding(s, c)
		if o == nil {
			t.Fatal("there is none")
		}
		want := was.Loop.Move(c.Mul(-1)).Scale(0.5).Turn(math.Pi).Move(c)
		if !want.Same(o.Loop, 1e-9) {
			t.Errorf("the opening is %v, want %v", o.Loop, want)
		}
	})
}

func TestAnOpeningIsReplaced(t *testing.T) {
	eachHandBand(t, func(t *testing.T, d Design, plain *Sheet) {
		i := len(plain.Openings)/2 + 3
		c := plain.Openings[i].Loop.Centroid()
		for _, e := range []Edit{
			{Shape: CircleShape, WidthMM: 1.6},
			{Shape: OvalShape, WidthMM: 2, HeightMM: 1.4, RotationDeg: 30},
			{Shape: PathShape, Path: "M-1 -1 A1.5 1.5 0 0 1 1 -1 L1 1 L-1 1 Z"},
		} {
			e.Do, e.At = Replace, spotsIn(plain, i)
			s := layWith(t, d, e)
			sameOthers(t, plain, s, nearTo(plain, plane.Circle(c, 1.4), i)...)
			o := holding(s, c)
			if o == nil || o.Edit != 0 || o.Field != 0 {
				t.Fatalf("%s: the opening is %v", e.Shape, o)
			}
			want := math.Pi * 0.8 * 0.8
			if e.Shape == OvalShape {
				want = math.Pi * 1 * 0.7
			}
			if e.Shape != PathShape && math.Abs(o.Loop.Area()-want) > 6e-3 {
				t.Errorf("%s: area %g, want %g", e.Shape, o.Loop.Area(), want)
			}
		}
	})
}

func TestASingleOpeningIsAdded(t *testing.T) {
	eachHandBand(t, func(t *testing.T, d Design, plain *Sheet) {
		// Into the room that solid cells leave.
		i := len(plain.Openings)/2 + 3
		at := spotsIn(plain, i)
		s := layWith(t, d, Edit{Do: LeaveSolid, At: at}, Edit{Do: Add, At: at, Shape: CircleShape, WidthMM: 1.5})
		sameOthers(t, plain, s, i)
		last := inRows(s).Openings[len(s.Openings)-1]
		if last.Field != -1 || last.Edit != 1 || math.Abs(last.Loop.Area()-math.Pi*0.75*0.75) > 1e-9 {
			t.Errorf("the last opening is %v", last)
		}
		// Over the pattern: the rule is kept, and openings far from it do not know.
		s = layWith(t, d, Edit{Do: Add, At: at, Shape: CircleShape, WidthMM: 9})
		sameOthers(t, plain, s, nearTo(plain, plane.Circle(spotPoint(at[0]), 4.5))...)
		if o := holding(s, spotPoint(at[0])); o == nil || o.Loop.Centroid().Dist(spotPoint(at[0])) > 1e-9 || math.Abs(o.Loop.Area()-math.Pi*4.5*4.5) > 1e-6 {
			t.Errorf("the circle is %v", o)
		}
		keepsTheRule(t, s, "added")
	})
}

// keepsTheRule holds a sheet to its rules by the slow, obvious way.
func keepsTheRule(t *testing.T, s *Sheet, name string) {
	t.Helper()
	turns := []float64{0}
	if s.Flat.Period > 0 {
		turns = []float64{0, s.Flat.Period, -s.Flat.Period}
	}
	for i := range s.Openings {
		o := &s.Openings[i]
		if err := o.Loop.Check(); err != nil && o.Edit >= 0 || o.Loop.Area() <= 0 {
			t.Errorf("%s: opening %d: area %g, %v", name, o.Number, o.Loop.Area(), err)
		}
		for j := range i + 1 {
			p := &s.Openings[j]
			for _, dx := range turns {
				if i == j && dx == 0 {
					continue
				}
				l := p.Loop.Move(plane.Pt(dx, 0))
				if o.Box.Dist(l.Bounds()) >= s.Rule {
					continue
				}
				if d := plane.Nearest(o.Loop, l).D; d < s.Rule-1e-6 || o.Loop.Contains(l[0].Point) || l.Contains(o.Loop[0].Point) {
					t.Errorf("%s: openings %d and %d are %.7f mm apart, rule %.7f", name, o.Number, p.Number, d, s.Rule)
				}
			}
		}
		if o.Edit < 0 && o.Field >= 0 {
			continue
		}
		out, err := plane.Not(plane.Region{o.Loop}, s.Ground)
		if err != nil || out.Area() > 1e-6 {
			t.Errorf("%s: opening %d lies %g mm² off the ground (%v)", name, o.Number, out.Area(), err)
		}
		if n := o.Loop.Necks(s.Rule - 1e-5); len(n) > 0 {
			t.Errorf("%s: opening %d has a neck of %.6f mm", name, o.Number, n[0].D)
		}
		if r := s.Design.Rules.SmallestMM; r > 0 && len(o.Loop.Inset(r/2-1e-9)) == 0 {
			t.Errorf("%s: opening %d is too small", name, o.Number)
		}
	}
}

func TestPlacesThatFindNothingAreListed(t *testing.T) {
	d := handBands()["cuff"]
	d.Reserves = []Reserve{{Shape: CircleShape, WidthMM: 8, MarginMM: 1}}
	s := layWith(t, d,
		Edit{Do: LeaveSolid, At: []Spot{{300, 0}, {40, 14.5}, {0, 0.3}}},
		Edit{Do: Change, Scale: 2, At: []Spot{{0, 0}}, MoveXMM: 1},
		Edit{Do: Add, Shape: CircleShape, WidthMM: 2, At: []Spot{{0, 200}, {1, 1}}},
	)
	for _, d := range s.Dropped {
		if d.Field < 0 {
			t.Errorf("told twice: %v", d)
		}
	}
	var got []string
	for _, i := range s.Idle {
		got = append(got, fmt.Sprintf("%d.%d %s", i.Edit, i.Spot, i.Why))
	}
	want := []string{"0.0 it lies outside the blank", "0.1 it lies on the rim", "0.2 it lies in what is kept solid", "1.0 it lies in what is kept solid", "2.0 nothing can be cut there", "2.1 nothing can be cut there"}
	if len(got) != len(want) {
		t.Fatalf("idle: %q", got)
	}
	for k := range want {
		if !strings.HasPrefix(got[k], want[k]) {
			t.Errorf("idle %q, want %q", got[k], want[k])
		}
	}
	// Of two edits on one opening, one of which leaves it solid, the other is told.
	plain := layWith(t, d)
	s = layWith(t, d, Edit{Do: Change, Scale: 0.5, At: spotsIn(plain, 3)}, Edit{Do: LeaveSolid, At: spotsIn(plain, 3)})
	if len(s.Idle) != 1 || s.Idle[0].Edit != 0 || s.Idle[0].Why != "it is left solid by edit 2" || len(s.Solid) != 1 {
		t.Errorf("idle %v, solid %v", s.Idle, s.Solid)
	}
}

func TestEditsStayWhenTheNumbersChange(t *testing.T) {
	eachHandBand(t, func(t *testing.T, d Design, plain *Sheet) {
		rng := rand.New(rand.NewSource(5))
		var which []int
		for range 8 {
			which = append(which, rng.Intn(len(plain.Openings)))
		}
		e := Edit{Do: LeaveSolid, At: spotsIn(plain, which...)}
		for k, change := range []func(*Design){
			func(d *Design) { d.Rules.BridgeMM = 0.6 },
			func(d *Design) { d.Rules.BridgeMM = 1.6 },
			func(d *Design) { d.Rules.RimMM = 4 },
			func(d *Design) { d.Rules.CornerMM = 0.5 },
			func(d *Design) { d.Fields[0].Rows = 5 },
			func(d *Design) { d.Fields[0].Repeats = 13 },
			func(d *Design) { d.Fields[0].Motif = "hexagons" },
		} {
			other := d
			other.Fields = slices.Clone(d.Fields)
			change(&other)
			without := layWith(t, other)
			s := layWith(t, other, e)
			for i, at := range e.At {
				if o := holding(s, spotPoint(at)); o != nil {
					t.Errorf("change %d: place %d lies in opening %d", k, i, o.Number)
				}
			}
			if k < 4 && len(s.Idle) == 0 && len(s.Solid) != len(uniq(which)) {
				t.Errorf("change %d: %d solid cells of %d", k, len(s.Solid), len(uniq(which)))
			}
			if len(s.Openings)+len(s.Solid) != len(without.Openings) {
				// A cell without an opening may be kept solid too.
				if len(s.Openings)+len(s.Solid) < len(without.Openings) {
					t.Errorf("change %d: %d openings and %d solid of %d", k, len(s.Openings), len(s.Solid), len(without.Openings))
				}
			}
		}
	})
}

func uniq(is []int) []int {
	is = slices.Clone(is)
	slices.Sort(is)
	return slices.Compact(is)
}

// A design that is its own mirror image stays one when all edits have mirror copies.
func TestMirrorCopiesAreMirrorImages(t *testing.T) {
	for _, name := range []string{"cuff", "soldered", "seamless", "tapered", "flared"} {
		d := handBands()[name]
		d.Fields[0].Motif, d.Rules.CornerMM, d.Rules.SmallestMM = "circles", 0, 0
		plain := inRows(layWith(t, d))
		x := 0.36 * plain.Flat.Length
		add := plain.Flat.Place(x, 4.1)
		for _, mirror := range []string{MirrorAlong, MirrorAcross, MirrorBoth} {
			images := 2
			if mirror == MirrorBoth {
				images = 4
			}
			s := layWith(t, d,
				Edit{Do: Change, At: spotsIn(plain, 4), MoveXMM: 0.3, MoveYMM: 0.2, RotationDeg: 20, Scale: 0.6, Mirror: mirror},
				Edit{Do: Replace, At: spotsIn(plain, 7), Shape: RectangleShape, WidthMM: 2.4, HeightMM: 1, RotationDeg: 25, Mirror: mirror},
				Edit{Do: Add, At: []Spot{{add.X, add.Y}}, Shape: PathShape, Path: "M0 0 L1 0 L0.3 0.8 Z", Mirror: mirror})
			if len(s.Idle) > 0 {
				t.Errorf("%s, %s: idle %v", name, mirror, s.Idle)
			}
			byHand := 0
			for _, o := range s.Openings {
				if o.Edit < 0 {
					continue
				}
				byHand++
				if s.Flat.Flared() && mirror != MirrorAlong {
					continue // above and below are not alike
				}
				want := flipped(o.Loop, mirror != MirrorAcross, mirror != MirrorAlong)
				found := false
				for _, p := range s.Openings {
					found = found || p.Edit == o.Edit && want.Same(p.Loop, 1e-9)
				}
				if !found {
					t.Errorf("%s, %s: opening %d (edit %d) has no mirror image", name, mirror, o.Number, o.Edit)
				}
			}
			if byHand != 3*images {
				t.Errorf("%s, %s: %d openings by hand", name, mirror, byHand)
			}
		}
	}
}

// randomEdits draws edits near openings of a sheet and anywhere.
func randomEdits(rng *rand.Rand, s *Sheet) []Edit {
	pick := func(lo, hi float64) float64 { return lo + (hi-lo)*rng.Float64() }
	var edits []Edit
	for range 1 + rng.Intn(6) {
		e := Edit{Do: []string{LeaveSolid, Change, Replace, Add}[rng.Intn(4)], Mirror: []string{"", "", MirrorAlong, MirrorAcross, MirrorBoth}[rng.Intn(5)]}
		for range 1 + rng.Intn(5) {
			at := Spot{pick(-95, 95), pick(-15, 15)}
			if len(s.Openings) > 0 && rng.Intn(4) > 0 {
				at = spotsIn(s, rng.Intn(len(s.Openings)))[0]
			}
			e.At = append(e.At, at)
		}
		switch e.Do {
		case Change:
			e.MoveXMM, e.MoveYMM, e.RotationDeg, e.Scale = pick(-4, 4), pick(-4, 4), pick(-180, 180), pick(0.4, 2)
		case Replace, Add:
			e.Shape, e.WidthMM, e.HeightMM = []string{CircleShape, OvalShape, RectangleShape}[rng.Intn(3)], pick(1, 9), pick(1, 9)
			e.RotationDeg = pick(-90, 90)
			if e.Shape == CircleShape {
				e.HeightMM = 0
			}
		}
		edits = append(edits, e)
	}
	return edits
}

func TestTheRuleHoldsWhateverIsDoneByHand(t *testing.T) {
	n := 200
	if testing.Short() {
		n = 30
	}
	byHand := 0
	for seed := range n {
		rng := rand.New(rand.NewSource(int64(seed)))
		d := randomDesign(rng)
		plain, err := Lay(d)
		if err != nil {
			t.Fatal(err)
		}
		if len(plain.Openings) > 200 {
			d.Fields[0].Repeats = 1 + d.Fields[0].Repeats/4
			if plain, err = Lay(d); err != nil {
				t.Fatal(err)
			}
		}
		d.Edits = randomEdits(rng, plain)
		s, err := Lay(d)
		if err != nil {
			t.Fatalf("seed %d: %v", seed, err)
		}
		keepsTheRule(t, s, fmt.Sprintf("seed %d (%s, %s)", seed, d.Fields[0].Motif, d.Band.Kind))
		for _, o := range s.Openings {
			if o.Edit >= 0 {
				byHand++
			}
		}
		solid := map[int]bool{}
		for _, i := range s.Idle {
			solid[i.Edit*10000+i.Spot] = true
		}
		for _, p := range EditPositions(d, s.Flat) {
			if d.Edits[p.Edit].Do != LeaveSolid || solid[p.Edit*10000+p.Spot] {
				continue
			}
			if o := holding(s, p.At); o != nil && o.Edit < 0 {
				t.Errorf("seed %d: place %d of edit %d lies in opening %d", seed, p.Spot, p.Edit, o.Number)
			}
		}
		again, _ := Lay(d)
		if !reflect.DeepEqual(s, again) {
			t.Errorf("seed %d: two sheets of one design differ", seed)
		}
	}
	if byHand < n {
		t.Errorf("only %d openings by hand in all", byHand)
	}
}

// BenchmarkLayByHand is what 200 edits on 2000 openings cost: their own way against
// laying the same design without them.
func BenchmarkLayByHand(b *testing.B) {
	d := handBands()["cuff"]
	d.Band.WidthMM, d.Band.EndWidthMM = 60, 60
	d.Rules = DesignRules{BridgeMM: 0.4, RimMM: 2, CornerMM: 0.1, SmallestMM: 0.2}
	d.Fields[0].Rows, d.Fields[0].Repeats = 10, 100
	plain, err := Lay(d)
	if err != nil {
		b.Fatal(err)
	}
	rng := rand.New(rand.NewSource(1))
	run := func(name string, edit func(i int) Edit) {
		d := d
		for k, i := range rng.Perm(len(plain.Openings))[:200] {
			if e := edit(k); e.Do != "" {
				e.At = spotsIn(plain, i)
				d.Edits = append(d.Edits, e)
			}
		}
		b.Run(name, func(b *testing.B) {
			for range b.N {
				if _, err := Lay(d); err != nil {
					b.Fatal(err)
				}
			}
			b.ReportMetric(float64(len(plain.Openings)), "openings")
		})
	}
	run("none", func(int) Edit { return Edit{} })
	run("solid", func(int) Edit { return Edit{Do: LeaveSolid} })
	run("smaller", func(int) Edit { return Edit{Do: Change, Scale: 0.7} })
	run("larger", func(int) Edit { return Edit{Do: Change, Scale: 1.2} })
	run("moved", func(int) Edit { return Edit{Do: Change, MoveXMM: 0.3} })
	run("circles", func(int) Edit { return Edit{Do: Replace, Shape: CircleShape, WidthMM: 2} })
}

// BenchmarkLayWholeFieldByHand is what it costs to change every opening of a field
// at once.
func BenchmarkLayWholeFieldByHand(b *testing.B) {
	d := handBands()["cuff"]
	d.Band.WidthMM, d.Band.EndWidthMM = 60, 60
	d.Rules = DesignRules{BridgeMM: 0.4, RimMM: 2, CornerMM: 0.1, SmallestMM: 0.2}
	d.Fields[0].Rows, d.Fields[0].Repeats = 10, 100
	plain, err := Lay(d)
	if err != nil {
		b.Fatal(err)
	}
	all := make([]int, len(plain.Openings))
	for i := range all {
		all[i] = i
	}
	for _, e := range []struct {
		name string
		Edit
	}{{"smaller", Edit{Do: Change, Scale: 0.8}}, {"turned", Edit{Do: Change, RotationDeg: 5}}, {"moved", Edit{Do: Change, MoveXMM: 0.5}}} {
		d := d
		e.At = spotsIn(plain, all[:min(len(all), MaxSpots)]...)
		d.Edits = []Edit{e.Edit}
		b.Run(e.name, func(b *testing.B) {
			for range b.N {
				if _, err := Lay(d); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}

// Where areas of fields lie over each other, and cells of fields are turned,
// mirrored and graded, an edit works on the opening that its place lies in, and on
// no other.
func TestEditsWorkOnTheFieldThatHasThePlace(t *testing.T) {
	for _, name := range []string{"cuff", "soldered", "seamless", "tapered", "flared"} {
		d := handBands()[name]
		d.Fields = []Field{
			{Motif: "hexagons", Rows: 4, Repeats: 6, Area: Area{Shape: RunShape, FromMM: -40, ToMM: -5}, Mirror: MirrorAlong},
			{Motif: "squares", Rows: 3, PitchMM: 7, RotationDeg: 20, Area: Area{Shape: OvalShape, XMM: 25, WidthMM: 40, HeightMM: 22}},
			{Motif: "triangles", Rows: 3, Repeats: 20, Stagger: 0.5, GradeAlong: []Grade{{-1, 1}, {0, 1.4}, {1, 0.8}}, Mirror: MirrorAlong},
		}
		plain := inRows(layWith(t, d))
		rng := rand.New(rand.NewSource(3))
		fields := map[int]bool{}
		for range 25 {
			i := rng.Intn(len(plain.Openings))
			fields[plain.Openings[i].Field] = true
			p := plain.Openings[i].Position()
			s := layWith(t, d, Edit{Do: LeaveSolid, At: []Spot{{p.X, p.Y}}})
			if len(s.Openings) != len(plain.Openings)-1 || len(s.Solid) != 1 || s.Solid[0].Field != plain.Openings[i].Field {
				t.Errorf("%s: opening %d of field %d at %v: %d of %d openings left, solid %v", name, i, plain.Openings[i].Field, p, len(s.Openings), len(plain.Openings), s.Solid)
				continue
			}
			sameOthers(t, plain, s, i)
		}
		if len(fields) < 3 {
			t.Errorf("%s: only fields %v were tried", name, fields)
		}
	}
}

// Edits at the limits of their numbers, anywhere, over each other.
func TestTheRuleHoldsForAbsurdEdits(t *testing.T) {
	if testing.Short() {
		t.Skip("slow: shapes as large as the band, over each other")
	}
	for seed := range 15 {
		rng := rand.New(rand.NewSource(int64(seed) + 5000))
		d := randomDesign(rng)
		d.Fields[0].Repeats = min(d.Fields[0].Repeats, 8)
		plain, err := Lay(d)
		if err != nil {
			t.Fatal(err)
		}
		d.Edits = randomEdits(rng, plain)
		for i := range d.Edits {
			e := &d.Edits[i]
			switch e.Do {
			case Change:
				e.MoveXMM, e.MoveYMM, e.Scale = 1000*(rng.Float64()-0.5), 60*(rng.Float64()-0.5), []float64{ScaleRange.Min, ScaleRange.Max, 3}[rng.Intn(3)]
			case Replace, Add:
				e.WidthMM = []float64{SizeRange.Min, SizeRange.Max, 40}[rng.Intn(3)]
				if e.Shape != CircleShape {
					e.HeightMM = []float64{SizeRange.Min, SizeRange.Max, 20}[rng.Intn(3)]
				}
			}
			e.At = append(e.At, Spot{PositionRange.Max, PositionRange.Min}, Spot{}, Spot{1e-9, 0}, e.At[0])
		}
		s, err := Lay(d)
		if err != nil {
			t.Fatalf("seed %d: %v", seed, err)
		}
		keepsTheRule(t, s, fmt.Sprintf("seed %d (%s, %s)", seed, d.Fields[0].Motif, d.Band.Kind))
	}
}

// An outline drawn on the blank is cut where it was drawn, on flat and flared bands, and so
// is one that is drawn at the place of a mirror image.
func TestADrawnOutlineIsCutWhereItWasDrawn(t *testing.T) {
	l := plane.Loop{{Point: plane.Pt(20, 3)}, {Point: plane.Pt(27.5, 2), Bulge: 0.4}, {Point: plane.Pt(29, 6.5)}, {Point: plane.Pt(22.25, 8), Bulge: -0.2}}
	for name, d := range handBands() {
		s, err := Lay(d)
		require.NoError(t, err)
		for _, mirror := range []string{"", MirrorAlong, MirrorBoth} {
			e := DrawnEdit(s.Flat, l, &Edit{Do: Add, Mirror: mirror}, EditPosition{})
			loops, err := s.Images(e)
			require.NoError(t, err, name)
			require.True(t, loops[0].Same(l, 2e-4), "%s: %v is not %v", name, loops[0], l)
			if mirror == "" {
				continue
			}
			// Drawn again at a mirror image, with one point elsewhere.
			d.Edits = []Edit{e}
			p := EditPositions(d, s.Flat)[1]
			at := slices.Clone(loops[1])
			at[1].Point = at[1].Add(plane.Pt(0.25, -0.25))
			again := DrawnEdit(s.Flat, at, &e, p)
			images, err := s.Images(again)
			require.NoError(t, err)
			require.True(t, images[1].Same(at, 5e-4), "%s, %s: %v is not %v", name, mirror, images[1], at)
		}
	}
}

// The rules take from a drawing what lies on the rim, and say how much.
func TestWhatTheRulesTakeOfADrawingIsMeasured(t *testing.T) {
	d := handBands()["cuff"]
	d.Fields = nil
	s, err := Lay(d)
	require.NoError(t, err)
	b := s.Ground.Bounds()
	in := plane.Rect(plane.Box{Min: plane.Pt(-3, -3), Max: plane.Pt(3, 3)})
	over := plane.Rect(plane.Box{Min: plane.Pt(-3, b.Max.Y-2), Max: plane.Pt(3, b.Max.Y+1)})
	made, taken := s.Held([]plane.Loop{in})
	require.Len(t, made, 1)
	require.InDelta(t, (4-math.Pi)*d.Rules.CornerMM*d.Rules.CornerMM, taken, 1e-6, "its corners only")
	made, taken = s.Held([]plane.Loop{over})
	require.Len(t, made, 1)
	require.InDelta(t, 6, taken, 0.2, "what lies over the rim's edge")
}
