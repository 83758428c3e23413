package app

import (
	"fmt"

	"fretband/pattern"
)

// PatternNumbers are the numbers of the field and those of its motif.
func PatternNumbers(d pattern.Design) []Number {
	ns := []Number{
		{
			Path: "field.rows", Title: "Rows", Min: pattern.RowsRange.Min, Max: pattern.RowsRange.Max, Step: 1, Whole: true, Low: 1, High: 12, RingLow: 1, RingHigh: 6,
			Tip: "How many rows of openings stand across the band.",
			Get: func(d pattern.Design) float64 { return float64(d.Field.Rows) },
			Set: func(d *pattern.Design, v float64) { d.Field.Rows = int(v) },
		},
		{
			Path: "field.repeats", Title: "Repeats", Min: pattern.RepeatsRange.Min, Max: pattern.RepeatsRange.Max, Step: 1, Whole: true, Low: 4, High: 60, RingLow: 4, RingHigh: 40,
			Tip: "How often the motif stands along the band. On a closed band it closes exactly.",
			Get: func(d pattern.Design) float64 { return float64(d.Field.Repeats) },
			Set: func(d *pattern.Design, v float64) { d.Field.Repeats = int(v) },
		},
		{
			Path: "field.stagger", Title: "Stagger", Unit: "repeat", Min: pattern.StaggerRange.Min, Max: pattern.StaggerRange.Max, Step: 0.05, Places: 3, Low: 0, High: 0.5,
			Tip: "How far every other row is moved along, as a share of a repeat: 0.5 is half way, as bricks are laid.",
			Get: func(d pattern.Design) float64 { return d.Field.Stagger },
			Set: func(d *pattern.Design, v float64) { d.Field.Stagger = v },
			Shown: func(d pattern.Design) bool {
				m, ok := pattern.MotifByKey(d.Field.Motif)
				return !ok || !m.Interlock
			},
		},
		{
			Path: "field.bridge_mm", Title: "Bridge", Unit: "mm", Min: pattern.BridgeRange.Min, Max: pattern.BridgeRange.Max, Step: 0.05, Places: 2, Low: 0.3, High: 4, RingLow: 0.3, RingHigh: 2.5,
			Tip: "The metal between openings. It is a rule: no bridge comes out thinner. At least the sheet's thickness, never under about 0.5 mm in silver or gold (common practice).",
			Get: func(d pattern.Design) float64 { return d.Field.BridgeMM },
			Set: func(d *pattern.Design, v float64) { d.Field.BridgeMM = v },
		},
		{
			Path: "field.rim_mm", Title: "Rim", Unit: "mm", Min: pattern.RimRange.Min, Max: pattern.RimRange.Max, Step: 0.1, Places: 2, Low: 0, High: 10, RingLow: 0, RingHigh: 4,
			Tip: "The solid strip along the edges and a cuff's ends; often 1.5 to 2 mm (common practice).",
			Get: func(d pattern.Design) float64 { return d.Field.RimMM },
			Set: func(d *pattern.Design, v float64) { d.Field.RimMM = v },
		},
		{
			Path: "field.corner_mm", Title: "Corner", Unit: "mm", Min: pattern.CornerRange.Min, Max: pattern.CornerRange.Max, Step: 0.05, Places: 2, Low: 0, High: 3, RingLow: 0, RingHigh: 1.5,
			Tip: "The least radius in the corners of an opening: half the blade's or beam's width at the least.",
			Get: func(d pattern.Design) float64 { return d.Field.CornerMM },
			Set: func(d *pattern.Design, v float64) { d.Field.CornerMM = v },
		},
		{
			Path: "field.smallest_mm", Title: "Smallest", Unit: "mm", Min: pattern.SmallestRange.Min, Max: pattern.SmallestRange.Max, Step: 0.1, Places: 2,
			Tip: "An opening must let a circle of this diameter through, or it is left solid and counted: room for the pilot hole and the blade.",
			Get: func(d pattern.Design) float64 { return d.Field.SmallestMM },
			Set: func(d *pattern.Design, v float64) { d.Field.SmallestMM = v },
		},
	}
	m, ok := pattern.MotifByKey(d.Field.Motif)
	if !ok {
		return ns
	}
	for _, own := range m.Numbers {
		key, def := own.Key, own.Default
		ns = append(ns, Number{
			Path: "field.numbers." + key, Title: capital(own.Title), Unit: own.Unit, Min: own.Min, Max: own.Max,
			Step: stepOf(own.Max - own.Min), Places: placesOf(own.Max - own.Min), Low: own.Min, High: own.Max,
			Tip: fmt.Sprintf("A number of this motif's own. %s", m.What),
			Get: func(d pattern.Design) float64 {
				if v, ok := d.Field.Numbers[key]; ok {
					return v
				}
				return def
			},
			Set: func(d *pattern.Design, v float64) {
				*d = Clone(*d)
				if d.Field.Numbers == nil {
					d.Field.Numbers = map[string]float64{}
				}
				d.Field.Numbers[key] = v
			},
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
