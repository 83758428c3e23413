package pattern

import (
	"slices"

	"fretband/pattern/motif"
)

// fieldEntries are the fields: their motif, how often it is repeated, and how the whole lies.
func fieldEntries() []Entry {
	return []Entry{
		{
			Path: "fields", Most: MaxFields,
			Doc:  "the pattern: list of 0 to {} fields. Where areas overlap the earlier field has the right of way",
			Rule: allCells,
		},
		{
			Path: "fields[].name", Title: "Name", Bytes: 80,
			Tip: "What you call this field; its motif if left empty.",
		},
		{
			Path: "fields[].motif", Title: "Motif",
			Tip: "The shape that repeats.",
			Doc: `{} or "own"`,
			Offer: func(d *Design, at At) []Option {
				os := motifOptions()
				if d.Fields[at[0]].Motif == motif.OwnKey {
					os = append(os, Option{motif.OwnKey, OwnTitle})
				}
				return os
			},
			Rule: motifKnown,
		},
		{
			Path: "fields[].path", Title: "Your own shape", Data: true,
			Doc:  `motif "own": SVG path data of one closed curve; only its shape counts. All cells of own motifs together have at most 300000 edges (lines and arcs)`,
			For:  func(d *Design, at At) bool { return d.Fields[at[0]].Motif == motif.OwnKey },
			Else: `goes with motif "own" only; leave it out`,
		},
		{
			Path: "fields[].left_half", Group: ArrangeGroup, Title: "Left half",
			Tip:     "How your own shape lies on the left half of a cuff: as you drew it, or as the mirror image of the right half.",
			Doc:     `motif "own", on a cuff: "mirrored" mirrors the shape left of the middle, unless the field is turned; files before version 4 always did`,
			Options: []Option{{"", "As drawn"}, {LeftMirrored, "Mirrored"}},
			Shown:   func(d *Design, at At) bool { return d.Fields[at[0]].Motif == motif.OwnKey && d.Band.Open() },
		},
		{
			Path: "fields[].numbers", Title: "The motif's own numbers",
			Doc: `the motif's own numbers by name, as {"angle_deg": 55}; those left out take the motif's default`,
		},
		{
			Path: "fields[].rows", Group: GridGroup, Title: "Rows", Range: RowsRange, Step: 1, Slider: Range{1, 12}, RingSlider: Range{1, 6},
			Tip:  "How many rows of openings stand across the field.",
			Rule: countedOnce,
		},
		{
			Path: "fields[].repeats", Group: GridGroup, Title: "Repeats", Range: RepeatsRange, Step: 1, Slider: Range{2, 60}, RingSlider: Range{2, 40},
			Tip:  "How often the motif stands along the field. All round a closed band it closes exactly.",
			Doc:  "{}; rows times repeats of all fields at most 30000",
			For:  func(d *Design, at At) bool { return d.Fields[at[0]].PitchMM == 0 },
			Rule: cells,
		},
		{
			Path: "fields[].pitch_mm", Group: GridGroup, Title: "Pitch", Unit: "mm", Range: PitchRange, Optional: true, Step: 0.1, Decimals: 2, Slider: Range{1.5, 15}, RingSlider: Range{0.8, 6},
			Tip:   "From one repeat to the next. As many stand along the field as have room; all round a closed band, and where whole ones are fitted, as many as come nearest to it.",
			Doc:   `instead of repeats, {}: on a closed band, or with edge "fit", as many stand along as come nearest to this pitch; else exactly this pitch, from the middle of the area`,
			Shown: func(d *Design, at At) bool { return d.Fields[at[0]].PitchMM != 0 },
		},
		{
			Path: "fields[].stagger", Group: GridGroup, Title: "Stagger", Unit: "repeat", Range: Range{0, 0.5}, Step: 0.05, Decimals: 3, Slider: Range{0, 0.5}, Hundred: one,
			Tip:   "How far every other row is moved along, as a share of a repeat: 0.5 is half way, as bricks are laid.",
			Doc:   "{} of the pitch, of every other row",
			Shown: func(d *Design, at At) bool { return !d.Fields[at[0]].Interlocks() },
		},
		{
			Path: "fields[].count", Group: ArrangeGroup, Title: "Count by",
			Tip:     "How you say how often the motif stands along: so many repeats, or a pitch in mm that is kept when the band's length changes.",
			Options: []Option{{"repeats", "Number of repeats"}, {"pitch", "Pitch in mm"}},
		},
		{
			Path: "fields[].mirror", Group: ArrangeGroup, Title: "Mirror",
			Tip:     "One half of the field is drawn as the mirror image of the other, about the middle of the field.",
			Doc:     `"along" (left and right mirror each other), "across" or "both"`,
			Options: []Option{{"", "As it falls"}, {MirrorAlong, "Left and right alike"}, {MirrorAcross, "Above and below alike"}, {MirrorBoth, "Both"}},
		},
		{
			Path: "fields[].edge", Group: ArrangeGroup, Title: "At the edge", Usual: EdgeClip,
			Tip:     "What becomes of openings that the field's edge, the rim or a reserve would cut: they are cut, or left solid, or left solid with the pitch stretched so that whole ones fill the length.",
			Doc:     `"clip" (cells at the edge are cut; if left out), "whole" (they are left solid) or "fit" (as whole, the pitch stretched to fill)`,
			Options: []Option{{EdgeClip, "Openings are cut"}, {EdgeWhole, "Whole ones only"}, {EdgeFit, "Whole ones, fitted"}},
		},
		{
			Path: "fields[].follow", Group: ArrangeGroup, Title: "Taper", Usual: FollowClip,
			Tip:     "Where the band is narrower, the rim cuts the pattern off, or the pattern grows smaller with the width.",
			Doc:     `"clip" (cells are cut by the rim; if left out) or "width" (cells scale with the band's width; on the whole band and in a run only)`,
			Options: []Option{{FollowClip, "Cut off by the rim"}, {FollowWidth, "Smaller with the width"}},
			Shown: func(d *Design, _ At) bool {
				return d.Band.WidthMM != d.Band.EndWidthMM || len(d.Band.TopEdge)+len(d.Band.BottomEdge) > 0
			},
		},
		{
			Path: "fields[].phase", Group: ArrangeGroup, Title: "Shift", Unit: "repeat", Range: Range{-1, 1}, Step: 0.05, Decimals: 3, Slider: Range{-0.5, 0.5}, Hundred: one,
			Tip: "Moves the whole field along, as a share of a repeat: 0.5 puts a bridge where the middle of an opening stood.",
			Doc: "{} of the pitch: the whole field is moved along by it",
		},
		{
			Path: "fields[].turn_deg", Group: ArrangeGroup, Title: "Turn", Unit: "\u00b0", Range: RotationRange, Step: 1, Decimals: 2, Slider: Range{-90, 90},
			Tip: "Turns the rows about the middle of the field, anticlockwise. All round a closed band they take the nearest turn at which the pattern closes.",
			Doc: "{}: the field is turned about the middle of its area; on a closed band to the nearest turn at which the pattern closes",
		},
		{
			Path: "fields[].bridge_mm", Group: ArrangeGroup, Title: "Own bridge", Unit: "mm", Range: BridgeRange, Optional: true, Typed: &Range{0, BridgeRange.Max},
			Step: 0.05, Decimals: 2, Slider: Range{0, 4}, RingSlider: Range{0, 2.5}, Empty: "rule", Hundred: bridgeRule,
			Tip: "A wider bridge for this field alone. Left empty, it keeps to the rule, and where the rule is wider, it holds.",
			Doc: "{}, the field's own bridge; the rule's holds where it is wider, or if this is left out",
		},
		{
			Path: "fields[].wider_along_mm", Group: ArrangeGroup, Title: "Wider along", Unit: "mm", Range: WiderRange, Step: 0.05, Decimals: 2, Slider: Range{0, 3}, RingSlider: Range{0, 2},
			Tip: "Bridges that run along the band, as those between rows, are wider by this; slanting ones by a part of it.",
			Doc: "{}: by how much bridges that run along the band are wider than the field's, slanting ones by a part of it",
		},
		{
			Path: "fields[].wider_across_mm", Group: ArrangeGroup, Title: "Wider across", Unit: "mm", Range: WiderRange, Step: 0.05, Decimals: 2, Slider: Range{0, 3}, RingSlider: Range{0, 2},
			Tip: "Bridges that run across the band are wider by this; slanting ones by a part of it.",
			Doc: "{}: by how much bridges that run across the band are wider than the field's, slanting ones by a part of it",
		},
	}
}

