package check

import (
	"flag"
	"fmt"
	"math"
	"math/rand"
	"testing"

	"fretband/pattern"
	"fretband/pattern/motif"
	"fretband/pattern/project"
	"fretband/unroll"
	"fretband/unroll/plane"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

var gridDesigns = flag.Int("grid-designs", 6, "number of random designs whose weakest ways are sought on a grid as well")

// strip is a seamless band whose blank is length x width mm.
func strip(length, width float64) unroll.Band {
	return unroll.Band{
		Kind: unroll.Bangle, Inside: unroll.Inside{By: unroll.ByAxes, WidthMM: length/math.Pi - 1, HeightMM: length/math.Pi - 1},
		Thickness: unroll.Thickness{MM: 1}, WidthMM: width, EndWidthMM: width, Joint: unroll.Seamless, NeutralK: 0.5,
	}
}

// Circles of diameter D at a pitch C in square order: straight across, a row of n
// leaves n-1 bridges of C - D and two rims; round the band, N of them leave N
// bridges. In a staggered order 60 degrees the way across may go slanting.
func TestTheWeakestWaysOfCirclesAreSumsOfBridges(t *testing.T) {
	const c, d, n, rows, rim = 8.0, 5.0, 20, 3, 2.0
	s, err := pattern.Lay(pattern.Design{
		Name: "circles", Band: strip(n*c, (rows-1)*c+d+2*rim), Metal: pattern.Metal{Alloy: "copper"},
		Rules:  pattern.DesignRules{BridgeMM: c - d, RimMM: rim},
		Fields: []pattern.Field{{Motif: "circles", Rows: rows, Repeats: n}},
	})
	require.NoError(t, err)
	got := FindWeakestPaths(s)
	require.Len(t, s.Openings, rows*n)
	// The rim is kept at the bridge rule if that is more.
	keep := math.Max(rim, c-d)
	dia := 2 * math.Sqrt(s.Openings[0].Loop.Area()/math.Pi)
	assert.InDelta(t, (s.Flat.Width-rows*dia-2*keep)+2*keep, got.Across.Metal, 1e-6)
	assert.Len(t, got.Across.Bridges, rows+1)
	assert.InDelta(t, n*(c-dia), got.Along.Metal, 1e-6)
	assert.Len(t, got.Along.Bridges, n)
	assert.InDelta(t, n*c, got.Along.Full, 1e-6)
	assert.True(t, got.Exact)
	// Each bridge ends where the metal does.
	for _, b := range append(got.Across.Bridges, got.Along.Bridges...) {
		if b.From > 0 {
			assert.InDelta(t, 0, s.Openings[b.From-1].Loop.Nearest(wrapped(s, b.A, s.Openings[b.From-1].Box)).D, 1e-6)
		}
	}
}

// wrapped moves p by a turn if that brings it nearer to the box.
func wrapped(s *pattern.Sheet, p plane.Point, b plane.Box) plane.Point {
	for _, dx := range []float64{-s.Flat.Period, s.Flat.Period} {
		q := p.Add(plane.Pt(dx, 0))
		if b.Dist(plane.Box{Min: q, Max: q}) < b.Dist(plane.Box{Min: p, Max: p}) {
			return q
		}
	}
	return p
}

func TestAnUnpiercedBandIsParedAcrossItsNarrowestAndRoundOnce(t *testing.T) {
	s, err := pattern.Lay(pattern.Design{
		Name: "plain", Band: strip(180, 12), Metal: pattern.Metal{Alloy: "copper"}, Rules: pattern.DesignRules{BridgeMM: 1},
	})
	require.NoError(t, err)
	got := FindWeakestPaths(s)
	assert.InDelta(t, 12, got.Across.Metal, 1e-6)
	assert.InDelta(t, 1, got.Across.Share(), 1e-6)
	assert.InDelta(t, 180, got.Along.Metal, 1e-6)
	assert.InDelta(t, 1, got.Along.Share(), 1e-6)
}

// The slow way: the shortest path on a grid of points whose neighbours are up to
// three steps off, each stretch paid for by the part of it that lies on metal. A
// grid's way is a way, so it is never shorter than the shortest but for what
// sampling misses; and with 32 directions it is at most 1 in 1 / cos(9.2 degrees)
// longer, plus a step at either end of each bridge.
func TestTheWeakestWaysAreThoseOfAFineGrid(t *testing.T) {
	for seed := range *gridDesigns {
		t.Run(fmt.Sprint(seed), func(t *testing.T) {
			t.Parallel()
			rng := rand.New(rand.NewSource(int64(seed)))
			pick := func(lo, hi float64) float64 { return lo + (hi-lo)*rng.Float64() }
			motifs := motif.All()
			d := pattern.Design{
				Name: "random", Metal: pattern.Metal{Alloy: "copper"},
				Band:  strip(pick(40, 60), pick(7, 11)),
				Rules: pattern.DesignRules{BridgeMM: pick(0.6, 1.5), RimMM: pick(0, 2), CornerMM: pick(0, 0.3)},
				Fields: []pattern.Field{{Motif: motifs[rng.Intn(len(motifs))].Key, Rows: 1 + rng.Intn(2),
					Repeats: 4 + rng.Intn(6), Stagger: pick(0, 0.5)}},
			}
			if seed%2 == 0 {
				d.Band.Kind, d.Band.Joint, d.Band.GapMM = unroll.Cuff, "", 10
			}
			s, err := pattern.Lay(d)
			require.NoError(t, err)
			got := FindWeakestPaths(s)
			const h = 0.25
			for name, c := range map[string]struct {
				cut   WeakestPath
				along bool
			}{"across": {got.Across, false}, "along": {got.Along, true}} {
				slow := gridCut(s, h, c.along)
				ends := 2 * float64(len(c.cut.Bridges))
				// Metal is known on a grid four times as fine, and a stretch of up to 4.3 h is
				// asked at twelve places: each end may be off by h/8 root 2 and h 4.3/24.
				assert.Less(t, c.cut.Metal, slow+0.36*h*ends, "%s: seed %d, %s", name, seed, d.Fields[0].Motif)
				assert.Less(t, slow, c.cut.Metal/math.Cos(9.3*math.Pi/180)+1.5*h*ends, "%s: seed %d, %s", name, seed, d.Fields[0].Motif)
			}
		})
	}
}

// gridCut is the length in metal of the shortest way on a grid of step h.
func gridCut(s *pattern.Sheet, h float64, along bool) float64 {
	half, wide := s.Flat.Length/2, s.Flat.Width/2
	nx, ny := int(math.Round(2*half/h)), int(math.Round(2*wide/h))
	hx, hy := 2*half/float64(nx), 2*wide/float64(ny)
	closed := s.Flat.Period > 0
	// Metal sampled four times as finely.
	const fine = 4
	fx, fy := nx*fine, ny*fine
	metal := make([]bool, (fx+1)*(fy+1))
	for i := range metal {
		metal[i] = true
	}
	for k := range s.Openings {
		for _, dx := range []float64{0, -s.Flat.Period, s.Flat.Period} {
			l := s.Openings[k].Loop.Move(plane.Pt(dx, 0))
			b := l.Bounds()
			for j := max(0, int((b.Min.Y+wide)/hy*fine)); j <= min(fy, int((b.Max.Y+wide)/hy*fine)+1); j++ {
				for i := max(0, int((b.Min.X+half)/hx*fine)); i <= min(fx, int((b.Max.X+half)/hx*fine)+1); i++ {
					if metal[j*(fx+1)+i] && l.Contains(plane.Pt(-half+float64(i)*hx/fine, -wide+float64(j)*hy/fine)) {
						metal[j*(fx+1)+i] = false
					}
				}
			}
			if !closed {
				break
			}
		}
	}
	var steps [][2]int
	for a := -3; a <= 3; a++ {
		for b := -3; b <= 3; b++ {
			g := func(x, y int) int {
				for y != 0 {
					x, y = y, x%y
				}
				return max(x, -x)
			}
			if g(a, b) == 1 {
				steps = append(steps, [2]int{a, b})
			}
		}
	}
	known := make([]float64, (nx+1)*(ny+1)*len(steps)) // and 1; 0: not known yet
	cost := func(i, j, k int) float64 {
		const samples = 12
		a, b := steps[k][0], steps[k][1]
		if closed {
			i %= nx
		}
		is := &known[(i*(ny+1)+j)*len(steps)+k]
		if *is > 0 {
			return *is - 1
		}
		n := 0
		for k := range samples {
			f := (float64(k) + 0.5) / samples
			x := int(math.Round((float64(i) + f*float64(a)) * fine))
			y := int(math.Round((float64(j) + f*float64(b)) * fine))
			if closed {
				x = ((x % fx) + fx) % fx
			}
			if metal[y*(fx+1)+x] {
				n++
			}
		}
		*is = 1 + math.Hypot(float64(a)*hx, float64(b)*hy)*float64(n)/samples
		return *is - 1
	}
	// Columns: one turn, or for a way round a closed band three.
	turns := 1
	if closed && along {
		turns = 3
	}
	cols := nx*turns + 1
	run := func(from []int, done func(i, j int) bool, most float64) float64 {
		dist := make([]float64, cols*(ny+1))
		for i := range dist {
			dist[i] = math.Inf(1)
		}
		var open queue
		for _, k := range from {
			dist[k] = 0
			open.push(queued{0, int32(k)})
		}
		for len(open) > 0 {
			at := open.pop()
			if at.d > dist[at.at] {
				continue
			}
			if at.d >= most {
				return most
			}
			i, j := int(at.at)%cols, int(at.at)/cols
			if done(i, j) {
				return at.d
			}
			for k, st := range steps {
				x, y := i+st[0], j+st[1]
				if closed && !along {
					x = ((x % nx) + nx) % nx
				}
				if x < 0 || x >= cols || y < 0 || y > ny {
					continue
				}
				if d := at.d + cost(i, j, k); d < dist[y*cols+x] {
					dist[y*cols+x] = d
					open.push(queued{d, int32(y*cols + x)})
				}
			}
		}
		return math.Inf(1)
	}
	var from []int
	if !along {
		// Away from a cuff's ends, whose corners are no edges.
		for i := range cols {
			from = append(from, i)
		}
		return run(from, func(_, j int) bool { return j == ny }, math.Inf(1))
	}
	if !closed {
		for j := range ny + 1 {
			from = append(from, j*cols)
		}
		return run(from, func(i, _ int) bool { return i == nx }, math.Inf(1))
	}
	// Round once: from each height at the middle turn's left end to the same height
	// a turn on. The edges themselves are outside.
	best := math.Inf(1)
	for j := 1; j < ny; j++ {
		best = run([]int{j*cols + nx}, func(i, k int) bool { return k == j && i == 2*nx }, best)
	}
	return best
}

// The slow way: all pairs of openings measured, however far apart.
func TestNoStretchLeftOutMakesAWayShorter(t *testing.T) {
	pruned := 0
	for seed := range 40 {
		rng := rand.New(rand.NewSource(int64(seed)))
		band := openStrip(90, 36)
		if seed%4 == 0 {
			band = strip(90, 36)
		}
		var loops []plane.Loop
		for i := range 12 {
			for j := range 5 {
				c := plane.Pt(-41+7.4*float64(i)+2*rng.Float64(), -14+7*float64(j)+2*rng.Float64()-1)
				if hole := plane.Circle(c, 0.3+1.9*rng.Float64()); rng.Float64() < 0.7 {
					loops = append(loops, hole)
				}
			}
		}
		s := pierced(t, band, loops...)
		fast := FindWeakestPaths(s)
		require.True(t, fast.Exact, "seed %d", seed)
		g := newPathGraph(s, edgesByKind(s))
		g.extend(100, nil)
		assert.InDelta(t, g.across().Metal, fast.Across.Metal, 1e-9, "seed %d", seed)
		assert.InDelta(t, g.along().Metal, fast.Along.Metal, 1e-9, "seed %d", seed)
		all, bounded := g.count, newPathGraph(s, edgesByKind(s))
		bounded.extend(fast.Across.Metal/2, nil)
		bounded.extend(fast.Along.Metal, bounded.bounds(fast.Along.Metal, fast.Across.Metal, fast.Along.Metal))
		if bounded.count < all {
			pruned++
		}
	}
	assert.Greater(t, pruned, 20)
}

func BenchmarkWeakestPaths(b *testing.B) {
	for _, n := range []int{200, 2000, 20000} {
		b.Run(fmt.Sprint(n), func(b *testing.B) {
			s, err := pattern.Lay(bigDesign(n))
			if err != nil {
				b.Fatal(err)
			}
			exact := true
			for range b.N {
				exact = FindWeakestPaths(s).Exact
			}
			b.ReportMetric(map[bool]float64{true: 1}[exact], "exact")
		})
	}
}

// A cuff whose round ends are wider than the width that its smooth taper would have
// there, since its edges are drawn by points: each long edge and each end has edges of
// its own, and the two long edges nowhere meet. Unpierced, the way across is no longer
// than the narrowest straight one (which is a way too) and the way along no shorter
// than from tangent to tangent of the ends.
func TestEdgesDrawnByPointsKeepLongEdgesAndEndsApart(t *testing.T) {
	for _, shape := range []string{"", unroll.RoundEnd} {
		b := unroll.Band{
			Kind: unroll.Cuff, Inside: unroll.Inside{By: unroll.ByAxes, WidthMM: 64.55, HeightMM: 50.35}, GapMM: 28,
			Thickness: unroll.Thickness{MM: 0.9}, WidthMM: 24, EndWidthMM: 24, EndShape: shape, NeutralK: 0.42,
			TopEdge:    []unroll.EdgePoint{{At: -0.5, OutMM: 2.9}, {At: 0.6, OutMM: -0.2}, {At: 0.99, OutMM: 0.2}},
			BottomEdge: []unroll.EdgePoint{{At: -0.7, OutMM: 1.7}, {At: 0.3, OutMM: 3.6}, {At: 0.8, OutMM: 4.6}},
		}
		s, err := pattern.Lay(pattern.Design{Name: "by points", Band: b, Metal: pattern.Metal{Alloy: "sterling-925"},
			Rules: pattern.DesignRules{BridgeMM: 1, RimMM: 1}})
		require.NoError(t, err)
		for k, es := range edgesByKind(s) {
			if len(es) == 0 {
				t.Fatalf("end %q: no edge of kind %d", shape, k)
			}
		}
		c := FindWeakestPaths(s)
		narrowest := math.Inf(1)
		box := s.Flat.Outline.Bounds()
		for i := range 101 {
			x := (float64(i)/100 - 0.5) * (box.W() - 30)
			bottom, top := s.Flat.EdgesAt(x)
			narrowest = math.Min(narrowest, top-bottom)
		}
		if c.Across.Metal > narrowest+0.01 || c.Across.Metal < narrowest/2 {
			t.Errorf("end %q: %g mm across, the narrowest straight way has %g", shape, c.Across.Metal, narrowest)
		}
		if l := box.W(); c.Along.Metal > l || c.Along.Metal < l-30 {
			t.Errorf("end %q: %g mm along a blank of %g", shape, c.Along.Metal, l)
		}
	}
}

// A cuff whose ends are nearly sawn through is told of it where it bends, not at the end, where
// nothing bends it: there the figure still says so, and what is weak farther in is found.
func TestTheFreeEndOfACuffIsNotToldAsWeakest(t *testing.T) {
	d, err := project.GalleryDesign("harbour-cuff")
	require.NoError(t, err)
	d.Fields, d.Reserves = nil, nil
	slot := func(x, high float64) pattern.Edit {
		return pattern.Edit{Do: pattern.Add, Shape: pattern.OvalShape, At: []pattern.Spot{{XMM: x}}, WidthMM: 3, HeightMM: high}
	}
	half := 145.47 / 2
	for _, c := range []struct {
		name  string
		edits []pattern.Edit
		told  bool
	}{
		{"at the end", []pattern.Edit{slot(half-10, 19)}, false},
		{"at the front", []pattern.Edit{slot(0, 25)}, true},
		{"at both", []pattern.Edit{slot(half-10, 19), slot(0, 24.5)}, true},
	} {
		d.Edits = c.edits
		s, err := pattern.Lay(d)
		require.NoError(t, err)
		require.Len(t, s.Openings, len(c.edits), c.name)
		w := FindWeakestPaths(s)
		r := &Report{Openings: len(s.Openings), Deep: &Deep{WeakestPaths: w}}
		told := false
		for _, f := range checkWeakestPaths(s, r) {
			if f.Kind == KindWeakestWayAcross {
				told = true
				x, _ := s.Flat.Where(f.At[0])
				require.Less(t, math.Abs(x), 5.0, c.name)
			}
		}
		require.Equal(t, c.told, told, "%s: %+v", c.name, w)
		if !c.told {
			require.Less(t, w.Across.Share(), weakAcross, "the case is one: %s", c.name)
		}
	}
}
