package pattern

import (
	"fmt"
	"math"

	"fretband/unroll"
	"fretband/unroll/plane"
)

// What lies at a place of its own on the blank: reserves, engraving, and what was done by
// hand.

// Words for what has no meaning.
var (
	elsePath  = fmt.Sprintf("goes with shape %q only; leave it out", PathShape)
	elseShape = fmt.Sprintf("goes with %q and %q only; leave shape and path out", Replace, Add)
	elseTie   = fmt.Sprintf("goes with %q only; leave it out", Tie)
)

func reserveEntries() []Entry {
	shape := func(d *Design, at At) string { return d.Reserves[at[0]].Shape }
	of := func(d *Design, at At) outline { return d.Reserves[at[0]].outline() }
	width := Entry{
		Path: "reserves[].width_mm", Group: ReserveGroup, Unit: "mm", Range: SizeRange, Step: 0.5, Decimals: 2,
		Doc: "{}: diameter of a circle, length of the others",
		For: sized(of, true),
	}
	height := Entry{
		Path: "reserves[].height_mm", Group: ReserveGroup, Unit: "mm", Range: SizeRange, Step: 0.5, Decimals: 2,
		Doc: "oval, rectangle, path: {}",
		For: sized(of, false),
	}
	return append(append([]Entry{
		{
			Path: "reserves", Most: MaxReserves,
			Doc:  "list, at most {}, of areas kept solid; those of rows counted singly at most 2000, their paths with at most 5000 edges (lines and arcs) together:",
			Rule: boundReserves,
		},
		{
			Path: "reserves[].shape", Group: ReserveGroup, Title: "Shape", Wrong: "is not a shape",
			Tip:     "Of the area that is kept solid.",
			Options: []Option{{CircleShape, "Circle"}, {OvalShape, "Oval"}, {RectangleShape, "Rectangle"}, {PathShape, "Drawn shape"}},
			Without: unlessDrawn(shape),
			Rule:    func(d *Design, at At) error { return of(d, at).checkSizes(pathAt("reserves[]", at)) },
		},
		{
			Path: "reserves[].x_mm", Group: ReserveGroup, Title: "Along", Unit: "mm", Range: PositionRange, Step: 0.5, Decimals: 2,
			Tip: "From the middle of the blank, to the right. Of a row: its middle.",
			Doc: "{}, of its middle, along the blank from the front",
		},
		{
			Path: "reserves[].y_mm", Group: ReserveGroup, Title: "Across", Unit: "mm", Range: PositionRange, Step: 0.5, Decimals: 2,
			Tip: "From the middle of the blank, upwards.",
			Doc: "{}, across the blank",
		},
	}, sizeEntries(width, height, "Of the solid place itself.", ".", of)...),
		Entry{
			Path: "reserves[].turn_deg", Group: ReserveGroup, Title: "Turn", Unit: "\u00b0", Range: RotationRange, Step: 5, Decimals: 2,
			Tip:   "Anticlockwise, about its middle.",
			Shown: func(d *Design, at At) bool { return d.Reserves[at[0]].Shape != CircleShape },
		},
		Entry{
			Path: "reserves[].path", Data: true, Bytes: MaxPath,
			Doc:  "SVG path data of one closed curve, in mm, y down as in SVG",
			For:  is(shape, PathShape),
			Else: elsePath,
			Rule: func(d *Design, at At) error { return of(d, at).checkPath(pathAt("reserves[]", at)) },
		},
		Entry{
			Path: "reserves[].margin_mm", Group: ReserveGroup, Title: "Margin", Unit: "mm", Range: Range{0, 20}, Step: 0.1, Decimals: 2,
			Tip: "The distance that openings keep from the reserve.",
			Doc: "{}: how far openings stay away",
		},
		Entry{
			Path: "reserves[].count", Group: ReserveGroup, Title: "In a row", Range: Range{0, 200}, Typed: &Range{1, 200}, Step: 1,
			Tip: "How many stand in a row along the band, as stones do. 1 is a single one.",
			Doc: "{}: so many in a row along the band",
		},
		Entry{
			Path: "reserves[].spacing_mm", Group: ReserveGroup, Title: "Spacing", Unit: "mm", Range: SpacingRange, Step: 0.5, Decimals: 2, Empty: "even",
			Tip:   "From middle to middle, along the band. Left empty, it spreads them evenly round a closed band, and along an open one.",
			Doc:   "{}, from middle to middle; along the arc of a flared band; 0: evenly round a closed band, evenly along an open one",
			Shown: func(d *Design, at At) bool { return d.Reserves[at[0]].Count > 1 },
		},
		Entry{
			Path: "reserves[].note", Title: "For", Bytes: 200,
			Tip: "What the place is kept for: stone seat, hallmark, hinge.",
			Doc: `{}, as "stone seat"`,
		},
	)
}

