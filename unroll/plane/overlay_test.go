package plane

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// all runs the four operations and holds them to the sums of areas.
func all(t testing.TB, what string, a, b Region) (and, or, not, xor Region) {
	t.Helper()
	var err error
	do := func(name string, f func(a, b Region) (Region, error)) Region {
		var r Region
		if r, err = f(a, b); err != nil {
			t.Fatalf("%s: %s of %#v and %#v: %v", what, name, a, b, err)
		}
		wellFormed(t, what+" "+name, r)
		return r
	}
	and, or, not, xor = do("and", And), do("or", Or), do("not", Not), do("xor", Xor)
	tol := 1e-6 * (1 + a.Len() + b.Len())
	nearly(t, what+": or + and = a + b", or.Area()+and.Area(), a.Area()+b.Area(), tol)
	nearly(t, what+": and + not = a", and.Area()+not.Area(), a.Area(), tol)
	nearly(t, what+": xor = or - and", xor.Area(), or.Area()-and.Area(), tol)
	if t.Failed() {
		t.Fatalf("%s: a = %#v\nb = %#v", what, a, b)
	}
	return
}

func TestOverlaysOfCirclesHaveTheAreasOfClosedForms(t *testing.T) {
	disc := func(x, y, r float64) Region { return Region{Circle(Pt(x, y), r)} }
	lens, _, _, _ := all(t, "lens", disc(0, 0, 5), disc(6, 0, 5))
	lens2, _, _, _ := all(t, "lens", disc(0, 0, 5), disc(6, 0, 4))
	vesica, _, _, _ := all(t, "vesica", disc(0, 0, 1), disc(1, 0, 1))
	h := math.Sqrt(3) / 2
	_, two, _, _ := all(t, "two", disc(0, 0, 1), disc(1, 0, 1))
	_, trefoil, _, _ := all(t, "trefoil", two, disc(0.5, h, 1))
	quatrefoil := Region{square(1)}
	for _, c := range []Point{{0.5, 0}, {1, 0.5}, {0.5, 1}, {0, 0.5}} {
		_, quatrefoil, _, _ = all(t, "quatrefoil", quatrefoil, disc(c.X, c.Y, 0.5))
	}
	_, bulged, _, _ := all(t, "triangle", Region{equilateral(1)}, disc(0.5, 0, 0.5))
	_, bulged, _, _ = all(t, "triangle", bulged, disc(0.25, h/2, 0.5))
	_, bulged, _, _ = all(t, "triangle", bulged, disc(0.75, h/2, 0.5))
	for _, c := range []struct {
		what      string
		got, want float64
		source    string
	}{
		{"lens 5, 5, 6", lens.Area(), 22.3647609, "lens of two circles, closed form"},
		{"lens 5, 4, 6", lens2.Area(), 13.79945992, "lens of two circles, closed form"},
		{"vesica", vesica.Area(), 1.22836970, "2 pi/3 - sqrt3/2"},
		{"trefoil", trefoil.Area(), 6.44443979, "3 pi/2 + sqrt3, by inclusion and exclusion"},
		{"quatrefoil", quatrefoil.Area(), 2.57079633, "1 + pi/2"},
	} {
		nearly(t, c.what+" ("+c.source+")", c.got, c.want, 1e-7)
	}
	// The closed form sqrt3/4 + 3 pi/8 counts half discs that lie outside of the
	// triangle only; they overlap each other by what inclusion and exclusion says.
	if a := bulged.Area(); a > math.Sqrt(3)/4+3*math.Pi/8 {
		t.Errorf("triangle and discs: %g is more than the sum of parts", a)
	}
}

// checkPoints holds an overlay to what is true of random points.
func checkPoints(t testing.TB, what string, a, b Region, r *rand.Rand) {
	t.Helper()
	and, or, not, xor := all(t, what, a, b)
	box := a.Bounds().Union(b.Bounds()).Grow(0.1)
	for range 60 {
		p := Pt(box.Min.X+r.Float64()*box.W(), box.Min.Y+r.Float64()*box.H())
		if math.Min(a.Nearest(p).D, b.Nearest(p).D) < 1e-5 {
			continue
		}
		x, y := a.Contains(p), b.Contains(p)
		for k, o := range []Region{and, or, not, xor} {
			if op(k).in(x, y) != o.Contains(p) {
				t.Fatalf("%s: operation %d at %v: got %v\na = %#v\nb = %#v\n%v", what, k, p, o.Contains(p), a, b, o)
			}
		}
	}
}