func motifOptions() []Option {
	var os []Option
	for _, m := range motif.All() {
		os = append(os, Option{m.Key, m.Title})
	}
	return os
}

// OwnTitle is what the motif of a person's own shape is called.
const OwnTitle = "Your own"

// areaEntries are where a field lies.
func areaEntries() []Entry {
	area := func(d *Design, at At) outline { return d.Fields[at[0]].Area.outline() }
	shape := func(d *Design, at At) string { return d.Fields[at[0]].Area.Shape }
	stretch := is(shape, RunShape, StripShape)
	middle := is(shape, CircleShape, OvalShape, RectangleShape, PathShape)
	high := is(shape, OvalShape, RectangleShape, PathShape)
	width := Entry{
		Path: "fields[].area.width_mm", Group: AreaGroup, Unit: "mm", Range: SizeRange, Step: 0.5, Decimals: 2,
		Doc: "{}: diameter of a circle, length of an oval or rectangle; a path is stretched to it",
		For: sized(area, true),
	}
	height := Entry{
		Path: "fields[].area.height_mm", Group: AreaGroup, Unit: "mm", Range: SizeRange, Step: 0.5, Decimals: 2,
		Doc: "oval, rectangle, path: {}",
		For: sized(area, false),
	}
	return append(append([]Entry{
		{Path: "fields[].area", Title: "Area", Doc: "where the field lies; the whole band if left out:"},
		{
			Path: "fields[].area.shape", Group: AreaGroup, Title: "Area", Wrong: "is not a shape of area",
			Tip: "Where the field lies. A run is a piece of the length, a strip a piece of the width.",
			Doc: `"run" (a piece of the length), "strip" (a piece of the width), "circle", "oval", "rectangle" or "path"`,
			Options: []Option{
				{"", "Whole band"}, {RunShape, "Run along the band"}, {StripShape, "Strip across it"},
				{CircleShape, "Circle"}, {OvalShape, "Oval"}, {RectangleShape, "Rectangle"}, {PathShape, "Your own shape"},
			},
			Without: unlessDrawn(shape),
			Rule:    func(d *Design, at At) error { return area(d, at).checkSizes(pathAt("fields[].area", at)) },
		},
		{
			Path: "fields[].area.from_mm", Group: AreaGroup, Title: "From", Unit: "mm", Range: PositionRange, Step: 0.5, Decimals: 2,
			Tip: "Where it begins, from the middle of the blank: along a run negative is left, across a strip it is below.",
			Doc: "run: along, strip: across; {} from the middle of the blank",
			For: stretch,
		},
		{
			Path: "fields[].area.to_mm", Group: AreaGroup, Title: "To", Unit: "mm", Range: PositionRange, Step: 0.5, Decimals: 2,
			Tip:  "Where it ends, from the middle of the blank.",
			Doc:  "the same, more than from_mm",
			Rule: stretchOrder,
			For:  stretch,
		},
		{
			Path: "fields[].area.x_mm", Group: AreaGroup, Title: "Along", Unit: "mm", Range: PositionRange, Step: 0.5, Decimals: 2,
			Tip: "Of its middle, from the middle of the blank to the right.",
			Doc: "of the other shapes' middle, of a path's origin: {}",
			For: middle,
		},
		{
			Path: "fields[].area.y_mm", Group: AreaGroup, Title: "Across", Unit: "mm", Range: PositionRange, Step: 0.5, Decimals: 2,
			Tip: "Of its middle, from the middle of the blank upwards.",
			Doc: "the same across",
			For: middle,
		},
	}, sizeEntries(width, height, "Of the circle.", ": the shape is stretched to it.", area)...),
		Entry{
			Path: "fields[].area.turn_deg", Group: AreaGroup, Title: "Turned by", Unit: "\u00b0", Range: RotationRange, Step: 5, Decimals: 2,
			Tip:   "Anticlockwise, about its middle. The rows inside keep their direction.",
			Doc:   "{}, anticlockwise",
			For:   middle,
			Shown: high,
		},
		Entry{
			Path: "fields[].area.path", Title: "Area", Data: true, Bytes: MaxPath,
			Doc:  "SVG path data of one closed curve, in mm, y down as in SVG; those of all areas have at most 5000 edges (lines and arcs) together",
			For:  is(shape, "", RunShape, StripShape, PathShape),
			Else: elsePath,
			Rule: func(d *Design, at At) error { return area(d, at).checkPath(pathAt("fields[].area", at)) },
		},
	)
}

