package pattern

import (
	"math"
	"testing"

	"fretband/unroll"
	"fretband/unroll/plane"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// steepBand is a cone of 45 degrees half-angle, the steepest: its sector turns through
// 255 degrees, so that what reaches far past one end comes near the other.
func steepBand(kind string) unroll.Band {
	b := unroll.Band{
		Kind: kind, Inside: unroll.Inside{By: unroll.ByCircumference, CircumferenceMM: 60, Ratio: 1}, Thickness: unroll.Thickness{MM: 1},
		WidthMM: 8, EndWidthMM: 8, NeutralK: 0.5, FlareDeg: 45,
	}
	if kind != unroll.Cuff {
		b.Joint, b.JointMM = unroll.Soldered, 1
	}
	return b
}

func steepSheet(t *testing.T, d Design) *Sheet {
	t.Helper()
	d.Name, d.Metal, d.Rules = "steep", Metal{Alloy: "copper"}, DesignRules{BridgeMM: 0.8, RimMM: 1}
	s, err := Lay(d)
	require.NoError(t, err)
	return s
}

// A row of reserves that goes on past the end of a cuff does not come round the apex
// and lie on the blank again.
func TestARowOfReservesStaysOffTheBlankPastItsEnd(t *testing.T) {
	d := Design{Band: steepBand(unroll.Cuff)}
	at := steepSheet(t, d).Flat.Place(0, 0)
	for _, spacing := range []float64{6, 9, 14, 25, 60} {
		d.Reserves = []Reserve{{Shape: CircleShape, XMM: at.X, YMM: at.Y, WidthMM: 2, Count: 9, SpacingMM: spacing}}
		s := steepSheet(t, d)
		on, want := 0, 0
		for _, k := range s.Reserves {
			if s.Flat.Outline.Contains(k.At) {
				on++
			}
		}
		for i := -4; i <= 4; i++ {
			if math.Abs(float64(i)*spacing) < s.Flat.Length/2 {
				want++
			}
		}
		assert.Len(t, s.Reserves, 9)
		assert.Equal(t, want, on, "%g mm apart on a blank %.1f mm long", spacing, s.Flat.Length)
	}
}

// What a reserve over the joint of a closed band takes of the ground at either end is
// what it takes at the middle, however far past the end it reaches.
func TestAReserveOverTheJointTakesAsMuchOfASteepBand(t *testing.T) {
	d := Design{Band: steepBand(unroll.Ring)}
	f := steepSheet(t, d).Flat
	long := Reserve{Shape: RectangleShape, WidthMM: 16, HeightMM: 3}
	reserved := func(x float64) []plane.Loop {
		r := long
		at := f.Place(x, -6)
		r.XMM, r.YMM, r.RotationDeg = at.X, at.Y, onward(f, x).rotation*180/math.Pi
		shape, err := r.ownLoop()
		require.NoError(t, err)
		return seamOf(d, f).onGround(shape, f.Outline.Bounds())
	}
	// Its copies lie at the lengths along the band at which it lies itself.
	has := func(ls []plane.Loop, x, v float64) bool {
		for _, l := range ls {
			if l.Contains(f.Place(x, v)) {
				return true
			}
		}
		return false
	}
	for _, to := range []float64{0.3, 0.45, 0.55, 0.62, -0.5, -0.62} {
		ls := reserved(to * f.Length)
		for x := -0.5; x < 0.5; x += 0.01 {
			for v := -3.5; v < 4; v++ {
				off := math.Remainder(x-to, 1)
				want := has([]plane.Loop{reserved(0)[0]}, off*f.Length, v)
				got := has(ls, x*f.Length, v)
				assert.Equal(t, want, got, "about %g: at %.2f of the length, %g across", to, x, v)
			}
		}
	}
}

// So does a line that is engraved: cut at the joint, its pieces lie where those of the
// line at the front do, carried along.
func TestALineOverTheJointOfASteepBandGoesOnAtTheOtherEnd(t *testing.T) {
	d := Design{Band: steepBand(unroll.Ring)}
	f := steepSheet(t, d).Flat
	along := func(x float64) (at []plane.Point, length float64) {
		p := f.Place(x, -2)
		m := Engraving{Kind: PathEngraving, Path: "M-7 0 H-5 H-3 H-1 H1 H3 H5 H7", XMM: p.X, YMM: p.Y, RotationDeg: onward(f, x).rotation * 180 / math.Pi}
		v, err := m.draw()
		require.NoError(t, err)
		for _, s := range v.lines(0, d, f).Strokes {
			for _, e := range s.Edges() {
				length += e.Len()
				for k := range 9 {
					px, pv := f.Where(e.At(float64(k) / 8))
					assert.LessOrEqual(t, math.Abs(px), f.Length/2+1e-6, "about %g", x)
					at = append(at, plane.Pt(math.Remainder(px-x, f.Length), pv))
				}
			}
		}
		return at, length
	}
	for _, to := range []float64{0.3, 0.45, 0.55, 0.62, -0.5, -0.62} {
		at, length := along(to * f.Length)
		assert.InDelta(t, 14, length, 1e-6)
		for _, p := range at {

			q := f.Place(p.X, p.Y)
			assert.InDelta(t, -2, q.Y, 1e-6, "about %g", to)
			assert.LessOrEqual(t, math.Abs(q.X), 7+1e-6, "about %g", to)
		}
	}
}