func engravingEntries() []Entry {
	of := func(kinds ...string) func(*Design, At) bool {
		return is(func(d *Design, at At) string { return d.Engravings[at[0]].Kind }, kinds...)
	}
	return []Entry{
		{
			Path: "marks", Most: MaxEngravings,
			Doc: "list, at most {}, of what is engraved, not cut; its lines are at most 100000 mm long together, all paths of the design at most 20000 lines, curves and moves:",
		},
		{
			Path: "marks[].kind", Wrong: "is not a kind of mark",
			Options: []Option{{LineEngraving, "Line"}, {PathEngraving, "Drawn lines"}, {TextEngraving, "Text"}},
		},
		{
			Path: "marks[].text", Title: "Text", Bytes: 80, Needed: true, Wrong: "is one line; make a mark of each line",
			Tip:  "One line, drawn as outlines. Letters, digits and signs of Latin, Greek and Cyrillic.",
			Doc:  "text: one line of at most 80 bytes, drawn as outlines",
			For:  of(TextEngraving),
			Else: "goes with a text only; leave it out",
			Rule: textOnOneLine,
		},
		{
			Path: "marks[].path", Title: "Lines", Data: true, Bytes: MaxPath,
			Doc:  "path: SVG path data, open or closed curves, in mm; those that openings keep away from have at most 2000 edges together",
			For:  of(PathEngraving),
			Else: "goes with a path only; leave it out",
			Rule: engravedPath,
		},
		{
			Path: "marks[].x_mm", Group: EngravingGroup, Title: "Along", Unit: "mm", Range: PositionRange, Step: 0.5, Decimals: 2,
			Tip: "Of its middle, from the middle of the blank, to the right.",
			Doc: "{}, of its middle, of a path's origin",
		},
		{
			Path: "marks[].y_mm", Group: EngravingGroup, Title: "Across", Unit: "mm", Range: PositionRange, Step: 0.5, Decimals: 2,
			Tip: "Of its middle, from the middle of the blank, upwards.",
		},
		{
			Path: "marks[].length_mm", Group: EngravingGroup, Title: "Length", Unit: "mm", Range: LengthRange, Step: 0.5, Decimals: 2,
			Tip: "From end to end.",
			Doc: "line: {}",
			For: of(LineEngraving),
		},
		{
			Path: "marks[].height_mm", Group: EngravingGroup, Title: "Capitals", Unit: "mm", Range: LetterRange, Step: 0.1, Decimals: 2,
			Tip: "The height of a capital letter.",
			Doc: "text: {}, of its capitals",
			For: of(TextEngraving),
		},
		{
			Path: "marks[].turn_deg", Group: EngravingGroup, Title: "Turn", Unit: "\u00b0", Range: RotationRange, Step: 5, Decimals: 2,
			Tip: "Anticlockwise.",
		},
		{
			Path: "marks[].side", Group: EngravingGroup, Title: "Face", Wrong: "is no face of the band",
			Tip:     "The face that it is on. What is inside reads right from inside; the blank shows it mirrored, in broken lines.",
			Doc:     "outside if left out; inside is on the face that touches the skin, and reads right from there",
			Options: []Option{{"", "Outside"}, {InsideFace, "Inside"}},
		},
		{
			Path: "marks[].keep_mm", Group: EngravingGroup, Title: "Distance", Unit: "mm", Range: EngravingMarginRange, Typed: &Range{0, EngravingMarginRange.Max}, Step: 0.1, Decimals: 2,
			Tip:   "How far openings stay away from the lines; from a text, from the box round it. A bridge is left there at least.",
			Doc:   "{}: how far openings stay away; under 0 they may run through",
			Shown: func(d *Design, at At) bool { return d.Engravings[at[0]].MarginMM >= 0 },
		},
		{
			Path: "marks[].keep_mm", Case: "by", Group: EngravingGroup, Title: "Openings",
			Tip:     "Whether the pattern leaves room for the mark, or may be cut through it.",
			Options: []Option{{"away", "keep away from it"}, {"through", "may run through it"}},
		},
		{
			Path: "marks[].note", Title: "For", Bytes: 200,
			Tip: "What it is: maker's name, fineness, a guide line.",
		},
	}
}

