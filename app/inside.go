package app

import (
	"errors"
	"math"
	"strings"

	"fretband/pattern"
	"fretband/unroll"
)

// SetInsideBy gives the inside in another way and keeps its size as nearly
// as that way can say it.
func SetInsideBy(d *pattern.Design, way string) {
	if way == d.Band.Inside.By {
		return
	}
	o, around, err := oval(*d)
	if err != nil || o.A <= 0 || o.B <= 0 { // nothing to keep: a usual start
		around = 170
		if d.Band.OnFinger() {
			around = 54
		}
		o = unroll.OvalOf(around, 1)
	}
	setInside(d, way, o, around)
}

// setInside gives the inside by its half axes and its circumference; where a way
// can't say both it says what a tape measures.
func setInside(d *pattern.Design, way string, o unroll.Oval, around float64) {
	b := &d.Band
	in := unroll.Inside{By: way}
	was := b.Inside
	if was.By == unroll.ByEdges && way != unroll.ByEdges {
		b.FlareDeg = hundredths(unroll.FlareOf(was.TopMM, was.BottomMM, b.WidthMM))
	}
	switch way {
	case unroll.ByAxes:
		in.WidthMM, in.HeightMM = hundredths(2*o.A), hundredths(2*o.B)
	case unroll.BySides:
		in.WidthMM, in.HeightMM = hundredths(2*o.A), hundredths(2*o.B)
		b.FlareDeg = 0 // only a round band can be flared
	case unroll.ByProfile:
		in.Profile = unroll.PiecesOf(o)
		if was.By == unroll.BySides {
			in.Profile = unroll.PiecesOfSides(was.WidthMM, was.HeightMM)
		}
		b.FlareDeg = 0
	case unroll.ByEdges:
		// The edges are circles: the width is constant and the section flat.
		b.EndWidthMM, b.SwellLengthMM, b.TopEdge, b.BottomEdge = b.WidthMM, 0, nil, nil
		b.Dome, b.DomeRadiusMM, b.DomeRiseMM, b.DomeFlat = "", 0, 0, ""
		if b.Seamless() { // a flared band has a joint
			b.Joint, b.JointMM = unroll.Soldered, pattern.UsualJoint(b.Kind)
		}
		top, bottom := unroll.EdgeCircumferences(around, b.WidthMM, b.FlareDeg)
		in.TopMM, in.BottomMM = hundredths(top), hundredths(bottom)
		b.FlareDeg = 0
	case unroll.ByCircumference:
		in.CircumferenceMM, in.Ratio = hundredths(around), math.Round(1000*o.A/o.B)/1000
	case unroll.ByWrist:
		in.Ratio = math.Round(1000*o.A/o.B) / 1000
		in.EaseMM = 10
		in.WristMM = hundredths(around - in.EaseMM)
	case unroll.BySize:
		if s := pattern.ByPath("band.inside.scale")[0].Offered(d, pattern.At{}); len(s) > 0 {
			in.Scale = s[0].Key
		}
		in.Size = nearestSize(in.Scale, around)
	}
	b.Inside = in
}

// oval returns the half axes of the inside of the design's band, and its
// circumference.
func oval(d pattern.Design) (unroll.Oval, float64, error) {
	f, err := unroll.Unroll(d.Band)
	return f.Oval, f.Inner, err
}

// nearestSize returns the size on a scale whose circumference is nearest to c,
// found among the sizes as people write them.
func nearestSize(scale string, c float64) string {
	best, off := "", math.Inf(1)
	for _, s := range unroll.Sizes(scale) {
		if v, err := unroll.SizeCircumference(scale, s); err == nil && math.Abs(v-c) < off {
			best, off = s, math.Abs(v-c)
		}
	}
	return best
}

// PutSize writes a size as it was typed, on the scale of the design. One that
// the scale does not know, or that could mean several things, is an error that
// asks which is meant, and leaves d alone.
func PutSize(d *pattern.Design, typed string) error {
	typed = strings.TrimSpace(typed)
	if _, err := unroll.SizeCircumference(d.Band.Inside.Scale, typed); err != nil {
		var fe *unroll.FieldError
		if errors.As(err, &fe) {
			return errors.New(fe.Msg)
		}
		return err
	}
	d.Band.Inside.Size = typed
	return nil
}
