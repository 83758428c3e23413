package plane

import (
	"math"
	"math/rand/v2"
	"testing"
)

// blunted returns the loop with edges and arcs up to a few least long put in at random: in
// the place of corners, as steps, and as points beside its edges.
func blunted(r *rand.Rand, l Loop, least float64) Loop {
	small := func() float64 { return least * math.Pow(10, -2*r.Float64()) }
	for range 1 + r.IntN(6) {
		i := r.IntN(len(l))
		e := l.Edge(i)
		d := small() / e.Len()
		bulge := 0.0
		if r.IntN(3) == 0 {
			bulge = 1 - 2*r.Float64()
		}
		var vs []Vertex
		switch r.IntN(4) {
		case 3: // the corner at its end is cut off by an arc, a line and an arc, as rounding leaves a needle's end
			j := (i + 1) % len(l)
			a, b := e.Part(0, 1-d), l.Edge(j).Part(math.Min(0.5, small()/l.Edge(j).Len()), 1)
			l[i].Bulge = a.Bulge
			u := b.A.Sub(a.B)
			vs = []Vertex{{a.B, 0.4 * r.Float64()}, {a.B.Add(u.Mul(0.2 + 0.2*r.Float64())), 0}, {b.A.Sub(u.Mul(0.2 + 0.2*r.Float64())), 0.4 * r.Float64()}}
			l[j] = Vertex{b.A, b.Bulge}
		case 0: // the corner at its end is cut off
			p := e.Part(0, 1-d)
			l[i].Bulge = p.Bulge
			vs = []Vertex{{p.B, bulge}}
		case 1: // a speck of it by itself
			t := 0.2 + 0.5*r.Float64()
			a, b, c := e.Part(0, t), e.Part(t, t+d), e.Part(t+d, 1)
			l[i].Bulge = a.Bulge
			vs = []Vertex{{b.A, b.Bulge}, {c.A, c.Bulge}}
		case 2: // a step to one side
			t := 0.2 + 0.5*r.Float64()
			a, c := e.Part(0, t), e.Part(t, 1)
			l[i].Bulge = a.Bulge
			at := a.B.Add(e.Tangent(t).Turn(2 * math.Pi * r.Float64()).Mul(small()))
			vs = []Vertex{{a.B, bulge}, {at, c.Bulge}}
		}
		m := append(Loop{}, l[:i+1]...)
		l = append(append(m, vs...), l[i+1:]...)
	}
	return l
}

func TestWithoutShortOnlyShrinksAndLeavesNothingShort(t *testing.T) {
	r := seeded(t)
	const least = 1e-3
	done, undone, worst, out := 0, 0, 0.0, 0.0
	for range 3000 {
		l := star(r, 3+r.IntN(8), true)
		if l = blunted(r, l, least); l.Check() != nil {
			continue
		}
		if r.IntN(4) == 0 {
			l = l.Reverse() // a hole: what is outside of it shrinks
		}
		got, ok := l.withoutShort(least)
		if !ok {
			undone++
			continue
		}
		done++
		if err := got.Check(); err != nil {
			t.Errorf("%v: %#v", err, l)
		}
		hole := l.Area() < 0
		for i := range got {
			e := got.Edge(i)
			if e.short(least) {
				t.Errorf("edge %d is %g long: %#v", i, e.Len(), l)
			}
			for _, f := range []float64{0, 0.1, 0.3, 0.5, 0.8} {
				p := e.At(f)
				d := l.Nearest(p).D
				worst = math.Max(worst, d)
				if l.Contains(p) == hole {
					out = math.Max(out, d)
				}
			}
		}
		for i := range l {
			for _, f := range []float64{0, 0.5} {
				worst = math.Max(worst, got.Nearest(l.Edge(i).At(f)).D)
			}
		}
		if out > 3*smoothly || worst > 2.5*least { // several smooth steps add up
			t.Fatalf("%.3g mm outward, %.3g mm in all: %#v", out, worst, l)
		}
	}
	t.Logf("%d loops, %d not: outward by %.3g mm, moved by %.3g mm at most", done, undone, out, worst)
	// Steps that fold back on themselves can't all be had.
	if done < 1000 || undone > done/40 {
		t.Errorf("%d loops, %d not", done, undone)
	}
}

// The end of a needle by two tiny arcs and a short line. Had the arcs met at a point beside
// the line, bent as they are, they would have bulged out: 0.28 um here.
func TestTheEndOfANeedleStaysWithin(t *testing.T) {
	l := Loop{
		{Pt(37.1276423437457, -16.389848271416625), 0}, {Pt(38.91, -9.57), 0}, {Pt(35.39, -10.68), -0.0022},
		{Pt(37.10811376286722, -16.389327772572127), 0.30983070937256074},
		{Pt(37.11307275353073, -16.393357731424654), 0},
		{Pt(37.121711676325475, -16.394063525297607), 0.36470877531529466},
	}
	got, ok := l.Cuttable()
	if !ok {
		t.Fatal("not done")
	}
	for i := range got {
		for _, f := range []float64{0, 0.25, 0.5, 0.75} {
			if p := got.Edge(i).At(f); !l.Contains(p) && l.Nearest(p).D > smoothly {
				t.Errorf("%v lies %.3g mm outside", p, l.Nearest(p).D)
			}
		}
	}
}

