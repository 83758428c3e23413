package app

import "fretband/pattern"

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
