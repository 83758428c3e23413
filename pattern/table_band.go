package pattern

import "fretband/unroll"

// The band's values. What they may be together, [unroll] decides and says; where its limits
// depend on other numbers, as a gap's on the circumference, the ranges here are wider.

// insideBy says of designs whose inside is given in one of those ways.
func insideBy(ways ...string) func(*Design, At) bool {
	return is(func(d *Design, _ At) string { return d.Band.Inside.By }, ways...)
}

func isCuff(d *Design, _ At) bool { return d.Band.Open() }

// bandEntries are the band's size, width and thickness.
func bandEntries() []Entry {
	return append([]Entry{
		{Path: "band", Doc: "the band as it is worn:", Rule: func(d *Design, _ At) error { return d.Band.Check() }},
		{
			Path: "band.kind", Group: BandGroup, Title: "Kind",
			Tip:     "A cuff is open at the back; a bangle goes over the hand; a ring goes on a finger.",
			Doc:     `"cuff" (open), "bangle" or "ring" (both closed)`,
			Options: []Option{{unroll.Cuff, "Cuff, open"}, {unroll.Bangle, "Bangle, closed"}, {unroll.Ring, "Ring"}},
		},
		{Path: "band.inside", Doc: `the inner oval; "by" says which other fields are given:`},
		{
			Path: "band.inside.by", Group: BandGroup, Title: "Inside by",
			Tip: "How you know the size: measured across, round the inside, round the wrist, or as a trade size.",
			Options: []Option{
				{unroll.ByAxes, "Width and height"}, {unroll.BySides, "Straight sides"}, {unroll.ByCircumference, "Circumference"}, {unroll.ByWrist, "Wrist and ease"},
				{unroll.BySize, "Trade size"}, {unroll.ByEdges, "Its two edges, flared"}, {unroll.ByProfile, "A free profile"},
			},
			Without: func(d *Design, _ At, key string) bool {
				return key == unroll.ByWrist && d.Band.OnFinger() || key == unroll.BySize && d.Band.Open()
			},
		},
		{
			Path: "band.inside.scale", Group: BandGroup, Title: "Scale",
			Tip: "Whose sizes these are. A bare number is never guessed.",
			Doc: `by size: "iso", "us", "uk", "jp", "it" for rings, "bangle" for bangles`,
			Offer: func(d *Design, _ At) []Option {
				var os []Option
				for _, s := range unroll.Scales() {
					if s.Kind == d.Band.Kind {
						os = append(os, Option{s.Key, s.Name})
					}
				}
				return os
			},
			For: insideBy(unroll.BySize),
		},
		{
			Path: "band.inside.size", Group: BandGroup, Title: "Size",
			Tip: "On that scale. The inside is round.",
			Doc: `by size: text, as "54", "7 1/2", "N 1/2", "13", "2-4"`,
			Offer: func(d *Design, _ At) []Option {
				in := d.Band.Inside
				var os []Option
				known := false
				for _, s := range unroll.Sizes(in.Scale) {
					os = append(os, Option{s, s})
					known = known || s == in.Size
				}
				if !known { // a quarter size, or another spelling
					os = append([]Option{{in.Size, in.Size}}, os...)
				}
				return os
			},
			For: insideBy(unroll.BySize),
		},
		{
			Path: "band.gap", Group: BandGroup, Title: "Gap by",
			Tip:     "How the gap of a cuff is given: by its width, or as a share of the inner circumference, so that it grows with the band.",
			Options: []Option{{"width", "Its width"}, {"share", "Share of the round"}},
			For:     isCuff,
		},
		{
			Path: "band.joint", Group: BandGroup, Title: "Closed by",
			Tip:     "Soldered from sheet, a strip at the joint stays solid. Seamless, from tube or cast, openings may run over it.",
			Doc:     "bangle or ring: {}",
			Options: []Option{{unroll.Soldered, "Soldered joint"}, {unroll.Seamless, "Seamless"}},
			Without: func(d *Design, _ At, key string) bool { // a flared band has a joint
				return key == unroll.Seamless && d.Band.Joint != key && (d.Band.FlareDeg != 0 || d.Band.Inside.By == unroll.ByEdges)
			},
			For: func(d *Design, at At) bool { return !isCuff(d, at) },
		},
		{
			Path: "band.inside.width_mm", Group: BandGroup, Title: "Inside width", Unit: "mm", Range: Range{unroll.MinInside, unroll.MaxInside}, Step: 0.5, Decimals: 2,
			Tip: "Across the wrist or finger, inner face to inner face.",
			Doc: "by axes or sides: {}, along the wrist's width",
			For: insideBy(unroll.ByAxes, unroll.BySides),
		},
		{
			Path: "band.inside.height_mm", Group: BandGroup, Title: "Inside height", Unit: "mm", Range: Range{unroll.MinInside, unroll.MaxInside}, Step: 0.5, Decimals: 2, Hundred: func(d *Design, _ At) float64 { return d.Band.Inside.WidthMM },
			Tip: "From the front of the band to its back, inner face to inner face. Equal to the width for a round band.",
			Doc: "by axes or sides: {}, a quarter to four times the width; by sides the inside is two half circles and two straight runs",
			For: insideBy(unroll.ByAxes, unroll.BySides),
		},
		{
			Path: "band.inside.circumference_mm", Group: BandGroup, Title: "Inside round", Unit: "mm", Range: Range{unroll.MinCircumference, unroll.MaxCircumference}, Step: 1, Decimals: 2,
			Tip: "The inner circumference. A cuff's gap counts as part of it.",
			Doc: "by circumference: {}, inside, gap and metal together",
			For: insideBy(unroll.ByCircumference),
		},
		{
			Path: "band.inside.wrist_mm", Group: BandGroup, Title: "Wrist", Unit: "mm", Range: Range{unroll.MinWrist, unroll.MaxWrist}, Step: 1, Decimals: 1,
			Tip: "A strip of paper round the wrist, where the band will sit.",
			Doc: "by wrist: {}, round the wrist",
			For: insideBy(unroll.ByWrist),
		},
		{
			Path: "band.inside.ease_mm", Group: BandGroup, Title: "Ease", Unit: "mm", Range: Range{unroll.MinEase, unroll.MaxEase}, Step: 1, Decimals: 1,
			Tip: "How much rounder than the wrist the band is, so that it moves and does not pinch.",
			Doc: "by wrist: {}, added to the wrist; 0 if left out",
			For: insideBy(unroll.ByWrist),
		},
		{
			Path: "band.inside.ratio", Group: BandGroup, Title: "Ratio", Unit: ": 1", Range: Range{unroll.MinRatio, unroll.MaxRatio}, Step: 0.05, Decimals: 3,
			Tip: "How oval the inside is: 1 is round, 1.3 suits most wrists (common practice).",
			Doc: "by circumference or wrist: width : height, {}, 1 is round",
			For: insideBy(unroll.ByCircumference, unroll.ByWrist),
		},
		{
			Path: "band.gap_mm", Group: BandGroup, Title: "Gap", Unit: "mm", Range: Range{0, unroll.MaxCircumference / 2}, Step: 0.5, Decimals: 1, Slider: Range{0, 60},
			Tip: "The opening at the back of a cuff, measured along its inside: wide enough for the narrow side of the wrist.",
			Doc: "cuff: 0 to less than half the inner circumference, measured inside",
			For: func(d *Design, at At) bool { return isCuff(d, at) && d.Band.GapShare == 0 },
		},
		{
			Path: "band.gap_share", Group: BandGroup, Title: "Gap", Unit: "of round", Range: Range{LeastGapShare, unroll.MaxGapShare}, Optional: true, Step: 0.005, Decimals: 4, Slider: Range{0.02, 0.4}, Hundred: one,
			Tip:   "The opening at the back of a cuff, as a share of its inner circumference.",
			Doc:   "cuff, instead of gap_mm: 0 to less than 0.5 of that circumference",
			For:   isCuff,
			Shown: func(d *Design, at At) bool { return isCuff(d, at) && d.Band.GapShare != 0 },
		},
		{
			Path: "band.inside.top_circumference_mm", Group: BandGroup, Title: "Round, top", Unit: "mm", Range: Range{unroll.MinCircumference, unroll.MaxCircumference}, Step: 1, Decimals: 2,
			Tip: "The inner circumference of a flared band at its upper edge.",
			Doc: "by edges, for a flared band of constant width: {}, inside",
			For: insideBy(unroll.ByEdges),
		},
		{
			Path: "band.inside.bottom_circumference_mm", Group: BandGroup, Title: "Round, bottom", Unit: "mm", Range: Range{unroll.MinCircumference, unroll.MaxCircumference}, Step: 1, Decimals: 2,
			Tip: "The inner circumference of a flared band at its lower edge.",
			Doc: "by edges: {}, inside",
			For: insideBy(unroll.ByEdges),
		},
		{
			Path: "band.width_mm", Group: BandGroup, Title: "Width", Unit: "mm", Range: Range{unroll.MinWidth, unroll.MaxWidth}, Step: 0.5, Decimals: 2, Slider: Range{6, 70}, RingSlider: Range{2, 20},
			Tip: "How broad the band is at its front, edge to edge.",
			Doc: "{}, at the middle",
		},
		{
			Path: "band.end_width_mm", Group: BandGroup, Title: "Width at ends", Unit: "mm", Range: Range{unroll.MinWidth, unroll.MaxWidth}, Step: 0.5, Decimals: 2, Slider: Range{6, 70}, RingSlider: Range{2, 20}, Hundred: func(d *Design, _ At) float64 { return d.Band.WidthMM },
			Tip: "How broad the band is at its ends or back; smaller than the width for a tapering band.",
			Doc: "{}, at the ends; equal to width_mm for a constant width",
			// The edges of a band given by them are circles.
			Shown: func(d *Design, _ At) bool { return d.Band.Inside.By != unroll.ByEdges },
		},
		{Path: "band.thickness", Title: "Thickness", Doc: "of the sheet, one of:"},
		{
			Path: "band.thickness.mm", Group: BandGroup, Title: "Thickness", Unit: "mm", Range: Range{unroll.MinThickness, unroll.MaxThickness}, Step: 0.05, Decimals: 3, Slider: Range{0.4, 3}, Gauge: true,
			Tip: "Of the sheet, in mm or by a gauge: type 18 ga for Brown & Sharpe (American), 18 swg for the Imperial (British) gauge. They differ: 18 is 1.02 or 1.22 mm.",
		},
		{
			Path: "band.thickness.bs_gauge", Title: "Thickness", Range: Range{unroll.MinGauge, unroll.MaxGauge}, Optional: true,
			Doc: "Brown & Sharpe gauge, {}",
		},
		{
			Path: "band.thickness.imperial_gauge", Title: "Thickness", Range: Range{unroll.MinImperialGauge, unroll.MaxImperialGauge}, Optional: true,
			Doc: "Imperial (British standard wire) gauge, {}",
		},
		{
			Path: "band.joint_mm", Group: BandGroup, Title: "Joint strip", Unit: "mm", Range: Range{unroll.MinJoint, unroll.MaxJoint}, Step: 0.5, Decimals: 2,
			Tip: "The length that stays solid where the ends are soldered, both sides together.",
			Doc: "soldered: {}, the strip kept solid, both sides together",
			For: func(d *Design, at At) bool { return !isCuff(d, at) && d.Band.Joint == unroll.Soldered },
		},
	}, profileEntries()...)
}