func TestOverlaysOfRandomLoopsHoldTheRightPoints(t *testing.T) {
	r := seeded(t)
	for range 300 {
		a := Region{star(r, 3+r.IntN(9), true)}
		b := Region{star(r, 3+r.IntN(9), true).Move(Pt(r.NormFloat64(), r.NormFloat64()))}
		if r.IntN(3) == 0 {
			if in := a[0].Inset(0.4); len(in) > 0 {
				a = append(a, in[0].Reverse())
			}
		}
		if r.IntN(3) == 0 {
			b = b.Offset(-0.2)
		}
		checkPoints(t, "stars", a, b, r)
	}
}

func TestOverlaysOfTheSameAndNearlyTheSameLoop(t *testing.T) {
	r := seeded(t)
	for range 200 {
		a := star(r, 3+r.IntN(9), true)
		for _, by := range []float64{0, 1e-12, 1e-9, 1e-8, 3e-8, 1e-7, 3e-7, 1e-6, 1e-4} {
			b := a.Move(Pt(by, by/2))
			and, or, not, _ := all(t, "moved by a hair", Region{a}, Region{b})
			nearly(t, "and", and.Area(), a.Area(), 20*by+1e-6)
			nearly(t, "or", or.Area(), a.Area(), 20*by+1e-6)
			nearly(t, "not", not.Area(), 0, 20*by+1e-6)
			if by <= 1e-8 && (len(not) > 0 || len(and) != 1) {
				t.Fatalf("moved by %g: not leaves %v, and %v", by, not, and)
			}
		}
		// Started elsewhere, edges cut in two.
		k := r.IntN(len(a))
		var b Loop
		for i := range a {
			e := a.Edge((i + k) % len(a))
			f := 0.2 + 0.6*r.Float64()
			b = append(b, Vertex{e.A, e.Part(0, f).Bulge}, Vertex{e.At(f), e.Part(f, 1).Bulge})
		}
		and, or, not, xor := all(t, "cut", Region{a}, Region{b})
		if len(and) != 1 || len(or) != 1 || len(not) != 0 || len(xor) != 0 {
			t.Fatalf("cut edges: %d %d %d %d loops from %#v", len(and), len(or), len(not), len(xor), a)
		}
	}
}

// Shapes of every kind against themselves moved, turned, scaled or with each corner
// shifted by lengths on both sides of Snap: where one is taken for the other, where
// not, and where that changes along the edge. Equal circles 1e-8 to 2e-7 mm apart
// failed.
func TestOverlaysOfNearlyCoincidentShapesAddUp(t *testing.T) {
	r := seeded(t)
	for i := range 4000 {
		var l Loop
		switch i % 7 {
		case 0, 1:
			l = Circle(Pt(3*r.NormFloat64(), 3*r.NormFloat64()), math.Exp(1.5*r.NormFloat64()))
		case 2: // a lens
			radius := 1 + 4*r.Float64()
			both, err := And(Region{Circle(Pt(0, 0), radius)}, Region{Circle(Pt(radius*(0.2+r.Float64()), 0), radius)})
			if err != nil {
				t.Fatal(err)
			}
			l = both[0]
		case 3: // a slot
			x, w := 2+3*r.Float64(), 0.3+r.Float64()
			l = Loop{{Pt(1, 1), 0}, {Pt(x, 1), 1}, {Pt(x, 1+w), 0}, {Pt(1, 1+w), 1}}
		case 4:
			l = star(r, 3+r.IntN(8), true)
		case 5:
			l = convex(r, 3+r.IntN(8), true)
		case 6:
			l = star(r, 3+r.IntN(8), false)
		}
		d := math.Pow(10, -10+5*r.Float64())
		far := 0.0 // no point moves by more
		b := slices.Clone(l)
		switch r.IntN(5) {
		case 0:
			b, far = l.Move(Pt(d, 0).Turn(2*math.Pi*r.Float64())), d
		case 1: // along an axis: middles fall on one line to the last bit
			b, far = l.Move(Pt(d, 0).Turn(math.Pi/2*float64(r.IntN(4)))), d
		case 2:
			b, far = l.Turn(d), d*farthest(l)
		case 3:
			b, far = l.Scale(1+d), d*farthest(l)
		case 4:
			for j := range b {
				b[j].Point = b[j].Add(Pt(d*(2*r.Float64()-1), d*(2*r.Float64()-1)))
			}
			far = 100 * d // half circles bulge out with their ends
		}
		k := r.IntN(len(b))
		b = append(slices.Clone(b[k:]), b[:k]...)
		and, or, not, xor := all(t, "nearly coincident", Region{l}, Region{b})
		by := (far + 10*Snap) * l.Len()
		nearly(t, "and", and.Area(), l.Area(), by)
		nearly(t, "or", or.Area(), l.Area(), by)
		nearly(t, "not", not.Area(), 0, by)
		nearly(t, "xor", xor.Area(), 0, 2*by)
	}
}

