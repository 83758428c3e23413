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
		// Rows, bridges and positions for a wrist do not fit a finger, nor the other
		// way round.
		b := &d.Band
		d.Reserves, d.Engravings, d.Edits = nil, nil, nil
		f := pattern.Field{Motif: "triangles", Stagger: 0.5}
		if len(d.Fields) > 0 {
			f = pattern.Field{Motif: d.Fields[0].Motif, Path: d.Fields[0].Path, Stagger: d.Fields[0].Stagger, Numbers: d.Fields[0].Numbers}
		}
		b.TopEdge, b.BottomEdge, b.SwellLengthMM, b.FlareDeg = nil, nil, 0, 0
		b.Dome, b.DomeRadiusMM, b.DomeRiseMM, b.DomeFlat = "", 0, 0, ""
		if kind == unroll.Ring {
			around, o = 54, unroll.OvalOf(54, 1)
			b.WidthMM, b.EndWidthMM = 8, 8
			f.Rows, f.Repeats = 1, 14
			d.Rules = pattern.DesignRules{BridgeMM: 1, RimMM: 1.2, CornerMM: 0.25, SmallestMM: 0.8}
		} else {
			around, o = 180, unroll.OvalOf(180, 1.25)
			b.WidthMM, b.EndWidthMM = 30, 30
			f.Rows, f.Repeats = 3, 20
			d.Rules = pattern.DesignRules{BridgeMM: 1.2, RimMM: 2, CornerMM: 0.3, SmallestMM: 1}
		}
		d.Fields = []pattern.Field{f}
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
