package check

import (
	"bytes"
	"fmt"
	"math"
	"math/rand"
	"slices"
	"testing"

	"fretband/pattern"
	"fretband/pattern/motif"
	"fretband/pattern/project"
	"fretband/testdata"
	"fretband/unroll"
	"fretband/unroll/plane"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// sector is a slot between two radii about c, from angle a to b with g/2 left at
// either end, its ends parallel to the bridges there.
func sector(c plane.Point, r, outer, a, b, g float64) plane.Loop {
	at := func(radius, angle, side float64) plane.Point {
		l := math.Sqrt(radius*radius - g*g/4)
		return plane.Pt(l, side*g/2).Turn(angle).Add(c)
	}
	sweep := func(radius float64) float64 { return (b - a) - 2*math.Asin(g/2/radius) }
	return plane.Loop{
		{Point: at(r, a, 1)},
		{Point: at(outer, a, 1), Bulge: math.Tan(sweep(outer) / 4)},
		{Point: at(outer, b, -1)},
		{Point: at(r, b, -1), Bulge: -math.Tan(sweep(r) / 4)},
	}
}

// pierced is a band with those openings, put there without any rule.
func pierced(t *testing.T, b unroll.Band, loops ...plane.Loop) *pattern.Sheet {
	t.Helper()
	s, err := pattern.Lay(pattern.Design{Name: "by hand", Band: b, Metal: pattern.Metal{Alloy: "copper"}, Rules: pattern.DesignRules{BridgeMM: 1, RimMM: 1}})
	require.NoError(t, err)
	for i, l := range loops {
		require.NoError(t, l.Check())
		s.Openings = append(s.Openings, pattern.Opening{Number: i + 1, Loop: l.CCW(), Shape: -1, Edit: -1, Field: -1, Box: l.Bounds()})
	}
	return s
}

// attachedOf are the pieces of a sheet of 10 g/cm^3.
func attachedOf(s *pattern.Sheet) AttachedParts {
	return FindAttachedParts(s, &Report{Density: 10, Thinnest: Bridges(s).Thinnest})
}

func openStrip(length, width float64) unroll.Band {
	b := strip(length, width)
	b.Kind, b.Joint, b.GapMM = unroll.Cuff, "", 20
	return b
}

// n slots round a piece of radius r leave bridges of g, parallel for as long as the
// slots are wide; the middles of those stretches bound the piece. Area: the disc, and
// half a bridge each: a strip g wide from the disc's edge to the middle.
func TestARoundPieceHangsOnTheBridgesLeftBetweenItsSlots(t *testing.T) {
	const r, outer = 6.5, 8.0
	for _, c := range []struct {
		name string
		band unroll.Band
		n    int
		g    float64
		at   plane.Point
	}{
		{"one bridge", openStrip(160, 24), 1, 1.1, plane.Pt(10, 1)},
		{"two bridges, both between the same slots", openStrip(160, 24), 2, 1.3, plane.Pt(-20, 0)},
		{"three", openStrip(160, 24), 3, 0.9, plane.Pt(31, -2)},
		{"five", openStrip(160, 24), 5, 1.2, plane.Pt(0, 0)},
		{"three thin ones", openStrip(160, 24), 3, 0.3, plane.Pt(5, 0)},
		{"three over the seam", strip(160, 24), 3, 0.9, plane.Pt(79.5, 0)},
		{"two over the seam from the left", strip(160, 24), 2, 0.9, plane.Pt(-78, 0)},
	} {
		t.Run(c.name, func(t *testing.T) {
			var loops []plane.Loop
			for i := range c.n {
				a := 2 * math.Pi / float64(c.n)
				loops = append(loops, sector(c.at, r, outer, 0.3+float64(i)*a, 0.3+float64(i+1)*a, c.g))
			}
			s := pierced(t, c.band, loops...)
			h := attachedOf(s).Inside
			assert.InDelta(t, float64(c.n)*c.g, h.Metal, 1e-6)
			assert.Len(t, h.Bridges, c.n)
			assert.LessOrEqual(t, shortestRound(s, Bridges(s).Thinnest.Width), h.Metal, "no chain is shorter than the bound")
			half := (math.Sqrt(r*r-c.g*c.g/4) + math.Sqrt(outer*outer-c.g*c.g/4)) / 2
			area := math.Pi*r*r + float64(c.n)*(c.g*half-(r*r*math.Asin(c.g/2/r)+c.g/2*math.Sqrt(r*r-c.g*c.g/4)))
			assert.InDelta(t, area, h.Area, 0.001*area)
			assert.InDelta(t, h.Area*s.Flat.Thickness*10/1000, h.Weight, 1e-9)
			assert.False(t, h.AtEdge)
			for i, b := range h.Bridges { // each a piece of metal that wide, between the slots it names
				for j, p := range [2]plane.Point{b.A, b.B} {
					l := s.Openings[[2]int{b.From, b.To}[j]-1]
					assert.InDelta(t, 0, l.Loop.Nearest(p).D, 1e-6, "bridge %d", i)
				}
			}
		})
	}
}

// Half a ring about a place of the edge holds half a disc by two bridges to the edge.
func TestAPieceAtTheEdgeHangsOnTheMetalBesideIt(t *testing.T) {
	const r, outer, keep = 10.0, 11.5, 1.2
	for _, c := range []struct {
		name string
		band unroll.Band
		at   plane.Point
	}{
		{"bottom", openStrip(160, 24), plane.Pt(20, -12)},
		{"bottom over the seam", strip(160, 24), plane.Pt(78, -12)},
		{"top over the seam", strip(160, 24), plane.Pt(-77, 12)},
	} {
		t.Run(c.name, func(t *testing.T) {
			side := 1.0
			if c.at.Y > 0 {
				side = -1
			}
			// From keep over the edge on the right to the same on the left.
			at := func(radius, way float64) plane.Point {
				return c.at.Add(plane.Pt(way*math.Sqrt(radius*radius-keep*keep), keep).Mul(side))
			}
			sweep := func(radius float64) float64 { return math.Pi - 2*math.Asin(keep/radius) }
			s := pierced(t, c.band, plane.Loop{
				{Point: at(r, 1)},
				{Point: at(outer, 1), Bulge: math.Tan(sweep(outer) / 4)},
				{Point: at(outer, -1)},
				{Point: at(r, -1), Bulge: -math.Tan(sweep(r) / 4)},
			})
			h := attachedOf(s).AtEdge
			assert.InDelta(t, 2*keep, h.Metal, 1e-6)
			require.Len(t, h.Bridges, 2)
			assert.True(t, h.AtEdge)
			// The half disc and at either side a strip out to where the bridge is told,
			// the middle of the slot's end.
			x := (math.Sqrt(r*r-keep*keep) + math.Sqrt(outer*outer-keep*keep)) / 2
			area := math.Pi*r*r/2 + 2*(x*keep-(r*r*math.Asin(keep/r)+keep*math.Sqrt(r*r-keep*keep))/2)
			assert.InDelta(t, area, h.Area, 0.001*area)
		})
	}
}

// Slots along the edge, each with a leg down to it, hold a long piece by the legs at its
// two ends. The legs between are as near to the edge, so that the shortest ways from the
// edge to the slots never run along them.
func TestAPieceAtTheEdgeMayBeLongerThanTheWaysFromTheEdge(t *testing.T) {
	const bays, pitch, gap, leg, keep, under, over = 3, 14.0, 0.5, 1.0, 0.8, 3.0, 4.0
	for _, c := range []struct {
		name string
		band unroll.Band
		left float64
	}{
		{"open band", openStrip(160, 24), -30},
		{"over the seam", strip(160, 24), 50},
		{"beside the seam", strip(160, 24), -70},
	} {
		t.Run(c.name, func(t *testing.T) {
			var loops []plane.Loop
			for i := range bays + 1 {
				x := c.left + float64(i)*pitch
				at := func(dx, dy float64) plane.Point { return plane.Pt(x+dx, -12+dy) }
				loops = append(loops, plane.Polygon(at(0, keep), at(leg, keep), at(leg, under), at(pitch-gap, under), at(pitch-gap, over), at(0, over)))
			}
			h := attachedOf(pierced(t, c.band, loops...)).AtEdge
			assert.InDelta(t, 2*keep+bays*gap, h.Metal, 1e-6)
			assert.Len(t, h.Bridges, 2+bays)
			assert.True(t, h.AtEdge)
			// Bays, half of the bridges between slots, and what lies under the legs, of
			// those at the ends to their middles.
			area := bays*((pitch-leg)*under+gap*(over-under)/2) + (bays-1)*leg*keep + leg*keep
			assert.InDelta(t, area, h.Area, 0.001*area)
		})
	}
}

// Whoever cuts the bridges told parts off the metal told: the slow way, by cutting
// slits out of the metal and weighing what it falls into.
func TestCuttingTheBridgesToldPartsThePieceOff(t *testing.T) {
	names := []string{"mooring-ring", "keel-cuff"}
	if testing.Short() {
		names = names[:1]
	}
	for _, e := range append(testdata.Gallery(), testdata.Faults()...) {
		d, err := project.Read(bytes.NewReader(e.JSON))
		require.NoError(t, err)
		wanted := len(d.Fields) == 0
		for _, n := range names {
			wanted = wanted || n == e.Name
		}
		if !wanted {
			continue
		}
		s, err := pattern.Lay(d)
		require.NoError(t, err)
		held := attachedOf(s)
		for _, h := range []AttachedPart{held.Inside, held.AtEdge} {
			if h.None() || s.Flat.Period > 0 {
				continue
			}
			cut := []plane.Loop{}
			for i := range s.Openings {
				cut = append(cut, s.Openings[i].Loop)
			}
			for _, b := range h.Bridges {
				u := b.B.Sub(b.A).Unit()
				n := u.Left().Mul(5e-4)
				p, q := b.A.Sub(u.Mul(1e-3)), b.B.Add(u.Mul(1e-3))
				cut = append(cut, plane.Polygon(p.Sub(n), q.Sub(n), q.Add(n), p.Add(n)))
			}
			out, err := plane.Merge(cut)
			require.NoError(t, err, e.Name)
			rest, err := plane.Not(plane.Region{s.Flat.Outline}, out)
			require.NoError(t, err, e.Name)
			// Pieces: outer loops less the holes in them.
			nearest := math.Inf(1)
			for _, o := range rest {
				if o.Area() < 0 {
					continue
				}
				area := o.Area()
				for _, hole := range rest {
					if hole.Area() < 0 && o.Contains(hole[0].Point) {
						area += hole.Area()
					}
				}
				if math.Abs(area-h.Area) < math.Abs(nearest) {
					nearest = area - h.Area
				}
			}
			assert.InDelta(t, 0, nearest, 0.005*h.Area, "%s: %+v", e.Name, h)
		}
	}
}

// The slow way: every simple chain of the graph that is shorter than the one found,
// tried one by one.
func TestNoChainOfRoundHolesHoldsAsMuchMetalByLess(t *testing.T) {
	seeds, least := 40, 12
	if testing.Short() {
		seeds, least = 8, 2
	}
	found := 0
	for seed := range seeds {
		rng := rand.New(rand.NewSource(int64(seed)))
		var loops []plane.Loop
		for i := range 5 {
			for j := range 4 {
				c := plane.Pt(-16+8*float64(i)+3*rng.Float64(), -12+8*float64(j)+3*rng.Float64()-1.5)
				loops = append(loops, plane.Circle(c, 1.5+1.5*rng.Float64()))
			}
		}
		s := pierced(t, openStrip(90, 36), loops...)
		near := false
		for _, p := range plane.Pairs(loops, 0.2) {
			near = near || p.D < 0.2
		}
		if near {
			continue
		}
		h := attachedOf(s).Inside
		if h.None() {
			continue
		}
		found++
		g := newAttachedGraph(s, h.Metal)
		g.within = h.Metal
		used := make([]bool, g.n)
		best := h.Metal
		var walk func(root, node int, cost, metal float64)
		walk = func(root, node int, cost, metal float64) {
			for _, a := range g.steps(node, g.within) {
				to := int(a.to)
				if to == g.n || to < root || cost+a.width >= best-1e-6 {
					continue
				}
				if to == root {
					if g.enough(math.Abs(metal + a.metal)) {
						best = cost + a.width
					}
					continue
				}
				if !used[to] {
					used[to] = true
					walk(root, to, cost+a.width, metal+a.metal)
					used[to] = false
				}
			}
		}
		for root := range g.n {
			walk(root, root, 0, 0)
		}
		assert.LessOrEqual(t, h.Metal, best+1e-6, "seed %d", seed)
	}
	assert.GreaterOrEqual(t, found, least)
}

// The slow way: all pairs of openings measured, and the shortest ways over all of them
// (R. W. Floyd, "Algorithm 97", Communications of the ACM 5, 1962).
func TestNoWayOverOpeningsIsShorterThanThoseOfTheGraph(t *testing.T) {
	for seed := range 6 {
		rng := rand.New(rand.NewSource(int64(seed)))
		var loops []plane.Loop
		for i := range 20 {
			for j := range 5 {
				c := plane.Pt(-48+5*float64(i)+rng.Float64(), -10+5*float64(j)+rng.Float64())
				if hole := plane.Circle(c, 0.5+1.3*rng.Float64()); rng.Float64() < 0.8 {
					loops = append(loops, hole)
				}
			}
		}
		band := openStrip(120, 36)
		if seed%2 == 0 {
			band = strip(102, 36)
		}
		s := pierced(t, band, loops...)
		n := len(loops)
		slow := make([][]float64, n)
		for i := range slow {
			slow[i] = make([]float64, n)
			for j := range slow[i] {
				slow[i][j] = plane.Nearest(loops[i], loops[j]).D
				for _, turn := range []int{-1, 1} {
					slow[i][j] = math.Min(slow[i][j], plane.Nearest(loops[i], s.Round(turn).Loop(loops[j])).D)
				}
			}
			slow[i][i] = 0
		}
		for k := range n {
			for i := range n {
				for j := range n {
					slow[i][j] = math.Min(slow[i][j], slow[i][k]+slow[k][j])
				}
			}
		}
		g := newAttachedGraph(s, 2*s.Flat.Width)
		g.within, g.work = 20, math.MaxInt
		for root := range n {
			g.fans[0].spread(root, 0, g.within, nil)
			for i := range n {
				fast := math.Inf(1)
				for turn := -1; turn <= 1; turn++ {
					if r := g.fans[0].reached(g.rays.place(i, turn)); r != nil {
						fast = math.Min(fast, r.cost)
					}
				}
				if slow[root][i] < g.within {
					require.InDelta(t, slow[root][i], fast, 1e-6, "seed %d, from %d to %d", seed, root, i)
				}
			}
		}
	}
}

// A crack across the whole band parts no piece off at an edge: three slots above each other
// leave 1.5 + 1 + 1 + 1.5 mm across, which is not told, however little it is.
func TestAWayAcrossTheBandHoldsNoPieceAtTheEdge(t *testing.T) {
	h := attachedOf(read(t, "weakest-way"))
	assert.True(t, h.AtEdge.None() || h.AtEdge.Metal > 5.1, "%+v", h.AtEdge)
}

// Each step of the graph is the bridge it names: from that opening to that one or to the
// edge, as long as it is wide, on a sheet so crowded that not all pairs are measured.
func TestEachStepOfTheGraphIsABridgeBetweenItsOpenings(t *testing.T) {
	s, err := pattern.Lay(bigDesign(200))
	require.NoError(t, err)
	g := newAttachedGraph(s, 2*s.Flat.Width)
	g.within = s.Flat.Width / 2
	steps := 0
	for node := range g.n {
		for _, st := range g.steps(node, g.within) {
			steps++
			a := g.arc(st.arc)
			require.Equal(t, [2]int{node, int(st.to)}, [2]int{a.from, a.to})
			require.InDelta(t, st.width, a.a.Dist(a.b), 1e-9)
			require.Less(t, s.Openings[node].Loop.Nearest(a.a).D, 1e-6)
			if a.to < g.n {
				require.Less(t, s.Openings[a.to].Loop.Nearest(a.b).D, 1e-6)
			}
		}
	}
	require.Greater(t, steps, 3*g.n)
}

func TestSpacedNumbersAreAllOfThemAndLieEvenly(t *testing.T) {
	for n := range 200 {
		all := spaced(n)
		require.Len(t, all, n)
		seen := map[int]bool{}
		for _, i := range all {
			seen[i] = true
		}
		require.Len(t, seen, n)
		if first := slices.Sorted(slices.Values(all[:n/4])); len(first) > 2 {
			for i := 1; i < len(first); i++ {
				require.LessOrEqual(t, first[i]-first[i-1], 3*4, "of %d: three times the mean", n)
			}
		}
	}
}

// Bands of all motifs: every bridge told is as wide as its two places are apart, a
// piece is held by the sum of its bridges, and tongues stand at their openings' edges.
func TestWhatIsToldOfBandsOfAllMotifsHangsTogether(t *testing.T) {
	every := 1
	if testing.Short() {
		every = 4
	}
	apart := func(s *pattern.Sheet, b Bridge) float64 {
		d := b.A.Dist(b.B)
		for _, turn := range []float64{-s.Flat.Period, s.Flat.Period} {
			d = math.Min(d, b.A.Dist(b.B.Add(plane.Pt(turn, 0))))
		}
		return d
	}
	for i, m := range motif.All() {
		if i%every != 0 || m.Key == motif.OwnKey {
			continue
		}
		rng := rand.New(rand.NewSource(int64(i)))
		pick := func(lo, hi float64) float64 { return lo + (hi-lo)*rng.Float64() }
		d := pattern.Design{
			Name: "random", Metal: pattern.Metal{Alloy: "copper"}, Band: strip(pick(100, 180), pick(10, 26)),
			Rules:  pattern.DesignRules{BridgeMM: pick(0.5, 1.6), RimMM: pick(0, 3), CornerMM: pick(0, 0.5), SmallestMM: pick(0, 1), Process: "saw"},
			Fields: []pattern.Field{{Motif: m.Key, Rows: 1 + rng.Intn(4), Repeats: 8 + rng.Intn(20), Stagger: 0.5 * float64(rng.Intn(2))}},
		}
		switch i % 3 {
		case 1:
			d.Band.Kind, d.Band.Joint, d.Band.GapMM = unroll.Cuff, "", 25
		case 2:
			d.Band.Joint, d.Band.JointMM = unroll.Soldered, 4
			if i%2 == 0 {
				d.Band.FlareDeg = 8
			}
		}
		s, err := pattern.Lay(d)
		require.NoError(t, err)
		h := attachedOf(s)
		for _, h := range []AttachedPart{h.Inside, h.AtEdge} {
			if h.None() {
				continue
			}
			sum := 0.0
			for _, b := range h.Bridges {
				sum += b.Width
				assert.InDelta(t, b.Width, apart(s, b), 1e-5, "%s: %+v", m.Key, b)
			}
			assert.InDelta(t, sum, h.Metal, 1e-6, m.Key)
			assert.GreaterOrEqual(t, h.Area, float64(Fingernail), m.Key)
			// Each bridge begins at the opening at which the one before ends, round the
			// piece or from edge to edge.
			if first, last := h.Bridges[0], h.Bridges[len(h.Bridges)-1]; h.AtEdge && !atEnds(s, first.B) && !atEnds(s, last.B) {
				_, from := s.Flat.Where(first.B)
				_, to := s.Flat.Where(last.B)
				assert.Positive(t, from*to, "%s: from one edge to the other: %+v", m.Key, h)
			}
			at := h.Bridges[len(h.Bridges)-1].To
			for k, b := range h.Bridges {
				if k == 0 && h.AtEdge {
					assert.Zero(t, at+b.To, "%s: %+v", m.Key, h)
					at = b.From
					continue
				}
				assert.Equal(t, at, b.From, "%s: %+v", m.Key, h)
				at = b.To
			}
		}
		list, all := NarrowBridges(s)
		assert.LessOrEqual(t, len(list), all)
		for k, b := range list {
			assert.InDelta(t, b.Width, apart(s, b.Bridge), 1e-5, "%s: %+v", m.Key, b)
			assert.Less(t, b.Width, b.Limit())
			assert.GreaterOrEqual(t, b.Length, 0.0)
			if k > 0 {
				assert.LessOrEqual(t, b.Limit()-b.Width, list[k-1].Limit()-list[k-1].Width+1e-6, "worst first")
			}
		}
		for _, u := range Tongues(s) {
			if u.Opening > 0 {
				assert.LessOrEqual(t, s.Openings[u.Opening-1].Loop.Nearest(u.Tip).D, u.Root, "%s: %+v", m.Key, u)
			}
		}
	}
}

func BenchmarkFindAttachedParts(b *testing.B) {
	for _, n := range []int{200, 2000} {
		b.Run(fmt.Sprint(n), func(b *testing.B) {
			s, err := pattern.Lay(bigDesign(n))
			if err != nil {
				b.Fatal(err)
			}
			for range b.N {
				attachedOf(s)
			}
		})
	}
}
