package check

import (
	"bytes"
	"math"
	"testing"

	"fretband/pattern"
	"fretband/pattern/project"
	"fretband/testdata"
	"fretband/unroll"
	"fretband/unroll/plane"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func roundBangle() unroll.Band {
	return unroll.Band{
		Kind: unroll.Bangle, Inside: unroll.Inside{By: unroll.ByAxes, WidthMM: 60, HeightMM: 60}, Joint: unroll.Seamless,
		Thickness: unroll.Thickness{MM: 2}, WidthMM: 12, EndWidthMM: 12, NeutralK: 0.5,
	}
}

func sheet(t *testing.T, b unroll.Band, change func(*pattern.Design)) *pattern.Sheet {
	t.Helper()
	d := pattern.Design{
		Name: "test", Band: b, Metal: pattern.Metal{Alloy: "sterling-925"},
		Rules:  pattern.DesignRules{BridgeMM: 1.2, RimMM: 1.5, CornerMM: 0.3, SmallestMM: 0.8},
		Fields: []pattern.Field{{Motif: "diamonds", Rows: 2, Repeats: 20, Stagger: 0.5}},
	}
	if change != nil {
		change(&d)
	}
	s, err := pattern.Lay(d)
	require.NoError(t, err)
	return s
}

func TestAClosedRoundBandIsBalanced(t *testing.T) {
	s := sheet(t, roundBangle(), nil)
	require.Greater(t, len(s.Openings), 40)
	h := Run(s).Hang
	assert.InDelta(t, 0, h.Off, 1e-6)
	assert.InDelta(t, 0, h.Centre.Z, 1e-9)
	assert.InDelta(t, 64, h.Width, 0.01)
	assert.InDelta(t, 64, h.Height, 0.01)
	assert.InDelta(t, 12, h.Depth, 1e-9)
	assert.InDelta(t, 30, h.LeastRadius, 1e-12)
}

// A thin round arc of half angle a has its centre of gravity R sin(a)/a from the
// middle; a thick one at 2/3 (R2^3 - R1^3)/(R2^2 - R1^2) sin(a)/a (any handbook
// of mechanics: circular arc, sector of a ring).
func TestACuffHangsWhereHandbooksPutTheCentreOfAnArc(t *testing.T) {
	b := roundBangle()
	b.Kind, b.Joint, b.GapMM = unroll.Cuff, "", 30
	s := sheet(t, b, nil)
	s.Openings = nil
	a := math.Pi - 30/2.0/30
	h := Run(s).Hang
	assert.InDelta(t, 2.0/3*(32*32*32-30*30*30)/(32*32-30*30)*math.Sin(a)/a, h.Off, 1e-9)
	assert.InDelta(t, 0, h.Angle, 1e-9, "towards the front")
	assert.InDelta(t, h.Off, h.Centre.Y, 1e-9)
}

// The slow, obvious way: every opening by itself, none as slices.
func TestTheHangOfAPiercedBandIsThatOfItsParts(t *testing.T) {
	for _, e := range testdata.Forms() {
		d, err := project.Read(bytes.NewReader(e.JSON))
		require.NoError(t, err, e.Name)
		d.Reserves = []pattern.Reserve{{Shape: pattern.CircleShape, XMM: 8, WidthMM: 6, MarginMM: 1}}
		s, err := pattern.Lay(d)
		require.NoError(t, err, e.Name)
		total := s.Flat.Solid(s.Flat.Outline)
		for _, o := range s.Openings {
			total = total.Add(s.Flat.Solid(o.Loop), -1)
		}
		h := hang(s)
		assert.InDelta(t, total.Moment.X/total.Volume, h.Centre.X, 1e-6)
		assert.InDelta(t, total.Moment.Y/total.Volume, h.Centre.Y, 1e-6)
		assert.InDelta(t, total.Moment.Z/total.Volume, h.Centre.Z, 1e-6)
		if even, _ := s.Flat.Mirrored(); even {
			assert.Greater(t, h.Angle, 0.0, "%s: the reserve stands on the flat's right and is heavy", e.Name)
		}
	}
}

// Formed bands weigh their volume: a tube of R 30 to 32 cut by round holes drawn
// on the inner face. A hole with walls along the normal over the area A there has
// A t (1 + t/2R) (J. Steiner).
func TestFormedBandsWeighTheirVolume(t *testing.T) {
	b := roundBangle()
	b.Making, b.Drawn = unroll.Formed, unroll.InnerFace
	s := sheet(t, b, func(d *pattern.Design) { d.Fields[0].Motif = "circles" })
	r := Run(s)
	require.Greater(t, r.Openings, 30)
	assert.InDelta(t, math.Pi*(32*32-30*30)*12*10.36/1000, r.Plain, 1e-9)
	assert.InDelta(t, r.CutArea*2*(1+2.0/60)*10.36/1000, r.Removed, 1e-9)
	assert.InDelta(t, r.CutArea, r.Faces.InnerCut, 1e-9)
	assert.InDelta(t, r.CutArea*32/30, r.Faces.OuterCut, 1e-9)
	assert.InDelta(t, 32.0/30, r.Faces.OuterMost, 1e-12)
	assert.InDelta(t, 1, r.Faces.InnerLeast, 1e-12)
	assert.InDelta(t, r.Thinnest.Width, r.Faces.InnerBridge, 1e-12)
	assert.GreaterOrEqual(t, r.Faces.OuterBridge, r.Faces.InnerBridge)

	// Drawn half way, the volume is area times thickness.
	b.Drawn = ""
	r = Run(sheet(t, b, nil))
	assert.InDelta(t, r.BlankArea*2*10.36/1000, r.Plain, 1e-9)
	assert.InDelta(t, r.CutArea*2*10.36/1000, r.Removed, 1e-9)
}

func TestADomedBandIsTold(t *testing.T) {
	b := roundBangle()
	b.Dome, b.DomeRadiusMM, b.DomeFlat = unroll.Outward, 15, unroll.ArcLength
	s := sheet(t, b, nil)
	r := Run(s)
	assert.InDelta(t, s.Flat.AreaAt(s.Flat.Outline, s.Flat.Neutral), r.Faces.TrueArea, 1e-9)
	assert.Less(t, r.Faces.TrueArea, r.BlankArea)
	assert.InDelta(t, s.Flat.Volume(s.Flat.Outline)*10.36/1000, r.Plain, 1e-9, "weighed by its true volume")
	assert.InDelta(t, 0, r.Plain/(r.Faces.TrueArea*2*10.36/1000)-1, 2e-3, "which is nearly its true area times the thickness")
	f, ok := worst(r, "doming")
	require.True(t, ok)
	// At the edge a circle of 31 is 15 (1 - cos(0.4)) smaller.
	assert.InDelta(t, 100*15*(1-math.Cos(0.4))/31, f.Value, 1e-6)
	assert.Equal(t, Note, f.Severity)
}

// Kalpakjian's example (memory): 20 gauge steel, R 0.5 in, Y 40 ksi, E 29e6 psi,
// T 0.0359 in: Ri/Rf 0.942, Rf 0.531 in (computed 0.9424, 0.5306).
func TestSpringbackAgreesWithTheTextbook(t *testing.T) {
	const mpa = 0.00689475729 // of a psi
	ri, ratio, ok := springback(0.5306*25.4, 0.0359*25.4, 29e6*mpa/1000, 40e3*mpa)
	assert.True(t, ok)
	assert.InDelta(t, 0.9424, ratio, 1e-4)
	assert.InDelta(t, 0.5*25.4, ri, 1e-3)
	_, _, ok = springback(3000, 0.2, 75, 124)
	assert.False(t, ok)
}

// On a flared band the sections stand square to the arc: a plain one has its full
// width all along.
func TestNetSectionFollowsTheArcOfAFlaredBand(t *testing.T) {
	b := roundBangle()
	b.FlareDeg, b.Joint, b.JointMM = 25, unroll.Soldered, 3
	s := sheet(t, b, nil)
	n := netSection(s)
	for i := range n.X {
		if math.Abs(n.X[i]) < s.Flat.Length/2-0.2 {
			require.InDelta(t, 12, n.Full[i], 0.02)
		}
	}
	// A hole across one section takes its width there.
	s.Openings = []pattern.Opening{{Loop: plane.Circle(s.Flat.Place(50, 1), 3)}}
	n = netSection(s)
	assert.InDelta(t, 6, n.WeakNet, 0.02)
	assert.InDelta(t, 50, n.WeakX, 0.3)
}

func BenchmarkHang(b *testing.B) {
	s, err := pattern.Lay(bigDesign(2000))
	if err != nil {
		b.Fatal(err)
	}
	for range b.N {
		hang(s)
	}
}