// editEntries are what was done by hand. The window shows them of the selection, which may
// be mirrored or lie in several edits.
func editEntries() []Entry {
	do := func(kinds ...string) func(*Design, At) bool {
		return is(func(d *Design, at At) string { return d.Edits[at[0]].Do }, kinds...)
	}
	of := func(d *Design, at At) outline { return d.Edits[at[0]].outline() }
	shaped, changed, tie := do(Replace, Add), do(Change), do(Tie)
	both := func(a, b func(*Design, At) bool) func(*Design, At) bool {
		return func(d *Design, at At) bool { return a(d, at) && b(d, at) }
	}
	width := Entry{
		Path: "edits[].width_mm", Group: HandGroup, Unit: "mm", Range: SizeRange, Step: 0.1, Decimals: 2,
		Doc: "its size, as a reserve's; tie: {}, its width, the bridge rule if left out or less than that",
		For: func(d *Design, at At) bool {
			if tie(d, at) {
				return d.Edits[at[0]].WidthMM != 0
			}
			return shaped(d, at) && sized(of, true)(d, at)
		},
	}
	height := width
	height.Path, height.Doc, height.For = "edits[].height_mm", "as a reserve's", both(shaped, sized(of, false))
	circle := width
	circle.Case, circle.Title, circle.Tip = "circle", "Diameter", "Of the circle."
	circle.Shown = both(shaped, is(func(d *Design, at At) string { return of(d, at).shape }, CircleShape))
	width.Title, width.Tip = "Length", "Of the shape, along the band before it is turned."
	height.Title, height.Tip = "Height", "Of the shape, across the band before it is turned."
	width.Shown, height.Shown = height.For, height.For
	across := width
	across.Case, across.Title, across.Tip = "tie", "Width", "Of the tie. Left empty, it is the bridge rule, and it is never less."
	across.Typed, across.Shown, across.Empty, across.Hundred = &Range{0, SizeRange.Max}, tie, "rule", bridgeRule
	return []Entry{
		{
			Path: "edits", Most: MaxEdits,
			Doc:  `list, at most {}, of what was done by hand, in at most 4000 places, mirror images counted; the paths of "replace" and "add" together have at most 5000 edges. Where more lie over each other or nearer than the bridge than can be trimmed in two seconds (some 3000 pairs of small circles, fewer of larger or finer shapes), the later ones are left out, and the report says so:`,
			Rule: boundEditPositions,
		},
		{
			Path: "edits[].do", Wrong: "can't be done",
			Doc:     `"solid" (cells are left solid), "change" (openings are moved, turned, scaled), "replace" (they become another shape), "add" (a single opening is cut) or "tie" (a bridge of metal is left across openings)`,
			Options: []Option{{LeaveSolid, "Left solid"}, {Change, "Changed"}, {Replace, "Replaced"}, {Add, "Drawn"}, {Tie, "Tied"}},
		},
		{
			Path: "edits[].at", Most: MaxSpots, Needed: true, Parts: "places",
			Doc: "list of 1 to {} places on the blank; each works on the cell that holds it, of a tie each is its first end:",
		},
		{
			Path: "edits[].at[].x_mm", Unit: "mm", Range: PositionRange,
		},
		{
			Path: "edits[].at[].y_mm", Unit: "mm", Range: PositionRange,
		},
		{
			Path: "edits[].mirror", Group: HandGroup, Title: "Mirror",
			Tip:     "Whatever is done here is done to the mirror image as well: at the other end of the band, at its other edge, or both.",
			Doc:     "{}: done at the mirror images as well",
			Options: []Option{{"", "No copies"}, {MirrorAlong, "Left and right"}, {MirrorAcross, "Above and below"}, {MirrorBoth, "All four"}},
		},
		{
			Path: "edits[].move_x_mm", Group: HandGroup, Title: "Along", Unit: "mm", Range: PositionRange, Step: 0.1, Decimals: 2,
			Tip: "How far it is moved along the band, to the right; of an opening drawn by hand its place, from the middle.",
			Doc: "change: {}, along the band (a flared one: round its arc)",
			For: changed,
		},
		{
			Path: "edits[].move_y_mm", Group: HandGroup, Title: "Across", Unit: "mm", Range: PositionRange, Step: 0.1, Decimals: 2,
			Tip: "How far it is moved across the band, upwards; of an opening drawn by hand its place, from the middle.",
			Doc: "change: {}",
			For: changed,
		},
		{
			Path: "edits[].turn_deg", Group: HandGroup, Title: "Turn", Unit: "\u00b0", Range: RotationRange, Typed: &Range{-180, 180}, Step: 1, Decimals: 2,
			Tip: "Turned about its own middle, counter-clockwise.",
			For: do(Change, Replace, Add),
		},
		{
			Path: "edits[].scale", Group: HandGroup, Title: "Scale", Unit: "%", Range: ScaleRange, Typed: &Range{100 * ScaleRange.Min, 100 * ScaleRange.Max}, Optional: true, Step: 5, Decimals: 2,
			Tip: "Made larger or smaller about its own middle. The metal beside it gives way only as far as the bridge allows.",
			Doc: "change: {}; 1 if left out",
			For: changed,
		},
		{
			Path: "edits[].shape", Group: HandGroup, Title: "Shape", Wrong: "is not a shape",
			Tip:     "Replace it by a shape of your own, or give it back the pattern's.",
			Doc:     "replace and add: {}",
			Options: []Option{{CircleShape, "Circle"}, {OvalShape, "Oval"}, {RectangleShape, "Rectangle"}, {PathShape, "A path of your own"}},
			For:     shaped,
			Else:    elseShape,
			Rule: func(d *Design, at At) error {
				if shaped(d, at) {
					return of(d, at).checkSizes(pathAt("edits[]", at))
				}
				if d.Edits[at[0]].Path != "" {
					return &unroll.FieldError{Path: pathAt("edits[].shape", at), Msg: elseShape}
				}
				return nil
			},
		},
		circle, width, height, across,
		{
			Path: "edits[].span_x_mm", Group: HandGroup, Title: "Runs on", Unit: "mm", Range: PositionRange, Step: 0.1, Decimals: 2,
			Tip:  "How far along the band the tie runs from its first end to the other, to the right.",
			Doc:  "tie: {}, along the band, from its place to its other end; an end in an opening is taken on to the metal",
			For:  tie,
			Else: elseTie,
			Rule: func(d *Design, at At) error {
				if e := &d.Edits[at[0]]; e.Do == Tie && math.Hypot(e.SpanXMM, e.SpanYMM) < SizeRange.Min {
					return &unroll.FieldError{Path: pathAt("edits[].span_x_mm", at), Msg: fmt.Sprintf("a tie runs from one end to another: with span_y_mm it must be at least %g mm long", SizeRange.Min)}
				}
				return nil
			},
		},
		{
			Path: "edits[].span_y_mm", Group: HandGroup, Title: "Rises", Unit: "mm", Range: PositionRange, Step: 0.1, Decimals: 2,
			Tip:  "How far across the band the tie runs from its first end to the other, upwards.",
			Doc:  "tie: {}, across the band",
			For:  tie,
			Else: elseTie,
		},
		{
			Path: "edits[].bow_mm", Group: HandGroup, Title: "Bow", Unit: "mm", Range: PositionRange, Step: 0.1, Decimals: 2,
			Tip:  "How far the tie's middle stands off the straight line, to the left on the way from its first end. 0 is straight; half its length at most.",
			Doc:  "tie: {}, of its middle off the straight line, to the left on the way; an arc, at most half of a circle",
			For:  tie,
			Else: elseTie,
			Rule: func(d *Design, at At) error {
				e := &d.Edits[at[0]]
				if most := math.Hypot(e.SpanXMM, e.SpanYMM) / 2; e.Do == Tie && math.Abs(e.BowMM) > most+plane.Snap {
					return &unroll.FieldError{Path: pathAt("edits[].bow_mm", at), Msg: Say("may be half the tie's length at most, which makes half of a circle: %.2f mm; it is %.2f", most, math.Abs(e.BowMM))}
				}
				return nil
			},
		},
		{
			Path: "edits[].path", Data: true, Bytes: MaxPath,
			Doc:  "SVG path data of one closed curve, in mm, y down as in SVG; the middle of its box comes to lie at the place",
			For:  func(d *Design, at At) bool { return shaped(d, at) && d.Edits[at[0]].Shape == PathShape },
			Else: elsePath,
			Rule: func(d *Design, at At) error { return of(d, at).checkPath(pathAt("edits[]", at)) },
		},
		{
			Path: "edits[].note", Bytes: 200,
		},
	}
}
