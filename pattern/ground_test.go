package pattern

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"fretband/unroll"
)

// The ground begins where the rims, the ends of an open band and the joint of a closed one
// end: a little nearer to the edge of the blank nothing may be cut, a little farther off it
// may. The joint is half of its strip at either end and, like all metal, a bridge wide at
// least; the ends are as wide as the rim, and so is the joint where the ends of the blank do
// not meet by moving along.
func TestTheGroundBeginsWhereRimsEndsAndJointEnd(t *testing.T) {
	const bridge, little = 1.2, 0.01
	for _, flare := range []float64{0, 12, -20, 35} {
		for _, c := range []struct {
			kind           string
			rim, joint, at float64 // at: how far the ground is from the ends
		}{
			{unroll.Cuff, 2, 0, 2}, {unroll.Cuff, 0.5, 0, bridge},
			{unroll.Bangle, 2, 0.2, bridge}, {unroll.Bangle, 2, 1, bridge}, {unroll.Bangle, 0.5, 7, 3.5},
		} {
			d := handBands()["cuff"]
			d.Band.Kind, d.Fields, d.Rules.BridgeMM, d.Rules.RimMM = c.kind, nil, bridge, c.rim
			d.Band.Inside = unroll.Inside{By: unroll.ByCircumference, CircumferenceMM: 180, Ratio: 1}
			d.Band.FlareDeg = flare
			if c.kind != unroll.Cuff {
				d.Band.GapMM, d.Band.Joint, d.Band.JointMM = 0, unroll.Soldered, c.joint
			}
			s, err := Lay(d)
			require.NoError(t, err)
			f := s.Flat
			rim := math.Max(c.rim, bridge)
			if flare != 0 {
				c.at = math.Max(c.at, rim)
			}
			for _, side := range []float64{-1, 1} {
				x := side * f.Length / 2
				bottom, top := f.EdgesAt(x)
				for _, share := range []float64{0.2, 0.5, 0.8} {
					v := bottom + share*(top-bottom)
					in := f.Along(x, v, 0).Unit().Mul(-side) // square to the end, into the blank
					p := f.Place(x, v)
					assert.False(t, s.Ground.Contains(p.Add(in.Mul(c.at-little))), "flare %g, %+v: the end at %g", flare, c, v)
					assert.True(t, s.Ground.Contains(p.Add(in.Mul(c.at+little))), "flare %g, %+v: the end at %g", flare, c, v)
				}
				for _, share := range []float64{-0.4, 0, 0.3} {
					x := share * f.Length
					bottom, top := f.EdgesAt(x)
					edge := map[bool]float64{false: bottom, true: top}[side > 0]
					assert.False(t, s.Ground.Contains(f.Place(x, edge-side*(rim-little))), "flare %g, %+v: the rim at %g", flare, c, x)
					assert.True(t, s.Ground.Contains(f.Place(x, edge-side*(rim+little))), "flare %g, %+v: the rim at %g", flare, c, x)
				}
			}
		}
	}
}
