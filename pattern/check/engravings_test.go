package check

import (
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"fretband/pattern"
	"fretband/unroll"
)

func marked(b unroll.Band, marks ...pattern.Engraving) pattern.Design {
	b.Inside = unroll.Inside{By: unroll.ByCircumference, CircumferenceMM: 190, Ratio: 1}
	b.Thickness, b.WidthMM, b.EndWidthMM, b.NeutralK = unroll.Thickness{MM: 1}, 24, 24, 0.5
	return pattern.Design{
		Name: "Marked", Band: b, Metal: pattern.Metal{Alloy: "sterling-925"},
		Rules:      pattern.DesignRules{BridgeMM: 1, RimMM: 1.5, CornerMM: 0.2, SmallestMM: 0.8},
		Fields:     []pattern.Field{{Motif: "squares", Rows: 2, Repeats: 16}},
		Reserves:   []pattern.Reserve{{Shape: pattern.RectangleShape, XMM: 30, WidthMM: 20, HeightMM: 8, MarginMM: 1, Note: "signature"}},
		Engravings: marks,
	}
}

func runOf(t *testing.T, d pattern.Design) (*pattern.Sheet, *Report) {
	s, err := pattern.Lay(d)
	require.NoError(t, err)
	return s, Run(s)
}

func found(r *Report, key string) *Finding {
	for i := range r.Findings {
		if r.Findings[i].Kind.Key == key {
			return &r.Findings[i]
		}
	}
	return nil
}

var (
	cuff     = unroll.Band{Kind: unroll.Cuff, GapMM: 30}
	soldered = unroll.Band{Kind: unroll.Bangle, Joint: unroll.Soldered, JointMM: 2}
)

func TestFindingsAboutMarksTellWhatIsWrong(t *testing.T) {
	for _, c := range []struct {
		name, check string // check: "" for none of those about marks
		mark        pattern.Engraving
		band        unroll.Band
		value       float64 // mm
		severity    Severity
	}{
		// The blank is 24 wide: of an upright line of 20 about y = 6, 16 mm up to y
		// = 12 are on it, 4 are not.
		{"off the edge", "mark-off-the-blank", pattern.Engraving{Kind: pattern.LineEngraving, YMM: 6, LengthMM: 20, RotationDeg: 90}, cuff, 16, Breach},
		{"wholly off", "mark-off-the-blank", pattern.Engraving{Kind: pattern.LineEngraving, YMM: 30, LengthMM: 20}, cuff, 0, Breach},
		// The reserve with its margin reaches from x = 19 to 41: 6 of 10 mm.
		{"over a reserve", "mark-over-a-reserve", pattern.Engraving{Kind: pattern.LineEngraving, XMM: 20, LengthMM: 10}, cuff, 6, Caution},
		{"in a margin", "mark-over-a-reserve", pattern.Engraving{Kind: pattern.LineEngraving, XMM: 30, YMM: 4.5, LengthMM: 10}, cuff, 10, Caution},
		{"at home in a reserve", "", pattern.Engraving{Kind: pattern.TextEngraving, XMM: 30, Text: "Gull", HeightMM: 2}, cuff, 0, 0},
		{"on plain metal", "", pattern.Engraving{Kind: pattern.LineEngraving, XMM: -20, LengthMM: 12, MarginMM: 0.5}, cuff, 0, 0},
		{"over the joint", "mark-over-the-joint", pattern.Engraving{Kind: pattern.LineEngraving, XMM: 97, LengthMM: 12}, soldered, 0, Note},
	} {
		t.Run(c.name, func(t *testing.T) {
			_, r := runOf(t, marked(c.band, c.mark))
			var f *Finding
			for _, k := range []string{"mark-off-the-blank", "mark-over-a-reserve", "mark-through-openings", "mark-over-the-joint"} {
				g := found(r, k)
				if k == c.check {
					f = g
				} else {
					require.Nil(t, g, k)
				}
			}
			if c.check == "" {
				return
			}
			require.NotNil(t, f)
			require.InDelta(t, c.value, f.Value, 1e-6)
			require.Equal(t, c.severity, f.Severity)
			require.True(t, strings.HasPrefix(f.What, "Mark 1 ("), f.What)
			require.NotEmpty(t, f.Mend)
		})
	}
}

// Squares stand in a lattice of equal pitch: what a line along a row loses is the
// sum of the squares' widths there, and none is taken from what is cut.
func TestAMarkThroughOpeningsTellsWhatItLoses(t *testing.T) {
	d := marked(cuff)
	d.Reserves = nil
	_, plain := runOf(t, d)
	s0, err := pattern.Lay(d)
	require.NoError(t, err)
	o := s0.Openings[0]
	d.Engravings = []pattern.Engraving{{Kind: pattern.LineEngraving, YMM: o.Box.Centre().Y, LengthMM: 100, MarginMM: -1}}
	s, r := runOf(t, d)
	want, n := 0.0, 0
	for _, o := range s.Openings {
		if o.Row == s.Openings[0].Row {
			w := math.Min(o.Box.Max.X, 50) - math.Max(o.Box.Min.X, -50)
			if w > 0 {
				want, n = want+w, n+1
			}
		}
	}
	f := found(r, "mark-through-openings")
	require.NotNil(t, f)
	require.InDelta(t, want, f.Value, 1e-6)
	require.Len(t, f.At, n)
	require.Equal(t, Note, f.Severity)

	require.Equal(t, 1, r.Engravings)
	require.InDelta(t, 100, r.EngravedLength, 1e-9)
	require.Equal(t, plain.CutLength, r.CutLength, "a mark is not cut")
	require.Equal(t, plain.OpenLength, r.OpenLength)
	require.Equal(t, plain.Left, r.Left)
	require.Equal(t, plain.Openings, r.Openings)
}

// Every one of a row is held to lie on the blank, and told by its reserve's number.
func TestEachOfARowOfReservesMustStandOnTheBlank(t *testing.T) {
	d := marked(cuff)
	d.Reserves = append(d.Reserves, pattern.Reserve{Shape: pattern.OvalShape, WidthMM: 6, HeightMM: 4, Count: 5, SpacingMM: 40, Note: "stone seat"})
	_, r := runOf(t, d)
	n := 0
	for _, f := range r.Findings {
		if f.Kind == KindReserve {
			require.Contains(t, f.What, "Reserve 2 (stone seat)")
			n++
		}
	}
	require.Equal(t, 2, n, "at 80 mm either way, of a blank of 163 mm, two stand partly off")
	d.Band.Kind, d.Band.GapMM, d.Band.Joint, d.Band.JointMM = unroll.Bangle, 0, unroll.Soldered, 2
	d.Reserves[1].SpacingMM = 0
	_, r = runOf(t, d)
	require.Nil(t, found(r, "reserve"), "round a closed band none can")
}
