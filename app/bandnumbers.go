package app

import (
	"fretband/pattern"
	"fretband/unroll"
)

func by(ways ...string) func(pattern.Design) bool {
	return func(d pattern.Design) bool {
		for _, w := range ways {
			if d.Band.Inside.By == w {
				return true
			}
		}
		return false
	}
}

func cuff(d pattern.Design) bool { return d.Band.Kind == unroll.Cuff }

func soldered(d pattern.Design) bool { return d.Band.Joint == unroll.Soldered }

// BandNumbers are the numbers of the band, in the order a person reads them.
// Limits are those of the core; where it has none that stand still (a gap
// depends on the circumference) they are wider and the core decides.
func BandNumbers() []Number {
	return []Number{
		{
			Path: "band.inside.width_mm", Title: "Inside width", Unit: "mm", Min: unroll.MinInside, Max: unroll.MaxInside, Step: 0.5, Places: 2,
			Tip:   "Across the wrist or finger, inner face to inner face.",
			Get:   func(d pattern.Design) float64 { return d.Band.Inside.WidthMM },
			Set:   func(d *pattern.Design, v float64) { d.Band.Inside.WidthMM = v },
			Shown: by(unroll.ByAxes, unroll.BySides),
		},
		{
			Path: "band.inside.height_mm", Title: "Inside height", Unit: "mm", Min: unroll.MinInside, Max: unroll.MaxInside, Step: 0.5, Places: 2,
			Tip:   "From the front of the band to its back, inner face to inner face. Equal to the width for a round band.",
			Get:   func(d pattern.Design) float64 { return d.Band.Inside.HeightMM },
			Set:   func(d *pattern.Design, v float64) { d.Band.Inside.HeightMM = v },
			Shown: by(unroll.ByAxes, unroll.BySides),
		},
		{
			Path: "band.inside.circumference_mm", Title: "Inside round", Unit: "mm", Min: unroll.MinCircumference, Max: unroll.MaxCircumference, Step: 1, Places: 2,
			Tip:   "The inner circumference. A cuff's gap counts as part of it.",
			Get:   func(d pattern.Design) float64 { return d.Band.Inside.CircumferenceMM },
			Set:   func(d *pattern.Design, v float64) { d.Band.Inside.CircumferenceMM = v },
			Shown: by(unroll.ByCircumference),
		},
		{
			Path: "band.inside.wrist_mm", Title: "Wrist", Unit: "mm", Min: unroll.MinWrist, Max: unroll.MaxWrist, Step: 1, Places: 1,
			Tip:   "A strip of paper round the wrist, where the band will sit.",
			Get:   func(d pattern.Design) float64 { return d.Band.Inside.WristMM },
			Set:   func(d *pattern.Design, v float64) { d.Band.Inside.WristMM = v },
			Shown: by(unroll.ByWrist),
		},
		{
			Path: "band.inside.ease_mm", Title: "Ease", Unit: "mm", Min: unroll.MinEase, Max: unroll.MaxEase, Step: 1, Places: 1,
			Tip:   "How much rounder than the wrist the band is, so that it moves and does not pinch.",
			Get:   func(d pattern.Design) float64 { return d.Band.Inside.EaseMM },
			Set:   func(d *pattern.Design, v float64) { d.Band.Inside.EaseMM = v },
			Shown: by(unroll.ByWrist),
		},
		{
			Path: "band.inside.ratio", Title: "Ratio", Unit: ": 1", Min: unroll.MinRatio, Max: unroll.MaxRatio, Step: 0.05, Places: 3,
			Tip:   "How oval the inside is: 1 is round, 1.3 suits most wrists (common practice).",
			Get:   func(d pattern.Design) float64 { return d.Band.Inside.Ratio },
			Set:   func(d *pattern.Design, v float64) { d.Band.Inside.Ratio = v },
			Shown: by(unroll.ByCircumference, unroll.ByWrist),
		},
		{
			Path: "band.gap_mm", Title: "Gap", Unit: "mm", Min: 0, Max: unroll.MaxCircumference / 2, Step: 0.5, Places: 1, Low: 0, High: 60,
			Tip:   "The opening at the back of a cuff, measured along its inside: wide enough for the narrow side of the wrist.",
			Get:   func(d pattern.Design) float64 { return d.Band.GapMM },
			Set:   func(d *pattern.Design, v float64) { d.Band.GapMM = v },
			Shown: func(d pattern.Design) bool { return cuff(d) && d.Band.GapShare == 0 },
		},
		{
			Path: "band.gap_share", Title: "Gap", Unit: "of round", Min: leastGapShare, Max: unroll.MaxGapShare, Step: 0.005, Places: 4, Low: 0.02, High: 0.4,
			Tip:   "The opening at the back of a cuff, as a share of its inner circumference.",
			Get:   func(d pattern.Design) float64 { return d.Band.GapShare },
			Set:   func(d *pattern.Design, v float64) { d.Band.GapShare = v },
			Shown: func(d pattern.Design) bool { return cuff(d) && d.Band.GapShare != 0 },
		},
		{
			Path: "band.inside.top_circumference_mm", Title: "Round, top", Unit: "mm", Min: unroll.MinCircumference, Max: unroll.MaxCircumference, Step: 1, Places: 2,
			Tip:   "The inner circumference of a flared band at its upper edge.",
			Get:   func(d pattern.Design) float64 { return d.Band.Inside.TopMM },
			Set:   func(d *pattern.Design, v float64) { d.Band.Inside.TopMM = v },
			Shown: by(unroll.ByEdges),
		},
		{
			Path: "band.inside.bottom_circumference_mm", Title: "Round, bottom", Unit: "mm", Min: unroll.MinCircumference, Max: unroll.MaxCircumference, Step: 1, Places: 2,
			Tip:   "The inner circumference of a flared band at its lower edge.",
			Get:   func(d pattern.Design) float64 { return d.Band.Inside.BottomMM },
			Set:   func(d *pattern.Design, v float64) { d.Band.Inside.BottomMM = v },
			Shown: by(unroll.ByEdges),
		},
		{
			Path: "band.width_mm", Title: "Width", Unit: "mm", Min: unroll.MinWidth, Max: unroll.MaxWidth, Step: 0.5, Places: 2, Low: 6, High: 70, RingLow: 2, RingHigh: 20,
			Tip: "How broad the band is at its front, edge to edge.",
			Get: func(d pattern.Design) float64 { return d.Band.WidthMM },
			Set: func(d *pattern.Design, v float64) {
				// A band of constant width stays one.
				if d.Band.EndWidthMM == d.Band.WidthMM {
					d.Band.EndWidthMM = v
				}
				d.Band.WidthMM = v
			},
		},
		{
			Path: "band.end_width_mm", Title: "Width at ends", Unit: "mm", Min: unroll.MinWidth, Max: unroll.MaxWidth, Step: 0.5, Places: 2, Low: 6, High: 70, RingLow: 2, RingHigh: 20,
			Tip: "How broad the band is at its ends or back; smaller than the width for a tapering band.",
			Get: func(d pattern.Design) float64 { return d.Band.EndWidthMM },
			Set: func(d *pattern.Design, v float64) { d.Band.EndWidthMM = v },
			// The edges of a band given by them are circles.
			Shown: func(d pattern.Design) bool { return d.Band.Inside.By != unroll.ByEdges },
		},
		{
			Path: "band.thickness.mm", Title: "Thickness", Unit: "mm", Min: unroll.MinThickness, Max: unroll.MaxThickness, Step: 0.05, Places: 3, Low: 0.4, High: 3, Gauge: true,
			Tip: "Of the sheet, in mm or by a gauge: type 18 ga for Brown & Sharpe (American), 18 swg for the Imperial (British) gauge. They differ: 18 is 1.02 or 1.22 mm.",
			Get: func(d pattern.Design) float64 {
				switch t := d.Band.Thickness; {
				case t.BSGauge != 0:
					return unroll.GaugeMM(t.BSGauge)
				case t.ImperialGauge != 0:
					return unroll.ImperialGaugeMM(t.ImperialGauge)
				default:
					return t.MM
				}
			},
			Set: func(d *pattern.Design, v float64) { d.Band.Thickness = unroll.Thickness{MM: v} },
		},
		{
			Path: "band.joint_mm", Title: "Joint strip", Unit: "mm", Min: unroll.MinJoint, Max: unroll.MaxJoint, Step: 0.5, Places: 2,
			Tip:   "The length that stays solid where the ends are soldered, both sides together.",
			Get:   func(d pattern.Design) float64 { return d.Band.JointMM },
			Set:   func(d *pattern.Design, v float64) { d.Band.JointMM = v },
			Shown: func(d pattern.Design) bool { return !cuff(d) && soldered(d) },
		},
	}
}
