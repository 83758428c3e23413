package check

import (
	"math"
	"testing"

	"fretband/pattern"
	"fretband/unroll"
	"fretband/unroll/plane"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// benchCuff is a sound cuff that no fix is asked for.
func benchCuff() pattern.Design {
	return pattern.Design{
		Name: "sound",
		Band: unroll.Band{
			Kind: unroll.Cuff, Inside: unroll.Inside{By: unroll.ByAxes, WidthMM: 60, HeightMM: 48}, GapMM: 28,
			Thickness: unroll.Thickness{MM: 1.2}, WidthMM: 30, EndWidthMM: 24, EndCornerMM: 5, NeutralK: 0.5,
		},
		Metal:  pattern.Metal{Alloy: "sterling-925"},
		Rules:  pattern.DesignRules{BridgeMM: 1.3, RimMM: 2.2, CornerMM: 0.4, SmallestMM: 1.5},
		Fields: []pattern.Field{{Motif: "squares", Rows: 3, Repeats: 16, Stagger: 0.5}},
	}
}

func benchBangle() pattern.Design {
	d := benchCuff()
	d.Band = unroll.Band{
		Kind: unroll.Bangle, Inside: unroll.Inside{By: unroll.ByAxes, WidthMM: 62, HeightMM: 62},
		Thickness: unroll.Thickness{MM: 1.2}, WidthMM: 20, EndWidthMM: 20, NeutralK: 0.5, Joint: unroll.Soldered, JointMM: 3,
	}
	return d
}

// mended are designs with a fault that can be mended at once.
var mended = []struct {
	name, check string
	spoil       func(*pattern.Design)
	fixes       int // how many ways there are
}{
	{"a rim under the rule", "rim", func(d *pattern.Design) { d.Rules.RimMM = 0.8 }, 2},
	{"a tie under the rule", "by-hand", func(d *pattern.Design) {
		d.Edits = []pattern.Edit{{Do: pattern.Tie, At: []pattern.Spot{{XMM: -40}}, SpanXMM: 80, WidthMM: 0.4}}
	}, 1},
	{"bridges under the sheet", "process-bridges", func(d *pattern.Design) { d.Rules.BridgeMM = 0.7 }, 1},
	{"bridges that the finish takes", "thinnest-bridge", func(d *pattern.Design) { d.Rules.BridgeMM = 0.6 }, 1},
	{"openings under the etcher's", "opening-and-process", func(d *pattern.Design) {
		d.Rules.Process, d.Rules.SmallestMM, d.Rules.CornerMM = "etch", 0.3, 0.05
		d.Fields = []pattern.Field{{Motif: "circles", Rows: 10, PitchMM: 2.2, Area: pattern.Area{Shape: pattern.RunShape, FromMM: -9, ToMM: 12}}, {Motif: "squares", Rows: 3, Repeats: 16}}
	}, 1},
	{"bridges under the saw's", "process-bridges", func(d *pattern.Design) { d.Rules.Process, d.Rules.BridgeMM = "saw", 0.7 }, 1},
	{"corners that start cracks", "sharp-corner", func(d *pattern.Design) { d.Rules.Process, d.Rules.CornerMM = "cast", 0.1 }, 1},
	{"a bridge that burns", "heat", func(d *pattern.Design) { d.Rules.Process, d.Work.KerfMM, d.Band.Thickness.MM = "laser", 0.5, 0.5 }, 1},
	{"a wide gap", "gap", func(d *pattern.Design) { d.Band.GapMM = 50 }, 1},
	{"a small gap", "gap", func(d *pattern.Design) { d.Band.GapMM = 15 }, 1},
	{"ends that touch", "gap", func(d *pattern.Design) { d.Band.GapMM = 0 }, 1},
	{"sharp ends", "ends", func(d *pattern.Design) { d.Band.EndCornerMM = 0 }, 2},
	{"sharp tips", "ends", func(d *pattern.Design) {
		d.Band.EndCornerMM, d.Band.EndShape, d.Band.EndLengthMM, d.Band.EndRadiusMM = 0, unroll.PointEnd, 18, 0.3
	}, 1},
	{"a crooked stagger", "stagger", func(d *pattern.Design) { d.Fields[0].Stagger = 0.3 }, 2},
	{"a stagger without effect", "stagger", func(d *pattern.Design) { d.Fields[0].Motif, d.Fields[0].Stagger = "hexagons", 0.2 }, 1},
	{"a reserve over the edge", "reserve", func(d *pattern.Design) {
		d.Reserves = []pattern.Reserve{{Shape: pattern.RectangleShape, XMM: 10, YMM: 14, WidthMM: 8, HeightMM: 5, MarginMM: 1, RotationDeg: 20}}
	}, 1},
	{"a reserve beyond the end", "reserve", func(d *pattern.Design) {
		d.Reserves = []pattern.Reserve{{Shape: pattern.CircleShape, XMM: 90, YMM: 3, WidthMM: 6, MarginMM: 1}}
	}, 1},
	{"a stone over the edge", "added-off-the-blank", func(d *pattern.Design) {
		d.Added = []pattern.Added{{Kind: pattern.StonePart, Cut: "oval", Gem: "opal", XMM: 10, YMM: 13.5, WidthMM: 8, HeightMM: 5, DepthMM: 2, RotationDeg: 20}}
	}, 2},
	{"a bezel too low", "low-bezel", func(d *pattern.Design) {
		d.Added = []pattern.Added{{Kind: pattern.StonePart, Cut: "cabochon", Gem: "opal", WidthMM: 8, HeightMM: 5, DepthMM: 4, Setting: pattern.Bezel, WallMM: 0.3, RiseMM: 1}}
	}, 1},
	{"a bead on a wire", "added-overlap", func(d *pattern.Design) {
		d.Added = []pattern.Added{{Kind: pattern.WirePart, Section: "round", WidthMM: 1, Row: pattern.RowTop}, {Kind: pattern.BeadsPart, WidthMM: 1, Row: pattern.RowTop, InsetMM: 0.5}}
	}, 1},
	{"a mark over the edge", "mark-off-the-blank", func(d *pattern.Design) {
		d.Engravings = []pattern.Engraving{{Kind: pattern.TextEngraving, Text: "EIDER", YMM: 15, HeightMM: 3}}
	}, 2},
	{"a mark into a reserve", "mark-over-a-reserve", func(d *pattern.Design) {
		d.Reserves = []pattern.Reserve{{Shape: pattern.CircleShape, WidthMM: 6, MarginMM: 1}}
		d.Engravings = []pattern.Engraving{{Kind: pattern.LineEngraving, LengthMM: 20}}
	}, 1},
	{"a mark through openings", "mark-through-openings", func(d *pattern.Design) {
		d.Engravings = []pattern.Engraving{{Kind: pattern.LineEngraving, LengthMM: 60, YMM: 1, MarginMM: -1}}
	}, 1},
	{"an edit that is idle", "by-hand", func(d *pattern.Design) {
		d.Edits = []pattern.Edit{{Do: pattern.LeaveSolid, Mirror: pattern.MirrorAlong, At: []pattern.Spot{{XMM: 0, YMM: 14.5}, {XMM: 20, YMM: 14.5}}}}
	}, 1},
	{"slots under the kerf", "narrow-slot", func(d *pattern.Design) {
		d.Rules.Process, d.Work.KerfMM, d.Rules.CornerMM, d.Rules.SmallestMM = "laser", 0.6, 0, 1.2
		d.Fields = nil
		d.Edits = []pattern.Edit{{Do: pattern.Add, At: []pattern.Spot{{XMM: 5, YMM: 2}}, Shape: pattern.PathShape, Path: "M0 0 H10 V4.5 H20 V5 H10 V10 H0 Z"}}
	}, 1},
	{"openings without a way in", "no-way-in", func(d *pattern.Design) {
		d.Rules.Process, d.Rules.SmallestMM, d.Rules.CornerMM = "saw", 0.2, 0.05
		d.Fields = []pattern.Field{{Motif: "circles", Rows: 14, PitchMM: 1.75, Area: pattern.Area{Shape: pattern.RunShape, FromMM: -9, ToMM: 12}}}
		d.Rules.BridgeMM = 1.3
	}, 1},
	{"openings for a finer blade", "finer-blade", func(d *pattern.Design) {
		d.Rules.SmallestMM, d.Rules.CornerMM = 0.3, 0.05
		d.Fields = []pattern.Field{{Motif: "circles", Rows: 12, PitchMM: 1.85, Area: pattern.Area{Shape: pattern.RunShape, FromMM: -9, ToMM: 12}}}
	}, 1},
}

func worst(r *Report, key string) (Finding, bool) {
	for _, f := range r.Findings { // worst first
		if f.Kind.Key == key {
			return f, true
		}
	}
	return Finding{}, false
}

func TestMendingMakesTheFindingGoAway(t *testing.T) {
	// What is told while a slider is dragged, or else once the hand rests.
	look := func(t *testing.T, d pattern.Design, check string, deep bool) (Finding, bool) {
		s, err := pattern.Lay(d)
		require.NoError(t, err)
		if deep {
			return worst(All(s), check)
		}
		return worst(Run(s), check)
	}
	for _, c := range mended {
		t.Run(c.name, func(t *testing.T) {
			d := benchCuff()
			c.spoil(&d)
			deep := false
			f, ok := look(t, d, c.check, deep)
			if !ok {
				deep = true
				f, ok = look(t, d, c.check, deep)
			}
			require.True(t, ok, "the fault is not found")
			assert.NotEmpty(t, f.Mend)
			require.Len(t, f.Fixes, c.fixes)
			was := benchCuff()
			c.spoil(&was)
			for _, x := range f.Fixes {
				require.NoError(t, x.Design.Check(), x.Title)
				left, found := look(t, x.Design, c.check, deep)
				assert.False(t, found, "%s: still %q", x.Title, left.What)
			}
			assert.Equal(t, was, d, "the design that was checked stays as it was")
		})
	}
}

// What stands off a level blank of 24 mm is moved by what it lacks and no more, straight

// What stands off a level blank of 24 mm is moved by what it lacks and no more, straight
// across where that is enough, else along as well; all by hand.
func TestAFixMovesNoFartherThanNeeded(t *testing.T) {
	half := func(s *pattern.Sheet) float64 { return s.Flat.Length / 2 }
	for _, c := range []struct {
		name  string
		at    func(s *pattern.Sheet) plane.Point
		wants func(s *pattern.Sheet) plane.Point
	}{
		{"over the top edge", func(*pattern.Sheet) plane.Point { return plane.Pt(10, 11.35) }, func(*pattern.Sheet) plane.Point { return plane.Pt(10, 9) }},
		{"over the bottom edge", func(*pattern.Sheet) plane.Point { return plane.Pt(-20, -9.5) }, func(*pattern.Sheet) plane.Point { return plane.Pt(-20, -9) }},
		{"over the end", func(s *pattern.Sheet) plane.Point { return plane.Pt(half(s)+2, 0) }, func(s *pattern.Sheet) plane.Point { return plane.Pt(half(s)-3, 0) }},
	} {
		reserve := benchCuff()
		reserve.Band, reserve.Fields = openStrip(160, 24), nil
		line := reserve
		s, err := pattern.Lay(reserve)
		require.NoError(t, err)
		at, want := c.at(s), c.wants(s)
		reserve.Reserves = []pattern.Reserve{{Shape: pattern.RectangleShape, XMM: at.X, YMM: at.Y, WidthMM: 6, HeightMM: 6, MarginMM: 1}}
		line.Engravings = []pattern.Engraving{{Kind: pattern.LineEngraving, XMM: at.X, YMM: at.Y, LengthMM: 6 * math.Sqrt2, RotationDeg: 45}}
		for key, d := range map[string]pattern.Design{"reserve": reserve, "mark-off-the-blank": line} {
			s, err := pattern.Lay(d)
			require.NoError(t, err)
			f, ok := worst(Run(s), key)
			require.True(t, ok, c.name)
			require.NotEmpty(t, f.Fixes, c.name)
			var got plane.Point
			if m := f.Fixes[0].Design; key == "reserve" {
				got = plane.Pt(m.Reserves[0].XMM, m.Reserves[0].YMM)
			} else {
				got = plane.Pt(m.Engravings[0].XMM, m.Engravings[0].YMM)
			}
			// Moves come in hundredths, away from where it stands.
			assert.InDelta(t, 0, got.Dist(want), 0.0201, "%s, %s: to %v, not %v", key, c.name, got, want)
		}
	}
}

func TestFixesOfClosedAndDomedBands(t *testing.T) {
	for _, c := range []struct {
		name, check string
		spoil       func(*pattern.Design)
	}{
		{"a mark over the joint", "mark-over-the-joint", func(d *pattern.Design) {
			d.Engravings = []pattern.Engraving{{Kind: pattern.LineEngraving, XMM: 96, LengthMM: 4}}
		}},
	} {
		t.Run(c.name, func(t *testing.T) {
			d := benchBangle()
			c.spoil(&d)
			s, err := pattern.Lay(d)
			require.NoError(t, err)
			f, ok := worst(Run(s), c.check)
			require.True(t, ok)
			require.NotEmpty(t, f.Fixes)
			for _, x := range f.Fixes {
				s, err := pattern.Lay(x.Design)
				require.NoError(t, err, x.Title)
				_, ok := worst(Run(s), c.check)
				assert.False(t, ok, x.Title)
			}
		})
	}
}

func TestASoundDesignAsksForNothing(t *testing.T) {
	d := benchCuff()
	d.Wear = pattern.Wear{ProofMPa: 400} // annealed it would take a set
	s, err := pattern.Lay(d)
	require.NoError(t, err)
	for _, f := range All(s).Findings {
		assert.Equal(t, Note, f.Severity, f.What)
	}
}
