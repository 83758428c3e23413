package app

import (
	"fretband/pattern"
	"fretband/pattern/motif"
	"fretband/unroll/plane"
)

// OwnMotif makes path data the motif of field i: one closed curve, as the package
// own writes it.
func OwnMotif(i int, path string) Choice {
	c := ChoiceOf("fields[].motif", i)
	c.Set = func(d *pattern.Design, _ string) {
		if i >= len(d.Fields) {
			return
		}
		*d = Clone(*d)
		changeMotif(d, i, motif.OwnKey, path)
	}
	return c
}

// OwnArea makes path data the area of field i, in a box of that size.
func OwnArea(i int, path string, size plane.Box) Choice {
	c := ChoiceOf("fields[].area.shape", i)
	c.Set = func(d *pattern.Design, _ string) { SetAreaPath(d, i, path, size) }
	return c
}

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
		r.WidthMM, r.HeightMM = pattern.SizeRange.Clamp(hundredths(drawn.W())), pattern.SizeRange.Clamp(hundredths(drawn.H()))
	}
	return c
}
