package app

import (
	"fmt"

	"fretband/pattern"
)

// ReserveNumbers are the numbers of reserve i.
func ReserveNumbers(i int) []Number {
	path := func(f string) string { return fmt.Sprintf("reserves[%d].%s", i, f) }
	has := func(d pattern.Design) bool { return i < len(d.Reserves) }
	shape := func(s string) func(pattern.Design) bool {
		return func(d pattern.Design) bool { return has(d) && d.Reserves[i].Shape == s }
	}
	num := func(field, title, tip string, r pattern.Range, step float64, at func(*pattern.Reserve) *float64) Number {
		return Number{
			Path: path(field), Title: title, Unit: "mm", Min: r.Min, Max: r.Max, Step: step, Places: 2, Tip: tip,
			Get: func(d pattern.Design) float64 {
				if !has(d) {
					return 0
				}
				return *at(&d.Reserves[i])
			},
			Set: func(d *pattern.Design, v float64) {
				if has(*d) {
					*d = Clone(*d)
					*at(&d.Reserves[i]) = v
				}
			},
			Shown: has,
		}
	}
	x := num("x_mm", "Along", "From the middle of the blank, to the right.", pattern.PlaceRange, 0.5, func(r *pattern.Reserve) *float64 { return &r.XMM })
	y := num("y_mm", "Across", "From the middle of the blank, upwards.", pattern.PlaceRange, 0.5, func(r *pattern.Reserve) *float64 { return &r.YMM })
	w := num("width_mm", "Diameter", "Of the solid place itself.", pattern.SizeRange, 0.5, func(r *pattern.Reserve) *float64 { return &r.WidthMM })
	w.Shown = shape(pattern.CircleShape)
	b := num("width_mm", "Length", "Along the band.", pattern.SizeRange, 0.5, func(r *pattern.Reserve) *float64 { return &r.WidthMM })
	b.Shown = shape(pattern.RectangleShape)
	h := num("height_mm", "Height", "Across the band.", pattern.SizeRange, 0.5, func(r *pattern.Reserve) *float64 { return &r.HeightMM })
	h.Shown = shape(pattern.RectangleShape)
	m := num("margin_mm", "Margin", "The distance that openings keep from the reserve.", pattern.MarginRange, 0.1, func(r *pattern.Reserve) *float64 { return &r.MarginMM })
	return []Number{x, y, w, b, h, m}
}
