package pattern

import (
	"fmt"
	"math"
	"math/rand"
	"slices"
	"testing"

	"fretband/unroll/plane"
)

// piecesOf counts what the metal of an open band falls into.
func piecesOf(t *testing.T, s *Sheet) int {
	t.Helper()
	metal := plane.Region{s.Flat.Outline}
	for _, o := range s.Openings {
		var err error
		if metal, err = plane.Not(metal, plane.Region{o.Loop}); err != nil {
			t.Fatal(err)
		}
	}
	return len(parts(metal))
}

// A rectangle of 20 by 10 mm round one or two reserves, with ties across at random, by the
// slow way: what is cut is counted on a grid, whose points are joined by flooding. A part
// with an island in it is left solid, and nothing else is.
func TestATieAcrossARingKeepsWhatItTouches(t *testing.T) {
	const step = 0.05
	nx, ny := int(20/step), int(10/step)
	at := func(i, j int) plane.Point { return plane.Pt(-10+step*(float64(i)+0.5), -5+step*(float64(j)+0.5)) }
	cut, solid := 0, 0
	for seed := range 60 {
		rng := rand.New(rand.NewSource(int64(seed)))
		pick := func(lo, hi float64) float64 { return lo + (hi-lo)*rng.Float64() }
		d := window()
		islands := []plane.Point{plane.Pt(pick(-6, -4), pick(-1, 1))}
		if seed%3 == 0 {
			islands = append(islands, plane.Pt(pick(4, 6), pick(-1, 1)))
		}
		for _, p := range islands {
			d.Reserves = append(d.Reserves, Reserve{Shape: CircleShape, XMM: p.X, YMM: p.Y, WidthMM: 3, MarginMM: 0.5})
		}
		if s := layWith(t, d, d.Edits...); len(s.Openings) > 0 || len(s.Idle) != 1 {
			t.Fatalf("seed %d: %d openings without a tie, idle %v", seed, len(s.Openings), s.Idle)
		}
		var ties []Edit
		for range 1 + rng.Intn(2) {
			a, b := plane.Pt(pick(-9, 9), -7), plane.Pt(pick(-9, 9), 7)
			if rng.Intn(2) == 0 {
				a = islands[rng.Intn(len(islands))]
			}
			ties = append(ties, tieBetween(a, b, pick(1, 1.8)))
		}
		s := layTies(t, d, ties...)
		open := make([]bool, nx*ny)
		for i := range nx {
			for j := range ny {
				p, free := at(i, j), true
				for _, c := range islands {
					free = free && p.Dist(c) > 2
				}
				for _, e := range ties {
					l := plane.Edge{A: spotPoint(e.At[0]), B: spotPoint(e.At[0]).Add(plane.Pt(e.SpanXMM, e.SpanYMM))}
					free = free && l.Dist(p) > e.WidthMM/2
				}
				open[i*ny+j] = free
			}
		}
		flood := func(from int, in func(k int) bool, seen []bool) (n int) {
			next := []int{from}
			seen[from] = true
			for len(next) > 0 {
				k := next[len(next)-1]
				next, n = next[:len(next)-1], n+1
				i, j := k/ny, k%ny
				for _, m := range [][2]int{{i - 1, j}, {i + 1, j}, {i, j - 1}, {i, j + 1}} {
					if q := m[0]*ny + m[1]; m[0] >= 0 && m[0] < nx && m[1] >= 0 && m[1] < ny && !seen[q] && in(q) {
						seen[q] = true
						next = append(next, q)
					}
				}
			}
			return n
		}
		seen, want, few := make([]bool, nx*ny), 0.0, false
		for k, is := range open {
			if !is || seen[k] {
				continue
			}
			part := make([]bool, nx*ny)
			n := flood(k, func(q int) bool { return open[q] }, part)
			// What is not of the part and not joined to the rectangle's edge is within it.
			rest := make([]bool, nx*ny)
			for q := range rest {
				if i, j := q/ny, q%ny; !part[q] && !rest[q] && (i == 0 || j == 0 || i == nx-1 || j == ny-1) {
					flood(q, func(q int) bool { return !part[q] }, rest)
				}
			}
			island := false
			for q := range part {
				seen[q] = seen[q] || part[q]
				island = island || !part[q] && !rest[q]
			}
			if island {
				solid++
			} else {
				want += float64(n) * step * step
				few = few || n < 40 // so small that it may be a sliver of the grid
				cut++
			}
		}
		got := openArea(s)
		for _, x := range s.Dropped { // a tie that grazes an island leaves a neck there
			if x.Why != IslandFalls {
				few = true
			}
		}
		if math.Abs(got-want) > 0.006*200 && !few {
			t.Errorf("seed %d: %.2f mm² are open, by the grid %.2f; dropped %v", seed, got, want, s.Dropped)
		}
		if n := piecesOf(t, s); n != 1 {
			t.Errorf("seed %d: the metal falls into %d pieces", seed, n)
		}
		keepsTheRule(t, s, fmt.Sprint("seed ", seed))
	}
	if cut < 60 || solid < 10 {
		t.Errorf("only %d parts are cut and %d left solid", cut, solid)
	}
}

