package app

import (
	"fmt"
	"math"

	"fretband/pattern"
	"fretband/unroll/plane"
)

// ReserveShape chooses the shape of reserve i. A drawn shape is among the options
// only while there is one: it comes from a drawing ([OwnReserve]).
func ReserveShape(i int) Choice {
	return Choice{
		Path: fmt.Sprintf("reserves[%d].shape", i), Title: "Shape", Tip: "Of the area that is kept solid.",
		Options: func(d pattern.Design) []Option {
			os := []Option{{pattern.CircleShape, "Circle"}, {pattern.OvalShape, "Oval"}, {pattern.RectangleShape, "Rectangle"}}
			if i < len(d.Reserves) && d.Reserves[i].Shape == pattern.PathShape {
				os = append(os, Option{pattern.PathShape, "Drawn shape"})
			}
			return os
		},
		Get: func(d pattern.Design) string {
			if i >= len(d.Reserves) {
				return ""
			}
			return d.Reserves[i].Shape
		},
		Set: func(d *pattern.Design, key string) {
			if i >= len(d.Reserves) || d.Reserves[i].Shape == key || key == pattern.PathShape {
				return
			}
			*d = Clone(*d)
			r := &d.Reserves[i]
			if r.WidthMM == 0 {
				r.WidthMM, r.HeightMM = 8, 6 // a path as large as it was drawn
			}
			if r.HeightMM == 0 {
				r.HeightMM = r.WidthMM
				if key == pattern.OvalShape {
					r.HeightMM = held(round2(r.WidthMM*0.7), pattern.SizeRange)
				}
			}
			if r.Shape, r.Path = key, ""; key == pattern.CircleShape {
				r.HeightMM, r.TurnDeg = 0, 0
			}
		},
	}
}

// OwnReserve makes path data the shape of reserve i, about its middle and as large as
// it was drawn.
func OwnReserve(i int, path string, drawn plane.Box) Choice {
	c := ReserveShape(i)
	c.Set = func(d *pattern.Design, _ string) {
		if i >= len(d.Reserves) {
			return
		}
		*d = Clone(*d)
		r := &d.Reserves[i]
		r.Shape, r.Path = pattern.PathShape, path
		r.WidthMM, r.HeightMM = held(round2(drawn.W()), pattern.SizeRange), held(round2(drawn.H()), pattern.SizeRange)
	}
	return c
}

// ReserveNote is what reserve i is kept for.
func ReserveNote(i int) Choice {
	return noteChoice(fmt.Sprintf("reserves[%d].note", i), func(d *pattern.Design) *string {
		if i >= len(d.Reserves) {
			return nil
		}
		return &d.Reserves[i].Note
	})
}

// noteChoice is a text of the design, written as it is typed.
func noteChoice(path string, at func(*pattern.Design) *string) Choice {
	return Choice{
		Path: path,
		Get: func(d pattern.Design) string {
			if p := at(&d); p != nil {
				return *p
			}
			return ""
		},
		Set: func(d *pattern.Design, v string) {
			*d = Clone(*d)
			if p := at(d); p != nil {
				*p = v
			}
		},
	}
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
