package pattern

import (
	"fmt"
	"math"
	"math/rand"
	"slices"
	"testing"

	"fretband/unroll/plane"
)

// numbered is a sheet with rectangles of a width and height about given places, on a
// level blank without fields.
func numbered(w, h float64, at ...plane.Point) *Sheet {
	s := &Sheet{}
	for _, p := range at {
		b := plane.Box{Min: p.Sub(plane.Pt(w/2, h/2)), Max: p.Add(plane.Pt(w/2, h/2))}
		s.Openings = append(s.Openings, Opening{Loop: plane.Rect(b), Box: b, At: p, Field: -1, Row: -int(math.Round(p.Y)), Shape: -1})
	}
	return s
}

// inRowsAbout returns the middles of rows of openings about the middle of the blank, in
// any order.
func inRowsAbout(rows, each int, pitchX, pitchY float64, seed int64) []plane.Point {
	var ps []plane.Point
	for r := range rows {
		for c := range each {
			ps = append(ps, plane.Pt((float64(c)-float64(each-1)/2)*pitchX, (float64(r)-float64(rows-1)/2)*pitchY))
		}
	}
	rand.New(rand.NewSource(seed)).Shuffle(len(ps), func(i, j int) { ps[i], ps[j] = ps[j], ps[i] })
	return ps
}

// places returns where the openings stand, by number.
func places(s *Sheet) []plane.Point {
	var ps []plane.Point
	for _, o := range s.Openings {
		ps = append(ps, o.Box.Centre())
	}
	return ps
}

func TestOpeningsAreNumberedFromTheMiddleOutwards(t *testing.T) {
	p := plane.Pt
	for _, c := range []struct {
		name string
		at   []plane.Point
		want []plane.Point
	}{
		{"one row, odd", inRowsAbout(1, 5, 2, 3, 1), []plane.Point{p(0, 0), p(2, 0), p(4, 0), p(-2, 0), p(-4, 0)}},
		{"one row, even", inRowsAbout(1, 4, 2, 3, 2), []plane.Point{p(1, 0), p(3, 0), p(-1, 0), p(-3, 0)}},
		{"two rows: the upper first", inRowsAbout(2, 2, 2, 3, 3), []plane.Point{p(1, 1.5), p(-1, 1.5), p(1, -1.5), p(-1, -1.5)}},
		{"four rows", inRowsAbout(4, 1, 2, 3, 4), []plane.Point{p(0, 1.5), p(0, -1.5), p(0, 4.5), p(0, -4.5)}},
		{"three rows", inRowsAbout(3, 2, 2, 3, 5), []plane.Point{p(1, 0), p(-1, 0), p(1, 3), p(-1, 3), p(1, -3), p(-1, -3)}},
		{"rows that are not level to the last bit", []plane.Point{p(4, 1e-9), p(-4, 0), p(0, -1e-9), p(2, 1e-12)},
			[]plane.Point{p(0, -1e-9), p(2, 1e-12), p(4, 1e-9), p(-4, 0)}},
		{"below alone", []plane.Point{p(0, -8), p(0, -4), p(0, -6)}, []plane.Point{p(0, -4), p(0, -6), p(0, -8)}},
		{"those below nearer than those above", []plane.Point{p(0, 5), p(0, -2), p(0, -9)}, []plane.Point{p(0, -2), p(0, 5), p(0, -9)}},
		// Of 2 mm height rows count as equally far from the middle line up to 0.4 mm.
		{"below hardly nearer", []plane.Point{p(0, 5), p(0, -4.7)}, []plane.Point{p(0, 5), p(0, -4.7)}},
		{"below clearly nearer", []plane.Point{p(0, 5), p(0, -4.5)}, []plane.Point{p(0, -4.5), p(0, 5)}},
		{"none", nil, nil},
	} {
		s := numbered(1.5, 2, c.at...)
		s.number()
		near := func(a, b plane.Point) bool { return a.Dist(b) < 1e-12 }
		if got := places(s); !slices.EqualFunc(got, c.want, near) {
			t.Errorf("%s: %v, want %v", c.name, got, c.want)
		}
		for i, o := range s.Openings {
			if o.Number != i+1 {
				t.Errorf("%s: opening %d has number %d", c.name, i+1, o.Number)
			}
		}
	}
}

func TestSmallOpeningsComeBeforeLargeOnes(t *testing.T) {
	s := numbered(3, 3, inRowsAbout(2, 4, 4, 8, 6)...)
	s.Openings = append(s.Openings, numbered(1, 1, inRowsAbout(1, 7, 4, 4, 7)...).Openings...)
	s.Openings = append(s.Openings, numbered(2, 2, plane.Pt(20, 0), plane.Pt(-20, 0)).Openings...)
	s.number()
	for i, want := range []float64{1, 1, 1, 1, 1, 1, 1, 2, 2, 3, 3, 3, 3, 3, 3, 3, 3} {
		if got := s.Openings[i].Box.W(); got != want {
			t.Errorf("opening %d is %g wide, want %g", i+1, got, want)
		}
	}
}