// Reserves in large cells of the pattern, with ties from some of them to the metal about
// the cell, drawn as a hand does and brought to the metal: those are kept.
func TestATieKeepsAnIslandOnEveryBand(t *testing.T) {
	eachHandBand(t, func(t *testing.T, d Design, _ *Sheet) {
		for seed, motif := range []string{"squares", "hexagons", "circles", "bricks", "diamonds"} {
			name := fmt.Sprint("seed ", seed)
			rng := rand.New(rand.NewSource(int64(seed)))
			d.Fields = []Field{{Motif: motif, Rows: 1, Repeats: 7, Follow: d.Fields[0].Follow}}
			plain := layWith(t, d)
			var middles []plane.Point
			for _, o := range plain.Openings {
				if m := o.Loop.Centroid(); o.Loop.Contains(m) && fromEdge(o.Loop, m) > 2.5 {
					middles = append(middles, m)
				}
			}
			rng.Shuffle(len(middles), func(i, j int) { middles[i], middles[j] = middles[j], middles[i] })
			middles = middles[:4]
			for _, p := range middles {
				d.Reserves = append(slices.Clone(d.Reserves), Reserve{Shape: CircleShape, XMM: p.X, YMM: p.Y, WidthMM: 2, MarginMM: 0.5})
			}
			ringed := layWith(t, d)
			if len(ringed.rings) < 4 {
				t.Fatalf("%s: %d rings", name, len(ringed.rings))
			}
			var ties []Edit
			for _, p := range middles[:2] {
				way := plane.Pt(2.5, 0).Turn(7 * rng.Float64())
				e, ok := ringed.Tied(Edit{Do: Tie, At: []Spot{{p.X, p.Y}}, SpanXMM: way.X, SpanYMM: way.Y})
				if !ok {
					t.Fatalf("%s: a tie in a ring crosses nothing", name)
				}
				ties = append(ties, e)
			}
			s := layWith(t, d, ties...)
			if len(s.Openings) <= len(ringed.Openings) || len(s.Idle) > 0 {
				t.Errorf("%s: %d openings, without ties %d; idle %v", name, len(s.Openings), len(ringed.Openings), s.Idle)
			}
			if len(s.rings) != len(ringed.rings)-2 {
				t.Errorf("%s: %d rings, without ties %d", name, len(s.rings), len(ringed.rings))
			}
			keepsTheRule(t, s, name)
			tied(t, name, ringed, s)
			if s.Flat.Period == 0 && d.Band.Open() {
				if n := piecesOf(t, s); n != 1 {
					t.Errorf("%s: the metal falls into %d pieces", name, n)
				}
			}
			d.Reserves = nil
		}
	})
}

// A shape drawn over the pattern round a reserve is cut once a tie keeps that, and the
// pattern gives way to it as to any other.
func TestThePatternGivesWayToARingThatATieKeeps(t *testing.T) {
	d := handBands()["cuff"]
	d.Reserves = []Reserve{{Shape: CircleShape, WidthMM: 5}}
	round := Edit{Do: Add, Shape: OvalShape, At: []Spot{{}}, WidthMM: 16, HeightMM: 14}
	without := layWith(t, d)
	s := layWith(t, d, round)
	sameOthers(t, without, s)
	if len(s.Idle) != 1 {
		t.Errorf("idle %v", s.Idle)
	}
	tie := tieBetween(plane.Pt(0, 0), plane.Pt(0, 12), 1.2)
	if _, ok := s.Tied(tie); !ok {
		t.Error("no tie can be drawn across it")
	}
	s = layWith(t, d, round, tie)
	if o := holding(s, plane.Pt(0, -5)); o == nil || o.Edit != 0 || len(s.Idle) > 0 {
		t.Errorf("below the reserve lies %v, idle %v", o, s.Idle)
	}
	keepsTheRule(t, s, "round")
	if n := piecesOf(t, s); n != 1 {
		t.Errorf("the metal falls into %d pieces", n)
	}
	// What was drawn before it stays.
	small := Edit{Do: Add, Shape: OvalShape, At: []Spot{{XMM: 30}}, WidthMM: 3, HeightMM: 2}
	before := len(s.Openings)
	s = layWith(t, d, small, round, tie)
	if o := holding(s, plane.Pt(30, 0)); o == nil || o.Edit != 0 || math.Abs(o.Loop.Area()-math.Pi*1.5) > 0.01 {
		t.Errorf("in the oval drawn first lies %v of %d openings, %d before", o, len(s.Openings), before)
	}
	keepsTheRule(t, s, "round, beside another")
	// An opening drawn in the middle of a large one leaves a ring round it.
	d = window()
	d.Edits = []Edit{{Do: Add, Shape: OvalShape, At: []Spot{{}}, WidthMM: 4, HeightMM: 4}}
	d.Fields = []Field{{Motif: "squares", Rows: 1, Repeats: 5}}
	s = layWith(t, d, d.Edits...)
	tie = tieBetween(plane.Pt(0, 2.5), plane.Pt(0, 12), 1.2)
	if _, ok := s.Tied(tie); !ok {
		t.Error("no tie can be drawn across the ring about an opening")
	}
	with := layWith(t, d, append(slices.Clone(d.Edits), tie)...)
	if len(with.Openings) != len(s.Openings)+1 || piecesOf(t, with) != 1 {
		t.Errorf("%d openings, without the tie %d", len(with.Openings), len(s.Openings))
	}
	keepsTheRule(t, with, "about an opening")
}