// farthest is at least how far any point of the loop lies from the origin.
func farthest(l Loop) float64 {
	b := l.Bounds()
	return math.Max(b.Min.Len(), b.Max.Len()) + b.W() + b.H()
}

// lattice returns shapes on a coarse lattice, where everything coincides:
// squares, triangles, discs, quarter discs, half discs and rings of them.
func latticeShape(r *rand.Rand) Region {
	x, y := float64(r.IntN(4)), float64(r.IntN(4))
	s := float64(1 + r.IntN(3))
	q := math.Sqrt2 - 1
	var l Loop
	switch r.IntN(7) {
	case 0:
		l = square(s)
	case 1:
		l = Polygon(Pt(0, 0), Pt(s, 0), Pt(0, s))
	case 2:
		l = Circle(Pt(0, 0), s)
	case 3:
		l = Loop{{Pt(0, 0), 0}, {Pt(s, 0), q}, {Pt(0, s), 0}} // quarter disc
	case 4:
		l = Loop{{Pt(-s, 0), 0}, {Pt(s, 0), 1}} // half disc
	case 5:
		l = Loop{{Pt(0, 0), 0}, {Pt(s, 0), -q}, {Pt(s, s), 0}, {Pt(0, s), 0}}
	case 6:
		return Region{Circle(Pt(x, y), s), Circle(Pt(x, y), s/2).Reverse()}
	}
	return Region{l.Turn(float64(r.IntN(4)) * math.Pi / 2).Move(Pt(x, y))}
}

func TestOverlaysOnALatticeHoldTheRightPoints(t *testing.T) {
	r := seeded(t)
	for range 500 {
		a, b := latticeShape(r), latticeShape(r)
		for range r.IntN(3) {
			_, a, _, _ = all(t, "lattice", a, latticeShape(r))
		}
		checkPoints(t, "lattice", a, b, r)
	}
}

func TestOverlaysDoNotDependOnTheFrame(t *testing.T) {
	r := seeded(t)
	for range 100 {
		a, b := latticeShape(r), latticeShape(r)
		and, or, _, _ := all(t, "frame", a, b)
		turn, by := r.Float64()*6, Pt(r.NormFloat64()*100, r.NormFloat64()*100)
		move := func(r Region) (m Region) {
			for _, l := range r {
				m = append(m, l.Turn(turn).Move(by))
			}
			return m
		}
		and2, or2, _, _ := all(t, "turned", move(a), move(b))
		nearly(t, "and", and2.Area(), and.Area(), 1e-5)
		nearly(t, "or", or2.Area(), or.Area(), 1e-5)
		if len(and) != len(and2) || len(or) != len(or2) {
			t.Fatalf("turned by %g: %d, %d loops, want %d, %d\na = %#v\nb = %#v", turn, len(and2), len(or2), len(and), len(or), a, b)
		}
	}
}

func TestMergeIsTheUnion(t *testing.T) {
	r := seeded(t)
	for range 100 {
		var ls []Loop
		for range 1 + r.IntN(8) {
			ls = append(ls, star(r, 3+r.IntN(5), true).Scale(0.5).Move(Pt(r.NormFloat64()*2, r.NormFloat64()*2)))
		}
		m, err := Merge(ls)
		if err != nil {
			t.Fatal(err)
		}
		wellFormed(t, "merge", m)
		for range 60 {
			p := Pt(r.NormFloat64()*3, r.NormFloat64()*3)
			want, near := false, false
			for _, l := range ls {
				want = want || l.Contains(p)
				near = near || l.Nearest(p).D < 1e-5
			}
			if !near && m.Contains(p) != want {
				t.Fatalf("merge at %v: got %v", p, !want)
			}
		}
	}
}