// A pattern that grows a little from cell to cell falls into classes as well, and
// mirror images stay in one.
func TestAGrowingPatternIsSawnSmallToLarge(t *testing.T) {
	s := &Sheet{}
	for i := range 40 {
		size := math.Sqrt(1 + 0.25*float64(i))
		for _, side := range []float64{1, -1} {
			s.Openings = append(s.Openings, numbered(size, size+side*1e-12, plane.Pt(side*float64(2+4*i), 0)).Openings...)
		}
	}
	s.number()
	if runs := s.Runs(); len(runs) < 6 || len(runs)%2 != 0 {
		t.Errorf("%d runs: %v", len(runs), runs)
	}
	keepsTheOrder(t, s, "growing")
	for _, r := range s.Runs() {
		if n := r.To - r.From; s.Openings[r.From-1].Box.Centre().X > 0 == r.Left {
			t.Errorf("run %v begins on the other side", r)
		} else if twin := s.Runs()[r.Class*2]; twin.To-twin.From != n {
			t.Errorf("run %v and its mirror image are not of one length", r)
		}
	}
}

// keepsTheOrder holds a sheet to what the order promises, pair by pair, from the
// geometry alone.
func keepsTheOrder(t *testing.T, s *Sheet, name string) {
	t.Helper()
	type place struct{ along, across, area, height float64 }
	var ps []place
	tallest := 0.0
	for i, o := range s.Openings {
		if o.Number != i+1 {
			t.Fatalf("%s: the opening at %d has number %d", name, i+1, o.Number)
		}
		x, v := s.Flat.Where(o.Box.Centre())
		ps = append(ps, place{x, v, math.Abs(o.Loop.Area()), o.Box.H()})
		tallest = math.Max(tallest, o.Box.H())
	}
	var areas []float64
	for _, p := range ps {
		areas = append(areas, p.area)
	}
	slices.Sort(areas)
	for i := 1; i < len(areas); i++ {
		if areas[i] <= sizeStep*areas[i-1] {
			continue
		}
		for j := range ps { // every smaller one has a lower number: they are i
			if ps[j].area < areas[i] != (j < i) {
				t.Errorf("%s: opening %d of %.4f mm² stands on the wrong side of the step from %.4f to %.4f mm²", name, j+1, ps[j].area, areas[i-1], areas[i])
			}
		}
	}
	for i, p := range ps {
		for j := range i {
			if q := ps[j]; q.area > sizeSpan*p.area*(1+1e-9) {
				t.Fatalf("%s: opening %d of %.4f mm² comes before %d of %.4f mm²", name, j+1, q.area, i+1, p.area)
			}
		}
	}
	next := 1
	for _, r := range s.Runs() {
		if r.From != next || r.To < r.From {
			t.Fatalf("%s: a run of %d to %d after %d", name, r.From, r.To, next-1)
		}
		next = r.To + 1
		for n := r.From; n <= r.To; n++ {
			p := ps[n-1]
			if r.Left != (p.along < -touch) {
				t.Errorf("%s: opening %d at %.4f in a run to the left %t", name, n, p.along, r.Left)
			}
			if n > r.From && math.Abs(p.along) < math.Abs(ps[n-2].along)-2*touch {
				t.Errorf("%s: opening %d at %.4f lies nearer to the middle than the one before it, at %.4f", name, n, p.along, ps[n-2].along)
			}
			// On a band of one width its run is a row.
			if s.Flat.Level() && math.Abs(p.across-r.Across) > rowShare*tallest {
				t.Errorf("%s: opening %d at %.4f in a row at %.4f", name, n, p.across, r.Across)
			}
		}
	}
	if next != len(ps)+1 {
		t.Errorf("%s: the runs end at %d of %d", name, next-1, len(ps))
	}
	// Of one class a row that lies farther out by an opening's height comes later.
	runs := s.Runs()
	for i, r := range runs {
		for _, q := range runs[:i] {
			if q.Class > r.Class || q.Class == r.Class && math.Abs(q.Across) > math.Abs(r.Across)+tallest {
				t.Errorf("%s: run %v comes before %v", name, q, r)
			}
		}
	}
}

func TestTheOrderKeepsItsPromisesOnAnyBand(t *testing.T) {
	for name, d := range handBands() {
		for _, f := range []Field{
			d.Fields[0],
			{Motif: "hexagons", Rows: 5, Repeats: 12, Stagger: 0.5},
			{Motif: "squares", Rows: 3, PitchMM: 7, RotationDeg: 20},
			{Motif: "cells", Rows: 4, Repeats: 14},
			{Motif: "circles", Rows: 3, Repeats: 16, GradeAlong: []Grade{{-1, 0.4}, {0, 1.6}, {1, 0.4}}},
		} {
			d.Fields = []Field{f}
			keepsTheOrder(t, layWith(t, d), name+", "+f.Motif)
			keepsTheOrder(t, layWith(t, d, Edit{Do: Add, At: []Spot{{XMM: 20, YMM: 3}}, Shape: CircleShape, WidthMM: 4}), name+", "+f.Motif+" and by hand")
		}
	}
}

