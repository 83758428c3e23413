package app

import (
	"math"

	"fretband/pattern"
	"fretband/unroll"
)

// SetInsideBy has the inside given in another way and keeps its size as nearly
// as that way can say it.
func SetInsideBy(d *pattern.Design, way string) {
	if way == d.Band.Inside.By {
		return
	}
	o, err := oval(*d)
	if err != nil || o.A <= 0 || o.B <= 0 { // nothing to keep: a plain start
		o = unroll.OvalOf(170, 1)
		if d.Band.Kind == unroll.Ring {
			o = unroll.OvalOf(54, 1)
		}
	}
	setInside(d, way, o)
}

func setInside(d *pattern.Design, way string, o unroll.Oval) {
	in := unroll.Inside{By: way}
	switch way {
	case unroll.ByAxes, unroll.BySides:
		in.WidthMM, in.HeightMM = round2(2*o.A), round2(2*o.B)
	case unroll.ByCircumference:
		in.CircumferenceMM, in.Ratio = round2(o.Circumference()), math.Round(1000*o.A/o.B)/1000
	case unroll.ByWrist:
		in.Ratio = math.Round(1000*o.A/o.B) / 1000
		in.EaseMM = 10
		in.WristMM = round2(o.Circumference() - in.EaseMM)
	case unroll.BySize:
		if s := scalesOf(*d); len(s) > 0 {
			in.Scale = s[0].Key
		}
		in.Size = nearestSize(in.Scale, o.Circumference())
	}
	d.Band.Inside = in
}

// oval returns the inside of the design's band.
func oval(d pattern.Design) (unroll.Oval, error) {
	f, err := unroll.Unroll(d.Band)
	return f.Oval, err
}
