package app

import (
	"fmt"

	"fretband/pattern"
	"fretband/pattern/check"
)

// ProcessChoice says how openings are cut. It changes no other rule.
func ProcessChoice() Choice {
	return Choice{
		Path: "rules.process", Title: "Process", Tip: "How openings are cut. It changes none of your rules: its usual limits for this sheet are told beside them, and findings say where yours go under.",
		Options: func(pattern.Design) []Option {
			os := []Option{{"", "Not settled"}}
			for _, p := range pattern.Processes() {
				os = append(os, Option{p.Key, p.Title})
			}
			return os
		},
		Get: func(d pattern.Design) string { return d.Rules.Process },
		Set: func(d *pattern.Design, key string) { d.Rules.Process = key },
	}
}

// UsualText tells the usual limits of the design's process for sheet of that thickness,
// mm, and whose word they are; both are empty while none is settled.
func UsualText(d pattern.Design, thickness float64) (limits, source string) {
	p, ok := pattern.ProcessByKey(d.Rules.Process)
	if !ok {
		return "", ""
	}
	u := check.UsualOf(p, thickness)
	say := func(v float64) string { return FormatNumber(v, 2) }
	return fmt.Sprintf("Usual for %s mm: bridge %s, corner %s, smallest %s mm.", FormatNumber(thickness, 3), say(u.Bridge), say(u.Corner), say(u.Opening)),
		"Usual limits: " + p.Source + ". They are guides: whoever cuts it decides."
}

// RuleNumbers are what holds for every opening.
func RuleNumbers() []Number {
	return []Number{
		{
			Path: "rules.bridge_mm", Title: "Bridge", Unit: "mm", Min: pattern.BridgeRange.Min, Max: pattern.BridgeRange.Max, Step: 0.05, Places: 2, Low: 0.3, High: 4, RingLow: 0.3, RingHigh: 2.5,
			Tip: "The metal between openings. It is a rule: no bridge comes out thinner. At least the sheet's thickness, never under about 0.5 mm in silver or gold (common practice).",
			Get: func(d pattern.Design) float64 { return d.Rules.BridgeMM },
			Set: func(d *pattern.Design, v float64) { d.Rules.BridgeMM = v },
		},
		{
			Path: "rules.rim_mm", Title: "Rim", Unit: "mm", Min: pattern.RimRange.Min, Max: pattern.RimRange.Max, Step: 0.1, Places: 2, Low: 0, High: 10, RingLow: 0, RingHigh: 4,
			Tip: "The solid strip along the edges and a cuff's ends; often 1.5 to 2 mm (common practice).",
			Get: func(d pattern.Design) float64 { return d.Rules.RimMM },
			Set: func(d *pattern.Design, v float64) { d.Rules.RimMM = v },
		},
		{
			Path: "rules.corner_mm", Title: "Corner", Unit: "mm", Min: pattern.CornerRange.Min, Max: pattern.CornerRange.Max, Step: 0.05, Places: 2, Low: 0, High: 3, RingLow: 0, RingHigh: 1.5,
			Tip: "The least radius in the corners of an opening: half the blade's or beam's width at the least.",
			Get: func(d pattern.Design) float64 { return d.Rules.CornerMM },
			Set: func(d *pattern.Design, v float64) { d.Rules.CornerMM = v },
		},
		{
			Path: "rules.smallest_mm", Title: "Smallest", Unit: "mm", Min: pattern.SmallestRange.Min, Max: pattern.SmallestRange.Max, Step: 0.1, Places: 2,
			Tip: "An opening must let a circle of this diameter through, or it is left solid and counted: room for the pilot hole and the blade.",
			Get: func(d pattern.Design) float64 { return d.Rules.SmallestMM },
			Set: func(d *pattern.Design, v float64) { d.Rules.SmallestMM = v },
		},
	}
}