// On a band that narrows, the rows of a field that follows the width lean towards the
// middle line; each stays one row all the same.
func TestRowsThatFollowTheWidthAreNumberedAsRows(t *testing.T) {
	d := handBands()["cuff"]
	d.Band.EndWidthMM = d.Band.WidthMM / 2
	for rows := 2; rows <= 5; rows++ {
		d.Fields = []Field{{Motif: "squares", Rows: rows, Repeats: 20, Edge: EdgeWhole, Follow: FollowWidth}}
		s := layWith(t, d)
		halves := map[[2]int]bool{} // of a class and a row
		for _, r := range s.Runs() {
			first := s.Openings[r.From-1]
			halves[[2]int{r.Class, first.Row}] = true
			for _, o := range s.Openings[r.From-1 : r.To] {
				if o.Row != first.Row {
					t.Errorf("%d rows: opening %d of row %d is in a run of row %d", rows, o.Number, o.Row, first.Row)
				}
			}
		}
		if n := len(s.Runs()); n > 2*len(halves) {
			t.Errorf("%d rows: %d runs of %d rows in their classes", rows, n, len(halves))
		}
	}
}

// Neighbours have neighbouring numbers: on a plain pattern the next opening of a run
// is one pitch on.
func TestTheNextNumberStandsBesideTheLast(t *testing.T) {
	d := handBands()["cuff"]
	d.Fields = []Field{{Motif: "squares", Rows: 3, Repeats: 15, Edge: EdgeWhole}}
	s := layWith(t, d)
	pitch := s.Flat.Length / 15
	for _, r := range s.Runs() {
		for n := r.From; n < r.To; n++ {
			a, b := s.Openings[n-1].Box.Centre(), s.Openings[n].Box.Centre()
			if a.Dist(b) > 1.01*pitch {
				t.Errorf("openings %d and %d are %.3f mm apart, the pitch is %.3f", n, n+1, a.Dist(b), pitch)
			}
		}
	}
}

func TestTheOrderDoesNotHangOnTheOrderBefore(t *testing.T) {
	at := inRowsAbout(5, 9, 3, 3, 8)
	want := numbered(2, 2, at...)
	want.number()
	for seed := range int64(5) {
		rand.New(rand.NewSource(seed)).Shuffle(len(at), func(i, j int) { at[i], at[j] = at[j], at[i] })
		got := numbered(2, 2, at...)
		got.number()
		if !slices.Equal(places(got), places(want)) {
			t.Errorf("seed %d: another order", seed)
		}
	}
}

// Part of what is waited for in a drag: openings come row by row.
func BenchmarkNumber(b *testing.B) {
	for _, n := range []int{200, 2000, 20000} {
		b.Run(fmt.Sprint(n), func(b *testing.B) {
			s := numbered(1, 1, inRowsAbout(10, n/10, 1.5, 2, 1)...)
			inRows(s)
			for i := range s.Openings {
				s.Openings[i].Shape = i % 7
			}
			before := s.Openings
			for range b.N {
				s.Openings = before
				s.number()
			}
		})
	}
}

// Where an opening is told stands well inside of it, even where its centroid does not: by
// hand, in the corner of a bent strip w wide there is room for a circle of the radius
// w (2 - sqrt 2), and a grid a twelfth of the box apart comes within its half diagonal.
func TestTheMiddleOfAnOpeningStandsWellInsideIt(t *testing.T) {
	for name, c := range map[string]struct {
		w float64
		l plane.Loop
	}{
		"centroid outside":       {2, plane.Polygon(plane.Pt(0, 0), plane.Pt(10, 0), plane.Pt(10, 10), plane.Pt(8, 10), plane.Pt(8, 2), plane.Pt(2, 2), plane.Pt(2, 10), plane.Pt(0, 10))},
		"centroid near its edge": {4, plane.Polygon(plane.Pt(0, 0), plane.Pt(10, 0), plane.Pt(10, 4), plane.Pt(4, 4), plane.Pt(4, 10), plane.Pt(0, 10))},
	} {
		o := Opening{Loop: c.l, Box: c.l.Bounds()}
		p := o.Position()
		if least := c.w*(2-math.Sqrt2) - 10.0/12*math.Sqrt2/2; !c.l.Contains(p) || c.l.Nearest(p).D < least {
			t.Errorf("%s: %v is not inside by %.3f mm", name, p, least)
		}
	}
}
