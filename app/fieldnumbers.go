package app

import (
	"fmt"

	"fretband/pattern"
	"fretband/pattern/motif"
)

// FieldNumbers are all numbers of field i that the design has at present: those of
// its motif, of its grid, its place and its grading.
func FieldNumbers(d pattern.Design, i int) []Number {
	if i < 0 || i >= len(d.Fields) {
		return nil
	}
	ns := append(MotifNumbers(d, i), GridNumbers(i)...)
	ns = append(ns, ArrangeNumbers(i)...)
	ns = append(ns, AreaNumbers(i)...)
	ns = append(ns, GradeBridgeNumber(i))
	for _, c := range Curves() {
		for j := range c.Points(d, i) {
			ns = append(ns, GradeNumbers(c, i, j)...)
		}
	}
	return ns
}

func fieldPath(i int, name string) string { return fmt.Sprintf("fields[%d].%s", i, name) }

// ofField has a number read from and written to field i, as long as there is one.
// The number is shown where shown, if given, says so of the field.
func ofField(i int, n Number, get func(pattern.Field) float64, set func(*pattern.Field, float64), shown func(pattern.Design, pattern.Field) bool) Number {
	has := func(d pattern.Design) bool { return i < len(d.Fields) }
	n.Path = fieldPath(i, n.Path)
	n.Get = func(d pattern.Design) float64 {
		if !has(d) {
			return 0
		}
		return get(d.Fields[i])
	}
	n.Set = func(d *pattern.Design, v float64) {
		if has(*d) {
			*d = Clone(*d)
			set(&d.Fields[i], v)
		}
	}
	n.Shown = func(d pattern.Design) bool { return has(d) && (shown == nil || shown(d, d.Fields[i])) }
	return n
}

// GridNumbers say how often the motif of field i stands, and how its rows lie.
func GridNumbers(i int) []Number {
	return []Number{
		ofField(i, Number{
			Path: "rows", Title: "Rows", Min: pattern.RowsRange.Min, Max: pattern.RowsRange.Max, Step: 1, Whole: true, Low: 1, High: 12, RingLow: 1, RingHigh: 6,
			Tip: "How many rows of openings stand across the field.",
		}, func(f pattern.Field) float64 { return float64(f.Rows) }, func(f *pattern.Field, v float64) { f.Rows = int(v) }, nil),
		ofField(i, Number{
			Path: "repeats", Title: "Repeats", Min: pattern.RepeatsRange.Min, Max: pattern.RepeatsRange.Max, Step: 1, Whole: true, Low: 2, High: 60, RingLow: 2, RingHigh: 40,
			Tip: "How often the motif stands along the field. All round a closed band it closes exactly.",
		}, func(f pattern.Field) float64 { return float64(f.Repeats) }, func(f *pattern.Field, v float64) { f.Repeats = int(v) },
			func(_ pattern.Design, f pattern.Field) bool { return f.PitchMM == 0 }),
		ofField(i, Number{
			Path: "pitch_mm", Title: "Pitch", Unit: "mm", Min: pattern.PitchRange.Min, Max: pattern.PitchRange.Max, Step: 0.1, Places: 2, Low: 1.5, High: 15, RingLow: 0.8, RingHigh: 6,
			Tip: "From one repeat to the next. As many stand along the field as have room; all round a closed band, and where whole ones are fitted, as many as come nearest to it.",
		}, func(f pattern.Field) float64 { return f.PitchMM }, func(f *pattern.Field, v float64) { f.PitchMM = v },
			func(_ pattern.Design, f pattern.Field) bool { return f.PitchMM != 0 }),
		ofField(i, Number{
			Path: "stagger", Title: "Stagger", Unit: "repeat", Min: pattern.StaggerRange.Min, Max: pattern.StaggerRange.Max, Step: 0.05, Places: 3, Low: 0, High: 0.5,
			Tip: "How far every other row is moved along, as a share of a repeat: 0.5 is half way, as bricks are laid.",
		}, func(f pattern.Field) float64 { return f.Stagger }, func(f *pattern.Field, v float64) { f.Stagger = v },
			func(_ pattern.Design, f pattern.Field) bool { return !Interlocks(f) }),
	}
}

