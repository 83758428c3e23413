package app

import (
	"math"

	"fretband/pattern"
)

// ReserveShape chooses the shape of reserve i.
func ReserveShape(i int) Choice {
	return Choice{
		Path: "shape", Title: "Shape", Tip: "Of the area that is kept solid.",
		Options: func(pattern.Design) []Option {
			return []Option{{pattern.CircleShape, "Circle"}, {pattern.RectangleShape, "Rectangle"}}
		},
		Get: func(d pattern.Design) string {
			if i >= len(d.Reserves) {
				return ""
			}
			return d.Reserves[i].Shape
		},
		Set: func(d *pattern.Design, key string) {
			if i >= len(d.Reserves) {
				return
			}
			*d = Clone(*d)
			r := &d.Reserves[i]
			if r.Shape == key {
				return
			}
			r.Shape, r.HeightMM = key, 0
			if key == pattern.RectangleShape {
				r.HeightMM = r.WidthMM
			}
		},
	}
}

// NewReserve returns a reserve that a person may start from: a quarter of the
// band's width across, at the middle of the blank.
func NewReserve(shape string, d pattern.Design) pattern.Reserve {
	w := math.Max(2, math.Min(12, math.Round(d.Band.WidthMM/4)))
	r := pattern.Reserve{Shape: shape, WidthMM: w, MarginMM: 1}
	if shape == pattern.RectangleShape {
		r.WidthMM, r.HeightMM = 2*w, w
	}
	return r
}