// LeastGapShare is the least share of a gap that can be told from none given.
const LeastGapShare = 0.001

// profileEntries are the pieces of a free profile: straight runs and arcs.
func profileEntries() []Entry {
	run := func(d *Design, at At) bool { return d.Band.Inside.Profile[at[0]].Straight() }
	arc := func(d *Design, at At) bool { return !run(d, at) }
	return []Entry{
		{
			Path: "band.inside.profile", Title: "The profile", Most: unroll.MaxPieces,
			Doc: "by profile: list of 2 to {} pieces from the front round the band, in the sense of the flat's x; they run into each other without corners, turn through 360 degrees in all (within 0.05) and come back to the front (within 0.05 mm; what is missing is shared out):",
		},
		{
			Path: "band.inside.profile[]", Group: ProfileGroup, Title: "Piece #",
			Tip:     "A straight run or an arc. Pieces follow each other from the front round the band, without corners.",
			Options: []Option{{"run", "Straight"}, {"arc", "Arc"}},
		},
		{
			Path: "band.inside.profile[].length_mm", Group: ProfileGroup, Title: "Piece #, length", Unit: "mm", Range: Range{unroll.MinPiece, unroll.MaxInside}, Optional: true, Step: 0.5, Decimals: 4,
			Tip:   "Of the straight run.",
			Doc:   "a straight run: {}",
			Shown: run,
		},
		{
			Path: "band.inside.profile[].radius_mm", Group: ProfileGroup, Title: "Piece #, radius", Unit: "mm", Range: Range{unroll.MinPieceRadius, unroll.MaxPieceRadius}, Optional: true, Step: 0.5, Decimals: 4,
			Tip:   "Of the arc, on the inner face.",
			Doc:   "an arc: {}",
			Shown: arc,
		},
		{
			Path: "band.inside.profile[].angle_deg", Group: ProfileGroup, Title: "Piece #, angle", Unit: "\u00b0", Range: Range{-360, 360}, Step: 1, Decimals: 4,
			Tip:   "How far the arc turns: positive bends round the wrist, negative away from it. All angles together are 360\u00b0.",
			Doc:   "an arc: 0.1 to 360, or -0.1 to -360 where it bends away from the wrist; the radius must then be at least twice the thickness",
			Shown: arc,
		},
	}
}