// unlessDrawn leaves a drawn shape out of what is offered where there is none: it comes
// from a drawing.
func unlessDrawn(shape func(*Design, At) string) func(*Design, At, string) bool {
	return func(d *Design, at At, key string) bool { return key == PathShape && shape(d, at) != PathShape }
}

// sized says of designs that a shape of theirs has a width, or a height. A path as large
// as it was drawn has neither.
func sized(of func(*Design, At) outline, wide bool) func(*Design, At) bool {
	return func(d *Design, at At) bool {
		switch o := of(d, at); o.shape {
		case CircleShape:
			return wide
		case OvalShape, RectangleShape:
			return true
		case PathShape:
			return o.width != 0 || o.height != 0
		}
		return false
	}
}

// sizeEntries are the sizes of a shape under the titles that they have in each: of a
// circle, of an oval or rectangle, and of a path that is stretched.
func sizeEntries(width, height Entry, ofCircle, ofPath string, of func(*Design, At) outline) []Entry {
	titled := func(e Entry, c, title, tip string, shapes ...string) Entry {
		e.Case, e.Title, e.Tip = c, title, tip
		e.Shown = func(d *Design, at At) bool {
			o := of(d, at)
			return slices.Contains(shapes, o.shape) && (o.shape != PathShape || o.width > 0)
		}
		return e
	}
	const along, across = "Along the band, before it is turned", "Across the band, before it is turned"
	return []Entry{
		titled(width, "circle", "Diameter", ofCircle, CircleShape),
		titled(width, "", "Length", along+".", OvalShape, RectangleShape),
		titled(width, "path", "Length", along+ofPath, PathShape),
		titled(height, "", "Height", across+".", OvalShape, RectangleShape),
		titled(height, "path", "Height", across+ofPath, PathShape),
	}
}