// Interlocks reports whether the field's motif fits together in one way only, so
// that its stagger does nothing.
func Interlocks(f pattern.Field) bool {
	m, ok := motif.ByKey(f.Motif)
	return ok && m.Interlock
}

// ArrangeNumbers move and turn the whole of field i, and give it a bridge of its
// own.
func ArrangeNumbers(i int) []Number {
	return []Number{
		ofField(i, Number{
			Path: "phase", Title: "Shift", Unit: "repeat", Min: pattern.PhaseRange.Min, Max: pattern.PhaseRange.Max, Step: 0.05, Places: 3, Low: -0.5, High: 0.5,
			Tip: "Moves the whole field along, as a share of a repeat: 0.5 puts a bridge where the middle of an opening stood.",
		}, func(f pattern.Field) float64 { return f.Phase }, func(f *pattern.Field, v float64) { f.Phase = v }, nil),
		ofField(i, Number{
			Path: "turn_deg", Title: "Turn", Unit: "\u00b0", Min: pattern.TurnRange.Min, Max: pattern.TurnRange.Max, Step: 1, Places: 2, Low: -90, High: 90,
			Tip: "Turns the rows about the middle of the field, anticlockwise. All round a closed band they take the nearest turn at which the pattern closes.",
		}, func(f pattern.Field) float64 { return f.TurnDeg }, func(f *pattern.Field, v float64) { f.TurnDeg = v }, nil),
		ofField(i, Number{
			Path: "bridge_mm", Title: "Own bridge", Unit: "mm", Min: 0, Max: pattern.BridgeRange.Max, Step: 0.05, Places: 2, Low: 0, High: 4, RingLow: 0, RingHigh: 2.5,
			Tip: "A wider bridge for this field alone. 0 keeps to the rule, and where the rule is wider, it holds.",
		}, func(f pattern.Field) float64 { return f.BridgeMM }, func(f *pattern.Field, v float64) {
			if v < pattern.BridgeRange.Min {
				v = 0
			}
			f.BridgeMM = v
		}, nil),
	}
}

// longestUnit is the length of a unit in words that a row still has room for.
const longestUnit = 10

// MotifNumbers are the own numbers of the motif that field i has at present.
func MotifNumbers(d pattern.Design, i int) []Number {
	if i < 0 || i >= len(d.Fields) {
		return nil
	}
	m, ok := MotifOf(d.Fields[i])
	if !ok {
		return nil
	}
	var ns []Number
	for _, own := range m.Numbers {
		key, def, unit, what := own.Key, own.Default, own.Unit, capital(own.Title)
		if len(unit) > longestUnit {
			unit, what = "", what+", "+unit
		}
		ns = append(ns, ofField(i, Number{
			Path: "numbers." + key, Title: capital(own.Title), Unit: unit, Min: own.Min, Max: own.Max,
			Step: stepOf(own.Max - own.Min), Places: placesOf(own.Max - own.Min), Low: own.Min, High: own.Max,
			Tip: fmt.Sprintf("%s: a number of this motif's own. %s", what, m.What),
		}, func(f pattern.Field) float64 {
			if v, ok := f.Numbers[key]; ok {
				return v
			}
			return def
		}, func(f *pattern.Field, v float64) {
			if f.Numbers == nil {
				f.Numbers = map[string]float64{}
			}
			f.Numbers[key] = v
		}, nil))
	}
	return ns
}

func stepOf(span float64) float64 {
	switch {
	case span > 20:
		return 1
	case span > 2:
		return 0.1
	}
	return 0.02
}

func placesOf(span float64) int {
	if span > 20 {
		return 1
	}
	return 3
}

func capital(s string) string {
	if s == "" || s[0] < 'a' || s[0] > 'z' {
		return s
	}
	return string(s[0]-'a'+'A') + s[1:]
}
