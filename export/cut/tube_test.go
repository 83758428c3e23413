package cut

import (
	"bytes"
	"math"
	"testing"

	"fretband/export"
	"fretband/pattern"
	"fretband/pattern/check"
	"fretband/pattern/project"
	"fretband/unroll"
	"fretband/unroll/plane"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// tubeBand is the gallery's bangle without a joint: openings run over its ends.
func tubeBand(t *testing.T) (*pattern.Sheet, *check.Report) {
	t.Helper()
	d, err := project.GalleryDesign("tide-bangle")
	require.NoError(t, err)
	d.Band.Joint, d.Band.JointMM = unroll.Seamless, 0
	s, err := pattern.Lay(d)
	require.NoError(t, err)
	require.True(t, export.OverEnds(s))
	return s, check.Run(s)
}

// Nothing is cut along the tube but round openings: each edge of the band is one line once
// round it, whatever the shop asks for.
func TestABandCutFromTubeHasNoEnds(t *testing.T) {
	s, r := tubeBand(t)
	for _, o := range []export.Options{
		{}, {KerfMM: 0.12}, {LeadMM: 0.5}, {Curves: export.Chords}, {Curves: export.ArcsR12, Copies: 2},
		{Copies: 3, LeadMM: 0.6, KerfMM: 0.1, Curves: export.Chords},
		{Tabs: 1}, {Tabs: 4, LeadMM: 0.5, KerfMM: 0.1, Copies: 2}, {Tabs: 5, Curves: export.Chords},
	} {
		o.For = export.LaserShop
		f, err := NewFiles(s, r, o)
		require.NoError(t, err)
		var dxf, svg bytes.Buffer
		require.NoError(t, f.WriteDXF(&dxf))
		require.NoError(t, f.WriteSVG(&svg))
		require.NoError(t, f.CheckDXF(dxf.Bytes()), "%+v", o)
		require.NoError(t, f.CheckSVG(svg.Bytes()), "%+v", o)
		got, err := readDXFBack(dxf.Bytes(), o)
		require.NoError(t, err)
		runs, openings, round := 0, 0, 0.0
		for _, l := range got.lines {
			switch l.as {
			case forOutline:
				runs++
				assert.False(t, l.closed)
				if o.LeadMM > 0 {
					lead := l.edges[0]
					assert.InDelta(t, lead.A.X, lead.B.X, 1e-6, "along the tube")
					assert.InDelta(t, o.LeadMM, lead.Len(), 1e-6)
					l.lead = 1
				}
				from, to := l.cut()[0].A, l.edges[len(l.edges)-1].B
				round += math.Abs(to.X - from.X)
				assert.InDelta(t, from.Y, to.Y, 1e-6, "it meets itself")
			case forOpening:
				openings++
				if o.LeadMM > 0 {
					l.lead = 1
				}
				assert.True(t, l.round())
			}
		}
		assert.Equal(t, (2+o.Tabs)*o.Parts(), runs, "%+v", o)
		uncut := float64(o.Tabs) * (o.Tab() + o.KerfMM)
		assert.InDelta(t, float64(o.Parts())*(2*s.Flat.Period-uncut), round, 1e-5, "each edge is once round, but for the tabs: %+v", o)
		assert.Equal(t, len(s.Openings)*o.Parts(), openings, "%+v", o)
	}
}

// The bands lie one after the other along the tube, none turned, with the gap between all
// that is cut.
func TestSeveralBandsLieAlongOneTube(t *testing.T) {
	s, r := tubeBand(t)
	o := export.Options{For: export.LaserShop, Copies: 4, GapMM: 2.5, LeadMM: 0.5, KerfMM: 0.1}
	p, err := newCuttingPlan(s, r, o)
	require.NoError(t, err)
	boxes := map[int]plane.Box{}
	for _, l := range p.lines {
		b, ok := boxes[l.copy]
		if !ok {
			b = plane.EmptyBox()
		}
		b = b.Union(l.loop.Bounds())
		for _, r := range l.runs {
			b = b.Union(r.path().Bounds())
		}
		boxes[l.copy] = b
	}
	require.Len(t, boxes, 4)
	for i := 2; i <= 4; i++ {
		assert.InDelta(t, 2.5, boxes[i].Min.Y-boxes[i-1].Max.Y, 1e-6)
		assert.InDelta(t, boxes[1].Min.X, boxes[i].Min.X, 1e-9, "the turn of the tube is the same")
	}
}

func TestWhatATubeCantHaveIsRefused(t *testing.T) {
	s, r := tubeBand(t)
	_, err := NewFiles(s, r, export.Options{For: export.LaserShop, StockW: 300, StockH: 100})
	require.ErrorContains(t, err, "sheet")
	d, err := project.GalleryDesign("buoy-bangle") // formed and domed
	require.NoError(t, err)
	s, err = pattern.Lay(d)
	require.NoError(t, err)
	_, err = NewFiles(s, check.Run(s), export.Options{For: export.LaserShop})
	require.ErrorIs(t, err, ErrForm)
	_, err = LayOut(s, check.Run(s), export.Options{For: export.LaserShop})
	require.ErrorIs(t, err, ErrForm)
	_, err = NewFiles(s, check.Run(s), export.Options{})
	require.NoError(t, err, "its lines may be looked at")
}

// Any edge of a tube that is not once round, or is cut at the ends, is found.
func TestTheReadBackKnowsATube(t *testing.T) {
	s, r := tubeBand(t)
	f, err := NewFiles(s, r, export.Options{For: export.LaserShop})
	require.NoError(t, err)
	last := len(f.plan.lines) - 1
	whole := f.plan.lines[last]
	for says, spoil := range map[string]func(*cuttingLine){
		"which are one place on a tube": func(c *cuttingLine) { c.runs = nil },
		"do not come back":              func(c *cuttingLine) { c.runs = c.runs[:1] },
		"must run":                      func(c *cuttingLine) { c.runs = []run{c.runs[0], {edge: shorter(c.runs[1].edge)}} },
	} {
		c := whole
		spoil(&c)
		f.plan.lines[last] = c
		var b bytes.Buffer
		require.NoError(t, f.WriteDXF(&b))
		err := f.CheckDXF(b.Bytes())
		require.ErrorContains(t, err, says)
	}
}

// shorter cuts the last millimetre off a straight run.
func shorter(run []plane.Edge) []plane.Edge {
	out := append([]plane.Edge{}, run...)
	e := &out[len(out)-1]
	*e = e.Part(0, 1-1/e.Len())
	return out
}