// gradeEntries are the sizes of cells over a field, along or across it.
func gradeEntries(name string, g Group) []Entry {
	list := "fields[]." + name
	way, ends, from, to := "along", "left end to its right", "left", "right"
	doc := "list of at most {} points: the size of cells along the area, with a smooth curve through them; the whole fills the area as it would ungraded. Round a closed band the curve runs on over the seam; sizes at both -1 and 1 are one place there and take their mean. Mirrored, the half above 0 counts"
	at, size := "-1 (left end) to 1 (right end), each more than the one before", "{}, in proportion to the others"
	var last []Entry
	if g == AcrossGroup {
		way, ends, from, to = "across", "bottom to its top", "bottom", "top"
		doc, at, size = "the same across the area, -1 at the bottom", SaidOnce, SaidOnce
		last = []Entry{{
			Path: "fields[].grade_bridge", Group: SizesGroup, Title: "Bridges too", Range: Range{0, 1}, Step: 0.1, Decimals: 2, Slider: Range{0, 1}, Hundred: one,
			Tip: "How far the bridges grow with the openings: 0 keeps them all alike, 1 has them grow in the same proportion. None falls under the rule.",
			Doc: "{}: how far bridges grow and shrink with the cells",
			Shown: func(d *Design, at At) bool {
				return len(d.Fields[at[0]].GradeAlong)+len(d.Fields[at[0]].GradeAcross) > 0
			},
		}}
	}
	return append([]Entry{
		{
			Path: list, Title: "Size " + way, Most: MaxGrades, Parts: "points", Doc: doc,
			Tip: "How the size of openings changes " + way + " the field, from its " + ends + ".",
		},
		{
			Path: list + "[].at", Group: g, Title: "Size " + way + ", point #, place", Range: GradeAtRange, Step: 0.05, Decimals: 3,
			Tip:  "The place in the field: -1 is the " + from + " end, 0 the middle, 1 the " + to + " end.",
			Doc:  at,
			Rule: gradeOrder(list + "[].at"),
		},
		{
			Path: list + "[].size", Group: g, Title: "Size " + way + ", point #, size", Range: GradeRange, Step: 0.05, Decimals: 3, Hundred: one,
			Tip: "How large openings are there, in proportion to the others: 1 and 2 is twice as large as at 1.",
			Doc: size,
		},
	}, last...)
}

// bridgeEntries are the width of bridges along a field.
func bridgeEntries() []Entry {
	const list = "fields[].bridge_along"
	return []Entry{
		{
			Path: list, Title: "Bridges along", Most: MaxGrades, Parts: "points",
			Tip: "How the bridges grow and shrink along the field, whatever the openings do.",
			Doc: "list of at most {} points: the bridges along the area, in proportion to the field's bridge, with a curve as of grade_along; nowhere under bridge_mm of the rules. It holds between openings of the field",
		},
		{
			Path: list + "[].at", Group: BridgesGroup, Title: "Bridges along, point #, place", Range: GradeAtRange, Step: 0.05, Decimals: 3,
			Tip:  "The place in the field: -1 is the left end, 0 the middle, 1 the right end.",
			Doc:  "-1 (left end) to 1 (right end), each more than the one before",
			Rule: gradeOrder(list + "[].at"),
		},
		{
			Path: list + "[].size", Group: BridgesGroup, Title: "Bridges along, point #, size", Range: GradeRange, Step: 0.05, Decimals: 3, Hundred: one,
			Tip: "How wide bridges are there, in proportion to the field's bridge: 1 is its width, 1.5 half as much again. None falls under the rule.",
			Doc: "{}, in proportion to the field's bridge",
		},
	}
}
