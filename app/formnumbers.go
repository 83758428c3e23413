package app

import (
	"fretband/pattern"
	"fretband/unroll"
)

// FormNumbers are the numbers of the band's finer form: its ends, swell, flare
// and dome, and where its length is taken.
func FormNumbers() []Number {
	point := func(d pattern.Design) bool { return cuff(d) && d.Band.EndShape == unroll.PointEnd }
	return []Number{
		{
			Path: "band.end_corner_mm", Title: "End corners", Unit: "mm", Min: 0, Max: unroll.MaxWidth / 2, Step: 0.5, Places: 2, Low: 0, High: 20,
			Tip:   "The radius at the four corners of a cuff's ends. Sharp corners catch skin and cloth: 1 to 2 mm or more (common practice).",
			Get:   func(d pattern.Design) float64 { return d.Band.EndCornerMM },
			Set:   func(d *pattern.Design, v float64) { d.Band.EndCornerMM = v },
			Shown: func(d pattern.Design) bool { return cuff(d) && d.Band.EndShape == "" },
		},
		{
			Path: "band.end_length_mm", Title: "Point's length", Unit: "mm", Min: unroll.MinTip, Max: unroll.MaxCircumference / 3, Step: 0.5, Places: 2, Low: 5, High: 50,
			Tip:   "From where the end begins to narrow to its tip.",
			Get:   func(d pattern.Design) float64 { return d.Band.EndLengthMM },
			Set:   func(d *pattern.Design, v float64) { d.Band.EndLengthMM = v },
			Shown: point,
		},
		{
			Path: "band.end_radius_mm", Title: "Tip's radius", Unit: "mm", Min: unroll.MinTip, Max: unroll.MaxWidth / 2, Step: 0.1, Places: 2, Low: 0.5, High: 8,
			Tip:   "How blunt the point is: a sharp one snags (common practice).",
			Get:   func(d pattern.Design) float64 { return d.Band.EndRadiusMM },
			Set:   func(d *pattern.Design, v float64) { d.Band.EndRadiusMM = v },
			Shown: point,
		},
		{
			Path: "band.swell_length_mm", Title: "Swell", Unit: "mm", Min: 0, Max: unroll.MaxCircumference, Step: 1, Places: 1,
			Tip:   "The length, about the front, within which the width changes; 0 is the whole band.",
			Get:   func(d pattern.Design) float64 { return d.Band.SwellLengthMM },
			Set:   func(d *pattern.Design, v float64) { d.Band.SwellLengthMM = v },
			Shown: func(d pattern.Design) bool { return d.Band.WidthMM != d.Band.EndWidthMM },
		},
		{
			Path: "band.flare_deg", Title: "Flare", Unit: "\u00b0", Min: -unroll.MaxFlare, Max: unroll.MaxFlare, Step: 0.5, Places: 2, Low: -20, High: 20,
			Tip: "The slope of a conical band, from its axis: positive is wider at the top. The inside must be round.",
			Get: func(d pattern.Design) float64 { return d.Band.FlareDeg },
			Set: func(d *pattern.Design, v float64) { d.Band.FlareDeg = v },
			// A band by its two edges has its flare from them; straight sides and
			// free profiles have none.
			Shown: func(d pattern.Design) bool {
				return d.Band.FlareDeg != 0 || d.Band.Dome == "" && !by(unroll.ByEdges, unroll.BySides, unroll.ByProfile)(d)
			},
		},
		{
			Path: "band.dome_rise_mm", Title: "Rise", Unit: "mm", Min: 0.001, Max: unroll.MaxWidth / 2, Step: 0.1, Places: 3, Low: 0.2, High: 6,
			Tip:   "How far the middle of the section stands above its edges.",
			Get:   func(d pattern.Design) float64 { return d.Band.DomeRiseMM },
			Set:   func(d *pattern.Design, v float64) { d.Band.DomeRiseMM = v },
			Shown: func(d pattern.Design) bool { return d.Band.Dome != "" && d.Band.DomeRadiusMM == 0 },
		},
		{
			Path: "band.dome_radius_mm", Title: "Dome radius", Unit: "mm", Min: unroll.MinDome, Max: unroll.MaxDome, Step: 1, Places: 2,
			Tip:   "The radius of the section's arc.",
			Get:   func(d pattern.Design) float64 { return d.Band.DomeRadiusMM },
			Set:   func(d *pattern.Design, v float64) { d.Band.DomeRadiusMM = v },
			Shown: func(d pattern.Design) bool { return d.Band.Dome != "" && d.Band.DomeRadiusMM != 0 },
		},
		{
			Path: "band.neutral_k", Title: "Neutral line", Unit: "of t", Min: unroll.MinNeutralK, Max: unroll.MaxNeutralK, Step: 0.01, Places: 3,
			Tip: "Where in the thickness the metal neither stretches nor shortens when bent: 0 is the inner face, 1 the outer. 0.5 for bands (R/t above 2).",
			Get: func(d pattern.Design) float64 { return d.Band.NeutralK },
			Set: func(d *pattern.Design, v float64) { d.Band.NeutralK = v },
		},
	}
}
