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
		d.Reserves, d.Engravings, d.Added, d.Edits = nil, nil, nil, nil
		b.TopEdge, b.BottomEdge, b.SwellLengthMM, b.FlareDeg = nil, nil, 0, 0
		b.Dome, b.DomeRadiusMM, b.DomeRiseMM, b.DomeFlat = "", 0, 0, ""
		around, o = 180, unroll.OvalOf(180, 1.25)
		if kind == unroll.Ring {
			around, o = 54, unroll.OvalOf(54, 1)
		}
		usual := pattern.Begin(kind)
		b.WidthMM, b.EndWidthMM = usual.Band.WidthMM, usual.Band.WidthMM
		usual.Band.Thickness = b.Thickness
		d.Rules = pattern.UsualRules(usual.Band)
		if len(d.Fields) == 0 {
			d.Fields = usual.Fields
		}
		d.Fields = d.Fields[:1:1]
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
		b.Joint, b.JointMM = unroll.Soldered, pattern.UsualJoint(kind)
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
	if fresh {
		f := d.Fields[0]
		d.Fields = []pattern.Field{pattern.UsualField(*d, pattern.Field{Motif: f.Motif, Path: f.Path, Numbers: f.Numbers})}
	}
}
