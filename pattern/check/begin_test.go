package check

import (
	"context"
	"fmt"
	"math"
	"strings"
	"testing"

	"fretband/pattern"
	"fretband/pattern/motif"
	"fretband/unroll"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// begun is how a new band came out.
type begun struct {
	openings, clipped int
	rows, repeats     int
	whole             float64 // the share of openings that are whole cells
	kept              float64 // of the open area where the rim may cut openings, what whole ones have
	smallest          float64 // the circle that goes through the smallest opening, mm
	left              int     // places left solid
	amber             []string
}

// begin lays a new band and looks for findings, those of its strength too if asked: that
// takes most of the time.
func begin(t *testing.T, d pattern.Design, strength bool) begun {
	t.Helper()
	s, r, err := Lay(d)
	require.NoError(t, err)
	clip := d
	clip.Fields = []pattern.Field{d.Fields[0]}
	clip.Fields[0].Edge = pattern.EdgeClip
	c, cr, err := Lay(clip)
	require.NoError(t, err)
	f := d.Fields[0]
	b := begun{openings: len(s.Openings), clipped: len(c.Openings), rows: f.Rows, repeats: f.Repeats, smallest: math.Inf(1), left: len(s.Dropped),
		kept: r.OpenShare / cr.OpenShare}
	// On a band of one width, openings of whole cells are the same loop moved.
	level := d
	level.Band.EndWidthMM = d.Band.WidthMM
	ls, _, err := Lay(level)
	require.NoError(t, err)
	for _, o := range ls.Openings {
		if o.Shape >= 0 {
			b.whole += 1 / float64(len(ls.Openings))
		}
	}
	for _, o := range s.Openings {
		_, radius := o.Loop.LargestCircle(0.01)
		b.smallest = math.Min(b.smallest, 2*radius)
	}
	r = Deepen(s, r)
	if strength {
		r = Strengthen(context.Background(), s, r, Unasked())
	}
	for _, x := range r.Findings {
		if x.Severity > Note {
			b.amber = append(b.amber, x.Kind.Key+": "+x.What)
		}
	}
	return b
}

// A new band of any kind and motif stands there pierced by whole openings, each of which can
// be cut, with nothing amber.
func TestANewBandIsPiercedByWholeOpenings(t *testing.T) {
	for _, kind := range []string{unroll.Cuff, unroll.Bangle, unroll.Ring} {
		for i, m := range motif.All() {
			d := pattern.BeginWith(pattern.Begin(kind).Band, pattern.Field{Motif: m.Key})
			t.Run(kind+" of "+m.Key, func(t *testing.T) {
				b := begin(t, d, i%4 == 0)
				t.Logf("%-7s %-12s %d x %2d  %3d openings, %3.0f %% whole; %3.0f %% of the area that cut ones would have; smallest %.2f of %.2f; %d left solid  %s",
					kind, m.Key, b.rows, b.repeats, b.openings, 100*b.whole, 100*b.kept, b.smallest, d.Rules.SmallestMM, b.left, strings.Join(b.amber, " | "))
				saw, _ := pattern.ProcessByKey("saw")
				assert.GreaterOrEqual(t, b.openings, 6)
				assert.Equal(t, pattern.FollowWidth, d.Fields[0].Follow)
				if !m.Irregular { // no two of them are the same
					assert.GreaterOrEqual(t, b.whole, 0.8, "openings that are whole")
				}
				assert.GreaterOrEqual(t, b.smallest, math.Max(d.Rules.SmallestMM, saw.Opening(d.Band.Thickness.Measured()))-0.02, "the smallest opening")
				assert.Empty(t, b.amber)
			})
		}
	}
}

// Rules of a new band go by its sheet, so no finding of the process comes up.
func TestANewBandOfAnySheetAndWidthHasNothingAmber(t *testing.T) {
	for _, kind := range []string{unroll.Cuff, unroll.Bangle, unroll.Ring} {
		for _, sheet := range []float64{0.8, 1, 1.6} {
			for _, share := range []float64{0.7, 1.3} {
				usual := pattern.Begin(kind)
				b := usual.Band
				b.Thickness.MM, b.WidthMM = sheet, math.Round(b.WidthMM*share)
				t.Run(fmt.Sprintf("%s %g mm of %g mm sheet", kind, b.WidthMM, sheet), func(t *testing.T) {
					b := begin(t, pattern.BeginWith(b, usual.Fields[0]), false)
					t.Log(b.rows, b.repeats, b.openings, b.amber)
					assert.GreaterOrEqual(t, b.openings, 4)
					assert.Empty(t, b.amber)
				})
			}
		}
	}
}
