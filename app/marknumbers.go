package app

import (
	"fmt"

	"fretband/pattern"
)

// MarkNumbers are the numbers of mark i.
func MarkNumbers(i int) []Number {
	num := func(field, title, tip string, r pattern.Range, step float64, at func(*pattern.Mark) *float64, when func(pattern.Mark) bool) Number {
		return Number{
			Path: fmt.Sprintf("marks[%d].%s", i, field), Title: title, Unit: "mm", Min: r.Min, Max: r.Max, Step: step, Places: 2, Tip: tip,
			Get: func(d pattern.Design) float64 {
				if i >= len(d.Marks) {
					return 0
				}
				return *at(&d.Marks[i])
			},
			Set: func(d *pattern.Design, v float64) {
				if i < len(d.Marks) {
					*d = Clone(*d)
					*at(&d.Marks[i]) = v
				}
			},
			Shown: func(d pattern.Design) bool { return i < len(d.Marks) && when(d.Marks[i]) },
		}
	}
	always := func(pattern.Mark) bool { return true }
	of := func(kind string) func(pattern.Mark) bool {
		return func(m pattern.Mark) bool { return m.Kind == kind }
	}
	turn := num("turn_deg", "Turn", "Anticlockwise.", pattern.TurnRange, 5, func(m *pattern.Mark) *float64 { return &m.TurnDeg }, always)
	turn.Unit = "\u00b0"
	away := pattern.KeepRange
	away.Min = 0
	return []Number{
		num("x_mm", "Along", "Of its middle, from the middle of the blank, to the right.", pattern.PlaceRange, 0.5, func(m *pattern.Mark) *float64 { return &m.XMM }, always),
		num("y_mm", "Across", "Of its middle, from the middle of the blank, upwards.", pattern.PlaceRange, 0.5, func(m *pattern.Mark) *float64 { return &m.YMM }, always),
		num("length_mm", "Length", "From end to end.", pattern.LengthRange, 0.5, func(m *pattern.Mark) *float64 { return &m.LengthMM }, of(pattern.LineMark)),
		num("height_mm", "Capitals", "The height of a capital letter.", pattern.LetterRange, 0.1, func(m *pattern.Mark) *float64 { return &m.HeightMM }, of(pattern.TextMark)),
		turn,
		num("keep_mm", "Distance", "How far openings stay away from the lines; from a text, from the box round it. A bridge is left there at least.", away, 0.1,
			func(m *pattern.Mark) *float64 { return &m.KeepMM }, func(m pattern.Mark) bool { return m.KeepMM >= 0 }),
	}
}