func TestWithoutShortOfKnownShapes(t *testing.T) {
	const d, least = 0.0005, 1e-3
	slot := Loop{{Pt(18, -1), 0}, {Pt(26, -1), 1}, {Pt(26, 1), 0}, {Pt(18, 1), 1}}
	// The slot with its first half turn in two arcs, the second of them d long.
	part := 1 - d/math.Pi
	a, b := slot.Edge(1).Part(0, part), slot.Edge(1).Part(part, 1)
	two := Loop{slot[0], {a.A, a.Bulge}, {b.A, b.Bulge}, slot[2], slot[3]}
	// A needle of metal in an opening, with a tip d wide, and a needle of an opening.
	needle := Polygon(Pt(0, 0), Pt(4, 0), Pt(4, 3), Pt(2+d, 3), Pt(2+d/2, 1), Pt(2-d/2, 1), Pt(2-d, 3), Pt(0, 3))
	tip := Polygon(Pt(0.02, 0), Pt(4, -0.2), Pt(4, 0.2), Pt(0.02, 0.0009))
	// A circle of 20 mm in 360 chords with corners of 0.01 mm radius: arcs of 0.17 um.
	chords := Polygon(Circle(Pt(0, 0), 10).Flatten(10 * (1 - math.Cos(math.Pi/360)))...)
	round := Region{chords}.Open(0.01)[0]
	// A square with a corner of 90 degrees rounded to 0.5 um inward, as beside a reserve
	// with that margin.
	notch := Loop{{Pt(0, 0), 0}, {Pt(4, 0), 0}, {Pt(4, 2), 0}, {Pt(2+d, 2), 1 - math.Sqrt2}, {Pt(2, 2+d), 0}, {Pt(2, 4), 0}, {Pt(0, 4), 0}}
	for _, c := range []struct {
		name  string
		l     Loop
		edges int
		area  float64 // mm^2, by hand
		less  float64 // of it at most
	}{
		{"an arc in two", two, 4, 16 + math.Pi, 1e-9},
		{"a line in two", Polygon(Pt(0, 0), Pt(2, 0), Pt(2+d, 0), Pt(4, 0), Pt(4, 3), Pt(0, 3)), 5, 12, 0},
		{"a corner cut off", Polygon(Pt(0, 0), Pt(4-d, 0), Pt(4, d), Pt(4, 3), Pt(0, 3)), 5, 12 - d*d/2, 1e-6},
		{"a corner filled", Polygon(Pt(0, 0), Pt(4, 0), Pt(4, 2), Pt(2+d, 2), Pt(2, 2+d), Pt(2, 4), Pt(0, 4)), 6, 12 + d*d/2, d * d / 2},
		{"a corner filled round", notch, 6, 12 + d*d*(1-math.Pi/4), 1e-6},
		{"a needle of metal", needle, 8, 12 - 2*1.5*d, 1e-6},
		{"a needle of air", tip, 4, tip.Area(), 1e-6},
		{"a circle in chords", round, len(round), round.Area(), 1e-4},
		{"a slot", slot, 4, 16 + math.Pi, 0},
	} {
		got, ok := c.l.withoutShort(least)
		if !ok {
			t.Errorf("%s: not done", c.name)
			continue
		}
		if len(got) != c.edges {
			t.Errorf("%s: %d edges, want %d", c.name, len(got), c.edges)
		}
		nearly(t, c.name, c.l.Area(), c.area, 1e-9)
		if more := got.Area() - c.l.Area(); more > 1e-8 || more < -c.less-1e-8 {
			t.Errorf("%s: %.3g mm2 more", c.name, more)
		}
	}
	for _, l := range []Loop{nil, Circle(Pt(0, 0), d/4), Polygon(Pt(0, 0), Pt(d, 0), Pt(0, d))} {
		if got, ok := l.withoutShort(least); ok != (l == nil) {
			t.Errorf("%v: %v, %v", l, got, ok)
		}
	}
}

// An edge is short if a quarter of a turn of it is, or what is left of it in equal parts of
// no more: the chord of the angle a of a circle is 2 r sin(a/2).
func TestAnEdgeIsAsShortAsTheChordOfItsQuarters(t *testing.T) {
	for _, degrees := range []float64{10, 60, 90, 91, 135, 180, 200, 270, 300, 350} {
		const r = 2.0
		a := degrees * math.Pi / 180
		e := Edge{A: Pt(r, 0), B: Pt(r, 0).Turn(a), Bulge: math.Tan(a / 4)}
		part := a / math.Max(1, math.Ceil(degrees/90))
		chord := 2 * r * math.Sin(part/2)
		for _, e := range []Edge{e, e.Reverse()} {
			if e.short(chord-1e-9) || !e.short(chord+1e-9) {
				t.Errorf("%g degrees: not as short as %g", degrees, chord)
			}
		}
	}
}

func TestWithoutFlatTakesLinesForLowArcs(t *testing.T) {
	l := Loop{{Pt(0, 0), 2e-8}, {Pt(10, 0), 4e-8}, {Pt(10, 4), -0.3}, {Pt(0, 4), 0}}
	got := l.withoutFlat(2e-7) // the first is 1e-7 high, the second 0.8e-7
	if got[0].Bulge != 0 || got[1].Bulge != 0 || got[2].Bulge != -0.3 || l[0].Bulge == 0 {
		t.Errorf("%v of %v", got, l)
	}
	if got := l.withoutFlat(9e-8); got[0].Bulge == 0 || got[1].Bulge != 0 {
		t.Errorf("%v of %v", got, l)
	}
}
