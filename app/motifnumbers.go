package app

import (
	"fmt"

	"fretband/pattern"
	"fretband/pattern/motif"
	"fretband/unroll/plane"
)

// MotifOf returns the motif of a field and whether there is one. That of a person's
// own shape has the numbers that every shape has, whatever its path.
func MotifOf(f pattern.Field) (motif.Motif, bool) {
	if f.Motif != motif.OwnKey {
		return motif.ByKey(f.Motif)
	}
	m, err := motif.Own(plane.Circle(plane.Point{}, 1), false)
	return m, err == nil
}

// MotifTitle returns what a person calls the field's motif.
func MotifTitle(f pattern.Field) string {
	if f.Motif == motif.OwnKey {
		return pattern.OwnTitle
	}
	if m, ok := motif.ByKey(f.Motif); ok {
		return m.Title
	}
	return f.Motif
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
		unit, what := own.Unit, capital(own.Title)
		if len(unit) > longestUnit {
			unit, what = "", what+", "+unit
		}
		r := pattern.Range{Min: own.Min, Max: own.Max}
		ns = append(ns, Number{
			Entry: pattern.Entry{
				Unit: unit, Range: r, Slider: r, Step: stepOf(own.Max - own.Min), Decimals: decimalsOf(own.Max - own.Min),
				Tip: fmt.Sprintf("%s: a number of this motif's own. %s", what, m.What),
			},
			Path: fieldPath(i, "numbers."+own.Key), Title: capital(own.Title),
			Get: func(d pattern.Design) float64 {
				if i < len(d.Fields) {
					if v, ok := d.Fields[i].Numbers[own.Key]; ok {
						return v
					}
				}
				return own.Default
			},
			Set: func(d *pattern.Design, v float64) {
				if i >= len(d.Fields) {
					return
				}
				*d = Clone(*d)
				f := &d.Fields[i]
				if f.Numbers == nil {
					f.Numbers = map[string]float64{}
				}
				f.Numbers[own.Key] = v
			},
			Shown: func(d pattern.Design) bool { return i < len(d.Fields) },
		})
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

func decimalsOf(span float64) int {
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

func fieldPath(i int, name string) string { return fmt.Sprintf("fields[%d].%s", i, name) }
