package app

import (
	"fmt"

	"fretband/pattern"
)

// ReserveNumbers are the numbers of reserve i.
func ReserveNumbers(i int) []Number {
	path := func(f string) string { return fmt.Sprintf("reserves[%d].%s", i, f) }
	shown := func(when func(pattern.Reserve) bool) func(pattern.Design) bool {
		return func(d pattern.Design) bool { return i < len(d.Reserves) && when(d.Reserves[i]) }
	}
	always := func(pattern.Reserve) bool { return true }
	num := func(field, title, tip string, r pattern.Range, step float64, at func(*pattern.Reserve) *float64, when func(pattern.Reserve) bool) Number {
		return Number{
			Path: path(field), Title: title, Unit: "mm", Min: r.Min, Max: r.Max, Step: step, Places: 2, Tip: tip,
			Get: func(d pattern.Design) float64 {
				if i >= len(d.Reserves) {
					return 0
				}
				return *at(&d.Reserves[i])
			},
			Set: func(d *pattern.Design, v float64) {
				if i < len(d.Reserves) {
					*d = Clone(*d)
					*at(&d.Reserves[i]) = v
				}
			},
			Shown: shown(when),
		}
	}
	circle := func(r pattern.Reserve) bool { return r.Shape == pattern.CircleShape }
	sized := func(r pattern.Reserve) bool { return !circle(r) && r.WidthMM > 0 }
	width := func(r *pattern.Reserve) *float64 { return &r.WidthMM }
	turn := num("turn_deg", "Turn", "Anticlockwise, about its middle.", pattern.TurnRange, 5, func(r *pattern.Reserve) *float64 { return &r.TurnDeg }, func(r pattern.Reserve) bool { return !circle(r) })
	turn.Unit = "\u00b0"
	return []Number{
		num("x_mm", "Along", "From the middle of the blank, to the right. Of a row: its middle.", pattern.PlaceRange, 0.5, func(r *pattern.Reserve) *float64 { return &r.XMM }, always),
		num("y_mm", "Across", "From the middle of the blank, upwards.", pattern.PlaceRange, 0.5, func(r *pattern.Reserve) *float64 { return &r.YMM }, always),
		num("width_mm", "Diameter", "Of the solid place itself.", pattern.SizeRange, 0.5, width, circle),
		num("width_mm", "Length", "Along the band, before it is turned.", pattern.SizeRange, 0.5, width, sized),
		num("height_mm", "Height", "Across the band, before it is turned.", pattern.SizeRange, 0.5, func(r *pattern.Reserve) *float64 { return &r.HeightMM }, sized),
		turn,
		num("margin_mm", "Margin", "The distance that openings keep from the reserve.", pattern.MarginRange, 0.1, func(r *pattern.Reserve) *float64 { return &r.MarginMM }, always),
		reserveCount(i),
		num("spacing_mm", "Spacing", "From middle to middle, along the band. 0 spreads them evenly round a closed band, and along an open one.", pattern.SpacingRange, 0.5,
			func(r *pattern.Reserve) *float64 { return &r.SpacingMM }, func(r pattern.Reserve) bool { return r.Count > 1 }),
	}
}

// reserveCount is how many stand in a row. One is kept as no row at all.
func reserveCount(i int) Number {
	return Number{
		Path: fmt.Sprintf("reserves[%d].count", i), Title: "In a row", Unit: "", Min: 1, Max: pattern.CountRange.Max, Step: 1, Whole: true,
		Tip: "How many stand in a row along the band, as stones do. 1 is a single one.",
		Get: func(d pattern.Design) float64 {
			if i >= len(d.Reserves) {
				return 1
			}
			return float64(max(1, d.Reserves[i].Count))
		},
		Set: func(d *pattern.Design, v float64) {
			if i >= len(d.Reserves) {
				return
			}
			*d = Clone(*d)
			r := &d.Reserves[i]
			was := r.Count
			if r.Count = int(v); r.Count == 1 {
				r.Count, r.SpacingMM = 0, 0
			} else if was <= 1 && r.SpacingMM == 0 { // a row that can be seen as one
				r.SpacingMM = held(round2(r.WidthMM+2*r.MarginMM+1), pattern.SpacingRange)
			}
		},
		Shown: func(d pattern.Design) bool { return i < len(d.Reserves) },
	}
}
