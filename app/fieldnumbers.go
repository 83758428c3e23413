package app

import (
	"fmt"

	"fretband/pattern"
)

// FieldNumbers are the numbers of field i and those of its motif, which are the
// design's at present.
func FieldNumbers(d pattern.Design, i int) []Number {
	path := func(name string) string { return fmt.Sprintf("fields[%d].%s", i, name) }
	has := func(d pattern.Design) bool { return i < len(d.Fields) }
	if !has(d) {
		return nil
	}
	// at has a number read from and written to the field, as long as there is one.
	at := func(n Number, of func(*pattern.Field) float64, set func(*pattern.Field, float64)) Number {
		n.Get = func(d pattern.Design) float64 {
			if !has(d) {
				return 0
			}
			return of(&d.Fields[i])
		}
		n.Set = func(d *pattern.Design, v float64) {
			if has(*d) {
				set(&d.Fields[i], v)
			}
		}
		shown := n.Shown
		n.Shown = func(d pattern.Design) bool { return has(d) && (shown == nil || shown(d)) }
		return n
	}
	ns := []Number{
		at(Number{
			Path: path("rows"), Title: "Rows", Min: pattern.RowsRange.Min, Max: pattern.RowsRange.Max, Step: 1, Whole: true, Low: 1, High: 12, RingLow: 1, RingHigh: 6,
			Tip: "How many rows of openings stand across the band.",
		}, func(f *pattern.Field) float64 { return float64(f.Rows) }, func(f *pattern.Field, v float64) { f.Rows = int(v) }),
		at(Number{
			Path: path("repeats"), Title: "Repeats", Min: pattern.RepeatsRange.Min, Max: pattern.RepeatsRange.Max, Step: 1, Whole: true, Low: 4, High: 60, RingLow: 4, RingHigh: 40,
			Tip: "How often the motif stands along the band. On a closed band it closes exactly.",
		}, func(f *pattern.Field) float64 { return float64(f.Repeats) }, func(f *pattern.Field, v float64) { f.Repeats = int(v) }),
		at(Number{
			Path: path("stagger"), Title: "Stagger", Unit: "repeat", Min: pattern.StaggerRange.Min, Max: pattern.StaggerRange.Max, Step: 0.05, Places: 3, Low: 0, High: 0.5,
			Tip: "How far every other row is moved along, as a share of a repeat: 0.5 is half way, as bricks are laid.",
			Shown: func(d pattern.Design) bool {
				m, ok := pattern.MotifByKey(d.Fields[i].Motif)
				return !ok || !m.Interlock
			},
		}, func(f *pattern.Field) float64 { return f.Stagger }, func(f *pattern.Field, v float64) { f.Stagger = v }),
	}
	m, ok := pattern.MotifByKey(d.Fields[i].Motif)
	if !ok {
		return ns
	}
	for _, own := range m.Numbers {
		key, def := own.Key, own.Default
		ns = append(ns, at(Number{
			Path: path("numbers." + key), Title: capital(own.Title), Unit: own.Unit, Min: own.Min, Max: own.Max,
			Step: stepOf(own.Max - own.Min), Places: placesOf(own.Max - own.Min), Low: own.Min, High: own.Max,
			Tip: fmt.Sprintf("A number of this motif's own. %s", m.What),
		}, func(f *pattern.Field) float64 {
			if v, ok := f.Numbers[key]; ok {
				return v
			}
			return def
		}, func(f *pattern.Field, v float64) {
			if f.Numbers == nil {
				f.Numbers = map[string]float64{}
			}
			f.Numbers[key] = v
		}))
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