// board is a plate of nx x ny round-cornered triangles with holes in rows.
func board(nx, ny int) Region {
	r := Region{Rect(Box{Pt(-4, -4), Pt(float64(nx)*7, float64(ny)*7)})}
	for y := range ny {
		for x := range nx {
			r = append(r, roundedTriangle(6, 0.5).Move(Pt(float64(x)*7, float64(y)*7)).Reverse())
		}
	}
	return r
}

func BenchmarkAndCellWithBoard(b *testing.B) {
	ground := board(5, 2) // 64 edges
	cell := Region{roundedTriangle(12, 1).Move(Pt(10, 3))}
	b.ReportAllocs()
	for range b.N {
		if _, err := And(cell, ground); err != nil {
			b.Fatal(err)
		}
	}
}

// A stitched loop is believed by its true area and length, however that is found
// out.
func TestSliversAreToldByAreaAndLength(t *testing.T) {
	r := seeded(t)
	kept := 0
	for range 3000 {
		l := star(r, 3+r.IntN(6), true)
		// Squeezed, its arcs stay arcs; turned over, it is a hole.
		k := math.Pow(10, -9*r.Float64())
		for i := range l {
			l[i].Y *= k
			l[i].Bulge *= k
		}
		if r.IntN(2) == 0 {
			l = l.Reverse()
		}
		row := l.appendMerged(nil, Snap/10)
		if len(row) == 0 {
			continue
		}
		a, whole := row.Area(), row.Len()
		want := a > Snap*whole || a < -4*Snap*whole
		if got := len(believed(nil, l, Snap)) > 0; got != want {
			t.Fatalf("%#v: believed %v, area %g, length %g", l, got, a, whole)
		}
		if want {
			kept++
		}
	}
	if kept < 1000 || kept > 2900 {
		t.Errorf("%d of 3000 were believed: no test of slivers", kept)
	}
}

// A long comb of teeth is merged into the same region lying and upright, where rays run
// along or across its teeth; its area is that of its teeth by hand.
func TestALongCombIsMergedAlikeLyingAndUpright(t *testing.T) {
	var comb []Loop
	for i := range 300 {
		x := float64(i)
		comb = append(comb, Rect(Box{Pt(x, 0.1*float64(i%3)), Pt(x+1.5, 4)}))
	}
	// Each tooth is 1 wide to where the next begins, the last 1.5; where two lie over each
	// other the lower counts.
	want := 0.0
	for i := range 300 {
		low := 0.1 * float64(i%3)
		if i == 0 {
			want += 1 * (4 - low)
			continue
		}
		want += 0.5*(4-math.Min(low, 0.1*float64((i+2)%3))) + 0.5*(4-low)
		if i == 299 {
			want += 0.5 * (4 - low)
		}
	}
	lying, err := Merge(comb)
	require.NoError(t, err)
	for i, l := range comb {
		comb[i] = l.Turn(math.Pi / 2)
	}
	upright, err := Merge(comb)
	require.NoError(t, err)
	assert.InDelta(t, want, lying.Area(), 1e-9)
	assert.InDelta(t, want, upright.Area(), 1e-6)
	assert.Equal(t, len(lying), len(upright))
}

