package app

import "fretband/pattern"

// WorkNumbers are what the maker says of his own bench. What is 0 is not reckoned with.
func WorkNumbers() []Number {
	return []Number{
		{
			Path: "work.kerf_mm", Title: "Kerf", Unit: "mm", Min: pattern.KerfRange.Min, Max: pattern.KerfRange.Max, Step: 0.01, Places: 3,
			Tip: "The width that your blade or beam takes. 0 takes the blade's nominal thickness, or 0.1 mm for a laser (memory: ask the shop).",
			Get: func(d pattern.Design) float64 { return d.Work.KerfMM },
			Set: func(d *pattern.Design, v float64) { d.Work.KerfMM = v },
		},
		{
			Path: "work.cut_mm_min", Title: "Cut in a minute", Unit: "mm", Min: pattern.RateRange.Min, Max: pattern.RateRange.Max, Step: 1, Places: 1,
			Tip: "How much you or the shop cut in a minute, in this metal. There is no usual rate: time one piece. 0 gives no time.",
			Get: func(d pattern.Design) float64 { return d.Work.CutMMMin },
			Set: func(d *pattern.Design, v float64) { d.Work.CutMMMin = v },
		},
		{
			Path: "work.opening_min", Title: "To start an opening", Unit: "min", Min: pattern.MinutesRange.Min, Max: pattern.MinutesRange.Max, Step: 0.1, Places: 2,
			Tip: "Minutes to mark, drill and thread one opening, or for the beam to pierce it.",
			Get: func(d pattern.Design) float64 { return d.Work.OpeningMin },
			Set: func(d *pattern.Design, v float64) { d.Work.OpeningMin = v },
		},
		{
			Path: "work.blade_mm", Title: "A blade lasts for", Unit: "mm", Min: pattern.RateRange.Min, Max: pattern.RateRange.Max, Step: 50, Places: 0,
			Tip:   "The length of cut that wears out or breaks a blade at your bench, for how many the band takes.",
			Get:   func(d pattern.Design) float64 { return d.Work.BladeMM },
			Set:   func(d *pattern.Design, v float64) { d.Work.BladeMM = v },
			Shown: func(d pattern.Design) bool { return d.Rules.Process == "" || d.Rules.Process == "saw" },
		},
		{
			Path: "work.hour_price", Title: "Price of an hour", Unit: "per h", Min: pattern.PriceRange.Min, Max: pattern.PriceRange.Max, Step: 1, Places: 2,
			Tip: "Of the bench or the machine, in the metal's currency.",
			Get: func(d pattern.Design) float64 { return d.Work.HourPrice },
			Set: func(d *pattern.Design, v float64) { d.Work.HourPrice = v },
		},
		{
			Path: "work.least_angle_deg", Title: "Least angle of metal", Unit: "\u00b0", Min: pattern.AngleRange.Min, Max: pattern.AngleRange.Max, Step: 1, Places: 1,
			Tip: "Points of metal sharper than this are told. 0 is the usual 30 degrees (common practice).",
			Get: func(d pattern.Design) float64 { return d.Work.LeastAngleDeg },
			Set: func(d *pattern.Design, v float64) { d.Work.LeastAngleDeg = v },
		},
	}
}
