package app

import (
	"fretband/pattern"
	"fretband/unroll"
)

// SetKind makes the band another kind, and everything that the old kind had and
// the new one can't have is replaced by something usual. A band that changes
// between finger and wrist starts from a usual size.
func SetKind(d *pattern.Design, kind string) {
	if kind == d.Band.Kind {
		return
	}
	o, around, err := oval(*d)
	known := err == nil && o.A > 0 && o.B > 0
	small := known && around < 90 // no wrist and no ring is near
	fresh := !known || small != (kind == unroll.Ring)
	if fresh {
		// Rows, bridges and places of a wrist do not fit a finger, nor the other
		// way round.
		b, f := &d.Band, &d.Field
		d.Reserves = nil
		b.TopEdge, b.BottomEdge, b.SwellLengthMM, b.FlareDeg = nil, nil, 0, 0
		b.Dome, b.DomeRadiusMM, b.DomeRiseMM, b.DomeFlat = "", 0, 0, ""
		if kind == unroll.Ring {
			around, o = 54, unroll.OvalOf(54, 1)
			b.WidthMM, b.EndWidthMM = 8, 8
			f.Rows, f.Repeats, f.BridgeMM, f.RimMM, f.CornerMM, f.SmallestMM = 1, 14, 1, 1.2, 0.25, 0.8
		} else {
			around, o = 180, unroll.OvalOf(180, 1.25)
			b.WidthMM, b.EndWidthMM = 30, 30
			f.Rows, f.Repeats, f.BridgeMM, f.RimMM, f.CornerMM, f.SmallestMM = 3, 20, 1.2, 2, 0.3, 1
		}
	}
	b := &d.Band
	b.Kind = kind
	b.GapMM, b.GapShare, b.EndCornerMM, b.Joint, b.JointMM = 0, 0, 0, "", 0
	b.EndShape, b.EndLengthMM, b.EndRadiusMM = "", 0, 0
	way := b.Inside.By
	if kind == unroll.Cuff {
		b.GapMM, b.EndCornerMM = 28, 3
		if way == unroll.BySize {
			way = unroll.ByAxes
		}
	} else {
		b.Joint, b.JointMM = unroll.Soldered, usualJoint(kind)
		closeEdges(d)
		if kind == unroll.Ring && way == unroll.ByWrist {
			way = unroll.ByCircumference
		}
	}
	switch {
	case way == unroll.ByProfile || way == unroll.ByEdges:
		if fresh {
			setInside(d, unroll.ByAxes, o, around)
		}
	default: // the scale goes with the kind, so a size is said anew as well
		setInside(d, way, o, around)
	}
}

// usualJoint is the length of a joint's solid strip: ours, a little more than a
// saw cut and two filed ends with solder need.
func usualJoint(kind string) float64 {
	if kind == unroll.Ring {
		return 2
	}
	return 4
}