// Chains of pieces that lead nowhere go, and nothing else: the slow way takes one piece at
// a time, as long as one begins where none ends or ends where none begins.
func TestWholeChainsThatLeadNowhereGo(t *testing.T) {
	rng := seeded(t)
	left := 0
	for range 2000 {
		n := 2 + rng.IntN(9)
		w := &network{nodes: make([]Point, n)}
		for range 1 + rng.IntN(2*n) {
			w.pieces = append(w.pieces, piece{from: int32(rng.IntN(n)), to: int32(rng.IntN(n))})
		}
		keep := make([]int8, len(w.pieces)) // each runs as it is, backwards or not at all
		for i := range keep {
			keep[i] = int8(rng.IntN(3) - 1)
		}
		for k := range w.nodes {
			w.first = append(w.first, int32(len(w.at)))
			for i, p := range w.pieces {
				if p.from == int32(k) || p.to == int32(k) {
					w.at = append(w.at, int32(i))
				}
			}
		}
		w.first = append(w.first, int32(len(w.at)))
		s := stitcher{w: w, keep: slices.Clone(keep)}
		want := slices.Clone(keep)
		ends := func(i int) (from, to int32) {
			if want[i] < 0 {
				return w.pieces[i].to, w.pieces[i].from
			}
			return w.pieces[i].from, w.pieces[i].to
		}
		balance := make([]int, n)
		for again, first := true, true; again; first = false {
			again = false
			in, out := make([]int, n), make([]int, n)
			for i := range want {
				if from, to := ends(i); want[i] != 0 {
					in[to]++
					out[from]++
					if first {
						balance[to]++
						balance[from]--
					}
				}
			}
			for i := range want {
				if from, to := ends(i); want[i] != 0 && (in[from] == 0 || out[to] == 0) {
					want[i], again = 0, true
					break
				}
			}
		}
		closed := !slices.ContainsFunc(balance, func(b int) bool { return b != 0 })
		if got := s.prune(); got != closed || !slices.Equal(s.keep, want) {
			t.Fatalf("of %v, run as %v: %v are kept, want %v; balanced %t, want %t", w.pieces, keep, s.keep, want, got, closed)
		}
		for i, k := range want {
			if k != 0 && keep[i] != 0 && !closed {
				left++
			}
		}
	}
	if left < 1000 {
		t.Errorf("only %d pieces are left in networks with dead ends", left)
	}
}

// Of the pieces that leave a node the one is taken that is first clockwise from the way back,
// a little way along, so that pieces tangent to each other differ by how they bend.
func TestThePieceTakenIsFirstClockwiseFromTheWayBack(t *testing.T) {
	rng := seeded(t)
	for range 300 {
		in := Edge{A: Pt(-2, 0), B: Pt(0, 0)}
		w := &network{nodes: []Point{{}, in.A}, pieces: []piece{{edge: in, from: 1, to: 0}}}
		// Tangents of few directions, so that several leave along one another or the way in.
		tangents := []float64{0, 0.7, -1.2, math.Pi - 0.9}
		for range 2 + rng.IntN(4) {
			bulge := math.Round(6*(rng.Float64()-0.5)) / 10
			e := Edge{B: Pt(1+rng.Float64(), 0), Bulge: bulge}
			e.B = e.B.Turn(tangents[rng.IntN(len(tangents))] - math.Atan2(e.Tangent(0).Y, e.Tangent(0).X))
			if rng.IntN(2) == 0 { // runs backwards
				e = e.Reverse()
			}
			w.pieces = append(w.pieces, piece{edge: e, from: int32(len(w.nodes)), to: int32(len(w.nodes))})
			w.nodes = append(w.nodes, e.B)
		}
		w.first = []int32{0, int32(len(w.pieces))}
		s := stitcher{w: w, path: []int32{0}, dir: []int8{1}, keep: []int8{0}}
		first, want, close := math.Inf(1), int32(-1), false
		for i := range w.pieces {
			w.at = append(w.at, int32(i))
			if i == 0 {
				continue
			}
			p := &w.pieces[i]
			out, keep := p.edge, int8(1)
			if p.edge.B == (Point{}) {
				out, keep, p.to = p.edge.Reverse(), -1, 0
			} else {
				p.from = 0
			}
			s.keep = append(s.keep, keep)
			// Where it crosses a small circle about the node, clockwise from (-1, 0).
			lo, hi := 0.0, 1.0
			for range 60 {
				if mid := (lo + hi) / 2; out.At(mid).Len() < 0.05 {
					lo = mid
				} else {
					hi = mid
				}
			}
			at := out.At(lo)
			clockwise := math.Mod(math.Pi-math.Atan2(at.Y, at.X)+4*math.Pi, 2*math.Pi)
			if math.Abs(clockwise-first) < 1e-6 {
				close = true // two alike
			}
			if clockwise < first-1e-6 {
				first, want, close = clockwise, int32(i), false
			}
		}
		if got := s.after(0); got != want && !close {
			t.Fatalf("after %v: %d, want %d", w.pieces, got, want)
		}
	}
}
