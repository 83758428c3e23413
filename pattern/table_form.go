package pattern

import "fretband/unroll"

// formEntries are the band's finer form: its ends, edges, section and flare, how it is
// made, and where its length is taken.
func formEntries() []Entry {
	pointed := func(d *Design, at At) bool { return isCuff(d, at) && d.Band.EndShape == unroll.PointEnd }
	domed := func(d *Design, _ At) bool { return d.Band.Dome != "" }
	return append(append([]Entry{
		{
			Path: "band.end_shape", Group: FormGroup, Title: "Ends",
			Tip:     "The shape of a cuff's two ends.",
			Doc:     `cuff: "round" (one arc from edge to edge) or "point"`,
			Options: []Option{{"", "Square, corners rounded"}, {unroll.RoundEnd, "One round"}, {unroll.PointEnd, "Drawn to a point"}},
			For:     isCuff,
		},
		{
			Path: "band.dome", Group: FormGroup, Title: "Section",
			Tip:     "Across the width: flat as a strip, or curved. A domed band can't be unrolled without stretching; what the blank keeps true is your choice.",
			Doc:     "{}: the section across the band is an arc; widths are then measured over the arc, the inside in the middle",
			Options: []Option{{"", "Flat"}, {unroll.Outward, "Domed outwards"}, {unroll.Hollow, "Hollow"}},
		},
		{
			Path: "band.dome_by", Group: FormGroup, Title: "Dome by",
			Tip:     "How the arc of the section is given: by how far its middle rises over the width, or by its radius.",
			Options: []Option{{"rise", "Its rise"}, {"radius", "Its radius"}},
			For:     domed,
		},
		{
			Path: "band.dome_flat", Group: FormGroup, Title: "Keeps true",
			Tip:     "What stays true where a domed section is made flat; the figures say how far the rest is off.",
			Doc:     `needed with dome; what is true on the blank: "arc-length" (lengths across), "conformal" (angles) or "equal-area" (areas)`,
			Options: []Option{{unroll.EqualArea, "Areas, so weights"}, {unroll.Conformal, "Angles, so shapes"}, {unroll.ArcLength, "Lengths across"}},
			For:     domed,
		},
		{
			Path: "band.making", Group: FormGroup, Title: "Made", Usual: unroll.MadeFlat,
			Tip:     "Cut flat and then bent, the flat drawing is the part. Cut or cast as formed, walls follow the normal.",
			Doc:     `"flat" (cut flat, then bent; if left out) or "formed" (cut or cast as formed, walls square to the surface)`,
			Options: []Option{{unroll.MadeFlat, "Cut flat, then bent"}, {unroll.Formed, "Cut or cast as formed"}},
		},
		{
			Path: "band.drawn", Group: FormGroup, Title: "Drawn face", Usual: unroll.MiddleFace,
			Tip:     "Which face of a formed band is drawn flat.",
			Doc:     `formed: the face that the drawing shows, "inner", "middle" (at neutral_k of the thickness; if left out) or "outer"`,
			Options: []Option{{unroll.InnerFace, "The inner face"}, {unroll.MiddleFace, "The middle"}, {unroll.OuterFace, "The outer face"}},
			For:     func(d *Design, _ At) bool { return d.Band.Making == unroll.Formed },
		},
		{
			Path: "band.end_corner_mm", Group: FormGroup, Title: "End corners", Unit: "mm", Range: Range{0, unroll.MaxWidth / 2}, Step: 0.5, Decimals: 2, Slider: Range{0, 20},
			Tip: "The radius at the four corners of a cuff's ends. Sharp corners catch skin and cloth: 1 to 2 mm or more (common practice).",
			Doc: "cuff: radius of the ends' corners, 0 to half the end's width",
			For: func(d *Design, at At) bool { return isCuff(d, at) && d.Band.EndShape == "" },
		},
		{
			Path: "band.end_length_mm", Group: FormGroup, Title: "Point's length", Unit: "mm", Range: Range{unroll.MinTip, unroll.MaxCircumference / 3}, Step: 0.5, Decimals: 2, Slider: Range{5, 50},
			Tip: "From where the end begins to narrow to its tip.",
			Doc: "point: up to a third of the blank's length",
			For: pointed,
		},
		{
			Path: "band.end_radius_mm", Group: FormGroup, Title: "Tip's radius", Unit: "mm", Range: Range{unroll.MinTip, unroll.MaxWidth / 2}, Step: 0.1, Decimals: 2, Slider: Range{0.5, 8},
			Tip: "How blunt the point is: a sharp one snags (common practice).",
			Doc: "point: radius of its tip, 0.3 to a little under half the end's width",
			For: pointed,
		},
		{
			Path: "band.swell_length_mm", Group: FormGroup, Title: "Swell", Unit: "mm", Range: Range{0, unroll.MaxCircumference}, Step: 1, Decimals: 1, Empty: "whole",
			Tip: "The length, about the front, within which the width changes; left empty, it is the whole band.",
			Doc: "1 to the blank's length: how far, about the middle, the width takes to go from the ends' to the middle's; the whole if left out",
			For: func(d *Design, _ At) bool { return d.Band.WidthMM != d.Band.EndWidthMM },
		},
		{
			Path: "band.flare_deg", Group: FormGroup, Title: "Flare", Unit: "\u00b0", Range: Range{-unroll.MaxFlare, unroll.MaxFlare}, Step: 0.5, Decimals: 2, Slider: Range{-20, 20},
			Tip: "The slope of a conical band, from its axis: positive is wider at the top. The inside must be round.",
			Doc: "{}: half-angle of a conical band, positive if the top edge is the wider; round inside only, the inside is that of the middle",
			// A band by its two edges has its flare from them; straight sides and free
			// profiles have none.
			Shown: func(d *Design, at At) bool {
				return d.Band.FlareDeg != 0 || d.Band.Dome == "" && !insideBy(unroll.ByEdges, unroll.BySides, unroll.ByProfile)(d, at)
			},
		},
		{
			Path: "band.dome_rise_mm", Group: FormGroup, Title: "Rise", Unit: "mm", Range: Range{0.001, unroll.MaxWidth / 2}, Optional: true, Step: 0.1, Decimals: 3, Slider: Range{0.2, 6},
			Tip:   "How far the middle of the section stands above its edges.",
			Doc:   "instead of the radius: depth of the arc over width_mm",
			For:   domed,
			Shown: func(d *Design, at At) bool { return domed(d, at) && d.Band.DomeRadiusMM == 0 },
		},
		{
			Path: "band.dome_radius_mm", Group: FormGroup, Title: "Dome radius", Unit: "mm", Range: Range{unroll.MinDome, unroll.MaxDome}, Optional: true, Step: 1, Decimals: 2,
			Tip:   "The radius of the section's arc.",
			Doc:   "{}, of that arc on the surface drawn at its true size",
			For:   domed,
			Shown: func(d *Design, at At) bool { return domed(d, at) && d.Band.DomeRadiusMM != 0 },
		},
		{
			Path: "band.neutral_k", Group: FormGroup, Title: "Neutral line", Unit: "of t", Range: Range{unroll.MinNeutralK, unroll.MaxNeutralK}, Step: 0.01, Decimals: 3, Hundred: one,
			Tip: "Where in the thickness the metal neither stretches nor shortens when bent: 0 is the inner face, 1 the outer. 0.5 for bands (R/t above 2).",
			Doc: "{}: depth of the surface that keeps its length in bending, as a share of the thickness; 0.5 is usual",
		},
	},
		edgeEntries("top_edge", "Top edge", TopGroup,
			"list of at most {} points, left to right, that draw the top edge off its plain place by a smooth curve that goes no further than they do:")...),
		edgeEntries("bottom_edge", "Bottom edge", BottomGroup,
			"the same for the bottom edge, also outwards")...)
}

// edgeEntries are the points that one edge runs through.
func edgeEntries(name, title string, g Group, doc string) []Entry {
	at, out := "-1 (left end) to 1 (right end), 0 in the middle", "{}: how far outside the plain edge"
	if g == BottomGroup {
		at, out = SaidOnce, SaidOnce
	}
	return []Entry{
		{
			Path: "band." + name, Title: title, Most: unroll.MaxEdgePoints, Doc: doc,
			Tip: "A smooth curve through a few points draws the edge off its plain place. It goes no further out or in than they do.",
		},
		{
			Path: "band." + name + "[].at", Group: g, Title: title + ", point #, along", Range: Range{-1, 1}, Step: 0.02, Decimals: 4,
			Tip: "The place along the band: 0 is the middle, -1 the left end, 1 the right end. Points run from left to right.",
			Doc: at,
		},
		{
			Path: "band." + name + "[].out_mm", Group: g, Title: title + ", point #, out", Unit: "mm", Range: Range{-unroll.MaxEdgeOut, unroll.MaxEdgeOut}, Step: 0.1, Decimals: 2,
			Tip: "How far the edge stands outside its plain place there; negative is inside.",
			Doc: out,
		},
	}
}
