package app

import (
	"fmt"

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

func cuff(d pattern.Design) bool     { return d.Band.Kind == unroll.Cuff }
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
			Path: "band.gap_share", Title: "Gap", Unit: "of round", Min: 0.001, Max: unroll.MaxGapShare, Step: 0.005, Places: 4, Low: 0.02, High: 0.4,
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
		},
		{
			Path: "band.thickness.mm", Title: "Thickness", Unit: "mm", Min: unroll.MinThickness, Max: unroll.MaxThickness, Step: 0.05, Places: 3, Low: 0.4, High: 3, Gauge: true,
			Tip: "Of the sheet, in mm or as a Brown & Sharpe gauge: type 18 ga. The British SWG is another scale.",
			Get: func(d pattern.Design) float64 {
				if g := d.Band.Thickness.BSGauge; g != 0 {
					return unroll.GaugeMM(g)
				}
				return d.Band.Thickness.MM
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
			Path: "band.end_length_mm", Title: "Point's length", Unit: "mm", Min: 0.5, Max: 150, Step: 0.5, Places: 2, Low: 5, High: 50,
			Tip:   "From where the end begins to narrow to its tip.",
			Get:   func(d pattern.Design) float64 { return d.Band.EndLengthMM },
			Set:   func(d *pattern.Design, v float64) { d.Band.EndLengthMM = v },
			Shown: point,
		},
		{
			Path: "band.end_radius_mm", Title: "Tip's radius", Unit: "mm", Min: 0.1, Max: unroll.MaxWidth / 2, Step: 0.1, Places: 2, Low: 0.5, High: 8,
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
			Tip:   "The slope of a conical band, from its axis: positive is wider at the top. The inside must be round.",
			Get:   func(d pattern.Design) float64 { return d.Band.FlareDeg },
			Set:   func(d *pattern.Design, v float64) { d.Band.FlareDeg = v },
			Shown: func(d pattern.Design) bool { return d.Band.Dome == "" && d.Band.Inside.By != unroll.ByEdges },
		},
		{
			Path: "band.dome_rise_mm", Title: "Rise", Unit: "mm", Min: 0.001, Max: 60, Step: 0.1, Places: 3, Low: 0.2, High: 6,
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

// MetalNumbers are the numbers of the metal.
func MetalNumbers() []Number {
	return []Number{
		{
			Path: "metal.density_g_cm3", Title: "Density", Unit: "g/cm³", Min: pattern.DensityRange.Min, Max: pattern.DensityRange.Max, Step: 0.01, Places: 3,
			Tip:   "Of your own alloy: weight of a piece divided by the water that it pushes aside.",
			Get:   func(d pattern.Design) float64 { return d.Metal.DensityGCM3 },
			Set:   func(d *pattern.Design, v float64) { d.Metal.DensityGCM3 = v },
			Shown: func(d pattern.Design) bool { return d.Metal.Alloy == pattern.OwnAlloy },
		},
		{
			Path: "metal.price_per_g", Title: "Price", Unit: "per g", Min: pattern.PriceRange.Min, Max: pattern.PriceRange.Max, Step: 0.1, Places: 3,
			Tip: "What you pay for a gram, for the cost of the metal left. 0 shows no cost.",
			Get: func(d pattern.Design) float64 { return d.Metal.PricePerG },
			Set: func(d *pattern.Design, v float64) { d.Metal.PricePerG = v },
		},
	}
}

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

// ReserveNumbers are the numbers of reserve i.
func ReserveNumbers(i int) []Number {
	path := func(f string) string { return fmt.Sprintf("reserves[%d].%s", i, f) }
	has := func(d pattern.Design) bool { return i < len(d.Reserves) }
	shape := func(s string) func(pattern.Design) bool {
		return func(d pattern.Design) bool { return has(d) && d.Reserves[i].Shape == s }
	}
	num := func(field, title, tip string, r pattern.Range, step float64, at func(*pattern.Reserve) *float64) Number {
		return Number{
			Path: path(field), Title: title, Unit: "mm", Min: r.Min, Max: r.Max, Step: step, Places: 2, Tip: tip,
			Get: func(d pattern.Design) float64 {
				if !has(d) {
					return 0
				}
				return *at(&d.Reserves[i])
			},
			Set: func(d *pattern.Design, v float64) {
				if has(*d) {
					*d = Clone(*d)
					*at(&d.Reserves[i]) = v
				}
			},
			Shown: has,
		}
	}
	x := num("x_mm", "Along", "From the middle of the blank, to the right.", pattern.PlaceRange, 0.5, func(r *pattern.Reserve) *float64 { return &r.XMM })
	y := num("y_mm", "Across", "From the middle of the blank, upwards.", pattern.PlaceRange, 0.5, func(r *pattern.Reserve) *float64 { return &r.YMM })
	w := num("width_mm", "Diameter", "Of the solid place itself.", pattern.SizeRange, 0.5, func(r *pattern.Reserve) *float64 { return &r.WidthMM })
	w.Shown = shape(pattern.CircleReserve)
	b := num("width_mm", "Length", "Along the band.", pattern.SizeRange, 0.5, func(r *pattern.Reserve) *float64 { return &r.WidthMM })
	b.Shown = shape(pattern.RectangleReserve)
	h := num("height_mm", "Height", "Across the band.", pattern.SizeRange, 0.5, func(r *pattern.Reserve) *float64 { return &r.HeightMM })
	h.Shown = shape(pattern.RectangleReserve)
	m := num("margin_mm", "Margin", "The distance that openings keep from the reserve.", pattern.MarginRange, 0.1, func(r *pattern.Reserve) *float64 { return &r.MarginMM })
	return []Number{x, y, w, b, h, m}
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
