package app

import (
	"math"

	"fretband/pattern"
	"fretband/unroll/plane"
)

// OwnReserve makes path data the shape of reserve i, about its middle and as large as
// it was drawn.
func OwnReserve(i int, path string, drawn plane.Box) Choice {
	c := ChoiceOf("reserves[].shape", i)
	c.Set = func(d *pattern.Design, _ string) {
		if i >= len(d.Reserves) {
			return
		}
		*d = Clone(*d)
		r := &d.Reserves[i]
		r.Shape, r.Path = pattern.PathShape, path
		r.WidthMM, r.HeightMM = pattern.SizeRange.Clamp(round2(drawn.W())), pattern.SizeRange.Clamp(round2(drawn.H()))
	}
	return c
}

// NewReserve returns a reserve that a person may start from: a quarter of the
// band's width across, at the middle of the blank.
func NewReserve(shape string, d pattern.Design) pattern.Reserve {
	w := math.Max(2, math.Min(12, math.Round(d.Band.WidthMM/4)))
	r := pattern.Reserve{Shape: shape, WidthMM: w, MarginMM: 1}
	switch shape {
	case pattern.RectangleShape:
		r.WidthMM, r.HeightMM = 2*w, w
	case pattern.OvalShape:
		r.WidthMM, r.HeightMM = 1.5*w, w
	}
	return r
}

// NewEngraving returns an engraving that a person may start from, at the middle of the blank.
func NewEngraving(kind string, d pattern.Design) pattern.Engraving {
	size := math.Max(1, math.Min(3, math.Round(d.Band.WidthMM/6*2)/2))
	m := pattern.Engraving{Kind: kind, MarginMM: usualEngravingMargin}
	switch kind {
	case pattern.LineEngraving:
		m.LengthMM = 8 * size
	case pattern.TextEngraving:
		m.Text, m.HeightMM = "Name", size
	default:
		m.Path = pattern.Say("M%g 0C%g %g %g %g %g 0", -4*size, -2*size, -3*size, 2*size, 3*size, 4*size)
	}
	return m
}
