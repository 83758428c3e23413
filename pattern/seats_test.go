package pattern

import (
	"math"
	"testing"

	"fretband/pattern/added"
	"fretband/unroll"
	"fretband/unroll/plane"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// addedBangle is a round seamless bangle of 31.2 mm outer radius.
func addedBangle(parts ...Added) Design {
	return Design{
		Name: "Added", Metal: Metal{Alloy: "sterling-925"},
		Band: unroll.Band{
			Kind: unroll.Bangle, Joint: unroll.Seamless, Thickness: unroll.Thickness{MM: 1.2}, WidthMM: 20, EndWidthMM: 20, NeutralK: 0.5,
			Inside: unroll.Inside{By: unroll.ByAxes, WidthMM: 60, HeightMM: 60},
		},
		Rules:  DesignRules{BridgeMM: 0.8, RimMM: 1, CornerMM: 0.2, SmallestMM: 0.6},
		Fields: []Field{{Motif: "diamonds", Rows: 4, Repeats: 40, Stagger: 0.5}},
		Added:  parts,
	}
}

func layed(t *testing.T, d Design) *Sheet {
	t.Helper()
	s, err := Lay(d)
	require.NoError(t, err)
	return s
}

// Pappus: a wire on a round bangle is 2 pi (Ro + c) long through its centroid; a half-round one
// of 2 mm on sterling weighs 3.233568 g at Ro 31.2 (worked by hand).
func TestWireIsAsLongAsPappusSays(t *testing.T) {
	s := layed(t, addedBangle(Added{Kind: WirePart, Section: "half-round", WidthMM: 2, Row: RowBoth}))
	half, _ := added.SectionOf("half-round")
	require.Len(t, s.Added[0].Wires, 2)
	for _, w := range s.Added[0].Wires {
		assert.InDelta(t, 2*math.Pi*(31.2+0.4244131816), w.Length, 1e-7)
		assert.InDelta(t, 3.233568, added.Grams(w.Length*half.Area(2, 0), 10.36), 1e-6)
	}
}

// On an oval bangle the way at a height c over the outer face is the parallel curve of the inner
// ellipse, 2 pi (t + c) longer than it (Steiner's formula for convex curves).
func TestWireOnAnOvalIsLongerBySteiner(t *testing.T) {
	d := addedBangle(Added{Kind: WirePart, Section: "round", WidthMM: 1, Row: RowTop})
	d.Band.Inside = unroll.Inside{By: unroll.ByAxes, WidthMM: 62, HeightMM: 50}
	s := layed(t, d)
	inner := unroll.Oval{A: 31, B: 25}.Circumference()
	assert.InDelta(t, inner+2*math.Pi*(1.2+0.5), s.Added[0].Wires[0].Length, 1e-6)
}

// 134 beads that close a round bangle: d = 2 R s/(1 - s), s = sin(pi/n), 1.497932 mm at R 31.2.
// Each touches the next.
func TestBeadsCloseABangleExactly(t *testing.T) {
	s := layed(t, addedBangle(Added{Kind: BeadsPart, Row: RowTop, Count: 134}))
	set := s.Added[0]
	require.Len(t, set.Seats, 134)
	assert.InDelta(t, 1.497932, set.SizeMM, 1e-6)
	assert.InDelta(t, 0, set.GapMM, 1e-8)

	d := addedBangle(Added{Kind: BeadsPart, Row: RowTop, Count: 100, GapMM: 0.3})
	set = layed(t, d).Added[0]
	assert.InDelta(t, 0.3, set.GapMM, 1e-8)
	require.InDelta(t, (set.SizeMM+0.3)/2, (31.2+set.SizeMM/2)*math.Sin(math.Pi/100), 1e-8)
}

func TestBeadsFitTheLength(t *testing.T) {
	// Round: floor(2 pi (Ro + d/2)/(d + g)).
	s := layed(t, addedBangle(Added{Kind: BeadsPart, Row: RowBottom, WidthMM: 1.5, GapMM: 0.1, InsetMM: 0.2}))
	assert.Len(t, s.Added[0].Seats, 125, "2 pi 31.95 / 1.6 = 125.47")
	// Straight: floor((L + g)/(d + g)) on a cuff that is all one arc, through the middles.
	d := addedBangle(Added{Kind: BeadsPart, WidthMM: 2, GapMM: 0.5})
	d.Band.Kind, d.Band.Joint, d.Band.GapMM = unroll.Cuff, "", 30
	s = layed(t, d)
	// Metal from end to end at the inner face is the circumference less the gap; through the
	// middles, 1.2 + 1 mm further out. The outermost beads end with the metal on the blank,
	// which is taken at the middle of the sheet.
	inner := math.Pi*60 - 30
	length := (s.Flat.Length-2)*32.2/30.6 + 2
	assert.Greater(t, s.Flat.Length, inner)
	assert.Len(t, s.Added[0].Seats, int((length+0.5)/2.5))
}

// Equal true distances, found anew in space by small steps along each way.
func TestRowsAreSpacedEvenlyInSpace(t *testing.T) {
	for name, a := range map[string]Added{
		"line":   {Count: 7},
		"circle": {Row: RowCircle, RowWidthMM: 13, Count: 9},
		"oval":   {Row: RowOval, RowWidthMM: 40, RowHeightMM: 12, XMM: 10, YMM: 1, Count: 12},
		"top":    {Row: RowTop, InsetMM: 1, Count: 11},
	} {
		t.Run(name, func(t *testing.T) {
			a.Kind, a.Cut, a.Gem, a.WidthMM, a.DepthMM = StonePart, "round", "quartz", 2, 1
			d := addedBangle(a)
			d.Band.Inside = unroll.Inside{By: unroll.ByAxes, WidthMM: 64, HeightMM: 48}
			s := layed(t, d)
			seats := s.Added[0].Seats
			require.Len(t, seats, a.Count)
			var least, most float64 = math.Inf(1), 0
			for i := range seats[1:] {
				long := 0.0
				p, q := seats[i].At, seats[i+1].At
				angle := func(p plane.Point) float64 {
					if a.Row == RowOval {
						return math.Atan2((p.Y-a.YMM)/6, (p.X-a.XMM)/20)
					}
					return math.Atan2(p.Y, p.X)
				}
				from, turn := angle(p), math.Mod(angle(q)-angle(p)+4*math.Pi, 2*math.Pi)
				const n = 400
				last := s.Flat.Bend(p, s.Flat.Thickness)
				for k := 1; k <= n; k++ {
					u := float64(k) / n
					at := p.Add(q.Sub(p).Mul(u))
					switch a.Row {
					case RowCircle:
						sin, cos := math.Sincos(from + u*turn)
						at = plane.Pt(6.5*cos, 6.5*sin)
					case RowOval:
						sin, cos := math.Sincos(from + u*turn)
						at = plane.Pt(a.XMM+20*cos, a.YMM+6*sin)
					default:
						if q.X < p.X { // over the seam
							at.X = p.X + u*(q.X+s.Flat.Length-p.X)
						}
					}
					b := s.Flat.Bend(at, s.Flat.Thickness)
					long += math.Sqrt((b.X-last.X)*(b.X-last.X) + (b.Y-last.Y)*(b.Y-last.Y) + (b.Z-last.Z)*(b.Z-last.Z))
					last = b
				}
				least, most = math.Min(least, long), math.Max(most, long)
			}
			assert.InDelta(t, least, most, 1e-3)
		})
	}
}

// Openings keep the margin from all that is added, over the seam too: the slow way, from many
// points of each edge.
func TestOpeningsKeepTheMarginFromWhatIsAdded(t *testing.T) {
	bezel := Added{Kind: StonePart, Cut: "pear", Gem: "quartz", WidthMM: 9, HeightMM: 6, DepthMM: 3, Setting: Bezel, WallMM: 0.4, RiseMM: 2, RotationDeg: 40, MarginMM: 0.6}
	over := bezel
	over.XMM = 96
	d := addedBangle(
		bezel, over,
		Added{Kind: WirePart, Section: "round", WidthMM: 1.2, InsetMM: 0.4, Row: RowTop, MarginMM: 0.5},
		Added{Kind: BeadsPart, Row: RowBottom, InsetMM: 1.6, WidthMM: 1.2, MarginMM: 0.4},
		Added{Kind: OtherPart, Seat: RectangleShape, XMM: 40, YMM: 1, WidthMM: 6, HeightMM: 4, RotationDeg: 15, WeightG: 1, MarginMM: 0.8},
	)
	plain := d
	plain.Added = nil
	s, bare := layed(t, d), layed(t, plain)
	require.NotEmpty(t, s.Openings)
	require.Less(t, len(s.Openings), len(bare.Openings))
	for i, set := range s.Added {
		var all []plane.Loop
		for _, w := range set.Wires {
			all = append(all, s.Again(w.Loop)...)
		}
		for _, seat := range set.Seats {
			all = append(all, s.Again(seat.Outside)...)
		}
		least := math.Inf(1)
		for _, o := range s.Openings {
			for _, l := range all {
				if l.Bounds().Grow(2).Meets(o.Box) {
					least = math.Min(least, plane.Nearest(o.Loop, l).D)
					require.False(t, l.Contains(o.Loop[0].Point), "part %d", i)
				}
			}
		}
		assert.GreaterOrEqual(t, least, d.Added[i].MarginMM-1e-6, "part %d", i)
		assert.Less(t, least, 2.0, "openings come near part %d", i)
	}
}

func TestWhatIsAddedIsRefusedInPlainWords(t *testing.T) {
	stone := Added{Kind: StonePart, Cut: "oval", Gem: "quartz", WidthMM: 8, HeightMM: 6, DepthMM: 3}
	with := func(change func(*Added)) Added { a := stone; change(&a); return a }
	for _, c := range []struct {
		part      Added
		path, say string
	}{
		{with(func(a *Added) { a.Kind = "rivet" }), "added[0].kind", "is not a kind of part"},
		{with(func(a *Added) { a.Cut = "trillion" }), "added[0].cut", "is not a cut"},
		{with(func(a *Added) { a.Gem = "" }), "added[0].gem", "is not in the table of stones"},
		{with(func(a *Added) { a.WidthMM, a.HeightMM, a.RotationDeg = 24, 8, 90 }), "added[0].width_mm", "24.00 mm wide across the band, which is 20.00 mm wide"},
		{with(func(a *Added) { a.Setting, a.WallMM, a.RiseMM, a.HeightMM, a.WidthMM = Bezel, 0.5, 2, 19.5, 19.5 }), "added[0].width_mm", "the stone with its bezel is 20.50 mm wide"},
		{with(func(a *Added) { a.HeightMM = 9 }), "added[0].height_mm", "at least as long as wide"},
		{with(func(a *Added) { a.Count, a.SpacingMM = 3, 5 }), "added[0].count", "overlap"},
		{with(func(a *Added) { a.Count = 60 }), "added[0].count", "overlap"},
		{with(func(a *Added) { a.Count, a.SpacingMM = 30, 9 }), "added[0].spacing_mm", "the row is"},
		{with(func(a *Added) { a.WallMM = 0.3 }), "added[0].wall_mm", "goes with a bezel"},
		{with(func(a *Added) { a.Row = RowCircle; a.RowWidthMM = 9 }), "added[0].count", "at least 2"},
		{Added{Kind: WirePart, Section: "round", WidthMM: 1}, "added[0].row", "wire follows an edge"},
		{Added{Kind: WirePart, Section: "round", Row: RowTop}, "added[0].width_mm", "missing"},
		{Added{Kind: WirePart, Section: "round", Row: RowTop, WidthMM: 25}, "added[0].width_mm", "the band is 20.00 mm wide"},
		{Added{Kind: BeadsPart, Row: RowTop}, "added[0].count", "give how many beads"},
		{Added{Kind: BeadsPart, Row: RowTop, Count: 134, WidthMM: 2}, "added[0].count", "134 beads of 2.00 mm have"},
		{Added{Kind: BeadsPart, Row: RowTop, Count: 4}, "added[0].count", "large: ask for more"},
		{Added{Kind: OtherPart, Seat: CircleShape, WidthMM: 3, Price: -1}, "added[0].price", "0 to 100000"},
	} {
		_, err := Lay(addedBangle(c.part))
		var f *unroll.FieldError
		if assert.ErrorAs(t, err, &f, c.say) {
			assert.Equal(t, c.path, f.Path)
			assert.Contains(t, f.Msg, c.say)
		}
	}
}

// Wherever a band can be laid, so can what is added to it, on every form, and nothing turns out
// infinite.
func TestWhatIsAddedIsLaidOnEveryForm(t *testing.T) {
	for name, b := range reserveBands() {
		t.Run(name, func(t *testing.T) {
			d := withReserve(b, Reserve{Shape: CircleShape, WidthMM: 3, XMM: 30})
			d.Added = []Added{
				{Kind: WirePart, Section: "half-round", WidthMM: 1.5, Row: RowBoth},
				{Kind: BeadsPart, Row: RowBoth, InsetMM: 2, WidthMM: 1},
				{Kind: BeadsPart, YMM: 2, Count: 60},
				{Kind: BeadsPart, Row: RowOval, RowWidthMM: 12, RowHeightMM: 8, Count: 12, WidthMM: 1},
				{Kind: StonePart, Cut: "cabochon", Gem: "opal", WidthMM: 7, HeightMM: 5, DepthMM: 2.5, Setting: Bezel, WallMM: 0.3, RiseMM: 2, MarginMM: 0.5},
			}
			s := layed(t, d)
			for _, set := range s.Added {
				for _, w := range set.Wires {
					require.NoError(t, w.Loop.Check())
					require.False(t, math.IsNaN(w.Length) || math.IsInf(w.Length, 0))
					require.Greater(t, w.Length, 0.9*s.Flat.Length*0.8)
				}
				for _, seat := range set.Seats {
					require.True(t, s.Flat.Outline.Contains(s.Home(seat.At)), "%s %d", name, set.Added)
				}
				require.False(t, math.IsNaN(set.SizeMM) || math.IsInf(set.SizeMM, 0))
			}
		})
	}
}

// What a drag on a band with stones, border wire and bead rows waits for.
func BenchmarkLayWithAddedParts(b *testing.B) {
	d := addedBangle(
		Added{Kind: StonePart, Cut: "cabochon", Gem: "opal", WidthMM: 8, HeightMM: 6, DepthMM: 3, Setting: Bezel, WallMM: 0.3, RiseMM: 2, MarginMM: 0.5},
		Added{Kind: StonePart, Cut: "round", Gem: "quartz", WidthMM: 2, DepthMM: 1.2, Count: 24, MarginMM: 0.5},
		Added{Kind: WirePart, Section: "half-round", WidthMM: 1.5, Row: RowBoth},
		Added{Kind: BeadsPart, Row: RowBoth, InsetMM: 1.5, Count: 160},
	)
	for b.Loop() {
		if _, err := Lay(d); err != nil {
			b.Fatal(err)
		}
	}
}
